//! Floors by preset: how they move under the feet of a box, and what of that the room below or beside hears.
//!
//! All numbers are assumed or from memory, and floors of one kind differ by 10 dB: an estimate of the order.

use std::f64::consts::PI;

use super::mobility::{HIGHEST_MODE, PanelResponse, Plate, PlateModes, panel_response};
use super::support::Floor;
use crate::air::Air;
use crate::bands::exact_mid_hz;
use crate::buildup::EdgeLoss;
use crate::math::{complex, exp, ln};

/// Length and width in m of the floor of a room; assumed.
const ROOM_M: [f64; 2] = [5.0, 4.0];

/// Concrete: Young's modulus in Pa, density in kg/m3, Poisson's ratio, loss factor (textbook values, from memory).
const CONCRETE: (f64, f64, f64, f64) = (30e9, 2300.0, 0.2, 0.01);
/// Thickness in m of concrete on the ground (0.10 to 0.15; assumed).
const GROUND_THICKNESS_M: f64 = 0.125;
/// Loss factor that the soil adds to concrete on it; assumed.
const SOIL_LOSS_FACTOR: f64 = 0.1;
/// Thickness in m of a slab between storeys; assumed.
const SLAB_THICKNESS_M: f64 = 0.16;
/// Level in dB that the junction takes on the way to the room beside on the same concrete; assumed (5 to 15).
const JUNCTION_DB: f64 = 10.0;

/// Boards: thickness in m, Young's modulus in Pa, density in kg/m3, Poisson's ratio (particle board; from memory).
const BOARDS: (f64, f64, f64, f64) = (0.022, 3e9, 680.0, 0.3);
/// Joists: width, height and spacing in m, Young's modulus in Pa, density in kg/m3 (softwood; from memory).
const JOISTS: ([f64; 3], f64, f64) = ([0.045, 0.195, 0.6], 11e9, 450.0);
/// Mass in kg/m2 of a ceiling below the joists: one gypsum board and its battens; assumed.
const CEILING: f64 = 11.0;
/// Loss factor of boards on joists, and what their edges add; assumed.
const JOIST_LOSS_FACTORS: (f64, f64) = (0.03, 0.03);

/// What a floor makes of a force, and what its junctions take.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FloorResponse {
    /// Mobility and the share that is radiated into the room below or beside.
    pub panel: PanelResponse,
    /// Level in dB lost on the way to the part that radiates.
    pub junction_db: f64,
}

impl Floor {
    /// The response of a floor of this kind, of an ordinary room's size.
    ///
    /// Concrete between storeys is a hinged plate with the edge losses of ISO 12354-1:2017, Annex C; concrete on the
    /// ground an infinite plate that soil damps. Boards on joists are one plate of the geometric mean of both directions'
    /// stiffness (as an orthotropic plate has) while half a bending wave of the boards spans the joists' spacing, and the
    /// boards alone two octaves above. Published mobilities of floors are about 1e-6 m/(N s) for slabs and 1e-5 to 1e-4,
    /// between joists more, for timber (from memory).
    pub fn response(self, air: &Air) -> FloorResponse {
        let concrete = |thickness_m: f64| {
            let (modulus, density, poisson, loss) = CONCRETE;
            let stiffness = plate_stiffness(modulus, thickness_m, poisson);
            Plate { stiffness: complex(stiffness, stiffness * loss), surface_mass: density * thickness_m }
        };
        let modes = || PlateModes::new(ROOM_M, 0.0, HIGHEST_MODE);
        match self {
            Self::Ground => {
                let plate = concrete(GROUND_THICKNESS_M);
                let panel = panel_response(ROOM_M, None, EdgeLoss::Constant(SOIL_LOSS_FACTOR), |_| plate, air);
                FloorResponse { panel, junction_db: JUNCTION_DB }
            }
            Self::Slab => {
                let plate = concrete(SLAB_THICKNESS_M);
                let panel = panel_response(ROOM_M, Some(&modes()), EdgeLoss::Laboratory, |_| plate, air);
                FloorResponse { panel, junction_db: 0.0 }
            }
            Self::Joists => {
                let edge_loss = EdgeLoss::Constant(JOIST_LOSS_FACTORS.1);
                let panel = panel_response(ROOM_M, Some(&modes()), edge_loss, boards_on_joists, air);
                FloorResponse { panel, junction_db: 0.0 }
            }
        }
    }
}

fn plate_stiffness(modulus: f64, thickness_m: f64, poisson: f64) -> f64 {
    modulus * thickness_m.powi(3) / (12.0 * (1.0 - poisson * poisson))
}

/// Boards and joists as the plate that they are in a band.
fn boards_on_joists(band: usize) -> Plate {
    let (thickness_m, modulus, density, poisson) = BOARDS;
    let ([width_m, height_m, spacing_m], joist_modulus, joist_density) = JOISTS;
    let boards = plate_stiffness(modulus, thickness_m, poisson);
    let boards_mass = density * thickness_m;
    let along = boards + joist_modulus * width_m * height_m.powi(3) / (12.0 * spacing_m);
    let whole = (along * boards).sqrt();
    let whole_mass = boards_mass + joist_density * width_m * height_m / spacing_m + CEILING;
    let spanning_hz = 0.5 * PI / (spacing_m * spacing_m) * (boards / boards_mass).sqrt();
    let octaves = ln(exact_mid_hz(band) / spanning_hz) / std::f64::consts::LN_2;
    let alone = (0.5 * octaves).clamp(0.0, 1.0);
    let between = |whole: f64, boards: f64| exp((1.0 - alone) * ln(whole) + alone * ln(boards));
    let stiffness = between(whole, boards);
    Plate { stiffness: complex(stiffness, stiffness * JOIST_LOSS_FACTORS.0), surface_mass: between(whole_mass, boards_mass) }
}
