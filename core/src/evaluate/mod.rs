//! The one call: a checked design in, a report with every station and every path out.

mod assembly;
mod evaluator;
mod limiting;
mod memo;
mod report;

pub use evaluator::{Evaluator, evaluate};
pub use report::{Cause, Limiting, Path, PathKey, Report, Station, Stations};
