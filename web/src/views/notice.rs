//! What is said of a link that could not be opened, with the link itself.

use yew::prelude::*;

use crate::address;
use crate::components::CopyText;
use crate::state::{Action, State};

/// The notice, where there is one.
pub fn notice(state: &State, emit: &Callback<Action>) -> Html {
    let Some(notice) = state.notice() else { return Html::default() };
    let link = address::link(&notice.fragment);
    let text = {
        let link = link.clone();
        Callback::from(move |()| link.clone())
    };
    let dismiss = emit.reform(|_: MouseEvent| Action::DismissNotice);
    html! {
        <div class="notice" id="link-notice">
            <p role="alert">
                { &notice.reason }
                { if notice.is_example_shown { " The first example was opened instead." } else { "" } }
            </p>
            <div class="buttons">
                <CopyText id="copy-refused" label="Copy that link" done="Link copied" {text} />
                <button type="button" id="link-notice-dismiss" onclick={dismiss}>{ "Dismiss" }</button>
            </div>
            <label class="unseen" for="refused-link">{ "The link that could not be opened" }</label>
            <textarea id="refused-link" class="address" readonly=true rows="2" value={link} />
        </div>
    }
}
