//! The box cut open: which part lies where, in millimetres, from the document.

use hushwright::buildup::raw::{Layer, NameOr, Side};
use hushwright::design::{Design, GapPart};
use hushwright::material;

use super::parts::Part;
use crate::fields::Shell;
use crate::leaf;

/// How a part is hatched, after the manner of ISO 128-3: one pattern for each kind of material.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hatch {
    /// Plywood and other glued veneers.
    Veneer,
    /// Boards of wood chips or fibres.
    Chips,
    /// Gypsum and cement boards.
    Mineral,
    /// Metals.
    Metal,
    /// Glass and acrylic.
    Clear,
    /// Limp sheets.
    Limp,
    /// Porous linings and fills.
    Porous,
    /// Materials given by numbers only.
    Plain,
    /// Air: not hatched.
    Air,
}

impl Hatch {
    /// All kinds that are hatched.
    pub const ALL: [Self; 8] =
        [Self::Veneer, Self::Chips, Self::Mineral, Self::Metal, Self::Clear, Self::Limp, Self::Porous, Self::Plain];

    /// Name in ids and style sheets.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Veneer => "veneer",
            Self::Chips => "chips",
            Self::Mineral => "mineral",
            Self::Metal => "metal",
            Self::Clear => "clear",
            Self::Limp => "limp",
            Self::Porous => "porous",
            Self::Plain => "plain",
            Self::Air => "air",
        }
    }

    /// Hatching of a sheet.
    pub fn of_sheet(layer: &Layer) -> Self {
        let Some(NameOr::Name(key)) = &layer.sheet else { return Self::Plain };
        Self::of_key(key)
    }

    /// Hatching of the sheet material with this key.
    pub fn of_key(key: &str) -> Self {
        match key {
            "birch-plywood" | "softwood-plywood" => Self::Veneer,
            "mdf" | "particle-board" | "osb" => Self::Chips,
            "gypsum-board" | "dense-gypsum-board" | "fibre-cement" => Self::Mineral,
            "steel" | "aluminium" | "lead" => Self::Metal,
            "glass" | "acrylic" => Self::Clear,
            "mass-loaded-vinyl" => Self::Limp,
            _ => Self::Plain,
        }
    }
}

/// A part that runs all the way round: the space between two upright rectangles about one centre.
#[derive(Clone, Debug, PartialEq)]
pub struct Ring {
    /// Length and height of its inside in mm.
    pub inside: (f64, f64),
    /// Length and height of its outside in mm.
    pub outside: (f64, f64),
    /// How it is hatched.
    pub hatch: Hatch,
    /// What it is.
    pub name: String,
    /// Which part of the box.
    pub part: Part,
    /// Thickness in mm; that of the gap is its whole depth, fill included.
    pub thickness_mm: f64,
}

/// The upright cut along the length of a box.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// Clear space in which the source stands, length and height in mm.
    pub clear: (f64, f64),
    /// The parts from the inside out.
    pub rings: Vec<Ring>,
    /// Inside and outside length and height in mm of each box, the inner one first.
    pub shells: Vec<[(f64, f64); 2]>,
    /// Outside length and height in mm.
    pub outside: (f64, f64),
}

fn grown((length, height): (f64, f64), by: f64) -> (f64, f64) {
    (length + 2.0 * by, height + 2.0 * by)
}

fn push(rings: &mut Vec<Ring>, inside: (f64, f64), thickness_mm: f64, hatch: Hatch, (part, name): (Part, String)) -> (f64, f64) {
    let outside = grown(inside, thickness_mm);
    rings.push(Ring { inside, outside, hatch, name, part, thickness_mm });
    outside
}

fn push_shell(rings: &mut Vec<Ring>, mut size: (f64, f64), shell: Shell, design: &Design) -> (f64, f64) {
    let layers = shell.layers(design);
    let sheets = layers.iter().filter_map(|layer| layer.sheet.as_ref().and(layer.thickness_mm).map(|mm| (layer, mm)));
    for (k, (layer, thickness_mm)) in sheets.enumerate() {
        let name = leaf::sheet_name(layer);
        let name = if k < shell.kept(design) { format!("Old cabinet: {name}") } else { name };
        let name = (Part::Sheet(shell, k), name);
        size = push(rings, size, thickness_mm, Hatch::of_sheet(layer), name);
    }
    size
}

/// The gap round an inner box of this size: its air, named with the whole depth, and its fill.
fn push_gap(rings: &mut Vec<Ring>, inside: (f64, f64), gap: &GapPart) {
    let depth = gap.depth_mm;
    let fill = gap.fill.as_ref().filter(|fill| fill.share > 0.0);
    let filled = fill.map_or(0.0, |fill| fill.share * depth);
    let from = match fill.map(|fill| fill.side) {
        Some(Side::First) => 0.0,
        Some(Side::Middle) => 0.5 * (depth - filled),
        Some(Side::Second) | None => depth - filled,
    };
    // The name goes to the wider free part; one without any is all fill.
    let (free_from, free_to) = if from > 0.0 { (0.0, from) } else { (filled, depth) };
    let mut parts = Vec::new();
    if free_to - free_from > 0.0 {
        let (inside, outside) = (grown(inside, free_from), grown(inside, free_to));
        let air = Ring { inside, outside, hatch: Hatch::Air, name: "Gap".to_owned(), part: Part::Gap, thickness_mm: depth };
        parts.push((free_from, air));
    }
    if let Some(fill) = fill {
        let mut part = Vec::new();
        push(
            &mut part,
            grown(inside, from),
            filled,
            Hatch::Porous,
            (Part::Fill, format!("Fill: {}", porous_name(&fill.material))),
        );
        parts.extend(part.into_iter().map(|ring| (from, ring)));
    }
    if let [first, second] = &mut parts[..]
        && second.0 < first.0
    {
        std::mem::swap(first, second);
    }
    rings.extend(parts.into_iter().map(|(_, ring)| ring));
}

/// Name of a porous material without its density.
fn porous_name(key: &str) -> String {
    let name = material::fill(key).map_or(key, |fill| fill.name);
    name.split(',').next().unwrap_or(name).to_ascii_lowercase()
}

/// The cut through `design`, which has passed its check.
pub fn cut(design: &Design) -> Cut {
    let mut rings = Vec::new();
    let inside = (design.inner.length_mm, design.inner.height_mm);
    let mut clear = inside;
    if let Some(lining) = &design.inner.lining {
        clear = grown(inside, -lining.thickness_mm);
        push(
            &mut rings,
            clear,
            lining.thickness_mm,
            Hatch::Porous,
            (Part::Lining, format!("Lining: {}", porous_name(&lining.material))),
        );
    }
    let mut outside = push_shell(&mut rings, inside, Shell::Inner, design);
    let mut shells = vec![[inside, outside]];
    if design.outer.is_some() {
        push_gap(&mut rings, outside, &design.gap);
        let inside = grown(outside, design.gap.depth_mm);
        outside = push_shell(&mut rings, inside, Shell::Outer, design);
        shells.push([inside, outside]);
    }
    Cut { clear, rings, shells, outside }
}

#[cfg(test)]
mod tests {
    use super::*;
    use hushwright::evaluate::evaluate;

    #[test]
    fn the_cut_ends_where_the_core_says_the_box_ends() {
        for design in hushwright::design::examples() {
            let report = evaluate(&design.check().unwrap());
            let cut = cut(&design);
            // Bonds are thinner than a line of the drawing.
            assert!((cut.outside.0 - 1000.0 * report.outside_m[0]).abs() < 3.0);
            assert!((cut.outside.1 - 1000.0 * report.outside_m[2]).abs() < 3.0);
        }
    }

    #[test]
    fn parts_never_overlap() {
        let mut design = Design::default();
        for side in [Side::First, Side::Middle, Side::Second] {
            design.gap.fill.as_mut().unwrap().side = side;
            let cut = cut(&design);
            let mut size = cut.clear;
            for ring in &cut.rings {
                assert!(ring.inside.0 >= size.0 - 1e-9 && ring.inside.1 >= size.1 - 1e-9, "{ring:?}");
                size = ring.outside;
            }
            assert_eq!(cut.rings.len(), 7);
        }
    }

    #[test]
    fn a_gap_that_is_full_has_no_air_and_an_empty_one_no_fill() {
        let mut design = Design::default();
        let hatches = |design: &Design| cut(design).rings.iter().map(|ring| ring.hatch).collect::<Vec<_>>();
        design.inner.lining = None;
        design.gap.fill.as_mut().unwrap().share = 1.0;
        let full = hatches(&design);
        assert!(full.contains(&Hatch::Porous) && !full.contains(&Hatch::Air), "{full:?}");
        design.gap.fill = None;
        let empty = hatches(&design);
        assert!(!empty.contains(&Hatch::Porous) && empty.contains(&Hatch::Air), "{empty:?}");
    }

    #[test]
    fn an_old_cabinet_is_called_so() {
        let mut design = Design::default();
        design.inner.existing = true;
        leaf::add_sheet(&mut design.inner.layers);
        let named: Vec<_> = cut(&design).rings.into_iter().filter(|ring| ring.name.contains("MDF")).map(|r| r.name).collect();
        assert_eq!(named, ["Old cabinet: MDF", "MDF"]);
    }

    #[test]
    fn every_sheet_of_the_catalogue_has_a_hatching_of_its_kind() {
        for sheet in material::sheets() {
            assert_ne!(Hatch::of_sheet(&Layer::sheet(sheet.key, 10.0)), Hatch::Plain, "{}", sheet.key);
        }
    }
}
