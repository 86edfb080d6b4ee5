//! Build-ups: sheets, bonds and gaps in order. [`raw`] is what a document says, the rest is what the physics takes.
//!
//! A raw build-up becomes a checked one in [`check`] and nowhere else; after that nothing can fail on input.

pub mod check;
pub mod raw;
mod types;

pub use types::{Bond, EdgeLoss, Element, Fill, FillSide, Gap, GapLoss, Laminate, LogTable, Sheet, Stack, ViscoelasticBond};
