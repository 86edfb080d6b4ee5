//! The one call: a checked design in, a report with every station and every path out.

mod assembly;
mod evaluator;
mod hearing;
mod limiting;
mod memo;
mod remedy;
mod report;

pub use evaluator::{Evaluator, evaluate};
pub use hearing::{ListenerReport, UNSURE_DB, Verdict};
pub use remedy::{Measure, Remedy, remedy};
pub use report::{Cause, Limiting, Path, PathKey, Report, Station, Stations};
