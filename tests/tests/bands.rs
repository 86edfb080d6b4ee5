//! Bands, sums and levels against the standards' own numbers and each other.

use hushwright::bands::{BAND_1_KHZ, BAND_COUNT, NOMINAL_HZ, Spectrum, Weighting, band_index, band_position_hz, exact_mid_hz};
use proptest::prelude::*;

/// IEC 61260-1: nominal frequencies round the exact ones; 1000 Hz is both.
#[test]
fn nominal_frequencies_round_the_exact_ones() {
    assert!((exact_mid_hz(BAND_1_KHZ) - 1000.0).abs() < 1e-9);
    for (index, nominal) in NOMINAL_HZ.into_iter().enumerate() {
        assert!((exact_mid_hz(index) / nominal - 1.0).abs() < 0.012, "{nominal}");
        assert_eq!(band_index(nominal), Some(index));
    }
    assert_eq!(band_index(110.0), None);
    assert_eq!(band_index(f64::NAN), None);
    // Examples of Annex A, base ten: 25.119 Hz, 1258.9 Hz, 10 kHz (from memory; each is 10 to a whole tenth).
    assert!((exact_mid_hz(0) - 25.118_864).abs() < 1e-5);
    assert!((exact_mid_hz(BAND_COUNT - 1) - 10_000.0).abs() < 1e-6);
}

#[test]
fn neighbouring_bands_share_their_edge() {
    for index in 0..BAND_COUNT - 1 {
        let edge = band_position_hz(index as f64 + 0.5);
        let geometric_mean = (exact_mid_hz(index) * exact_mid_hz(index + 1)).sqrt();
        assert!((edge / geometric_mean - 1.0).abs() < 1e-12);
    }
}

#[test]
fn three_equal_thirds_make_an_octave_4_77_db_higher() {
    let octaves = Spectrum::constant(60.0).octaves();
    assert!(octaves.iter().all(|octave| (octave - 64.771_212_547).abs() < 1e-8));
    let mut spectrum = Spectrum::constant(-200.0);
    spectrum[band_index(125.0).expect("a band")] = 70.0;
    assert!((spectrum.octaves()[2] - 70.0).abs() < 1e-9, "the 125 Hz octave is the third of the nine");
}

#[test]
fn equal_sources_add_3_01_db_and_bands_add_to_the_total() {
    let sum = Spectrum::constant(50.0).energy_add(&Spectrum::constant(50.0));
    assert!(sum.iter().all(|level| (level - 53.010_299_957).abs() < 1e-8));
    assert!((Spectrum::constant(40.0).energy_sum() - (40.0 + 10.0 * 27.0_f64.log10())).abs() < 1e-9);
}

/// Table 3 in tenths, summed by hand over 27 bands of 0 dB: 10 lg of the sum of 10^(A/10) is 11.0 dB.
#[test]
fn weighted_sum_of_a_flat_spectrum() {
    let table_a = [
        -44.7, -39.4, -34.6, -30.2, -26.2, -22.5, -19.1, -16.1, -13.4, -10.9, -8.6, -6.6, -4.8, -3.2, -1.9, -0.8, 0.0, 0.6, 1.0,
        1.2, 1.3, 1.2, 1.0, 0.5, -0.1, -1.1, -2.5,
    ];
    let by_table = 10.0 * table_a.iter().map(|a| 10.0_f64.powf(a / 10.0)).sum::<f64>().log10();
    assert!((Spectrum::constant(0.0).weighted_sum(Weighting::A) - by_table).abs() < 0.03);
    assert!(Weighting::Z.spectrum().iter().all(|weight| weight == 0.0));
}

proptest! {
    #[test]
    fn octaves_hold_the_energy_of_their_thirds(levels in prop::collection::vec(-30.0_f64..140.0, BAND_COUNT)) {
        let spectrum = Spectrum::from_fn(|band| levels[band]);
        let octaves = 10.0 * spectrum.octaves().iter().map(|level| 10.0_f64.powf(level / 10.0)).sum::<f64>().log10();
        prop_assert!((octaves - spectrum.energy_sum()).abs() < 1e-9);
        let loudest = levels.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        prop_assert!(spectrum.energy_sum() >= loudest && spectrum.energy_sum() <= loudest + 14.32);
    }
}
