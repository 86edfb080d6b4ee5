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

use gloo::timers::callback::Timeout;
use wasm_bindgen::JsCast;

/// Moves the keyboard focus to the element with this id, and the element into sight; what it is folded away in is unfolded.
fn focus(id: &str) {
    let element = gloo::utils::document().get_element_by_id(id);
    if let Some(element) = element.and_then(|element| element.dyn_into::<web_sys::HtmlElement>().ok()) {
        while let Ok(Some(folded)) = element.closest("details:not([open])") {
            if folded.set_attribute("open", "").is_err() {
                break;
            }
        }
        let _ = element.focus();
    }
}

/// Focuses an element once the page has followed the action.
fn focus_soon(id: String) {
    Timeout::new(0, move || focus(&id)).forget();
}
