//! How sure the answer is: the range and what it comes from, and the worker that finds it.

use std::cell::RefCell;
use std::rc::Rc;

use gloo::timers::callback::Timeout;
use hushwright::design::Design;
use hushwright::evaluate::Report;
use hushwright::uncertainty::Unknown;
use yew::prelude::*;

use super::explainer::why;
use crate::components::WorkerLink;
use crate::explanations::{Told, of_result};
use crate::quantity::{Units, whole};
use crate::state::{Action, State};
use crate::sureness::{
    Changes, Found, Sureness, chance_words, chief_unknowns, coverage_words, how_to_pin_down, range_words, unknown_name,
};
use crate::words::capital;
use crate::work::{Answer, Question};

/// How long nothing may change before the range is asked for, in ms.
const ASK_MS: u32 = 200;

/// What the page hears of its worker.
pub enum News {
    /// There is none, or it has stopped.
    Unavailable,
    /// New ranges.
    Found(Found),
    /// What each change of a design brings.
    Steps(Changes),
}

impl Reducible for Sureness {
    type Action = News;

    fn reduce(self: Rc<Self>, news: News) -> Rc<Self> {
        match news {
            // What was found before would go on standing there as if somebody still looked after it.
            News::Unavailable => Self { unavailable: true, ..Self::default() },
            News::Found(found) => Self { found: Some(found), unavailable: false, ..(*self).clone() },
            News::Steps(steps) => Self { steps: Some(steps), ..(*self).clone() },
        }
        .into()
    }
}

/// The worker and the last question to it.
#[derive(Default)]
struct Line {
    link: Option<WorkerLink>,
    ready: bool,
    number: u32,
    units: Units,
    about: Option<(Rc<Design>, Rc<Report>)>,
    /// The fragment of its link.
    fragment: Rc<str>,
}

impl Line {
    /// Sends the last question, once the worker listens.
    fn send(&self) -> bool {
        let (Some(link), Some(_)) = (&self.link, &self.about) else { return true };
        let fragment = self.fragment.to_string();
        !self.ready || link.ask(&Question { number: self.number, units: self.units, fragment, wishes: None })
    }
}

/// How sure the answer is, as far as the worker has found out.
#[hook]
pub fn use_sureness(state: &State) -> UseReducerHandle<Sureness> {
    let sureness = use_reducer(Sureness::default);
    let line = use_mut_ref(Line::default);
    let tell = sureness.dispatcher();
    {
        let (line, tell) = (Rc::clone(&line), tell.clone());
        use_effect_with((), move |()| {
            let unavailable = Callback::from({
                let tell = tell.clone();
                move |()| tell.dispatch(News::Unavailable)
            });
            let on_answer = Callback::from({
                let line = Rc::downgrade(&line);
                let unavailable = unavailable.clone();
                move |answer| {
                    let Some(line) = line.upgrade() else { return };
                    hear(&line, answer, &tell, &unavailable);
                }
            });
            let link = WorkerLink::start(on_answer, unavailable.clone());
            if link.is_none() {
                unavailable.emit(());
            }
            line.borrow_mut().link = link;
            move || line.borrow_mut().link = None
        });
    }
    let (report, fragment) = (Rc::clone(state.report()), Rc::clone(state.fragment()));
    use_effect_with((Rc::clone(state.design()), state.units()), move |(design, units)| {
        let units = *units;
        let about = (Rc::clone(design), report);
        let waiting = Timeout::new(ASK_MS, move || {
            let mut line = line.borrow_mut();
            line.number += 1;
            line.units = units;
            line.about = Some(about);
            line.fragment = fragment;
            if !line.send() {
                tell.dispatch(News::Unavailable);
            }
        });
        move || drop(waiting)
    });
    sureness
}

/// Takes in what the worker says; what answers another question than the last is stale.
fn hear(line: &RefCell<Line>, answer: Answer, tell: &UseReducerDispatcher<Sureness>, unavailable: &Callback<()>) {
    match answer {
        Answer::Ready => {
            line.borrow_mut().ready = true;
            if !line.borrow().send() {
                unavailable.emit(());
            }
        }
        Answer::Refused(number) if number == line.borrow().number => unavailable.emit(()),
        Answer::Ranges(number, ranges) if number == line.borrow().number => {
            if let Some((design, report)) = line.borrow().about.clone() {
                tell.dispatch(News::Found(Found { design, report, ranges: Rc::new(*ranges) }));
            }
        }
        Answer::Steps(number, steps, corners_dba) if number == line.borrow().number => {
            if let Some((design, _)) = line.borrow().about.clone() {
                tell.dispatch(News::Steps(Changes { design, steps: Rc::new(steps), corners_dba }));
            }
        }
        _ => {}
    }
}

/// The range in a sentence, and its largest unknown.
pub fn how_sure(state: &State, sureness: &Sureness, emit: &Callback<Action>) -> Html {
    let design = state.design();
    let (range, chance) = match state.report().governing {
        Some(k) => {
            let shown = sureness.listener(k, design, state.report());
            (shown.map(|shown| shown.dba), shown.and_then(|shown| shown.chance_met))
        }
        None => (sureness.room(design, state.report()), None),
    };
    let sentence = match (range, sureness.unavailable) {
        (Some(range), _) => {
            let limit = chance.map_or_else(String::new, |chance| format!(" {}.", capital(&chance_words(chance))));
            format!("In 8 of 10 cases it is {}.{limit}", range_words(&range))
        }
        (None, true) => "The range cannot be worked out: the worker of this page does not run. Load the page again; the design is in the address.".to_owned(),
        (None, false) => "…".to_owned(),
    };
    let chief = sureness.found.as_ref().and_then(|found| chief_unknowns(&found.ranges).next());
    html! {
        <section aria-labelledby="how-sure">
            <h2 id="how-sure">{ "How sure that is" }{ why(emit, of_result(Told::Range)) }</h2>
            <p id="range-sentence">{ sentence }</p>
            if let Some((unknown, _)) = chief {
                <p>{ "Most of it comes from: " }<b>{ unknown_name(unknown) }</b>{ ". " }{ how_to_pin_down(unknown) }</p>
            }
        </section>
    }
}

/// All that the range comes from, and how each is pinned down.
pub fn unknowns(sureness: &Sureness, emit: &Callback<Action>) -> Html {
    let unknown = |(unknown, share): (Unknown, f64)| {
        let percent = whole(100.0 * share);
        html! {
            <li><span>{ unknown_name(unknown) }</span>
                <span class="bar"><span ~style={format!("width:{:.1}%", 100.0 * share.min(1.0))} /></span>
                <b>{ percent }{ "\u{a0}%" }</b>
                <span class="hint">{ how_to_pin_down(unknown) }</span></li>
        }
    };
    html! {
        <section aria-labelledby="unknowns-title">
            <h2 id="unknowns-title">{ "What makes it unsure" }{ why(emit, of_result(Told::Unknowns)) }</h2>
            if let Some(ranges) = sureness.found.as_ref().map(|found| &found.ranges) {
                <p>{ "What the range comes from, as a share of its variance, and how to pin it down:" }</p>
                <ul class="ways unknowns">{ for chief_unknowns(ranges).map(unknown) }</ul>
                <p class="hint" id="coverage">{ coverage_words() }</p>
            } else {
                <p>{ if sureness.unavailable { "It cannot be worked out: the worker of this page does not run." } else { "…" } }</p>
            }
        </section>
    }
}
