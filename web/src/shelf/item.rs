//! Something that is kept, as the list has it: its record, and the design in it or why there is none.

use hushwright::design::Design;

use super::{Record, Unread, stamp};

/// What is said of what another build of the page has written.
const NEWER: &str = "It was kept by a newer version of this page. Load the page again to get that version.";

/// Who knows links.
pub trait Links {
    /// The design that a link carries, as [`Design::to_bytes`] writes it; it has passed its check.
    ///
    /// # Errors
    /// Says in words for the reader what is wrong with the link.
    fn open(&self, fragment: &str) -> Result<Vec<u8>, String>;

    /// The fragment of the link that carries the same design under another name.
    ///
    /// # Errors
    /// Says in words for the reader what is wrong with that name.
    fn renamed(&self, fragment: &str, name: &str) -> Result<String, String>;
}

/// The design on the page.
#[derive(Clone, Copy)]
pub struct Present<'a> {
    /// What it is called.
    pub name: &'a str,
    /// The design as [`Design::to_bytes`] writes it.
    pub packed: &'a [u8],
    /// The fragment of the link that carries it.
    pub fragment: &'a str,
}

/// Something that is kept, as the list has it.
#[derive(Debug)]
pub struct Item {
    pub(super) key: String,
    pub(super) text: String,
    /// What it is called; empty where that cannot be read.
    pub name: String,
    /// When it was saved, in ms since 1970; none where that cannot be read.
    pub saved_ms: Option<f64>,
    pub(super) fragment: String,
    pub(super) packed: Vec<u8>,
    /// The design, or why there is none.
    pub design: Result<Design, String>,
}

impl Item {
    pub(super) fn new(key: String, text: String, links: &dyn Links) -> Self {
        let mut item = Self {
            key,
            text,
            name: String::new(),
            saved_ms: None,
            fragment: String::new(),
            packed: Vec::new(),
            design: Err(String::new()),
        };
        match Record::read(&item.text) {
            Ok(Record { saved_ms, fragment, name, .. }) => {
                (item.name, item.saved_ms, item.fragment) = (name, Some(saved_ms), fragment);
                let opened = links.open(&item.fragment).map_err(|why| format!("The link in it cannot be opened. {why}"));
                item.design = opened.and_then(|packed| {
                    item.packed = packed;
                    Design::from_bytes(&item.packed).ok_or_else(|| NEWER.to_owned())
                });
            }
            Err(Unread::Newer) => item.design = Err(NEWER.to_owned()),
            Err(Unread::Broken) => {
                item.design = Err("It cannot be read: it is damaged, or was not kept by this page.".to_owned());
            }
        }
        item
    }

    /// The key under which it lies.
    pub fn key(&self) -> &str {
        &self.key
    }

    /// Newer ones come first, those without a time last, those of one time by their keys.
    pub(super) fn comes_before(&self, other: &Self) -> bool {
        let [own, others] = [self, other].map(|item| item.saved_ms.unwrap_or(-1.0));
        own > others || own >= others && self.key <= other.key
    }

    pub(super) fn stamp(&self) -> &str {
        stamp(&self.text)
    }

    /// Whether it holds the present design. Numbers of more than 15 digits may differ in the last place once they have been in a
    /// link; their link does not.
    pub fn holds(&self, present: Present) -> bool {
        self.fragment == present.fragment || self.packed == present.packed
    }
}
