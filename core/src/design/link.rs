//! The link: a design in a URL fragment, version 1.
//!
//! `v1.DATA.SUM`: DATA is base64url (RFC 4648, section 5, no padding) of the JSON merge patch (RFC 7396) that turns the
//! base document into the design; SUM is the CRC-32 of DATA in eight hexadecimal digits, so that a link cut short by a mail
//! program is recognised. The base document is the first example as it was when the version began, and stays as it is:
//! what an old link says does not change with the examples. A key that comes later has a default that changes nothing.
//!
//! Version 0 had the base of version 1 without listeners.

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use crc::{CRC_32_ISO_HDLC, Crc, NoTable};
use serde_json::{Map, Value};

use super::document::Design;
use crate::json;
use crate::mapping::{self, Held};

/// Longest fragment that is looked at, in characters: more than the largest design that passes its check can need.
pub const LONGEST: usize = 80_000;

/// The sum of links: CRC-32 of ISO-HDLC, as in gzip. Without a table: links are short, and the page is small.
const CRC_32: Crc<u32, NoTable> = Crc::<u32, NoTable>::new(&CRC_32_ISO_HDLC);

const PREFIX: &str = "v1.";
/// Version 0, which is read and no longer written.
const OLD_PREFIX: &str = "v0.";

/// The base document of version 1.
const BASE: &str = include_str!("link_base.json");
/// What turns it into that of version 0.
const OLD_BASE_PATCH: &str = r#"{"listeners":[]}"#;

fn base() -> Value {
    serde_json::from_str(BASE).expect("the base document is checked by a test")
}

fn old_base() -> Value {
    let mut old = base();
    merge(&mut old, serde_json::from_str(OLD_BASE_PATCH).expect("the patch is checked by a test"));
    old
}

/// Why a link cannot be opened, in words for the person who opened it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LinkError {
    /// Longer than any design can be.
    TooLong,
    /// Not a link of this program.
    Unknown,
    /// A version that this build does not know.
    NewerVersion,
    /// Cut short or changed on the way.
    Damaged,
    /// Whole, but what it says cannot be built; the reason names the field.
    Refused(String),
}

impl std::fmt::Display for LinkError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::TooLong => write!(f, "The link is longer than any design can be ({LONGEST} characters)."),
            Self::Unknown => f.write_str("What follows # in the address is no design."),
            Self::NewerVersion => f.write_str("The link was made by a newer version of Hushwright than this one."),
            Self::Damaged => f.write_str("The link was cut short or changed on the way; ask for it again, as a whole line."),
            Self::Refused(reason) => write!(f, "The link is whole, but its design cannot be used. {reason}"),
        }
    }
}

impl std::error::Error for LinkError {}

/// The fragment, without `#`, that carries `design`.
///
/// # Panics
/// Never: a design always serialises.
pub fn encode(design: &Design) -> String {
    let base = base();
    let own = design.write();
    let patch = difference(&base, &own).unwrap_or_else(|| Value::Object(Map::new()));
    let data = URL_SAFE_NO_PAD.encode(patch.to_string());
    format!("{PREFIX}{data}.{:08x}", CRC_32.checksum(data.as_bytes()))
}

/// The design that `fragment` (with or without `#`) carries; it has passed its check.
///
/// # Errors
/// Says in words for the reader what is wrong with the link.
///
/// # Panics
/// Never: the base documents are sound.
pub fn decode(fragment: &str) -> Result<Design, LinkError> {
    let fragment = fragment.strip_prefix('#').unwrap_or(fragment);
    if fragment.len() > LONGEST {
        return Err(LinkError::TooLong);
    }
    let versions = [(PREFIX, base as fn() -> Value), (OLD_PREFIX, old_base)];
    let known = versions.into_iter().find_map(|(prefix, base)| Some((fragment.strip_prefix(prefix)?, base)));
    let Some((rest, base)) = known else {
        let newer = fragment.strip_prefix('v').and_then(|rest| rest.split_once('.')).is_some_and(|(number, _)| {
            !number.is_empty() && number.len() < 6 && number.bytes().all(|byte| byte.is_ascii_digit())
        });
        return Err(if newer { LinkError::NewerVersion } else { LinkError::Unknown });
    };
    let (data, sum) = rest.rsplit_once('.').ok_or(LinkError::Damaged)?;
    if sum != format!("{:08x}", CRC_32.checksum(data.as_bytes())) {
        return Err(LinkError::Damaged);
    }
    let bytes = URL_SAFE_NO_PAD.decode(data).map_err(|_| LinkError::Damaged)?;
    let text = String::from_utf8(bytes).map_err(|_| LinkError::Damaged)?;
    let patch = json::parse_value(&text).map_err(|error| LinkError::Refused(error.to_string()))?;
    let mut document = base();
    merge(&mut document, patch);
    let design = mapping::from_value::<Design>(&document).map_err(|error| LinkError::Refused(error.to_string()))?;
    match design.check() {
        Ok(_) => Ok(design),
        Err(errors) => Err(LinkError::Refused(errors.first().map(ToString::to_string).unwrap_or_default())),
    }
}

/// The merge patch (RFC 7396) from `base` to `own`; `None` when they are equal.
fn difference(base: &Value, own: &Value) -> Option<Value> {
    if base == own {
        return None;
    }
    let (Value::Object(base), Value::Object(own)) = (base, own) else {
        return Some(own.clone());
    };
    let mut patch = Map::new();
    for (key, value) in own {
        match base.get(key) {
            None => {
                patch.insert(key.clone(), value.clone());
            }
            Some(base_value) => {
                if let Some(change) = difference(base_value, value) {
                    patch.insert(key.clone(), change);
                }
            }
        }
    }
    for key in base.keys().filter(|key| !own.contains_key(*key)) {
        patch.insert(key.clone(), Value::Null);
    }
    Some(Value::Object(patch))
}

/// Applies a merge patch (RFC 7396, section 2).
fn merge(target: &mut Value, patch: Value) {
    let Value::Object(patch) = patch else {
        *target = patch;
        return;
    };
    if !target.is_object() {
        *target = Value::Object(Map::new());
    }
    let Value::Object(target) = target else { return };
    for (key, value) in patch {
        if value.is_null() {
            // A document field that may be absent says so by null, which for every such field is also its meaning.
            target.insert(key, Value::Null);
        } else {
            merge(target.entry(key).or_insert(Value::Null), value);
        }
    }
}
