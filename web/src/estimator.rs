//! Where the page has its reports from, and what explains them.
//!
//! The physics is no part of the page's own program: it is a second one, the engine, which is loaded once beside the page for the
//! answer in the same frame and once more in a worker for what takes long. What it reports comes over as bytes. It has the texts of the
//! explanations too: they are long, and wanted one at a time.

use std::rc::Rc;

use hushwright::evaluate::Report;
use wasm_bindgen::prelude::*;

use crate::explanations::{Explained, Meaning, Topic};

// The engine lies beside the page, and is asked for when the page starts: where nobody loads it, as in tests, nobody misses it.
#[wasm_bindgen(inline_js = "
let engine;
export async function load_engine() {
    engine = await import(new URL('engine.js', document.baseURI));
    await engine.default();
}
export const estimate = fragment => engine.estimate(fragment);
export const explained = key => engine.explained(key);
export const all_explained = () => engine.all_explained();
export const meanings = () => engine.meanings();
")]
extern "C" {
    #[wasm_bindgen(catch)]
    async fn load_engine() -> Result<(), JsValue>;

    #[wasm_bindgen(catch)]
    fn estimate(fragment: &str) -> Result<Vec<u8>, JsValue>;

    fn explained(key: &str) -> String;

    fn all_explained() -> String;

    fn meanings() -> String;
}

/// Works out what a design does, from the fragment of its link; the design has passed its check.
#[derive(Clone)]
pub struct Estimator(Rc<dyn Fn(&str) -> Report>);

/// All of them say the same of a design.
impl PartialEq for Estimator {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl std::fmt::Debug for Estimator {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Estimator")
    }
}

impl Estimator {
    /// An estimator that asks `work`.
    pub fn new(work: impl Fn(&str) -> Report + 'static) -> Self {
        Self(Rc::new(work))
    }

    /// Loads the engine.
    ///
    /// # Errors
    /// What the browser says where it cannot be fetched or started.
    pub async fn load() -> Result<Self, JsValue> {
        load_engine().await?;
        Ok(Self::new(ask_engine))
    }

    /// What the design that `fragment` carries, which has passed its check, does.
    pub fn report(&self, fragment: &str) -> Report {
        (self.0)(fragment)
    }
}

/// The explanation of `topic`.
pub fn explanation(topic: Topic) -> Option<Explained> {
    Explained::read(&explained(topic.key)).pop()
}

/// All explanations.
pub fn all_explanations() -> Vec<Explained> {
    Explained::read(&all_explained())
}

/// All terms.
pub fn all_terms() -> Vec<Meaning> {
    Meaning::read(&meanings())
}

/// # Panics
/// Where the engine has stopped on a fault: there is no answer then, and the page says so and keeps the design.
fn ask_engine(fragment: &str) -> Report {
    let bytes = estimate(fragment).unwrap_or_else(|error| panic!("the engine has stopped: {error:?}"));
    from_bytes(&bytes).expect("page and engine are of one build")
}

/// A report as it is sent.
///
/// # Panics
/// Never: numbers and names can always be written.
pub fn to_bytes(report: &Report) -> Vec<u8> {
    postcard::to_allocvec(report).expect("numbers and names can always be written")
}

/// A report as it arrives; `None` if it is anything else.
pub fn from_bytes(bytes: &[u8]) -> Option<Report> {
    postcard::from_bytes(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use hushwright::evaluate::evaluate;

    #[test]
    fn a_report_arrives_as_it_was_sent() {
        for design in hushwright::design::examples() {
            let report = evaluate(&design.check().unwrap());
            let bytes = to_bytes(&report);
            assert_eq!(from_bytes(&bytes).as_ref(), Some(&report));
            assert_eq!(from_bytes(&bytes[..bytes.len() - 1]), None);
        }
    }
}
