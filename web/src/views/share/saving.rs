//! The code over the whole window, and what is given to the browser to be saved.

use gloo::utils::document;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{HtmlDialogElement, XmlSerializer};

use super::Said;
use crate::download::{file_name, save};
use crate::state::State;
use crate::sureness::BandRange;
use crate::views::exports::{TABLE_REFUSED, save_table};

/// Does what the button that says `what` is for; what is to be said of it.
pub fn done(what: &str, state: &State, range: Option<&BandRange>) -> Said {
    let name = &state.design().name;
    let large = || document().get_element_by_id("large-code").and_then(|element| element.dyn_into::<HtmlDialogElement>().ok());
    let (place, text, outcome) = match what {
        "large" => ("", "", large().map_or(Ok(()), |dialog| dialog.show_modal())),
        "close" => {
            if let Some(dialog) = large() {
                dialog.close();
            }
            ("", "", Ok(()))
        }
        "code" => ("code-refused", "The code could not be saved: the browser did not take it.", save_code(name)),
        "levels" => ("file-refused", TABLE_REFUSED, save_table(name, state.report(), range)),
        "design" => (
            "file-refused",
            "The design could not be saved: the browser did not take it. Its link can be copied instead.",
            save(&file_name(name, "box", "json"), "application/json", &state.estimator().file(state.design())),
        ),
        _ => return Said::default(),
    };
    if outcome.is_err() { Said { place, text: text.to_owned(), steps: 0 } } else { Said::default() }
}

/// Lets the browser save the code as it is on the page.
fn save_code(name: &str) -> Result<(), JsValue> {
    let code = document().query_selector("#code svg")?.ok_or(JsValue::NULL)?;
    save(&file_name(name, "code", "svg"), "image/svg+xml", &XmlSerializer::new()?.serialize_to_string(&code)?)
}
