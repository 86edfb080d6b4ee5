//! The head of the page: whose page, which design, and what can be done with the whole of it.

use std::rc::Rc;

use gloo::events::EventListener;
use hushwright::design::examples;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, HtmlInputElement};
use yew::prelude::*;

use crate::address;
use crate::components::{CopyText, SelectField};
use crate::quantity::Units;
use crate::state::{Action, State, Text};
use crate::view::View;

/// The head of the page, in view `shown` of the design that `fragment` carries; `go` goes to another view.
pub fn header(state: &State, emit: &Callback<Action>, shown: View, fragment: &str, go: &Callback<View>) -> Html {
    // Links, so that a view can be opened in another tab; a plain click stays in this one.
    let link = |view: View| {
        let go = go.clone();
        let onclick = Callback::from(move |event: MouseEvent| {
            if !(event.ctrl_key() || event.meta_key() || event.shift_key() || event.alt_key()) {
                event.prevent_default();
                go.emit(view);
            }
        });
        let current = (view == shown).then_some("page");
        html! { <li><a id={format!("to-{}", view.key())} href={format!("#{}", view.fragment_with(fragment, state.beside()))} aria-current={current} {onclick}>{ view.name() }</a></li> }
    };
    // Said to be disabled instead of being so: who has pressed it last stays where they are. There is nothing to undo or redo then.
    let button = |id: &'static str, words: &'static str, keys: &'static str, action: Action, enabled: bool| {
        let onclick = emit.reform(move |_: MouseEvent| action.clone());
        let keys = (!keys.is_empty()).then_some(keys);
        html! { <button type="button" {id} {onclick} aria-disabled={(!enabled).then_some("true")} aria-keyshortcuts={keys} title={keys.map(|keys| keys.replace("Control", "Ctrl"))}>{ words }</button> }
    };
    let oninput =
        emit.reform(|event: InputEvent| Action::Write(Text::Name, event.target_unchecked_into::<HtmlInputElement>().value()));
    let onblur = emit.reform(|_: FocusEvent| Action::Settle);
    let units = [Units::Metric, Units::Imperial].map(|units| (units.key().into(), units.key().into())).to_vec();
    let choose_units = emit.reform(|key: String| Action::SetUnits(Units::from_key(&key).unwrap_or_default()));
    let refusal = state.text_refusal(Text::Name).map(str::to_owned);
    let text_of_link = {
        let fragment = Rc::clone(state.fragment());
        Callback::from(move |()| address::link(&fragment))
    };
    html! {
        <header class="head">
            <h1>{ "Hushwright" }</h1>
            <div class="name">
                <label for="name" class="unseen">{ "Name of this design" }</label>
                <input type="text" id="name" autocomplete="off" spellcheck="false" value={state.text(Text::Name).to_owned()}
                    aria-invalid={refusal.is_some().then_some("true")}
                    aria-describedby={refusal.is_some().then_some("name-error")} {oninput} {onblur} />
                <svg class="pencil" viewBox="0 0 16 16" aria-hidden="true"><path d="M2.5 13.5L3.4 10L11 2.4L13.6 5L6 12.6ZM9.6 3.8L12.2 6.4" /></svg>
                if let Some(refusal) = refusal {
                    <p class="refusal" id="name-error" role="alert">{ refusal }</p>
                }
            </div>
            <nav aria-label="Views"><ul>{ for View::ALL.map(link) }</ul></nav>
            <div class="tools" role="group" aria-label="Design">
                { button("undo", "Undo", "Control+Z", Action::Undo, state.can_undo()) }
                { button("redo", "Redo", "Control+Shift+Z", Action::Redo, state.can_redo()) }
                { button("reset", "Reset", "", Action::Reset, true) }
                <ExampleMenu emit={emit.clone()} />
                <SelectField id="units" label="Units" label_unseen=true options={units} value={state.units().key()}
                    on_choose={choose_units} />
            </div>
            <div class="share"><CopyText id="copy-link" label="Copy link" done="Link copied" chief=true text={text_of_link} /></div>
        </header>
    }
}

/// Properties of [`ExampleMenu`].
#[derive(Clone, PartialEq, Properties)]
struct ExampleMenuProps {
    emit: Callback<Action>,
}

/// The list of examples, folded away; the Escape key and a click elsewhere fold it again.
#[component]
fn ExampleMenu(props: &ExampleMenuProps) -> Html {
    let emit = &props.emit;
    use_effect_with((), |()| {
        let document = gloo::utils::document();
        let escape = EventListener::new(&document, "keydown", |event| {
            let escape = event.dyn_ref::<KeyboardEvent>().is_some_and(|event| event.key() == "Escape");
            if escape && open_menu().is_some() {
                fold_away();
            }
        });
        let elsewhere = EventListener::new(&document, "pointerdown", |event| {
            let target = event.target();
            let element = target.as_ref().and_then(|target| target.dyn_ref::<Element>());
            let within = element.and_then(|element| element.closest("#examples").ok().flatten()).is_some();
            if let (false, Some(menu)) = (within, open_menu()) {
                let _ = menu.remove_attribute("open");
            }
        });
        move || drop((escape, elsewhere))
    });
    let items = examples().into_iter().map(|design| {
        let (emit, name) = (emit.clone(), design.name.clone());
        let onclick = Callback::from(move |_: MouseEvent| {
            emit.emit(Action::Open(Box::new(design.clone())));
            fold_away();
        });
        html! { <li><button type="button" {onclick}>{ name }</button></li> }
    });
    html! {
        <details class="menu" id="examples">
            <summary>{ "Examples" }</summary>
            <ul>{ for items }</ul>
        </details>
    }
}

/// The list of examples, if it is unfolded.
fn open_menu() -> Option<Element> {
    gloo::utils::document().query_selector("#examples[open]").ok().flatten()
}

/// Closes the list of examples and gives the focus back to its head.
fn fold_away() {
    if let Some(menu) = open_menu() {
        let _ = menu.remove_attribute("open");
    }
    if let Ok(Some(head)) = gloo::utils::document().query_selector("#examples > summary")
        && let Some(head) = head.dyn_ref::<HtmlElement>()
    {
        let _ = head.focus();
    }
}
