//! Charts and drawings: they take numbers, never the state of the page.

pub mod arrows;
pub mod cut;
pub mod fittings;
pub mod lines;
pub mod miniature;
pub mod palette;
pub mod parts;
pub mod picture;
pub mod pile;
pub mod placement;
pub mod projection;
pub mod reading;
pub mod scatter;

/// Typefaces of what is drawn on a canvas: those of the page.
pub const FONT: &str = "system-ui, -apple-system, 'Segoe UI', Roboto, 'Noto Sans', 'DejaVu Sans', sans-serif";
