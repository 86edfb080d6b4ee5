//! The whole page: the state, what the browser tells it, and the views in their places.

use std::rc::Rc;

use gloo::events::{EventListener, EventListenerOptions};
use gloo::timers::callback::Timeout;
use gloo::utils::{document, window};
use hushwright::design::Design;
use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, HtmlInputElement};
use yew::prelude::*;

use super::answer::answer;
use super::build::build;
use super::compare::Compare;
use super::explainer::Explainer;
use super::folds::use_folds;
use super::hatches::hatches;
use super::header::header;
use super::hint::Hint;
use super::improve::improve;
use super::later::{Later, Slot};
use super::learn::Learn;
use super::levels::{Cursor, Levels};
use super::notes::notes;
use super::notice::notice;
use super::planned::use_planned;
use super::section::Section;
use super::share::Share;
use super::staircase::staircase;
use super::sure::use_sureness;
use super::tradeoffs::{Current, Tradeoffs};
use crate::address::{self, AddressBar};
use crate::changes::Changed;
use crate::estimator::Estimator;
use crate::quantity::Units;
use crate::readings::spoken;
use crate::recovery;
use crate::state::{Action, Beside, State};
use crate::storage;
use crate::view::View;

/// How long nothing may change before the answer is read out and what is typed counts as meant, in ms.
const SETTLED_MS: u32 = 900;

/// How long nothing may change before what is folded away follows, in ms.
const REST_MS: u32 = 250;

/// Properties of [`App`].
#[derive(Clone, PartialEq, Properties)]
pub struct AppProps {
    /// Where reports come from.
    pub estimator: Estimator,
}

/// The state that the page begins with: the address's, with what this tab held of it before a reload.
fn first_state(estimator: Estimator) -> State {
    let fragment = address::fragment();
    let units = storage::kept(storage::UNITS).and_then(|key| Units::from_key(&key)).unwrap_or_default();
    let session = storage::held(storage::SESSION).unwrap_or_default();
    let (view, design) = View::read(&fragment);
    let mut state = State::resumed(design, &session, units, estimator);
    if says_what_is_beside(view, &fragment) {
        state.show_beside(View::beside(&fragment));
    }
    state
}

/// Whether a fragment says which designs stand beside its own: a comparison does, unless it is only the name of the view.
fn says_what_is_beside(view: View, fragment: &str) -> bool {
    view == View::Compare && !(View::read(fragment).1.is_empty() && View::beside(fragment).is_empty())
}

/// The whole page.
#[component]
pub fn App(props: &AppProps) -> Html {
    let state = use_reducer(|| first_state(props.estimator.clone()));
    let emit = use_callback(state.dispatcher(), |action, dispatcher| dispatcher.dispatch(action));
    let view = use_state_eq(|| View::read(&address::fragment()).0);
    let fragment = use_address(&state, &view, &emit);
    let idle = use_idle(state.design());
    use_rest(&state, &emit);
    use_session(&state);
    use_folds();
    use_shortcuts(&emit);
    use_effect_with(state.units(), |units| storage::keep(storage::UNITS, units.key()));
    use_effect_with((state.design().name.clone(), *view), |(name, view)| {
        let name = name.trim();
        let about = if name.is_empty() { String::new() } else { format!("{name}, ") };
        document().set_title(&format!("{about}{}: Hushwright", view.name()));
    });
    let band = use_state_eq(|| None);
    let on_move = use_callback(band.setter(), |band, setter| setter.set(band));
    let cursor = Cursor { band: *band, on_move };
    let report = Rc::clone(state.report());
    let sureness = use_sureness(&state);
    let range = sureness.bands(state.design(), &report);
    // What is saved has no range that was only carried over from the design before.
    let kept_range = range.clone().filter(|range| !range.is_carried_over);
    let current = (*use_memo((), |()| Current::default())).clone();
    current.set(&state);
    let plan = use_planned(&state, *view == View::Build, idle);
    let spoken = use_spoken(&state, plan.cost_change());
    let go = {
        let (view, fragment, beside) = (view.clone(), Rc::clone(&fragment), Rc::clone(state.beside()));
        Callback::from(move |to: View| {
            // To where one is already would be a step back that does nothing.
            if to != *view {
                address::go(&to.fragment_with(&fragment, &beside));
                view.set(to);
            }
        })
    };
    let beside = (*use_memo((), |()| Slot::default())).clone();
    {
        let (state, sureness, emit, go, cursor) = (state.clone(), sureness.clone(), emit.clone(), go.clone(), cursor.clone());
        beside.put(move || notes(&state, &cursor, &sureness, &emit, &go));
    }
    let shown = *view;
    // What has been found stays while other views are looked at; who has not looked for it yet does not wait for its form.
    let is_sought = use_mut_ref(|| false);
    is_sought.replace_with(|is_sought| *is_sought || shown == View::Improve);
    html! {
        <>
            { header(&state, &emit, shown, &fragment, &go) }
            { hatches() }
            <main>
                { notice(&state, &emit) }
                <Hint go={go.clone()} />
                { answer(&state, &sureness, &plan, &emit, &go) }
                <div class="columns" id="view-estimate" hidden={shown != View::Estimate}>
                    { staircase(&state, &emit, idle) }
                    <div class="pictures">
                        <Section design={Rc::clone(state.design())} report={Rc::clone(&report)} units={state.units()}
                            band={*band} emit={emit.clone()} />
                        <Levels design={Rc::clone(state.design())} report={Rc::clone(&report)} {range} cursor={cursor.clone()} />
                    </div>
                    <Later slot={beside} />
                </div>
                <div class="improve" id="view-improve" hidden={shown != View::Improve}>
                    if shown == View::Improve { { improve(&state, &sureness, &emit) } }
                    if *is_sought.borrow() { <Tradeoffs {current} units={state.units()} emit={emit.clone()} /> }
                </div>
                if shown == View::Build { { build(&state, &plan, &emit, idle) } }
                if shown == View::Compare { <Compare state={state.clone()} plan={plan.clone()} emit={emit.clone()} /> }
                if shown == View::Learn { <Learn /> }
                if shown == View::Share { <Share state={state.clone()} range={kept_range} emit={emit.clone()} go={go.clone()} /> }
            </main>
            <Explainer explained={state.explained()} {emit} />
            <p class="unseen" role="status" id="announcement">{ spoken }</p>
        </>
    }
}

/// The answer in words, once nothing has changed for a while; empty until the first change.
#[hook]
fn use_spoken(state: &State, cost_change: f64) -> AttrValue {
    let spoken_text = use_state_eq(|| AttrValue::Static(""));
    let first = use_mut_ref(|| true);
    let setter = spoken_text.setter();
    let text = spoken(state.report()) + &Changed::of(state, cost_change).spoken();
    use_effect_with(text, move |text| {
        let text = AttrValue::from(text.clone());
        let waiting = if first.replace(false) { None } else { Some(Timeout::new(SETTLED_MS, move || setter.set(text))) };
        move || drop(waiting)
    });
    (*spoken_text).clone()
}

/// Keeps the address, the view and the design together; the fragment of the design.
#[hook]
fn use_address(state: &State, view: &UseStateHandle<View>, emit: &Callback<Action>) -> Rc<str> {
    let bar = use_memo((), |()| AddressBar::default());
    let first = use_mut_ref(|| true);
    let fragment = Rc::clone(state.fragment());
    {
        let bar = Rc::clone(&bar);
        let shown = (Rc::clone(&fragment), Rc::clone(state.beside()), **view);
        use_effect_with(shown, move |(fragment, beside, view)| {
            recovery::remember(fragment);
            // The address that the page was opened with stays until something changes.
            if first.replace(false) {
                address::adopt();
            } else {
                bar.show(view.fragment_with(fragment, beside));
            }
        });
    }
    let latest = use_mut_ref(|| (Rc::clone(&fragment), Rc::clone(state.beside())));
    latest.replace((Rc::clone(&fragment), Rc::clone(state.beside())));
    {
        let (emit, view) = (emit.clone(), view.setter());
        use_effect_with((), move |()| {
            let own = Rc::clone(&bar);
            let follow = EventListener::new(&window(), "hashchange", move |_| {
                let fragment = address::fragment();
                let (to, design) = View::read(&fragment);
                view.set(to);
                // Going back to an entry of the page's own changes the view; the design of then is in the steps. The page writes
                // without this event, so somebody else has written all others; a view by its name keeps the design too.
                if address::is_own() {
                    // The address says what is shown, not what was shown then.
                    let (fragment, beside) = &*latest.borrow();
                    own.show(to.fragment_with(fragment, beside));
                }
                if !address::is_own() && (to == View::default() || !design.is_empty()) {
                    emit.emit(Action::Follow(design.to_owned()));
                }
                if !address::is_own() && says_what_is_beside(to, &fragment) {
                    emit.emit(Action::Beside(Beside::Show(View::beside(&fragment).to_owned())));
                }
            });
            let flush = Rc::clone(&bar);
            let leave = EventListener::new(&window(), "pagehide", move |_| flush.flush());
            let document = document();
            let flush = Rc::clone(&bar);
            let hide = EventListener::new(&document, "visibilitychange", move |_| flush.flush());
            // What is done is written at once; after the turn in which the page takes it in.
            let done = ["change", "focusout"].map(|event| {
                let bar = Rc::clone(&bar);
                EventListener::new(&document, event, move |_| {
                    let bar = Rc::clone(&bar);
                    Timeout::new(0, move || bar.flush()).forget();
                })
            });
            move || drop((follow, leave, hide, done))
        });
    }
    fragment
}

/// How often nothing has changed for a while.
#[hook]
fn use_idle(design: &Rc<Design>) -> u32 {
    let idle = use_state_eq(|| 0_u32);
    let count = idle.clone();
    use_effect_with(Rc::clone(design), move |_| {
        let waiting = Timeout::new(REST_MS, move || count.set(*count + 1));
        move || drop(waiting)
    });
    *idle
}

/// Tells when somebody who types pauses.
#[hook]
fn use_rest(state: &State, emit: &Callback<Action>) {
    let emit = emit.clone();
    use_effect_with((Rc::clone(state.design()), state.is_typed()), move |(_, is_typed)| {
        let waiting = is_typed.then(|| Timeout::new(SETTLED_MS, move || emit.emit(Action::Rest)));
        move || drop(waiting)
    });
}

/// Has the tab hold what a reload would lose.
#[hook]
fn use_session(state: &UseReducerHandle<State>) {
    let latest = use_mut_ref(|| None::<UseReducerHandle<State>>);
    latest.replace(Some(state.clone()));
    use_effect_with((), move |()| {
        let leave = EventListener::new(&window(), "pagehide", move |_| {
            if let Some(state) = &*latest.borrow() {
                storage::hold(storage::SESSION, &state.session());
            }
        });
        move || drop(leave)
    });
}

/// Undo and redo by the keyboard, except in a text field, which has its own.
#[hook]
fn use_shortcuts(emit: &Callback<Action>) {
    let emit = emit.clone();
    use_effect_with((), move |()| {
        let options = EventListenerOptions::enable_prevent_default();
        let listener = EventListener::new_with_options(&document(), "keydown", options, move |event| {
            let Some(event) = event.dyn_ref::<KeyboardEvent>() else { return };
            if !(event.ctrl_key() || event.meta_key()) || event.alt_key() || edits_text(event) {
                return;
            }
            let action = match (event.key().to_ascii_lowercase().as_str(), event.shift_key()) {
                ("z", false) => Action::Undo,
                ("z", true) | ("y", false) => Action::Redo,
                _ => return,
            };
            event.prevent_default();
            emit.emit(action);
        });
        move || drop(listener)
    });
}

fn edits_text(event: &KeyboardEvent) -> bool {
    let Some(target) = event.target() else { return false };
    match target.dyn_ref::<HtmlInputElement>() {
        Some(input) => input.type_() == "text",
        None => target.dyn_ref::<HtmlElement>().is_some_and(|element| element.tag_name() == "TEXTAREA"),
    }
}
