//! Designs side by side: what they have in common, where they differ, what they do.

use yew::prelude::*;

use crate::state::{Action, State};

/// Properties of [`Compare`].
#[derive(Clone, PartialEq, Properties)]
pub struct CompareProps {
    /// The page's state.
    pub state: UseReducerHandle<State>,
    /// Where actions go.
    pub emit: Callback<Action>,
}

/// The view.
#[component]
pub fn Compare(props: &CompareProps) -> Html {
    let name = props.state.design().name.clone();
    html! {
        <section class="compare" id="view-compare" aria-labelledby="compare-title">
            <h2 id="compare-title">{ "Designs side by side" }</h2>
            <p>{ name }</p>
        </section>
    }
}
