//! Workshop: from a design to what is sawn, bought and carried.

mod bill;
mod item;
mod operation;
pub mod panel;
mod prices;
mod shells;

pub use bill::{Bill, BillLine, bill};
pub use item::{Item, OwnKey, Unit};
pub use operation::Operation;
pub use shells::{Board, JointKind, ShellBox, ShellLayer, ShellName, shells};
