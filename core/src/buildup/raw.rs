//! Build-ups as documents hold them: names or numbers, millimetres, anything possible until checked.

use std::fmt;

use serde::de::value::MapAccessDeserializer;
use serde::de::{MapAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize};

crate::json::objects!(SheetNumbers, BondNumbers, FillNumbers, Layer);

/// A name from the catalogue, or the numbers themselves.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(untagged)]
pub enum NameOr<T> {
    /// A key of the catalogue.
    Name(String),
    /// The numbers.
    Numbers(T),
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for NameOr<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct NameOrVisitor<T>(std::marker::PhantomData<T>);

        impl<'de, T: Deserialize<'de>> Visitor<'de> for NameOrVisitor<T> {
            type Value = NameOr<T>;

            fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
                f.write_str("a name from the materials table or an object with the numbers")
            }

            fn visit_str<E>(self, name: &str) -> Result<Self::Value, E> {
                Ok(NameOr::Name(name.to_owned()))
            }

            fn visit_map<M: MapAccess<'de>>(self, map: M) -> Result<Self::Value, M::Error> {
                T::deserialize(MapAccessDeserializer::new(map)).map(NameOr::Numbers)
            }
        }

        deserializer.deserialize_any(NameOrVisitor(std::marker::PhantomData))
    }
}

/// A sheet material by its numbers, SI units.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
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
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shear_modulus: Option<f64>,
}

/// A bond by its numbers; tables are [Hz, value] pairs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
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
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct FillNumbers {
    /// Flow resistivity in Pa s/m2.
    pub flow_resistivity: f64,
    /// Part of the depth that is filled, 0 to 1.
    pub share: f64,
    /// "first", "second" or "middle".
    pub side: Side,
}

/// Where a fill lies in its gap.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Side {
    /// Against the leaf that the sound meets first.
    First,
    /// Against the other leaf.
    Second,
    /// In the middle.
    Middle,
}

/// One line of a build-up: a sheet, a bond or a gap, told apart by which keys are there.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct Layer {
    /// A sheet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sheet: Option<NameOr<SheetNumbers>>,
    /// Its thickness in mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thickness_mm: Option<f64>,
    /// A bond.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bond: Option<NameOr<BondNumbers>>,
    /// A gap's depth in mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gap_mm: Option<f64>,
    /// A gap's fill.
    #[serde(default, skip_serializing_if = "Option::is_none")]
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
