//! Workshop: what the box weighs and what its material costs.

mod bill;

pub use bill::{Bill, BillLine, bill};
