//! Mass and cost of the parts of a box, as its bill has them.

use crate::workshop::Bill;

/// Mass and cost of a part.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Weight {
    pub(super) mass_kg: f64,
    pub(super) cost: f64,
}

impl Weight {
    /// Of what `push` puts on a bill.
    pub(super) fn of(push: impl FnOnce(&mut Bill)) -> Self {
        let mut bill = Bill::default();
        push(&mut bill);
        Self { mass_kg: bill.mass_kg, cost: bill.cost }
    }
}

impl std::ops::Add for Weight {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self { mass_kg: self.mass_kg + other.mass_kg, cost: self.cost + other.cost }
    }
}
