//! Reading JSON documents with errors that name the field.

use serde::Deserialize;
use serde_json::Value;

use crate::error::FieldError;
use crate::mapping::Once;

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
        let message = plain_words(error.inner(), path.is_empty());
        // Parts of documents say where within them, as `FieldError` prints it; serde's own messages have a space before any
        // colon.
        let (within, message) = message.split_once(": ").filter(|(within, _)| !within.contains(' ')).unwrap_or(("", &message));
        let error = FieldError::new(within, message);
        if path.is_empty() { error } else { error.within(path) }
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
    serde_json::from_str(text).map(|Once(value)| value).map_err(|error| {
        let before = text.lines().nth(error.line().saturating_sub(1)).and_then(|line| line.get(..error.column()));
        let message = plain_words(&error, true);
        // The object, which stands one step above the key, says it.
        let twice = message.strip_prefix("duplicate field `").and_then(|rest| Some(rest.split_once('`')?.0));
        let key = twice.or_else(|| before?.rsplit('"').nth(1)).unwrap_or_default();
        FieldError::new(key, &*message)
    })
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
