//! ASTM E413: sound transmission class STC.

use super::rounding::whole_db;
use super::third_octaves::ThirdOctaves;

/// The STC contour less its value at 500 Hz, thirds of 125 to 4000 Hz (ASTM E413, Table 1; as in the general library
/// acoustic-toolbox 0.2.2).
pub const CONTOUR: [i64; 16] = [-16, -13, -10, -7, -4, -1, 0, 1, 2, 3, 4, 4, 4, 4, 4, 4];
/// Largest sum of deficiencies in dB.
const LARGEST_SUM: i64 = 32;
/// Largest deficiency in one band in dB.
const LARGEST_DEFICIENCY: i64 = 8;

/// Sound transmission class: the highest contour, in 1 dB steps, below which the transmission losses, rounded to whole
/// decibels, lie by at most 8 dB in any band and 32 dB in all.
///
/// `None` unless all thirds of 125 to 4000 Hz are known.
pub fn stc(tl_db: &ThirdOctaves) -> Option<i64> {
    let tl: Vec<i64> = tl_db.range(125.0..=4000.0)?.into_iter().map(whole_db).collect();
    let holds = |class: i64| {
        let deficiencies = || tl.iter().zip(CONTOUR).map(|(&tl, contour)| (class + contour - tl).max(0));
        deficiencies().sum::<i64>() <= LARGEST_SUM && deficiencies().all(|deficiency| deficiency <= LARGEST_DEFICIENCY)
    };
    // No deficiency here; nine steps up the weakest band breaks the 8 dB rule, so the loop is short.
    let mut class = tl.iter().zip(CONTOUR).map(|(&tl, contour)| tl - contour).min().unwrap_or(0);
    while holds(class + 1) {
        class += 1;
    }
    Some(class)
}
