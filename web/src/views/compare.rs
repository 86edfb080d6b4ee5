//! Designs side by side: the present one and up to three others, what they do, where their inputs differ.

use std::rc::Rc;

use hushwright::design::Design;
use web_sys::HtmlDetailsElement;
use yew::prelude::*;

use super::compare_sheet::{Sheet, places, schedule};
use super::compare_tools::{Offered, Tools};
use super::differences::{Kind, Place, differences};
use super::levels::table;
use super::outcomes::{Standing, caption, chart, outcomes};
use super::planned::Plan;
use crate::address;
use crate::components::{CopyText, LineChartView};
use crate::documents::Gist;
use crate::estimator::Estimator;
use crate::level_table::columns_of;
use crate::planner::{self, Question};
use crate::quantity::Units;
use crate::state::{Action, State, normalised};
use crate::view::View;
use crate::words::counted;

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

/// A design that stands beside the present one, or why it cannot be opened.
pub type Opened = Result<Standing, String>;

/// Opens the design of a link and works out what it does.
fn opened(fragment: &str, estimator: &Estimator) -> Opened {
    let design = Rc::new(normalised(estimator.open(fragment)?));
    let estimate = estimator.estimate(&design);
    // What a link carries has passed its check.
    let report = estimate.map_err(|errors| errors.into_iter().map(|error| error.message).collect::<Vec<_>>().join(" "))?.report;
    Ok(Standing { design, report: Rc::new(report) })
}

/// The view. It works out nothing while another is shown: it is not there then.
#[component]
pub fn Compare(props: &CompareProps) -> Html {
    let CompareProps { state, plan, kept, emit } = props;
    let units = state.units();
    let others = use_memo(state.beside().to_vec(), |beside| {
        beside.iter().map(|fragment| opened(fragment, state.estimator())).collect::<Vec<Opened>>()
    });
    let has_workshop = plan.latest.is_some();
    let gists_of_others = use_memo((Rc::clone(&others), has_workshop), |(others, has_workshop)| {
        let gist = |design: &Design| planner::planned(&Question::new(design, Units::Metric, Vec::new(), false));
        let of = |other: &Opened| other.as_ref().ok().filter(|_| *has_workshop).and_then(|own| Some(gist(&own.design)?.gist));
        others.iter().map(of).collect::<Vec<Option<Gist>>>()
    });
    let present = Standing { design: Rc::clone(state.design()), report: Rc::clone(state.report()) };
    let mut standings = vec![Some(present)];
    standings.extend(others.iter().map(|other| other.as_ref().ok().cloned()));
    let mut gists = vec![plan.latest.as_ref().map(|(_, planned)| planned.gist.clone())];
    gists.extend(gists_of_others.iter().cloned());

    let losses = use_state_eq(|| false);
    let cursor = use_state_eq(|| None);
    let on_cursor = use_callback(cursor.setter(), |band, cursor| cursor.set(band));
    let drawn = |words: &'static str, of_losses: bool| {
        let setter = losses.setter();
        let onclick = Callback::from(move |_: MouseEvent| setter.set(of_losses));
        html! { <button type="button" {onclick} aria-pressed={(*losses == of_losses).to_string()}>{ words }</button> }
    };
    let lines = chart(&standings, *losses);
    let (numbers, partly, alike) = (use_fold(), use_fold(), use_fold());
    let inputs = {
        let designs: Vec<Option<&Design>> = standings.iter().map(|own| own.as_ref().map(|own| &*own.design)).collect();
        differences(&designs, units)
    };
    let link = {
        let (design, beside) = (Rc::clone(state.fragment()), state.beside().to_vec());
        Callback::from(move |()| address::link(&View::Compare.fragment_with(&design, &beside)))
    };
    let sheet = Sheet { standings: &standings, others: &others, emit };
    html! {
        <section class="compare" id="view-compare" aria-labelledby="compare-title">
            <div class="beside-tools">
                <h2 id="compare-title">{ "Designs side by side" }</h2>
                <p class="hint">
                    { "A is the design at hand and follows every change of it. Set it beside itself, change something in Estimate, and come back: " }
                    { "the difference stands here. The address of this view, and its link, hold all designs." }
                </p>
                <Tools estimator={state.estimator().clone()} fragment={Rc::clone(state.fragment())} count={others.len()}
                    refusal={state.refusal("beside").map(|refusal| AttrValue::from(refusal.to_owned()))} kept={kept.clone()} emit={emit.clone()} />
                <p class="hint" role="status" id="compare-said">{ said(state) }</p>
                <div class="share"><CopyText id="copy-comparison" label="Copy link to this comparison" done="Link copied" text={link} /></div>
                <div class="drawn" role="group" aria-label="What is drawn">
                    { drawn("Level", false) }{ drawn("Insertion loss", true) }
                </div>
                <LineChartView id="chart-compare" label="The designs by frequency; arrow keys read one band after the other"
                    caption={caption(&standings, *losses)} cursor={*cursor} {on_cursor} chart={lines.clone()} />
                <details class="numbers" ontoggle={numbers.1}>
                    <summary>{ "The same in numbers" }</summary>
                    if numbers.0 { { table(&columns_of(&lines), "The lines of the chart, dB", "") } }
                </details>
                <p class="hint">
                    { "These are single estimates without their ranges, which are in Estimate, and pass, at risk and fail go here by 5 dB to either side " }
                    { "of the limit. What designs have in common and nobody knows well (corners, rooms, the way to the listener) shifts all of them alike: " }
                    { "a difference between them is surer than the levels themselves." }
                </p>
            </div>
            <div class="of-differences">
                { schedule(&sheet, &outcomes(&standings, &gists, units), &inputs) }
                if standings.len() > 1 {
                    { folded("compare-partly", &inputs, Kind::Partly, ["input that not all have", "inputs that not all have"], partly, &sheet) }
                    { folded("compare-alike", &inputs, Kind::Alike, ["input is alike", "inputs are alike"], alike, &sheet) }
                }
            </div>
        </section>
    }
}

/// Whether something is unfolded, and what is told when that changes.
#[hook]
fn use_fold() -> (bool, Callback<Event>) {
    let is_open = use_state_eq(|| false);
    let setter = is_open.setter();
    let ontoggle = Callback::from(move |event: Event| setter.set(event.target_unchecked_into::<HtmlDetailsElement>().open()));
    (*is_open, ontoggle)
}

/// The inputs of a kind, folded away under how many they are.
fn folded(
    id: &'static str,
    inputs: &[Place],
    kind: Kind,
    [one, many]: [&'static str; 2],
    (is_open, ontoggle): (bool, Callback<Event>),
    sheet: &Sheet,
) -> Html {
    let count = inputs.iter().flat_map(|place| &place.rows).filter(|(own, _)| *own == kind).count();
    if count == 0 {
        return html! {};
    }
    html! {
        <details class="numbers" {id} {ontoggle}>
            <summary>{ counted(count as f64, one, many) }</summary>
            if is_open { { sheet.table(many, places(inputs, kind, sheet)) } }
        </details>
    }
}

/// What stands beside the present design, for those who do not see it come and go.
fn said(state: &State) -> String {
    let mut text = match state.beside().len() {
        0 => "Nothing stands beside it yet.".to_owned(),
        1 => "One design stands beside it: B.".to_owned(),
        2 => "Two designs stand beside it: B and C.".to_owned(),
        _ => "Three designs stand beside it: B, C and D. That is the most.".to_owned(),
    };
    if state.left_out() > 0 {
        let more = counted(state.left_out() as f64, "more design of the link has", "more designs of the link have");
        text = format!("{text} {more} been left out.");
    }
    text
}
