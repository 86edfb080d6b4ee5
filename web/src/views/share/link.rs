//! The link: the whole design in an address.

use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use crate::components::CopyText;
use crate::reach::{Reach, reach};
use crate::share_sheet::{Shared, can_share, share};

/// Properties of [`Link`].
#[derive(Clone, PartialEq, Properties)]
pub struct LinkProps {
    /// The whole address.
    pub link: AttrValue,
    /// What the design is called.
    pub name: AttrValue,
}

/// The link in a field, with what can be done with it.
#[component]
pub fn Link(LinkProps { link, name }: &LinkProps) -> Html {
    let text = {
        let link = link.clone();
        Callback::from(move |()| link.to_string())
    };
    let warning = match reach(link) {
        Reach::Anyone => None,
        Reach::Network => Some(
            "This page has an address of a local network: only devices in the same network can open the link. What stands from # on \
             opens the same design at any other address of Hushwright; a file can be sent as well.",
        ),
        Reach::Device => Some(
            "This page was opened from this device itself: nobody else can open the link as it stands. What stands from # on opens \
             the same design at any other address of Hushwright; a file can be sent as well.",
        ),
    };
    html! {
        <section aria-labelledby="link-title">
            <h2 id="link-title"><label for="whole-link">{ "Link to this design" }</label></h2>
            <textarea id="whole-link" class="address" readonly=true rows="4" spellcheck="false" value={link.clone()}
                aria-describedby="link-hint" />
            <p class="on-paper">{ link.clone() }</p>
            <div class="buttons">
                <CopyText id="copy-whole-link" label="Copy the link" done="Link copied" chief=true {text} />
                if can_share(name, link) {
                    <Sheet link={link.clone()} name={name.clone()} />
                }
            </div>
            if let Some(warning) = warning {
                <p class="warning" id="link-reach">{ warning }</p>
            }
            <p class="hint" id="link-hint">
                { format!("{} characters. The whole design is in the link itself, after the #, and that part never leaves the browser \
                          that opens it: nothing is sent to a server, nothing is stored there.", link.chars().count()) }
            </p>
        </section>
    }
}

/// The button for the device's own sheet.
#[component]
fn Sheet(LinkProps { link, name }: &LinkProps) -> Html {
    let shared = use_state_eq(|| None::<Shared>);
    let onclick = {
        let (link, name, shared) = (link.clone(), name.clone(), shared.setter());
        Callback::from(move |_: MouseEvent| {
            let (link, name, shared) = (link.clone(), name.clone(), shared.clone());
            spawn_local(async move { shared.set(Some(share(&name, &link).await)) });
        })
    };
    let said = match *shared {
        None => "",
        Some(Shared::Done) => "Passed on.",
        Some(Shared::Cancelled) => "Not shared.",
        Some(Shared::Refused) => "The device did not take it; the link can be copied.",
    };
    html! {
        <>
            <button type="button" id="share-sheet" {onclick}>{ "Share …" }</button>
            <span class="hint" role="status" id="share-said">{ said }</span>
        </>
    }
}
