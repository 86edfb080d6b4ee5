//! Designs side by side: the present one and up to three others, what they do, where their inputs differ.

use std::rc::Rc;

use hushwright::design::{Design, examples};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlDetailsElement, HtmlInputElement, HtmlSelectElement};
use yew::prelude::*;

use super::compare_chart::{Standing, caption, chart};
use super::focus_soon;
use super::levels::table;
use super::planned::Plan;
use crate::address;
use crate::components::{CopyText, LineChartView, MarkedUp};
use crate::estimator::Estimator;
use crate::explanations::of_result;
use crate::level_table::columns_of;
use crate::model::estimate_from_bytes;
use crate::pasted;
use crate::planner;
use crate::schedule::{Column, Comparison, EXPLAINED};
use crate::shelf::browser::kept_designs;
use crate::state::{Action, Beside, MOST_BESIDE, State, normalised, parts};
use crate::view::View;

/// Why a pasted design is not set beside the others.
const FULL: &str = "Four designs are the most. Take one away first; this one stays here.";

/// A design that can be set beside: its name, and the fragment of its link.
type Offered = (String, String);

/// Properties of [`Compare`].
#[derive(Clone, Properties)]
pub struct CompareProps {
    /// The page's state.
    pub state: UseReducerHandle<State>,
    /// What the workshop says of the present design.
    pub plan: Plan,
    /// Where actions go.
    pub emit: Callback<Action>,
}

/// What is shown is kept by what it is made from; comparing all of the state would find what is known.
impl PartialEq for CompareProps {
    fn eq(&self, _: &Self) -> bool {
        false
    }
}

/// The fragment of the link that the page writes for the design that somebody has pasted; of a comparison for the first.
fn pasted_fragment(text: &str, estimator: &Estimator) -> Result<String, String> {
    let (design, _) = pasted::open(text, &**estimator)?;
    let estimate = estimator.estimate(&normalised(design));
    Ok(estimate.expect("only what says the same has changed since its check").fragment)
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

/// The designs that are kept on the device; none where the browser keeps nothing, which the list of them says.
fn kept() -> Vec<Offered> {
    let records = kept_designs().unwrap_or_default();
    records.into_iter().map(|record| (record.name, record.fragment)).collect()
}

/// The view. It works out nothing while another is shown: it is not there then.
#[component]
pub fn Compare(props: &CompareProps) -> Html {
    let CompareProps { state, plan, emit } = props;
    let kept = &*use_memo((), |()| kept());
    let others = use_memo(Rc::clone(state.beside()), |beside| {
        parts(beside).into_iter().map(|fragment| opened(fragment, state.estimator())).collect::<Vec<_>>()
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
        let (design, beside) = (Rc::clone(state.fragment()), Rc::clone(state.beside()));
        Callback::from(move |()| address::link(&View::Compare.fragment_with(&design, &beside)))
    };
    let wrong = use_state_eq(|| None::<(String, String)>);
    // The workshop has come once it has planned anything.
    let has_workshop = plan.latest.is_some();
    let wanted = ((Rc::clone(state.design()), Rc::clone(&others), state.units()), (has_workshop, (*wrong).clone(), kept.clone()));
    let sheet = use_memo(wanted, |((design, others, units), (has_workshop, wrong, kept))| {
        let own = Column::Design(design.to_bytes(), state.estimator().estimate_bytes(design));
        let columns = std::iter::once(own).chain(others.iter().map(|(column, _)| column.clone())).collect();
        let designs: Vec<Option<&Design>> = standings.iter().map(|own| own.as_ref().map(|own| &*own.design)).collect();
        let (pasted, message) = wrong.clone().unzip();
        let asked = Comparison {
            offered: examples().into_iter().map(|design| design.name).chain(kept.iter().map(|(name, _)| name.clone())).collect(),
            pasted: pasted.unwrap_or_default(),
            wrong: message,
            ..Comparison::new(columns, &designs, *units)
        };
        let sheet = has_workshop.then(|| planner::comparison(&asked));
        sheet.flatten().map(|parts| parts.map(AttrValue::from))
    });
    let [tools, sheet] = (*sheet).clone().map_or([None, None], |parts| parts.map(Some));
    let onclick = {
        let (state, kept, emit, wrong) = (state.clone(), kept.clone(), emit.clone(), wrong.setter());
        Callback::from(move |event: MouseEvent| {
            if let Some(button) = event.target_dyn_into::<Element>().and_then(|target| target.closest("button").ok().flatten())
                && pressed(&button, &state, &kept, &emit)
            {
                wrong.set(None);
            }
        })
    };
    let onsubmit = {
        let (state, emit, wrong) = (state.clone(), emit.clone(), wrong.setter());
        Callback::from(move |event: SubmitEvent| {
            event.prevent_default();
            let text = element::<HtmlInputElement>("compare-link").map(|field| field.value()).unwrap_or_default();
            if parts(state.beside()).len() >= MOST_BESIDE {
                wrong.set(Some((text, FULL.to_owned())));
                return;
            }
            match pasted_fragment(&text, state.estimator()) {
                Ok(fragment) => {
                    wrong.set(None);
                    emit.emit(Action::Beside(Beside::Put(fragment)));
                }
                Err(message) => wrong.set(Some((text, message))),
            }
        })
    };
    html! {
        <section class="compare" id="view-compare" aria-labelledby="compare-title" {onclick} {onsubmit}>
            <div class="beside-tools">
                <div class="title"><h2 id="compare-title" tabindex="-1">{ "Designs side by side" }</h2>
                <div class="drawn" role="group" aria-label="What is drawn">
                    { drawn("Level", false) }{ drawn("Insertion loss", true) }
                </div></div>
                if let Some((place, _)) = state.taken_away() {
                    <button type="button" id="compare-put-back" data-beside={format!("back {place}")}>{ "Put back what was taken away" }</button>
                }
                <LineChartView id="chart-compare" label="The designs by frequency; arrow keys read one band after the other"
                    caption={caption(&standings, *losses)} cursor={*cursor} {on_cursor} chart={lines.clone()} />
                <details class="numbers" {ontoggle}>
                    <summary>{ "The same in numbers" }</summary>
                    if *in_numbers { { table(&columns_of(&lines), "The lines of the chart, dB", "") } }
                </details>
                if let Some(body) = tools { <MarkedUp {body} /> }
                <p class="hint" role="status" id="compare-said">{ said(state, others.len()) }</p>
                <div class="share"><CopyText id="copy-comparison" label="Copy link to this comparison" done="Link copied" text={link} /></div>
            </div>
            <div class="of-differences">
                if let Some(body) = sheet {
                    <MarkedUp {body} />
                } else {
                    <p role="status">{ if plan.is_missing { "The workshop could not be loaded. Check the connection and load the page again; the designs are kept." } else { "Working out the schedule …" } }</p>
                }
            </div>
        </section>
    }
}

/// The element of the page with this id.
fn element<T: JsCast>(id: &str) -> Option<T> {
    gloo::utils::document().get_element_by_id(id)?.dyn_into().ok()
}

/// What the buttons of the controls and of the schedule do; says whether anything came or went.
fn pressed(button: &Element, state: &State, kept: &[Offered], emit: &Callback<Action>) -> bool {
    let number = |text: &str| text.parse::<usize>().ok();
    if let Some(told) = button.get_attribute("data-told").and_then(|at| EXPLAINED.get(number(&at)?).copied()) {
        emit.emit(Action::Explain(Some(of_result(told))));
    }
    let asked = button.get_attribute("data-beside").unwrap_or_default();
    let Some((what, place)) = asked.split_once(' ').and_then(|(what, place)| Some((what, number(place)?))) else { return false };
    let done = match what {
        "open" => Some(Beside::Swap(place)),
        "back" => {
            // The button goes.
            focus_soon("compare-title".to_owned());
            Some(Beside::PutBack)
        }
        "copy" => Some(Beside::Put(state.fragment().to_string())),
        "put" => element::<HtmlSelectElement>("compare-which")
            .and_then(|which| offered(number(&which.value())?, kept, state.estimator()))
            .map(Beside::Put),
        _ => {
            // What is pressed next at this place would be another design's.
            focus_soon("compare-title".to_owned());
            Some(Beside::TakeAway(place))
        }
    };
    let is_done = done.is_some();
    if let Some(done) = done {
        emit.emit(Action::Beside(done));
    }
    is_done
}

/// The fragment of an example, or of a design kept on the device, by its number in the list.
fn offered(at: usize, kept: &[Offered], estimator: &Estimator) -> Option<String> {
    let mut examples = examples();
    if at < examples.len() {
        return estimator.estimate(&normalised(examples.swap_remove(at))).ok().map(|estimate| estimate.fragment);
    }
    kept.get(at - examples.len()).map(|(_, fragment)| fragment.clone())
}

/// What stands beside the present design, for those who do not see it come and go.
fn said(state: &State, count: usize) -> String {
    let text = match count {
        0 => "Nothing stands beside it yet.",
        1 => "One design stands beside it: B.",
        2 => "Two designs stand beside it: B and C.",
        _ => "Three designs stand beside it: B, C and D. That is the most.",
    };
    match state.left_out() {
        0 => text.to_owned(),
        more => format!("{text} The link had {more} more, left out: four designs are the most."),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::Core;
    use hushwright::design::link;

    #[test]
    fn what_is_pasted_is_written_anew_or_told_to_be_none() {
        let estimator = Estimator::new(Core::default());
        let design = Design { name: "Pasted".to_owned(), ..Design::default() };
        let written = Ok(link::encode(&normalised(design.clone())));
        let address = format!("https://example.org/#compare/{}/v1.BwA.edfa1e8b", link::encode(&design));
        assert_eq!(pasted_fragment(&link::encode(&design), &estimator), written);
        assert_eq!(pasted_fragment(&address, &estimator), written, "the first of a comparison");
        for wrong in ["", "nonsense", "v1.e30", "v99.e30.00000000", "<script>", "v1.%00.\u{0}"] {
            assert!(pasted_fragment(wrong, &estimator).is_err_and(|message| !message.is_empty()), "{wrong}");
        }
    }
}
