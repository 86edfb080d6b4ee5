//! Search for the best trade-offs between sound, mass and cost.

mod coarse;
mod front;
mod gauge;
mod grid;
mod inner;
mod limits;
mod model;
mod outer;
mod progress;
mod run;
mod space;
mod wall;
mod weigh;

pub use limits::Limits;
pub use progress::{Progress, Pruned};
pub use run::{COARSE_ERROR_DB, Front, MOST_CANDIDATES, Point, Ranked, Search, rank_all};
pub use space::{Board, Joint, Lids, MOST_BOARDS, MOST_COMBINATIONS, MOST_SHEETS, Space};

