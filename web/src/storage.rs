//! What the browser keeps of the page beside its address. A browser may forbid it, or be full: the page then works without.

use gloo::utils::window;
use web_sys::Storage;

/// For good: the system of units.
pub const UNITS: &str = "hushwright-units";
/// For good: whether the hint of the first visit has been put away.
pub const HINT: &str = "hushwright-hint";
/// As long as the tab is open: steps and entries.
pub const SESSION: &str = "hushwright-session";
/// As long as the tab is open: what is unfolded.
pub const UNFOLDED: &str = "hushwright-unfolded";
/// As long as the tab is open: which kept design is open in it.
pub const SHELF: &str = "hushwright-shelf";

fn kept_for_good() -> Option<Storage> {
    window().local_storage().ok().flatten()
}

fn kept_by_the_tab() -> Option<Storage> {
    window().session_storage().ok().flatten()
}

/// What is kept for good under `key`.
pub fn kept(key: &str) -> Option<String> {
    kept_for_good()?.get_item(key).ok().flatten()
}

/// Keeps `value` for good.
pub fn keep(key: &str, value: &str) {
    if let Some(storage) = kept_for_good() {
        let _ = storage.set_item(key, value);
    }
}

/// What the tab holds under `key`.
pub fn held(key: &str) -> Option<String> {
    kept_by_the_tab()?.get_item(key).ok().flatten()
}

/// Has the tab hold `value`.
pub fn hold(key: &str, value: &str) {
    if let Some(storage) = kept_by_the_tab() {
        let _ = storage.set_item(key, value);
    }
}
