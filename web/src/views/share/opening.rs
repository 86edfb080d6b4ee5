//! Opening a design: a file, chosen or dropped, or what somebody pastes.

use gloo::utils::document;
use hushwright::design::Design;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;
use web_sys::{FileList, HtmlInputElement, HtmlTextAreaElement};
use yew::prelude::*;

use super::{Said, called};
use crate::file_text::text_of;
use crate::pasted;
use crate::state::{Action, State};

/// Ids of what is said: about a file, about a text, about what was opened.
const FILE: &str = "open-file-error";
const TEXT: &str = "open-text-error";
const OPENED: &str = "opened";

/// The fields.
pub fn opening(state: &UseReducerHandle<State>, emit: &Callback<Action>, said: &UseStateHandle<Said>) -> Html {
    let open_files = {
        let (state, emit, said) = (state.clone(), emit.clone(), said.setter());
        move |files: Option<FileList>| {
            let Some(file) = files.and_then(|files| files.get(0)) else { return };
            let (state, emit, said) = (state.clone(), emit.clone(), said.clone());
            spawn_local(async move {
                let opened = text_of(file).await.and_then(|text| state.estimator().open_file(&text));
                take(FILE, opened.map(|design| (design, 1)), &state, &emit, &said);
            });
        }
    };
    let onchange = {
        let open_files = open_files.clone();
        Callback::from(move |event: Event| {
            let input: HtmlInputElement = event.target_unchecked_into();
            open_files(input.files());
            // So that the same file can be chosen again once it has been put right.
            input.set_value("");
        })
    };
    // Without this the browser would go to what is dropped.
    let ondragover = Callback::from(|event: DragEvent| event.prevent_default());
    let ondrop = Callback::from(move |event: DragEvent| {
        event.prevent_default();
        open_files(event.data_transfer().and_then(|dropped| dropped.files()));
    });
    let oninput = {
        let said = said.setter();
        Callback::from(move |_: InputEvent| said.set(Said::default()))
    };
    let problem = |place: &'static str| said.at(place).map(|_| place);
    let (of_file, of_text) = (problem(FILE), problem(TEXT));
    // Said as long as what was opened is what is shown.
    let opened = said.at(OPENED).filter(|_| state.steps().wrapping_sub(said.steps) <= 1);
    html! {
        <section class="open" aria-labelledby="open-title" {ondrop} {ondragover}>
            <h2 id="open-title">{ "Open a design" }</h2>
            <label for="open-file">{ "A file, chosen or dropped here" }</label>
            <input type="file" id="open-file" accept=".json,application/json" {onchange} aria-invalid={of_file.map(|_| "true")}
                aria-describedby={of_file} />
            { said.alarm(FILE) }
            <label for="open-text">{ "A link, or the text of a file" }</label>
            <textarea id="open-text" class="address" rows="3" autocomplete="off" spellcheck="false" {oninput}
                aria-invalid={of_text.map(|_| "true")} aria-describedby={of_text} />
            { said.alarm(TEXT) }
            <div class="buttons"><button type="button" id="open-pasted" data-send="pasted">{ "Open" }</button></div>
            <p role="status" id={OPENED}>{ opened.unwrap_or_default() }</p>
        </section>
    }
}

/// Opens what was pasted; if that is no design it stays where it is.
pub fn open_pasted(state: &State, emit: &Callback<Action>, said: &UseStateSetter<Said>) {
    let field = document().get_element_by_id("open-text").and_then(|field| field.dyn_into::<HtmlTextAreaElement>().ok());
    let Some(field) = field else { return };
    let opened = pasted::open(&field.value(), &**state.estimator());
    if opened.is_ok() {
        field.set_value("");
    }
    take(TEXT, opened, state, emit, said);
}

/// Opens the first of so many designs as one step, or says at `place` why there is none.
fn take(
    place: &'static str,
    opened: Result<(Design, usize), String>,
    state: &State,
    emit: &Callback<Action>,
    said: &UseStateSetter<Said>,
) {
    let (place, text) = match opened {
        Err(refusal) => (place, refusal),
        Ok((design, _)) if design == **state.design() => (OPENED, "This is the design that is open already.".to_owned()),
        Ok((design, designs)) => {
            let more = if designs > 1 { " It is the first in that link; the link itself opens all." } else { "" };
            let text = format!("Opened: {}.{more} Undo brings back what was there before.", called(&design.name));
            emit.emit(Action::Open(Box::new(design)));
            (OPENED, text)
        }
    };
    said.set(Said { place, text, steps: state.steps() });
}
