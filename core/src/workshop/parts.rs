//! The boards of a design as parts: each with its name, its size, its holes and its screws.

use crate::design::CheckedDesign;
use crate::material;

use super::holes::{Opening, openings};
use super::panel::{Block, Face};
use super::screws::{Screws, screws};
use super::shells::{Board, ShellBox, ShellName};
use crate::buildup::raw::NameOr;

/// A board to be sawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// What is written on it: `O2 left`.
    pub name: String,
    /// The box that it belongs to.
    pub shell: ShellName,
    /// The layer of that box, from the inside, 0 at first; the baffle has none.
    pub layer: Option<usize>,
    /// Its face, if it is one.
    pub face: Option<Face>,
    /// Whether it is a board of a lid.
    pub is_lid: bool,
    /// What it is made of.
    pub board: Board,
    /// Where it lies.
    pub at: Block,
    /// Its longer side in mm.
    pub length_mm: f64,
    /// Its shorter side in mm.
    pub width_mm: f64,
    /// Whether it stands there already.
    pub exists: bool,
    /// Holes and cut-outs, from its lower left corner as it is seen from outside.
    pub openings: Vec<Opening>,
    /// Its screws.
    pub screws: Screws,
}

impl Part {
    /// Mass in kg, holes not taken off.
    pub fn mass_kg(&self) -> f64 {
        self.at.volume_m3() * self.board.density
    }
}

/// Every board of `design`, shell by shell from the inside out, the baffle last.
pub fn parts(design: &CheckedDesign, shells: &[ShellBox]) -> Vec<Part> {
    let mut parts = Vec::new();
    for shell in shells {
        for layer in &shell.layers {
            for face in Face::ALL {
                let at = layer.layer.board(face);
                let is_lid = face == shell.lid;
                let what = if is_lid { "lid" } else { face.name() };
                let [length_mm, width_mm] = sides(&at, face.axis());
                parts.push(Part {
                    name: format!("{}{} {what}", shell.name.letter(), layer.place + 1),
                    shell: shell.name,
                    layer: Some(layer.place),
                    face: Some(face),
                    is_lid,
                    board: layer.board.clone(),
                    at,
                    length_mm,
                    width_mm,
                    exists: layer.exists,
                    openings: openings(design, shell, face, &at),
                    screws: screws(shell, layer, face, &at, design.document.build.screw_mm),
                });
            }
        }
    }
    parts.extend(shells.first().and_then(|shell| baffle(design, shell)));
    parts
}

/// The two sides of `block` across `axis`, the longer first.
fn sides(block: &Block, axis: usize) -> [f64; 2] {
    let size_mm = block.size_mm();
    let [one, other] = [size_mm[(axis + 1) % 3], size_mm[(axis + 2) % 3]];
    [one.max(other), one.min(other)]
}

/// The baffle, which stands across the inside of the inner box.
fn baffle(design: &CheckedDesign, shell: &ShellBox) -> Option<Part> {
    let part = design.document.inner.baffle.as_ref()?;
    material::sheet(&part.sheet)?;
    let board = Board::new(&NameOr::Name(part.sheet.clone()), part.thickness_mm)?;
    let inside = shell.inside();
    let clearance_mm = design.document.build.clearance_mm;
    let mut at = inside.grown(-clearance_mm);
    at.from_mm[0] = inside.from_mm[0] + part.rear_mm;
    at.to_mm[0] = at.from_mm[0] + part.thickness_mm;
    let [length_mm, width_mm] = sides(&at, 0);
    Some(Part {
        name: "I baffle".to_owned(),
        shell: ShellName::Inner,
        layer: None,
        face: None,
        is_lid: false,
        board,
        at,
        length_mm,
        width_mm,
        exists: false,
        openings: Vec::new(),
        screws: Screws::default(),
    })
}
