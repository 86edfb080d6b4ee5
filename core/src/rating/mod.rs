//! Single-number ratings: ISO 717-1, ASTM E413 and E1332 of walls, NR and NC of noise.
//!
//! Ratings of walls take [`ThirdOctaves`] (or octaves) of sound reduction indices, of which some bands may be missing;
//! a rating whose bands are not all there is `None`. Each file is one standard with its own table and its own rounding.

pub mod astm_e1332;
pub mod astm_e413;
mod criterion;
pub mod iso717_1;
pub mod nc;
pub mod nr;
mod rounding;
mod third_octaves;

pub use criterion::CriterionRating;
pub use iso717_1::WeightedReduction;
pub use rounding::{tenths_of_db, whole_db};
pub use third_octaves::{LARGEST_DB, ThirdOctaves};
