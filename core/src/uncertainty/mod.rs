//! How sure an estimate is: the range of the level at a listener when the inputs vary as far as they are unknown and the
//! method itself is off as far as such methods are, and which of the unknowns matters most.
//!
//! ```
//! use hushwright::design::Design;
//! use hushwright::uncertainty::{SAMPLES, Sampling};
//!
//! let design = Design::from_json("{}").expect("an empty document is the first example");
//! let mut sampling = Sampling::new(&design.check().expect("the example is sound"), 64);
//! while sampling.step() {}
//! let ranges = sampling.finish().expect("all samples are there");
//! let upstairs = &ranges.listeners[0];
//! assert!(upstairs.level.dba.low < upstairs.level.dba.high && upstairs.chance_met < 0.5);
//! assert!(SAMPLES >= 500);
//! ```

mod coverage;
mod importance;
mod method;
mod normal;
mod points;
mod range;
mod spread;
mod vary;
mod wall;
mod wire;

pub use coverage::{COVERAGE, Coverage};
pub use importance::shares_of_variance;
pub use method::{method_deviation_db, partition_deviation_db};
pub use normal::normal_quantile;
pub use points::{Coordinate, points};
pub use range::{ListenerRange, Quantiles, Range, Ranges, SAMPLES, Sampling};
pub use spread::{Spread, Unknown};
pub use wall::wall_samples_db;
