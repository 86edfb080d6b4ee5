//! Text with marks, as another program has made it, put into the page without taking the focus from what is typed into it.

use gloo::timers::callback::Timeout;
use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, HtmlInputElement};
use yew::prelude::*;

/// Properties of [`MarkedUp`].
#[derive(Clone, PartialEq, Properties)]
pub struct MarkedUpProps {
    /// The text. Whoever makes it escapes what people have written.
    pub body: AttrValue,
}

/// Shows it. What is unfolded stays so, and the input with the focus keeps it, where the new text has one with the same id. While
/// somebody types into an input, the text stays as it is: what is typed there is in no text yet.
#[component]
pub fn MarkedUp(MarkedUpProps { body }: &MarkedUpProps) -> Html {
    let place = use_node_ref();
    // What waits to be shown, and whether something is typed that the page has not been told.
    let waiting = use_mut_ref(|| None::<AttrValue>);
    let is_typing = use_mut_ref(|| false);
    let show = {
        let (place, waiting, is_typing) = (place.clone(), waiting.clone(), is_typing.clone());
        move || {
            if *is_typing.borrow() {
                return;
            }
            if let (Some(place), Some(body)) = (place.cast::<HtmlElement>(), waiting.take()) {
                put(&place, &body);
            }
        }
    };
    {
        let show = show.clone();
        use_effect_with(body.clone(), move |body| {
            waiting.replace(Some(body.clone()));
            show();
        });
    }
    let is_told = {
        let is_typing = is_typing.clone();
        move || {
            is_typing.replace(false);
            // Once the focus has come to where it goes.
            Timeout::new(0, show.clone()).forget();
        }
    };
    let oninput = Callback::from(move |_: InputEvent| {
        is_typing.replace(true);
    });
    let onchange = Callback::from({
        let is_told = is_told.clone();
        move |_: Event| is_told()
    });
    let onfocusout = Callback::from(move |_: FocusEvent| is_told());
    html! { <div class="marked-up" ref={place} {oninput} {onchange} {onfocusout} /> }
}

/// Puts `body` in place of what is there.
fn put(place: &HtmlElement, body: &str) {
    let document = gloo::utils::document();
    let active = document.active_element().filter(|active| place.contains(Some(active)));
    let (id, selected) = active.map(|active| (active.id(), is_selected(&active))).unwrap_or_default();
    let was_open: Vec<bool> = folds(place).iter().map(web_sys::HtmlDetailsElement::open).collect();
    place.set_inner_html(body);
    for (fold, open) in folds(place).into_iter().zip(was_open) {
        fold.set_open(open);
    }
    if let Some(again) = (!id.is_empty()).then(|| document.get_element_by_id(&id)).flatten() {
        if let Some(again) = again.dyn_ref::<HtmlElement>() {
            // Fails only where the browser does not give focus at all.
            let _ = again.focus();
        }
        if let Some(input) = again.dyn_ref::<HtmlInputElement>().filter(|_| selected) {
            input.select();
        }
    }
}

/// Whether all of an input is selected, as it is after the tabulator.
fn is_selected(element: &web_sys::Element) -> bool {
    element.dyn_ref::<HtmlInputElement>().is_some_and(|input| {
        let ends = (input.selection_start().ok().flatten(), input.selection_end().ok().flatten());
        matches!(ends, (Some(0), Some(end)) if end > 0 && end as usize == input.value().encode_utf16().count())
    })
}

fn folds(place: &HtmlElement) -> Vec<web_sys::HtmlDetailsElement> {
    let all = place.get_elements_by_tag_name("details");
    (0..all.length()).filter_map(|k| all.item(k)?.dyn_into().ok()).collect()
}
