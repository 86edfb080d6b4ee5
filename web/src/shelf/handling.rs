//! What can be done with the kept designs, and what is said of it; whatever a change would do unseen is asked first.

use std::rc::Rc;

use hushwright::design::limits;
use serde::{Deserialize, Serialize};

pub use super::item::{Item, Links, Present};
use super::{Change, Fault, KEY, Record, Refusal, Store, all, put, take_back};

/// Between the parts of what a tab remembers.
const PART: char = '\u{1f}';

/// What brings back what was deleted.
pub const PUT_BACK: &str = "Put back";

/// What follows for the design on the page.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Deed {
    /// It gives way to the one that this link carries.
    Open(String),
    /// It gets this name.
    Rename(String),
}

/// What everything is done with.
pub struct Hand<'a> {
    /// Where records lie.
    pub store: &'a dyn Store,
    /// Who opens them.
    pub links: &'a dyn Links,
    /// The present, in ms since 1970.
    pub now_ms: f64,
    /// A number that comes only once.
    pub nonce: u64,
}

/// The kept design that was opened or saved last in this tab.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Opened {
    key: String,
    stamp: String,
    name: String,
}

/// How the present design stands to what is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It is not kept.
    Nowhere,
    /// It is kept under this name.
    Kept(String),
    /// It differs from the one of this name that was opened here.
    Differs(String),
    /// The one that was opened here has been changed elsewhere since.
    ChangedElsewhere(String),
    /// The one that was opened here has been deleted elsewhere since.
    GoneElsewhere(String),
}

/// What has to be known before a design is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    /// What stands in the way.
    pub words: String,
    /// What replaces what is there, or keeps anew what is gone.
    pub replace: &'static str,
    /// The name under which both can be kept, where there are two.
    pub other_name: Option<String>,
    key: String,
    seen: Option<String>,
}

/// What is said of what was done last.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Said {
    /// The words.
    pub words: String,
    /// Whether it was not done.
    pub failed: bool,
    /// What can be taken back.
    undo: Option<Change>,
}

/// The kept designs and what is being done with them.
#[derive(Clone, Debug, Default)]
pub struct Shelf {
    items: Vec<Rc<Item>>,
    fault: Option<Fault>,
    opened: Option<Opened>,
    question: Option<Question>,
    said: Said,
    /// The key of what is being given another name.
    renamed: Option<String>,
}

impl Shelf {
    /// The shelf of a tab that `remembers` what [`Shelf::memory`] said.
    pub fn new(remembers: &str, hand: &Hand) -> Self {
        let mut parts = remembers.splitn(3, PART).map(str::to_owned);
        let opened = parts.next().zip(parts.next()).zip(parts.next());
        let opened = opened.map(|((key, stamp), name)| Opened { key, stamp, name });
        let mut shelf = Self { opened, ..Self::default() };
        shelf.refresh(hand);
        shelf
    }

    /// What a tab has to remember.
    pub fn memory(&self) -> String {
        let Some(Opened { key, stamp, name }) = &self.opened else { return String::new() };
        format!("{key}{PART}{stamp}{PART}{name}")
    }

    /// All that is kept, newest first, what cannot be read last.
    pub fn items(&self) -> &[Rc<Item>] {
        &self.items
    }

    /// Why nothing can be kept.
    pub const fn fault(&self) -> Option<Fault> {
        self.fault
    }

    /// What is being asked.
    pub const fn question(&self) -> Option<&Question> {
        self.question.as_ref()
    }

    /// Whether item `k` is being given another name.
    pub fn is_renamed(&self, k: usize) -> bool {
        self.renamed.is_some() && self.items.get(k).map(|item| &item.key) == self.renamed.as_ref()
    }

    /// What is said of what was done last.
    pub const fn said(&self) -> &Said {
        &self.said
    }

    /// What takes back what was done last, where that can be.
    pub fn undo_words(&self) -> Option<&'static str> {
        self.said.undo.as_ref().map(|change| if change.after.is_none() { PUT_BACK } else { "Take back" })
    }

    /// Looks at what is kept by now.
    pub fn refresh(&mut self, hand: &Hand) {
        let before = std::mem::take(&mut self.items);
        let kept = all(hand.store);
        self.fault = kept.as_ref().err().copied();
        for (key, text) in kept.unwrap_or_default() {
            // To open a design takes longer than to see that it is the same.
            let same = before.iter().find(|item| item.key == key && item.text == text).cloned();
            let item = same.unwrap_or_else(|| Rc::new(Item::new(key, text, hand.links)));
            let place = self.items.partition_point(|other| other.comes_before(&item));
            self.items.insert(place, item);
        }
    }

    fn opened_item(&self) -> Option<&Rc<Item>> {
        let opened = self.opened.as_ref()?;
        self.items.iter().find(|item| item.key == opened.key)
    }

    /// How the present design stands to what is kept.
    pub fn standing(&self, present: Present) -> Standing {
        let holder = self.opened_item().filter(|item| item.holds(present));
        if let Some(item) = holder.or_else(|| self.items.iter().find(|item| item.holds(present))) {
            return Standing::Kept(item.name.clone());
        }
        let Some(opened) = &self.opened else { return Standing::Nowhere };
        match self.opened_item() {
            None => Standing::GoneElsewhere(opened.name.clone()),
            Some(item) if item.stamp() != opened.stamp => Standing::ChangedElsewhere(opened.name.clone()),
            Some(item) => Standing::Differs(item.name.clone()),
        }
    }

    /// Goes on from the kept design that the present one is, by whichever way it has come: changes are changes of that one.
    pub fn adopt(&mut self, present: Present) {
        if self.opened_item().is_none_or(|item| !item.holds(present))
            && let Some(item) = self.items.iter().find(|item| item.holds(present))
        {
            let (key, stamp, name) = (item.key.clone(), item.stamp().to_owned(), item.name.clone());
            self.opened = Some(Opened { key, stamp, name });
        }
    }

    /// Does what a button with this key asks, on item `k` where it is about one; `typed` is the name that stands in the field.
    pub fn perform(&mut self, key: &str, k: usize, typed: &str, present: Present, hand: &Hand) -> Option<Deed> {
        match key {
            "keep" => self.keep(present, hand),
            "save" => self.save(present, hand),
            "replace" => self.replace(present, hand),
            "both" => return self.keep_both(present, hand),
            "leave" => (self.question, self.renamed) = (None, None),
            "open" => return self.open(k),
            "rename" => self.renamed = self.items.get(k).map(|item| item.key.clone()),
            "name" => return self.rename(k, typed, present, hand),
            "delete" => self.delete(k, hand),
            "undo" => self.undo(hand),
            _ => {}
        }
        None
    }

    /// The place in the list of the record under `key`, if it is there.
    pub fn place(&self, key: &str) -> Option<usize> {
        self.items.iter().position(|item| item.key == key)
    }

    /// Says that what something was to be done to is gone.
    pub fn miss(&mut self, hand: &Hand) {
        self.begin(hand);
        "That design is kept no longer: another tab has deleted it.".clone_into(&mut self.said.words);
        self.said.failed = true;
    }

    /// Keeps the present design under its name.
    pub fn keep(&mut self, present: Present, hand: &Hand) {
        self.begin(hand);
        if let Standing::Kept(name) = self.standing(present) {
            self.said.words = format!("It is kept already, as {}.", quoted(&name));
            return;
        }
        let name = present.name;
        match self.items.iter().find(|item| item.design.is_ok() && item.name.trim() == name.trim()) {
            Some(item) => {
                let (key, seen) = (item.key.clone(), Some(item.stamp().to_owned()));
                self.ask(format!("{} is kept already.", quoted(name)), "Replace that one", (key, seen), Some(name));
            }
            None => self.write(new_key(hand), None, present, hand),
        }
    }

    /// Saves the present design in place of the one that was opened.
    pub fn save(&mut self, present: Present, hand: &Hand) {
        self.begin(hand);
        if let Some(Opened { key, stamp, .. }) = self.opened.clone() {
            self.write(key, Some(&stamp), present, hand);
        }
    }

    /// The answer to what is asked: what is there is replaced, or what is gone is kept anew.
    pub fn replace(&mut self, present: Present, hand: &Hand) {
        let question = self.question.take();
        self.begin(hand);
        if let Some(Question { key, seen, .. }) = question {
            self.write(key, seen.as_deref(), present, hand);
        }
    }

    /// The answer to what is asked: both are kept, the present design under another name, which it has on the page too then.
    pub fn keep_both(&mut self, present: Present, hand: &Hand) -> Option<Deed> {
        let name = self.question.take()?.other_name?;
        self.begin(hand);
        let fragment = self.renamed_fragment(present.fragment, &name, hand)?;
        self.write(new_key(hand), None, Present { name: &name, fragment: &fragment, ..present }, hand);
        (!self.said.failed).then_some(Deed::Rename(name))
    }

    /// Opens item `k`.
    pub fn open(&mut self, k: usize) -> Option<Deed> {
        self.clear();
        let item = self.items.get(k)?;
        item.design.as_ref().ok()?;
        let fragment = item.fragment.clone();
        let (key, stamp, name) = (item.key.clone(), item.stamp().to_owned(), item.name.clone());
        self.said.words = format!("{} is open. Undo brings back what was there before.", quoted(&name));
        self.opened = Some(Opened { key, stamp, name });
        Some(Deed::Open(fragment))
    }

    /// Gives item `k` another name; the present design too, if it is the same.
    pub fn rename(&mut self, k: usize, name: &str, present: Present, hand: &Hand) -> Option<Deed> {
        self.clear();
        let item = self.items.get(k)?.clone();
        item.design.as_ref().ok()?;
        let name = name.trim().to_owned();
        let fragment = self.renamed_fragment(&item.fragment, &name, hand)?;
        let record =
            Record { stamp: new_stamp(hand), saved_ms: item.saved_ms.unwrap_or(hand.now_ms), fragment, name: name.clone() };
        let was_opened = self.opened.as_ref().is_some_and(|opened| opened.key == item.key && opened.stamp == item.stamp());
        let done = format!("{} is now called {}.", quoted(&item.name), quoted(&name));
        let made = self.make(&item.key, Some(item.stamp()), Some(record.write()), done, hand);
        self.renamed = None;
        if made && was_opened {
            self.opened = Some(Opened { key: item.key.clone(), stamp: record.stamp, name: record.name });
        }
        (made && item.holds(present)).then_some(Deed::Rename(name))
    }

    /// Deletes item `k`, which can be put back.
    pub fn delete(&mut self, k: usize, hand: &Hand) {
        self.clear();
        let Some(item) = self.items.get(k).cloned() else { return };
        let what = if item.saved_ms.is_some() { quoted(&item.name) } else { "What could not be read".to_owned() };
        let made = self.make(&item.key, Some(item.stamp()), None, format!("{what} is deleted."), hand);
        if made && self.opened.as_ref().is_some_and(|opened| opened.key == item.key) {
            self.opened = None;
        }
    }

    /// Takes back what was done last.
    pub fn undo(&mut self, hand: &Hand) {
        let Some(change) = self.said.undo.take() else { return };
        self.clear();
        match take_back(hand.store, &change) {
            Ok(_) => {
                if let (Some(opened), Some(before)) = (&mut self.opened, &change.before)
                    && opened.key == change.key
                    && let Ok(record) = Record::read(before)
                {
                    (opened.stamp, opened.name) = (record.stamp, record.name);
                } else if change.before.is_none() {
                    self.opened = self.opened.take().filter(|opened| opened.key != change.key);
                }
                let words = if change.after.is_none() { "It is back." } else { "It is as it was before." };
                self.said = Said { words: words.to_owned(), ..Said::default() };
            }
            Err(refusal) => {
                self.fail(refusal);
                // What was deleted is nowhere else: another try may find room.
                self.said.undo = change.after.is_none().then_some(change);
            }
        }
        self.refresh(hand);
    }

    /// What was said and asked before is over.
    fn clear(&mut self) {
        (self.question, self.said) = (None, Said::default());
    }

    fn begin(&mut self, hand: &Hand) {
        self.clear();
        self.refresh(hand);
    }

    /// Asks whether what is under a key, as it was seen, is to be replaced. With a name for the present design both can be kept.
    fn ask(&mut self, words: String, replace: &'static str, (key, seen): (String, Option<String>), name: Option<&str>) {
        let other_name = name.map(|name| free_name(name, |taken| self.items.iter().any(|item| item.name.trim() == taken)));
        self.question = Some(Question { words, replace, other_name, key, seen });
    }

    /// Writes the present design under a key where what is there is what was seen, and else asks.
    fn write(&mut self, key: String, seen: Option<&str>, present: Present, hand: &Hand) {
        let name = present.name.to_owned();
        let record =
            Record { stamp: new_stamp(hand), saved_ms: hand.now_ms, fragment: present.fragment.to_owned(), name: name.clone() };
        match put(hand.store, &key, seen, Some(record.write())) {
            Ok(change) => {
                self.said.words = format!("{} is kept.", quoted(&name));
                // What is new is deleted by its own button.
                self.said.undo = change.before.is_some().then_some(change);
                self.opened = Some(Opened { key, stamp: record.stamp, name });
                self.refresh(hand);
            }
            Err(Refusal::Fault(fault)) => self.fail(fault.into()),
            Err(refusal) => {
                self.refresh(hand);
                let there = self.items.iter().find(|item| item.key == key);
                let kept_name = self.opened.as_ref().filter(|opened| opened.key == key).map_or(&*name, |opened| &*opened.name);
                let what = quoted(there.map_or(kept_name, |item| &*item.name));
                let seen = there.map(|item| item.stamp().to_owned());
                if refusal == Refusal::Gone {
                    let words = format!("{what} has been deleted in another tab or window. Nothing has been saved.");
                    self.ask(words, "Keep it again", (key, seen), None);
                } else {
                    let words = format!(
                        "{what} has been changed in another tab or window since it was opened here. Nothing has been saved over it."
                    );
                    self.ask(words, "Replace it all the same", (key, seen), Some(&name));
                }
            }
        }
    }

    /// Changes what is under `key` and says so; says whether it was made.
    fn make(&mut self, key: &str, seen: Option<&str>, text: Option<String>, done: String, hand: &Hand) -> bool {
        let made = put(hand.store, key, seen, text);
        let is_made = made.is_ok();
        match made {
            Ok(change) => self.said = Said { words: done, failed: false, undo: Some(change) },
            Err(refusal) => self.fail(refusal),
        }
        self.refresh(hand);
        is_made
    }

    fn fail(&mut self, refusal: Refusal) {
        let words = match refusal {
            Refusal::Fault(Fault::Full) => {
                "The browser gives this page no more room, so nothing was saved; what is kept is as it was. Save the design as a \
                 file or copy its link, or delete something here that is no longer needed."
            }
            Refusal::Fault(Fault::Forbidden) => FORBIDDEN,
            Refusal::Changed => {
                "It has been changed in another tab or window meanwhile, so nothing was done. The list shows it as it is now."
            }
            Refusal::Gone => "It has been deleted in another tab or window meanwhile, so nothing was done.",
        };
        self.said = Said { words: words.to_owned(), failed: true, undo: None };
    }

    /// The fragment under another name; what is wrong with that is said.
    fn renamed_fragment(&mut self, fragment: &str, name: &str, hand: &Hand) -> Option<String> {
        hand.links.renamed(fragment, name).map_err(|words| self.said = Said { words, failed: true, undo: None }).ok()
    }
}

/// What is said where a browser does not let the page keep anything.
pub const FORBIDDEN: &str = "This browser does not let the page keep anything, as where cookies and data of sites are blocked. Save the \
                             design as a file or copy its link: the whole design is in either.";

/// A name in a sentence.
pub fn quoted(name: &str) -> String {
    let name = name.trim();
    format!("“{}”", if name.is_empty() { "no name" } else { name })
}

fn new_stamp(hand: &Hand) -> String {
    format!("{:x}", hand.nonce)
}

fn new_key(hand: &Hand) -> String {
    format!("{KEY}{:x}", hand.nonce)
}

/// `name` if it is not taken, else with the first number from 2 on that makes it one that is not.
fn free_name(name: &str, is_taken: impl Fn(&str) -> bool) -> String {
    let name = name.trim();
    if !is_taken(name) {
        return name.to_owned();
    }
    let numbered = name.rsplit_once(' ').filter(|(_, number)| number.bytes().all(|byte| byte.is_ascii_digit()));
    let stem = numbered.map_or(name, |(stem, _)| stem);
    let mut number = 2;
    loop {
        let ending = format!(" {number}");
        let stem: String = stem.chars().take(limits::NAME_CHARACTERS - ending.len()).collect();
        let free = (stem.trim_end().to_owned() + &ending).trim_start().to_owned();
        if !is_taken(&free) {
            return free;
        }
        number += 1;
    }
}

#[cfg(all(test, not(target_arch = "wasm32")))]
#[path = "handling_tests.rs"]
mod tests;
