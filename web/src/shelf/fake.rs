//! A store as browsers have it, for tests: what it refuses can be chosen.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;

use super::exchange::renamed;
use super::handling::Links;
use super::{Fault, Store};
use crate::model::{Core, Model};

/// Texts under keys, seen by everybody who borrows it.
#[derive(Default)]
pub struct Fake {
    texts: RefCell<BTreeMap<String, String>>,
    fault: Cell<Option<Fault>>,
}

impl Fake {
    /// From now on it refuses what a store with this fault refuses.
    pub fn fail(&self, fault: Option<Fault>) {
        self.fault.set(fault);
    }

    fn is_allowed(&self) -> Result<(), Fault> {
        if self.fault.get() == Some(Fault::Forbidden) { Err(Fault::Forbidden) } else { Ok(()) }
    }
}

impl Store for Fake {
    fn keys(&self) -> Result<Vec<String>, Fault> {
        self.is_allowed()?;
        Ok(self.texts.borrow().keys().cloned().collect())
    }

    fn read(&self, key: &str) -> Result<Option<String>, Fault> {
        self.is_allowed()?;
        Ok(self.texts.borrow().get(key).cloned())
    }

    fn write(&self, key: &str, text: &str) -> Result<(), Fault> {
        if let Some(fault) = self.fault.get() {
            return Err(fault);
        }
        self.texts.borrow_mut().insert(key.to_owned(), text.to_owned());
        Ok(())
    }

    fn remove(&self, key: &str) -> Result<(), Fault> {
        self.is_allowed()?;
        self.texts.borrow_mut().remove(key);
        Ok(())
    }
}

/// The core itself, as page and engine have it.
impl Links for Core {
    fn open(&self, fragment: &str) -> Result<Vec<u8>, String> {
        Model::open(self, fragment).map(|design| design.to_bytes())
    }

    fn renamed(&self, fragment: &str, name: &str) -> Result<String, String> {
        renamed(self, Model::open(self, fragment)?, name)
    }
}
