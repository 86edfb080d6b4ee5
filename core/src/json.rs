//! Reading JSON documents with errors that name the field.

use serde::Deserialize;

use crate::error::FieldError;

/// Reads one JSON document into `T`.
///
/// # Errors
/// One error with the path of the field that cannot be read and what was expected there.
pub fn parse<'de, T: Deserialize<'de>>(text: &'de str) -> Result<T, FieldError> {
    let mut deserializer = serde_json::Deserializer::from_str(text);
    let value = serde_path_to_error::deserialize(&mut deserializer).map_err(|error| {
        let path = error.path().to_string();
        let path = if path == "." { String::new() } else { path };
        let message = plain_words(error.inner());
        FieldError::new(path, message)
    })?;
    deserializer.end().map_err(|error| FieldError::new("", plain_words(&error)))?;
    Ok(value)
}

/// The message of `error` for people who do not read Rust: its type names become words.
fn plain_words(error: &serde_json::Error) -> String {
    let message = error.to_string();
    // Where the text is no JSON at all, line and column are what one needs; else the path says it better.
    let message =
        if error.is_data() { message.rsplit_once(" at line ").map_or(&*message, |(before, _)| before) } else { &message };
    let Some((before, expected)) = message.rsplit_once("expected ") else { return message.to_owned() };
    let expected = match expected {
        "f64" => "a number",
        "a sequence" => "a list",
        "a map" => "an object",
        "a string" => "a text",
        structure if structure.starts_with("struct ") => "an object",
        other => other,
    };
    format!("{before}expected {expected}")
}
