//! Ratings against their definitions, written a second time, and against each other.

use hushwright::bands::{Spectrum, Weighting, band_index, exact_mid_hz};
use hushwright::math::{from_db, to_db};
use hushwright::rating::iso717_1::{
    OCTAVES_HZ, REFERENCE_OCTAVES, REFERENCE_THIRDS, SPECTRUM_1_OCTAVES_TO_2000, SPECTRUM_1_OCTAVES_TO_4000, SPECTRUM_1_TO_3150,
    SPECTRUM_1_TO_5000, SPECTRUM_2, SPECTRUM_2_OCTAVES, rate_octaves, rate_thirds,
};
use hushwright::rating::{CriterionRating, ThirdOctaves, astm_e413, astm_e1332, nc, nr};
use proptest::prelude::*;

/// Half a step of rounding and what the tenths of the weighting's table add to it.
const ROUNDING: f64 = 0.51;

fn band(hz: f64) -> usize {
    band_index(hz).expect("a nominal band")
}

fn spectrum_from_100_hz(r_db: &[f64]) -> Spectrum {
    let first = band(100.0);
    Spectrum::from_fn(|index| if index < first { 0.0 } else { r_db.get(index - first).copied().unwrap_or(0.0) })
}

/// ISO 717-1 defines spectrum 1 as pink noise, A-weighted, 0 dB over its range.
#[test]
fn spectrum_1_is_a_weighted_pink_noise_of_0_db() {
    let from_50_hz = band(50.0);
    for (first, table) in
        [(3, &SPECTRUM_1_TO_3150[3..]), (0, &SPECTRUM_1_TO_3150[..]), (0, &SPECTRUM_1_TO_5000[..]), (3, &SPECTRUM_1_TO_5000[3..])]
    {
        let weights: Vec<f64> = (0..table.len()).map(|index| Weighting::A.db(exact_mid_hz(from_50_hz + first + index))).collect();
        let total = to_db(weights.iter().copied().map(from_db).sum());
        for (index, (&level, weight)) in table.iter().zip(weights).enumerate() {
            let derived = weight - total;
            assert!((level as f64 - derived).abs() < ROUNDING, "band {index} from {first}: {level} against {derived:.2}");
        }
    }
}

#[test]
fn spectra_sum_to_0_db_and_octaves_are_sums_of_thirds() {
    let sum = |levels: &[i64]| to_db(levels.iter().map(|&level| from_db(level as f64)).sum());
    for range in [3..19, 0..19, 0..21, 3..21] {
        assert!(sum(&SPECTRUM_2[range.clone()]).abs() < 0.3, "spectrum 2, {range:?}");
    }
    for range in [1..6, 0..6, 0..7, 1..7] {
        assert!(sum(&SPECTRUM_2_OCTAVES[range.clone()]).abs() < 0.5, "spectrum 2 in octaves, {range:?}");
    }
    for octave in 0..7 {
        let thirds = 3 * octave..3 * octave + 3;
        assert!(
            (sum(&SPECTRUM_2[thirds.clone()]) - SPECTRUM_2_OCTAVES[octave] as f64).abs() < ROUNDING,
            "spectrum 2, octave {octave}"
        );
        let to_5000 = sum(&SPECTRUM_1_TO_5000[thirds.clone()]) - SPECTRUM_1_OCTAVES_TO_4000[octave] as f64;
        assert!(to_5000.abs() < 2.0 * ROUNDING, "spectrum 1 to 5000 Hz, octave {octave}: {to_5000}");
        if octave < 6 && thirds.end <= SPECTRUM_1_TO_3150.len() {
            let to_3150 = sum(&SPECTRUM_1_TO_3150[thirds]) - SPECTRUM_1_OCTAVES_TO_2000[octave] as f64;
            assert!(to_3150.abs() < 2.0 * ROUNDING, "spectrum 1 to 3150 Hz, octave {octave}: {to_3150}");
        }
    }
}

#[test]
fn oitc_source_has_the_a_weighted_level_that_the_formula_names() {
    let weighted = astm_e1332::SOURCE_DB.iter().zip(astm_e1332::A_WEIGHTING_DB).map(|(source, weight)| from_db(source + weight));
    assert!((to_db(weighted.sum()) - astm_e1332::SOURCE_DBA).abs() < 0.005);
    for (index, weight) in astm_e1332::A_WEIGHTING_DB.into_iter().enumerate() {
        assert!((Weighting::A.db(exact_mid_hz(band(80.0) + index)) - weight).abs() < 0.06);
    }
}

#[test]
fn the_same_reduction_in_every_band_rates_that_reduction_by_oitc() {
    for r_db in [0.0, 12.0, 30.0, 61.0] {
        assert_eq!(astm_e1332::oitc(&ThirdOctaves::from(&Spectrum::constant(r_db))), Some(r_db as i64));
    }
}

#[test]
fn octave_procedure_stops_at_a_sum_of_10_0_db() {
    let less = |db: f64, last: f64| {
        let mut octaves = [None; OCTAVES_HZ.len()];
        for (index, curve) in REFERENCE_OCTAVES.into_iter().enumerate() {
            octaves[index + 1] = Some(52.0 + curve as f64 - db - if index == 4 { last } else { 0.0 });
        }
        rate_octaves(&octaves).expect("all octaves are there")
    };
    assert_eq!(less(2.0, 0.0).rw, 52);
    assert_eq!(less(2.0, 0.0).unfavourable_db, 10.0);
    assert_eq!(less(2.0, 0.1).rw, 51);
    assert_eq!(less(2.0, 0.05).rw, 52, "rounds half up to the exact sum");
    assert_eq!(less(0.0, 0.0).rw, 54);
    assert!(less(0.0, 0.0).terms_50_3150.is_none() && less(0.0, 0.0).terms_100_5000.is_none());
}

/// R of 20 30 35 40 42 dB at 125 to 2000 Hz. The curve of 38 is 22 31 38 41 42: short by 2 + 1 + 3 + 1 = 7; that of 39 by
/// 3 + 2 + 4 + 2 + 1 = 12. C: 10^-4.1 + 10^-4.4 + 10^-4.3 + 10^-4.5 + 10^-4.6 = 2.261e-4, which is 36.46 dB, and 36 - 38 = -2.
/// Ctr: 10^-3.4 + 10^-4.0 + 10^-4.2 + 10^-4.4 + 10^-4.8 = 6.169e-4, which is 32.10 dB, and 32 - 38 = -6.
#[test]
fn octaves_worked_by_hand() {
    let rated = rate_octaves(&[None, Some(20.0), Some(30.0), Some(35.0), Some(40.0), Some(42.0), None]).expect("five octaves");
    assert_eq!((rated.rw, rated.terms.c, rated.terms.ctr), (38, -2, -6));
    assert_eq!(rated.unfavourable_db, 7.0);
}

#[test]
fn a_missing_band_gives_no_rating() {
    let mut r_db = ThirdOctaves::none();
    for hz in [100.0, 125.0, 160.0, 200.0, 250.0, 315.0, 400.0, 500.0, 630.0, 800.0, 1000.0, 1250.0, 1600.0, 2000.0, 2500.0] {
        assert!(r_db.set(hz, 30.0));
    }
    assert!(rate_thirds(&r_db).is_none() && astm_e413::stc(&r_db).is_none() && astm_e1332::oitc(&r_db).is_none());
    assert!(r_db.set(3150.0, 30.0));
    let rated = rate_thirds(&r_db).expect("16 bands");
    assert!(rated.terms_50_3150.is_none() && rated.terms_50_5000.is_none() && rated.terms_100_5000.is_none());
    assert!(astm_e413::stc(&r_db).is_none());
    assert!(r_db.set(4000.0, 30.0));
    assert!(astm_e413::stc(&r_db).is_some() && astm_e1332::oitc(&r_db).is_none());
    assert!(r_db.set(80.0, 30.0));
    assert!(astm_e1332::oitc(&r_db).is_some());
    assert!(!r_db.set(81.0, 30.0) && !r_db.set(80.0, f64::NAN) && !r_db.set(80.0, f64::INFINITY) && !r_db.set(80.0, 1e9));
    assert!(rate_thirds(&ThirdOctaves::from(&Spectrum::constant(f64::INFINITY))).is_none());
}

#[test]
fn noise_beyond_the_curves_says_so() {
    assert_eq!(nc::nc(&[0.0; 8]), CriterionRating::Below(15.0));
    assert_eq!(nc::nc(&[90.0; 8]), CriterionRating::Above(70.0));
    assert_eq!(nc::nc(&[f64::NEG_INFINITY; 8]), CriterionRating::Below(15.0));
    assert_eq!(nr::nr(&[-20.0; 9]), CriterionRating::Below(0.0));
    assert_eq!(nr::nr(&[200.0; 9]), CriterionRating::Above(130.0));
    let mut octaves = nr::curve_db(25.0);
    octaves[3] += 0.93 * 7.0;
    let CriterionRating::At { value, band_hz } = nr::nr(&octaves) else { panic!("within the family") };
    assert!((value - 32.0).abs() < 1e-9 && band_hz == 250.0);
    assert_eq!(CriterionRating::Above(130.0).rounded(), None);
}

/// Sums of 4.4 in integer hundredths of a decibel, with the rounding done on the decimal digits.
fn sum_by_hand(r_hundredths: &[i64], rw: i64) -> i64 {
    let tenth = |hundredths: i64| 10 * (hundredths + 5).div_euclid(10);
    r_hundredths.iter().zip(REFERENCE_THIRDS).map(|(&r, curve)| (100 * (rw + curve) - tenth(r)).max(0)).sum()
}

proptest! {
    #[test]
    fn rw_is_the_highest_curve_within_32_db(r_hundredths in prop::collection::vec(-500_i64..9000, 16)) {
        let r_db: Vec<f64> = r_hundredths.iter().map(|&r| r as f64 / 100.0).collect();
        let rated = rate_thirds(&ThirdOctaves::from(&spectrum_from_100_hz(&r_db))).expect("finite");
        prop_assert!(sum_by_hand(&r_hundredths, rated.rw) <= 3200);
        prop_assert!(sum_by_hand(&r_hundredths, rated.rw + 1) > 3200);
        prop_assert_eq!((100.0 * rated.unfavourable_db).round() as i64, sum_by_hand(&r_hundredths, rated.rw));
    }

    #[test]
    fn stc_is_the_highest_contour_by_both_rules(tl in prop::collection::vec(-5_i64..90, 16)) {
        let r_db: Vec<f64> = std::iter::once(0.0).chain(tl.iter().map(|&tl| tl as f64)).collect();
        let stc = astm_e413::stc(&ThirdOctaves::from(&spectrum_from_100_hz(&r_db))).expect("finite");
        let allowed = |class: i64| {
            let short: Vec<i64> = tl.iter().zip(astm_e413::CONTOUR).map(|(tl, contour)| (class + contour - tl).max(0)).collect();
            short.iter().sum::<i64>() <= 32 && short.iter().all(|&short| short <= 8)
        };
        prop_assert!(allowed(stc) && !allowed(stc + 1));
    }

    #[test]
    fn whole_decibels_more_everywhere_move_the_ratings_by_as_much(
        tenths in prop::collection::vec(0_i64..700, 27),
        more in -10_i64..30,
    ) {
        let spectrum = |shift: i64| ThirdOctaves::from(&Spectrum::from_fn(|band| (tenths[band] + 10 * shift) as f64 / 10.0));
        let (low, high) = (rate_thirds(&spectrum(0)).expect("finite"), rate_thirds(&spectrum(more)).expect("finite"));
        prop_assert_eq!(high.rw, low.rw + more);
        prop_assert_eq!(high.terms, low.terms);
        prop_assert_eq!(high.terms_50_5000, low.terms_50_5000);
        prop_assert_eq!(astm_e413::stc(&spectrum(more)), astm_e413::stc(&spectrum(0)).map(|stc| stc + more));
    }

    #[test]
    fn more_in_one_band_never_lowers_a_rating(
        r_db in prop::collection::vec(-5.0_f64..90.0, 27),
        index in 0_usize..27,
        more in 0.0_f64..20.0,
    ) {
        let low = ThirdOctaves::from(&Spectrum::from_fn(|band| r_db[band]));
        let high = ThirdOctaves::from(&Spectrum::from_fn(|band| r_db[band] + if band == index { more } else { 0.0 }));
        prop_assert!(rate_thirds(&high).map(|rated| rated.rw) >= rate_thirds(&low).map(|rated| rated.rw));
        prop_assert!(astm_e413::stc(&high) >= astm_e413::stc(&low));
        prop_assert!(astm_e1332::oitc(&high) >= astm_e1332::oitc(&low));
    }
}
