//! The Hushwright page.

use hushwright::design::Design;
use hushwright::evaluate::evaluate;
use yew::prelude::*;

/// The whole page.
#[component]
pub fn App() -> Html {
    let design = Design::default();
    let answer = design.check().map(|checked| evaluate(&checked));
    match answer {
        Ok(report) => {
            html! { <main><h1>{ "Hushwright" }</h1><output id="answer">{ format!("{:.0} dBA", report.stations.room.dba) }</output></main> }
        }
        Err(errors) => html! { <main>{ format!("{errors:?}") }</main> },
    }
}
