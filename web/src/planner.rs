//! Where the page has its plans from.
//!
//! What the workshop needs is a program of its own, as the engine is: it is fetched once the page stands, and nobody waits for it who
//! only wants to know how quiet a box is.

use hushwright::design::Design;
use serde::{Deserialize, Serialize};
use wasm_bindgen::prelude::*;

use crate::documents::{Kept, Planned};
use crate::estimator::loaded_engine;
use crate::quantity::Units;
use crate::schedule::Comparison;
use crate::shelf::exchange;

#[wasm_bindgen(inline_js = "
let workshop, loading;
export function load_workshop() {
    return loading ??= import(new URL(programs.workshop, document.baseURI)).then(async program => {
        await program.default();
        workshop = program;
    }).catch(error => {
        loading = undefined;
        throw error;
    });
}
export const plan = question => workshop.plan(question);
export const compared = question => workshop.compared(question);
export const drawing = (question, number) => workshop.drawing(question, number);
export const sending = (link, name) => workshop.sending(link, name);
export const shelf = (question, engine, renamed) => workshop.shelf(question, engine, renamed);
")]
extern "C" {
    #[wasm_bindgen(catch)]
    async fn load_workshop() -> Result<(), JsValue>;

    #[wasm_bindgen(catch)]
    fn plan(question: &[u8]) -> Result<Option<Vec<u8>>, JsValue>;

    #[wasm_bindgen(catch)]
    fn compared(question: &[u8]) -> Result<Option<Vec<u8>>, JsValue>;

    #[wasm_bindgen(catch)]
    fn drawing(question: &[u8], number: usize) -> Result<Option<String>, JsValue>;

    #[wasm_bindgen(catch)]
    fn sending(link: &str, name: &str) -> Result<String, JsValue>;

    #[wasm_bindgen(catch)]
    fn shelf(question: &[u8], engine: &JsValue, renamed: &JsValue) -> Result<Option<Vec<u8>>, JsValue>;
}

/// What the page asks of the workshop.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Question {
    /// The design as [`Design::to_bytes`] writes it.
    pub design: Vec<u8>,
    /// Key of the units shown.
    pub units: String,
    /// What was typed and refused.
    pub kept: Vec<Kept>,
    /// Whether the documents are wanted, or only what they come to.
    pub with_sections: bool,
}

impl Question {
    /// A question about `design`.
    pub fn new(design: &Design, units: Units, kept: Vec<Kept>, with_sections: bool) -> Self {
        Self { design: design.to_bytes(), units: units.key().to_owned(), kept, with_sections }
    }

    /// As it travels.
    ///
    /// # Panics
    /// Never: numbers and text can always be written.
    pub fn to_bytes(&self) -> Vec<u8> {
        postcard::to_allocvec(self).expect("numbers and text can always be written")
    }

    /// As it arrives; `None` if it is anything else.
    pub fn from_bytes(bytes: &[u8]) -> Option<Self> {
        postcard::from_bytes(bytes).ok()
    }
}

/// Loads the workshop, once for all who ask.
///
/// # Errors
/// What the browser says where it cannot be fetched or started.
pub async fn load() -> Result<(), JsValue> {
    load_workshop().await
}

/// The plan of a design; `None` where there is none: the workshop has stopped on a fault.
pub fn planned(question: &Question) -> Option<Planned> {
    postcard::from_bytes(&plan(&question.to_bytes()).ok()??).ok()
}

/// What sets designs beside each other, and the sheet that compares them, as marked-up text.
pub fn comparison(question: &Comparison) -> Option<[String; 2]> {
    postcard::from_bytes(&compared(&question.to_bytes()).ok()??).ok()
}

/// The drawing of sheet `number` as a file of its own.
pub fn sheet_drawing(question: &Question, number: usize) -> Option<String> {
    drawing(&question.to_bytes(), number).ok()?
}

/// What is said below the link of the design called `name`, with its code to scan, as marked-up text; `None` where the workshop has
/// stopped on a fault.
pub fn below_link(link: &str, name: &str) -> Option<String> {
    sending(link, name).ok()
}

/// What there is to see of the kept designs; `None` where the workshop has not come or has stopped on a fault. The function
/// `renamed` gives the design of a fragment another name, or throws why it cannot have that.
pub fn shelved(question: &exchange::Question, renamed: &JsValue) -> Option<exchange::Answer> {
    exchange::Answer::from_bytes(&shelf(&question.to_bytes(), &loaded_engine(), renamed).ok()??)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_question_arrives_as_it_was_asked() {
        let kept = vec![Kept { key: "latch".to_owned(), text: "many".to_owned(), refusal: "a number".to_owned() }];
        let question = Question::new(&Design::default(), Units::Imperial, kept, true);
        let bytes = question.to_bytes();
        assert_eq!(Question::from_bytes(&bytes), Some(question));
        assert_eq!(Question::from_bytes(&bytes[..bytes.len() - 1]), None);
    }
}
