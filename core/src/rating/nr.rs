//! NR, the noise rating curves of ISO R 1996 (1971): L = a + b NR.

use super::criterion::CriterionRating;

/// Nominal octaves of the curves in Hz.
pub const OCTAVES_HZ: [f64; 9] = [31.5, 63.0, 125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0, 8000.0];
/// Coefficient a in dB (ISO R 1996, from memory; another published set has 4.2 at 500 Hz).
pub const A_DB: [f64; 9] = [55.4, 35.5, 22.0, 12.0, 4.8, 0.0, -3.5, -6.1, -8.0];
/// Coefficient b in dB (ISO R 1996, from memory; another published set has 0.98 at 500 Hz).
pub const B_DB: [f64; 9] = [0.681, 0.79, 0.87, 0.93, 0.974, 1.0, 1.015, 1.025, 1.03];
/// Numbers of the lowest and the highest curve.
pub const RANGE: (f64, f64) = (0.0, 130.0);

/// Octave levels in dB of the curve NR `number`.
pub fn curve_db(number: f64) -> [f64; 9] {
    std::array::from_fn(|band| A_DB[band] + B_DB[band] * number)
}

/// NR of octave levels in dB, 31.5 Hz to 8 kHz: the highest curve that a band reaches.
pub fn nr(octaves_db: &[f64; 9]) -> CriterionRating {
    let numbers = octaves_db.iter().enumerate().map(|(band, level)| (OCTAVES_HZ[band], (level - A_DB[band]) / B_DB[band]));
    CriterionRating::highest(numbers, RANGE)
}
