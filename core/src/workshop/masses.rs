//! What weighs how much, and where; and the wool of a design, which weighs and is bought.

use serde::{Deserialize, Serialize};

use crate::buildup::Bond;
use crate::buildup::check::COMPOUND_DENSITY;
use crate::buildup::raw::Side;
use crate::design::CheckedDesign;
use crate::enclosure::Braces;
use crate::material;

use super::carry::{Mass, together};
use super::panel::Block;
use super::parts::Part;
use super::purchases::Wool;
use super::shells::{JointKind, ShellBox, ShellName};

/// What a mass belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum MassOf {
    /// The boards of layer `k` of a box, its lid included.
    Layer(ShellName, usize),
    /// The joints of a box.
    Joints(ShellName),
    /// Its battens or shelves.
    Braces(ShellName),
    /// The baffle.
    Baffle,
    /// Wool in the inner box.
    Lining,
    /// Wool in the gap.
    GapFill,
    /// What stands in the box.
    Contents,
}

/// Areas of six slabs of wool `thickness_mm` thick round the inside of `block`.
fn slabs_m2(block: &Block, thickness_mm: f64) -> f64 {
    let volume_m3 = block.volume_m3() - block.grown(-thickness_mm).volume_m3();
    1000.0 * volume_m3 / thickness_mm
}

/// Where the fill of the gap lies, and how thick it is in mm.
fn fill_block(design: &CheckedDesign, shells: &[ShellBox]) -> Option<(Block, f64)> {
    let fill = design.document.gap.fill.as_ref().filter(|fill| fill.share > 0.0)?;
    let inner = shells.first()?.outside();
    shells.get(1)?;
    let depth_mm = design.document.gap.depth_mm;
    let before = match fill.side {
        Side::First => 0.0,
        Side::Middle => 0.5 * (1.0 - fill.share),
        Side::Second => 1.0 - fill.share,
    };
    Some((inner.grown((before + fill.share) * depth_mm), fill.share * depth_mm))
}

/// The wool of a design: lining first, fill of the gap after it, lining of ducts last.
pub fn wool(design: &CheckedDesign, shells: &[ShellBox]) -> Vec<Wool> {
    let document = &design.document;
    let mut wool = Vec::new();
    if let (Some(lining), Some(inner)) = (&document.inner.lining, shells.first()) {
        let area_m2 = slabs_m2(&inner.inside(), lining.thickness_mm);
        wool.push(Wool { key: lining.material.clone(), thickness_mm: lining.thickness_mm, area_m2 });
    }
    if let (Some(fill), Some((block, thickness_mm))) = (&document.gap.fill, fill_block(design, shells)) {
        wool.push(Wool { key: fill.material.clone(), thickness_mm, area_m2: slabs_m2(&block, thickness_mm) });
    }
    if let Some((vents, lining)) = document.vents.as_ref().and_then(|vents| Some((vents, vents.lining.as_ref()?))) {
        let girth_mm = 2.0 * (vents.width_mm + vents.height_mm + 2.0 * lining.thickness_mm);
        let area_m2 = 1e-6 * vents.count * girth_mm * vents.length_mm;
        wool.push(Wool { key: lining.material.clone(), thickness_mm: lining.thickness_mm, area_m2 });
    }
    wool
}

/// Mass and middle of everything; the middle in m from that of the inside.
pub fn weigh(design: &CheckedDesign, shells: &[ShellBox], parts: &[Part]) -> Vec<(MassOf, Mass)> {
    let document = &design.document;
    let mut masses = Vec::new();
    let mut add = |of: MassOf, kg: f64, at_mm: [f64; 3]| {
        if kg > 0.0 {
            masses.push((of, Mass { kg, at_m: at_mm.map(|at| at / 1000.0) }));
        }
    };
    for shell in shells {
        for layer in &shell.layers {
            let boards: Vec<Mass> = parts
                .iter()
                .filter(|part| part.shell == shell.name && part.layer == Some(layer.place))
                .map(|part| Mass { kg: part.mass_kg(), at_m: part.at.middle_mm().map(|at| at / 1000.0) })
                .collect();
            if let Some(all) = together(&boards) {
                add(MassOf::Layer(shell.name, layer.place), all.kg, all.at_m.map(|at| 1000.0 * at));
            }
        }
        add(MassOf::Joints(shell.name), joints_kg(design, shell), shell.inside().middle_mm());
        let braces = match (shell.name, &design.outer) {
            (ShellName::Outer, Some((_, outer))) => outer.braces.as_ref(),
            _ => design.inner.braces.as_ref(),
        };
        let [_, width_mm, height_mm] = shell.inside().size_mm();
        let braces_kg = braces.map_or(0.0, |braces| {
            let length_m = braces.count as f64 * 2.0 * (width_mm + height_mm) / 1000.0;
            length_m * braces.depth_m * braces.width_m * Braces::DENSITY
        });
        add(MassOf::Braces(shell.name), braces_kg, shell.inside().middle_mm());
    }
    for part in parts.iter().filter(|part| part.layer.is_none()) {
        add(MassOf::Baffle, part.mass_kg(), part.at.middle_mm());
    }
    if let (Some(lining), Some(inner)) = (&document.inner.lining, shells.first()) {
        let volume_m3 = slabs_m2(&inner.inside(), lining.thickness_mm) * lining.thickness_mm / 1000.0;
        let density = material::fill(&lining.material).map_or(0.0, |fill| fill.density);
        add(MassOf::Lining, volume_m3 * density, inner.inside().middle_mm());
    }
    if let (Some(fill), Some((block, thickness_mm))) = (&document.gap.fill, fill_block(design, shells)) {
        let volume_m3 = slabs_m2(&block, thickness_mm) * thickness_mm / 1000.0;
        let density = material::fill(&fill.material).map_or(0.0, |fill| fill.density);
        add(MassOf::GapFill, volume_m3 * density, block.middle_mm());
    }
    if let Some(inner) = shells.first() {
        add(MassOf::Contents, design.contents_kg, contents_middle_mm(design, inner));
    }
    masses
}

/// Mass in kg of what joins the layers of `shell`.
fn joints_kg(design: &CheckedDesign, shell: &ShellBox) -> f64 {
    let laminate = match (shell.name, &design.outer) {
        (ShellName::Outer, Some((_, outer))) => &outer.laminate,
        _ => &design.inner.laminate,
    };
    let density = |place: usize| match laminate.bonds.get(place.wrapping_sub(1)) {
        Some(Bond::Viscoelastic(bond)) => bond.density,
        _ => COMPOUND_DENSITY,
    };
    let joined = shell.layers.iter().filter(|layer| matches!(layer.joint, JointKind::Compound | JointKind::Own));
    joined
        .map(|layer| {
            let inside = layer.layer.inside;
            (inside.volume_m3() - inside.grown(-layer.joint_mm).volume_m3()) * density(layer.place)
        })
        .sum()
}

/// The middle of what stands in the box: at the back, or in the baffle, and on the lining of the bottom.
fn contents_middle_mm(design: &CheckedDesign, inner: &ShellBox) -> [f64; 3] {
    let (document, inside) = (&design.document, inner.inside());
    let contents = &document.build.contents;
    let lining_mm = document.inner.lining.as_ref().map_or(0.0, |lining| lining.thickness_mm);
    match &document.inner.baffle {
        Some(baffle) => [inside.from_mm[0] + baffle.rear_mm + baffle.thickness_mm - 0.5 * contents.length_mm, 0.0, 0.0],
        None => [
            inside.from_mm[0] + lining_mm + 0.5 * contents.length_mm,
            0.0,
            inside.from_mm[2] + lining_mm + 0.5 * contents.height_mm,
        ],
    }
}

/// What hangs or stands in the outer box.
pub fn hung(weighed: &[(MassOf, Mass)]) -> Mass {
    let inner: Vec<Mass> = weighed
        .iter()
        .filter(|(of, _)| match of {
            MassOf::Layer(name, _) | MassOf::Joints(name) | MassOf::Braces(name) => *name == ShellName::Inner,
            MassOf::Baffle | MassOf::Lining | MassOf::Contents => true,
            MassOf::GapFill => false,
        })
        .map(|(_, mass)| *mass)
        .collect();
    together(&inner).unwrap_or(Mass { kg: 0.0, at_m: [0.0; 3] })
}

pub fn lid_kg(shell: &ShellBox, parts: &[Part]) -> f64 {
    parts.iter().filter(|part| part.shell == shell.name && part.is_lid).map(Part::mass_kg).sum()
}
