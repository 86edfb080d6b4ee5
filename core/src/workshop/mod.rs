//! Workshop: what the box weighs, what its material costs, and how its parts are sawn.

mod bill;
pub mod layout;

pub use bill::{Bill, BillLine, bill};
