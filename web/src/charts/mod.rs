//! Charts and drawings: they take numbers, never the state of the page.

pub mod arrows;
pub mod cut;
pub mod fittings;
pub mod lines;
pub mod palette;
pub mod parts;
pub mod pile;
pub mod projection;
pub mod scatter;
