//! ASTM E1332: outdoor-indoor transmission class OITC.

use super::rounding::whole_db;
use super::third_octaves::ThirdOctaves;
use crate::math::{from_db, to_db};

/// Reference source (aircraft, road and rail traffic) in dB, thirds of 80 to 4000 Hz (ASTM E1332, Table 1; from memory,
/// confirmed only by its A-weighted sum, 100.13 dB, which the standard's formula names).
pub const SOURCE_DB: [f64; 18] =
    [103.0, 102.0, 101.0, 98.0, 97.0, 95.0, 94.0, 93.0, 93.0, 91.0, 90.0, 89.0, 89.0, 88.0, 88.0, 87.0, 85.0, 84.0];
/// A-weighting in dB of the same bands (IEC 61672-1:2013, Table 3).
pub const A_WEIGHTING_DB: [f64; 18] =
    [-22.5, -19.1, -16.1, -13.4, -10.9, -8.6, -6.6, -4.8, -3.2, -1.9, -0.8, 0.0, 0.6, 1.0, 1.2, 1.3, 1.2, 1.0];
/// A-weighted level in dB of the reference source.
pub const SOURCE_DBA: f64 = 100.13;

/// Outdoor-indoor transmission class: by how much the wall lowers the A-weighted level of the reference source, in whole
/// decibels. The transmission losses are taken as they are; laboratories report them in whole decibels already.
///
/// `None` unless all thirds of 80 to 4000 Hz are known.
pub fn oitc(tl_db: &ThirdOctaves) -> Option<i64> {
    let tl = tl_db.range(80.0..=4000.0)?;
    let inside = SOURCE_DB.iter().zip(A_WEIGHTING_DB).zip(tl).map(|((&source, weight), tl)| from_db(source + weight - tl));
    Some(whole_db(SOURCE_DBA - to_db(inside.sum())))
}
