//! The address bar: the design is the fragment, written without a new entry in the browser's history.

use std::cell::RefCell;
use std::rc::Rc;

use gloo::timers::callback::Timeout;
use gloo::utils::window;

/// Least time between two writes in ms: browsers refuse more than about 100 in 30 s.
const PAUSE_MS: u32 = 320;

/// The fragment of the address as it stands.
pub fn fragment() -> String {
    window().location().hash().unwrap_or_default()
}

/// The whole address with `fragment` in place of its own.
pub fn link(fragment: &str) -> String {
    let href = window().location().href().unwrap_or_default();
    let base = href.split('#').next().unwrap_or_default();
    format!("{base}#{fragment}")
}

#[derive(Default)]
struct Inner {
    latest: Option<String>,
    pause: Option<Timeout>,
}

/// Writes the address at once, then at most once in every pause, the last word always.
#[derive(Clone, Default)]
pub struct AddressBar(Rc<RefCell<Inner>>);

impl PartialEq for AddressBar {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl AddressBar {
    /// Puts `fragment` into the address, now or after the pause.
    pub fn show(&self, fragment: String) {
        self.0.borrow_mut().latest = Some(fragment);
        if self.0.borrow().pause.is_none() {
            self.flush();
            self.start_pause();
        }
    }

    /// Writes what waits.
    pub fn flush(&self) {
        let Some(latest) = self.0.borrow_mut().latest.take() else { return };
        if fragment().trim_start_matches('#') == latest {
            return;
        }
        if let Ok(history) = window().history() {
            // A browser that refuses, because it was asked too often, gets the next one.
            let _ = history.replace_state_with_url(&wasm_bindgen::JsValue::NULL, "", Some(&format!("#{latest}")));
        }
    }

    fn start_pause(&self) {
        let bar = self.clone();
        let pause = Timeout::new(PAUSE_MS, move || {
            let waiting = {
                let mut inner = bar.0.borrow_mut();
                inner.pause = None;
                inner.latest.is_some()
            };
            if waiting {
                bar.flush();
                bar.start_pause();
            }
        });
        self.0.borrow_mut().pause = Some(pause);
    }
}
