//! Parts of the box in a few words.

use hushwright::design::{BracesPart, HolesPart, LidPart, SupportPart};
use hushwright::enclosure::{BraceKind, LidFace, LidForm, SealKind, SupportKind};

use crate::quantity::decimal;

/// `text`, which begins with a letter of ASCII, with a capital in front.
pub fn capital(text: &str) -> String {
    let mut text = text.to_owned();
    if let Some(first) = text.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    text
}

/// `count` of something, in words; `many` where it is not one.
pub fn counted(count: f64, one: &str, many: &str) -> String {
    format!("{} {}", decimal(count, 0), if count == 1.0 { one } else { many })
}

/// Braces in a few words.
pub fn braces_gist(braces: &BracesPart) -> String {
    match braces.kind {
        BraceKind::Battens => counted(braces.count, "batten a wall", "battens a wall"),
        BraceKind::Shelves => counted(braces.count, "shelf", "shelves"),
    }
}

/// Supports in a few words.
pub fn support_gist(support: &SupportPart) -> String {
    let (one, many) = support_words(support.kind);
    counted(support.count, one, many)
}

/// What supports of a kind are called.
pub const fn support_name(kind: SupportKind) -> &'static str {
    support_words(kind).1
}

/// What supports of a kind are called, one and more.
const fn support_words(kind: SupportKind) -> (&'static str, &'static str) {
    match kind {
        SupportKind::Straps => ("strap", "straps"),
        SupportKind::Springs => ("spring", "springs"),
        SupportKind::Pads => ("rubber pad", "rubber pads"),
        SupportKind::Rigid => ("rigid point", "rigid points"),
    }
}

/// A lid in a few words.
pub fn lid_gist(lid: &LidPart) -> String {
    let face = match lid.face {
        LidFace::Front => "front",
        LidFace::Side => "side",
        LidFace::Top => "top",
    };
    let form = if lid.form == LidForm::Stepped { "stepped " } else { "" };
    let seals = if lid.seal == SealKind::Bare { "no seal".to_owned() } else { counted(lid.seals, "seal", "seals") };
    format!("{form}{face} lid, {seals}")
}

/// What is thicker in mm than this is no cable.
const THICKEST_CABLE_MM: f64 = 25.0;

/// Holes in a few words.
pub fn holes_gist(holes: &HolesPart) -> String {
    if holes.count == 0.0 {
        return "no holes".to_owned();
    }
    let sealed = if holes.sealed { "" } else { "open " };
    let what = if holes.cable_mm == 0.0 {
        ""
    } else if holes.cable_mm > THICKEST_CABLE_MM {
        "hose "
    } else {
        "cable "
    };
    counted(holes.count, &format!("{sealed}{what}hole"), &format!("{sealed}{what}holes"))
}
