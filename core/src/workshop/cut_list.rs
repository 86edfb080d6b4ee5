//! The cut list: boards of one material and one size are one line.

use serde::{Deserialize, Serialize};

use super::parts::Part;
use super::shells::{Board, ShellName};

/// Sizes that differ by less are the same, in mm: less than anybody saws.
const SAME_MM: f64 = 0.05;

/// One line of the cut list.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CutLine {
    /// The names of its parts, as they are written on them.
    pub names: Vec<String>,
    /// The box that they belong to.
    pub shell: ShellName,
    /// Their layer, from the inside, 0 at first; the baffle has none.
    pub layer: Option<usize>,
    /// Which of the boards in [`CutList::boards`] they are made of.
    pub board: usize,
    /// Longer side in mm.
    pub length_mm: f64,
    /// Shorter side in mm.
    pub width_mm: f64,
    /// Whether the grain has to run along the longer side.
    pub keeps_grain: bool,
    /// Whether they have holes or cut-outs.
    pub has_openings: bool,
}

/// All lines, and what the parts are made of.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct CutList {
    /// Lines, from the inside out.
    pub lines: Vec<CutLine>,
    /// Materials by thickness, in the order in which they come first.
    pub boards: Vec<Board>,
}

/// The cut list of `parts`, without what stands there already.
pub fn cut_list(parts: &[Part], keeps_grain: bool) -> CutList {
    let mut list = CutList::default();
    for part in parts.iter().filter(|part| !part.exists) {
        let known = list.boards.iter().position(|board| *board == part.board);
        let board = known.unwrap_or_else(|| {
            list.boards.push(part.board.clone());
            list.boards.len() - 1
        });
        let has_openings = !part.openings.is_empty();
        let same = |line: &&mut CutLine| {
            line.shell == part.shell
                && line.layer == part.layer
                && line.board == board
                && (line.length_mm - part.length_mm).abs() < SAME_MM
                && (line.width_mm - part.width_mm).abs() < SAME_MM
                && line.has_openings == has_openings
        };
        match list.lines.iter_mut().find(same) {
            Some(line) => line.names.push(part.name.clone()),
            None => list.lines.push(CutLine {
                names: vec![part.name.clone()],
                shell: part.shell,
                layer: part.layer,
                board,
                length_mm: part.length_mm,
                width_mm: part.width_mm,
                keeps_grain: keeps_grain && part.board.has_grain,
                has_openings,
            }),
        }
    }
    list
}
