//! The link that could not be opened. It may be the only copy of somebody's design, made by a newer version or put right by adding
//! what was cut off, so it is kept until it is put away or another link is opened.

use super::State;

/// A link that could not be opened.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    /// What is wrong with it, in words for the reader.
    pub reason: String,
    /// What it has after the `#`, as it came.
    pub fragment: String,
    /// Whether the first example, opened in its place, is still what is shown or what was made of that.
    pub is_example_shown: bool,
}

impl Notice {
    /// About the link with `fragment`, just now.
    pub fn new(fragment: &str, reason: String) -> Self {
        let fragment = fragment.strip_prefix('#').unwrap_or(fragment).to_owned();
        Self { reason, fragment, is_example_shown: true }
    }
}

impl State {
    /// Another design is shown than the one opened in place of a link's.
    pub(super) fn outlive_notice(&mut self) {
        if let Some(notice) = &mut self.notice {
            notice.is_example_shown = false;
        }
    }
}
