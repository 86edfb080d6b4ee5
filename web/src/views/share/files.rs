//! The design and its levels as files.

use std::rc::Rc;

use hushwright::evaluate::Report;
use yew::prelude::*;

use crate::download;
use crate::state::State;
use crate::sureness::BandRange;
use crate::views::exports::{TABLE_REFUSED, save_table};

/// Properties of [`Files`].
#[derive(Clone, PartialEq, Properties)]
pub struct FilesProps {
    /// The page's state.
    pub state: UseReducerHandle<State>,
    /// What the design does.
    pub report: Rc<Report>,
    /// Its range, once that is known.
    pub range: Option<BandRange>,
}

/// The buttons.
#[component]
pub fn Files(FilesProps { state, report, range }: &FilesProps) -> Html {
    let refusal = use_state_eq(|| None::<&'static str>);
    let save_design = {
        let (state, refusal) = (state.clone(), refusal.setter());
        Callback::from(move |_: MouseEvent| {
            let design = state.design();
            let text = state.estimator().file(design);
            let saved = download::save(&download::file_name(&design.name, "box", "json"), "application/json", &text);
            refusal.set(
                saved
                    .is_err()
                    .then_some("The design could not be saved: the browser did not take it. Its link can be copied instead."),
            );
        })
    };
    let save_levels = {
        let (design, report, range, refusal) = (Rc::clone(state.design()), Rc::clone(report), range.clone(), refusal.setter());
        Callback::from(move |_: MouseEvent| {
            refusal.set(save_table(&design.name, &report, range.as_ref()).is_err().then_some(TABLE_REFUSED));
        })
    };
    html! {
        <section aria-labelledby="files-title">
            <h2 id="files-title">{ "Files" }</h2>
            <div class="buttons">
                <button type="button" id="save-design" onclick={save_design}>{ "Save the design (JSON)" }</button>
                <button type="button" id="save-levels" onclick={save_levels}>{ "Save the levels (CSV)" }</button>
            </div>
            if let Some(refusal) = *refusal {
                <p class="refusal" id="file-refused" role="alert">{ refusal }</p>
            }
            <p class="hint">{ "The first holds the whole design as plain text and opens here again. The second holds the levels of every \
                station by one-third octaves, for a spreadsheet." }</p>
        </section>
    }
}
