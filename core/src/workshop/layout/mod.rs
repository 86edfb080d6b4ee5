//! Sheet layout: parts sawn out of stock sheets by guillotine cuts.
//!
//! Every cut goes from edge to edge of the piece in hand, as a panel saw or a hand-held saw on a guide cuts. The best of many
//! heuristics is taken (`search`); it is never claimed to be the optimum, and [`Layout::bound`] says how many sheets are
//! needed at the least. Inside, lengths are whole micrometres, so that a layout is the same natively and in a browser.
//!
//! Along is the long way of the sheet, and of the grain; across is the other. Places are measured from one corner of the
//! raw sheet: x along it, y across it.

mod bound;
mod check;
mod cuts;
mod fill;
mod search;
mod tree;

use serde::{Deserialize, Serialize};

use crate::error::FieldError;

/// Most pieces in one layout.
pub const MAX_PIECES: usize = 1000;

/// A rectangular part, so many times.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Part {
    /// Size along the grain in mm.
    pub length_mm: f64,
    /// Size across the grain in mm.
    pub width_mm: f64,
    /// How many.
    pub count: usize,
    /// Whether it may lie across the grain.
    pub may_turn: bool,
}

/// The sheets that parts are sawn from, and the saw.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Stock {
    /// Size along the grain in mm.
    pub length_mm: f64,
    /// Size across the grain in mm.
    pub width_mm: f64,
    /// What is cut off each of the four edges first, in mm: the saw's kerf is within it.
    pub trim_mm: f64,
    /// Width of what the saw turns into dust, in mm.
    pub kerf_mm: f64,
}

/// A rectangle on the raw sheet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Rectangle {
    /// Nearest corner along the sheet, in mm.
    pub x_mm: f64,
    /// Nearest corner across the sheet, in mm.
    pub y_mm: f64,
    /// Size along the sheet in mm.
    pub length_mm: f64,
    /// Size across the sheet in mm.
    pub width_mm: f64,
}

impl Rectangle {
    /// Area in mm2.
    pub fn area_mm2(&self) -> f64 {
        self.length_mm * self.width_mm
    }
}

/// One part on a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Placement {
    /// Which of the parts, by its place in the list.
    pub part: usize,
    /// Where it lies, as large as it lies there: length along the sheet.
    pub at: Rectangle,
    /// Whether the part's length lies across the sheet.
    pub turned: bool,
}

/// Which way the saw runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Direction {
    /// Along the sheet: the cut has one y.
    Along,
    /// Across the sheet: the cut has one x.
    Across,
}

/// One cut, from edge to edge of the piece in hand.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Cut {
    /// 0 for trimming; 1 for what divides the sheet, and one more each time that the saw turns.
    pub stage: usize,
    /// Which way the saw runs.
    pub direction: Direction,
    /// Where the kerf begins, in mm from the corner of the raw sheet: y of a cut along it, x of one across it.
    pub position_mm: f64,
    /// What the saw takes from there on, in mm: less than its kerf where less than that is left of the piece.
    pub kerf_mm: f64,
    /// The piece in hand before the cut.
    pub piece: Rectangle,
}

impl Cut {
    /// Distance in mm of the kerf's beginning from the near edge of the piece in hand: what a fence or a rule is set to, but for
    /// trimming at that edge.
    pub fn measure_mm(&self) -> f64 {
        match self.direction {
            Direction::Along => self.position_mm - self.piece.y_mm,
            Direction::Across => self.position_mm - self.piece.x_mm,
        }
    }

    /// Where the saw enters and leaves, in mm: x of a cut along the sheet, y of one across it.
    pub fn from_to_mm(&self) -> (f64, f64) {
        match self.direction {
            Direction::Along => (self.piece.x_mm, self.piece.x_mm + self.piece.length_mm),
            Direction::Across => (self.piece.y_mm, self.piece.y_mm + self.piece.width_mm),
        }
    }
}

/// One sheet, ready to be sawn.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SheetLayout {
    /// The parts, in the order in which they come off the saw.
    pub placements: Vec<Placement>,
    /// The cuts, in the order in which they are made.
    pub cuts: Vec<Cut>,
    /// What is left, largest first, without the trimmed edges.
    pub offcuts: Vec<Rectangle>,
    /// Area of the parts over that of the raw sheet.
    pub yield_share: f64,
}

/// A part that no sheet holds.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct TooBig {
    /// Which of the parts, by its place in the list.
    pub part: usize,
    /// Into how many equal pieces its length has to be divided.
    pub pieces_along: usize,
    /// Into how many equal pieces its width has to be divided.
    pub pieces_across: usize,
    /// Length in mm of all joints of one such part.
    pub joint_mm: f64,
    /// What it can be joined from, in place of the part in a next layout: all pieces of all such parts. No allowance is made for
    /// a joint that takes material.
    pub piece: Part,
}

/// Sheets that hold all parts but those that are too big.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Layout {
    /// The sheets, fullest first.
    pub sheets: Vec<SheetLayout>,
    /// Parts that no sheet holds: they are in none.
    pub too_big: Vec<TooBig>,
    /// Sheets that are needed at the least: no layout, found or not, has fewer.
    pub bound: usize,
    /// Area of the parts over that of the raw sheets; 0 without a sheet.
    pub yield_share: f64,
}

/// Lays `parts` out on as few sheets of `stock` as it finds.
///
/// Of equally many sheets it prefers the largest rectangle left over on the last one, then the fewest cuts. The kerf is lost at
/// every cut, but where a part reaches the edge there is none, and what is narrower than the kerf is lost whole. The same input
/// gives the same layout everywhere; the number of tries is bounded by their work, not by time.
///
/// # Errors
/// A size that is not finite or out of range, more than [`MAX_PIECES`] pieces, or nothing left of a sheet after trimming. The
/// path names the field: `parts[2].length_mm`, `stock.trim_mm`.
pub fn lay_out(parts: &[Part], stock: &Stock) -> Result<Layout, FieldError> {
    let (job, too_big) = check::checked(parts, stock)?;
    let sheets: Vec<SheetLayout> = search::best(&job).iter().map(|sheet| cuts::drawn(&job, sheet)).collect();
    let part_area: f64 = sheets.iter().flat_map(|sheet| &sheet.placements).map(|placed| placed.at.area_mm2()).sum();
    let sheet_area = stock.length_mm * stock.width_mm * sheets.len() as f64;
    let yield_share = if sheets.is_empty() { 0.0 } else { part_area / sheet_area };
    Ok(Layout { bound: bound::sheets_at_least(&job), sheets, too_big, yield_share })
}
