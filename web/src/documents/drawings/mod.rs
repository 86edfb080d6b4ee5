//! Drawings of the workshop documents: from core's plan to SVG text, natively and in the browser the same.
//!
//! A drawing has its sizes in mm and no colour: classes take it from `web/style/drawings.css`. Heavy lines are outlines of boards,
//! thin ones dimensions and what is behind.

mod board;
mod corner;
mod exploded;
mod joints;
mod lid;
mod numbers;
mod paper;
mod places;
mod sheet;
mod sheet_labels;
mod sheet_words;

#[cfg(all(test, not(target_arch = "wasm32")))]
mod tests;

use hushwright::workshop::feet_and_inches;

use crate::quantity::{Quantity, Units};

pub use board::board;
pub use exploded::exploded;
pub use joints::joints;
pub use places::places;
pub use sheet::{sheet, sheet_svg_file};

/// A length with its unit: `812 mm`, or as a rule in inches has it.
fn length(mm: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{} mm", bare(mm, units)),
        Units::Imperial => bare(mm, units),
    }
}

/// A length as drawings have it: millimetres go without saying.
fn bare(mm: f64, units: Units) -> String {
    match units {
        Units::Metric => Quantity::Length.write(mm, units),
        Units::Imperial => feet_and_inches(mm),
    }
}

/// Two sides with their unit: `812 × 400 mm`.
fn size(one_mm: f64, other_mm: f64, units: Units) -> String {
    format!("{} × {}", bare(one_mm, units), length(other_mm, units))
}

/// What the numbers of a drawing are in.
const fn unit_note(units: Units) -> &'static str {
    match units {
        Units::Metric => "in mm",
        Units::Imperial => "in feet and inches",
    }
}

/// `count` of something that has a regular plural, in words.
fn counted(count: usize, one: &str) -> String {
    format!("{count} {one}{}", if count == 1 { "" } else { "s" })
}

/// A part of an id: small letters, digits and hyphens of `words`.
fn slug(words: &str) -> String {
    let keep = |c: char| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' };
    words.chars().map(keep).collect()
}
