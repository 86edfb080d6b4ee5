//! Text with marks, as another program has made it, put into the page without taking the focus from what is typed into it.

use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, HtmlInputElement};
use yew::prelude::*;

/// Properties of [`MarkedUp`].
#[derive(Clone, PartialEq, Properties)]
pub struct MarkedUpProps {
    /// The text. Whoever makes it escapes what people have written.
    pub body: AttrValue,
}

/// Shows it. What is unfolded stays so, and the input with the focus keeps it, where the new text has one with the same id.
#[component]
pub fn MarkedUp(MarkedUpProps { body }: &MarkedUpProps) -> Html {
    let place = use_node_ref();
    {
        let place = place.clone();
        use_effect_with(body.clone(), move |body| {
            let Some(place) = place.cast::<HtmlElement>() else { return };
            let document = gloo::utils::document();
            let active = document.active_element().filter(|active| place.contains(Some(active)));
            let (id, selected) = active.map(|active| (active.id(), is_selected(&active))).unwrap_or_default();
            let was_open: Vec<bool> = folds(&place).iter().map(web_sys::HtmlDetailsElement::open).collect();
            place.set_inner_html(body);
            for (fold, open) in folds(&place).into_iter().zip(was_open) {
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
        });
    }
    html! { <div class="marked-up" ref={place} /> }
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
