//! A button that copies a text, or shows it where the browser does not let a page copy.

use gloo::timers::callback::Timeout;
use gloo::utils::window;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::HtmlTextAreaElement;
use yew::prelude::*;

/// How long in ms it is said that a text was copied.
const SAID_MS: u32 = 2500;

/// How the copying went.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Copied {
    Not,
    Done,
    ByHand,
}

/// Properties of [`CopyText`].
#[derive(Clone, PartialEq, Properties)]
pub struct CopyTextProps {
    /// Id of the button.
    pub id: &'static str,
    /// What it says.
    pub label: &'static str,
    /// What it says when the text is copied.
    pub done: &'static str,
    /// Whether it is the chief button of what it stands in.
    #[prop_or_default]
    pub chief: bool,
    /// The text, asked for when it is copied, and again as long as it is shown.
    pub text: Callback<(), String>,
}

/// The button.
#[component]
pub fn CopyText(props: &CopyTextProps) -> Html {
    let copied = use_state_eq(|| Copied::Not);
    let field = use_node_ref();
    {
        let field = field.clone();
        use_effect_with(*copied, move |copied| {
            if *copied == Copied::ByHand
                && let Some(field) = field.cast::<HtmlTextAreaElement>()
            {
                let _ = field.focus();
                field.select();
            }
        });
    }
    let onclick = {
        let (copied, text) = (copied.setter(), props.text.clone());
        Callback::from(move |_: MouseEvent| {
            let (copied, text) = (copied.clone(), text.emit(()));
            let clipboard = window().navigator().clipboard();
            // Browsers leave it out where a page may not use it, among others over plain HTTP.
            if clipboard.is_undefined() || clipboard.is_null() {
                copied.set(Copied::ByHand);
                return;
            }
            let writing = clipboard.write_text(&text);
            spawn_local(async move {
                if JsFuture::from(writing).await.is_ok() {
                    copied.set(Copied::Done);
                    Timeout::new(SAID_MS, move || copied.set(Copied::Not)).forget();
                } else {
                    copied.set(Copied::ByHand);
                }
            });
        })
    };
    let close = {
        let copied = copied.setter();
        Callback::from(move |_: MouseEvent| copied.set(Copied::Not))
    };
    let done = *copied == Copied::Done;
    html! {
        <>
            <button type="button" id={props.id} class={props.chief.then_some("chief")} {onclick}>{ if done { props.done } else { props.label } }</button>
            <span class="unseen" role="status">{ if done { props.done } else { "" } }</span>
            if *copied == Copied::ByHand {
                <div class="by-hand">
                    <label for={format!("{}-text", props.id)}>{ "The browser does not let the page copy. Copy it from here:" }</label>
                    <textarea id={format!("{}-text", props.id)} rows="5" readonly=true value={props.text.emit(())} ref={field} />
                    <button type="button" onclick={close}>{ "Close" }</button>
                </div>
            }
        </>
    }
}
