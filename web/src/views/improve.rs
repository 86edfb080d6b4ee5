//! The view of what to change: what each single change brings, and what makes the answer unsure. The search for the best trade-offs
//! stands below it.

use std::rc::Rc;

use yew::prelude::*;

use super::steps::Steps;
use super::sure::unknowns;
use crate::state::{Action, State};
use crate::sureness::Sureness;

/// Changes and unknowns side by side.
pub fn improve(state: &State, sureness: &Sureness, emit: &Callback<Action>) -> Html {
    html! {
        <div class="beside">
            <Steps design={Rc::clone(state.design())} steps={sureness.steps.clone()} unavailable={sureness.unavailable} units={state.units()}
                whole=true emit={emit.clone()} />
            { unknowns(sureness, emit) }
        </div>
    }
}
