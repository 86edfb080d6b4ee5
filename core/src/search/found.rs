//! What a search finds.

use crate::design::Design;

/// A design on the front; all figures are those of the full model.
#[derive(Clone, Debug, PartialEq)]
pub struct Point {
    /// The design itself.
    pub design: Design,
    /// A-weighted level in dB at the listener who decides, or in the room where nobody listens.
    pub level_dba: f64,
    /// Margin in dB of the listener who decides, if anybody listens.
    pub margin_db: Option<f64>,
    /// What the front is ranked by: [`crate::evaluate::Report::merit_db`].
    pub merit_db: f64,
    /// Mass in kg of the box.
    pub mass_kg: f64,
    /// Material cost.
    pub cost: f64,
    /// Outside length, width and height in m.
    pub outside_m: [f64; 3],
}

/// What a search found.
#[derive(Clone, Debug, PartialEq)]
pub struct Front {
    /// The points, the lightest first.
    pub points: Vec<Point>,
    /// Whether these are all: nothing was left out, and wherever it could be seen, the coarse model was as near to the full one as
    /// it is taken to be. If not, the front is a good guess.
    pub is_exact: bool,
    /// Largest difference in dB between the merits of both models among the designs that both evaluated.
    pub largest_deviation_db: f64,
}

/// A design as the coarse model ranks it.
#[derive(Clone, Debug, PartialEq)]
pub struct Ranked {
    /// The design itself.
    pub design: Design,
    /// Its merit in dB in the coarse model.
    pub merit_db: f64,
    /// Mass in kg of the box.
    pub mass_kg: f64,
    /// Material cost.
    pub cost: f64,
}
