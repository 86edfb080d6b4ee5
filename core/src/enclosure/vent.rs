//! Vents: lined ducts and labyrinths, what they let through and the air they carry.

use serde::{Deserialize, Serialize};

use std::f64::consts::LN_10;

use crate::air::{Air, SPECIFIC_HEAT};
use crate::bands::{BAND_COUNT, Spectrum, band_position, band_position_hz};
use crate::math::{Complex64, complex, exp, from_db, sin_cos};
use crate::transmission::band_mean::band_means;

use super::hole::plane_wave_area;
use super::lid::BAND_TOLERANCE;
use super::opening::Vents;
use super::radiation::piston_end;
use super::resonance::Resonances;
use super::two_port::{OpeningAt, TwoPort};

/// Absorption coefficient of the bare walls of a duct; assumed. Ducts of sheet metal 150 mm square are tabled with 0.3 to 1 dB
/// per metre (from memory), which is 0.01 to 0.025; a chamber's bare walls count more, with what stands in it.
pub const BARE_DUCT_ABSORPTION: f64 = 0.01;
/// Attenuation in dB of one bend whose lining absorbs all, well above c/(2 width); assumed.
pub const BEND_DB: f64 = 6.0;
/// Attenuation in dB beyond which a duct is not followed: long before, sound takes the way through its walls.
pub const MOST_ATTENUATION_DB: f64 = 200.0;
/// Attenuation in dB above which the resonances of a duct are too flat to be looked for.
const RINGING_DB: f64 = 12.0;
/// Rise of temperature in K of the air on its way through the box; assumed.
pub const TEMPERATURE_RISE_K: f64 = 10.0;
/// Speed in m/s of the air in a lined duct above which it is heard near a quiet room; common practice, no source.
pub const QUIET_SPEED_M_S: f64 = 2.5;

/// Attenuation in dB of the whole of one duct at `hz`, its walls absorbing `absorption` (0 to 1, diffuse).
///
/// Piening (1937, VDI-Zeitschrift 81, 770, from memory): 1.5 alpha U/A dB per metre, U the lined perimeter, A the clear area.
/// Above c/(smaller side) rays pass a straight duct without touching its walls, and the attenuation falls as 1/f (Piening's
/// limit as handbooks have it, from memory); a bend blocks them and keeps it. Every bend adds up to [`BEND_DB`] times
/// alpha, growing about c/(2 width) (assumed).
pub fn duct_attenuation_db(vents: &Vents, absorption: f64, hz: f64, air: &Air) -> f64 {
    let [width_m, height_m] = vents.section_m;
    let per_metre_db = 1.5 * absorption * 2.0 * (width_m + height_m) / (width_m * height_m);
    let beaming_hz = air.speed / width_m.min(height_m);
    let beaming = if vents.bends == 0 { (beaming_hz / hz).min(1.0) } else { 1.0 };
    let onset = hz * 2.0 * width_m.max(height_m) / air.speed;
    let bends_db = vents.bends as f64 * BEND_DB * absorption * onset * onset / (1.0 + onset * onset);
    (per_metre_db * beaming * centre_line_m(vents) + bends_db).min(MOST_ATTENUATION_DB)
}

/// Length in m along the middle of one duct: every bend adds the side of a square of its section.
fn centre_line_m(vents: &Vents) -> f64 {
    let [width_m, height_m] = vents.section_m;
    vents.length_m + vents.bends as f64 * (width_m * height_m).sqrt()
}

/// What goes through `vents` at `hz`, their walls absorbing `absorption` (0 to 1, diffuse).
///
/// A line of the plane wave with the attenuation spread along it, between the ends of a piston; above the first cross mode
/// the rest of the section carries rays with the same attenuation.
pub fn vents_at(vents: &Vents, absorption: f64, hz: f64, air: &Air) -> OpeningAt {
    let area_m2 = vents.section_m[0] * vents.section_m[1];
    let attenuation_db = duct_attenuation_db(vents, absorption, hz, air);
    let decay = attenuation_db * (LN_10 / 20.0);
    let phase = air.wavenumber(hz) * centre_line_m(vents);
    // cos and j sin of the complex phase times exp(-decay), which alone would overflow in a long lined duct.
    let there_and_back = phasor(2.0 * phase) * exp(-2.0 * decay);
    let turn = phasor(-phase);
    let cosine = turn * (there_and_back + 1.0) * 0.5;
    let j_sine = turn * (complex(1.0, 0.0) - there_and_back) * 0.5;
    // What walls absorb is lost to the air's compression, not to its motion: the density stays that of air.
    let impedance = complex(air.impedance() * phase / area_m2, 0.0) / complex(phase, -decay);
    let line = TwoPort { t11: cosine, t12: j_sine * impedance, t21: j_sine / impedance, t22: cosine };
    let end = piston_end(area_m2, hz, air);
    let scaled = line.between([end, end], air);
    let rays_m2 = (area_m2 - plane_wave_area(hz, air)).max(0.0);
    let through = from_db(-attenuation_db);
    OpeningAt {
        admittance: scaled.admittance * exp(-decay),
        driving_admittance: scaled.driving_admittance,
        far_driving_admittance: scaled.far_driving_admittance,
        transmission_area_m2: (scaled.transmission_area_m2 + rays_m2) * through,
    }
    .times(vents.count as f64)
}

/// exp(-j `angle`).
fn phasor(angle: f64) -> Complex64 {
    let (sine, cosine) = sin_cos(angle);
    complex(cosine, -sine)
}

/// Absorption coefficient of the walls of a duct whose lining absorbs `lining`: what the lining leaves meets the boards.
pub fn duct_absorption(lining: Option<&Spectrum>) -> Spectrum {
    let bare = Spectrum::constant(BARE_DUCT_ABSORPTION);
    lining.map_or(bare, |lining| lining.map(|lined| lined + (1.0 - lined) * BARE_DUCT_ABSORPTION))
}

/// Transmission area in m2 by band of `vents`, whose lining absorbs `lining` by band, as [`vents_at`].
pub fn vents_transmission_area(vents: &Vents, lining: Option<&Spectrum>, air: &Air) -> Spectrum {
    let absorption = duct_absorption(lining);
    let at = |position| {
        let absorption = at_position(&absorption, position);
        [vents_at(vents, absorption, band_position_hz(position), air).transmission_area_m2]
    };
    let section_m2 = vents.section_m[0] * vents.section_m[1];
    let end = |hz| piston_end(section_m2, hz, air).reactance * section_m2 / air.impedance();
    let rings = |position: f64| {
        let absorption = at_position(&absorption, position);
        duct_attenuation_db(vents, absorption, band_position_hz(position), air) < RINGING_DB
    };
    let mut resonances = Resonances::along(centre_line_m(vents), end, air);
    resonances.retain(rings);
    let [area_m2] = band_means(BAND_TOLERANCE, resonances.positions(), at);
    area_m2
}

/// Absorption at `hz` from that at mid-bands: straight lines between them, the ends held.
pub fn absorption_at(absorption: &Spectrum, hz: f64) -> f64 {
    at_position(absorption, band_position(hz))
}

fn at_position(spectrum: &Spectrum, position: f64) -> f64 {
    let position = position.clamp(0.0, (BAND_COUNT - 1) as f64);
    let below = (position as usize).min(BAND_COUNT - 2);
    let share = position - below as f64;
    spectrum[below] * (1.0 - share) + spectrum[below + 1] * share
}

/// The air that carries the heat away.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct VentFlow {
    /// Volume flow in m3/s.
    pub flow_m3_s: f64,
    /// Speed in the ducts in m/s, the faster way where in and out differ.
    pub speed_m_s: f64,
}

impl VentFlow {
    /// Whether the flow itself is heard, above [`QUIET_SPEED_M_S`].
    pub fn is_heard(&self) -> bool {
        self.speed_m_s > QUIET_SPEED_M_S
    }
}

/// The air that `vents` have to pass for `heat_w` at a rise of [`TEMPERATURE_RISE_K`]: V = P/(rho cp dT).
///
/// Half of the ducts lead in and half out, the smaller half where their number is odd; a single one serves both ways, each with
/// half its section.
pub fn vent_flow(vents: &Vents, heat_w: f64, air: &Air) -> VentFlow {
    let flow_m3_s = heat_w / (air.density * SPECIFIC_HEAT * TEMPERATURE_RISE_K);
    let one_way = if vents.count < 2 { 0.5 } else { (vents.count / 2) as f64 };
    VentFlow { flow_m3_s, speed_m_s: flow_m3_s / (one_way * vents.section_m[0] * vents.section_m[1]) }
}
