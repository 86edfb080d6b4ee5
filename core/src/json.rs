//! Reading JSON documents with errors that name the field.

use serde::Deserialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

use crate::error::FieldError;

/// Reads one JSON object into `T`.
///
/// # Errors
/// One error with the path of the field that cannot be read and what was expected there.
pub fn parse<'de, T: Deserialize<'de>>(text: &'de str) -> Result<T, FieldError> {
    // Serde would take a list of the fields' values in order as well; no document of ours means that.
    if text.trim_start().starts_with(|first| first != '{') {
        return Err(FieldError::new("", "expected one JSON object"));
    }
    let mut deserializer = serde_json::Deserializer::from_str(text);
    let value = serde_path_to_error::deserialize(&mut deserializer).map_err(|error| {
        let path = error.path().to_string();
        // Unknown positions print as "?", the root as ".".
        let path = path.trim_end_matches(['?', '.']);
        FieldError::new(path, plain_words(error.inner(), path.is_empty()))
    })?;
    deserializer.end().map_err(|error| FieldError::new("", plain_words(&error, true)))?;
    Ok(value)
}

/// Reads one JSON object as it stands.
///
/// # Errors
/// Where the text is no JSON: what is wrong, and under which key.
pub fn parse_value(text: &str) -> Result<Value, FieldError> {
    if text.trim_start().starts_with(|first| first != '{') {
        return Err(FieldError::new("", "expected one JSON object"));
    }
    serde_json::from_str(text).map_err(|error| {
        let before = text.lines().nth(error.line().saturating_sub(1)).and_then(|line| line.get(..error.column()));
        let key = before.and_then(|before| before.rsplit('"').nth(1)).unwrap_or_default();
        FieldError::new(key, plain_words(&error, true))
    })
}

/// Turns an object that was read before into `T`, without saying where it cannot be.
///
/// # Errors
/// What is wrong, with no path.
pub fn from_value<T: DeserializeOwned>(value: Value) -> Result<T, FieldError> {
    serde_json::from_value(value).map_err(|error| FieldError::new("", plain_words(&error, false)))
}

/// The message of `error` for people who do not read Rust: its type names become words.
fn plain_words(error: &serde_json::Error, at_root: bool) -> String {
    let message = error.to_string();
    if !at_root && message.starts_with("trailing characters") {
        return "more elements than allowed".to_owned();
    }
    // Where the text is no JSON at all, line and column are what one needs; else the path says it better.
    let message =
        if error.is_data() { message.rsplit_once(" at line ").map_or(&*message, |(before, _)| before) } else { &message };
    let message =
        message.replace("invalid type: map", "invalid type: object").replace("invalid type: sequence", "invalid type: list");
    let Some((before, expected)) = message.rsplit_once("expected ") else { return message };
    let expected = match expected {
        "f64" => "a number",
        "a sequence" => "a list",
        "a map" => "an object",
        "a string" => "a text",
        "an array of length 2" | "a tuple of size 2" => "two numbers",
        structure if structure.starts_with("struct ") => "an object",
        other => other,
    };
    format!("{before}expected {expected}")
}

/// Makes types with derived `#[serde(remote = "Self")]` implementations readable from objects only.
///
/// What serde derives for a struct also takes a list of its fields' values in order, which no document of ours means.
macro_rules! objects {
    ($($name:ident),+ $(,)?) => {$(
        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                $name::serialize(self, serializer)
            }
        }

        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                struct Object;

                impl<'de> serde::de::Visitor<'de> for Object {
                    type Value = $name;

                    fn expecting(&self, f: &mut std::fmt::Formatter) -> std::fmt::Result {
                        f.write_str("an object")
                    }

                    fn visit_map<M: serde::de::MapAccess<'de>>(self, map: M) -> Result<$name, M::Error> {
                        $name::deserialize(serde::de::value::MapAccessDeserializer::new(map))
                    }
                }

                deserializer.deserialize_map(Object)
            }
        }
    )+};
}

pub(crate) use objects;
