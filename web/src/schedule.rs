//! What a schedule of differences is made of: rows of cells, one for each design. The page reads the inputs, the workshop adds what the
//! designs do and writes the sheet.

use hushwright::design::Design;
use serde::{Deserialize, Serialize};

use crate::explanations::Told;
use crate::quantity::Units;

/// How the designs are told apart.
pub const LETTERS: [&str; 4] = ["A", "B", "C", "D"];

/// Widths and dashes in px of the lines that stand for them.
pub const STROKES: [(f64, Option<(f64, f64)>); 4] =
    [(2.75, None), (2.25, Some((8.0, 4.0))), (2.25, Some((2.5, 2.5))), (2.25, Some((16.0, 4.0)))];

/// Results that the sheet can explain, by their places here.
pub const EXPLAINED: [Told; 9] = [
    Told::Level,
    Told::Verdict,
    Told::Room,
    Told::InsertionLoss,
    Told::LimitingPath,
    Told::Mass,
    Told::Cost,
    Told::HoursOfWork,
    Told::OutsideSize,
];

/// What a row holds of one design.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Cell {
    /// What it is, in words or as a number; empty where the design has no such thing.
    pub text: String,
    /// How it differs from that of the first design: by how much, or by nothing that can be counted (empty).
    pub change: Option<String>,
}

/// One thing of all designs.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Row {
    /// What it is, with its unit.
    pub label: String,
    /// One for each design.
    pub cells: Vec<Cell>,
}

/// How designs stand to an input.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Kind {
    /// It is not the same in all that have it.
    Differs,
    /// It is, and some have it not.
    Partly,
    /// It is the same in all.
    Alike,
}

/// The inputs at one place on the way of the sound.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Place {
    /// What it is called.
    pub title: String,
    /// Its rows; an input that none of the designs has is none.
    pub rows: Vec<(Kind, Row)>,
}

/// A design over its column.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Column {
    /// The design and its estimate as bytes.
    Design(Vec<u8>, Vec<u8>),
    /// Why it cannot be opened.
    Refused(String),
}

/// What the page asks of the workshop.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Comparison {
    /// The designs, the present one first.
    pub columns: Vec<Column>,
    /// Their inputs.
    pub inputs: Vec<Place>,
    /// Key of the units shown.
    pub units: String,
    /// Names of the designs that are offered.
    pub offered: Vec<String>,
    /// What was pasted as a link and is none.
    pub pasted: String,
    /// Why nothing more was set beside.
    pub wrong: Option<String>,
}

impl Comparison {
    /// A question about these designs.
    pub fn new(columns: Vec<Column>, designs: &[Option<&Design>], units: Units) -> Self {
        Self {
            columns,
            inputs: crate::differences::differences(designs, units),
            units: units.key().to_owned(),
            offered: Vec::new(),
            pasted: String::new(),
            wrong: None,
        }
    }

    /// As it travels.
    ///
    /// # Panics
    /// Never: text can always be written.
    pub fn to_bytes(&self) -> Vec<u8> {
        postcard::to_allocvec(self).expect("text can always be written")
    }

    /// As it arrives; `None` if it is anything else.
    pub fn from_bytes(bytes: &[u8]) -> Option<Self> {
        postcard::from_bytes(bytes).ok()
    }
}
