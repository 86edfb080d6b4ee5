//! The design to send, to keep and to open.

use yew::prelude::*;

use crate::state::{Action, State};

/// The view.
pub fn share(state: &State, _emit: &Callback<Action>) -> Html {
    html! {
        <div class="send" id="view-share">
            <section id="send" aria-labelledby="send-title">
                <h2 id="send-title">{ "Send this design" }</h2>
                <p>{ state.design().name.clone() }</p>
            </section>
        </div>
    }
}
