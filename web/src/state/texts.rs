//! What happens to texts that are typed letter by letter: the name, the notes, names of listeners, what money is called.

use std::rc::Rc;

use hushwright::design::Design;

use super::{Entry, State, Step};
use crate::quantity::sentence;

/// A text of the design.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Text {
    /// Its name.
    Name,
    /// Its notes.
    Notes,
    /// What money is called.
    Currency,
    /// The name of listener `k`.
    Listener(usize),
}

impl Text {
    /// Its path in the document.
    pub fn path(self) -> String {
        match self {
            Self::Name => "name".to_owned(),
            Self::Notes => "notes".to_owned(),
            Self::Currency => "build.currency".to_owned(),
            Self::Listener(k) => format!("listeners[{k}].name"),
        }
    }

    /// The text at `path`, if `design` has one there.
    pub fn at(path: &str, design: &Design) -> Option<Self> {
        let listeners = (0..design.listeners.len()).map(Self::Listener);
        [Self::Name, Self::Notes, Self::Currency].into_iter().chain(listeners).find(|text| text.path() == path)
    }

    /// What it is in `design`; `None` where there is no such listener.
    pub fn get(self, design: &Design) -> Option<&str> {
        match self {
            Self::Name => Some(&design.name),
            Self::Notes => Some(&design.notes),
            Self::Currency => Some(&design.build.currency),
            Self::Listener(k) => design.listeners.get(k).map(|listener| listener.name.as_str()),
        }
    }

    /// Puts `words` into `design`; says whether there is a place for them.
    fn set(self, design: &mut Design, words: String) -> bool {
        let place = match self {
            Self::Name => &mut design.name,
            Self::Notes => &mut design.notes,
            Self::Currency => &mut design.build.currency,
            Self::Listener(k) => match design.listeners.get_mut(k) {
                Some(listener) => &mut listener.name,
                None => return false,
            },
        };
        *place = words;
        true
    }
}

impl State {
    /// What the field of `text` shows: what was typed, in the design or not.
    pub fn text(&self, text: Text) -> &str {
        let typed = self.texts.iter().find(|(own, _)| *own == text).map(|(_, entry)| entry.text.as_str());
        typed.or_else(|| text.get(self.design())).unwrap_or_default()
    }

    /// Why that is not in the design, if it is not.
    pub fn text_refusal(&self, text: Text) -> Option<&str> {
        self.texts.iter().find(|(own, _)| *own == text)?.1.refusal.as_deref()
    }

    /// A text was typed: in the design if it passes the check, else beside it with the reason.
    pub(super) fn enter_text(&mut self, text: Text, words: String) {
        if self.try_text(text, words, Some(Step::Text(text))) {
            self.retry();
        }
    }

    /// Tries again the texts that were refused.
    pub(super) fn retry_texts(&mut self) {
        for (text, entry) in self.texts.clone() {
            self.try_text(text, entry.text, None);
        }
    }

    /// Says whether the design has taken `words`.
    fn try_text(&mut self, text: Text, words: String, step: Option<Step>) -> bool {
        self.texts.retain(|(own, _)| *own != text);
        let mut candidate = (**self.design()).clone();
        if !text.set(&mut candidate, words.clone()) {
            return false; // the listener is gone
        }
        let Err(errors) = self.take(&Rc::new(candidate), step) else { return true };
        let refusal = errors.first().map(|error| sentence(&error.message));
        self.texts.push((text, Entry { text: words, refusal }));
        false
    }
}
