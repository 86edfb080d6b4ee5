//! The file: a whole design as one JSON object (RFC 8259), for a disk, a message, another program.
//!
//! Its first key is the version, `"hushwright": 1`; the rest is the design document. A file written by hand may leave out what it
//! takes over from the first example, and the version too, which is then
//! that of today.

use serde_json::{Map, Value};

use super::document::Design;
use super::version::{CURRENT, VERSIONS, upgrade};
use crate::json;
use crate::mapping::{self, Held};

/// Longest text that is looked at, in bytes: several times the largest design.
pub const LONGEST: usize = 200_000;

/// The key of the version.
const VERSION_KEY: &str = "hushwright";

/// The text of a file that holds `design`.
///
/// # Panics
/// Never: a design always serialises.
pub fn write(design: &Design) -> String {
    let mut object = Map::new();
    object.insert(VERSION_KEY.to_owned(), CURRENT.into());
    if let Value::Object(document) = design.write() {
        object.extend(document);
    }
    let mut text = serde_json::to_string_pretty(&object).expect("a design always serialises");
    text.push('\n');
    text
}

/// The design in the text of a file; it has passed its check.
///
/// # Errors
/// Says in words for the reader what is wrong, with the field where there is one.
pub fn read(text: &str) -> Result<Design, String> {
    if text.len() > LONGEST {
        return Err(format!("The file is larger than any design can be ({} kB).", LONGEST / 1000));
    }
    // Some editors put a mark of the byte order in front.
    let text = text.trim_start_matches('\u{FEFF}');
    let mut document = json::parse_value(text).map_err(|error| format!("This is no file of a design. {error}"))?;
    let number = match document.as_object_mut().and_then(|object| object.shift_remove(VERSION_KEY)) {
        None => CURRENT,
        Some(number) => number
            .as_u64()
            .filter(|number| *number > 0)
            .ok_or_else(|| format!("The version of the file, {VERSION_KEY}, has to be a whole number from 1 to {CURRENT}."))?,
    };
    if number > CURRENT {
        return Err(format!(
            "The file was made by a newer version of Hushwright than this one: it is of version {number}, and this page reads up to \
             {CURRENT}."
        ));
    }
    upgrade(&mut document, number, VERSIONS);
    let refused = |reason: String| format!("The design in the file cannot be used. {reason}");
    let design = mapping::from_value::<Design>(&document).map_err(|error| refused(error.to_string()))?;
    match design.check() {
        Ok(_) => Ok(design),
        Err(errors) => Err(refused(errors.first().map(ToString::to_string).unwrap_or_default())),
    }
}
