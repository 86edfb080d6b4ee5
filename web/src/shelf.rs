//! Designs kept on this device: each a record of its own under a key of its own, so that two tabs share no list that one of them
//! could overwrite for the other.
//!
//! A record is changed only by who has seen it as it is: every change names the stamp of the record that it takes the place of.
//! Between looking and writing a browser holds nothing back, so two tabs that save the same record within the same millisecond may
//! still both succeed, the later one for good.
//!
//! What is done with them and how the list looks ([`handling`], [`markup`]) is part of the workshop's program, which nobody waits for; the
//! page asks it ([`exchange`]), and the engine opens the links.

pub mod browser;
pub mod engine;
pub mod exchange;
pub mod handling;
mod item;
pub mod lasting;
pub mod markup;
mod record;

pub use record::{Record, Unread};

/// How the keys of kept designs begin.
pub const KEY: &str = "hushwright-kept-";

/// Why a browser does not keep something.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// It does not let the page keep anything.
    Forbidden,
    /// What it lets the page keep is used up.
    Full,
}

/// What keeps texts under keys, for all tabs of a browser.
pub trait Store {
    /// All keys, in any order.
    ///
    /// # Errors
    /// What the browser refuses.
    fn keys(&self) -> Result<Vec<String>, Fault>;

    /// The text under `key`, if there is one.
    ///
    /// # Errors
    /// What the browser refuses.
    fn read(&self, key: &str) -> Result<Option<String>, Fault>;

    /// Keeps `text` under `key`, in place of what is there; what is there stays where that is refused.
    ///
    /// # Errors
    /// What the browser refuses.
    fn write(&self, key: &str, text: &str) -> Result<(), Fault>;

    /// Keeps nothing under `key` any more.
    ///
    /// # Errors
    /// What the browser refuses.
    fn remove(&self, key: &str) -> Result<(), Fault>;
}

/// Why a change was not made; nothing has changed then.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// The browser does not keep it.
    Fault(Fault),
    /// Another record is there than the one that was seen.
    Changed,
    /// The record that was seen is there no more.
    Gone,
}

impl From<Fault> for Refusal {
    fn from(fault: Fault) -> Self {
        Self::Fault(fault)
    }
}

/// A change that was made, and can be taken back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// The key of the record.
    pub key: String,
    /// What was there before.
    pub before: Option<String>,
    /// What has been there since.
    pub after: Option<String>,
}

/// All that is kept, as key and text, in any order.
///
/// # Errors
/// What the browser refuses.
pub fn all(store: &dyn Store) -> Result<Vec<(String, String)>, Fault> {
    let mut kept = Vec::new();
    for key in store.keys()? {
        // Between both calls another tab may have deleted it.
        if key.starts_with(KEY)
            && let Some(text) = store.read(&key)?
        {
            kept.push((key, text));
        }
    }
    Ok(kept)
}

/// What tells a record from every other that is or was under its key: its stamp, or all of it where it cannot be read.
pub fn stamp(text: &str) -> &str {
    record::stamp(text).unwrap_or(text)
}

/// Puts `text` under `key`, or nothing, if what is there is what was `seen`: the record with this stamp, or nothing.
///
/// # Errors
/// Why nothing was changed.
pub fn put(store: &dyn Store, key: &str, seen: Option<&str>, text: Option<String>) -> Result<Change, Refusal> {
    let before = store.read(key)?;
    match (seen, before.as_deref().map(stamp)) {
        (Some(_), None) => return Err(Refusal::Gone),
        (seen, there) if seen != there => return Err(Refusal::Changed),
        _ => {}
    }
    match &text {
        Some(text) => store.write(key, text)?,
        None => store.remove(key)?,
    }
    Ok(Change { key: key.to_owned(), before, after: text })
}

/// Takes a change back, if nobody has made another one since.
///
/// # Errors
/// Why it stays.
pub fn take_back(store: &dyn Store, change: &Change) -> Result<Change, Refusal> {
    put(store, &change.key, change.after.as_deref().map(stamp), change.before.clone())
}

#[cfg(test)]
#[path = "shelf/fake.rs"]
pub mod fake;

#[cfg(test)]
mod tests {
    use super::fake::Fake;
    use super::*;

    fn text(stamp: &str, name: &str) -> String {
        Record { stamp: stamp.to_owned(), saved_ms: 1.0, fragment: "v1.e30.00000000".to_owned(), name: name.to_owned() }.write()
    }

    #[test]
    fn a_record_is_changed_only_by_who_has_seen_it_as_it_is() {
        let store = Fake::default();
        let key = format!("{KEY}a");
        put(&store, &key, None, Some(text("1", "one"))).unwrap();
        assert_eq!(put(&store, &key, None, Some(text("2", "two"))), Err(Refusal::Changed), "there is one already");
        assert_eq!(put(&store, &key, Some("0"), Some(text("2", "two"))), Err(Refusal::Changed));
        assert_eq!(put(&store, &key, Some("0"), None), Err(Refusal::Changed), "nor is it deleted");
        assert_eq!(store.read(&key), Ok(Some(text("1", "one"))));
        let change = put(&store, &key, Some("1"), Some(text("2", "two"))).unwrap();
        assert_eq!(store.read(&key), Ok(Some(text("2", "two"))));
        take_back(&store, &change).unwrap();
        assert_eq!(store.read(&key), Ok(Some(text("1", "one"))));
        let change = put(&store, &key, Some("1"), None).unwrap();
        assert_eq!(put(&store, &key, Some("1"), Some(text("3", "three"))), Err(Refusal::Gone));
        take_back(&store, &change).unwrap();
        assert_eq!(all(&store), Ok(vec![(key.clone(), text("1", "one"))]));
        assert_eq!(take_back(&store, &change), Err(Refusal::Changed), "once is enough");
    }

    #[test]
    fn a_record_that_cannot_be_read_is_told_from_others_by_all_of_it() {
        let store = Fake::default();
        let key = format!("{KEY}a");
        store.write(&key, "7\u{1f}what later versions keep").unwrap();
        assert_eq!(put(&store, &key, Some("7"), None), Err(Refusal::Changed));
        put(&store, &key, Some("7\u{1f}what later versions keep"), None).unwrap();
        assert_eq!(all(&store), Ok(Vec::new()));
    }

    #[test]
    fn what_is_refused_changes_nothing() {
        let store = Fake::default();
        let key = format!("{KEY}a");
        put(&store, &key, None, Some(text("1", "one"))).unwrap();
        store.fail(Some(Fault::Full));
        assert_eq!(put(&store, &key, Some("1"), Some(text("2", "two"))), Err(Refusal::Fault(Fault::Full)));
        assert_eq!(store.read(&key), Ok(Some(text("1", "one"))));
        put(&store, &key, Some("1"), None).expect("a full store can be emptied");
        store.fail(Some(Fault::Forbidden));
        assert_eq!(all(&store), Err(Fault::Forbidden));
        assert_eq!(put(&store, &key, None, Some(text("2", "two"))), Err(Refusal::Fault(Fault::Forbidden)));
    }

    #[test]
    fn only_kept_designs_are_looked_at() {
        let store = Fake::default();
        for key in ["hushwright-units", "other", "hushwright-kept", ""] {
            store.write(key, "metric").unwrap();
        }
        assert_eq!(all(&store), Ok(Vec::new()));
    }
}
