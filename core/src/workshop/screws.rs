//! Screws: how many a board has, where they go, how long they are.

use serde::{Deserialize, Serialize};

use super::panel::{Block, Face};
use super::shells::{Board, ShellBox, ShellLayer};

/// From the edge of a board to a screw through its face, in mm (common practice, no source).
pub const EDGE_MM: f64 = 25.0;
/// How far in mm a screw goes into the edge of a board (common practice, no source).
const INTO_EDGE_MM: f64 = 30.0;
/// Part of the board behind that a screw takes up: it must not come out again.
const INTO_FACE: f64 = 0.8;
/// Thinnest board in mm into whose edge a screw goes without splitting it, and thinnest that holds one in its face (common
/// practice, no source).
const HOLDING_MM: [f64; 2] = [12.0, 9.0];
/// Materials that hold a screw: boards of wood (common practice, no source).
const HOLDING: [&str; 5] = ["birch-plywood", "softwood-plywood", "mdf", "particle-board", "osb"];
/// Screws are made in steps of so many mm.
const LENGTH_STEP_MM: f64 = 5.0;

/// The screws of a board.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Screws {
    /// How many along its width as it is seen from outside, and along its height; or none.
    pub grid: [usize; 2],
    /// Whether the rows along the width begin half a step further in.
    pub is_shifted: bool,
    /// How many go into the edges of other boards.
    pub into_edges: usize,
    /// Whether something behind holds them: wood does, gypsum and the like do not.
    pub are_held: bool,
    /// Longest that is safe, in mm.
    pub longest_mm: f64,
}

impl Screws {
    /// All of them.
    pub fn count(&self) -> usize {
        self.grid[0] * self.grid[1] + self.into_edges
    }
}

/// The screws of the board of `face`, which lies at `at`, at most `pitch_mm` apart.
///
/// The innermost layer is screwed into the edges that its boards cover, where they hold a screw; every other one through its face
/// into the next layer inside it that does. Every other layer has its screws half a step further, so that no screw meets a screw.
pub fn screws(shell: &ShellBox, layer: &ShellLayer, face: Face, at: &Block, pitch_mm: f64) -> Screws {
    let (size_mm, across) = (at.size_mm(), face.across());
    let step_down = |length_mm: f64| LENGTH_STEP_MM * (length_mm / LENGTH_STEP_MM).floor();
    if layer.place == 0 {
        if face == shell.lid {
            return Screws::default();
        }
        let covered = |axis: usize| layer.layer.joints.covers(face.axis(), axis) && axis != shell.lid.axis();
        let ends = |axis: usize| {
            let along = across.into_iter().find(|other| *other != axis).unwrap_or(axis);
            2 * along_edge(size_mm[along], pitch_mm)
        };
        // Where the lid is, the board covers one edge less.
        let beside_lid = |axis: usize| {
            let covers = layer.layer.joints.covers(face.axis(), axis) && axis == shell.lid.axis();
            let along = across.into_iter().find(|other| *other != axis).unwrap_or(axis);
            if covers { along_edge(size_mm[along], pitch_mm) } else { 0 }
        };
        let into_edges = across.into_iter().map(|axis| if covered(axis) { ends(axis) } else { beside_lid(axis) }).sum();
        let are_held = holds(&layer.board, HOLDING_MM[0]);
        let longest_mm = if are_held { step_down(layer.board.thickness_mm + INTO_EDGE_MM) } else { 0.0 };
        let into_edges = if are_held { into_edges } else { 0 };
        return Screws { into_edges, are_held, longest_mm, ..Screws::default() };
    }
    let mut grid = across.map(|axis| along_edge(size_mm[axis], pitch_mm));
    let is_shifted = layer.place.is_multiple_of(2) && grid[0] > 2;
    grid[0] -= usize::from(is_shifted);
    // Through whatever holds no screw to what does.
    let mut reach_mm = layer.board.thickness_mm + layer.joint_mm;
    for inner in shell.layers[..layer.place].iter().rev() {
        if holds(&inner.board, HOLDING_MM[1]) {
            let longest_mm = step_down(reach_mm + INTO_FACE * inner.board.thickness_mm);
            return Screws { grid, is_shifted, into_edges: 0, are_held: true, longest_mm };
        }
        reach_mm += inner.board.thickness_mm + inner.joint_mm;
    }
    Screws::default()
}

/// Whether `board` holds a screw, at least `least_mm` thick. Nothing is known of own materials.
fn holds(board: &Board, least_mm: f64) -> bool {
    HOLDING.contains(&board.key.as_str()) && board.thickness_mm >= least_mm
}

/// Screws in a row along a side of `side_mm`, the outermost [`EDGE_MM`] from its ends.
fn along_edge(side_mm: f64, pitch_mm: f64) -> usize {
    let between_mm = (side_mm - 2.0 * EDGE_MM).max(0.0);
    ((between_mm / pitch_mm - 1e-9).ceil().max(0.0) as usize + 1).max(2)
}

/// Where the screws of a row of `count` lie on a side of `side_mm`, from its end in mm; `is_shifted` by half a step.
pub fn row_mm(side_mm: f64, count: usize, is_shifted: bool) -> Vec<f64> {
    let steps = if is_shifted { count } else { count.saturating_sub(1) };
    let pitch_mm = (side_mm - 2.0 * EDGE_MM) / steps.max(1) as f64;
    let first_mm = EDGE_MM + if is_shifted { 0.5 * pitch_mm } else { 0.0 };
    (0..count).map(|k| first_mm + k as f64 * pitch_mm).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_ends_at_its_ends_and_no_gap_is_too_wide() {
        assert_eq!(along_edge(450.0, 200.0), 3);
        assert_eq!(row_mm(450.0, 3, false), [25.0, 225.0, 425.0]);
        assert_eq!(row_mm(450.0, 2, true), [125.0, 325.0]);
        for side_mm in [60.0, 300.0, 733.0, 2000.0] {
            let count = along_edge(side_mm, 200.0);
            let row = row_mm(side_mm, count, false);
            assert!(row.windows(2).all(|pair| pair[1] - pair[0] <= 200.0 + 1e-9), "{row:?}");
        }
    }
}
