//! The design document, as a link or a saved file holds it: raw, editable, in millimetres.

use crate::buildup::raw::{Layer, Side};
use crate::enclosure::{BraceKind, Floor, LidFace, LidForm, SealKind, SupportKind};
use crate::error::FieldError;
use crate::json;
use crate::need::{BandValues, SourceSpectrum};
use crate::packed::Packed;

use super::build::BuildPart;
use super::examples::run_in_box;
use super::listener::ListenerPart;

crate::mapping::objects! {
    Design { name, notes, source, inner, gap, suspension, outer, feet, vents, room, listeners, build }
    SourcePart { spectrum, own_db, level_from, level_dba, max_above_db, start_h, hours, mass_kg, heat_w, driver }
    DriverPart { count, diameter_mm, sensitivity_db, power_w, crest_db, moving_mass_g, cone_area_cm2 }
    InnerPart { existing, length_mm, width_mm, height_mm, lining, layers, edge_fixity, braces, baffle, lid, holes }
    BafflePart { rear_mm, sheet, thickness_mm }
    BracesPart { kind, count, width_mm, depth_mm }
    LidPart { face, form, seals, seal }
    HolesPart { count, diameter_mm, cable_mm, sealed }
    SupportPart { kind, count, test_mass_kg, test_sag_mm, height_mm, breaking_load_kg, pad_side_mm, pad_thickness_mm, shore_a }
    VentsPart { count, width_mm, height_mm, length_mm, bends, lining }
    LiningPart { material, thickness_mm }
    GapPart { depth_mm, fill }
    Fill { material, share, side }
    Shell { layers, edge_fixity, braces, lid, holes }
    RoomPart { floor_area_m2, height_m, absorption, distance_m, floor }
}

crate::mapping::names! {
    LevelFrom { Given = "given", Driver = "driver" }
}

/// A whole design. What a document leaves out is taken from the first example.
#[derive(Clone, Debug, PartialEq)]
pub struct Design {
    /// Title for people.
    pub name: String,
    /// What else whoever builds it should know, in lines.
    pub notes: String,
    /// What is loud.
    pub source: SourcePart,
    /// The box round the source.
    pub inner: InnerPart,
    /// The gap to the outer box; without an outer box it has no effect.
    pub gap: GapPart,
    /// What holds the inner box in the outer one; without an outer box it has no effect.
    pub suspension: SupportPart,
    /// The box round the box, if there is one.
    pub outer: Option<Shell>,
    /// What the whole stands on.
    pub feet: SupportPart,
    /// Ventilation from the source chamber to the room, if any.
    pub vents: Option<VentsPart>,
    /// The room in which the box stands.
    pub room: RoomPart,
    /// Who is not to be disturbed.
    pub listeners: Vec<ListenerPart>,
    /// What the workshop needs to know.
    pub build: BuildPart,
}

/// What is loud.
#[derive(Clone, Debug, PartialEq)]
pub struct SourcePart {
    /// Shape of the spectrum.
    pub spectrum: SourceSpectrum,
    /// Levels in dB at 1 m by octave or third, as (Hz, dB), for band levels of one's own.
    pub own_db: BandValues,
    /// Where the level comes from.
    pub level_from: LevelFrom,
    /// A-weighted level in dB (LAeq) at 1 m from the bare source, on the floor; where it is given.
    pub level_dba: f64,
    /// How far in dB the loudest moments (LAFmax) lie above that mean; where it is given.
    pub max_above_db: f64,
    /// Hour of day at which it begins to play, 0 to 24.
    pub start_h: f64,
    /// For how many hours it plays.
    pub hours: f64,
    /// Mass in kg of what stands or hangs in the box beside its boards and lining.
    pub mass_kg: f64,
    /// Power in W that becomes heat in the box.
    pub heat_w: f64,
    /// The driver, if the source is one: its recoil shakes the box.
    pub driver: Option<DriverPart>,
}

/// Where the level of the source comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LevelFrom {
    /// It is given: measured, or own band levels as they are.
    Given,
    /// It is worked out from the sensitivity of the drivers and their power.
    Driver,
}

/// Equal loudspeaker drivers side by side.
#[derive(Clone, Debug, PartialEq)]
pub struct DriverPart {
    /// How many.
    pub count: f64,
    /// Nominal diameter in mm.
    pub diameter_mm: f64,
    /// Sensitivity in dB of one: level at 1 m for 1 W.
    pub sensitivity_db: f64,
    /// Electrical power in W that all take up together, as a mean.
    pub power_w: f64,
    /// Crest factor in dB of what is played: peak over rms.
    pub crest_db: f64,
    /// Moving mass in g of one.
    pub moving_mass_g: f64,
    /// Effective area of the cone in cm2 of one.
    pub cone_area_cm2: f64,
}

/// The box round the source, from the inside out.
#[derive(Clone, Debug, PartialEq)]
pub struct InnerPart {
    /// Whether its innermost sheet is a box that stands already, an old cabinet: that costs nothing, and is not proposed to be
    /// changed.
    pub existing: bool,
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
    /// How firmly the edges of the faces are held, from 0 (hinged) to 1 (clamped).
    pub edge_fixity: f64,
    /// Braces of the four long faces, if any.
    pub braces: Option<BracesPart>,
    /// A baffle that closes a rear chamber behind the driver, if any.
    pub baffle: Option<BafflePart>,
    /// The lid.
    pub lid: LidPart,
    /// Holes for cables and jacks.
    pub holes: HolesPart,
}

/// A baffle across the inner box.
#[derive(Clone, Debug, PartialEq)]
pub struct BafflePart {
    /// Depth in mm of the chamber behind it.
    pub rear_mm: f64,
    /// Key of its sheet material.
    pub sheet: String,
    /// Thickness in mm.
    pub thickness_mm: f64,
}

/// Equal braces that divide the length of a shell into equal bays; made of softwood.
#[derive(Clone, Debug, PartialEq)]
pub struct BracesPart {
    /// Battens on the four long faces, or open shelves across the inside.
    pub kind: BraceKind,
    /// How many on each long face.
    pub count: f64,
    /// Width in mm along the face.
    pub width_mm: f64,
    /// Depth in mm away from the face.
    pub depth_mm: f64,
}

/// The lid of a shell.
#[derive(Clone, Debug, PartialEq)]
pub struct LidPart {
    /// Which face it is.
    pub face: LidFace,
    /// Straight or stepped edge.
    pub form: LidForm,
    /// How many seals lie one behind the other.
    pub seals: f64,
    /// What a seal is.
    pub seal: SealKind,
}

/// Holes for cables and jacks through a shell.
#[derive(Clone, Debug, PartialEq)]
pub struct HolesPart {
    /// How many.
    pub count: f64,
    /// Diameter in mm.
    pub diameter_mm: f64,
    /// Diameter in mm of the cable or plug in it; 0: nothing is in it.
    pub cable_mm: f64,
    /// Whether what is left open is filled with sealant.
    pub sealed: bool,
}

/// What a box hangs or stands on.
#[derive(Clone, Debug, PartialEq)]
pub struct SupportPart {
    /// What the supports are.
    pub kind: SupportKind,
    /// How many.
    pub count: f64,
    /// Of straps and springs: mass in kg hung on or put on one of them in a test.
    pub test_mass_kg: f64,
    /// Of straps and springs: how far in mm one of them gave under that mass.
    pub test_sag_mm: f64,
    /// Of straps and springs: height in mm under load, fittings included.
    pub height_mm: f64,
    /// Of straps and springs: load in kg at which one of them breaks or goes solid.
    pub breaking_load_kg: f64,
    /// Of pads: side in mm of a square pad.
    pub pad_side_mm: f64,
    /// Of pads: thickness in mm.
    pub pad_thickness_mm: f64,
    /// Of pads: hardness, Shore A.
    pub shore_a: f64,
}

/// Vents: ducts from the source chamber through everything to the room.
#[derive(Clone, Debug, PartialEq)]
pub struct VentsPart {
    /// How many ducts; half of them let air in, half let it out.
    pub count: f64,
    /// Clear width in mm inside the lining.
    pub width_mm: f64,
    /// Clear height in mm inside the lining.
    pub height_mm: f64,
    /// Length in mm along the middle of the duct.
    pub length_mm: f64,
    /// Right-angled bends: 0 is a straight duct, more a labyrinth.
    pub bends: f64,
    /// Lining of its walls, if any.
    pub lining: Option<LiningPart>,
}

/// A porous lining.
#[derive(Clone, Debug, PartialEq)]
pub struct LiningPart {
    /// Key of the material.
    pub material: String,
    /// Thickness in mm.
    pub thickness_mm: f64,
}

/// The gap between the two boxes.
#[derive(Clone, Debug, PartialEq)]
pub struct GapPart {
    /// Depth in mm, the same on all sides.
    pub depth_mm: f64,
    /// Porous fill, if any.
    pub fill: Option<Fill>,
}

/// Porous fill of the gap.
#[derive(Clone, Debug, PartialEq)]
pub struct Fill {
    /// Key of the material.
    pub material: String,
    /// Part of the depth that is filled, 0 to 1.
    pub share: f64,
    /// Against the inner box ("first"), the outer box ("second") or in the middle.
    pub side: Side,
}

/// A shell of sheets and bonds, from the inside out.
#[derive(Clone, Debug, PartialEq)]
pub struct Shell {
    /// Sheets and bonds, from the inside out.
    pub layers: Vec<Layer>,
    /// How firmly the edges of the faces are held, from 0 (hinged) to 1 (clamped).
    pub edge_fixity: f64,
    /// Braces of the four long faces, if any; they lie in the gap.
    pub braces: Option<BracesPart>,
    /// The lid.
    pub lid: LidPart,
    /// Holes for cables and jacks.
    pub holes: HolesPart,
}

/// The room in which the box stands.
#[derive(Clone, Debug, PartialEq)]
pub struct RoomPart {
    /// Floor area in m2.
    pub floor_area_m2: f64,
    /// Ceiling height in m.
    pub height_m: f64,
    /// Mean absorption coefficient of its surfaces.
    pub absorption: f64,
    /// Distance in m from the middle of the box to the ear or microphone in the room.
    pub distance_m: f64,
    /// The floor that the box stands on.
    pub floor: Floor,
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

impl Default for DriverPart {
    fn default() -> Self {
        Self {
            count: 1.0,
            diameter_mm: 381.0,
            sensitivity_db: 96.0,
            power_w: 60.0,
            // Noise of which the peaks are clipped at twice the rms, as for testing loudspeakers.
            crest_db: 6.0,
            moving_mass_g: 110.0,
            cone_area_cm2: 855.0,
        }
    }
}

impl Default for BafflePart {
    fn default() -> Self {
        Self { rear_mm: 200.0, sheet: "mdf".to_owned(), thickness_mm: 18.0 }
    }
}

impl Default for BracesPart {
    fn default() -> Self {
        Self { kind: BraceKind::Battens, count: 1.0, width_mm: 30.0, depth_mm: 40.0 }
    }
}

impl Default for LidPart {
    fn default() -> Self {
        Self { face: LidFace::Front, form: LidForm::Plain, seals: 2.0, seal: SealKind::ClosedCell }
    }
}

impl Default for HolesPart {
    fn default() -> Self {
        Self { count: 2.0, diameter_mm: 12.0, cable_mm: 8.0, sealed: true }
    }
}

impl SupportPart {
    /// Four steel springs on which the inner box of the first example stands at about 6 Hz.
    pub fn springs() -> Self {
        Self {
            kind: SupportKind::Springs,
            count: 4.0,
            test_mass_kg: 10.0,
            test_sag_mm: 7.0,
            height_mm: 45.0,
            breaking_load_kg: 60.0,
            pad_side_mm: 50.0,
            pad_thickness_mm: 25.0,
            shore_a: 45.0,
        }
    }

    /// Four rubber pads.
    pub fn pads() -> Self {
        Self { kind: SupportKind::Pads, ..Self::springs() }
    }
}

impl Default for SupportPart {
    fn default() -> Self {
        Self::springs()
    }
}

impl Default for VentsPart {
    fn default() -> Self {
        let lining = LiningPart { thickness_mm: 25.0, ..LiningPart::default() };
        Self { count: 2.0, width_mm: 120.0, height_mm: 120.0, length_mm: 1200.0, bends: 3.0, lining: Some(lining) }
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
        Self {
            layers: vec![Layer::sheet("birch-plywood", 18.0)],
            edge_fixity: 0.5,
            braces: None,
            lid: LidPart::default(),
            holes: HolesPart::default(),
        }
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
    /// The design for another program of the same build: shorter and sooner read than JSON, and exact. Never kept: another build
    /// may have other fields.
    pub fn to_bytes(&self) -> Vec<u8> {
        let mut bytes = Vec::new();
        self.pack(&mut bytes);
        bytes
    }

    /// The design that [`Design::to_bytes`] wrote; `None` if it was not by this build that it was written. Not checked.
    pub fn from_bytes(mut bytes: &[u8]) -> Option<Self> {
        let mut design = Self::default();
        design.unpack(&mut bytes)?;
        bytes.is_empty().then_some(design)
    }
}
