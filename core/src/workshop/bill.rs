//! Mass and material cost by area.

use serde::{Deserialize, Serialize};

use crate::buildup::check::COMPOUND_DENSITY;
use crate::buildup::raw::{Layer, NameOr, Side};
use crate::design::{Baffle, BafflePart, BuildPart, CheckedDesign, Fill, LiningPart};
use crate::enclosure::Braces;
use crate::geometry::{grown, surface_area_m2, volume_m3};
use crate::material;

use super::prices::{compound_per_m2, glue_per_m2, price_per_m2};
use super::shells::Board;

/// Invented price of planed softwood per cubic metre.
const TIMBER_PRICE_PER_M3: f64 = 900.0;

/// One line of the bill: one layer of the box.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BillLine {
    /// Name for people.
    pub name: String,
    /// Area in m2: volume over thickness, about that at mid-depth of the layer.
    pub area_m2: f64,
    /// Mass in kg.
    pub mass_kg: f64,
    /// Cost in no particular currency, nothing for what stands there already; `None` for a material without a price.
    pub cost: Option<f64>,
}

/// Mass and material cost of the whole.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Bill {
    /// The layers, from the inside out.
    pub lines: Vec<BillLine>,
    /// Sum of the masses in kg.
    pub mass_kg: f64,
    /// Part of it in kg that is the inner box: what its suspension carries, without what stands in it.
    pub inner_mass_kg: f64,
    /// Sum of the costs that are known.
    pub cost: f64,
    /// Whether some material has no price.
    pub cost_incomplete: bool,
}

impl Bill {
    fn push(&mut self, name: String, area_m2: f64, mass_kg: f64, cost: Option<f64>) {
        self.mass_kg += mass_kg;
        self.cost += cost.unwrap_or(0.0);
        self.cost_incomplete |= cost.is_none();
        self.lines.push(BillLine { name, area_m2, mass_kg, cost });
    }

    /// Adds the braces of a shell whose inside is `inside_m`: battens on four faces, or open shelves of the same section
    /// all round.
    pub(crate) fn push_braces(&mut self, braces: Option<&Braces>, [_, width, height]: [f64; 3]) {
        let Some(braces) = braces else { return };
        let area = braces.count as f64 * braces.depth_m * 2.0 * (width + height);
        let volume = area * braces.width_m;
        self.push("Braces: softwood".to_owned(), area, volume * Braces::DENSITY, Some(volume * TIMBER_PRICE_PER_M3));
    }

    /// Adds the layers of a shell whose inside is `inside_m`; returns its outside. Where the innermost sheet is a box that stands
    /// already, it weighs what it weighs and costs nothing. `build` has the prices and the thickness of joints.
    pub(crate) fn push_shell(&mut self, layers: &[Layer], inside_m: [f64; 3], existing: bool, build: &BuildPart) -> [f64; 3] {
        let compound_mm = build.compound_mm();
        let mut size_m = inside_m;
        for (place, layer) in layers.iter().enumerate() {
            if let (Some(sheet), Some(thickness_mm)) = (&layer.sheet, layer.thickness_mm) {
                let outside_m = grown(size_m, thickness_mm / 1000.0);
                let volume = volume_m3(outside_m) - volume_m3(size_m);
                let area = volume / (thickness_mm / 1000.0);
                let Some(board) = Board::new(sheet, thickness_mm) else { continue };
                let cost = price_per_m2(&board, &build.own).map(|price| price * area);
                let (name, density) = (board.name, board.density);
                let stands_already = existing && place == 0;
                let (name, cost) = if stands_already { (format!("{name}, there already"), Some(0.0)) } else { (name, cost) };
                self.push(name, area, volume * density, cost);
                size_m = outside_m;
            }
            match &layer.bond {
                Some(NameOr::Name(key)) if key == "damping-compound" => {
                    let outside_m = grown(size_m, compound_mm / 1000.0);
                    let volume = volume_m3(outside_m) - volume_m3(size_m);
                    let area = volume / (compound_mm / 1000.0);
                    self.push(
                        "Damping compound".to_owned(),
                        area,
                        volume * COMPOUND_DENSITY,
                        Some(compound_per_m2(build) * area),
                    );
                    size_m = outside_m;
                }
                Some(NameOr::Name(key)) if key == "rigid-glue" => {
                    let area = surface_area_m2(size_m);
                    self.push("Glue".to_owned(), area, 0.0, Some(glue_per_m2(build) * area));
                }
                Some(NameOr::Numbers(numbers)) => {
                    let outside_m = grown(size_m, numbers.thickness_mm / 1000.0);
                    let volume = volume_m3(outside_m) - volume_m3(size_m);
                    let area = volume / (numbers.thickness_mm / 1000.0);
                    self.push("Own bond".to_owned(), area, volume * numbers.density, None);
                    size_m = outside_m;
                }
                _ => {}
            }
        }
        size_m
    }
}

/// Inside and outside size in m of a fill that takes `share` of a gap of `depth_m` round a box of `inner_m`.
fn fill_between(inner_m: [f64; 3], depth_m: f64, share: f64, side: Side) -> ([f64; 3], [f64; 3]) {
    let before = match side {
        Side::First => 0.0,
        Side::Middle => 0.5 * (1.0 - share),
        Side::Second => 1.0 - share,
    };
    (grown(inner_m, before * depth_m), grown(inner_m, (before + share) * depth_m))
}

impl Bill {
    /// Adds the lining of a box whose inside is `inside_m`.
    pub(crate) fn push_lining(&mut self, lining: &LiningPart, inside_m: [f64; 3]) {
        let Some(material) = material::fill(&lining.material) else { return };
        let volume = volume_m3(inside_m) - volume_m3(grown(inside_m, -lining.thickness_mm / 1000.0));
        let area = volume / (lining.thickness_mm / 1000.0);
        self.push(format!("Lining: {}", material.name), area, volume * material.density, Some(volume * material.price_per_m3));
    }

    /// Adds a baffle across a box whose inside is `inside_m`.
    pub(crate) fn push_baffle(&mut self, baffle: &Baffle, part: &BafflePart, inside_m: [f64; 3]) {
        let Some(material) = material::sheet(&part.sheet) else { return };
        let area = inside_m[1] * inside_m[2];
        let price = material.price_per_m2_mm * part.thickness_mm * area;
        self.push(format!("Baffle: {}", material.name), area, area * baffle.laminate.surface_mass(), Some(price));
    }

    /// Adds the fill of a gap of `depth_m` round a box of outside `inner_m`.
    pub(crate) fn push_fill(&mut self, fill: &Fill, inner_m: [f64; 3], depth_m: f64) {
        let Some(material) = material::fill(&fill.material).filter(|_| fill.share > 0.0) else { return };
        let (inside_m, outside_m) = fill_between(inner_m, depth_m, fill.share, fill.side);
        let volume = volume_m3(outside_m) - volume_m3(inside_m);
        let area = volume / (fill.share * depth_m);
        self.push(format!("Gap fill: {}", material.name), area, volume * material.density, Some(volume * material.price_per_m3));
    }
}

/// Mass and material cost of `design`, every layer its own box round the one before, no waste.
pub fn bill(design: &CheckedDesign) -> Bill {
    let document = &design.document;
    let mut bill = Bill::default();
    if let Some(lining) = &document.inner.lining {
        bill.push_lining(lining, design.inside_m);
    }
    let inner_outside_m = bill.push_shell(&document.inner.layers, design.inside_m, document.inner.existing, &document.build);
    if let (Some(baffle), Some(part)) = (&design.baffle, &document.inner.baffle) {
        bill.push_baffle(baffle, part, design.inside_m);
    }
    bill.push_braces(design.inner.braces.as_ref(), design.inside_m);
    bill.inner_mass_kg = bill.mass_kg;
    if let (Some(shell), Some((gap, _))) = (&document.outer, &design.outer) {
        let outer_inside_m = grown(inner_outside_m, gap.depth_m);
        if let Some(fill) = &document.gap.fill {
            bill.push_fill(fill, inner_outside_m, gap.depth_m);
        }
        bill.push_shell(&shell.layers, outer_inside_m, false, &document.build);
        let braces = design.outer.as_ref().and_then(|(_, shell)| shell.braces.as_ref());
        bill.push_braces(braces, outer_inside_m);
    }
    bill
}
