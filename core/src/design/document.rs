//! The design document, as a link or a saved file holds it: raw, editable, in millimetres.

use serde::{Deserialize, Serialize};

use crate::buildup::raw::{Layer, Side};
use crate::error::FieldError;
use crate::json;
use crate::need::SourceSpectrum;

use super::examples::run_in_box;

crate::json::objects!(Design, SourcePart, InnerPart, LiningPart, GapPart, Fill, Shell, RoomPart);

/// A whole design. What a document leaves out is taken from the first example.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", default, deny_unknown_fields)]
pub struct Design {
    /// Title for people.
    pub name: String,
    /// What is loud.
    pub source: SourcePart,
    /// The box round the source.
    pub inner: InnerPart,
    /// The gap to the outer box; without an outer box it has no effect.
    pub gap: GapPart,
    /// The box round the box, if there is one.
    pub outer: Option<Shell>,
    /// The room in which the box stands.
    pub room: RoomPart,
}

/// What is loud.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", default, deny_unknown_fields)]
pub struct SourcePart {
    /// Shape of the spectrum.
    pub spectrum: SourceSpectrum,
    /// A-weighted level in dB at 1 m from the bare source, on the floor.
    pub level_dba: f64,
}

/// The box round the source, from the inside out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", default, deny_unknown_fields)]
pub struct InnerPart {
    /// Inside length in mm, lining not subtracted.
    pub length_mm: f64,
    /// Inside width in mm.
    pub width_mm: f64,
    /// Inside height in mm.
    pub height_mm: f64,
    /// Porous lining on the inside, if any.
    pub lining: Option<LiningPart>,
    /// Sheets and bonds, from the inside out.
    pub layers: Vec<Layer>,
}

/// A porous lining.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", default, deny_unknown_fields)]
pub struct LiningPart {
    /// Key of the material.
    pub material: String,
    /// Thickness in mm.
    pub thickness_mm: f64,
}

/// The gap between the two boxes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", default, deny_unknown_fields)]
pub struct GapPart {
    /// Depth in mm, the same on all sides.
    pub depth_mm: f64,
    /// Porous fill, if any.
    pub fill: Option<Fill>,
}

/// Porous fill of the gap.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", default, deny_unknown_fields)]
pub struct Fill {
    /// Key of the material.
    pub material: String,
    /// Part of the depth that is filled, 0 to 1.
    pub share: f64,
    /// Against the inner box ("first"), the outer box ("second") or in the middle.
    pub side: Side,
}

/// A shell of sheets and bonds, from the inside out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", default, deny_unknown_fields)]
pub struct Shell {
    /// Sheets and bonds, from the inside out.
    pub layers: Vec<Layer>,
}

/// The room in which the box stands.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", default, deny_unknown_fields)]
pub struct RoomPart {
    /// Floor area in m2.
    pub floor_area_m2: f64,
    /// Ceiling height in m.
    pub height_m: f64,
    /// Mean absorption coefficient of its surfaces.
    pub absorption: f64,
    /// Distance in m from the box to the ear or microphone in the room.
    pub distance_m: f64,
}

impl Default for Design {
    fn default() -> Self {
        run_in_box()
    }
}

impl Default for SourcePart {
    fn default() -> Self {
        run_in_box().source
    }
}

impl Default for InnerPart {
    fn default() -> Self {
        run_in_box().inner
    }
}

impl Default for LiningPart {
    fn default() -> Self {
        Self { material: "mineral-wool-48".to_owned(), thickness_mm: 50.0 }
    }
}

impl Default for GapPart {
    fn default() -> Self {
        run_in_box().gap
    }
}

impl Default for Fill {
    fn default() -> Self {
        Self { material: "mineral-wool-48".to_owned(), share: 1.0 / 3.0, side: Side::Second }
    }
}

impl Default for Shell {
    fn default() -> Self {
        Self { layers: vec![Layer::sheet("birch-plywood", 18.0)] }
    }
}

impl Default for RoomPart {
    fn default() -> Self {
        run_in_box().room
    }
}

impl Design {
    /// A design from JSON text.
    ///
    /// # Errors
    /// One error that names the field which cannot be read, or the key that is not known.
    pub fn from_json(text: &str) -> Result<Self, FieldError> {
        json::parse(text)
    }
}
