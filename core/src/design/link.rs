//! The link: a design in a URL fragment.
//!
//! `v1.DATA.SUM`: DATA is base64url (RFC 4648, section 5, no padding) of the JSON merge patch (RFC 7396) that turns the base
//! document into the design, as bytes (see `patch/bytes.rs`) or spelled out as JSON, which begins with `{`; SUM is the CRC-32 of DATA
//! in eight hexadecimal digits, so that a link cut short by a mail program is recognised. The base document is the first example as
//! it was when the version began, and stays as it is: what an old link says does not change with the examples. A key that comes
//! later has a default that changes nothing.

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use crc::{CRC_32_ISO_HDLC, Crc, NoTable};
use serde_json::Value;

use super::check::CheckedDesign;
use super::document::Design;
use super::patch;
use super::version::{CURRENT, VERSIONS, Version, upgrade};
use crate::error::FieldError;
use crate::json;
use crate::mapping;

pub use super::patch::LONGEST;

/// The sum of links: CRC-32 of ISO-HDLC, as in gzip. Without a table: links are short, and the page is small.
const CRC_32: Crc<u32, NoTable> = Crc::<u32, NoTable>::new(&CRC_32_ISO_HDLC);

/// Most digits of the number of a version.
const MOST_DIGITS: usize = 5;

/// Why a link cannot be opened, in words for the person who opened it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LinkError {
    /// Longer than any design can be.
    TooLong,
    /// Not a link of this program.
    Unknown,
    /// A version that this build does not know: its number.
    NewerVersion(u64),
    /// Cut short or changed on the way.
    Damaged,
    /// Whole, but what it says cannot be built; the reason names the field.
    Refused(String),
}

impl std::fmt::Display for LinkError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::TooLong => write!(f, "The link is longer than any design can be ({LONGEST} characters)."),
            Self::Unknown => f.write_str("What follows # in the address is no design."),
            Self::NewerVersion(number) => write!(
                f,
                "The link was made by a newer version of Hushwright than this one: it is of version {number}, and this page reads up \
                 to {CURRENT}."
            ),
            Self::Damaged => f.write_str("The link was cut short or changed on the way; ask for it again, as a whole line."),
            Self::Refused(reason) => write!(f, "The link is whole, but its design cannot be used. {reason}"),
        }
    }
}

impl std::error::Error for LinkError {}

/// The fragment, without `#`, that carries `design`.
pub fn encode(design: &Design) -> String {
    fragment(CURRENT, &patch::packed(design))
}

/// The checked design and the fragment of its link, which the check has to put together anyway.
///
/// # Errors
/// As [`Design::check`].
pub fn check_and_encode(design: &Design) -> Result<(CheckedDesign, String), Vec<FieldError>> {
    let (checked, packed) = design.check_packed()?;
    Ok((checked, fragment(CURRENT, &packed)))
}

/// A whole link round `patch`.
fn fragment(number: u64, patch: &[u8]) -> String {
    let data = URL_SAFE_NO_PAD.encode(patch);
    format!("v{number}.{data}.{:08x}", CRC_32.checksum(data.as_bytes()))
}

/// The design that `fragment` (with or without `#`) carries; it has passed its check. What the sentence round an address or a
/// messenger has left behind it, from the first character on that no link has, is not part of it.
///
/// # Errors
/// Says in words for the reader what is wrong with the link.
pub fn decode(fragment: &str) -> Result<Design, LinkError> {
    let document = document(fragment, VERSIONS)?;
    let design = mapping::from_value::<Design>(&document).map_err(|error| LinkError::Refused(error.to_string()))?;
    match design.check() {
        Ok(_) => Ok(design),
        Err(errors) => Err(LinkError::Refused(errors.first().map(ToString::to_string).unwrap_or_default())),
    }
}

/// The document that `fragment` carries, as one of the last of `versions`.
fn document(fragment: &str, versions: &[Version]) -> Result<Value, LinkError> {
    let fragment = fragment.strip_prefix('#').unwrap_or(fragment);
    if fragment.len() > LONGEST {
        return Err(LinkError::TooLong);
    }
    let fragment = fragment.split(|letter| !is_of_links(letter)).next().unwrap_or_default();
    let (number, rest) = numbered(fragment).ok_or(LinkError::Unknown)?;
    let Some(version) = versions.iter().find(|version| version.number == number) else {
        return Err(LinkError::NewerVersion(number));
    };
    let (data, sum) = rest.trim_end_matches(['.', '/']).rsplit_once('.').ok_or(LinkError::Damaged)?;
    if sum != format!("{:08x}", CRC_32.checksum(data.as_bytes())) {
        return Err(LinkError::Damaged);
    }
    let bytes = URL_SAFE_NO_PAD.decode(data).map_err(|_| LinkError::Damaged)?;
    let mut document = (version.base)();
    patch::merge(&mut document, read_patch(&bytes)?);
    upgrade(&mut document, number, versions);
    Ok(document)
}

/// Whether addresses of designs have this character: those of base64url (RFC 4648, section 5), the point between the parts of a link,
/// and the stroke after the name of a view and between several links.
pub const fn is_of_links(letter: char) -> bool {
    letter.is_ascii_alphanumeric() || matches!(letter, '-' | '_' | '.' | '/')
}

/// The number of the version and what follows its point.
fn numbered(fragment: &str) -> Option<(u64, &str)> {
    let (number, rest) = fragment.strip_prefix('v')?.split_once('.')?;
    let is_number = (1..=MOST_DIGITS).contains(&number.len()) && number.bytes().all(|byte| byte.is_ascii_digit());
    Some((number.parse().ok().filter(|_| is_number)?, rest))
}

/// A merge patch, packed or spelled out.
fn read_patch(bytes: &[u8]) -> Result<Value, LinkError> {
    if bytes.first() == Some(&b'{') {
        let text = std::str::from_utf8(bytes).map_err(|_| LinkError::Damaged)?;
        return json::parse_value(text).map_err(|error| LinkError::Refused(error.to_string()));
    }
    let patch = patch::unpack(bytes).filter(Value::is_object);
    patch.ok_or_else(|| LinkError::Refused("What it holds is no difference of designs.".to_owned()))
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    /// Versions as they might be one day: the second has the gap's depth in metres, under a key of another name, and its base has
    /// another room.
    const INVENTED: &[Version] = &[
        Version { number: 0, base: VERSIONS[0].base, from_before: VERSIONS[0].from_before },
        Version { number: 1, base: VERSIONS[1].base, from_before: VERSIONS[1].from_before },
        Version { number: 2, base: base_2, from_before: metres },
    ];

    fn metres(document: &mut Value) {
        let Some(gap) = document.get_mut("gap").and_then(Value::as_object_mut) else { return };
        if let Some(depth) = gap.shift_remove("depth_mm").and_then(|depth| depth.as_f64()) {
            gap.insert("depth_m".to_owned(), (depth / 1000.0).into());
        }
    }

    fn base_2() -> Value {
        let mut base = patch::base();
        metres(&mut base);
        base["room"]["height_m"] = 3.0.into();
        base
    }

    #[test]
    fn a_link_of_version_1_becomes_a_document_of_version_2() {
        let mut design = Design::default();
        (design.gap.depth_mm, design.name) = (80.0, "Kept".to_owned());
        let link = encode(&design);
        let document = document(&link, INVENTED).expect("it is read");
        assert_eq!(document["gap"]["depth_m"], json!(0.08));
        assert_eq!((&document["name"], document["gap"].get("depth_mm")), (&json!("Kept"), None));
        assert_eq!(document["room"]["height_m"], json!(2.5), "the base of its own version");
    }

    #[test]
    fn a_link_of_version_2_is_read_by_its_build_and_told_by_this_one() {
        let link = fragment(2, &patch::pack(&json!({"gap": {"depth_m": 0.03}})));
        let read = document(&link, INVENTED).expect("it is read");
        assert_eq!((&read["gap"]["depth_m"], &read["room"]["height_m"]), (&json!(0.03), &json!(3.0)));
        assert_eq!(decode(&link), Err(LinkError::NewerVersion(2)));
        assert!(LinkError::NewerVersion(2).to_string().contains("version 2"));
    }

    #[test]
    fn a_link_of_version_0_goes_through_every_step() {
        let link = fragment(0, br#"{"gap":{"depth_mm":40}}"#);
        let document = document(&link, INVENTED).expect("it is read");
        assert_eq!((&document["gap"]["depth_m"], &document["listeners"]), (&json!(0.04), &json!([])));
    }

    #[test]
    fn versions_have_no_gaps() {
        assert!(VERSIONS.iter().zip(0..).all(|(version, number)| version.number == number));
    }
}
