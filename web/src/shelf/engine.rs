//! The workshop's end of a line to the engine, which the page has loaded.

use hushwright::design::Design;
use wasm_bindgen::prelude::*;

use super::handling::Links;
use crate::model::design_from_bytes;
use crate::quantity::sentence;

/// What is said where the engine has stopped on a fault; the page says so itself.
const STOPPED: &str = "It cannot be opened as long as the page is not loaded again.";

#[wasm_bindgen]
extern "C" {
    /// The engine as a module.
    pub type LoadedEngine;

    #[wasm_bindgen(method, catch)]
    fn open(this: &LoadedEngine, fragment: &str) -> Result<Vec<u8>, JsValue>;

    #[wasm_bindgen(method, catch)]
    fn estimate(this: &LoadedEngine, design: &[u8]) -> Result<Vec<u8>, JsValue>;
}

/// The beginning of an estimate as it travels ([`crate::model::estimate_to_bytes`]): the fragment, or paths and messages; the report
/// after it is left unread.
type Beginning = Result<String, Vec<(String, String)>>;

impl Links for LoadedEngine {
    fn open(&self, fragment: &str) -> Result<Design, String> {
        let bytes = Self::open(self, fragment).map_err(|_| STOPPED)?;
        design_from_bytes(&bytes).unwrap_or_else(|| Err(STOPPED.to_owned()))
    }

    fn fragment(&self, design: &Design) -> Result<String, String> {
        let bytes = self.estimate(&design.to_bytes()).map_err(|_| STOPPED)?;
        fragment_of(&bytes)
    }
}

/// The fragment in an estimate.
fn fragment_of(bytes: &[u8]) -> Result<String, String> {
    let (beginning, _) = postcard::take_from_bytes::<Beginning>(bytes).map_err(|_| STOPPED)?;
    beginning.map_err(|errors| errors.first().map(|(_, message)| sentence(message)).unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::{Core, Model, estimate_to_bytes};

    #[test]
    fn the_fragment_is_read_from_an_estimate_as_it_travels() {
        let (core, mut design) = (Core::default(), Design::default());
        let estimate = core.estimate(&design);
        let fragment = estimate.as_ref().unwrap().fragment.clone();
        assert_eq!(fragment_of(&estimate_to_bytes(estimate)), Ok(fragment));
        design.name = "a".repeat(81);
        let refusal = fragment_of(&estimate_to_bytes(core.estimate(&design))).expect_err("a name that is too long");
        assert!(refusal.contains("80") && refusal.ends_with('.'), "{refusal}");
        assert_eq!(fragment_of(&[]), Err(STOPPED.to_owned()));
    }
}
