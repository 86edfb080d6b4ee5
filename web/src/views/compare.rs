//! Designs side by side: the present one and up to three others, what they do, where their inputs differ.

use std::rc::Rc;

use hushwright::design::Design;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlDetailsElement};
use yew::prelude::*;

use super::compare_chart::{Standing, caption, chart};
use super::compare_tools::{Offered, Tools};
use super::focus_soon;
use super::levels::table;
use super::planned::Plan;
use crate::address;
use crate::components::{CopyText, LineChartView, MarkedUp};
use crate::estimator::Estimator;
use crate::explanations::of_result;
use crate::level_table::columns_of;
use crate::model::estimate_from_bytes;
use crate::planner;
use crate::schedule::{Column, Comparison, EXPLAINED};
use crate::state::{Action, Beside, State, normalised};
use crate::view::View;

/// Properties of [`Compare`].
#[derive(Clone, PartialEq, Properties)]
pub struct CompareProps {
    /// The page's state.
    pub state: UseReducerHandle<State>,
    /// What the workshop says of the present design.
    pub plan: Plan,
    /// Designs kept on the device, which are offered behind the examples.
    #[prop_or_default]
    pub kept: Vec<Offered>,
    /// Where actions go.
    pub emit: Callback<Action>,
}

/// Opens the design of a link and works out what it does; with both as bytes.
fn opened(fragment: &str, estimator: &Estimator) -> (Column, Option<Standing>) {
    let design = match estimator.open(fragment) {
        Ok(design) => Rc::new(normalised(design)),
        Err(message) => return (Column::Refused(message), None),
    };
    let bytes = estimator.estimate_bytes(&design);
    // What a link carries has passed its check.
    let estimate = estimate_from_bytes(&bytes).and_then(Result::ok);
    let column = Column::Design(design.to_bytes(), bytes);
    (column, estimate.map(|estimate| Standing { design, report: Rc::new(estimate.report) }))
}

/// The view. It works out nothing while another is shown: it is not there then.
#[component]
pub fn Compare(props: &CompareProps) -> Html {
    let CompareProps { state, plan, kept, emit } = props;
    let others = use_memo(state.beside().to_vec(), |beside| {
        beside.iter().map(|fragment| opened(fragment, state.estimator())).collect::<Vec<_>>()
    });
    let present = Standing { design: Rc::clone(state.design()), report: Rc::clone(state.report()) };
    let mut standings = vec![Some(present)];
    standings.extend(others.iter().map(|(_, other)| other.clone()));

    let losses = use_state_eq(|| false);
    let cursor = use_state_eq(|| None);
    let on_cursor = use_callback(cursor.setter(), |band, cursor| cursor.set(band));
    let drawn = |words: &'static str, of_losses: bool| {
        let setter = losses.setter();
        let onclick = Callback::from(move |_: MouseEvent| setter.set(of_losses));
        html! { <button type="button" {onclick} aria-pressed={(*losses == of_losses).to_string()}>{ words }</button> }
    };
    let lines = chart(&standings, *losses);
    let in_numbers = use_state_eq(|| false);
    let ontoggle = {
        let setter = in_numbers.setter();
        Callback::from(move |event: Event| setter.set(event.target_unchecked_into::<HtmlDetailsElement>().open()))
    };
    let link = {
        let (design, beside) = (Rc::clone(state.fragment()), state.beside().to_vec());
        Callback::from(move |()| address::link(&View::Compare.fragment_with(&design, &beside)))
    };
    // The workshop has come once it has planned anything.
    let wanted = (Rc::clone(state.design()), Rc::clone(&others), state.units(), plan.latest.is_some());
    let sheet = use_memo(wanted, |(design, others, units, has_workshop)| {
        let own = Column::Design(design.to_bytes(), state.estimator().estimate_bytes(design));
        let columns = std::iter::once(own).chain(others.iter().map(|(column, _)| column.clone())).collect();
        let designs: Vec<Option<&Design>> = standings.iter().map(|own| own.as_ref().map(|own| &*own.design)).collect();
        let sheet = has_workshop.then(|| planner::comparison(&Comparison::new(columns, &designs, *units)));
        sheet.flatten().map(AttrValue::from)
    });
    html! {
        <section class="compare" id="view-compare" aria-labelledby="compare-title">
            <div class="beside-tools">
                <h2 id="compare-title">{ "Designs side by side" }</h2>
                <p class="hint">{ "A is the design at hand and follows every change of it. Set it beside itself, change something in Estimate, and come back: the difference stands here. The address of this view holds all designs." }</p>
                <Tools estimator={state.estimator().clone()} fragment={Rc::clone(state.fragment())} count={others.len()}
                    refusal={state.refusal("beside").map(|refusal| AttrValue::from(refusal.to_owned()))} kept={kept.clone()} emit={emit.clone()} />
                <p class="hint" role="status" id="compare-said">{ said(state) }</p>
                <div class="share"><CopyText id="copy-comparison" label="Copy link to this comparison" done="Link copied" text={link} /></div>
                <div class="drawn" role="group" aria-label="What is drawn">
                    { drawn("Level", false) }{ drawn("Insertion loss", true) }
                </div>
                <LineChartView id="chart-compare" label="The designs by frequency; arrow keys read one band after the other"
                    caption={caption(&standings, *losses)} cursor={*cursor} {on_cursor} chart={lines.clone()} />
                <details class="numbers" {ontoggle}>
                    <summary>{ "The same in numbers" }</summary>
                    if *in_numbers { { table(&columns_of(&lines), "The lines of the chart, dB", "") } }
                </details>
                <p class="hint">{ "These are single estimates without their ranges, which are in Estimate; pass, at risk and fail go here by 5 dB to either side of the limit. What designs have in common and nobody knows well (corners, rooms, the way to the listener) shifts all of them alike: a difference between them is surer than the levels themselves." }</p>
            </div>
            <div class="of-differences" onclick={pressed(emit)}>
                if let Some(body) = &*sheet {
                    <MarkedUp {body} />
                } else {
                    <p role="status">{ if plan.is_missing { "The workshop could not be loaded. Check the connection and load the page again; the designs are kept." } else { "Working out the schedule …" } }</p>
                }
            </div>
        </section>
    }
}

/// What the buttons of the schedule do.
fn pressed(emit: &Callback<Action>) -> Callback<MouseEvent> {
    let emit = emit.clone();
    Callback::from(move |event: MouseEvent| {
        let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
        let Some(button) = target.and_then(|target| target.closest("button").ok().flatten()) else { return };
        let number = |text: &str| text.parse::<usize>().ok();
        if let Some(told) = button.get_attribute("data-told").and_then(|at| EXPLAINED.get(number(&at)?).copied()) {
            emit.emit(Action::Explain(Some(of_result(told))));
        }
        let beside = button.get_attribute("data-beside").unwrap_or_default();
        match beside.split_once(' ').and_then(|(what, place)| Some((what, number(place)?))) {
            Some(("open", place)) => emit.emit(Action::Beside(Beside::Swap(place))),
            Some((_, place)) => {
                emit.emit(Action::Beside(Beside::TakeAway(place)));
                focus_soon("compare-freeze".to_owned());
            }
            None => {}
        }
    })
}

/// What stands beside the present design, for those who do not see it come and go.
fn said(state: &State) -> String {
    let text = match state.beside().len() {
        0 => "Nothing stands beside it yet.",
        1 => "One design stands beside it: B.",
        2 => "Two designs stand beside it: B and C.",
        _ => "Three designs stand beside it: B, C and D. That is the most.",
    };
    match state.left_out() {
        0 => text.to_owned(),
        more => format!("{text} Left out of the link, for want of room: {more} more."),
    }
}
