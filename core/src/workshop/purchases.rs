//! The shopping list: how much of everything, rounded up to what shops sell, at which price.

use std::f64::consts::PI;

use serde::{Deserialize, Serialize};

use crate::design::{BuildPart, CheckedDesign, OwnNumbers};
use crate::enclosure::{SealKind, SupportKind};
use crate::material;

use super::cut_list::CutList;
use super::holes::DUCT_BOARD_MM;
use super::item::{Item, Unit};
use super::parts::Part;
use super::prices::{GLUE_KG_PER_M2, item_price, porous_key, porous_price, sheet_price};
use super::shells::{Board, JointKind, ShellBox, ShellName};
use super::tasks::{joint_m2, lid_perimeter_m, seam_m};

/// Volume in l of a cartridge of sealant (common practice, no source).
const CARTRIDGE_L: f64 = 0.31;
/// Distance in mm between the latches of a lid that presses its gasket all round, and of any other (common practice, no source).
const LATCH_MM: [f64; 2] = [300.0, 450.0];
/// Fewest latches of a lid.
const FEWEST_LATCHES: usize = 4;
/// A lid of one board up to so many kg swings on hinges; assumed. Others are lifted out: a stepped lid cannot swing.
const HINGED_KG: f64 = 20.0;
/// Hinges of such a lid.
const HINGES: usize = 3;
/// From so many kg on it is rolled rather than carried; assumed.
const ROLLED_KG: f64 = 50.0;
/// Castors of a dolly.
const CASTORS: usize = 4;
/// Most handles of a lid: a heavier one is for a hoist.
const MOST_LID_HANDLES: usize = 4;
/// Most handles of a box: more people have no room round it.
const MOST_HANDLES: usize = 8;

/// One line of the shopping list.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Purchase {
    /// The key of its price among the numbers of one's own.
    pub key: String,
    /// Name for people.
    pub name: String,
    /// Thickness in mm of a sheet, as it is sold, or of wool.
    pub thickness_mm: Option<f64>,
    /// What is needed, before waste and rounding.
    pub needed: f64,
    /// What is bought.
    pub bought: f64,
    /// What both are counted in.
    pub unit: Unit,
    /// Price of one; `None`: it has none.
    pub each: Option<f64>,
    /// Whether that price is one's own.
    pub is_own: bool,
    /// What it is bought for, where it carries a load: the working load in kg of one.
    pub rated_kg: Option<f64>,
}

impl Purchase {
    /// Price of all of it, before tax.
    pub fn cost(&self) -> Option<f64> {
        self.each.map(|each| each * self.bought)
    }
}

/// Pieces that follow from what a box weighs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fittings {
    /// Handles of the box and of its lids.
    pub handles: usize,
    /// Castors of a dolly under it.
    pub castors: usize,
    /// Hinges of all lids.
    pub hinges: usize,
}

/// The fittings of a box of `mass_kg` with `lids` of so many kg, each with whether it can swing.
pub fn fittings(mass_kg: f64, lids: &[(f64, bool)]) -> Fittings {
    let pairs = |kg: f64| 2 * (super::carry::lift(kg).people as usize);
    let hinged = |(kg, swings): &(f64, bool)| *swings && *kg <= HINGED_KG;
    let lifted = lids.iter().filter(|lid| !hinged(lid)).map(|(kg, _)| pairs(*kg).min(MOST_LID_HANDLES)).sum::<usize>();
    Fittings {
        handles: pairs(mass_kg).min(MOST_HANDLES) + lifted,
        castors: if mass_kg > ROLLED_KG { CASTORS } else { 0 },
        hinges: HINGES * lids.iter().filter(|lid| hinged(lid)).count(),
    }
}

/// Wool of a thickness in mm, and its area in m2.
#[derive(Clone, Debug, PartialEq)]
pub struct Wool {
    /// Key of the catalogue.
    pub key: String,
    /// Thickness in mm.
    pub thickness_mm: f64,
    /// Area in m2.
    pub area_m2: f64,
}

/// What the list needs to know beside the design.
#[derive(Clone, Copy, Debug)]
pub struct Needs<'a> {
    /// The boxes.
    pub shells: &'a [ShellBox],
    /// Their boards.
    pub parts: &'a [Part],
    /// What the boards are made of.
    pub list: &'a CutList,
    /// Sheets of each of those that the layout needs.
    pub sheets: &'a [usize],
    /// Wool.
    pub wool: &'a [Wool],
    /// Pieces that follow from the mass.
    pub fittings: Fittings,
    /// Mass in kg of all of it, with what stands in it.
    pub mass_kg: f64,
    /// Mass in kg of what hangs or stands in the outer box.
    pub hung_kg: f64,
}

/// The shopping list of `design`.
pub fn purchases(design: &CheckedDesign, needs: &Needs) -> Vec<Purchase> {
    let build = &design.document.build;
    let own = &build.own;
    let mut list = Vec::new();
    list.extend(sheets(needs, own));
    list.extend(needs.wool.iter().map(|wool| wool_line(wool, build)));
    let mut add = |item: Item, needed: f64, wastes: bool, rated_kg: Option<f64>| {
        if needed <= 0.0 {
            return;
        }
        let with_waste = if wastes { needed * (1.0 + build.waste) } else { needed };
        // What is left behind the comma by reckoning is nothing to buy.
        let up = |amount: f64| (amount - 1e-9).ceil();
        let bought = match item.unit() {
            Unit::Kilograms => 0.25 * up(4.0 * with_waste),
            _ => up(with_waste),
        };
        let (unit, is_own) = (item.unit(), own.get(&item.key()).is_some());
        let (name, each) = (item.name().to_owned(), Some(item_price(item, own)));
        list.push(Purchase { key: item.key(), name, thickness_mm: None, needed, bought, unit, each, is_own, rated_kg });
    };
    let joints = |kind: JointKind| -> f64 {
        let of = |shell: &ShellBox| -> f64 {
            let joined = shell.layers.iter().filter(|layer| layer.joint == kind);
            joined.map(|layer| joint_m2(shell, layer.place)).sum()
        };
        needs.shells.iter().map(of).sum()
    };
    add(Item::CompoundTube, joints(JointKind::Compound) / build.compound_m2, true, None);
    add(Item::Glue, joints(JointKind::Glue) * GLUE_KG_PER_M2, true, None);
    let seams_m: f64 = needs
        .shells
        .iter()
        .flat_map(|shell| shell.layers.iter().filter(|layer| !layer.exists).map(|layer| seam_m(shell, layer.place)))
        .sum();
    let bead_mm2 = 0.25 * PI * build.bead_mm * build.bead_mm;
    // 1 mm2 over 1 m is 1 ml.
    add(Item::Sealant, seams_m * bead_mm2 / 1000.0 / CARTRIDGE_L, true, None);
    let screws: usize = needs.parts.iter().filter(|part| !part.exists).map(|part| part.screws.count()).sum();
    add(Item::Screws, screws as f64 / 100.0, true, None);
    add(Item::Batten, battens_m(design, needs.shells), true, None);
    for shell in needs.shells {
        let lid = shell_lid(design, shell.name);
        let perimeter_m = lid_perimeter_m(shell);
        if let Some(item) = Item::of_seal(lid) {
            add(item, perimeter_m * shell.seals as f64, true, None);
        }
        let pitch_mm = LATCH_MM[usize::from(lid != SealKind::Compressed)];
        let latches = (1000.0 * perimeter_m / pitch_mm).ceil() as usize;
        add(Item::Latch, latches.max(FEWEST_LATCHES) as f64, false, None);
    }
    add(Item::Hinge, needs.fittings.hinges as f64, false, None);
    let held = design.outer.is_some().then_some((&design.suspension, needs.hung_kg));
    for (support, load_kg) in held.into_iter().chain([(&design.feet, needs.mass_kg)]) {
        let item = match support.kind {
            SupportKind::Straps => Item::Strap,
            SupportKind::Springs => Item::Spring,
            SupportKind::Pads => Item::Pad,
            SupportKind::Rigid => continue,
        };
        add(item, support.count as f64, false, Some(load_kg / support.count as f64));
        if support.kind == SupportKind::Straps {
            let each_kg = super::carry::hanging(load_kg, support.count).working_kg;
            add(Item::EyeBolt, 2.0 * support.count as f64, false, Some(each_kg));
        }
    }
    let holes = match &design.outer {
        Some((_, outer)) => outer.holes.as_ref(),
        None => design.inner.holes.as_ref(),
    };
    add(Item::Jack, holes.map_or(0.0, |holes| holes.count as f64), false, None);
    add(Item::Handle, needs.fittings.handles as f64, false, None);
    let castors = needs.fittings.castors;
    if castors > 0 {
        add(Item::Castor, castors as f64, false, Some(super::carry::castors(needs.mass_kg, castors).rated_kg));
    }
    if let Some(vents) = &design.document.vents {
        let around_mm = 2.0 * vents.lining.as_ref().map_or(0.0, |lining| lining.thickness_mm);
        let girth_mm = 2.0 * (vents.width_mm + vents.height_mm + 2.0 * around_mm) + 4.0 * DUCT_BOARD_MM;
        add(Item::Duct, 1e-6 * vents.count * girth_mm * vents.length_mm, true, None);
    }
    merged(list)
}

/// Whole sheets.
fn sheets(needs: &Needs, own: &OwnNumbers) -> Vec<Purchase> {
    let line = |(board, sheets): (&Board, &usize)| Purchase {
        key: board.own_key(),
        name: board.name.clone(),
        thickness_mm: Some(board.nominal_mm),
        needed: *sheets as f64,
        bought: *sheets as f64,
        unit: Unit::Pieces,
        each: sheet_price(board, own),
        is_own: own.get(&board.own_key()).is_some(),
        rated_kg: None,
    };
    needs.list.boards.iter().zip(needs.sheets).map(line).collect()
}

/// Wool by its area, in tenths of a square metre.
fn wool_line(wool: &Wool, build: &BuildPart) -> Purchase {
    let key = porous_key(&wool.key, wool.thickness_mm);
    Purchase {
        name: material::fill(&wool.key).map_or_else(String::new, |fill| fill.name.to_owned()),
        thickness_mm: Some(wool.thickness_mm),
        needed: wool.area_m2,
        bought: 0.1 * (10.0 * wool.area_m2 * (1.0 + build.waste)).ceil(),
        unit: Unit::SquareMetres,
        each: porous_price(&wool.key, wool.thickness_mm, &build.own),
        is_own: build.own.get(&key).is_some(),
        key,
        rated_kg: None,
    }
}

/// What stands in the list twice under one key is one line.
fn merged(list: Vec<Purchase>) -> Vec<Purchase> {
    let mut lines: Vec<Purchase> = Vec::new();
    for purchase in list {
        match lines.iter_mut().find(|line| line.key == purchase.key) {
            Some(line) => {
                line.needed += purchase.needed;
                line.bought += purchase.bought;
                line.rated_kg = match (line.rated_kg, purchase.rated_kg) {
                    (Some(one), Some(other)) => Some(one.max(other)),
                    (one, other) => one.or(other),
                };
            }
            None => lines.push(purchase),
        }
    }
    lines
}

fn shell_lid(design: &CheckedDesign, name: ShellName) -> SealKind {
    match (name, &design.outer) {
        (ShellName::Outer, Some((_, outer))) => outer.lid.seal,
        _ => design.inner.lid.seal,
    }
}

/// Whether the lid of `shell` lies against a frame of battens inside its opening: a straight one does, and a stepped one with more
/// seals than steps.
pub fn has_stop(shell: &ShellBox) -> bool {
    !shell.is_stepped || shell.seals + 1 > shell.layers.len()
}

/// Length in m of all battens: each brace goes round the four long faces, each stop of a lid round its opening.
fn battens_m(design: &CheckedDesign, shells: &[ShellBox]) -> f64 {
    let of = |shell: &ShellBox| {
        let braces = match (shell.name, &design.outer) {
            (ShellName::Outer, Some((_, outer))) => outer.braces.as_ref(),
            _ => design.inner.braces.as_ref(),
        };
        let [_, width_mm, height_mm] = shell.inside().size_mm();
        let braces_m = braces.map_or(0.0, |braces| braces.count as f64 * 2.0 * (width_mm + height_mm) / 1000.0);
        braces_m + if has_stop(shell) { lid_perimeter_m(shell) } else { 0.0 }
    };
    shells.iter().map(of).sum()
}
