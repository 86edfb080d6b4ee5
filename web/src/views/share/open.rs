//! Opening a design: a file, chosen or dropped, or what somebody pastes.

use hushwright::design::Design;
use wasm_bindgen_futures::spawn_local;
use web_sys::{File, HtmlInputElement, HtmlTextAreaElement};
use yew::prelude::*;

use super::called;
use crate::file_text;
use crate::pasted;
use crate::state::{Action, State};

/// Where a design came from, and where what is wrong with it is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum From {
    File,
    Text,
}

/// How the last attempt went.
#[derive(Clone, Debug, PartialEq)]
enum Outcome {
    Refused(From, String),
    /// Said as long as the design is what was opened at this number of steps.
    Opened(String, u32),
}

/// Properties of [`Open`].
#[derive(Clone, PartialEq, Properties)]
pub struct OpenProps {
    /// The page's state.
    pub state: UseReducerHandle<State>,
    /// Where actions go.
    pub emit: Callback<Action>,
}

/// The fields.
#[component]
pub fn Open(OpenProps { state, emit }: &OpenProps) -> Html {
    let outcome = use_state_eq(|| None::<Outcome>);
    let text = use_state_eq(String::new);
    let is_over = use_state_eq(|| false);
    // Files are read while the page goes on: what counts is the design when they have been.
    let latest = use_mut_ref(|| state.clone());
    latest.replace(state.clone());
    let take = {
        let (emit, outcome, latest) = (emit.clone(), outcome.setter(), latest.clone());
        Callback::from(move |(from, opened): (From, Result<(Design, usize), String>)| {
            let state = latest.borrow().clone();
            outcome.set(Some(match opened {
                Err(message) => Outcome::Refused(from, message),
                Ok((design, _)) if design == **state.design() => {
                    Outcome::Opened("This is the design that is open already.".to_owned(), state.steps())
                }
                Ok((design, designs)) => {
                    let more = if designs > 1 {
                        format!(" It is the first of {designs} in that link; the link itself opens all.")
                    } else {
                        String::new()
                    };
                    let said = format!("Opened: {}.{more} Undo brings back what was there before.", called(&design.name));
                    emit.emit(Action::Open(Box::new(design)));
                    Outcome::Opened(said, state.steps())
                }
            }));
        })
    };
    let open_file = {
        let (take, latest) = (take.clone(), latest.clone());
        move |file: File| {
            let (take, latest) = (take.clone(), latest.clone());
            spawn_local(async move {
                let read = file_text::text_of(file).await;
                let estimator = latest.borrow().estimator().clone();
                take.emit((From::File, read.and_then(|text| estimator.open_file(&text)).map(|design| (design, 1))));
            });
        }
    };
    let open_text = {
        let (take, text, latest) = (take.clone(), text.setter(), latest.clone());
        move |pasted: &str| {
            let opened = pasted::open(pasted, &**latest.borrow().estimator());
            text.set(if opened.is_ok() { String::new() } else { pasted.to_owned() });
            take.emit((From::Text, opened));
        }
    };
    let onchange = {
        let open_file = open_file.clone();
        Callback::from(move |event: Event| {
            let input: HtmlInputElement = event.target_unchecked_into();
            if let Some(file) = input.files().and_then(|files| files.get(0)) {
                open_file(file);
            }
            // So that the same file can be chosen again once it has been put right.
            input.set_value("");
        })
    };
    let ondrop = {
        let (is_over, open_text) = (is_over.setter(), open_text.clone());
        Callback::from(move |event: DragEvent| {
            event.prevent_default();
            is_over.set(false);
            let Some(dropped) = event.data_transfer() else { return };
            if let Some(file) = dropped.files().and_then(|files| files.get(0)) {
                open_file(file);
            } else if let Ok(text) = dropped.get_data("text/plain") {
                open_text(&text);
            }
        })
    };
    let drag = |over: bool| {
        let is_over = is_over.setter();
        Callback::from(move |event: DragEvent| {
            // Without this the browser would go to what is dropped.
            event.prevent_default();
            is_over.set(over);
        })
    };
    let oninput = {
        let (text, outcome) = (text.setter(), outcome.clone());
        Callback::from(move |event: InputEvent| {
            text.set(event.target_unchecked_into::<HtmlTextAreaElement>().value());
            if matches!(*outcome, Some(Outcome::Refused(From::Text, _))) {
                outcome.set(None);
            }
        })
    };
    let onclick = {
        let text = text.clone();
        Callback::from(move |_: MouseEvent| open_text(&text))
    };
    let refusal = |at: From| match &*outcome {
        Some(Outcome::Refused(from, message)) if *from == at => Some(message.clone()),
        _ => None,
    };
    let (of_file, of_text) = (refusal(From::File), refusal(From::Text));
    let opened = match &*outcome {
        Some(Outcome::Opened(said, steps)) if state.steps().wrapping_sub(*steps) <= 1 => said.clone(),
        _ => String::new(),
    };
    html! {
        <section class={classes!("open", is_over.then_some("over"))} id="open" aria-labelledby="open-title" {ondrop}
            ondragover={drag(true)} ondragleave={drag(false)}>
            <h2 id="open-title">{ "Open a design" }</h2>
            <label for="open-file">{ "A file, chosen or dropped here" }</label>
            <input type="file" id="open-file" accept=".json,application/json" {onchange} aria-invalid={of_file.is_some().then_some("true")}
                aria-describedby={of_file.is_some().then_some("open-file-error")} />
            if let Some(message) = of_file {
                <p class="refusal" id="open-file-error" role="alert">{ message }</p>
            }
            <label for="open-text">{ "A link, or the text of a file" }</label>
            <textarea id="open-text" class="address" rows="3" autocomplete="off" spellcheck="false" value={(*text).clone()} {oninput}
                aria-invalid={of_text.is_some().then_some("true")} aria-describedby={of_text.is_some().then_some("open-text-error")} />
            if let Some(message) = of_text {
                <p class="refusal" id="open-text-error" role="alert">{ message }</p>
            }
            <div class="buttons"><button type="button" id="open-pasted" {onclick}>{ "Open" }</button></div>
            <p role="status" id="opened">{ opened }</p>
        </section>
    }
}
