//! Explanations: the small buttons beside what can be explained, and the sheet on which an explanation stands.

use wasm_bindgen::JsCast;
use web_sys::HtmlElement;
use yew::prelude::*;

use crate::estimator::explanation;
use crate::explanations::{Explained, Topic};
use crate::state::Action;

/// The button that asks for an explanation of `topic`.
pub fn why(emit: &Callback<Action>, topic: Topic) -> Html {
    let onclick = emit.reform(move |event: MouseEvent| {
        // It may stand in the head of something that folds.
        event.prevent_default();
        Action::Explain(Some(topic))
    });
    html! {
        <button type="button" class="why" aria-haspopup="dialog" aria-label={format!("{}: explained", topic.title)} {onclick}>
            <span aria-hidden="true">{ "?" }</span>
        </button>
    }
}

/// Properties of [`Explainer`].
#[derive(Clone, PartialEq, Properties)]
pub struct ExplainerProps {
    /// What is explained.
    pub explained: Option<Topic>,
    /// Where actions go.
    pub emit: Callback<Action>,
}

/// The sheet with the explanation that was asked for; the Escape key, a click elsewhere or its button closes it, and the focus goes
/// back to where it was.
#[component]
pub fn Explainer(props: &ExplainerProps) -> Html {
    let node = use_node_ref();
    {
        let node = node.clone();
        use_effect_with(props.explained, move |explained| {
            if let Some(sheet) = node.cast::<HtmlElement>() {
                // Fails where it is already as it is wished, or in a browser without such sheets, where it stands on the page.
                let _ = if explained.is_some() { sheet.show_popover() } else { sheet.hide_popover() };
            }
        });
    }
    let ontoggle = {
        let emit = props.emit.clone();
        Callback::from(move |event: Event| {
            let sheet = event.target().and_then(|target| target.dyn_into::<HtmlElement>().ok());
            if sheet.is_some_and(|sheet| !sheet.matches(":popover-open").unwrap_or(true)) {
                emit.emit(Action::Explain(None));
            }
        })
    };
    let onclick = props.emit.reform(|_: MouseEvent| Action::Explain(None));
    html! {
        <aside id="explanation" ref={node} popover="auto" role="dialog" aria-labelledby="explanation-title" tabindex="-1" autofocus=true {ontoggle}>
            if let Some(Explained { title, plain, parts }) = props.explained.and_then(explanation) {
                <h2 id="explanation-title">{ title }</h2>
                <p>{ plain }</p>
                <dl>{ for parts.into_iter().map(|(name, text)| html! { <><dt>{ name }</dt><dd>{ text }</dd></> }) }</dl>
                <button type="button" {onclick}>{ "Close" }</button>
            }
        </aside>
    }
}
