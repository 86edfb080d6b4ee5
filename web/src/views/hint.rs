//! The hint of the first visit: what this is and what to do with it. Put away once, it does not come back.

use yew::prelude::*;

use crate::storage;
use crate::view::View;

/// What the browser keeps once the hint has been put away.
const PUT_AWAY: &str = "put away";

/// Properties of [`Hint`].
#[derive(Clone, PartialEq, Properties)]
pub struct HintProps {
    /// Where a view is asked for.
    pub go: Callback<View>,
}

/// The hint.
#[component]
pub fn Hint(props: &HintProps) -> Html {
    let is_shown = use_state_eq(|| storage::kept(storage::HINT).as_deref() != Some(PUT_AWAY));
    if !*is_shown {
        return html! {};
    }
    let put_away = {
        let is_shown = is_shown.setter();
        Callback::from(move |_: MouseEvent| {
            storage::keep(storage::HINT, PUT_AWAY);
            is_shown.set(false);
        })
    };
    let learn = props.go.reform(|_: MouseEvent| View::Learn);
    html! {
        <aside class="hint-bar" id="hint" aria-label="How to begin">
            <p>
                <b>{ "A finished box to begin with. " }</b>
                { "Change any number: everything follows at once. The widest arrow shows where the sound gets out. The address is the design." }
            </p>
            <span>
                <button type="button" onclick={learn}>{ "What the words mean" }</button>
                <button type="button" id="hint-dismiss" onclick={put_away}>{ "Got it" }</button>
            </span>
        </aside>
    }
}
