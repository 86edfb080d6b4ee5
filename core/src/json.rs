//! Reading JSON documents with errors that name the field.

use serde::de::{
    self, Deserialize, DeserializeOwned, DeserializeSeed, Deserializer, IntoDeserializer, MapAccess, SeqAccess, Unexpected,
    Visitor,
};
use serde::forward_to_deserialize_any;
use serde_json::{Map, Value};

use crate::error::FieldError;

/// Reads one JSON object into `T`.
///
/// # Errors
/// One error with the path of the field that cannot be read and what was expected there.
pub fn parse<T: DeserializeOwned>(text: &str) -> Result<T, FieldError> {
    object_begins(text)?;
    let mut deserializer = serde_json::Deserializer::from_str(text);
    let Strict(value) = serde_path_to_error::deserialize(&mut deserializer).map_err(|error| {
        let path = error.path().to_string();
        // Unknown positions print as "?", the root as ".".
        let path = path.trim_end_matches(['?', '.']);
        let message = plain_words(error.inner());
        // Seen by the object, which stands one step above the key.
        let path = match twice(&message) {
            Some(key) if path.is_empty() => key.to_owned(),
            Some(key) => format!("{path}.{key}"),
            None => path.to_owned(),
        };
        FieldError::new(path, message)
    })?;
    deserializer.end().map_err(|error| FieldError::new("", plain_words(&error)))?;
    from_value(value)
}

/// The key that an object has twice, if that is what `message` says.
fn twice(message: &str) -> Option<&str> {
    message.strip_prefix("duplicate field `").and_then(|rest| Some(rest.split_once('`')?.0))
}

/// Refuses what does not begin as an object: serde would take a list of the fields' values in order as well.
fn object_begins(text: &str) -> Result<(), FieldError> {
    if text.trim_start().starts_with(|first| first != '{') {
        return Err(FieldError::new("", "expected one JSON object"));
    }
    Ok(())
}

/// Reads one JSON object as it stands. The path of what is wrong is less exact than that of [`parse`], and so the page smaller.
///
/// # Errors
/// Where the text is no JSON: what is wrong, and under which key.
pub fn parse_value(text: &str) -> Result<Value, FieldError> {
    object_begins(text)?;
    serde_json::from_str(text).map(|Strict(value)| value).map_err(|error| {
        let before = text.lines().nth(error.line().saturating_sub(1)).and_then(|line| line.get(..error.column()));
        let message = plain_words(&error);
        let key = twice(&message).or_else(|| before?.rsplit('"').nth(1)).unwrap_or_default();
        FieldError::new(key, &*message)
    })
}

/// A value in which no object has a key twice: of two numbers for the same thing neither can be meant.
struct Strict(Value);

impl<'de> Deserialize<'de> for Strict {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Any;

        impl<'de> Visitor<'de> for Any {
            type Value = Strict;

            fn expecting(&self, f: &mut std::fmt::Formatter) -> std::fmt::Result {
                f.write_str("JSON")
            }

            fn visit_bool<E>(self, value: bool) -> Result<Strict, E> {
                Ok(Strict(value.into()))
            }

            fn visit_i64<E>(self, value: i64) -> Result<Strict, E> {
                Ok(Strict(value.into()))
            }

            fn visit_u64<E>(self, value: u64) -> Result<Strict, E> {
                Ok(Strict(value.into()))
            }

            fn visit_f64<E>(self, value: f64) -> Result<Strict, E> {
                Ok(Strict(value.into()))
            }

            fn visit_str<E>(self, text: &str) -> Result<Strict, E> {
                Ok(Strict(text.into()))
            }

            fn visit_unit<E>(self) -> Result<Strict, E> {
                Ok(Strict(Value::Null))
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut parts: A) -> Result<Strict, A::Error> {
                let mut list = Vec::new();
                while let Some(Strict(part)) = parts.next_element()? {
                    list.push(part);
                }
                Ok(Strict(Value::Array(list)))
            }

            fn visit_map<A: MapAccess<'de>>(self, mut fields: A) -> Result<Strict, A::Error> {
                let mut map = Map::new();
                while let Some((key, Strict(value))) = fields.next_entry::<String, Strict>()? {
                    if map.contains_key(&key) {
                        return Err(de::Error::custom(format_args!("duplicate field `{key}`")));
                    }
                    map.insert(key, value);
                }
                Ok(Strict(Value::Object(map)))
            }
        }

        deserializer.deserialize_any(Any)
    }
}

/// `value` as JSON text.
///
/// Numbers are written by the standard library, which writes them for people too: a second way of writing them would cost
/// every visitor of the page ten kilobytes of tables.
///
/// # Panics
/// Never: a value serialises, and a string takes everything.
pub fn write(value: &Value) -> String {
    struct ByStd;

    impl serde_json::ser::Formatter for ByStd {
        fn write_f64<W: ?Sized + std::io::Write>(&mut self, writer: &mut W, value: f64) -> std::io::Result<()> {
            write!(writer, "{value:?}")
        }
    }

    let mut text = Vec::new();
    let mut serializer = serde_json::Serializer::with_formatter(&mut text, ByStd);
    serde::Serialize::serialize(value, &mut serializer).expect("a value serialises");
    String::from_utf8(text).expect("JSON is text")
}

/// Turns an object that was read before into `T`.
///
/// # Errors
/// One error with the path of the field that cannot be read and what was expected there.
pub fn from_value<T: DeserializeOwned>(value: Value) -> Result<T, FieldError> {
    T::deserialize(Part(value)).map_err(|Unreadable { path, message }| FieldError::new(path, in_plain_words(&message)))
}

/// The message of `serde_json` for people.
fn plain_words(error: &serde_json::Error) -> String {
    let message = error.to_string();
    // Where the text is no JSON at all, line and column are what one needs; else the path says it better.
    let message =
        if error.is_data() { message.rsplit_once(" at line ").map_or(&*message, |(before, _)| before) } else { &message };
    in_plain_words(message)
}

/// A message for people who do not read Rust: its type names become words.
fn in_plain_words(message: &str) -> String {
    let message = message
        .replace("invalid type: map", "invalid type: object")
        .replace("invalid type: sequence", "invalid type: list")
        .replace("invalid type: unit value", "invalid type: null");
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

/// What cannot be read, and where.
#[derive(Debug)]
struct Unreadable {
    path: String,
    message: String,
}

impl Unreadable {
    /// The same one step further out: within `step`, a key or a position in brackets.
    fn within(mut self, step: &str) -> Self {
        let point = if self.path.is_empty() || self.path.starts_with('[') { "" } else { "." };
        self.path = format!("{step}{point}{}", self.path);
        self
    }
}

impl std::fmt::Display for Unreadable {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Unreadable {}

impl de::Error for Unreadable {
    fn custom<T: std::fmt::Display>(message: T) -> Self {
        Self { path: String::new(), message: message.to_string() }
    }
}

/// A part of a document, to be read. Unlike `serde_json`'s own reader of values it knows where it is.
struct Part(Value);

impl<'de> Deserializer<'de> for Part {
    type Error = Unreadable;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Unreadable> {
        match self.0 {
            Value::Null => visitor.visit_unit(),
            Value::Bool(value) => visitor.visit_bool(value),
            Value::Number(number) => visitor.visit_f64(number.as_f64().unwrap_or(f64::NAN)),
            Value::String(text) => visitor.visit_string(text),
            Value::Array(parts) => {
                let mut parts = Parts { rest: parts.into_iter(), at: 0 };
                let value = visitor.visit_seq(&mut parts)?;
                if parts.rest.len() > 0 {
                    return Err(de::Error::custom("more elements than allowed"));
                }
                Ok(value)
            }
            Value::Object(fields) => visitor.visit_map(Fields { rest: fields.into_iter(), value: None }),
        }
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Unreadable> {
        if self.0.is_null() { visitor.visit_none() } else { visitor.visit_some(self) }
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Unreadable> {
        match self.0 {
            Value::String(name) => visitor.visit_enum(name.into_deserializer()),
            other => Err(de::Error::invalid_type(unexpected(&other), &"a name")),
        }
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf unit unit_struct newtype_struct seq
        tuple tuple_struct map struct identifier ignored_any
    }
}

/// What stands there instead of what was expected.
fn unexpected(value: &Value) -> Unexpected<'_> {
    match value {
        Value::Null => Unexpected::Unit,
        Value::Bool(value) => Unexpected::Bool(*value),
        Value::Number(number) => Unexpected::Float(number.as_f64().unwrap_or(f64::NAN)),
        Value::String(text) => Unexpected::Str(text),
        Value::Array(_) => Unexpected::Seq,
        Value::Object(_) => Unexpected::Map,
    }
}

/// The elements of a list.
struct Parts {
    rest: std::vec::IntoIter<Value>,
    at: usize,
}

impl<'de> SeqAccess<'de> for Parts {
    type Error = Unreadable;

    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, Unreadable> {
        let Some(value) = self.rest.next() else { return Ok(None) };
        let at = self.at;
        self.at += 1;
        seed.deserialize(Part(value)).map(Some).map_err(|error| error.within(&format!("[{at}]")))
    }
}

/// The fields of an object.
struct Fields {
    rest: serde_json::map::IntoIter,
    value: Option<(String, Value)>,
}

impl<'de> MapAccess<'de> for Fields {
    type Error = Unreadable;

    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, Unreadable> {
        let Some((key, value)) = self.rest.next() else { return Ok(None) };
        let read = seed.deserialize(Part(Value::String(key.clone()))).map_err(|error: Unreadable| error.within(&key))?;
        self.value = Some((key, value));
        Ok(Some(read))
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, Unreadable> {
        let (key, value) = self.value.take().expect("a value is asked for after its key");
        seed.deserialize(Part(value)).map_err(|error| error.within(&key))
    }
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
