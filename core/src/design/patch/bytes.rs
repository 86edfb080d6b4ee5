//! JSON values as few bytes, for links.
//!
//! A value is one byte that says what it is, and what follows it:
//!
//! | Byte | Value | What follows |
//! |---|---|---|
//! | 00, 01, 02 | null, false, true | |
//! | 03 | number | its IEEE 754 binary64, least byte first |
//! | 04 | text | length in bytes, UTF-8 |
//! | 05 | name | its place in [`NAMES`], from 80 on |
//! | 06 | list | count, values |
//! | 07 | object | count, pairs of key and value |
//! | 08 | band values | see below |
//! | 10 to 1f, 20 to 2f | decimal number, negative one | its digits as a whole number; the low half of the byte says how many of them are decimals |
//! | 30 to 7f | name 0 to 79 | |
//! | 80 to ff | whole number 0 to 127 | |
//!
//! Counts, lengths, places and digits are unsigned LEB128 (seven bits a byte, least first, the top bit says that more follow). A
//! key is its place in [`KEYS`] and two more; or 0, length, UTF-8; or 1, count, values: names, numbers and texts that `/` joins.
//! Band values are a list of pairs whose first numbers are nominal mid-band frequencies of one-third octaves from 25 Hz on, rising:
//! a whole number with one bit for each band that is there, the count of decimals, and each value less the one before, as digits,
//! twice, less one where it is negative.

use serde_json::{Map, Number, Value};

use super::words::{KEYS, NAMES};
use crate::bands::NOMINAL_HZ;
use crate::number;

const NULL: u8 = 0x00;
const FALSE: u8 = 0x01;
const TRUE: u8 = 0x02;
const BINARY: u8 = 0x03;
const TEXT: u8 = 0x04;
const FAR_NAME: u8 = 0x05;
const LIST: u8 = 0x06;
const OBJECT: u8 = 0x07;
const BANDS: u8 = 0x08;
const DECIMAL: u8 = 0x10;
const NEGATIVE: u8 = 0x20;
const NEAR_NAME: u8 = 0x30;
const WHOLE: u8 = 0x80;

/// Names that take one byte.
const NEAR_NAMES: usize = (WHOLE - NEAR_NAME) as usize;
/// Whole numbers that take one byte.
const NEAR_WHOLE: u64 = 128;
/// Most decimals of a decimal number.
const MOST_DECIMALS: u8 = 15;
/// Digits up to this whole number, over a power of ten up to 10^15, give the double nearest to the decimal number.
const MOST_DIGITS: u64 = 1 << 53;
/// Digits of band values are less: differences of two of them fit as well.
const MOST_BAND_DIGITS: i64 = 1 << 40;
/// The key that is spelled out, and the one that is put together; places in the list follow.
const SPELLED_KEY: u64 = 0;
const JOINED_KEY: u64 = 1;
const FIRST_KEY: u64 = 2;
/// Deepest nesting that is read: documents have five.
const DEEPEST: usize = 12;

/// `value` as bytes.
pub fn pack(value: &Value) -> Vec<u8> {
    let mut bytes = Vec::new();
    pack_value(value, &mut bytes);
    bytes
}

/// The value that `bytes` are; `None` where they are something else, or more than one.
pub fn unpack(bytes: &[u8]) -> Option<Value> {
    let mut reader = Reader { rest: bytes };
    let value = reader.value(0)?;
    reader.rest.is_empty().then_some(value)
}

fn pack_value(value: &Value, bytes: &mut Vec<u8>) {
    match value {
        Value::Null => bytes.push(NULL),
        Value::Bool(is) => bytes.push(if *is { TRUE } else { FALSE }),
        Value::Number(number) => pack_number(number.as_f64().unwrap_or_default(), bytes),
        Value::String(text) => pack_text(text, bytes),
        Value::Array(list) => {
            if !pack_bands(list, bytes) {
                bytes.push(LIST);
                pack_whole(list.len() as u64, bytes);
                for value in list {
                    pack_value(value, bytes);
                }
            }
        }
        Value::Object(object) => {
            bytes.push(OBJECT);
            pack_whole(object.len() as u64, bytes);
            for (key, value) in object {
                pack_key(key, bytes);
                pack_value(value, bytes);
            }
        }
    }
}

fn pack_whole(mut whole: u64, bytes: &mut Vec<u8>) {
    while whole >= 0x80 {
        bytes.push(whole as u8 | 0x80);
        whole >>= 7;
    }
    bytes.push(whole as u8);
}

fn pack_spelled(text: &str, bytes: &mut Vec<u8>) {
    pack_whole(text.len() as u64, bytes);
    bytes.extend(text.as_bytes());
}

fn pack_text(text: &str, bytes: &mut Vec<u8>) {
    match NAMES.iter().position(|name| *name == text) {
        Some(place) if place < NEAR_NAMES => bytes.push(NEAR_NAME + place as u8),
        Some(place) => {
            bytes.push(FAR_NAME);
            pack_whole(place as u64, bytes);
        }
        None => {
            bytes.push(TEXT);
            pack_spelled(text, bytes);
        }
    }
}

/// The digits of `number` as a whole number, and how many of them are decimals; `None` where there are too many.
fn decimal(number: f64) -> Option<(u64, u8)> {
    // The shortest decimal number that no other double is nearer to.
    let text = number.abs().to_string();
    let (whole, decimals) = text.split_once('.').unwrap_or((&text, ""));
    let digits: u64 = format!("{whole}{decimals}").parse().ok()?;
    let decimals = u8::try_from(decimals.len()).ok()?;
    (digits < MOST_DIGITS && decimals <= MOST_DECIMALS).then_some((digits, decimals))
}

/// The number with these digits, of which `decimals` are decimals.
fn from_decimal(digits: u64, decimals: u8) -> f64 {
    digits as f64 / 10_f64.powi(i32::from(decimals))
}

fn pack_number(number: f64, bytes: &mut Vec<u8>) {
    match decimal(number) {
        Some((digits, 0)) if digits < NEAR_WHOLE && number >= 0.0 => bytes.push(WHOLE + digits as u8),
        Some((digits, decimals)) => {
            bytes.push(if number < 0.0 { NEGATIVE } else { DECIMAL } + decimals);
            pack_whole(digits, bytes);
        }
        None => {
            bytes.push(BINARY);
            bytes.extend(number.to_le_bytes());
        }
    }
}

fn pack_key(key: &str, bytes: &mut Vec<u8>) {
    if let Some(place) = KEYS.iter().position(|known| *known == key) {
        pack_whole(FIRST_KEY + place as u64, bytes);
        return;
    }
    let mut joined = Vec::new();
    let parts: Vec<&str> = key.split('/').collect();
    pack_whole(JOINED_KEY, &mut joined);
    pack_whole(parts.len() as u64, &mut joined);
    for part in parts {
        match number::parse(part) {
            Some(number) if number.to_string() == part => pack_number(number, &mut joined),
            _ => pack_text(part, &mut joined),
        }
    }
    if joined.len() < key.len() + 2 {
        bytes.extend(joined);
    } else {
        pack_whole(SPELLED_KEY, bytes);
        pack_spelled(key, bytes);
    }
}

/// Packs `list` as band values; says whether it is such a list.
fn pack_bands(list: &[Value], bytes: &mut Vec<u8>) -> bool {
    let (mut bands, mut decimals) = (0_u64, 0);
    let mut values = Vec::new();
    for pair in list {
        let Some((band, value)) = band_and_value(pair) else { return false };
        let Some((_, own)) = decimal(value) else { return false };
        if bands >> band != 0 {
            return false;
        }
        bands |= 1 << band;
        decimals = decimals.max(own);
        values.push(value);
    }
    if values.is_empty() {
        return false;
    }
    let mut packed = vec![BANDS];
    pack_whole(bands, &mut packed);
    packed.push(decimals);
    let mut before = 0;
    for value in values {
        let digits = (value * 10_f64.powi(i32::from(decimals))).round();
        if digits.abs() >= MOST_BAND_DIGITS as f64 || signed(digits as i64, decimals) != value {
            return false;
        }
        let digits = digits as i64;
        let step = digits - before;
        before = digits;
        pack_whole(if step < 0 { step.unsigned_abs() * 2 - 1 } else { step.unsigned_abs() * 2 }, &mut packed);
    }
    bytes.extend(packed);
    true
}

fn signed(digits: i64, decimals: u8) -> f64 {
    let size = from_decimal(digits.unsigned_abs(), decimals);
    if digits < 0 { -size } else { size }
}

/// The band and the value of a pair of a nominal frequency in Hz and a number.
fn band_and_value(pair: &Value) -> Option<(usize, f64)> {
    let [hz, value] = &pair.as_array()?[..] else { return None };
    let hz = hz.as_f64()?;
    Some((NOMINAL_HZ.iter().position(|nominal| *nominal == hz)?, value.as_f64()?))
}

/// What is still to be read.
struct Reader<'a> {
    rest: &'a [u8],
}

impl<'a> Reader<'a> {
    fn byte(&mut self) -> Option<u8> {
        let (first, rest) = self.rest.split_first()?;
        self.rest = rest;
        Some(*first)
    }

    fn whole(&mut self) -> Option<u64> {
        let mut whole = 0_u64;
        for shift in (0..63).step_by(7) {
            let byte = self.byte()?;
            whole |= u64::from(byte & 0x7f) << shift;
            if byte < 0x80 {
                return Some(whole);
            }
        }
        None
    }

    /// A count of things that are still to come: of each there is at least a byte.
    fn count(&mut self) -> Option<usize> {
        let count = self.whole()? as usize;
        (count <= self.rest.len()).then_some(count)
    }

    fn spelled(&mut self) -> Option<&'a str> {
        let length = self.count()?;
        let (text, rest) = self.rest.split_at_checked(length)?;
        self.rest = rest;
        std::str::from_utf8(text).ok()
    }

    fn decimal(&mut self, decimals: u8) -> Option<f64> {
        let digits = self.whole()?;
        (digits < MOST_DIGITS && decimals <= MOST_DECIMALS).then(|| from_decimal(digits, decimals))
    }

    fn key(&mut self, depth: usize) -> Option<String> {
        match self.whole()? {
            SPELLED_KEY => self.spelled().map(str::to_owned),
            JOINED_KEY => {
                let mut parts = Vec::new();
                for _ in 0..self.count()? {
                    parts.push(match self.value(depth + 1)? {
                        Value::String(text) => text,
                        Value::Number(number) => number.as_f64()?.to_string(),
                        _ => return None,
                    });
                }
                Some(parts.join("/"))
            }
            place => Some((*KEYS.get(usize::try_from(place - FIRST_KEY).ok()?)?).to_owned()),
        }
    }

    fn bands(&mut self) -> Option<Value> {
        let bands = self.whole()?;
        let decimals = self.byte()?;
        if bands >> NOMINAL_HZ.len() != 0 || decimals > MOST_DECIMALS {
            return None;
        }
        let mut digits = 0_i64;
        let mut pairs = Vec::new();
        for (_, hz) in NOMINAL_HZ.iter().enumerate().filter(|(band, _)| bands >> band & 1 == 1) {
            let step = self.whole()?;
            let size = i64::try_from(step.div_ceil(2)).ok()?;
            digits = digits.checked_add(if step % 2 == 1 { -size } else { size })?;
            if digits.abs() >= MOST_BAND_DIGITS {
                return None;
            }
            pairs.push(Value::Array(vec![(*hz).into(), signed(digits, decimals).into()]));
        }
        Some(Value::Array(pairs))
    }

    fn value(&mut self, depth: usize) -> Option<Value> {
        if depth > DEEPEST {
            return None;
        }
        let kind = self.byte()?;
        Some(match kind {
            NULL => Value::Null,
            FALSE => false.into(),
            TRUE => true.into(),
            BINARY => {
                let (bytes, rest) = self.rest.split_first_chunk()?;
                self.rest = rest;
                Value::Number(Number::from_f64(f64::from_le_bytes(*bytes))?)
            }
            TEXT => self.spelled()?.into(),
            FAR_NAME => (*NAMES.get(usize::try_from(self.whole()?).ok()?)?).into(),
            LIST => {
                let mut list = Vec::new();
                for _ in 0..self.count()? {
                    list.push(self.value(depth + 1)?);
                }
                list.into()
            }
            OBJECT => {
                let mut object = Map::new();
                for _ in 0..self.count()? {
                    let key = self.key(depth)?;
                    let value = self.value(depth + 1)?;
                    // Of two values for the same thing neither can be meant.
                    if object.insert(key, value).is_some() {
                        return None;
                    }
                }
                object.into()
            }
            BANDS => self.bands()?,
            DECIMAL..NEGATIVE => self.decimal(kind - DECIMAL)?.into(),
            NEGATIVE..NEAR_NAME => (-self.decimal(kind - NEGATIVE)?).into(),
            NEAR_NAME..WHOLE => NAMES[usize::from(kind - NEAR_NAME)].into(),
            WHOLE.. => f64::from(kind - WHOLE).into(),
            _ => return None,
        })
    }
}
