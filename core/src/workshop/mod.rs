//! Workshop: from a design to what is sawn, bought, done and carried.

mod bill;
pub mod carry;
mod item;
pub mod layout;
mod operation;
pub mod panel;
pub mod passage;
mod prices;
mod shells;
pub mod tipping;
pub mod turn;

pub use bill::{Bill, BillLine, bill};
pub use item::{Item, OwnKey, Unit};
pub use operation::Operation;
pub use shells::{Board, JointKind, ShellBox, ShellLayer, ShellName, shells};
