//! Where the keyboard focus goes when what had it has gone, or something else has come.

use gloo::timers::callback::Timeout;
use gloo::utils::document;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, HtmlInputElement};

/// How often the page is looked at for the element that is to have the focus, and the ms in between.
const LOOKS: u32 = 10;
const BETWEEN_MS: u32 = 16;

/// Moves the keyboard focus to the element with this id, and the element into sight; what it is folded away in is unfolded.
pub fn focus(id: &str) {
    let element = document().get_element_by_id(id);
    if let Some(element) = element.and_then(|element| element.dyn_into::<HtmlElement>().ok()) {
        while let Ok(Some(folded)) = element.closest("details:not([open])") {
            if folded.set_attribute("open", "").is_err() {
                break;
            }
        }
        let _ = element.focus();
    }
}

/// Focuses an element once the page has followed the action. An input is selected then, as by the tabulator: what is there is typed
/// over, or kept.
///
/// The page may take several turns for it: Yew lets the browser in between when an answer has taken longer than a frame. So the
/// element is looked for more than once, as long as nobody has gone elsewhere.
pub fn focus_soon(id: String) {
    Timeout::new(0, {
        let origin = document().active_element();
        move || look(id, origin.as_ref(), LOOKS)
    })
    .forget();
}

/// Gives the element the focus if that is still at `left`, or nowhere, and looks again later.
fn look(id: String, left: Option<&Element>, looks: u32) {
    let now = document().active_element();
    let has_it = now.as_ref().is_some_and(|now| now.id() == id);
    // What is made anew has the id of what was there.
    let is_left = |now: &Element| left.is_some_and(|left| left == now || (!left.id().is_empty() && left.id() == now.id()));
    let is_free = now.as_ref().is_none_or(|now| now.tag_name() == "BODY" || is_left(now));
    if !has_it && !is_free {
        return;
    }
    if !has_it {
        focus(&id);
        if let Some(input) = document().active_element().filter(|now| now.id() == id).and_then(|now| now.dyn_into().ok()) {
            HtmlInputElement::select(&input);
        }
    }
    if looks > 1 {
        let left = document().active_element();
        Timeout::new(BETWEEN_MS, move || look(id, left.as_ref(), looks - 1)).forget();
    }
}
