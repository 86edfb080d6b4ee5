//! NC, the noise criterion curves of ANSI S12.2, by the tangency method.
//!
//! The rating is the highest curve that the spectrum touches in any octave from 63 Hz to 8 kHz, interpolated linearly in
//! level between the tabled curves (in steps of 5). The look at the speech
//! interference level that the standard puts before it (from memory) is not used here.

use super::criterion::CriterionRating;

/// Nominal octaves of the curves in Hz.
pub const OCTAVES_HZ: [f64; 8] = [63.0, 125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0, 8000.0];

/// Number of each curve and its octave levels in dB, 63 Hz to 8 kHz (ANSI S12.2, as in the general library
/// acoustic-toolbox 0.2.2).
pub const CURVES_DB: [(f64, [f64; 8]); 12] = [
    (15.0, [47.0, 36.0, 29.0, 22.0, 17.0, 14.0, 12.0, 11.0]),
    (20.0, [51.0, 40.0, 33.0, 26.0, 22.0, 19.0, 17.0, 16.0]),
    (25.0, [54.0, 44.0, 37.0, 31.0, 27.0, 24.0, 22.0, 21.0]),
    (30.0, [57.0, 48.0, 41.0, 35.0, 31.0, 29.0, 28.0, 27.0]),
    (35.0, [60.0, 52.0, 45.0, 40.0, 36.0, 34.0, 33.0, 32.0]),
    (40.0, [64.0, 56.0, 50.0, 45.0, 41.0, 39.0, 38.0, 37.0]),
    (45.0, [67.0, 60.0, 54.0, 49.0, 46.0, 44.0, 43.0, 42.0]),
    (50.0, [71.0, 64.0, 58.0, 54.0, 51.0, 49.0, 48.0, 47.0]),
    (55.0, [74.0, 67.0, 62.0, 58.0, 56.0, 54.0, 53.0, 52.0]),
    (60.0, [77.0, 71.0, 67.0, 63.0, 61.0, 59.0, 58.0, 57.0]),
    (65.0, [80.0, 75.0, 71.0, 68.0, 66.0, 64.0, 63.0, 62.0]),
    (70.0, [83.0, 79.0, 75.0, 72.0, 71.0, 70.0, 69.0, 68.0]),
];

/// Octave levels in dB, 63 Hz to 8 kHz, of the curve NC `number`: between two tabled curves in proportion, beyond them the
/// outermost.
pub fn curve_db(number: f64) -> [f64; 8] {
    let upper = CURVES_DB.partition_point(|(own, _)| *own < number).min(CURVES_DB.len() - 1);
    let ((low, low_db), (high, high_db)) = (CURVES_DB[upper.saturating_sub(1)], CURVES_DB[upper]);
    let part = if high > low { ((number - low) / (high - low)).clamp(0.0, 1.0) } else { 0.0 };
    std::array::from_fn(|band| low_db[band] + part * (high_db[band] - low_db[band]))
}

/// NC of octave levels in dB, 63 Hz to 8 kHz.
pub fn nc(octaves_db: &[f64; 8]) -> CriterionRating {
    let numbers = octaves_db.iter().enumerate().map(|(band, &level)| (OCTAVES_HZ[band], number_at(band, level)));
    CriterionRating::highest(numbers, (CURVES_DB[0].0, CURVES_DB[CURVES_DB.len() - 1].0))
}

/// Number of the curve through `level_db` in `band`; infinite beyond the outermost curves.
fn number_at(band: usize, level_db: f64) -> f64 {
    let upper = CURVES_DB.partition_point(|(_, levels)| levels[band] < level_db);
    if upper == CURVES_DB.len() {
        return f64::INFINITY;
    }
    let (number, levels) = CURVES_DB[upper];
    if levels[band] == level_db {
        return number;
    }
    if upper == 0 {
        return f64::NEG_INFINITY;
    }
    let (lower_number, lower_levels) = CURVES_DB[upper - 1];
    lower_number + (number - lower_number) * (level_db - lower_levels[band]) / (levels[band] - lower_levels[band])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_curve_rates_as_itself_between_the_tabled_ones_too() {
        for number in [15.0, 20.0, 27.5, 43.0, 70.0] {
            let CriterionRating::At { value, .. } = nc(&curve_db(number)) else { panic!("{number} is rated") };
            assert!((value - number).abs() < 1e-9, "{number}: {value}");
        }
        assert_eq!(curve_db(90.0), CURVES_DB[11].1);
    }
}
