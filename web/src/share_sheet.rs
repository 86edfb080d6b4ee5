//! The device's own sheet for sharing (Web Share API, W3C), where there is one.

use wasm_bindgen::prelude::*;

// By hand: the crate with the browser's interfaces holds this one back as unstable.
#[wasm_bindgen(inline_js = "
export const can_share = (title, url) => {
    try {
        return Boolean(navigator.share && (!navigator.canShare || navigator.canShare({ title, url })));
    } catch {
        return false;
    }
};
export const share = (title, url) => navigator.share({ title, url });
")]
extern "C" {
    /// Whether the device can share a link.
    pub fn can_share(title: &str, url: &str) -> bool;

    #[wasm_bindgen(catch, js_name = share)]
    async fn ask(title: &str, url: &str) -> Result<(), JsValue>;
}

/// How sharing went.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shared {
    /// It was passed on.
    Done,
    /// Whoever was asked has thought better of it.
    Cancelled,
    /// The device refuses it.
    Refused,
}

/// Asks the device to share a link. Browsers allow that only in answer to a click.
pub async fn share(title: &str, url: &str) -> Shared {
    match ask(title, url).await {
        Ok(()) => Shared::Done,
        // The name of the error when the sheet is closed (Web Share API, 2.1.1).
        Err(error) if js_sys::Error::from(error.clone()).name() == "AbortError" => Shared::Cancelled,
        Err(_) => Shared::Refused,
    }
}
