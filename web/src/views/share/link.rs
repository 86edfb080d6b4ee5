//! The link: the whole design in an address.

use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::{Said, called};
use crate::address;
use crate::components::CopyText;
use crate::share_sheet::{Shared, can_share, share};
use crate::state::State;

/// The whole address of the design.
pub fn whole(state: &State) -> String {
    address::link(state.fragment())
}

/// The link in a field, with what can be done with it.
pub fn link(state: &State, said: &Said) -> Html {
    let link = AttrValue::from(whole(state));
    let text = {
        let link = link.clone();
        Callback::from(move |()| link.to_string())
    };
    html! {
        <section aria-labelledby="link-title">
            <h2 id="link-title"><label for="whole-link">{ "Link to this design" }</label></h2>
            <textarea id="whole-link" class="address" readonly=true rows="3" spellcheck="false" value={link.clone()}
                aria-describedby="link-hint" />
            <div class="buttons">
                <CopyText id="copy-whole-link" label="Copy the link" done="Link copied" chief=true {text} />
                if can_share(called(&state.design().name), &link) {
                    <button type="button" id="share-sheet" data-send="sheet">{ "Share …" }</button>
                }
                <span class="hint" role="status" id="share-said">{ said.at("share-said").unwrap_or_default() }</span>
            </div>
            if state.has_refusals() {
                <p class="warning" id="link-lacks">{ "What is refused in a field is in no link: it is not in the design yet." }</p>
            }
        </section>
    }
}

/// Asks the device to pass the link on.
pub fn pass_on(state: &State, said: &UseStateSetter<Said>) {
    let (link, name, said) = (whole(state), called(&state.design().name).to_owned(), said.clone());
    spawn_local(async move {
        let text = match share(&name, &link).await {
            Shared::Done => "Passed on.",
            Shared::Cancelled => "Not shared.",
            Shared::Refused => "The device did not take it; the link can be copied.",
        };
        said.set(Said { place: "share-said", text: text.to_owned(), steps: 0 });
    });
}
