//! Materials: their types, and the catalogue, made from data files that name a source on every row.

mod catalogue;

pub use catalogue::{FillMaterial, SheetMaterial, fill, fills, sheet, sheets, sources};
