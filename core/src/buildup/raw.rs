//! Build-ups as documents hold them: names or numbers, millimetres, anything possible until checked.

use serde_json::Value;

use crate::error::FieldError;
use crate::mapping::{self, Held};
use crate::packed::Packed;

crate::mapping::exact_objects! {
    SheetNumbers { density, youngs_modulus, poisson, loss_factor, shear_modulus }
    BondNumbers { thickness_mm, density, shear_modulus, loss_factor }
    FillNumbers { flow_resistivity, share, side }
    Layer { sheet, thickness_mm, bond, gap_mm, fill }
}

crate::mapping::names! {
    Side { First = "first", Second = "second", Middle = "middle" }
}

/// A name from the catalogue, or the numbers themselves.
#[derive(Clone, Debug, PartialEq)]
pub enum NameOr<T> {
    /// A key of the catalogue.
    Name(String),
    /// The numbers.
    Numbers(T),
}

impl<T: Held> Held for NameOr<T> {
    fn blank() -> Self {
        Self::Name(String::new())
    }

    fn read(&mut self, value: &Value) -> Result<(), FieldError> {
        *self = match value {
            Value::String(name) => Self::Name(name.clone()),
            Value::Object(_) => Self::Numbers(mapping::from_value(value)?),
            _ => return Err(mapping::invalid(value, "a name from the materials table or an object with the numbers")),
        };
        Ok(())
    }

    fn write(&self) -> Value {
        match self {
            Self::Name(name) => name.as_str().into(),
            Self::Numbers(numbers) => numbers.write(),
        }
    }
}

impl<T: Held + Packed> Packed for NameOr<T> {
    fn pack(&self, bytes: &mut Vec<u8>) {
        matches!(self, Self::Name(_)).pack(bytes);
        match self {
            Self::Name(name) => name.pack(bytes),
            Self::Numbers(numbers) => numbers.pack(bytes),
        }
    }

    fn unpack(&mut self, bytes: &mut &[u8]) -> Option<()> {
        let mut is_name = false;
        is_name.unpack(bytes)?;
        *self = if is_name { Self::Name(String::new()) } else { Self::Numbers(T::blank()) };
        match self {
            Self::Name(name) => name.unpack(bytes),
            Self::Numbers(numbers) => numbers.unpack(bytes),
        }
    }
}

/// A sheet material by its numbers, SI units.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetNumbers {
    /// Density in kg/m3.
    pub density: f64,
    /// Young's modulus in Pa.
    pub youngs_modulus: f64,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Loss factor.
    pub loss_factor: f64,
    /// Shear modulus through the thickness in Pa; absent or null: E/(2 (1 + nu)).
    pub shear_modulus: Option<f64>,
}

/// A bond by its numbers; tables are [Hz, value] pairs.
#[derive(Clone, Debug, PartialEq)]
pub struct BondNumbers {
    /// Thickness in mm.
    pub thickness_mm: f64,
    /// Density in kg/m3.
    pub density: f64,
    /// Shear modulus in Pa against Hz.
    pub shear_modulus: Vec<(f64, f64)>,
    /// Loss factor against Hz.
    pub loss_factor: Vec<(f64, f64)>,
}

/// Porous fill of a gap by its numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct FillNumbers {
    /// Flow resistivity in Pa s/m2.
    pub flow_resistivity: f64,
    /// Part of the depth that is filled, 0 to 1.
    pub share: f64,
    /// "first", "second" or "middle".
    pub side: Side,
}

/// Where a fill lies in its gap.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Against the leaf that the sound meets first.
    First,
    /// Against the other leaf.
    Second,
    /// In the middle.
    Middle,
}

/// One line of a build-up: a sheet, a bond or a gap, told apart by which keys are there.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Layer {
    /// A sheet.
    pub sheet: Option<NameOr<SheetNumbers>>,
    /// Its thickness in mm.
    pub thickness_mm: Option<f64>,
    /// A bond.
    pub bond: Option<NameOr<BondNumbers>>,
    /// A gap's depth in mm.
    pub gap_mm: Option<f64>,
    /// A gap's fill.
    pub fill: Option<FillNumbers>,
}

impl Layer {
    /// A sheet of the catalogue.
    pub fn sheet(key: &str, thickness_mm: f64) -> Self {
        Self { sheet: Some(NameOr::Name(key.to_owned())), thickness_mm: Some(thickness_mm), ..Self::default() }
    }

    /// A bond by its name.
    pub fn bond(key: &str) -> Self {
        Self { bond: Some(NameOr::Name(key.to_owned())), ..Self::default() }
    }
}
