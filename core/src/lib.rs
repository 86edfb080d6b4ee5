//! How much sound gets out of a box of boards: build-ups in, spectra out.
//!
//! A wall is a stack of leaves and gaps. Its sound reduction index by one-third octaves, and its rating:
//!
//! ```
//! use hushwright::air::Air;
//! use hushwright::buildup::check::{Problems, check_stack};
//! use hushwright::buildup::raw::Layer;
//! use hushwright::buildup::{EdgeLoss, GapLoss};
//! use hushwright::rating::{ThirdOctaves, iso717_1};
//! use hushwright::transmission::{Mount, sound_reduction_db};
//!
//! let layers = [
//!     Layer::sheet("gypsum-board", 12.5),
//!     Layer::bond("damping-compound"),
//!     Layer::sheet("gypsum-board", 12.5),
//! ];
//! let mut problems = Problems::default();
//! let stack = check_stack(&mut problems, "layers", &layers, GapLoss::Lossless);
//! let stack = problems.finish(stack).expect("known sheets, allowed thicknesses").expect("one leaf");
//! let mount = Mount { size_m: [1.5, 1.25], edge_loss: EdgeLoss::Laboratory };
//! let r_db = sound_reduction_db(&stack, &mount, &Air::default());
//! let rated = iso717_1::rate_thirds(&ThirdOctaves::from(&r_db)).expect("all bands are there");
//! assert!((30..40).contains(&rated.rw));
//! ```
//!
//! A whole box is a [`design::Design`]: [`design::Design::check`] turns what a document says into numbers within their
//! ranges, or says for every field what is allowed, and [`evaluate::evaluate`] turns those into a report that cannot fail.
//!
//! ```
//! let design = hushwright::design::Design::from_json("{}").expect("an empty document is the first example");
//! let report = hushwright::evaluate::evaluate(&design.check().expect("the example is sound"));
//! assert!(report.level_difference_dba > report.insertion_loss_dba);
//! let path = report.limiting.path;
//! println!("{} % gets out by the {}", 100.0 * report.limiting.share, path.key());
//! ```
//!
//! Everything inside is in SI units, time convention exp(+jwt), 27 one-third-octave bands from 25 Hz to 10 kHz. The crate
//! does no input or output, reads no clock and has no global state but its catalogue; results are the same to the last
//! digit natively and in a browser, because transcendental functions come from `libm`.

pub mod air;
pub mod bands;
pub mod buildup;
pub mod design;
pub mod enclosure;
pub mod error;
pub mod evaluate;
pub mod geometry;
pub mod improve;
pub mod json;
pub mod lanes;
mod mapping;
pub mod material;
pub mod math;
pub mod need;
pub mod number;
mod packed;
pub mod rating;
pub mod search;
pub mod transmission;
pub mod uncertainty;
pub mod units;
pub mod workshop;
