//! Workshop: what the box weighs and what its material costs; whether and how it is carried to where it stands.

mod bill;
pub mod carry;
pub mod passage;
pub mod tipping;
pub mod turn;

pub use bill::{Bill, BillLine, bill};
