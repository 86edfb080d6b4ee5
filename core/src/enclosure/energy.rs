//! Middle and high frequencies: energy balance of the source chamber and power through the walls.

use std::f64::consts::PI;

use super::absorption::chamber_absorption;
use crate::bands::Spectrum;
use crate::geometry::{surface_area_m2, volume_m3};
use crate::math::to_db;
use crate::transmission::StackSpectra;

/// Distance in m from the bare source, or from the outer surface, at which levels outside are given.
pub const FREE_FIELD_DISTANCE_M: f64 = 1.0;

/// What the energy balance says, by band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Energy {
    /// Insertion loss in dB: sound power without the enclosure over that with it.
    pub insertion_loss_db: Spectrum,
    /// Level of the diffuse field inside in dB over the sound power level.
    pub inside_gain_db: Spectrum,
    /// Level in the gap in dB over that inside; `None` without a gap.
    pub gap_gain_db: Option<Spectrum>,
}

/// Sound power level in dB of a small source on the floor from its level in dB at 1 m: Lw = Lp + 10 lg(2 pi r^2).
pub fn power_from_level_db(level_db: &Spectrum) -> Spectrum {
    let area_db = to_db(2.0 * PI * FREE_FIELD_DISTANCE_M * FREE_FIELD_DISTANCE_M);
    level_db.map(|level| level + area_db)
}

/// Radius in m of the half sphere over the floor on which the level 1 m from a box lies: 1 m and half its mean size.
///
/// The mean size is the cube root of the volume. The box is taken as a point source in its middle (the half sphere of ISO
/// 3744 round a source of this size).
pub fn outside_distance_m(outside_m: [f64; 3]) -> f64 {
    FREE_FIELD_DISTANCE_M + 0.5 * crate::math::cbrt(volume_m3(outside_m))
}

/// Energy balance of a chamber `inside_m` whose walls let `wall` through, lined with absorption `lining`.
///
/// The source's power W meets the walls with the intensity W/A of a diffuse field, A the absorption area with what is
/// transmitted, so that IL = 10 lg(A/(S tau)) and Lp = Lw + 10 lg(4/A) (for instance Vér & Beranek 2006, Noise and
/// Vibration Control Engineering, ch. 12, large enclosures).
pub fn energy(inside_m: [f64; 3], wall: &StackSpectra, lining: Option<&Spectrum>, has_gap: bool) -> Energy {
    let area_m2 = surface_area_m2(inside_m);
    let absorption_m2 = chamber_absorption(area_m2, lining, &wall.transmission);
    Energy {
        insertion_loss_db: absorption_m2.zip(&wall.transmission, |absorption, tau| to_db(absorption / (area_m2 * tau))),
        inside_gain_db: absorption_m2.map(|absorption| to_db(4.0 / absorption)),
        gap_gain_db: has_gap.then(|| wall.gap_gain.map(|gain| to_db(gain.max(1e-30)))),
    }
}
