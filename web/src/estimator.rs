//! Where the page has its answers about designs from, and what explains them.
//!
//! Physics, checks and links are no part of the page's own program: they are a second one, the engine, which is loaded once beside the
//! page for the answer in the same frame and once more in a worker for what takes long. A design goes over as bytes, and so does what
//! comes back. The engine has the texts of the explanations too: they are long, and wanted one at a time.

use std::ops::Deref;
use std::rc::Rc;

use hushwright::design::Design;
use hushwright::error::FieldError;
use hushwright::need::BandValues;
use wasm_bindgen::prelude::*;

use crate::explanations::{Explained, Meaning, Topic};
use crate::model::{Estimate, Model, bands_from_bytes, design_from_bytes, estimate_from_bytes};

// The engine lies beside the page, and is asked for when the page starts: where nobody loads it, as in tests, nobody misses it. Where
// the programs lie is said by `index.html`, for their names follow from their contents, and a page of one file has them within itself.
#[wasm_bindgen(inline_js = "
let engine;
export async function load_engine() {
    engine = await import(new URL(programs.engine, document.baseURI));
    await engine.default();
}
export const worker_address = () => new URL(programs.worker, document.baseURI).href;
export const estimate = design => engine.estimate(design);
export const open = fragment => engine.open(fragment);
export const open_file = text => engine.open_file(text);
export const file = design => engine.file(design);
export const read_bands = text => engine.read_bands(text);
export const explained = key => engine.explained(key);
export const all_explained = () => engine.all_explained();
export const meanings = () => engine.meanings();
export const loaded_engine = () => engine;
")]
extern "C" {
    #[wasm_bindgen(catch)]
    async fn load_engine() -> Result<(), JsValue>;

    #[wasm_bindgen(catch)]
    fn worker_address() -> Result<String, JsValue>;

    #[wasm_bindgen(catch)]
    fn estimate(design: &[u8]) -> Result<Vec<u8>, JsValue>;

    #[wasm_bindgen(catch)]
    fn open(fragment: &str) -> Result<Vec<u8>, JsValue>;

    #[wasm_bindgen(catch)]
    fn open_file(text: &str) -> Result<Vec<u8>, JsValue>;

    #[wasm_bindgen(catch)]
    fn file(design: &[u8]) -> Result<Option<String>, JsValue>;

    #[wasm_bindgen(catch)]
    fn read_bands(text: &str) -> Result<Vec<u8>, JsValue>;

    fn explained(key: &str) -> String;

    fn all_explained() -> String;

    fn meanings() -> String;

    /// The engine itself, for another program of the page to ask.
    pub fn loaded_engine() -> JsValue;
}

/// Answers what the page asks about designs.
#[derive(Clone)]
pub struct Estimator(Rc<dyn Model>);

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

impl Deref for Estimator {
    type Target = dyn Model;

    fn deref(&self) -> &Self::Target {
        &*self.0
    }
}

impl Estimator {
    /// An estimator that asks `model`.
    pub fn new(model: impl Model + 'static) -> Self {
        Self(Rc::new(model))
    }

    /// Loads the engine.
    ///
    /// # Errors
    /// What the browser says where it cannot be fetched or started.
    pub async fn load() -> Result<Self, JsValue> {
        load_engine().await?;
        Ok(Self::new(Engine))
    }
}

/// Where the script lies that starts the engine in a worker.
///
/// # Errors
/// When the page does not say it, as in tests.
pub fn worker() -> Result<String, JsValue> {
    worker_address()
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

/// The engine beside the page.
///
/// Asking panics where it has stopped on a fault: there is no answer then, and the page says so and keeps the design.
pub struct Engine;

impl Model for Engine {
    fn estimate(&self, design: &Design) -> Result<Estimate, Vec<FieldError>> {
        answered(estimate(&design.to_bytes()), estimate_from_bytes)
    }

    fn estimate_bytes(&self, design: &Design) -> Vec<u8> {
        estimate(&design.to_bytes()).unwrap_or_else(|error| panic!("the engine has stopped: {error:?}"))
    }

    fn open(&self, fragment: &str) -> Result<Design, String> {
        answered(open(fragment), design_from_bytes)
    }

    fn open_file(&self, text: &str) -> Result<Design, String> {
        answered(open_file(text), design_from_bytes)
    }

    fn file(&self, design: &Design) -> String {
        let text = file(&design.to_bytes()).unwrap_or_else(|error| panic!("the engine has stopped: {error:?}"));
        text.expect("page and engine are of one build")
    }

    fn read_bands(&self, text: &str) -> Result<BandValues, String> {
        answered(read_bands(text), bands_from_bytes)
    }
}

/// What the engine has answered.
fn answered<T>(answer: Result<Vec<u8>, JsValue>, read: fn(&[u8]) -> Option<T>) -> T {
    let bytes = answer.unwrap_or_else(|error| panic!("the engine has stopped: {error:?}"));
    read(&bytes).expect("page and engine are of one build")
}
