//! What lets sound through a shell beside its walls: the lid's edge, holes for cables, vents.

use super::absorption::Lining;

crate::mapping::names! {
    LidFace { Front = "front", Side = "side", Top = "top" }
    LidForm { Plain = "plain", Stepped = "stepped" }
    SealKind { Bare = "bare", FoamTape = "foam-tape", ClosedCell = "closed-cell", Compressed = "compressed" }
}

/// Which face of the box is the lid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LidFace {
    /// An end: width by height.
    Front,
    /// A long side: length by height.
    Side,
    /// The top: length by width.
    Top,
}

impl LidFace {
    /// Perimeter in m of the lid of a box of length, width and height `size_m`.
    pub fn perimeter_m(self, [length, width, height]: [f64; 3]) -> f64 {
        2.0 * match self {
            Self::Front => width + height,
            Self::Side => length + height,
            Self::Top => length + width,
        }
    }
}

/// How the edge of a lid meets its frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LidForm {
    /// Straight through the wall.
    Plain,
    /// One step for each seal: a longer, bent path.
    Stepped,
}

/// What closes the edge of a lid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SealKind {
    /// Board on board.
    Bare,
    /// Self-adhesive tape of open-cell foam.
    FoamTape,
    /// Closed-cell gasket, touching.
    ClosedCell,
    /// Gasket pressed by catches or screws all round.
    Compressed,
}

/// The edge of a lid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lid {
    /// Which face it is.
    pub face: LidFace,
    /// Straight or stepped.
    pub form: LidForm,
    /// How many seals lie one behind the other, 1 to 4.
    pub seals: usize,
    /// What a seal is.
    pub seal: SealKind,
    /// Height in m of the slit round it where nothing closes it.
    pub clearance_m: f64,
    /// By what the seals leave open is higher than is assumed of them: 1 unless somebody knows better.
    pub gap_factor: f64,
}

/// Equal holes for cables and jacks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Holes {
    /// How many, at least one.
    pub count: usize,
    /// Diameter in m.
    pub diameter_m: f64,
    /// Diameter in m of what is in it; 0: nothing.
    pub cable_m: f64,
    /// Whether what is left open is filled with sealant.
    pub sealed: bool,
    /// By what the gap round the cable, or the one that sealant leaves, is wider than these numbers say.
    pub gap_factor: f64,
}

/// Equal ducts from the source chamber to the room.
#[derive(Clone, Debug, PartialEq)]
pub struct Vents {
    /// How many, at least one.
    pub count: usize,
    /// Clear width and height in m.
    pub section_m: [f64; 2],
    /// Length in m.
    pub length_m: f64,
    /// Right-angled bends.
    pub bends: usize,
    /// Lining of the walls, if any.
    pub lining: Option<Lining>,
}
