//! Numbers as they are typed: in the design where that takes them, else beside it with the reason.

use std::rc::Rc;

use super::{State, Step};
use crate::fields::Field;
use crate::quantity::Units;

/// What a field holds that a person has typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The text as typed.
    pub text: String,
    /// Why it is not in the design, if it is not.
    pub refusal: Option<String>,
}

impl State {
    /// What the field holds, if it was typed.
    pub fn entry(&self, field: Field) -> Option<&Entry> {
        self.entries.iter().find(|(own, _)| *own == field).map(|(_, entry)| entry)
    }

    /// Keeps what a field holds, in place of what it held.
    pub(super) fn keep(&mut self, field: Field, entry: Entry) {
        self.entries.retain(|(own, _)| *own != field);
        self.entries.push((field, entry));
    }

    pub(super) fn enter(&mut self, field: Field, text: String) {
        // What was typed last is meant, of two fields for one number.
        self.entries.retain(|(own, _)| Some(*own) != field.twin());
        let refusal = self.try_entry(field, &text, Some(Step::Number(field)));
        let accepted = refusal.is_none();
        self.keep(field, Entry { text, refusal });
        if accepted {
            self.retry();
        }
    }

    /// Where what is typed is refused, the design goes back to what it was before: 7 on the way to a refused 70 is no answer. One that
    /// stood for a while is, see [`super::Action::Rest`].
    pub(super) fn forget_half_typed(&mut self, field: Field) {
        if self.entry(field).is_some_and(|entry| entry.refusal.is_some()) {
            self.take_back(&Step::Number(field));
        }
    }

    /// Whether a number that has just been typed is in the design.
    pub fn is_typed(&self) -> bool {
        self.entries.iter().any(|(_, entry)| entry.refusal.is_none())
    }

    /// Puts what was typed into the design if it passes, else says why not.
    pub(super) fn try_entry(&mut self, field: Field, text: &str, step: Option<Step>) -> Option<String> {
        let read = field.quantity().read(text, self.units);
        let mut candidate = (**self.design()).clone();
        if !field.set(&mut candidate, read.unwrap_or(f64::NAN)) {
            return None; // the part that the field belonged to is gone
        }
        let candidate = Rc::new(candidate);
        let Err(errors) = self.take(&candidate, step) else { return None };
        let message = self.why_refused_at(&errors, &field.path(), &candidate, Some(field));
        Some(match read {
            Some(_) => message,
            None if text.trim().is_empty() => format!("A number belongs here. {message}"),
            None => format!("This is not a number. {message}"),
        })
    }

    /// Another system of units; what was refused is shown in it, and is still refused.
    pub(super) fn set_units(&mut self, units: Units) {
        let before = std::mem::replace(&mut self.units, units);
        for (field, entry) in std::mem::take(&mut self.entries) {
            if entry.refusal.is_some() {
                let read = field.quantity().read(&entry.text, before);
                let text = read.map_or(entry.text, |value| field.quantity().write(value, units));
                let refusal = self.try_entry(field, &text, None);
                self.keep(field, Entry { text, refusal });
            }
        }
        self.convert_own(before);
    }
}
