//! The workshop's end of the line to what knows links: the engine, which the page has loaded, and the page.

use js_sys::Function;
use wasm_bindgen::prelude::*;

use super::handling::Links;

/// What is said where the engine has stopped on a fault; the page says so itself.
const STOPPED: &str = "It cannot be opened as long as the page is not loaded again.";

#[wasm_bindgen]
extern "C" {
    /// The engine as a module.
    pub type LoadedEngine;

    #[wasm_bindgen(method, catch)]
    fn open(this: &LoadedEngine, fragment: &str) -> Result<Vec<u8>, JsValue>;
}

/// Both.
pub struct Line<'a> {
    /// The engine.
    pub engine: &'a LoadedEngine,
    /// The page's function that gives the design of a fragment another name, or throws words for the reader.
    pub renamed: &'a Function,
}

impl Links for Line<'_> {
    fn open(&self, fragment: &str) -> Result<Vec<u8>, String> {
        opened(&self.engine.open(fragment).map_err(|_| STOPPED)?)
    }

    fn renamed(&self, fragment: &str, name: &str) -> Result<String, String> {
        let answer = self.renamed.call2(&JsValue::NULL, &fragment.into(), &name.into());
        let (Ok(words) | Err(words)) = &answer;
        let words = words.as_string().unwrap_or_else(|| STOPPED.to_owned());
        if answer.is_ok() { Ok(words) } else { Err(words) }
    }
}

/// An opened link as it travels ([`crate::model::design_to_bytes`]), the design left packed.
fn opened(bytes: &[u8]) -> Result<Vec<u8>, String> {
    postcard::from_bytes::<Result<Vec<u8>, String>>(bytes).unwrap_or_else(|_| Err(STOPPED.to_owned()))
}

#[cfg(test)]
mod tests {
    use hushwright::design::Design;

    use super::*;
    use crate::model::design_to_bytes;

    #[test]
    fn an_opened_link_is_read_as_it_travels() {
        let design = Design::default();
        assert_eq!(opened(&design_to_bytes(Ok(design.clone()))), Ok(design.to_bytes()));
        assert_eq!(opened(&design_to_bytes(Err("cut".to_owned()))), Err("cut".to_owned()));
        assert_eq!(opened(&[7]), Err(STOPPED.to_owned()));
    }
}
