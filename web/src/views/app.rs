//! The whole page: the state, what the browser tells it, and the sections in their places.

use std::rc::Rc;

use gloo::events::{EventListener, EventListenerOptions};
use gloo::timers::callback::Timeout;
use gloo::utils::window;
use hushwright::design::link;
use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, HtmlInputElement, Storage};
use yew::prelude::*;

use super::answer::answer;
use super::header::header;
use super::levels::{Cursor, Levels};
use super::notes::notes;
use super::section::Section;
use super::staircase::staircase;
use super::sure::use_sureness;
use super::tradeoffs::{Current, Tradeoffs};
use crate::address::{self, AddressBar};
use crate::quantity::Units;
use crate::readings::spoken;
use crate::recovery;
use crate::state::{Action, State};

/// Where the browser keeps the system of units.
const UNITS_KEY: &str = "hushwright-units";
/// How long nothing may change before the answer is read out, in ms.
const SETTLED_MS: u32 = 900;

/// The browser's storage; a browser may forbid it.
fn storage() -> Option<Storage> {
    window().local_storage().ok().flatten()
}

fn stored_units() -> Units {
    let key = storage().and_then(|storage| storage.get_item(UNITS_KEY).ok().flatten());
    key.and_then(|key| Units::from_key(&key)).unwrap_or_default()
}

/// The whole page.
#[component]
pub fn App() -> Html {
    let state = use_reducer(|| State::new(&address::fragment(), stored_units()));
    let emit = use_callback(state.dispatcher(), |action, dispatcher| dispatcher.dispatch(action));
    let spoken = use_spoken(&state);
    use_address(&state, &emit);
    use_shortcuts(&emit);
    use_effect_with(state.units(), |units| {
        // Without storage the choice lasts as long as the page.
        if let Some(storage) = storage() {
            let _ = storage.set_item(UNITS_KEY, units.key());
        }
    });
    use_effect_with(state.design().name.clone(), |name| {
        gloo::utils::document().set_title(&if name.trim().is_empty() {
            "Hushwright".to_owned()
        } else {
            format!("{name}: Hushwright")
        });
    });
    let band = use_state_eq(|| None);
    let on_move = use_callback(band.setter(), |band, setter| setter.set(band));
    let cursor = Cursor { band: *band, on_move };
    let report = Rc::clone(state.report());
    let sureness = use_sureness(&state);
    let range = sureness.bands(state.design(), &report);
    let current = (*use_memo((), |()| Current::default())).clone();
    current.set(state.design(), &report);
    let dismiss = emit.reform(|_: MouseEvent| Action::DismissNotice);
    html! {
        <>
            { header(&state, &emit) }
            <main>
                if let Some(notice) = state.notice() {
                    <div class="notice" id="link-notice" role="alert">
                        <p>{ notice }{ " The first example was opened instead." }</p>
                        <button type="button" id="link-notice-dismiss" onclick={dismiss}>{ "Dismiss" }</button>
                    </div>
                }
                { answer(&state, &sureness) }
                <div class="columns">
                    { staircase(&state, &emit) }
                    <div class="pictures">
                        <div class="sight">
                        <Section design={Rc::clone(state.design())} report={Rc::clone(&report)} units={state.units()} />
                        <Levels design={Rc::clone(state.design())} {report} {range} cursor={cursor.clone()} />
                        </div>
                        <Tradeoffs {current} units={state.units()} emit={emit.clone()} />
                    </div>
                    { notes(&state, &cursor, &sureness, &emit) }
                </div>
            </main>
            <p class="unseen" role="status" id="announcement">{ spoken }</p>
        </>
    }
}

/// The answer in words, once nothing has changed for a while; empty until the first change.
#[hook]
fn use_spoken(state: &State) -> AttrValue {
    let spoken_text = use_state_eq(|| AttrValue::Static(""));
    let first = use_mut_ref(|| true);
    let setter = spoken_text.setter();
    use_effect_with(spoken(state.report()), move |text| {
        let text = AttrValue::from(text.clone());
        let waiting = if first.replace(false) { None } else { Some(Timeout::new(SETTLED_MS, move || setter.set(text))) };
        move || drop(waiting)
    });
    (*spoken_text).clone()
}

/// Keeps the address and the design together.
#[hook]
fn use_address(state: &State, emit: &Callback<Action>) {
    let bar = use_memo((), |()| AddressBar::default());
    let first = use_mut_ref(|| true);
    {
        let bar = Rc::clone(&bar);
        use_effect_with(Rc::clone(state.design()), move |design| {
            let fragment = link::encode(design);
            recovery::remember(&fragment);
            // The address that the page was opened with stays until something changes.
            if !first.replace(false) {
                bar.show(fragment);
            }
        });
    }
    {
        let emit = emit.clone();
        use_effect_with((), move |()| {
            let follow = EventListener::new(&window(), "hashchange", move |_| {
                // The page writes without this event, so somebody else has written.
                emit.emit(Action::Follow(address::fragment()));
            });
            let flush = Rc::clone(&bar);
            let leave = EventListener::new(&window(), "pagehide", move |_| flush.flush());
            let document = gloo::utils::document();
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
}

/// Undo and redo by the keyboard, except in a text field, which has its own.
#[hook]
fn use_shortcuts(emit: &Callback<Action>) {
    let emit = emit.clone();
    use_effect_with((), move |()| {
        let options = EventListenerOptions::enable_prevent_default();
        let listener = EventListener::new_with_options(&gloo::utils::document(), "keydown", options, move |event| {
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
