//! What is not in the design and why: what is said of it, and when it is tried again.

use hushwright::design::Design;
use hushwright::error::FieldError;

use super::{Entry, State};
use crate::fields::Field;
use crate::quantity::{in_units, sentence};

impl State {
    /// The refusal of a change that belongs to no number field, under its path.
    pub fn refusal(&self, path: &str) -> Option<&str> {
        self.refusal.as_ref().filter(|(at, _)| at == path).map(|(_, message)| message.as_str())
    }

    /// The fields that hold something which is not in the design.
    pub fn refused(&self) -> impl Iterator<Item = Field> {
        self.entries.iter().filter(|(_, entry)| entry.refusal.is_some()).map(|(field, _)| *field)
    }

    /// Whether anything was typed that is not in the design.
    pub fn has_refusals(&self) -> bool {
        self.refusal.is_some()
            || self.refused().next().is_some()
            || self.refused_lists().next().is_some()
            || !self.own.is_empty()
            || !self.texts.is_empty()
    }

    /// Why `candidate` is refused, as it is said at `path`: what is wrong there, or else what stands against it.
    pub(super) fn why_refused(&self, errors: &[FieldError], path: &str, candidate: &Design) -> String {
        self.why_refused_at(errors, path, candidate, None)
    }

    /// As [`Self::why_refused`], in terms of `at` where the path is its own.
    pub(super) fn why_refused_at(&self, errors: &[FieldError], path: &str, candidate: &Design, at: Option<Field>) -> String {
        let own = errors.iter().find(|error| error.path == path);
        let Some(error) = own.or_else(|| errors.first()) else { return String::new() };
        let at = at.filter(|_| error.path == path).or_else(|| Field::at(&error.path, candidate));
        let Some(field) = at else { return sentence(&in_units(&error.message, self.units)) };
        let message = field.quantity().reword(&error.message, field.beyond(candidate), self.units);
        if error.path == path {
            return message;
        }
        // What is allowed is said of that other field, not of the one at which this stands.
        let message = message.strip_prefix("Allowed").map_or_else(|| message.clone(), |rest| format!("There, allowed{rest}"));
        format!("Not together with the {} as it is. {message}", field.name(self.units))
    }

    /// Tries again what was refused: a change elsewhere may have made room for it.
    pub(super) fn retry(&mut self) {
        loop {
            let before = self.refused().count();
            let waiting: Vec<_> =
                self.entries.iter().filter(|(_, entry)| entry.refusal.is_some()).map(|(f, e)| (*f, e.text.clone())).collect();
            for (field, text) in waiting {
                let refusal = self.try_entry(field, &text, None);
                self.keep(field, Entry { text, refusal });
            }
            if self.refused().count() == before {
                self.retry_texts();
                return;
            }
        }
    }
}
