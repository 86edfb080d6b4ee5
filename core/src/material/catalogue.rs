//! The catalogue: sheet goods and porous fills, from the data files beside this module, which `build.rs` turns into constants.

use std::f64::consts::PI;

use crate::air::Air;

/// A sheet material with the numbers the model needs and what a shop sells; [`sources`] tells where each number comes from.
#[derive(Clone, Debug)]
pub struct SheetMaterial {
    /// Key in documents (`birch-plywood`).
    pub key: &'static str,
    /// Name for people.
    pub name: &'static str,
    /// Density in kg/m3.
    pub density: f64,
    /// Young's modulus in Pa.
    pub youngs_modulus: f64,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Loss factor of the material itself.
    pub loss_factor: f64,
    /// Shear modulus through the thickness in Pa; absent: from Young's modulus and Poisson's ratio.
    pub shear_modulus: Option<f64>,
    /// Thicknesses in mm a shop keeps.
    pub stock_mm: &'static [f64],
    /// Length and width in mm of a sheet as shops keep it; the grain, if it has one, runs along the length.
    pub sheet_mm: [f64; 2],
    /// Whether one direction looks and bends otherwise than the other.
    pub has_grain: bool,
    /// Invented price per square metre and millimetre of thickness, in no particular currency.
    pub price_per_m2_mm: f64,
}

/// A porous fill or lining.
#[derive(Clone, Debug)]
pub struct FillMaterial {
    /// Key in documents (`mineral-wool-48`).
    pub key: &'static str,
    /// Name for people.
    pub name: &'static str,
    /// Density in kg/m3.
    pub density: f64,
    /// Flow resistivity in Pa s/m2.
    pub flow_resistivity: f64,
    /// Invented price per cubic metre, in no particular currency.
    pub price_per_m3: f64,
}

include!(concat!(env!("OUT_DIR"), "/catalogue.rs"));

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

/// Where the numbers of a sheet or fill come from: the name of each field with its source, or "from memory", "assumed",
/// "common practice, no source", "invented".
pub fn sources(key: &str) -> Option<&'static [(&'static str, &'static str)]> {
    SOURCES.iter().find(|(of, _)| *of == key).map(|(_, sources)| *sources)
}
