//! What to change next: what each single change brings, sorted by what counts, and made by one click.

use std::rc::Rc;

use hushwright::design::Design;
use hushwright::improve::{Order, Step};
use yew::prelude::*;

use super::explainer::why;
use crate::components::SelectField;
use crate::explanations::{Told, of_result};
use crate::quantity::Units;
use crate::state::Action;
use crate::step_words::{gain_words, order_name, price_words};
use crate::sureness::Changes;
use crate::work::NextStep;

/// Changes that are shown before the rest is unfolded.
const FIRST: usize = 3;

/// Properties of [`Steps`].
#[derive(Clone, PartialEq, Properties)]
pub struct StepsProps {
    /// The design that is shown.
    pub design: Rc<Design>,
    /// What each change brings.
    pub steps: Option<Changes>,
    /// Whether nobody works them out.
    pub unavailable: bool,
    /// Units shown.
    pub units: Units,
    /// Whether all of them are shown, to be sorted; else the first few.
    #[prop_or_default]
    pub whole: bool,
    /// Where all of them are asked for, if only some are shown.
    #[prop_or_default]
    pub on_all: Option<Callback<()>>,
    /// Where actions go.
    pub emit: Callback<Action>,
}

/// The list of changes.
#[component]
pub fn Steps(props: &StepsProps) -> Html {
    let order = use_state_eq(Order::default);
    let on_choose = use_callback(order.setter(), |key: String, setter| {
        if let Some(order) = key.parse().ok().and_then(|place: usize| Order::ALL.get(place)) {
            setter.set(*order);
        }
    });
    let options: Vec<(AttrValue, AttrValue)> =
        Order::ALL.iter().enumerate().map(|(place, order)| (place.to_string().into(), order_name(*order).into())).collect();
    let value = Order::ALL.iter().position(|own| own == &*order).unwrap_or_default().to_string();
    let list = props.steps.as_ref().map(|Changes { design: of, steps, .. }| {
        // What a change brings to the design before says little about this one: until the worker knows, nothing can be made.
        let stale = !Rc::ptr_eq(of, &props.design);
        let row = |place: usize| {
            let Some(NextStep { name, step, fragment }) = steps.get(place) else { return Html::default() };
            let onclick = {
                let fragment = fragment.clone();
                let emit = props.emit.clone();
                Callback::from(move |_: MouseEvent| {
                    if !stale {
                        emit.emit(Action::Improve(fragment.clone()));
                    }
                })
            };
            let label = format!("Apply: {name}");
            html! {
                <li key={place}><span>{ name }</span><b>{ gain_words(step) }</b>
                    <button type="button" aria-disabled={stale.then_some("true")} aria-label={label} {onclick}>{ "Apply" }</button>
                    <span class="hint">{ price_words(step, props.units) }</span></li>
            }
        };
        let gains: Vec<Step> = steps.iter().map(|next| next.step).collect();
        let places = order.sorted(&gains);
        let shown = if props.whole { places.len() } else { FIRST.min(places.len()) };
        let id = if props.whole { "all-steps" } else { "steps" };
        html! { <ol class="steps" {id}>{ for places[..shown].iter().map(|&place| row(place)) }</ol> }
    });
    let title = if props.whole { "all-steps-title" } else { "steps-title" };
    html! {
        <section aria-labelledby={title}>
            <h2 id={title}>{ "What to change next" }{ why(&props.emit, of_result(Told::Changes)) }</h2>
            if props.whole { <SelectField id="steps-order" label="Sorted by" {options} {value} {on_choose} /> }
            { list.unwrap_or_else(|| {
                let why = "Changes cannot be worked out: the worker of this page does not run.";
                html! { <p id="no-steps">{ if props.unavailable { why } else { "…" } }</p> }
            }) }
            if !props.whole {
                if let Some(on_all) = &props.on_all {
                    <button type="button" class="plain" onclick={on_all.reform(|_: MouseEvent| ())}>{ "All changes, and the best trade-offs" }</button>
                }
            }
            <p class="hint">{ "One change each, all else alike. Costs are those of boards, bonds and wool: seals, supports and work are not counted yet." }</p>
        </section>
    }
}
