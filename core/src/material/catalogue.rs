//! The catalogue: sheet goods and porous fills, read once from the data files beside this module.

use std::collections::BTreeMap;
use std::f64::consts::PI;
use std::sync::LazyLock;

use serde::Deserialize;
use serde::de::DeserializeOwned;

use crate::air::Air;
use crate::json;

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
    /// Where each number comes from: field name to source, or "from memory", "assumed", "invented".
    pub sources: BTreeMap<String, String>,
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
    /// Where each number comes from: field name to source, or "from memory", "invented".
    pub sources: BTreeMap<String, String>,
}

static SHEETS: LazyLock<Vec<SheetMaterial>> = LazyLock::new(|| read(include_str!("sheets.json")));
static FILLS: LazyLock<Vec<FillMaterial>> = LazyLock::new(|| read(include_str!("fills.json")));

/// The rows of a data file.
fn read<T: DeserializeOwned>(text: &str) -> Vec<T> {
    let rows = serde_json::from_str(text).expect("the data files are checked by a test");
    json::from_value(rows).expect("the data files are checked by a test")
}

impl SheetMaterial {
    /// Shear modulus through the thickness in Pa: its own, or E/(2 (1 + nu)) of an isotropic sheet.
    pub fn shear_modulus_pa(&self) -> f64 {
        self.shear_modulus.unwrap_or(self.youngs_modulus / (2.0 * (1.0 + self.poisson)))
    }

    /// Critical frequency times thickness in Hz m of a thin sheet in `air`: c^2/(2 pi) sqrt(12 rho (1 - nu^2)/E)
    /// (Cremer, Heckl and Petersson, Structure-Borne Sound, ch. 6; shear and losses left out).
    pub fn coincidence_product(&self, air: &Air) -> f64 {
        let inertia_over_stiffness = 12.0 * self.density * (1.0 - self.poisson * self.poisson) / self.youngs_modulus;
        air.speed * air.speed / (2.0 * PI) * inertia_over_stiffness.sqrt()
    }
}

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
