//! Browsers may clear what pages keep where room is short, unless they have promised not to; a page can ask for that.

use js_sys::Promise;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

// Storage standard, section 5 (StorageManager). Where a browser lacks it, as over plain HTTP, the call is refused.
#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(catch, js_namespace = ["navigator", "storage"])]
    fn persisted() -> Result<Promise, JsValue>;

    #[wasm_bindgen(catch, js_namespace = ["navigator", "storage"])]
    fn persist() -> Result<Promise, JsValue>;
}

/// Whether the browser has promised not to clear by itself what the page keeps, as it may where room is short.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Lasting {
    /// Nothing can be asked, or it has promised before.
    #[default]
    Unasked,
    /// It has not, and can be asked.
    Open,
    /// It has agreed.
    Promised,
    /// It has not agreed.
    Refused,
}

impl Lasting {
    /// What is known; if it is to be asked for, what the browser has answered.
    pub async fn learn(asks: bool) -> Self {
        let answer = match if asks { persist() } else { persisted() } {
            Ok(promise) => JsFuture::from(promise).await,
            Err(refusal) => Err(refusal),
        };
        match (asks, answer.ok().and_then(|given| given.as_bool())) {
            (false, Some(false)) => Self::Open,
            (false, _) => Self::Unasked,
            (true, Some(true)) => Self::Promised,
            (true, _) => Self::Refused,
        }
    }

    /// What there is to say of it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Unasked => "",
            Self::Open => {
                "<p class=\"hint\" id=\"shelf-lasting\">A browser short of room may clear what pages keep. \
                 <button type=\"button\" class=\"plain\" data-do=\"persist\">Ask it not to</button></p>"
            }
            Self::Promised => "<p class=\"hint\" id=\"shelf-lasting\">The browser has agreed not to clear it by itself.</p>",
            Self::Refused => {
                "<p class=\"hint\" id=\"shelf-lasting\">The browser has not agreed: keep what matters as a file as well.</p>"
            }
        }
    }
}
