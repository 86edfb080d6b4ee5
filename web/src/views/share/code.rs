//! The link as a code to scan: on the page, over the whole window, as a file.

use wasm_bindgen_futures::spawn_local;
use web_sys::HtmlDialogElement;
use yew::prelude::*;

use super::link::LinkProps;
use crate::components::MarkedUp;
use crate::documents::code::LONGEST;
use crate::download;
use crate::planner;
use crate::reach::{Reach, reach};

/// How far the drawing has come.
#[derive(Clone, Debug, PartialEq)]
enum Drawing {
    Awaited,
    Missing,
    Here(AttrValue),
}

/// The code.
#[component]
pub fn Code(LinkProps { link, name }: &LinkProps) -> Html {
    let drawing = use_state_eq(|| Drawing::Awaited);
    let is_save_refused = use_state_eq(|| false);
    let large = use_node_ref();
    {
        let drawing = drawing.setter();
        use_effect_with((link.clone(), name.clone()), move |(link, name)| {
            let (link, about) = (link.clone(), format!("Code to scan: the link to {name}"));
            spawn_local(async move {
                let code = if planner::load().await.is_ok() { planner::scan_code(&link, &about) } else { None };
                drawing.set(code.map_or(Drawing::Missing, |code| Drawing::Here(code.into())));
            });
        });
    }
    let show_large = {
        let large = large.clone();
        Callback::from(move |_: MouseEvent| {
            if let Some(dialog) = large.cast::<HtmlDialogElement>() {
                // Fails only where it is shown already.
                let _ = dialog.show_modal();
            }
        })
    };
    let close = {
        let large = large.clone();
        Callback::from(move |_: MouseEvent| {
            if let Some(dialog) = large.cast::<HtmlDialogElement>() {
                dialog.close();
            }
        })
    };
    let body = match &*drawing {
        _ if link.len() > LONGEST => html! {
            <p id="code-missing">{ format!("The link is too long for a code, which holds {LONGEST} characters (ISO/IEC 18004). Notes \
                and names are most of a long link; the link itself and the file have no such bound.") }</p>
        },
        Drawing::Awaited => html! { <p role="status">{ "Drawing the code …" }</p> },
        Drawing::Missing => html! {
            <p role="status" id="code-missing">{ "The code could not be drawn: its program could not be loaded. Check the connection and load the page again." }</p>
        },
        Drawing::Here(code) => {
            let save = {
                let (code, name, refused) = (code.clone(), name.clone(), is_save_refused.setter());
                Callback::from(move |_: MouseEvent| {
                    refused.set(download::save(&download::file_name(&name, "code", "svg"), "image/svg+xml", &code).is_err());
                })
            };
            let warning = match reach(link) {
                Reach::Anyone => None,
                Reach::Network => Some("It opens on devices in the same network only."),
                Reach::Device => Some("It opens nothing on a phone: its address is this device’s own, see at the link."),
            };
            html! {
                <>
                    <div class="code" id="code"><MarkedUp body={code.clone()} /></div>
                    if let Some(warning) = warning {
                        <p class="warning" id="code-reach">{ warning }</p>
                    }
                    <div class="buttons">
                        <button type="button" id="code-large" aria-haspopup="dialog" onclick={show_large}>{ "Fill the window" }</button>
                        <button type="button" id="code-save" onclick={save}>{ "Save the code (SVG)" }</button>
                    </div>
                    if *is_save_refused {
                        <p class="refusal" role="alert">{ "The code could not be saved: the browser did not take it." }</p>
                    }
                    <p class="hint">{ "It can be read from about ten times its width (common practice, no source), from nearer the more a \
                        design says: long notes make it finer." }</p>
                    <dialog class="large-code" id="large-code" aria-labelledby="large-code-title" ref={large}>
                        <p id="large-code-title">{ name.clone() }</p>
                        <button type="button" id="large-code-close" onclick={close}>{ "Close" }</button>
                        <MarkedUp body={code.clone()} />
                    </dialog>
                </>
            }
        }
    };
    html! {
        <section aria-labelledby="code-title">
            <h2 id="code-title">{ "Code to scan" }</h2>
            { body }
        </section>
    }
}
