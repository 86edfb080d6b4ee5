//! A design as what it has other than a base document: a JSON merge patch (RFC 7396), and that as bytes.

mod bytes;
mod words;

use std::sync::LazyLock;

use serde_json::{Map, Value};

use crate::mapping::Held;

use super::document::Design;

pub use bytes::{pack, unpack};

/// Longest fragment of a link, in characters. What is longer does not get through everywhere: old mail programs and messengers cut
/// lines, and a code to scan becomes too fine (common practice, no source).
pub const LONGEST: usize = 2000;

/// Most bytes of a packed patch: base64url holds three of them in four characters, and the version in front and the sum behind take
/// twelve.
const MOST_BYTES: usize = (LONGEST - 12) * 3 / 4;

/// The base document of version 1.
const BASE: &str = include_str!("base_1.json");

/// The same, read.
static READ_BASE: LazyLock<Value> = LazyLock::new(|| serde_json::from_str(BASE).expect("a test reads it"));

/// The base document of version 1: the first example as it was when the version began.
pub fn base() -> Value {
    READ_BASE.clone()
}

/// What `design` has other than the base, as bytes.
pub fn packed(design: &Design) -> Vec<u8> {
    pack(&difference(&READ_BASE, &design.write()).unwrap_or_else(|| Value::Object(Map::new())))
}

/// How many bytes of a packed patch have no room in a link.
pub fn excess(packed: &[u8]) -> usize {
    packed.len().saturating_sub(MOST_BYTES)
}

/// The merge patch from `base` to `own`; `None` when they are equal.
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
pub fn merge(target: &mut Value, patch: Value) {
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
