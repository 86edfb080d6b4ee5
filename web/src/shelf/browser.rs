//! What the browser itself has for kept designs: its store, its clock, its chance, dates as people write them.

use gloo::utils::{document, window};
use js_sys::{Date, JsString, Math, Object, Reflect};
use wasm_bindgen::prelude::*;
use web_sys::Storage;

use super::handling::{Hand, Links};
use super::markup::Writing;
use super::{Fault, Record, Store, all};

/// 2^53: whole numbers up to it are exact.
const WHOLE: f64 = 9_007_199_254_740_992.0;

/// What the browser keeps for the page until somebody deletes it.
pub struct Local;

impl Local {
    fn storage() -> Result<Storage, Fault> {
        window().local_storage().ok().flatten().ok_or(Fault::Forbidden)
    }
}

/// What a refusal of the browser means. Names: HTML standard, section 12.2, and what Firefox has in its place.
#[allow(clippy::needless_pass_by_value)]
fn fault(error: JsValue) -> Fault {
    let name = Reflect::get(&error, &"name".into()).ok().and_then(|name| name.as_string()).unwrap_or_default();
    if name == "QuotaExceededError" || name == "NS_ERROR_DOM_QUOTA_REACHED" { Fault::Full } else { Fault::Forbidden }
}

impl Store for Local {
    fn keys(&self) -> Result<Vec<String>, Fault> {
        let storage = Self::storage()?;
        let count = storage.length().map_err(fault)?;
        // Another tab may delete one while they are counted.
        (0..count).filter_map(|k| storage.key(k).map_err(fault).transpose()).collect()
    }

    fn read(&self, key: &str) -> Result<Option<String>, Fault> {
        Self::storage()?.get_item(key).map_err(fault)
    }

    fn write(&self, key: &str, text: &str) -> Result<(), Fault> {
        Self::storage()?.set_item(key, text).map_err(fault)
    }

    fn remove(&self, key: &str) -> Result<(), Fault> {
        Self::storage()?.remove_item(key).map_err(fault)
    }
}

/// The hand of this browser, for one thing to be done.
pub fn hand(links: &dyn Links) -> Hand<'_> {
    Hand { store: &Local, links, now_ms: Date::now(), nonce: (Math::random() * WHOLE) as u64 }
}

/// All kept designs whose records can be read, newest first. Whether a fragment can be opened the engine says.
///
/// # Errors
/// Why the browser keeps nothing.
pub fn kept_designs() -> Result<Vec<Record>, Fault> {
    let mut kept: Vec<Record> = Vec::new();
    for record in all(&Local)?.into_iter().filter_map(|(_, text)| Record::read(&text).ok()) {
        let place = kept.partition_point(|other| other.saved_ms >= record.saved_ms);
        kept.insert(place, record);
    }
    Ok(kept)
}

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_name = Date)]
    type ShownDate;

    #[wasm_bindgen(constructor, js_class = "Date")]
    fn new(ms: f64) -> ShownDate;

    #[wasm_bindgen(method, catch, js_name = toLocaleString)]
    fn in_words(this: &ShownDate, language: &str, options: &Object) -> Result<String, JsValue>;
}

/// Times and small letters of the page's language.
pub const WRITING: Writing = Writing { date: date_words, small: |text| JsString::from(text).to_lower_case().into() };

/// A time in ms since 1970 as the page's language writes date and time; as ISO 8601 does, in UTC, where the browser cannot.
fn date_words(ms: f64) -> String {
    let options = Object::new();
    for (key, length) in [("dateStyle", "medium"), ("timeStyle", "short")] {
        // Fails only on what is no object.
        let _ = Reflect::set(&options, &key.into(), &length.into());
    }
    let language = document().document_element().and_then(|page| page.get_attribute("lang")).unwrap_or_default();
    ShownDate::new(ms).in_words(&language, &options).unwrap_or_else(|_| {
        let iso = String::from(Date::new(&ms.into()).to_iso_string());
        let minutes = iso.get(..16).unwrap_or(&iso);
        format!("{} UTC", minutes.replace('T', " "))
    })
}
