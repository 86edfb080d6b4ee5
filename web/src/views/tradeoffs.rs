//! The search for the best trade-offs: what is wished, how far it is, and what it found.

use std::cell::RefCell;
use std::rc::Rc;

use hushwright::design::Design;
use hushwright::evaluate::Report;
use hushwright::search::Progress;
use yew::prelude::*;

use super::explainer::why;
use super::front::{FrontView, front_view};
use super::wishes_form::{Refusals, Typed, has_field, wishes_form};
use crate::components::{WorkerLink, use_size};
use crate::explanations::{Told, of_result};
use crate::quantity::{Units, sentence};
use crate::state::{Action, State};
use crate::trade_words::{found_words, progress_words};

use crate::work::{Answer, Found, Question};

/// The design that is shown and what it does, for whoever asks: a search wants them once, and need not be drawn anew with each
/// step of a slider.
#[derive(Clone, Default)]
pub struct Current(Rc<RefCell<Option<Shown>>>);

/// A design, the fragment of its link, and what it does.
type Shown = (Rc<Design>, Rc<str>, Rc<Report>);

impl PartialEq for Current {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl Current {
    /// Takes in what is shown now.
    pub fn set(&self, state: &State) {
        self.0.replace(Some((Rc::clone(state.design()), Rc::clone(state.fragment()), Rc::clone(state.report()))));
    }

    fn get(&self) -> Option<Shown> {
        self.0.borrow().clone()
    }
}

/// Properties of [`Tradeoffs`].
#[derive(Clone, PartialEq, Properties)]
pub struct TradeoffsProps {
    /// What is shown.
    pub current: Current,
    /// Units shown.
    pub units: Units,
    /// Where actions go.
    pub emit: Callback<Action>,
}

/// How a search stands.
#[derive(Clone, Debug, Default, PartialEq)]
struct Searched {
    /// Number of the search.
    number: u32,
    /// Mass in kg and level in dBA of the design that it began from.
    base: (f64, f64),
    is_running: bool,
    was_stopped: bool,
    progress: Option<Progress>,
    found: Rc<Found>,
    /// Paths and messages of wishes that were refused.
    refusals: Refusals,
}

/// What happens to a search.
enum News {
    /// With mass in kg and level in dBA of the design that it begins from.
    Begin(f64, f64),
    Refuse(Refusals),
    Stop,
    Fail,
    Hear(Answer),
}

impl Reducible for Searched {
    type Action = News;

    fn reduce(self: Rc<Self>, news: News) -> Rc<Self> {
        let mut own = (*self).clone();
        match news {
            News::Begin(mass_kg, level_dba) => {
                own = Self { number: own.number + 1, is_running: true, base: (mass_kg, level_dba), ..Self::default() };
            }
            News::Refuse(refusals) => (own.is_running, own.refusals) = (false, refusals),
            News::Stop => (own.is_running, own.was_stopped) = (false, own.is_running),
            News::Fail if own.is_running => {
                own.is_running = false;
                own.refusals = vec![(
                    String::new(),
                    "the search cannot run: the worker of this page did not start or has stopped".to_owned(),
                )];
            }
            News::Hear(Answer::Progress(number, progress)) if number == own.number => own.progress = Some(progress),
            News::Hear(Answer::Found(number, found)) if number == own.number => {
                own.is_running &= !found.is_finished;
                own.found = Rc::new(found);
            }
            News::Hear(Answer::NoSearch(number, refusals)) if number == own.number => {
                (own.is_running, own.refusals) = (false, refusals);
            }
            News::Hear(Answer::Refused(number)) if number == own.number => {
                (own.is_running, own.refusals) =
                    (false, vec![(String::new(), "this design cannot be searched round".to_owned())]);
            }
            News::Hear(_) | News::Fail => {}
        }
        own.into()
    }
}

/// The whole section.
#[component]
pub fn Tradeoffs(props: &TradeoffsProps) -> Html {
    let TradeoffsProps { current, units, emit } = props;
    let searched = use_reducer_eq(Searched::default);
    let worker = use_mut_ref(|| None::<WorkerLink>);
    let typed = use_state_eq(|| Typed::of(&current.get().map_or_else(Design::default, |(design, ..)| (*design).clone())));
    let chosen = use_state_eq(|| 0_usize);
    let frame = use_node_ref();
    // The plot comes with the first points: measured anew then.
    let size = use_size(&frame, !searched.found.points.is_empty());
    let on_edit = use_callback(typed.setter(), |changed, setter| setter.set(changed));
    let start = {
        let (searched, worker, typed) = (searched.clone(), Rc::clone(&worker), typed.clone());
        let (current, units) = (current.clone(), *units);
        Callback::from(move |()| {
            let Some((_, fragment, report)) = current.get() else { return };
            let wishes = match typed.read(units) {
                Ok(wishes) => wishes,
                Err(refusals) => return searched.dispatch(News::Refuse(refusals)),
            };
            let question = Question { number: searched.number + 1, units, fragment: fragment.to_string(), wishes: Some(wishes) };
            searched.dispatch(News::Begin(report.bill.mass_kg, report.answer().dba));
            let tell = searched.dispatcher();
            let on_failure = Callback::from({
                let tell = tell.clone();
                move |()| tell.dispatch(News::Fail)
            });
            let on_answer = Callback::from({
                let (worker, on_failure) = (Rc::downgrade(&worker), on_failure.clone());
                move |answer| {
                    if answer == Answer::Ready {
                        let asked = worker
                            .upgrade()
                            .is_some_and(|own| own.borrow().as_ref().is_some_and(|link: &WorkerLink| link.ask(&question)));
                        if !asked {
                            on_failure.emit(());
                        }
                    } else {
                        tell.dispatch(News::Hear(answer));
                    }
                }
            });
            // A worker of its own, so that a search does not keep the range of the design waiting; it ends with the search.
            let link = WorkerLink::start(on_answer, on_failure.clone());
            if link.is_none() {
                on_failure.emit(());
            }
            *worker.borrow_mut() = link;
        })
    };
    {
        let worker = Rc::clone(&worker);
        use_effect_with(searched.is_running, move |is_running| {
            if !is_running {
                *worker.borrow_mut() = None;
            }
        });
    }
    let general = searched.refusals.iter().filter(|(path, _)| !has_field(path)).map(|(_, message)| sentence(message));
    let done = searched.progress.map_or(0.0, |progress| progress.done);
    let is_running = searched.is_running;
    let words = found_words(&searched.found, searched.was_stopped);
    let tell = searched.dispatcher();
    html! {
        <section class="tradeoffs" aria-labelledby="tradeoffs">
            <h2 id="tradeoffs" tabindex="-1">{ "Best trade-offs" }{ why(&props.emit, of_result(Told::Search)) }</h2>
            <p class="hint">{ "Compares every box that can be made of the sheets at hand round this one: their order, the gap, its fill, battens, seals and lining. What is left is what nothing else beats in sound, mass and cost." }</p>
            { wishes_form(&typed, &searched.refusals, *units, &on_edit) }
            <div class="search">
                if is_running {
                    <button type="button" id="search-stop" onclick={move |_| tell.dispatch(News::Stop)}>{ "Stop" }</button>
                    <progress id="search-progress" max="1" value={format!("{done:.3}")} aria-label="Search" />
                } else {
                    <button type="button" id="search-start" class="chief" onclick={move |_| start.emit(())}>{ "Search" }</button>
                }
                <p id="search-words">{ searched.progress.map(|progress| progress_words(&progress)) }</p>
            </div>
            { for general.map(|text| html! { <p class="refusal" role="alert">{ text }</p> }) }
            <p id="found-words" role="status">{ if is_running { String::new() } else { words.clone() } }</p>
            if is_running { <p>{ words }</p> }
            if !searched.found.points.is_empty() {
                { front_view(FrontView { found: &searched.found, base: searched.base, units: *units, emit, chosen, frame: (frame, size) }) }
            }
        </section>
    }
}
