//! The view of words and numbers: every term in a sentence, every quantity with its relation and its source.

use web_sys::HtmlInputElement;
use yew::prelude::*;

use super::explainer::parts;
use crate::explanations::{Explanation, TERMS};
use crate::state::Action;

/// Properties of [`Learn`].
#[derive(Clone, PartialEq, Properties)]
pub struct LearnProps {
    /// Where actions go.
    pub emit: Callback<Action>,
}

/// Whether one of `texts` has `wanted`, which is in small letters.
fn has(wanted: &str, texts: &[&str]) -> bool {
    texts.iter().any(|text| text.to_lowercase().contains(wanted))
}

/// The view; what is typed in its field leaves only what has it.
#[component]
pub fn Learn(_: &LearnProps) -> Html {
    let wanted = use_state_eq(String::new);
    let oninput = use_callback(wanted.setter(), |event: InputEvent, wanted| {
        wanted.set(event.target_unchecked_into::<HtmlInputElement>().value());
    });
    let small = wanted.trim().to_lowercase();
    let terms: Vec<_> = TERMS
        .iter()
        .filter(|term| has(&small, &[term.name, term.meaning]) || term.also.iter().any(|also| has(&small, &[also])))
        .map(|term| {
            html! { <div key={term.key} id={format!("term-{}", term.key)}><dt>{ term.name }</dt><dd>{ term.meaning }</dd></div> }
        })
        .collect();
    let mut seen = Vec::new();
    let quantities: Vec<_> = Explanation::all()
        .filter(|own| has(&small, &[own.title, own.plain, own.relation, own.source]))
        .filter(|own| {
            let is_new = !seen.contains(&own.key);
            seen.push(own.key);
            is_new
        })
        .map(|own| {
            html! {
                <details key={own.key} class="quantity">
                    <summary><b>{ own.title }</b><span>{ own.plain }</span></summary>
                    <dl>{ for parts(own).map(|(name, text)| html! { <><dt>{ name }</dt><dd>{ text }</dd></> }) }</dl>
                </details>
            }
        })
        .collect();
    let found = format!("{} terms, {} quantities", terms.len(), quantities.len());
    html! {
        <div class="learn" id="view-learn">
            <div class="find">
                <label for="find">{ "Find a word" }</label>
                <input type="search" id="find" autocomplete="off" value={(*wanted).clone()} {oninput} />
                <span class="hint" role="status">{ found }</span>
            </div>
            <section aria-labelledby="terms-title">
                <h2 id="terms-title">{ "Terms" }<small>{ "each in a sentence" }</small></h2>
                <dl class="terms">{ for terms }</dl>
            </section>
            <section aria-labelledby="quantities-title">
                <h2 id="quantities-title">{ "Numbers" }<small>{ "relation, source, what is assumed, how far it holds" }</small></h2>
                { for quantities }
            </section>
        </div>
    }
}
