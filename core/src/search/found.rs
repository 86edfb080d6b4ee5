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

impl Front {
    /// Places of points that stand for all of them, the lightest first: for every point of the front one of these lets out at most
    /// `merit_db` more, and is heavier and dearer by at most the part `share` of its mass and cost.
    ///
    /// From the quietest on, each point that none before it stands for: fewest where they are dense.
    pub fn representatives(&self, merit_db: f64, share: f64) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.points.len()).collect();
        order.sort_by(|&a, &b| self.points[b].merit_db.total_cmp(&self.points[a].merit_db).then(a.cmp(&b)));
        let mut kept: Vec<usize> = Vec::new();
        for place in order {
            let own = &self.points[place];
            let stands_for = |other: &usize| {
                let other = &self.points[*other];
                other.merit_db >= own.merit_db - merit_db
                    && other.mass_kg <= own.mass_kg * (1.0 + share)
                    && other.cost <= own.cost * (1.0 + share)
            };
            if !kept.iter().any(stands_for) {
                kept.push(place);
            }
        }
        kept.sort_unstable();
        kept
    }
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
