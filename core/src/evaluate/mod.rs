//! The one call: a checked design in, a report with every station and every path out.

mod assembly;
mod evaluator;
mod hearing;
mod limiting;
mod memo;
mod report;

pub(crate) use assembly::{FacesKey, Sizes, chamber, shaken_body, walls_m2};
pub use evaluator::{Evaluator, evaluate};
pub(crate) use evaluator::{
    OpeningsKey, chambers, gap_absorption_m2, gap_lining, opening_admittances, opening_areas, openings_key,
};
pub use hearing::{ListenerReport, UNSURE_DB, Verdict};
pub use report::{Cause, Limiting, Path, PathKey, Report, Station, Stations};
