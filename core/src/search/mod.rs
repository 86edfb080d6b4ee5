//! Search for the best trade-offs between sound, mass and cost.
//!
//! A [`Space`] says what may vary round a design, [`Limits`] what a box may weigh, cost and measure, and a [`Search`] goes through the
//! whole space in slices:
//!
//! 1. Designs that the check refuses, that do not pass the door, that are too heavy or too dear or that break their supports are left
//!    out before any acoustics: these figures are exact and cheap. They are counted by reason ([`Pruned`]).
//! 2. A coarse model evaluates every other one. It is the same physics as [`crate::evaluate`] with parts computed once and put
//!    together in many ways: walls over fixed angles and frequencies (`wall.rs`), panels and openings at fixed frequencies (`inner.rs`,
//!    `outer.rs`), of which the network of low frequencies is a product, the energy balance, the suspension (`coarse.rs`).
//! 3. Whatever may be on the front, if both models differ by no more than [`COARSE_ERROR_DB`], is evaluated in full. All figures of the
//!    [`Front`] are those of the full model.
//!
//! The front is ranked by [`crate::evaluate::Report::merit_db`], in steps of [`MERIT_STEP_DB`], by mass and by cost.
//!
//! ```
//! use hushwright::design::run_in_box;
//! use hushwright::search::{Limits, Search, Space};
//!
//! let base = run_in_box();
//! let mut space = Space::of(&base);
//! space.stock.truncate(2);
//! (space.inner_sheets, space.outer_sheets) = ([1, 1], [1, 1]);
//! space.gaps_mm.truncate(1);
//! let limits = Limits { mass_kg: Some(120.0), ..Limits::default() };
//! let mut search = Search::new(&base, &space, limits).expect("sound wishes");
//! while search.step(8) {
//!     println!("{:.0} %", 100.0 * search.progress().done);
//! }
//! let front = search.front();
//! assert!(front.is_exact && front.points.iter().all(|point| point.mass_kg <= 120.0));
//! ```

mod choice;
mod coarse;
mod found;
mod front;
mod gauge;
mod grid;
mod inner;
mod limits;
mod model;
mod outer;
mod parts;
mod progress;
mod room;
mod run;
mod single;
mod space;
mod wall;
mod weigh;

pub use found::{Front, Point, Ranked};
pub use limits::Limits;
pub use progress::{Progress, Pruned};
pub use run::{COARSE_ERROR_DB, MERIT_STEP_DB, MOST_CANDIDATES, Search, rank_all};
pub use space::{Board, Joint, Lids, MOST_BOARDS, MOST_COMBINATIONS, MOST_SHEETS, Space};
