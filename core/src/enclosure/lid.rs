//! The edge of a lid as a path for sound: seals one behind the other, clearance between them, straight or stepped.

use crate::air::Air;
use crate::bands::{Spectrum, band_position_hz};
use crate::transmission::band_mean::band_means;

use super::opening::{Lid, LidForm, SealKind};
use super::radiation::SlitEnd;
use super::slit::{Medium, Segment, slit_at};
use super::two_port::OpeningAt;

/// Usual height in m of the clearance round a lid, where nothing closes it; assumed: what a lid needs that still opens in winter.
pub const CLEARANCE_M: f64 = 0.001;
/// Path in m that every step of a stepped lid adds; assumed.
pub const STEP_M: f64 = 0.02;
/// Width in m of a seal along the path; assumed.
pub const SEAL_WIDTH_M: f64 = 0.01;
/// Loss factor of the air between the faces of boards; assumed. Faces of absorption alpha = 0.05, impedance 8 rho c/alpha, give a
/// slit of height h a loss of alpha/(4 kh), 0.1 at 7 kHz and 1 mm, where the clearance resonates. Without it clearances of equal
/// length would ring together, as no edge of wood does.
pub const FACE_LOSS: f64 = 0.1;
/// Most seals one behind the other.
pub const MOST_SEALS: usize = 4;

/// What a seal leaves open.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// Height in m of what sound goes through, on average along the whole edge.
    pub height_m: f64,
    /// Width in m along the path.
    pub width_m: f64,
    /// What is in it.
    pub medium: Medium,
    /// Where the numbers come from.
    pub source: &'static str,
}

impl SealKind {
    /// What a seal of this kind leaves open.
    ///
    /// No measured gap of a workshop's lid was found: heights and widths are assumed, an uncertainty of a factor of 2 either
    /// way. The tape is open-cell foam 3 mm thick, pressed to 0.5 mm by the lid; pressed n times it resists n times as much
    /// (Castagnède et al. 2000, Applied Acoustics 61, 173, for fibres, from memory), and 20 kPa s/m2 is assumed before. A tape that is hardly pressed
    /// lets more through than boards that touch.
    pub fn residual(self) -> Residual {
        let (height_m, medium, source) = match self {
            Self::Bare => {
                (0.0005, Medium::LossyAir(FACE_LOSS), "assumed: boards as sawn touch here and there and gape 0.5 mm on average")
            }
            Self::FoamTape => (
                0.0005,
                Medium::Porous(120_000.0),
                "assumed: 3 mm of open-cell foam of 20 kPa s/m2 pressed to 0.5 mm; flow resistivity grows as it is pressed \
                 (Castagnède et al. 2000)",
            ),
            Self::ClosedCell => (0.0001, Medium::Air, "assumed: touches but does not follow every unevenness"),
            Self::Compressed => (0.00003, Medium::Air, "assumed: follows the boards but for their pores and the corners"),
        };
        Residual { height_m, width_m: SEAL_WIDTH_M, medium, source }
    }
}

/// The path along the edge of a lid, from the inside out: its pieces and how many of them there are.
///
/// Plain: straight through the wall, clearance before, between and behind the seals; where the wall is too thin, seals and
/// clearances share it equally, so that seals are narrower. Stepped: every seal lies in a step that adds [`STEP_M`] to the path.
pub fn lid_path(lid: &Lid, wall_m: f64) -> ([Segment; 2 * MOST_SEALS + 1], usize) {
    let residual = lid.seal.residual();
    let seals = lid.seals.min(MOST_SEALS);
    let count = seals as f64;
    let (path_m, seal_m) = match lid.form {
        LidForm::Plain => (wall_m, (count * residual.width_m).min(wall_m * count / (count + 1.0))),
        LidForm::Stepped => (wall_m + count * STEP_M, count * residual.width_m),
    };
    let clearance =
        Segment { height_m: lid.clearance_m, depth_m: (path_m - seal_m) / (count + 1.0), medium: Medium::LossyAir(FACE_LOSS) };
    let seal =
        Segment { height_m: residual.height_m * lid.gap_factor, depth_m: seal_m / count.max(1.0), medium: residual.medium };
    (std::array::from_fn(|index| if index % 2 == 0 { clearance } else { seal }), 2 * seals + 1)
}

/// What goes through the edge, `perimeter_m` long, of a lid in a wall `wall_m` thick, at `hz`.
///
/// Inside, the slit lies in the edge between lid and wall (n = 1/2); outside it is one in a face (n = 1).
pub fn lid_at(lid: &Lid, perimeter_m: f64, wall_m: f64, hz: f64, air: &Air) -> OpeningAt {
    let (path, pieces) = lid_path(lid, wall_m);
    slit_at(&path[..pieces], perimeter_m, [SlitEnd::Edge, SlitEnd::MidWall], hz, air)
}

/// Error of band means of openings, as a ratio: a smaller one changes no band by more than 0.2 dB.
pub(super) const BAND_TOLERANCE: f64 = 0.01;

/// Transmission area in m2 by band of the edge of a lid, as [`lid_at`].
pub fn lid_transmission_area(lid: &Lid, perimeter_m: f64, wall_m: f64, air: &Air) -> Spectrum {
    let at = |position| [lid_at(lid, perimeter_m, wall_m, band_position_hz(position), air).transmission_area_m2];
    let [area_m2] = band_means(BAND_TOLERANCE, &[], at);
    area_m2
}
