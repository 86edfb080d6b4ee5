//! Links that were stored when version 1 was frozen: each opens as the document that it was then, for ever.

use hushwright::design::file;
use hushwright::design::link::decode;
use serde_json::Value;

/// What the file holds: what is in the link, the link, and the whole document as it was read then.
const STORED: &str = include_str!("../../data/links_v1.json");

/// Whether every key of `stored` is in `read` with the same value; keys that came later are left aside.
fn holds(stored: &Value, read: &Value, path: &str) -> Result<(), String> {
    match (stored, read) {
        (Value::Object(stored), Value::Object(read)) => stored
            .iter()
            .try_for_each(|(key, value)| holds(value, read.get(key).unwrap_or(&Value::Null), &format!("{path}.{key}"))),
        (Value::Array(stored), Value::Array(read)) if stored.len() == read.len() => {
            stored.iter().zip(read).try_for_each(|(stored, read)| holds(stored, read, path))
        }
        _ if stored == read => Ok(()),
        _ => Err(format!("{path} was {stored} and is {read}")),
    }
}

fn stored() -> Vec<Value> {
    serde_json::from_str(STORED).expect("a list of links")
}

#[test]
fn stored_links_open_as_what_they_were() {
    let stored = stored();
    assert!(stored.len() >= 8, "{} links", stored.len());
    for entry in stored {
        let about = &entry["about"];
        let design = decode(entry["link"].as_str().expect("a link")).unwrap_or_else(|error| panic!("{about}: {error}"));
        let read = serde_json::to_value(&design).expect("a design serialises");
        assert_eq!(holds(&entry["document"], &read, ""), Ok(()), "{about}");
    }
}

/// The same documents as files.
#[test]
fn stored_documents_open_as_files() {
    for entry in stored() {
        let design = file::read(&entry["document"].to_string()).expect("a file without its version");
        assert_eq!(Ok(design), decode(entry["link"].as_str().expect("a link")), "{}", entry["about"]);
    }
}
