//! What a design may weigh, cost and measure.

use crate::buildup::check::Problems;
use crate::error::FieldError;

/// Limits of the user; `None` is no limit.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Limits {
    /// Most mass in kg of the box, without what stands in it.
    pub mass_kg: Option<f64>,
    /// Most material cost, in the catalogue's currency.
    pub cost: Option<f64>,
    /// Clear width and height in mm of the narrowest door on the way: the two smaller outside dimensions of the box have to pass,
    /// either way round.
    pub door_mm: Option<[f64; 2]>,
}

/// A sum in another order may differ by this much, relatively; what full figures say decides.
pub(super) const ROUNDING: f64 = 1e-9;

/// Largest number of a limit.
const MOST: f64 = 1e9;

impl Limits {
    /// # Errors
    /// Every limit that is no positive number.
    pub(super) fn check(&self) -> Result<(), Vec<FieldError>> {
        let mut problems = Problems::default();
        let [width, height] = self.door_mm.map_or([None; 2], |sides| sides.map(Some));
        let limits = [
            ("limits.mass_kg", self.mass_kg, "kg", "a box weighs something"),
            ("limits.cost", self.cost, "", "material costs something"),
            ("limits.door_mm[0]", width, "mm", "the clear width of the narrowest door"),
            ("limits.door_mm[1]", height, "mm", "its clear height"),
        ];
        for (path, limit, unit, why) in limits {
            if let Some(limit) = limit
                && !(limit > 0.0 && limit <= MOST)
            {
                let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
                problems.push(path, format!("allowed is more than 0{unit}: {why}"));
            }
        }
        problems.finish(())
    }

    pub(super) fn allows_mass(&self, mass_kg: f64) -> bool {
        self.mass_kg.is_none_or(|most| mass_kg <= most)
    }

    pub(super) fn allows_cost(&self, cost: f64) -> bool {
        self.cost.is_none_or(|most| cost <= most)
    }

    /// Whether a box of outside length, width and height `outside_m` passes the door.
    pub(super) fn allows_size(&self, outside_m: [f64; 3]) -> bool {
        let Some([width, height]) = self.door_mm else { return true };
        let mut sides_mm = outside_m.map(|side| 1000.0 * side);
        sides_mm.sort_by(f64::total_cmp);
        sides_mm[0] <= width.min(height) && sides_mm[1] <= width.max(height)
    }

    /// The same limits, wider by what rounding may do.
    pub(super) fn rounded_up(&self) -> Self {
        let wider = |limit: f64| limit * (1.0 + ROUNDING);
        Self { mass_kg: self.mass_kg.map(wider), cost: self.cost.map(wider), door_mm: self.door_mm.map(|door| door.map(wider)) }
    }
}
