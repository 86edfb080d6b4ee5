//! Workshop: from a design to what is sawn, bought, done and carried.

mod bill;
pub mod carry;
mod cut_list;
mod fraction;
mod holes;
pub mod inside;
mod item;
pub mod layout;
mod masses;
mod operation;
pub mod panel;
mod parts;
pub mod passage;
mod plan;
mod prices;
mod purchases;
pub mod screws;
mod shells;
mod stands;
mod tasks;
pub mod tipping;
pub mod turn;

pub use bill::{Bill, BillLine, bill};
pub use cut_list::{CutLine, CutList};
pub use fraction::{FINEST, feet_and_inches};
pub use holes::{DUCT_BOARD_MM, Opening, cable_face, openings_fit};
pub use item::{Item, OwnKey, Unit};
pub use masses::MassOf;
pub use operation::Operation;
pub use parts::Part;
pub use plan::{Carrying, Load, Money, Places, Plan, plan};
pub use prices::minutes;
pub use purchases::Purchase;
pub use shells::{Board, JointKind, ShellBox, ShellLayer, ShellName, shells};
pub use tasks::{Step, StepKind, Task};
