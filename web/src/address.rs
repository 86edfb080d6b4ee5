//! The address bar: the design is the fragment, written without a new entry in the browser's history.

use std::cell::RefCell;
use std::rc::Rc;

use gloo::timers::callback::Timeout;
use gloo::utils::{document, window};

/// Time in ms in which one more write is allowed: with [`AT_ONCE`] it keeps to 100 in 30 s, beyond which browsers refuse.
const PAUSE_MS: u32 = 450;
/// Writes that may follow each other at once, so that what was typed is never lost to a reload.
const AT_ONCE: f64 = 30.0;

/// The fragment of the address as it stands.
pub fn fragment() -> String {
    window().location().hash().unwrap_or_default()
}

/// What the page's own entries in the browser's history carry, so that going back to one changes the view and keeps the design.
const OWN: &str = "hushwright";

/// Whether the entry of the browser's history that is shown is one of the page's own.
pub fn is_own() -> bool {
    let state = window().history().ok().and_then(|history| history.state().ok());
    state.is_some_and(|state| state.as_string().as_deref() == Some(OWN))
}

/// Makes the entry of the browser's history that is shown the page's own.
pub fn adopt() {
    if let Ok(history) = window().history() {
        // Without a mark, going back opens the design of then, and the one of now is one undo away.
        let _ = history.replace_state_with_url(&OWN.into(), "", None);
    }
}

/// Goes to `fragment` as a new entry of the browser's history.
pub fn go(fragment: &str) {
    if let Ok(history) = window().history() {
        // Where the browser refuses, the view changes all the same and only the way back is missing.
        let _ = history.push_state_with_url(&OWN.into(), "", Some(&format!("#{fragment}")));
    }
}

/// The whole address that carries `fragment`, for others: the one under which the document says that it can be found (its link
/// `canonical`, RFC 6596), or else the page's own.
pub fn link(fragment: &str) -> String {
    let named = document().query_selector("link[rel=canonical]").ok().flatten();
    let named = named.and_then(|link| link.get_attribute("href")).filter(|href| is_whole(href));
    let href = named.unwrap_or_else(|| window().location().href().unwrap_or_default());
    with_fragment(&href, fragment)
}

/// Whether it is an address that stands for itself, not one within the page's own.
fn is_whole(href: &str) -> bool {
    ["https://", "http://"].iter().any(|scheme| href.len() > scheme.len() && href.starts_with(scheme))
}

fn with_fragment(href: &str, fragment: &str) -> String {
    let base = href.split('#').next().unwrap_or_default();
    format!("{base}#{fragment}")
}

#[derive(Default)]
struct Inner {
    latest: Option<String>,
    pause: Option<Timeout>,
    /// Writes used up of [`AT_ONCE`], and when that was counted, in ms.
    used: f64,
    counted_ms: f64,
}

impl Inner {
    /// Whether one more write may follow at once; counts it.
    fn may_write(&mut self, now_ms: f64) -> bool {
        self.used = (self.used - (now_ms - self.counted_ms) / f64::from(PAUSE_MS)).max(0.0);
        self.counted_ms = now_ms;
        let may = self.used + 1.0 <= AT_ONCE;
        if may {
            self.used += 1.0;
        }
        may
    }
}

/// Milliseconds since the page was opened.
fn now_ms() -> f64 {
    window().performance().map_or(0.0, |performance| performance.now())
}

/// Writes the address at once; in a long drag at most once in every pause, the last word always.
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
        let at_once = {
            let mut inner = self.0.borrow_mut();
            inner.latest = Some(fragment);
            inner.pause.is_none() && inner.may_write(now_ms())
        };
        if at_once {
            self.flush();
        } else if self.0.borrow().pause.is_none() {
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
            let _ = history.replace_state_with_url(&OWN.into(), "", Some(&format!("#{latest}")));
        }
    }

    fn start_pause(&self) {
        let bar = self.clone();
        let pause = Timeout::new(PAUSE_MS, move || {
            {
                let mut inner = bar.0.borrow_mut();
                inner.pause = None;
                // The pause has made room for this one.
                inner.may_write(now_ms());
            }
            bar.flush();
        });
        self.0.borrow_mut().pause = Some(pause);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_link_has_one_fragment_and_a_whole_address() {
        assert_eq!(with_fragment("https://box.example/?a#old#er", "v1.e30"), "https://box.example/?a#v1.e30");
        assert_eq!(with_fragment("https://box.example/", "v1.e30"), "https://box.example/#v1.e30");
        let whole = ["https://box.example/", "http://box.example", "", "/box/", "box.example", "https://"].map(is_whole);
        assert_eq!(whole, [true, true, false, false, false, false]);
    }

    #[test]
    fn a_few_edits_are_written_at_once_and_a_drag_keeps_to_what_browsers_take() {
        let mut inner = Inner::default();
        assert!((0..20).all(|edit| inner.may_write(100.0 * f64::from(edit))));
        let mut drag = Inner::default();
        let written = (0..3000).filter(|frame| drag.may_write(10.0 * f64::from(*frame))).count();
        assert!((60..=100).contains(&written), "{written} in 30 s");
    }
}
