//! The sections of the page. They show the state and emit actions, nothing else.

mod answer;
mod app;
mod bench;
mod build;
mod compare;
mod compare_chart;
pub mod differences;
mod drawing;
mod explainer;
mod exports;
mod folds;
mod front;
mod gists;
mod hatches;
mod header;
mod hint;
mod improve;
mod keyboard_focus;
mod later;
mod layers;
mod learn;
mod levels;
mod listeners;
mod notes;
mod notice;
mod planned;
mod row;
mod section;
mod share;
mod shares;
mod sheet_numbers;
mod shelf;
mod stack;
mod staircase;
mod stations;
mod steps;
mod sure;
mod tradeoffs;
mod wishes_form;

pub use app::{App, AppProps};

use keyboard_focus::{focus, focus_soon};
