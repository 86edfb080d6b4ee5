//! ISO 717-1:2020: weighted sound reduction index Rw with the spectrum adaptation terms C and Ctr.
//!
//! Reference curves: Table 3. Spectra: Table 4 and, for enlarged frequency ranges, Table B.1. The one-third-octave
//! reference curve and the two spectra from 100 to 3150 Hz are confirmed by the worked example of Annex C; the other
//! columns are from memory, and confirmed thus: spectrum 1 is pink noise, A-weighted and set to 0 dB overall over its
//! range, which reproduces every number; both spectra sum to 0 dB within their rounding; octaves are the sums of thirds.

use super::rounding::{tenths_of_db, whole_db};
use super::third_octaves::{LARGEST_DB, ThirdOctaves};
use crate::math::{from_db, to_db};

/// Nominal octaves in Hz that the octave procedure knows; 63 and 4000 serve the enlarged ranges.
pub const OCTAVES_HZ: [f64; 7] = [63.0, 125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0];

/// Reference curve less its value at 500 Hz, thirds of 100 to 3150 Hz (Table 3).
pub const REFERENCE_THIRDS: [i64; 16] = [-19, -16, -13, -10, -7, -4, -1, 0, 1, 2, 3, 4, 4, 4, 4, 4];
/// Reference curve less its value at 500 Hz, octaves of 125 to 2000 Hz (Table 3).
pub const REFERENCE_OCTAVES: [i64; 5] = [-16, -7, 0, 3, 4];

/// Largest sum of unfavourable deviations in tenths of a decibel, thirds (4.4: 32.0 dB).
const LARGEST_SUM_THIRDS: i64 = 320;
/// Largest sum of unfavourable deviations in tenths of a decibel, octaves (4.4: 10.0 dB).
const LARGEST_SUM_OCTAVES: i64 = 100;

/// Spectrum 1 (C), thirds of 50 to 3150 Hz (Table B.1; from 100 Hz on Table 4).
pub const SPECTRUM_1_TO_3150: [i64; 19] =
    [-40, -36, -33, -29, -26, -23, -21, -19, -17, -15, -13, -12, -11, -10, -9, -9, -9, -9, -9];
/// Spectrum 1 (C), thirds of 50 to 5000 Hz (Table B.1).
pub const SPECTRUM_1_TO_5000: [i64; 21] =
    [-41, -37, -34, -30, -27, -24, -22, -20, -18, -16, -14, -13, -12, -11, -10, -10, -10, -10, -10, -10, -10];
/// Spectrum 2 (Ctr), thirds of 50 to 5000 Hz, the same for every range (Tables 4 and B.1).
pub const SPECTRUM_2: [i64; 21] =
    [-25, -23, -21, -20, -20, -18, -16, -15, -14, -13, -12, -11, -9, -8, -9, -10, -11, -13, -15, -16, -18];
/// Spectrum 1 (C), octaves of 63 to 2000 Hz (Table B.1; from 125 Hz on Table 4).
pub const SPECTRUM_1_OCTAVES_TO_2000: [i64; 6] = [-31, -21, -14, -8, -5, -4];
/// Spectrum 1 (C), octaves of 63 to 4000 Hz (Table B.1).
pub const SPECTRUM_1_OCTAVES_TO_4000: [i64; 7] = [-32, -22, -15, -9, -6, -5, -5];
/// Spectrum 2 (Ctr), octaves of 63 to 4000 Hz, the same for every range (Tables 4 and B.1).
pub const SPECTRUM_2_OCTAVES: [i64; 7] = [-18, -14, -10, -7, -4, -6, -11];

/// A pair of spectrum adaptation terms in dB.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Terms {
    /// For spectrum 1, A-weighted pink noise: C.
    pub c: i64,
    /// For spectrum 2, A-weighted urban traffic: Ctr.
    pub ctr: i64,
}

/// A rating Rw (C; Ctr) with the terms for enlarged ranges where their bands are known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeightedReduction {
    /// Weighted sound reduction index in dB.
    pub rw: i64,
    /// C and Ctr for 100 to 3150 Hz (octaves: 125 to 2000 Hz).
    pub terms: Terms,
    /// The terms for 50 to 3150 Hz (octaves: 63 to 2000 Hz).
    pub terms_50_3150: Option<Terms>,
    /// The terms for 50 to 5000 Hz (octaves: 63 to 4000 Hz).
    pub terms_50_5000: Option<Terms>,
    /// The terms for 100 to 5000 Hz (octaves: 125 to 4000 Hz).
    pub terms_100_5000: Option<Terms>,
    /// Sum of the unfavourable deviations in dB.
    pub unfavourable_db: f64,
}

/// Rates one-third octaves: the reference curve in 1 dB steps as high as the sum of unfavourable deviations, of values
/// rounded to one decimal, stays within 32.0 dB.
///
/// `None` unless all thirds of 100 to 3150 Hz are known.
pub fn rate_thirds(r_db: &ThirdOctaves) -> Option<WeightedReduction> {
    let core = rounded(&r_db.range(100.0..=3150.0)?);
    let (rw, unfavourable) = highest_curve(&core, &REFERENCE_THIRDS, LARGEST_SUM_THIRDS);
    let enlarged = |low_hz: f64, high_hz: f64, spectrum_1: &[i64], spectrum_2: &[i64]| {
        Some(terms(rw, &rounded(&r_db.range(low_hz..=high_hz)?), spectrum_1, spectrum_2))
    };
    Some(WeightedReduction {
        rw,
        terms: terms(rw, &core, &SPECTRUM_1_TO_3150[3..], &SPECTRUM_2[3..19]),
        terms_50_3150: enlarged(50.0, 3150.0, &SPECTRUM_1_TO_3150, &SPECTRUM_2[..19]),
        terms_50_5000: enlarged(50.0, 5000.0, &SPECTRUM_1_TO_5000, &SPECTRUM_2),
        terms_100_5000: enlarged(100.0, 5000.0, &SPECTRUM_1_TO_5000[3..], &SPECTRUM_2[3..]),
        unfavourable_db: unfavourable as f64 / 10.0,
    })
}

/// Rates octaves in the order of [`OCTAVES_HZ`]: as [`rate_thirds`] with a largest sum of 10.0 dB.
///
/// ISO 717-1 allows octaves for measurements in buildings only. `None` unless 125 to 2000 Hz are known and finite.
pub fn rate_octaves(r_db: &[Option<f64>; OCTAVES_HZ.len()]) -> Option<WeightedReduction> {
    let range = |bands: std::ops::Range<usize>| -> Option<Vec<f64>> {
        r_db[bands].iter().map(|value| value.filter(|db| db.is_finite() && db.abs() <= LARGEST_DB)).collect()
    };
    let core = rounded(&range(1..6)?);
    let (rw, unfavourable) = highest_curve(&core, &REFERENCE_OCTAVES, LARGEST_SUM_OCTAVES);
    let enlarged = |bands: std::ops::Range<usize>, spectrum_1: &[i64]| {
        Some(terms(rw, &rounded(&range(bands.clone())?), spectrum_1, &SPECTRUM_2_OCTAVES[bands]))
    };
    Some(WeightedReduction {
        rw,
        terms: terms(rw, &core, &SPECTRUM_1_OCTAVES_TO_2000[1..], &SPECTRUM_2_OCTAVES[1..6]),
        terms_50_3150: enlarged(0..6, &SPECTRUM_1_OCTAVES_TO_2000),
        terms_50_5000: enlarged(0..7, &SPECTRUM_1_OCTAVES_TO_4000),
        terms_100_5000: enlarged(1..7, &SPECTRUM_1_OCTAVES_TO_4000[1..]),
        unfavourable_db: unfavourable as f64 / 10.0,
    })
}

/// -10 lg of the sum of 10^((L - R)/10) in dB, unrounded, for R in tenths of a decibel: `X_Aj` of 4.5.
fn weighted_difference_db(r_tenths: &[i64], spectrum: &[i64]) -> f64 {
    -to_db(r_tenths.iter().zip(spectrum).map(|(&r, &level)| from_db((10 * level - r) as f64 / 10.0)).sum())
}

fn terms(rw: i64, r_tenths: &[i64], spectrum_1: &[i64], spectrum_2: &[i64]) -> Terms {
    debug_assert!(r_tenths.len() == spectrum_1.len() && r_tenths.len() == spectrum_2.len(), "one level a band");
    Terms {
        c: whole_db(weighted_difference_db(r_tenths, spectrum_1)) - rw,
        ctr: whole_db(weighted_difference_db(r_tenths, spectrum_2)) - rw,
    }
}

fn rounded(r_db: &[f64]) -> Vec<i64> {
    r_db.iter().map(|&db| tenths_of_db(db)).collect()
}

/// The highest curve in dB whose unfavourable deviations sum to at most `largest` tenths, and that sum in tenths.
fn highest_curve(r_tenths: &[i64], reference: &[i64], largest: i64) -> (i64, i64) {
    let sum_at = |rw: i64| -> i64 { r_tenths.iter().zip(reference).map(|(&r, &curve)| (10 * (rw + curve) - r).max(0)).sum() };
    // No deviation here; every step up adds at least 1 dB at the weakest band, so the loop is short.
    let lowest = r_tenths.iter().zip(reference).map(|(&r, &curve)| (r - 10 * curve).div_euclid(10)).min().unwrap_or(0);
    let mut rw = lowest;
    while sum_at(rw + 1) <= largest {
        rw += 1;
    }
    (rw, sum_at(rw))
}

#[cfg(test)]
mod tests {
    use super::{SPECTRUM_1_TO_3150, SPECTRUM_2, rounded, weighted_difference_db};

    /// Annex C prints 28.308 and 26.859: the sums cut, not rounded, after three decimals (28.30855, 26.85999).
    #[test]
    fn annex_c_weighted_differences_to_the_last_digit_printed() {
        let r = rounded(&[20.4, 16.3, 17.7, 22.6, 22.4, 22.7, 24.8, 26.6, 28.0, 30.5, 31.8, 32.5, 33.4, 33.0, 31.0, 25.5]);
        let cut = |db: f64| (1000.0 * db).floor() / 1000.0;
        assert_eq!(cut(weighted_difference_db(&r, &SPECTRUM_1_TO_3150[3..])), 28.308);
        assert_eq!(cut(weighted_difference_db(&r, &SPECTRUM_2[3..19])), 26.859);
    }
}
