//! The search for the best trade-offs: what is wished, how far it is, and what it found.

use std::rc::Rc;

use hushwright::design::{Design, link};
use hushwright::evaluate::Report;
use hushwright::search::Progress;
use yew::prelude::*;

use super::front::FrontView;
use super::wishes_form::{Refusals, Typed, WishesForm, has_field};
use crate::components::WorkerLink;
use crate::quantity::{Units, sentence};
use crate::state::Action;
use crate::trade_words::{found_words, progress_words};

use crate::work::{Answer, Found, Question};

/// Properties of [`Tradeoffs`].
#[derive(Clone, PartialEq, Properties)]
pub struct TradeoffsProps {
    /// The design that is shown.
    pub design: Rc<Design>,
    /// What it does.
    pub report: Rc<Report>,
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
    is_running: bool,
    was_stopped: bool,
    progress: Option<Progress>,
    found: Rc<Found>,
    /// Paths and messages of wishes that were refused.
    refusals: Refusals,
}

/// What happens to a search.
enum News {
    Begin,
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
            News::Begin => own = Self { number: own.number + 1, is_running: true, ..Self::default() },
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
    let TradeoffsProps { design, report, units, emit } = props;
    let searched = use_reducer_eq(Searched::default);
    let worker = use_mut_ref(|| None::<WorkerLink>);
    let typed = use_state_eq(|| Typed::of(design));
    let on_edit = use_callback(typed.setter(), |changed, setter| setter.set(changed));
    let start = {
        let (searched, worker, typed) = (searched.clone(), Rc::clone(&worker), typed.clone());
        let (design, units) = (Rc::clone(design), *units);
        Callback::from(move |()| {
            let wishes = match typed.read(units) {
                Ok(wishes) => wishes,
                Err(refusals) => return searched.dispatch(News::Refuse(refusals)),
            };
            let question = Question { number: searched.number + 1, fragment: link::encode(&design), wishes: Some(wishes) };
            searched.dispatch(News::Begin);
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
            <h2 id="tradeoffs" tabindex="-1">{ "Best trade-offs" }</h2>
            <p class="hint">{ "Compares every box that can be made of the sheets at hand round this one: their order, the gap, its fill, battens, seals and lining. What is left is what nothing else beats in sound, mass and cost." }</p>
            <WishesForm typed={(*typed).clone()} refusals={searched.refusals.clone()} units={*units} on_edit={on_edit} />
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
                <FrontView found={Rc::clone(&searched.found)} report={Rc::clone(report)} units={*units} emit={emit.clone()} />
            }
        </section>
    }
}
