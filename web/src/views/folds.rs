//! What is folded and unfolded on the page outlives a reload.

use std::cell::RefCell;

use gloo::events::{EventListener, EventListenerOptions, EventListenerPhase};
use gloo::utils::document;
use wasm_bindgen::JsCast;
use web_sys::HtmlDetailsElement;
use yew::prelude::*;

use crate::storage;

/// Folds whose state is worth keeping: those with an id, menus excepted.
const FOLDS: &str = "details[id]:not(.menu)";

/// Stands before the id of one that was folded. What is kept is ids with blanks between, of all that were touched.
const FOLDED: char = '!';

thread_local! {
    static LEFT: RefCell<String> = RefCell::new(storage::held(storage::UNFOLDED).unwrap_or_default());
}

/// Keeps track of what is unfolded.
#[hook]
pub fn use_folds() {
    use_effect_with((), |()| {
        let options = EventListenerOptions { phase: EventListenerPhase::Capture, passive: true };
        let toggled = EventListener::new_with_options(&document(), "toggle", options, |event| {
            let Some(fold) = event.target().and_then(|target| target.dyn_into::<HtmlDetailsElement>().ok()) else { return };
            if fold.matches(FOLDS).unwrap_or(false) {
                LEFT.with_borrow_mut(|left| {
                    *left = noted(left, &fold.id(), fold.open());
                    storage::hold(storage::UNFOLDED, left);
                });
            }
        });
        move || drop(toggled)
    });
}

/// Whether the fold with this id is unfolded when it comes: as it was left, or else `first`.
pub fn comes_unfolded(id: &str, first: bool) -> bool {
    LEFT.with_borrow(|left| state_of(left, id)).unwrap_or(first)
}

fn state_of(left: &str, id: &str) -> Option<bool> {
    left.split(' ').find_map(|word| match word.strip_prefix(FOLDED) {
        Some(folded) => (folded == id).then_some(false),
        None => (word == id).then_some(true),
    })
}

fn noted(left: &str, id: &str, is_open: bool) -> String {
    let mut words: Vec<&str> = left.split(' ').filter(|word| !word.is_empty() && word.trim_start_matches(FOLDED) != id).collect();
    let folded = format!("{FOLDED}{id}");
    words.push(if is_open { id } else { &folded });
    words.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fold_is_as_it_was_left_last_and_others_as_they_come() {
        let mut left = String::new();
        for (id, is_open) in [("part-inner", true), ("part-inner-lid", true), ("station-inner", false), ("part-inner", false)] {
            left = noted(&left, id, is_open);
        }
        assert_eq!(state_of(&left, "part-inner"), Some(false));
        assert_eq!(state_of(&left, "part-inner-lid"), Some(true), "another's id that begins alike");
        assert_eq!(state_of(&left, "station-inner"), Some(false));
        assert_eq!(state_of(&left, "part-outer"), None);
        assert_eq!(left.split(' ').count(), 3, "each once: {left}");
    }
}
