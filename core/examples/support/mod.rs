//! What the programs share: one JSON object in, one out, one line about what is wrong.

use std::io::{Read, Write};
use std::process::ExitCode;

use hushwright::error::FieldError;
use hushwright::json;
use serde::Serialize;
use serde::de::DeserializeOwned;

/// Exit code for input that is refused.
const REFUSED: u8 = 2;
/// Most characters of the line about what is wrong; input may quote a whole book as a key.
const LONGEST_LINE: usize = 1000;

/// Reads an object from standard input, computes, and prints the result to standard output as one line.
///
/// Input that `compute` or the JSON reader refuses prints one line to standard error, that names the field and what is
/// allowed, and gives exit code 2.
pub fn run<Input: DeserializeOwned, Output: Serialize>(compute: impl FnOnce(Input) -> Result<Output, FieldError>) -> ExitCode {
    let answer = read().and_then(|text| json::parse(&text)).and_then(compute);
    match answer {
        Ok(output) => print(&output),
        Err(error) => {
            eprintln!("{}", one_line(&error.to_string()));
            ExitCode::from(REFUSED)
        }
    }
}

fn read() -> Result<String, FieldError> {
    let mut bytes = Vec::new();
    let read = std::io::stdin().lock().read_to_end(&mut bytes);
    read.map_err(|error| FieldError::new("", format!("standard input cannot be read: {error}")))?;
    String::from_utf8(bytes).map_err(|_| FieldError::new("", "standard input is not UTF-8 text; expected is one JSON object"))
}

fn print(output: &impl Serialize) -> ExitCode {
    let written =
        serde_json::to_string(output).map_err(std::io::Error::from).and_then(|line| writeln!(std::io::stdout().lock(), "{line}"));
    match written {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("standard output cannot be written: {error}");
            ExitCode::FAILURE
        }
    }
}

/// `message` on one line: control characters and line separators as escapes, cut when very long.
fn one_line(message: &str) -> String {
    let mut line = String::new();
    for (count, character) in message.chars().enumerate() {
        if count == LONGEST_LINE {
            line.push_str(" ...");
            break;
        }
        if character.is_control() || matches!(character, '\u{2028}' | '\u{2029}') {
            line.extend(character.escape_default());
        } else {
            line.push(character);
        }
    }
    line
}
