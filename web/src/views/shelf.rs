//! The designs that are kept on this device, and what can be done with them. The workshop makes the list.

use std::rc::Rc;

use gloo::events::EventListener;
use gloo::utils::{document, window};
use hushwright::design::Design;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Element, HtmlInputElement};
use yew::prelude::*;

use super::focus_soon;
use crate::components::MarkedUp;
use crate::estimator::Engine;
use crate::model::Model;
use crate::planner;
use crate::quantity::Units;
use crate::shelf::exchange::{self, Answer, Question};
use crate::shelf::handling::Deed;
use crate::shelf::lasting::Lasting;
use crate::state::{Action, Text};

/// Properties of [`Shelf`].
#[derive(Clone, PartialEq, Properties)]
pub struct ShelfProps {
    /// The design on the page.
    pub design: Rc<Design>,
    /// The fragment of the link that carries it.
    pub fragment: Rc<str>,
    /// Units shown.
    pub units: Units,
    /// Where actions go.
    pub emit: Callback<Action>,
}

/// What is seen.
#[derive(Clone, Default)]
struct Shown {
    answer: Answer,
    /// What is looked for.
    wanted: String,
    lasting: Lasting,
    /// Whether the workshop could not be had.
    is_missing: bool,
}

/// The list and what can be done with it.
#[component]
pub fn Shelf(props: &ShelfProps) -> Html {
    let shown = use_mut_ref(Shown::default);
    let latest = use_mut_ref(|| props.clone());
    latest.replace(props.clone());
    let update = use_force_update();
    let namer = use_memo((), |()| {
        Closure::<dyn Fn(String, String) -> Result<String, JsValue>>::new(|fragment: String, name: String| {
            renamed(&fragment, &name)
        })
    });
    let ask = {
        let (shown, update) = (Rc::clone(&shown), update.clone());
        Rc::new(move |key: &str, of: String| {
            let props = latest.borrow().clone();
            let field = name_field();
            if let Some(field) = field.as_ref().filter(|_| !key.is_empty()) {
                // What is typed is told now, and may go.
                let _ = field.blur();
            }
            let question = Question {
                key: key.to_owned(),
                of,
                typed: field.map(|field| field.value()),
                wanted: shown.borrow().wanted.clone(),
                units: props.units.key().to_owned(),
                name: props.design.name.clone(),
                packed: props.design.to_bytes(),
                fragment: props.fragment.to_string(),
            };
            let mut answer = planner::shelved(&question, (*namer).as_ref());
            let deed = answer.as_mut().and_then(|answer| answer.deed.take());
            if let Some(answer) = answer.as_ref().filter(|answer| !answer.focus.is_empty()) {
                focus_soon(answer.focus.clone());
            }
            {
                let mut shown = shown.borrow_mut();
                shown.is_missing = answer.is_none();
                shown.answer = answer.unwrap_or_default();
            }
            match deed {
                // What the list shows has been opened before.
                Some(Deed::Open(fragment)) => {
                    if let Ok(design) = Engine.open(&fragment) {
                        props.emit.emit(Action::Open(Box::new(design)));
                    }
                }
                Some(Deed::Rename(name)) => props.emit.emit(Action::Write(Text::Name, name)),
                None => {}
            }
            update.force_update();
        })
    };
    {
        let (ask, shown) = (Rc::clone(&ask), Rc::clone(&shown));
        use_effect_with((), move |()| {
            let follow = EventListener::new(&window(), "storage", {
                let ask = Rc::clone(&ask);
                move |_| ask("", String::new())
            });
            spawn_local(async move {
                // What has not come is missed when it is asked.
                let _ = planner::load().await;
                ask("", String::new());
                let lasting = Lasting::learn(false).await;
                shown.borrow_mut().lasting = lasting;
                ask("", String::new());
            });
            move || drop(follow)
        });
    }
    {
        let ask = Rc::clone(&ask);
        let first = use_mut_ref(|| true);
        use_effect_with((Rc::clone(&props.fragment), props.units), move |_| {
            if !first.replace(false) {
                ask("", String::new());
            }
        });
    }
    let onclick = {
        let (ask, shown) = (Rc::clone(&ask), Rc::clone(&shown));
        Callback::from(move |event: MouseEvent| {
            let target = event.target_dyn_into::<Element>().and_then(|target| target.closest("[data-do]").ok().flatten());
            let Some(target) = target else { return };
            let key = target.get_attribute("data-do").unwrap_or_default();
            if key == "persist" {
                let (ask, shown) = (Rc::clone(&ask), Rc::clone(&shown));
                spawn_local(async move {
                    let lasting = Lasting::learn(true).await;
                    shown.borrow_mut().lasting = lasting;
                    ask("", String::new());
                });
            } else {
                ask(&key, of(&target));
            }
        })
    };
    let onkeydown = {
        let ask = Rc::clone(&ask);
        Callback::from(move |event: KeyboardEvent| {
            let Some(field) = event.target_dyn_into::<Element>().filter(|target| target.id() == "shelf-name") else { return };
            match event.key().as_str() {
                "Enter" => ask("name", of(&field)),
                "Escape" => ask("leave", of(&field)),
                _ => {}
            }
        })
    };
    let oninput = {
        let shown = Rc::clone(&shown);
        Callback::from(move |event: InputEvent| {
            shown.borrow_mut().wanted = event.target_unchecked_into::<HtmlInputElement>().value();
            ask("", String::new());
        })
    };
    let shown = shown.borrow();
    let Answer { head, said, failed, list, has_items, is_many, .. } = &shown.answer;
    let lasting = if *has_items { shown.lasting.words() } else { "" };
    html! {
        <section class="shelf" id="shelf" aria-labelledby="shelf-title" {onclick} {onkeydown}>
            <h2 id="shelf-title">{ "Kept on this device" }</h2>
            <p class="hint">
                { "In this browser on this device, and nowhere else. Clearing the browser's data deletes it, and a private window forgets \
                   it when it is closed; what has to last belongs in a file or a link as well." }
            </p>
            if shown.is_missing {
                <p class="shelf-fault" role="alert">{ "The list could not be loaded. Check the connection and load the page again." }</p>
            }
            <MarkedUp body={head.clone()} />
            <p role="status" id="shelf-said" class={failed.then_some("shelf-fault")}>{ said }</p>
            if *is_many {
                <div class="find">
                    <label for="shelf-find">{ "Find a name" }</label>
                    <input type="text" id="shelf-find" autocomplete="off" value={shown.wanted.clone()} {oninput} />
                </div>
            }
            <MarkedUp body={list.clone() + lasting} />
        </section>
    }
}

/// The field for a new name, if one is being typed.
fn name_field() -> Option<HtmlInputElement> {
    document().get_element_by_id("shelf-name")?.dyn_into().ok()
}

/// The fragment of the same design under another name; what is wrong with that is thrown.
fn renamed(fragment: &str, name: &str) -> Result<String, JsValue> {
    Ok(Engine.open(fragment).and_then(|design| exchange::renamed(&Engine, design, name))?)
}

/// The key of the record that an element is about, if it is about one.
fn of(element: &Element) -> String {
    element.get_attribute("data-at").unwrap_or_default()
}
