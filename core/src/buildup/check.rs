//! From raw build-ups to checked ones: the only place where a build-up can be refused.

use crate::error::FieldError;
use crate::material;

use super::raw::{self, NameOr, Side};
use super::{Bond, Element, Fill, FillSide, Gap, GapLoss, Laminate, LogTable, Sheet, Stack, ViscoelasticBond};

/// Thinnest and thickest sheet in mm.
pub const THICKNESS_MM: (f64, f64) = (0.3, 100.0);
/// Shallowest and deepest gap in mm.
pub const GAP_MM: (f64, f64) = (1.0, 1000.0);
/// Most sheets in one leaf, and so in one shell.
pub const MOST_SHEETS: usize = 8;
/// Most elements of one stack of leaves and gaps.
pub const MOST_LAYERS: usize = 40;

/// Most points of a table: three an octave over the range of the bands.
pub const MOST_TABLE_POINTS: usize = 27;

/// Keys of the bonds that have a name.
pub const BOND_NAMES: [&str; 3] = ["rigid-glue", "damping-compound", "loose"];

/// Usual thickness in mm of a compound joint: 0.8 l over 3 m2 (coverage is common practice, no source).
pub const COMPOUND_THICKNESS_MM: f64 = 0.8 / 3.0;
/// Shear stiffness per area in Pa/m of screws through a compound joint: 25 a square metre, 1 MN/m each; assumed.
pub const SCREW_STIFFNESS: f64 = 2.5e7;
/// Density in kg/m3 of a damping compound; assumed.
pub const COMPOUND_DENSITY: f64 = 1300.0;

/// `bound` without the last digits that reckoning in m and mm leaves behind: 598.6999999999999 is 598.7.
pub fn tidy(bound: f64) -> f64 {
    let scaled = 1e9 * bound;
    // Beyond, a double has no such digits.
    if scaled.abs() < 1e15 { scaled.round() / 1e9 } else { bound }
}

/// Collects what is wrong and goes on, so that every bad field gets its message at once.
#[derive(Default)]
pub struct Problems(Vec<FieldError>);

impl Problems {
    /// Records an error at `path`.
    pub fn push(&mut self, path: impl Into<String>, message: impl Into<String>) {
        self.0.push(FieldError::new(path, message));
    }

    /// Returns `value` when it lies within `range`, else records an error that says so and returns the nearest end.
    pub fn within(&mut self, path: &str, value: f64, (low, high): (f64, f64), unit: &str, why: &str) -> f64 {
        let (low, high) = (tidy(low), tidy(high));
        if value.is_finite() && (low..=high).contains(&value) {
            return value;
        }
        let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
        let why = if why.is_empty() { String::new() } else { format!(": {why}") };
        self.push(path, format!("allowed is {low} to {high}{unit}{why}"));
        if value.is_finite() { value.clamp(low, high) } else { low }
    }

    /// `value` when nothing was wrong, else all that was.
    ///
    /// # Errors
    /// Everything recorded, in order.
    pub fn finish<T>(self, value: T) -> Result<T, Vec<FieldError>> {
        if self.0.is_empty() { Ok(value) } else { Err(self.0) }
    }
}

/// A sheet of `thickness_mm`, by name or by numbers, with errors under `path`.
pub fn check_sheet(
    problems: &mut Problems,
    path: &str,
    sheet: &NameOr<raw::SheetNumbers>,
    thickness_mm: Option<f64>,
) -> Option<Sheet> {
    let thickness_path = format!("{path}.thickness_mm");
    let thickness_mm = if let Some(value) = thickness_mm {
        problems.within(&thickness_path, value, THICKNESS_MM, "mm", "sheets from foil to solid board")
    } else {
        problems.push(thickness_path, format!("required: {} to {} mm", THICKNESS_MM.0, THICKNESS_MM.1));
        THICKNESS_MM.0
    };
    let thickness_m = thickness_mm / 1000.0;
    match sheet {
        NameOr::Name(key) => {
            let Some(material) = material::sheet(key) else {
                problems.push(format!("{path}.sheet"), format!("no such sheet; known are {}", known_sheets()));
                return None;
            };
            let (e, nu) = (material.youngs_modulus, material.poisson);
            Some(Sheet {
                thickness_m,
                density: material.density,
                youngs_modulus: e,
                poisson: nu,
                loss_factor: material.loss_factor,
                shear_modulus: material.shear_modulus.unwrap_or(e / (2.0 * (1.0 + nu))),
            })
        }
        NameOr::Numbers(numbers) => {
            let at = |field: &str| format!("{path}.sheet.{field}");
            let density = problems.within(&at("density"), numbers.density, (10.0, 25_000.0), "kg/m3", "foam to tungsten");
            let e = problems.within(&at("youngs_modulus"), numbers.youngs_modulus, (1e4, 1e12), "Pa", "rubber to diamond");
            let nu = problems.within(&at("poisson"), numbers.poisson, (0.0, 0.4999), "", "isotropic solids");
            let loss_factor = problems.within(&at("loss_factor"), numbers.loss_factor, (0.0, 2.0), "", "none to heavy damping");
            let shear_modulus = match numbers.shear_modulus {
                Some(g) => problems.within(&at("shear_modulus"), g, (1e3, 1e12), "Pa", "rubber to diamond"),
                None => e / (2.0 * (1.0 + nu)),
            };
            Some(Sheet { thickness_m, density, youngs_modulus: e, poisson: nu, loss_factor, shear_modulus })
        }
    }
}

fn known_sheets() -> String {
    material::sheets().iter().map(|material| material.key).collect::<Vec<_>>().join(", ")
}

/// A damping compound in joints of the usual thickness, as assumed where nothing better is known: no public curve of modulus and loss factor was found.
///
/// G' = 1 MPa at 100 Hz growing as f^0.3, loss factor 0.9; either may be a factor of 5 off.
///
/// # Panics
/// Never: the tables are constants in order.
pub fn assumed_compound() -> ViscoelasticBond {
    compound_joint(COMPOUND_THICKNESS_MM)
}

/// The same in joints of `thickness_mm`.
///
/// # Panics
/// Never: the tables are constants in order.
pub fn compound_joint(thickness_mm: f64) -> ViscoelasticBond {
    ViscoelasticBond {
        thickness_m: thickness_mm / 1000.0,
        density: COMPOUND_DENSITY,
        shear_modulus: LogTable::new(vec![(100.0, 1.0e6)]).expect("one point in order"),
        power_law: 0.3,
        reference_hz: 100.0,
        loss_factor: LogTable::new(vec![(100.0, 0.9)]).expect("one point in order"),
        screw_stiffness: SCREW_STIFFNESS,
    }
}

/// A bond, by name or by numbers, with errors under `path`; a compound by its name is `compound_mm` thick.
pub fn check_bond(problems: &mut Problems, path: &str, bond: &NameOr<raw::BondNumbers>, compound_mm: f64) -> Option<Bond> {
    match bond {
        NameOr::Name(key) => match key.as_str() {
            "rigid-glue" => Some(Bond::Rigid),
            "loose" => Some(Bond::Loose),
            "damping-compound" => Some(Bond::Viscoelastic(compound_joint(compound_mm))),
            _ => {
                problems.push(format!("{path}.bond"), format!("no such bond; known are {}", BOND_NAMES.join(", ")));
                None
            }
        },
        NameOr::Numbers(numbers) => {
            let at = |field: &str| format!("{path}.bond.{field}");
            let thickness_mm = problems.within(&at("thickness_mm"), numbers.thickness_mm, (0.01, 20.0), "mm", "a spread layer");
            let density = problems.within(&at("density"), numbers.density, (1.0, 10_000.0), "kg/m3", "");
            let shear_modulus = check_table(problems, &at("shear_modulus"), &numbers.shear_modulus, (1.0, 1e12), "Pa");
            let loss_factor = check_table(problems, &at("loss_factor"), &numbers.loss_factor, (0.0, 10.0), "");
            Some(Bond::Viscoelastic(ViscoelasticBond {
                thickness_m: thickness_mm / 1000.0,
                density,
                shear_modulus: shear_modulus?,
                power_law: 0.0,
                reference_hz: 100.0,
                loss_factor: loss_factor?,
                screw_stiffness: 0.0,
            }))
        }
    }
}

fn check_table(problems: &mut Problems, path: &str, points: &[(f64, f64)], range: (f64, f64), unit: &str) -> Option<LogTable> {
    for (index, &(hz, value)) in points.iter().enumerate() {
        problems.within(&format!("{path}[{index}][0]"), hz, (0.1, 1e6), "Hz", "");
        problems.within(&format!("{path}[{index}][1]"), value, range, unit, "");
    }
    let table = if points.len() <= MOST_TABLE_POINTS { LogTable::new(points.to_vec()) } else { None };
    if table.is_none() {
        problems.push(path, format!("1 to {MOST_TABLE_POINTS} pairs of Hz and value, frequencies rising"));
    }
    table
}

fn check_fill(problems: &mut Problems, path: &str, fill: &raw::FillNumbers) -> Fill {
    let at = |field: &str| format!("{path}.fill.{field}");
    let range = (100.0, 1e6);
    Fill {
        flow_resistivity: problems.within(&at("flow_resistivity"), fill.flow_resistivity, range, "Pa s/m2", "fluff to felt"),
        share: problems.within(&at("share"), fill.share, (0.0, 1.0), "", "part of the depth that is filled"),
        side: side(fill.side),
    }
}

/// The checked name of a fill's place.
pub fn side(side: Side) -> FillSide {
    match side {
        Side::First => FillSide::First,
        Side::Second => FillSide::Second,
        Side::Middle => FillSide::Middle,
    }
}

/// A stack of leaves and gaps from `layers`, whose gaps lose energy by `loss`, with errors under `path`.
///
/// Sheets next to each other without a bond count as loose. A stack begins and ends with a sheet.
pub fn check_stack(problems: &mut Problems, path: &str, layers: &[raw::Layer], loss: GapLoss) -> Option<Stack> {
    check_elements(problems, path, layers, loss, COMPOUND_THICKNESS_MM)
}

/// The same with joints of compound `compound_mm` thick.
fn check_elements(problems: &mut Problems, path: &str, layers: &[raw::Layer], loss: GapLoss, compound_mm: f64) -> Option<Stack> {
    if layers.is_empty() || layers.len() > MOST_LAYERS {
        problems.push(path, format!("allowed are 1 to {MOST_LAYERS} layers, at least one of them a sheet"));
        return None;
    }
    let mut elements = Vec::new();
    let mut leaf = Leaf::default();
    let mut sound = true;
    for (index, layer) in layers.iter().enumerate() {
        let at = format!("{path}[{index}]");
        match layer {
            raw::Layer { sheet: Some(sheet), thickness_mm, bond: None, gap_mm: None, fill: None } => {
                match check_sheet(problems, &at, sheet, *thickness_mm) {
                    Some(sheet) => leaf.push_sheet(sheet),
                    None => sound = false,
                }
            }
            raw::Layer { sheet: None, thickness_mm: None, bond: Some(bond), gap_mm: None, fill: None } => {
                match check_bond(problems, &at, bond, compound_mm) {
                    Some(_) if leaf.sheets.is_empty() || leaf.next_bond.is_some() => {
                        problems.push(at, "a bond stands between two sheets");
                        sound = false;
                    }
                    Some(bond) => leaf.next_bond = Some(bond),
                    None => sound = false,
                }
            }
            raw::Layer { sheet: None, thickness_mm: None, bond: None, gap_mm: Some(depth_mm), fill } => {
                let depth_mm = problems.within(&format!("{at}.gap_mm"), *depth_mm, GAP_MM, "mm", "deeper ones are rooms");
                let fill = fill.as_ref().map(|fill| check_fill(problems, &at, fill));
                match leaf.finish() {
                    Ok(laminate) => elements.push(Element::Panel(laminate)),
                    Err(message) => {
                        problems.push(&at, message);
                        sound = false;
                    }
                }
                elements.push(Element::Gap(Gap { depth_m: depth_mm / 1000.0, fill, loss }));
                leaf = Leaf::default();
            }
            _ => {
                problems.push(at, "one of: sheet with thickness_mm, bond, gap_mm with or without fill");
                sound = false;
            }
        }
        if leaf.sheets.len() > MOST_SHEETS {
            problems.push(
                format!("{path}[{index}]"),
                format!("at most {MOST_SHEETS} sheets on one another, which is more than any wall of boards has"),
            );
            return None;
        }
    }
    match leaf.finish() {
        Ok(laminate) => elements.push(Element::Panel(laminate)),
        Err(message) => {
            problems.push(format!("{path}[{}]", layers.len() - 1), message);
            sound = false;
        }
    }
    sound.then_some(Stack { elements })
}

/// One leaf from `layers` that holds sheets and bonds only, with errors under `path`; joints of compound are `compound_mm` thick.
pub fn check_leaf(problems: &mut Problems, path: &str, layers: &[raw::Layer], compound_mm: f64) -> Option<Laminate> {
    if let Some(index) = layers.iter().position(|layer| layer.gap_mm.is_some()) {
        problems.push(format!("{path}[{index}]"), "a shell holds sheets and bonds only; the gap has its own place");
        return None;
    }
    let stack = check_elements(problems, path, layers, GapLoss::Lossless, compound_mm)?;
    stack.elements.into_iter().find_map(|element| match element {
        Element::Panel(laminate) => Some(laminate),
        Element::Gap(_) => None,
    })
}

/// A leaf under construction.
#[derive(Default)]
struct Leaf {
    sheets: Vec<Sheet>,
    bonds: Vec<Bond>,
    next_bond: Option<Bond>,
}

impl Leaf {
    fn push_sheet(&mut self, sheet: Sheet) {
        if !self.sheets.is_empty() {
            self.bonds.push(self.next_bond.take().unwrap_or(Bond::Loose));
        }
        self.sheets.push(sheet);
    }

    fn finish(&mut self) -> Result<Laminate, &'static str> {
        if self.next_bond.is_some() {
            return Err("a bond stands between two sheets");
        }
        if self.sheets.is_empty() {
            return Err("a gap stands between two sheets");
        }
        Ok(Laminate { sheets: std::mem::take(&mut self.sheets), bonds: std::mem::take(&mut self.bonds) })
    }
}
