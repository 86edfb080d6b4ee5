//! Charts and drawings: they take numbers, never the state of the page.

pub mod cut;
pub mod fittings;
pub mod lines;
pub mod palette;
pub mod projection;
pub mod scatter;
