//! What is folded and unfolded on the page outlives a reload.

use gloo::events::{EventListener, EventListenerOptions, EventListenerPhase};
use gloo::utils::document;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlDetailsElement};
use yew::prelude::*;

use crate::storage;

/// Folds whose state is worth keeping: those with an id, menus excepted.
const FOLDS: &str = "details[id]:not(.menu)";

/// Unfolds what was unfolded, and keeps track of it.
#[hook]
pub fn use_folds() {
    use_effect_with((), |()| {
        if let Some(unfolded) = storage::held(storage::UNFOLDED) {
            each_fold(|fold| fold.set_open(unfolded.split(' ').any(|id| id == fold.id())));
        }
        let options = EventListenerOptions { phase: EventListenerPhase::Capture, passive: true };
        let toggled = EventListener::new_with_options(&document(), "toggle", options, |event| {
            if event
                .target()
                .is_some_and(|target| target.dyn_ref::<Element>().is_some_and(|fold| fold.matches(FOLDS).unwrap_or(false)))
            {
                let mut unfolded = Vec::new();
                each_fold(|fold| {
                    if fold.open() {
                        unfolded.push(fold.id());
                    }
                });
                storage::hold(storage::UNFOLDED, &unfolded.join(" "));
            }
        });
        move || drop(toggled)
    });
}

fn each_fold(mut visit: impl FnMut(&HtmlDetailsElement)) {
    let Ok(folds) = document().query_selector_all(FOLDS) else { return };
    for index in 0..folds.length() {
        if let Some(fold) = folds.get(index).and_then(|fold| fold.dyn_into::<HtmlDetailsElement>().ok()) {
            visit(&fold);
        }
    }
}
