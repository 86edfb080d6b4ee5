//! The design to send, to keep and to open.

use std::rc::Rc;

use yew::prelude::*;

use super::shelf::Shelf;
use crate::state::{Action, State};

/// The view.
pub fn share(state: &State, emit: &Callback<Action>) -> Html {
    html! {
        <div class="send" id="view-share">
            <section id="send" aria-labelledby="send-title">
                <h2 id="send-title">{ "Send this design" }</h2>
                <p>{ state.design().name.clone() }</p>
            </section>
            <Shelf design={Rc::clone(state.design())} fragment={Rc::clone(state.fragment())} units={state.units()} emit={emit.clone()} />
        </div>
    }
}
