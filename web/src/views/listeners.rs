//! The listeners: who they are, what lies between, how quiet it has to be for them.

use hushwright::design::{ListenerPart, limits};
use web_sys::HtmlInputElement;
use yew::prelude::*;

use super::focus_soon;
use super::folds::comes_unfolded;
use super::row::{band_list, choice_of, preset, row_of};
use super::staircase::not_used;
use crate::band_lists::BandList;
use crate::fields::{Field, ListenerField};
use crate::listener_choices::ListenerChoice;
use crate::need_readings::{background_reading, listener_name, partition_reading, short_level, time_reading, way_reading};
use crate::presets::Preset;
use crate::state::{Action, Choice, State, Text};

/// Something at a listener.
pub enum Item {
    /// A number.
    Number(ListenerField),
    /// A choice.
    Choice(ListenerChoice),
    /// Band values of a partition of one's own.
    Reduction,
    /// Band values of a background of one's own.
    Background,
    /// Rooms that are usual.
    Room,
    /// A sentence that helps, where it applies.
    Hint(fn(&State, usize) -> Option<String>),
}

use Item::{Hint, Number};

/// The inputs of a listener in the order in which the sound meets them.
pub const ITEMS: &[Item] = &[
    Item::Choice(ListenerChoice::Place),
    Item::Choice(ListenerChoice::Partition),
    Item::Reduction,
    Number(ListenerField::Area),
    Number(ListenerField::Flanking),
    Hint(partition_reading),
    Number(ListenerField::Corridor),
    Number(ListenerField::Distance),
    Number(ListenerField::FloorArea),
    Number(ListenerField::Height),
    Item::Room,
    Number(ListenerField::Absorption),
    Hint(way_reading),
    Item::Choice(ListenerChoice::Criterion),
    Number(ListenerField::LimitDba),
    Number(ListenerField::LimitNr),
    Number(ListenerField::LimitNc),
    Item::Choice(ListenerChoice::Average),
    Hint(time_reading),
    Item::Choice(ListenerChoice::Background),
    Number(ListenerField::Background),
    Item::Background,
    Hint(background_reading),
];

/// All listeners, and a button for one more.
pub fn listeners(state: &State, emit: &Callback<Action>) -> Html {
    let count = state.design().listeners.len();
    let full = count >= limits::LISTENERS;
    let add = {
        let emit = emit.clone();
        Callback::from(move |_: MouseEvent| {
            emit.emit(Action::AddListener);
            focus_soon(name_id(count));
        })
    };
    // A list of its own: beside the button, adding one would make all of them anew, folded.
    let all: Html = state.design().listeners.iter().enumerate().map(|(k, listener)| one(state, emit, k, listener)).collect();
    html! {
        <div class="listeners">
            { all }
            <button type="button" class="add" id="listeners-add" onclick={add} disabled={full}
                aria-describedby={full.then_some("listeners-full")}>{ "Add a listener" }</button>
            if full {
                <p class="hint" id="listeners-full">{ format!("{} listeners are the most; the strictest decides.", limits::LISTENERS) }</p>
            }
            if let Some(refusal) = state.refusal("listeners") {
                <p class="refusal" role="alert" id="listeners-error">{ refusal.to_owned() }</p>
            }
        </div>
    }
}

/// Id of the name of listener `k`.
fn name_id(k: usize) -> String {
    format!("listeners-{k}-name")
}

fn one(state: &State, emit: &Callback<Action>, k: usize, listener: &ListenerPart) -> Html {
    let name = listener_name(listener);
    let heard = &state.report().listeners[k];
    let id = name_id(k);
    let oninput = emit.reform(move |event: InputEvent| {
        Action::Write(Text::Listener(k), event.target_unchecked_into::<HtmlInputElement>().value())
    });
    let onblur = emit.reform(|_: FocusEvent| Action::Settle);
    let refusal = state.text_refusal(Text::Listener(k)).map(str::to_owned);
    let error_id = format!("{id}-error");
    let remove = {
        let emit = emit.clone();
        Callback::from(move |_: MouseEvent| {
            emit.emit(Action::RemoveListener(k));
            focus_soon("listeners-add".to_owned());
        })
    };
    let part = format!("part-listener-{k}");
    let comes_open = comes_unfolded(&part, k == 0);
    html! {
        <details class="part-of" key={k} id={part} open={comes_open}>
            <summary>
                <h4>{ &name }<span class="mark" aria-hidden="true" /></h4>
                <span class="gist">{ short_level(heard) }</span>
                { not_used(refused_of(state, k)) }
            </summary>
            <fieldset>
                <legend class="unseen">{ &name }</legend>
                <div class="choice">
                    <label for={id.clone()}>{ "Who, where" }</label>
                    <input type="text" {id} autocomplete="off" spellcheck="false"
                        value={state.text(Text::Listener(k)).to_owned()} aria-invalid={refusal.is_some().then_some("true")}
                        aria-describedby={refusal.is_some().then(|| error_id.clone())} {oninput} {onblur} />
                    if let Some(refusal) = refusal {
                        <p class="refusal" id={error_id} role="alert">{ refusal }</p>
                    }
                </div>
                { for ITEMS.iter().map(|item| input(item, state, emit, k, &name)) }
                <button type="button" class="add" id={format!("listeners-{k}-remove")} onclick={remove}>
                    { "Remove this listener" }<span class="unseen">{ format!(": {name}") }</span>
                </button>
            </fieldset>
        </details>
    }
}

fn input(item: &Item, state: &State, emit: &Callback<Action>, k: usize, name: &str) -> Html {
    match *item {
        Number(field) => {
            let field = Field::Listener(k, field);
            let part = if field.part().is_empty() { name.to_owned() } else { format!("{}, {name}", field.part()) };
            row_of(state, emit, field, part)
        }
        Item::Choice(choice) => choice_of(state, emit, Choice::Listener(k, choice), name.to_owned().into()),
        Item::Reduction => band_list(state, emit, BandList::Reduction(k), name),
        Item::Background => band_list(state, emit, BandList::Background(k), name),
        Item::Room => preset(state, emit, Preset::ListenerRoom(k), name.to_owned()),
        Hint(hint) => hint(state, k).map_or_else(Html::default, |hint| html! { <p class="hint">{ hint }</p> }),
    }
}

/// How many of the inputs of listener `k` hold something that is not in the design.
fn refused_of(state: &State, k: usize) -> usize {
    let numbers = state.refused().filter(|field| matches!(field, Field::Listener(of, _) if *of == k)).count();
    let lists =
        state.refused_lists().filter(|list| matches!(list, BandList::Reduction(of) | BandList::Background(of) if *of == k));
    let path = |end: &str| format!("listeners[{k}].{end}");
    let choices = ListenerChoice::ALL.iter().filter(|choice| state.refusal(&path(choice.key())).is_some()).count();
    numbers + lists.count() + choices + usize::from(state.refusal(&path("name")).is_some())
}

/// How many of the inputs of all listeners hold something that is not in the design.
pub fn refused_of_listeners(state: &State) -> usize {
    (0..state.design().listeners.len()).map(|k| refused_of(state, k)).sum()
}
