//! Where holes for cables and cut-outs for ducts lie in the boards.

use serde::{Deserialize, Serialize};

use crate::design::CheckedDesign;

use super::panel::{Block, Face};
use super::shells::{ShellBox, ShellName};

/// From the lining, or the corner where there is none, to the edge of a hole, in mm: room for a nut and a screwdriver; assumed.
const MARGIN_MM: f64 = 40.0;
/// Least wood in mm between two holes; assumed.
const BETWEEN_MM: f64 = 30.0;
/// Least wood in mm between a cut-out for a duct and the corner of the box, so that its board stays whole; assumed.
const DUCT_EDGE_MM: f64 = 30.0;
/// Thickness in mm of the boards of a duct; assumed.
pub const DUCT_BOARD_MM: f64 = 12.0;

/// A hole or a cut-out in a board; its middle is measured from the left and from the lower edge of the board, seen from
/// outside; of top and bottom, from the back and from the left side.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Opening {
    /// From the left edge in mm.
    pub x_mm: f64,
    /// From the lower edge in mm.
    pub y_mm: f64,
    /// Width in mm, or the diameter.
    pub width_mm: f64,
    /// Height in mm; `None`: it is round.
    pub height_mm: Option<f64>,
}

impl Opening {
    /// Its width and height in mm.
    pub fn size_mm(&self) -> [f64; 2] {
        [self.width_mm, self.height_mm.unwrap_or(self.width_mm)]
    }

    /// Whether it meets `other`, as the rectangles round both.
    fn meets(&self, other: &Self) -> bool {
        let (own, others) = (self.size_mm(), other.size_mm());
        let apart = [(self.x_mm - other.x_mm).abs(), (self.y_mm - other.y_mm).abs()];
        (0..2).all(|axis| apart[axis] < 0.5 * (own[axis] + others[axis]))
    }
}

/// Whether all `openings` lie within a board of width and height `board_mm`, and none in another: where there are too many or too
/// large ones for one face, some have to go elsewhere.
pub fn openings_fit(openings: &[Opening], board_mm: [f64; 2]) -> bool {
    let lies_within = |opening: &Opening| {
        let ([width_mm, height_mm], at) = (opening.size_mm(), [opening.x_mm, opening.y_mm]);
        [width_mm, height_mm]
            .into_iter()
            .zip(at)
            .zip(board_mm)
            .all(|((size, at), side)| at >= 0.5 * size && at + 0.5 * size <= side)
    };
    openings.iter().all(lies_within)
        && openings.iter().enumerate().all(|(k, one)| openings[..k].iter().all(|other| !one.meets(other)))
}

/// The openings of the board of `face`, which lies at `at`.
///
/// They go straight through all layers of a shell.
pub fn openings(design: &CheckedDesign, shell: &ShellBox, face: Face, at: &Block) -> Vec<Opening> {
    let mut openings = Vec::new();
    let place = |[across_mm, up_mm]: [f64; 2]| {
        let [u, v] = face.across();
        let x_mm = if face.is_mirrored() { at.to_mm[u] - across_mm } else { across_mm - at.from_mm[u] };
        [x_mm, up_mm - at.from_mm[v]]
    };
    let (part, inner) = match shell.name {
        ShellName::Inner => (Some(&design.document.inner.holes), true),
        ShellName::Outer => (design.document.outer.as_ref().map(|outer| &outer.holes), false),
    };
    if let Some(holes) = part
        && face == cable_face(shell, holes.diameter_mm)
    {
        let lining_mm = if inner { design.lining.as_ref().map_or(0.0, |lining| 1000.0 * lining.thickness_m) } else { 0.0 };
        // Where the lining leaves no room, holes go through it.
        let lined = shell.inside().grown(-lining_mm);
        let fits = face.across().into_iter().all(|axis| lined.size_mm()[axis] >= holes.diameter_mm);
        let within = if fits { lined } else { shell.inside() };
        for at_mm in cable_holes(&within, face, holes.count as usize, holes.diameter_mm, inner) {
            let [x_mm, y_mm] = place(at_mm);
            openings.push(Opening { x_mm, y_mm, width_mm: holes.diameter_mm, height_mm: None });
        }
    }
    if let Some(vents) = &design.document.vents {
        let around_mm = 2.0 * (DUCT_BOARD_MM + vents.lining.as_ref().map_or(0.0, |lining| lining.thickness_mm));
        let size_mm = [vents.width_mm + around_mm, vents.height_mm + around_mm];
        for at_mm in ducts(shell, face, vents.count as usize, size_mm) {
            let [x_mm, y_mm] = place(at_mm);
            openings.push(Opening { x_mm, y_mm, width_mm: size_mm[0], height_mm: Some(size_mm[1]) });
        }
    }
    openings
}

/// The face that cables go through: the one across from the lid, which nobody moves; or where that is too small, the next one
/// that is not.
pub fn cable_face(shell: &ShellBox, diameter_mm: f64) -> Face {
    let size_mm = shell.inside().size_mm();
    let fits = |face: &Face| face.across().into_iter().all(|axis| size_mm[axis] >= diameter_mm);
    let across = shell.lid.opposite();
    let others = Face::ALL.into_iter().filter(|face| *face != shell.lid);
    std::iter::once(across).chain(others).find(fits).unwrap_or(across)
}

/// Middles of `count` holes along the axes of `face`, in rows from the lower edge of `within` upwards. Those of the inner box
/// begin at one side and those of the outer box at the other, so that no hole looks into another.
fn cable_holes(within: &Block, face: Face, count: usize, diameter_mm: f64, from_low: bool) -> Vec<[f64; 2]> {
    let [u, v] = face.across();
    let radius_mm = 0.5 * diameter_mm;
    // Where the face is small, the margin goes first.
    let margin_mm = |axis: usize| MARGIN_MM.min(0.5 * (within.size_mm()[axis] - diameter_mm)).max(0.0) + radius_mm;
    let pitch_mm = diameter_mm + BETWEEN_MM.max(diameter_mm);
    let first = [within.from_mm[u] + margin_mm(u), within.from_mm[v] + margin_mm(v)];
    let last_mm = within.to_mm[u] - margin_mm(u);
    let in_row = ((last_mm - first[0]) / pitch_mm).floor().max(0.0) as usize + 1;
    let rows = count.div_ceil(in_row).max(1);
    let room_mm = within.to_mm[v] - margin_mm(v) - first[1];
    let rise_mm = if rows > 1 { pitch_mm.min(room_mm / (rows - 1) as f64) } else { 0.0 };
    let place = |k: usize| {
        let along_mm = (k % in_row) as f64 * pitch_mm;
        let across_mm = if from_low { first[0] + along_mm } else { last_mm - along_mm };
        [across_mm, first[1] + (k / in_row) as f64 * rise_mm]
    };
    (0..count).map(place).collect()
}

/// Middles of the cut-outs for ducts of `size_mm`: those that let air in lie low in the left side, those that let it out lie
/// high in the right one; where the lid is in the way, in the back.
fn ducts(shell: &ShellBox, face: Face, count: usize, size_mm: [f64; 2]) -> Vec<[f64; 2]> {
    let into = count.div_ceil(2);
    let out_face = if shell.lid == Face::Right { Face::Back } else { Face::Right };
    let (number, is_low) = match face {
        Face::Left => (into, true),
        _ if face == out_face => (count - into, false),
        _ => return Vec::new(),
    };
    let (inside, [u, v]) = (shell.inside(), face.across());
    let [from_mm, to_mm] = [inside.from_mm[u], inside.to_mm[u]];
    let edge_mm = 0.5 * size_mm[1] + DUCT_EDGE_MM;
    let up_mm = if is_low { inside.from_mm[v] + edge_mm } else { inside.to_mm[v] - edge_mm };
    (0..number).map(|k| [from_mm + (to_mm - from_mm) * (k as f64 + 0.5) / number as f64, up_mm]).collect()
}
