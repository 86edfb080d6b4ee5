//! Every number of a design document, found in its JSON text, so that no input is forgotten.

use hushwright::design::Design;
use serde_json::Value;

/// JSON pointers of all numbers of `design`.
pub fn numbers(design: &Design) -> Vec<String> {
    let mut found = Vec::new();
    collect(&serde_json::to_value(design).expect("a design is JSON"), String::new(), &mut found);
    found
}

fn collect(value: &Value, at: String, found: &mut Vec<String>) {
    match value {
        Value::Number(_) => found.push(at),
        Value::Object(map) => map.iter().for_each(|(key, value)| collect(value, format!("{at}/{key}"), found)),
        Value::Array(list) => list.iter().enumerate().for_each(|(i, value)| collect(value, format!("{at}/{i}"), found)),
        Value::Null | Value::Bool(_) | Value::String(_) => {}
    }
}

/// The number at `pointer`.
pub fn number(design: &Design, pointer: &str) -> f64 {
    let value = serde_json::to_value(design).expect("a design is JSON");
    value.pointer(pointer).and_then(Value::as_f64).expect("a number is there")
}

/// `design` with `number` at `pointer`.
pub fn with_number(design: &Design, pointer: &str, number: f64) -> Design {
    let mut value = serde_json::to_value(design).expect("a design is JSON");
    *value.pointer_mut(pointer).expect("a number is there") = Value::from(number);
    Design::from_json(&value.to_string()).expect("one number replaced by another")
}
