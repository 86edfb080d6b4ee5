//! The one error of the crate: what is wrong with an input, where, and what is allowed.

use std::fmt;

/// One refused input.
///
/// `path` names the field as it stands in the document (`inner.layers[1].thickness_mm`), `message` says in one line
/// what is allowed and why. Checked types cannot fail afterwards, so this is the only error of the physics too.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FieldError {
    /// Where: field names joined by points, list positions in brackets; empty when the whole document is meant.
    pub path: String,
    /// What is allowed and why, in one line.
    pub message: String,
}

impl FieldError {
    /// An error at `path` with `message`.
    pub fn new(path: impl Into<String>, message: impl Into<String>) -> Self {
        Self { path: path.into(), message: message.into() }
    }

    /// The same one step further out: within `step`, a key or a position in brackets.
    #[must_use]
    pub(crate) fn within(mut self, step: &str) -> Self {
        let point = if self.path.is_empty() || self.path.starts_with('[') { "" } else { "." };
        self.path = format!("{step}{point}{}", self.path);
        self
    }
}

impl fmt::Display for FieldError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.path.is_empty() { write!(f, "{}", self.message) } else { write!(f, "{}: {}", self.path, self.message) }
    }
}

impl std::error::Error for FieldError {}
