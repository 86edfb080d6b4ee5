//! Documents as JSON values and back: every part names its fields, every choice its names, and everything else follows.
//!
//! Instead of code that serde derives: for each part it writes a reader of its own, and those of all parts made a seventh of
//! what a visitor of the page loads. Here all parts share one. Serde still reads and writes them, by way of values.

use serde_json::{Map, Value};

use crate::error::FieldError;

/// What a field of a document holds.
pub(crate) trait Held {
    /// What it holds before anything is read.
    fn blank() -> Self
    where
        Self: Sized;

    /// Takes what `value` says.
    ///
    /// # Errors
    /// Where within `value` something else stands than expected, and what is expected there; `self` is of no use then.
    fn read(&mut self, value: &Value) -> Result<(), FieldError>;

    /// What it holds, as a value.
    fn write(&self) -> Value;

    /// Whether this is a field that may be absent.
    fn is_optional(&self) -> bool {
        false
    }
}

/// What `value` says.
///
/// # Errors
/// One error with the path of the field that cannot be read and what was expected there.
pub(crate) fn from_value<T: Held>(value: &Value) -> Result<T, FieldError> {
    let mut held = T::blank();
    held.read(value)?;
    Ok(held)
}

/// The error of a value that is not what was expected.
pub(crate) fn invalid(value: &Value, expected: &str) -> FieldError {
    let found = match value {
        Value::Null => "null".to_owned(),
        Value::Bool(_) | Value::Number(_) => value.to_string(),
        Value::String(text) => format!("text \"{text}\""),
        Value::Array(_) => "list".to_owned(),
        Value::Object(_) => "object".to_owned(),
    };
    FieldError::new("", format!("invalid type: {found}, expected {expected}"))
}

/// Reads an object into `fields`. What it leaves out stays as it is; an `exact` one leaves out only what may be absent.
pub(crate) fn read_object(fields: &mut [(&'static str, &mut dyn Held)], value: &Value, exact: bool) -> Result<(), FieldError> {
    let Value::Object(given) = value else { return Err(invalid(value, "an object")) };
    for (key, value) in given {
        let Some((_, field)) = fields.iter_mut().find(|(name, _)| name == key) else {
            let names: Vec<&str> = fields.iter().map(|(name, _)| *name).collect();
            return Err(FieldError::new(key, unknown("field", key, &names)));
        };
        field.read(value).map_err(|error| error.within(key))?;
    }
    match fields.iter().find(|(name, field)| exact && !field.is_optional() && !given.contains_key(*name)) {
        Some((name, _)) => Err(FieldError::new("", format!("missing field `{name}`"))),
        None => Ok(()),
    }
}

/// The object of `fields`; an `exact` one has no field that is absent, others say so by null.
pub(crate) fn write_object(fields: &[(&'static str, &dyn Held)], exact: bool) -> Value {
    let mut object = Map::new();
    for (name, field) in fields {
        let value = field.write();
        if !(exact && value.is_null()) {
            object.insert((*name).to_owned(), value);
        }
    }
    Value::Object(object)
}

/// Which of `names` is written.
pub(crate) fn read_name(value: &Value, names: &[&str]) -> Result<usize, FieldError> {
    let Value::String(text) = value else { return Err(invalid(value, "a name")) };
    find_name(text, names)
}

/// Which of `names` is `text`.
pub(crate) fn find_name(text: &str, names: &[&str]) -> Result<usize, FieldError> {
    names.iter().position(|name| *name == text).ok_or_else(|| FieldError::new("", unknown("variant", text, names)))
}

fn unknown(what: &str, text: &str, known: &[&str]) -> String {
    format!("unknown {what} `{text}`, expected one of `{}`", known.join("`, `"))
}

impl Held for f64 {
    fn blank() -> Self {
        0.0
    }

    fn read(&mut self, value: &Value) -> Result<(), FieldError> {
        *self = value.as_f64().ok_or_else(|| invalid(value, "a number"))?;
        Ok(())
    }

    fn write(&self) -> Value {
        (*self).into()
    }
}

impl Held for bool {
    fn blank() -> Self {
        false
    }

    fn read(&mut self, value: &Value) -> Result<(), FieldError> {
        *self = value.as_bool().ok_or_else(|| invalid(value, "a boolean"))?;
        Ok(())
    }

    fn write(&self) -> Value {
        (*self).into()
    }
}

impl Held for String {
    fn blank() -> Self {
        Self::new()
    }

    fn read(&mut self, value: &Value) -> Result<(), FieldError> {
        value.as_str().ok_or_else(|| invalid(value, "a text"))?.clone_into(self);
        Ok(())
    }

    fn write(&self) -> Value {
        self.as_str().into()
    }
}

impl Held for (f64, f64) {
    fn blank() -> Self {
        (0.0, 0.0)
    }

    fn read(&mut self, value: &Value) -> Result<(), FieldError> {
        let pair: Vec<f64> = from_value(value).map_err(|error| {
            let is_list = value.is_array();
            if is_list { error } else { invalid(value, "two numbers") }
        })?;
        let [first, second] = pair[..] else {
            let message = match pair.len() {
                count @ 0..2 => format!("invalid length {count}, expected two numbers"),
                _ => "more elements than allowed".to_owned(),
            };
            return Err(FieldError::new("", message));
        };
        *self = (first, second);
        Ok(())
    }

    fn write(&self) -> Value {
        Value::Array(vec![self.0.into(), self.1.into()])
    }
}

impl<T: Held> Held for Option<T> {
    fn blank() -> Self {
        None
    }

    fn read(&mut self, value: &Value) -> Result<(), FieldError> {
        if value.is_null() {
            *self = None;
            return Ok(());
        }
        self.insert(T::blank()).read(value)
    }

    fn write(&self) -> Value {
        self.as_ref().map_or(Value::Null, Held::write)
    }

    fn is_optional(&self) -> bool {
        true
    }
}

impl<T: Held> Held for Vec<T> {
    fn blank() -> Self {
        Self::new()
    }

    fn read(&mut self, value: &Value) -> Result<(), FieldError> {
        let Value::Array(elements) = value else { return Err(invalid(value, "a list")) };
        self.clear();
        for (at, element) in elements.iter().enumerate() {
            self.push(T::blank());
            self[at].read(element).map_err(|error| error.within(&format!("[{at}]")))?;
        }
        Ok(())
    }

    fn write(&self) -> Value {
        self.iter().map(Held::write).collect()
    }
}

/// A value in which no object has a key twice: of two numbers for the same thing neither can be meant.
pub(crate) struct Once(pub(crate) Value);

impl<'de> serde::Deserialize<'de> for Once {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Any;

        impl<'de> serde::de::Visitor<'de> for Any {
            type Value = Once;

            fn expecting(&self, f: &mut std::fmt::Formatter) -> std::fmt::Result {
                f.write_str("JSON")
            }

            fn visit_bool<E>(self, value: bool) -> Result<Once, E> {
                Ok(Once(value.into()))
            }

            fn visit_i64<E>(self, value: i64) -> Result<Once, E> {
                Ok(Once(value.into()))
            }

            fn visit_u64<E>(self, value: u64) -> Result<Once, E> {
                Ok(Once(value.into()))
            }

            fn visit_f64<E>(self, value: f64) -> Result<Once, E> {
                Ok(Once(value.into()))
            }

            fn visit_str<E>(self, text: &str) -> Result<Once, E> {
                Ok(Once(text.into()))
            }

            fn visit_unit<E>(self) -> Result<Once, E> {
                Ok(Once(Value::Null))
            }

            fn visit_seq<A: serde::de::SeqAccess<'de>>(self, mut parts: A) -> Result<Once, A::Error> {
                let mut list = Vec::new();
                while let Some(Once(part)) = parts.next_element()? {
                    list.push(part);
                }
                Ok(Once(Value::Array(list)))
            }

            fn visit_map<A: serde::de::MapAccess<'de>>(self, mut fields: A) -> Result<Once, A::Error> {
                let mut map = Map::new();
                while let Some((key, Once(value))) = fields.next_entry::<String, Once>()? {
                    if map.contains_key(&key) {
                        return Err(serde::de::Error::custom(format_args!("duplicate field `{key}`")));
                    }
                    map.insert(key, value);
                }
                Ok(Once(Value::Object(map)))
            }
        }

        deserializer.deserialize_any(Any)
    }
}

/// Makes types documents for serde, by way of values.
macro_rules! by_value {
    ($name:ident) => {
        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                $crate::mapping::Held::write(self).serialize(serializer)
            }
        }

        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let $crate::mapping::Once(value) = serde::Deserialize::deserialize(deserializer)?;
                $crate::mapping::from_value(&value).map_err(serde::de::Error::custom)
            }
        }
    };
}

/// Makes structs objects of documents, with these fields: all that they have. What an object leaves out is as in the default.
macro_rules! objects {
    ($($name:ident { $($field:ident),+ })+) => {
        $($crate::mapping::object!($name { $($field),+ } from Self::default(), exact: false);)+
    };
}

/// The same for structs without a default: all but what may be absent has to be there, and what is absent is not written.
macro_rules! exact_objects {
    ($($name:ident { $($field:ident),+ })+) => {
        $($crate::mapping::object!($name { $($field),+ } from Self { $($field: $crate::mapping::Held::blank()),+ }, exact: true);)+
    };
}

macro_rules! object {
    ($name:ident { $($field:ident),+ } from $blank:expr, exact: $exact:literal) => {
        impl $crate::mapping::Held for $name {
            fn blank() -> Self {
                $blank
            }

            fn read(&mut self, value: &serde_json::Value) -> Result<(), $crate::error::FieldError> {
                *self = $crate::mapping::Held::blank();
                let Self { $($field),+ } = self;
                $crate::mapping::read_object(&mut [$((stringify!($field), $field)),+], value, $exact)
            }

            fn write(&self) -> serde_json::Value {
                let Self { $($field),+ } = self;
                $crate::mapping::write_object(&[$((stringify!($field), $field)),+], $exact)
            }
        }

        impl $crate::packed::Packed for $name {
            fn pack(&self, bytes: &mut Vec<u8>) {
                let Self { $($field),+ } = self;
                $crate::packed::pack_all(&[$($field),+], bytes);
            }

            fn unpack(&mut self, bytes: &mut &[u8]) -> Option<()> {
                let Self { $($field),+ } = self;
                $crate::packed::unpack_all(&mut [$($field),+], bytes)
            }
        }

        $crate::mapping::by_value!($name);
    };
}

/// Gives the variants of enums their names in documents.
macro_rules! names {
    ($($name:ident { $($variant:ident = $text:literal),+ $(,)? })+) => {$(
        impl $crate::mapping::Held for $name {
            fn blank() -> Self {
                [$(Self::$variant),+][0]
            }

            fn read(&mut self, value: &serde_json::Value) -> Result<(), $crate::error::FieldError> {
                *self = [$(Self::$variant),+][$crate::mapping::read_name(value, &[$($text),+])?];
                Ok(())
            }

            fn write(&self) -> serde_json::Value {
                let text = match self {
                    $(Self::$variant => $text,)+
                };
                text.into()
            }
        }

        impl $crate::packed::Packed for $name {
            fn pack(&self, bytes: &mut Vec<u8>) {
                let place = [$(Self::$variant),+].iter().position(|own| own == self);
                $crate::packed::pack_count(place.unwrap_or_default(), bytes);
            }

            fn unpack(&mut self, bytes: &mut &[u8]) -> Option<()> {
                *self = *[$(Self::$variant),+].get($crate::packed::unpack_count(bytes)?)?;
                Some(())
            }
        }

        // A text by itself, so that formats that do not say what follows can hold one too.
        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                $crate::mapping::Held::write(self).serialize(serializer)
            }
        }

        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let text = <String as serde::Deserialize>::deserialize(deserializer)?;
                let place = $crate::mapping::find_name(&text, &[$($text),+]).map_err(serde::de::Error::custom)?;
                Ok([$(Self::$variant),+][place])
            }
        }
    )+};
}

pub(crate) use {by_value, exact_objects, names, object, objects};

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::buildup::raw::Layer;
    use crate::design::{Design, SupportPart};

    #[test]
    fn what_a_part_leaves_out_is_as_in_its_default() {
        let design: Design = from_value(&json!({"feet": {"count": 6}, "inner": {"braces": null}})).unwrap();
        assert_eq!(design, Design { feet: SupportPart { count: 6.0, ..SupportPart::default() }, ..Design::default() });
        assert_eq!(from_value::<Design>(&Design::default().write()), Ok(Design::default()));
    }

    #[test]
    fn what_is_absent_in_a_layer_is_not_written() {
        assert_eq!(Layer::sheet("mdf", 15.0).write(), json!({"sheet": "mdf", "thickness_mm": 15.0}));
    }

    #[test]
    fn errors_name_the_field_and_what_it_takes() {
        let sheet = json!({"density": 700, "youngs_modulus": 1e9, "poisson": 0.3});
        let bond = json!({"thickness_mm": 1, "density": 1, "shear_modulus": [[1, 2], [3]], "loss_factor": []});
        for (document, said) in [
            (json!([]), "invalid type: list, expected an object"),
            (json!({"room": 3}), "room: invalid type: 3, expected an object"),
            (json!({"name": null}), "name: invalid type: null, expected a text"),
            (json!({"room": {"height_m": "2"}}), "room.height_m: invalid type: text \"2\", expected a number"),
            (
                json!({"room": {"floor": "sand"}}),
                "room.floor: unknown variant `sand`, expected one of `ground`, `slab`, `joists`",
            ),
            (json!({"gap": {"width": 3}}), "gap.width: unknown field `width`, expected one of `depth_mm`, `fill`"),
            (json!({"inner": {"holes": {"sealed": 1}}}), "inner.holes.sealed: invalid type: 1, expected a boolean"),
            (json!({"inner": {"layers": [{"sheet": sheet}]}}), "inner.layers[0].sheet: missing field `loss_factor`"),
            (
                json!({"inner": {"layers": [{}, {"bond": bond}]}}),
                "inner.layers[1].bond.shear_modulus[1]: invalid length 1, expected two numbers",
            ),
            (json!({"source": {"own_db": [[1, 2, 3]]}}), "source.own_db[0]: more elements than allowed"),
            (json!({"source": {"own_db": [5]}}), "source.own_db[0]: invalid type: 5, expected two numbers"),
            (json!({"source": {"own_db": [[1, []]]}}), "source.own_db[0][1]: invalid type: list, expected a number"),
        ] {
            assert_eq!(from_value::<Design>(&document).unwrap_err().to_string(), said);
        }
    }

    #[test]
    fn serde_reads_and_writes_the_same() {
        let design = Design::default();
        assert_eq!(serde_json::to_value(&design).unwrap(), design.write());
        assert_eq!(serde_json::from_value::<Design>(design.write()).unwrap(), design);
        let error = Design::from_json(r#"{"inner": {"layers": [{"sheet": "mdf"}, {"thickness_mm": []}]}}"#).unwrap_err();
        assert_eq!(error, FieldError::new("inner.layers[1].thickness_mm", "invalid type: list, expected a number"));
        let twice = Design::from_json(r#"{"room": {"height_m": 2, "height_m": 3}}"#).unwrap_err();
        assert_eq!(twice, FieldError::new("room", "duplicate field `height_m`"));
    }
}
