//! The order of cuts of a sheet, in words.

use hushwright::workshop::CutList;
use hushwright::workshop::layout::{Cut, Direction, Rectangle, SheetLayout};

use super::sheet_labels::names;
use super::{length, size};
use crate::quantity::Units;

/// Sides that differ by less are the same, in mm: layouts count in micrometres.
const SAME_MM: f64 = 0.002;

/// The order of cuts, one sentence each: which way, at what measure, and which part that frees.
pub fn order(layout: &SheetLayout, list: &CutList, units: Units) -> Vec<String> {
    layout.cuts.iter().map(|cut| sentence(cut, layout, list, units)).collect()
}

fn sentence(cut: &Cut, layout: &SheetLayout, list: &CutList, units: Units) -> String {
    let (way, near, far) = match cut.direction {
        Direction::Along => ("Along", "lower", "upper"),
        Direction::Across => ("Across", "left", "right"),
    };
    let at = length(cut.measure_mm(), units);
    if cut.stage == 0 {
        let off = cut.measure_mm() + cut.kerf_mm;
        let side = if cut.direction == Direction::Along { cut.piece.width_mm } else { cut.piece.length_mm };
        return if off < 0.5 * side {
            format!("{way}, to trim the {near} edge: {} off, with the saw's kerf", length(off, units))
        } else {
            format!("{way}, to trim the {far} edge: at {at} from the {near} edge")
        };
    }
    let piece = size(cut.piece.length_mm, cut.piece.width_mm, units);
    let mut words = format!("{way} at {at} from the {near} edge of the piece of {piece}");
    let freed: Vec<String> = both_sides(cut).iter().filter_map(|side| freed(side, layout, list)).collect();
    if !freed.is_empty() {
        words = format!("{words}: {}", freed.join(" and "));
    }
    words
}

/// What a cut leaves on its two sides.
fn both_sides(cut: &Cut) -> [Rectangle; 2] {
    let (mut near, mut far) = (cut.piece, cut.piece);
    let (measure, off) = (cut.measure_mm(), cut.measure_mm() + cut.kerf_mm);
    match cut.direction {
        Direction::Along => {
            near.width_mm = measure;
            (far.y_mm, far.width_mm) = (far.y_mm + off, far.width_mm - off);
        }
        Direction::Across => {
            near.length_mm = measure;
            (far.x_mm, far.length_mm) = (far.x_mm + off, far.length_mm - off);
        }
    }
    [near, far]
}

/// The part that a piece is.
fn freed(piece: &Rectangle, layout: &SheetLayout, list: &CutList) -> Option<String> {
    let same = |at: &Rectangle| {
        [at.x_mm - piece.x_mm, at.y_mm - piece.y_mm, at.length_mm - piece.length_mm, at.width_mm - piece.width_mm]
            .iter()
            .all(|off| off.abs() < SAME_MM)
    };
    let placement = layout.placements.iter().find(|placement| same(&placement.at))?;
    list.lines.get(placement.part).map(names)
}
