//! The view of words and numbers: every term in a sentence, every quantity with its relation and its source.

use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::estimator::{all_explanations, all_terms};

/// The view; what is typed in its field leaves only what has it.
#[component]
pub fn Learn() -> Html {
    let known = use_memo((), |()| (all_terms(), all_explanations()));
    let wanted = use_state_eq(String::new);
    let oninput = use_callback(wanted.setter(), |event: InputEvent, wanted| {
        wanted.set(event.target_unchecked_into::<HtmlInputElement>().value());
    });
    let small = wanted.trim().to_ascii_lowercase();
    let (all_terms, all_quantities) = &*known;
    let terms: Vec<_> = all_terms.iter().filter(|term| term.has(&small)).collect();
    let quantities: Vec<_> = all_quantities.iter().filter(|own| own.has(&small)).collect();
    let found = format!("{} terms, {} numbers", terms.len(), quantities.len());
    html! {
        <div class="learn" id="view-learn">
            <div class="find">
                <label for="find">{ "Find a word" }</label>
                <input type="search" id="find" autocomplete="off" value={(*wanted).clone()} {oninput} />
                <span class="hint" role="status" id="found">{ found }</span>
            </div>
            <section aria-labelledby="terms-title">
                <h2 id="terms-title">{ "Terms" }<small>{ "each in a sentence" }</small></h2>
                <dl class="terms">
                    { for terms.into_iter().map(|term| html! { <div key={&*term.name}><dt>{ &term.name }</dt><dd>{ &term.meaning }</dd></div> }) }
                </dl>
            </section>
            <section aria-labelledby="quantities-title">
                <h2 id="quantities-title">{ "Numbers" }<small>{ "relation, source, what is assumed, how far it holds" }</small></h2>
                { for quantities.into_iter().map(|own| html! {
                    <details key={&*own.title} class="quantity">
                        <summary><b>{ &own.title }</b><span>{ &own.plain }</span></summary>
                        <dl>{ for own.parts.iter().map(|(name, text)| html! { <><dt>{ *name }</dt><dd>{ text }</dd></> }) }</dl>
                    </details>
                }) }
            </section>
        </div>
    }
}
