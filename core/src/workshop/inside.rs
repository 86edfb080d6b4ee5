//! How large the inside has to be for what stands in it.

use serde::{Deserialize, Serialize};

use crate::design::CheckedDesign;

/// Air in mm that what stands in the box needs on each side: to put it in and to let it move; assumed.
pub const AIR_MM: f64 = 5.0;
/// Width in mm that a microphone with its stand takes beside another; assumed.
pub const MICROPHONE_WIDTH_MM: f64 = 60.0;
/// Least in mm that lies between a driver and the back of its chamber, wool or air (common practice, no source).
pub const BEHIND_MM: f64 = 30.0;

/// What adds up to a length, a width or a height.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Piece {
    /// Lining, at both ends.
    Lining,
    /// The chamber behind the baffle.
    RearChamber,
    /// The baffle.
    Baffle,
    /// What stands in the box.
    Contents,
    /// From its front to the microphones.
    Distance,
    /// The microphones with plug and holder.
    Microphones,
    /// Air to move.
    Air,
}

/// How large the inside has to be.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct NeededInside {
    /// Length, width and height in mm, lining included.
    pub size_mm: [f64; 3],
    /// What adds up to the length, from the back to the front, in mm.
    pub length_of: Vec<(Piece, f64)>,
    /// The chamber behind the baffle that the loudspeaker needs, in mm; `None` without a baffle.
    pub rear_mm: Option<f64>,
}

/// How large the inside has to be for what stands in it.
///
/// The loudspeaker stands at the back, or hangs in the baffle with its chamber behind it; the microphones stand in front of it,
/// side by side.
pub fn needed_inside(design: &CheckedDesign) -> NeededInside {
    let document = &design.document;
    let contents = &document.build.contents;
    let lining_mm = document.inner.lining.as_ref().map_or(0.0, |lining| lining.thickness_mm);
    let microphones = contents.microphones > 0.0;
    let mut length_of = Vec::new();
    match &document.inner.baffle {
        Some(baffle) => length_of.extend([(Piece::RearChamber, baffle.rear_mm), (Piece::Baffle, baffle.thickness_mm)]),
        None => length_of.extend([(Piece::Lining, lining_mm), (Piece::Contents, contents.length_mm)]),
    }
    if microphones {
        length_of.extend([(Piece::Distance, contents.distance_mm), (Piece::Microphones, contents.microphone_mm)]);
    }
    length_of.extend([(Piece::Lining, lining_mm), (Piece::Air, 2.0 * AIR_MM)]);
    length_of.retain(|(_, mm)| *mm > 0.0);
    let row_mm = if microphones { contents.microphones * MICROPHONE_WIDTH_MM } else { 0.0 };
    let around_mm = 2.0 * (lining_mm + AIR_MM);
    NeededInside {
        size_mm: [
            length_of.iter().map(|(_, mm)| mm).sum(),
            contents.width_mm.max(row_mm) + around_mm,
            contents.height_mm + around_mm,
        ],
        length_of,
        rear_mm: document.inner.baffle.as_ref().map(|baffle| {
            // It hangs from the front of the baffle.
            lining_mm.max(BEHIND_MM) + (contents.length_mm - baffle.thickness_mm).max(0.0)
        }),
    }
}
