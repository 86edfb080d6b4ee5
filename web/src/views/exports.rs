//! The levels to take away: a picture, a file, a table for a spreadsheet.

use std::rc::Rc;

use gloo::utils::document;
use hushwright::design::Design;
use hushwright::evaluate::Report;
use wasm_bindgen::prelude::*;
use web_sys::{Blob, HtmlCanvasElement};
use yew::prelude::*;

use super::levels::{caption, level_columns, stations_chart};
use crate::charts::picture;
use crate::components::{CopyText, text_width};
use crate::download::{file_name, save, save_blob};
use crate::level_table::{csv, tabbed};
use crate::need_readings::{limit_words, listener_name};
use crate::quantity::level_dba;
use crate::sureness::BandRange;

/// Properties of [`Exports`].
#[derive(Clone, PartialEq, Properties)]
pub struct ExportsProps {
    /// The design.
    pub design: Rc<Design>,
    /// What it does.
    pub report: Rc<Report>,
    /// Its range, once that is known; what is kept has none that was only carried over from the design before.
    pub range: Option<BandRange>,
}

/// What is in the picture, in words.
fn words(design: &Design, report: &Report, has_range: bool) -> String {
    let listener = report.decisive().zip(report.governing.and_then(|k| design.listeners.get(k)));
    let answer = match listener {
        Some((heard, part)) => {
            format!("{}: {} dBA, {}.", listener_name(part), level_dba(heard.level.dba), limit_words(heard, part))
        }
        None => format!("In the room: {} dBA.", level_dba(report.stations.room.dba)),
    };
    let words = format!("Levels in one-third octaves, from the source to the listener. {answer} {}", caption(report, has_range));
    // No line begins with a unit.
    words.replace(" dBA", "\u{a0}dBA")
}

/// Draws the picture and gives it to the browser; what does not work goes to `on_failure`.
fn save_picture(props: &ExportsProps, on_failure: &Callback<()>) -> Result<(), JsValue> {
    let ExportsProps { design, report, range } = props;
    let canvas: HtmlCanvasElement = document().create_element("canvas")?.dyn_into()?;
    let chart = stations_chart(report, range.as_ref());
    let title = if design.name.trim().is_empty() { "Levels" } else { design.name.trim() };
    picture::draw(&canvas, &chart, title, &words(design, report, range.is_some()), &text_width)
        .map_err(|error| JsValue::from_str(&error.to_string()))?;
    let (name, on_failure) = (file_name(&design.name, "levels", "png"), on_failure.clone());
    let keep = Closure::once_into_js(move |blob: JsValue| {
        // A browser that cannot make a picture gives nothing.
        let saved = blob.dyn_into::<Blob>().and_then(|blob| save_blob(&name, &blob));
        if saved.is_err() {
            on_failure.emit(());
        }
    });
    canvas.to_blob(keep.unchecked_ref())
}

/// What is said where the table cannot be saved.
pub const TABLE_REFUSED: &str = "The table could not be saved: the browser did not take it. It can be copied instead.";

/// Lets the browser save the levels of the design called `name` as comma-separated values.
///
/// # Errors
/// What the browser refuses.
pub fn save_table(name: &str, report: &Report, range: Option<&BandRange>) -> Result<(), JsValue> {
    save(&file_name(name, "levels", "csv"), "text/csv", &csv(&level_columns(report, range)))
}

/// The buttons.
#[component]
pub fn Exports(props: &ExportsProps) -> Html {
    let failure = use_state_eq(|| None::<&'static str>);
    let failed = |what: &'static str| {
        let failure = failure.setter();
        Callback::from(move |()| failure.set(Some(what)))
    };
    let picture = {
        let (props, failure) = (props.clone(), failure.setter());
        let failed = failed("The picture could not be saved: the browser did not make it.");
        Callback::from(move |_: MouseEvent| {
            failure.set(None);
            if save_picture(&props, &failed).is_err() {
                failed.emit(());
            }
        })
    };
    let file = {
        let (props, failure) = (props.clone(), failure.setter());
        let failed = failed(TABLE_REFUSED);
        Callback::from(move |_: MouseEvent| {
            failure.set(None);
            if save_table(&props.design.name, &props.report, props.range.as_ref()).is_err() {
                failed.emit(());
            }
        })
    };
    let table = {
        let ExportsProps { report, range, .. } = props.clone();
        Callback::from(move |()| tabbed(&level_columns(&report, range.as_ref())))
    };
    html! {
        <div class="exports" role="group" aria-label="Levels to keep">
            <button type="button" id="save-picture" onclick={picture}>{ "Save picture (PNG)" }</button>
            <button type="button" id="save-table" onclick={file}>{ "Save table (CSV)" }</button>
            <CopyText id="copy-table" label="Copy the table" done="Table copied" text={table} />
            if let Some(failure) = *failure {
                <p class="refusal" id="save-failed" role="alert">{ failure }</p>
            }
        </div>
    }
}
