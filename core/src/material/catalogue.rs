//! The catalogue: sheet goods and porous fills, read once from the data files beside this module.

use std::sync::LazyLock;

use serde::Deserialize;

/// A sheet material with the numbers the model needs, what a shop sells, and where each number comes from.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SheetMaterial {
    /// Key in documents (`birch-plywood`).
    pub key: String,
    /// Name for people.
    pub name: String,
    /// Density in kg/m3.
    pub density: f64,
    /// Young's modulus in Pa.
    pub youngs_modulus: f64,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Loss factor of the material itself.
    pub loss_factor: f64,
    /// Shear modulus through the thickness in Pa; absent: from Young's modulus and Poisson's ratio.
    #[serde(default)]
    pub shear_modulus: Option<f64>,
    /// Thicknesses in mm a shop keeps.
    pub stock_mm: Vec<f64>,
    /// Invented price per square metre and millimetre of thickness, in no particular currency.
    pub price_per_m2_mm: f64,
    /// Where the numbers come from, one line for each group of them.
    pub sources: Vec<String>,
}

/// A porous fill or lining.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FillMaterial {
    /// Key in documents (`mineral-wool-48`).
    pub key: String,
    /// Name for people.
    pub name: String,
    /// Density in kg/m3.
    pub density: f64,
    /// Flow resistivity in Pa s/m2.
    pub flow_resistivity: f64,
    /// Invented price per cubic metre, in no particular currency.
    pub price_per_m3: f64,
    /// Where the numbers come from.
    pub sources: Vec<String>,
}

static SHEETS: LazyLock<Vec<SheetMaterial>> =
    LazyLock::new(|| serde_json::from_str(include_str!("sheets.json")).expect("sheets.json is checked by a test"));
static FILLS: LazyLock<Vec<FillMaterial>> =
    LazyLock::new(|| serde_json::from_str(include_str!("fills.json")).expect("fills.json is checked by a test"));

/// All sheet materials.
pub fn sheets() -> &'static [SheetMaterial] {
    &SHEETS
}

/// The sheet material with this key.
pub fn sheet(key: &str) -> Option<&'static SheetMaterial> {
    SHEETS.iter().find(|material| material.key == key)
}

/// All porous fills.
pub fn fills() -> &'static [FillMaterial] {
    &FILLS
}

/// The porous fill with this key.
pub fn fill(key: &str) -> Option<&'static FillMaterial> {
    FILLS.iter().find(|material| material.key == key)
}
