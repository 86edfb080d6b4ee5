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

/// Most characters of a path or a message: a document may quote a whole book as a key.
const LONGEST: usize = 500;

impl FieldError {
    /// An error at `path` with `message`. Both may repeat what a stranger wrote: characters that turn or break lines are left
    /// out, and what is too long is cut.
    pub fn new(path: impl Into<String>, message: impl Into<String>) -> Self {
        Self { path: harmless(&path.into(), LONGEST), message: harmless(&message.into(), LONGEST) }
    }

    /// The same one step further out: within `step`, a key or a position in brackets.
    #[must_use]
    pub(crate) fn within(self, step: &str) -> Self {
        let point = if self.path.is_empty() || self.path.starts_with('[') { "" } else { "." };
        Self::new(format!("{step}{point}{}", self.path), self.message)
    }
}

/// Characters that have no shape but change how others are shown: in a link from a stranger they could disguise what it says.
pub(crate) fn turns_text(character: char) -> bool {
    character.is_control()
        || matches!(character, '\u{61C}' | '\u{200E}' | '\u{200F}' | '\u{2028}'..='\u{202E}' | '\u{2066}'..='\u{2069}')
}

/// `text` without such characters, cut after `longest` others.
pub(crate) fn harmless(text: &str, longest: usize) -> String {
    let mut rest = text.chars().filter(|&character| !turns_text(character));
    let mut short: String = rest.by_ref().take(longest).collect();
    if rest.next().is_some() {
        short.push('…');
    }
    short
}

impl fmt::Display for FieldError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.path.is_empty() { write!(f, "{}", self.message) } else { write!(f, "{}: {}", self.path, self.message) }
    }
}

impl std::error::Error for FieldError {}

#[cfg(test)]
mod tests {
    use super::*;

    /// However an error is put together.
    #[test]
    fn what_a_stranger_wrote_is_short_and_turns_nothing() {
        let long = format!("\u{202E}{}\n", "x".repeat(3 * LONGEST));
        for error in [FieldError::new(&*long, &*long), FieldError::new("", &*long).within(&long).within(&long)] {
            for text in [&error.path, &error.message] {
                assert!(text.chars().count() == LONGEST + 1 && text.ends_with("x…") && text.starts_with('x'), "{text:?}");
            }
        }
        assert_eq!(FieldError::new("[2].b", "so").within("a").to_string(), "a[2].b: so");
    }
}
