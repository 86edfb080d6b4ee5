//! The Hushwright page: along the way the sound takes, from the source to the room.
//!
//! [`state`] owns the design and its history; `views` show it and emit actions; `components` and [`charts`] take numbers.

pub mod address;
pub mod band_lists;
pub mod changes;
pub mod charts;
pub mod choices;
pub mod components;
pub mod documents;
pub mod download;
pub mod estimator;
pub mod explanations;
pub mod fields;
pub mod file_text;
pub mod history;
pub mod leaf;
pub mod level_table;
pub mod listener_choices;
pub mod model;
pub mod need_readings;
pub mod pasted;
pub mod paths;
pub mod planner;
pub mod presets;
pub mod quantity;
pub mod reach;
pub mod readings;
pub mod recovery;
pub mod rect;
pub mod schedule;
pub mod share_sheet;
pub mod shelf;
pub mod speed;
pub mod state;
pub mod step_words;
pub mod storage;
pub mod sureness;
pub mod trade_words;
pub mod view;
mod views;
pub mod wishes;
pub mod words;
pub mod work;

pub use views::{App, AppProps, differences};
