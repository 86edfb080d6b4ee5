//! How far a search is.

/// Designs that were not evaluated, by reason.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Pruned {
    /// The check refuses them: braces too deep for a gap, springs too high, no room for the lining.
    pub refused: u64,
    /// They do not pass the door.
    pub door: u64,
    /// They are too heavy.
    pub mass: u64,
    /// They cost too much.
    pub cost: u64,
    /// Suspension or feet would fail under their load.
    pub loads: u64,
}

impl Pruned {
    /// All of them.
    pub fn all(&self) -> u64 {
        self.refused + self.door + self.mass + self.cost + self.loads
    }
}

/// How far a search is.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Progress {
    /// Part of the work that is done, 0 to 1; an estimate.
    pub done: f64,
    /// Designs in the space.
    pub combinations: u64,
    /// Designs that the coarse model evaluated.
    pub evaluated: u64,
    /// Designs that were not evaluated, by reason.
    pub pruned: Pruned,
    /// Designs that may be on the front for all that the coarse model says; 0 until it is through.
    pub candidates: u64,
    /// Of these, the ones that the full model evaluated.
    pub checked: u64,
    /// Of these, the ones that full figures of others had beaten before it came to them.
    pub beaten: u64,
}

impl Progress {
    /// Whether the search is at its end.
    pub fn is_finished(&self) -> bool {
        self.done >= 1.0
    }
}
