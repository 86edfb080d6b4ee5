//! Middle and high frequencies: energy balance of the chambers, and power through walls and openings.
//!
//! A source of power W fills its chamber with the intensity I = W/A of a diffuse field, A the absorption area with all that
//! gets out (for instance Vér & Beranek 2006, Noise and Vibration Control Engineering, ch. 12, large enclosures). Through
//! the walls goes I S tau, tau of both shells and the gap as one stack. Openings add: with wall1 = S1 tau1 of the inner
//! shell alone, wall2 = S2 tau2 of the outer one, the gap's own field carries
//!
//! [(leak1 + wall1)(leak2 + wall2) - wall1 wall2]/A_gap.

use std::f64::consts::PI;

use super::absorption::BARE_ABSORPTION;
use crate::air::Air;
use crate::bands::Spectrum;
use crate::geometry::volume_m3;
use crate::math::to_db;
use crate::transmission::StackSpectra;

/// Distance in m from the bare source, or from the outer surface, at which levels outside are given.
pub const FREE_FIELD_DISTANCE_M: f64 = 1.0;

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

/// Transmission areas tau S in m2 of a shell's openings, by band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OpeningAreas {
    /// Edge of the lid.
    pub leaks: Spectrum,
    /// Holes.
    pub holes: Spectrum,
}

/// A chamber that the source's power W fills.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SourceChamber {
    /// Area in m2 of its walls to the gap or outside; lined where there is a lining.
    pub walls_m2: f64,
    /// Area in m2 of a bare baffle.
    pub bare_m2: f64,
    /// Part of the lid's edge that leads into it.
    pub lid_share: f64,
    /// Part of the holes and of the vents that lead into it.
    pub holes_share: f64,
}

/// The gap and the outer shell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OuterEnergy<'a> {
    /// Transmission coefficient of the outer shell alone.
    pub transmission: &'a Spectrum,
    /// Its inside area in m2.
    pub area_m2: f64,
    /// Absorption area in m2 of the gap, without what goes through its walls.
    pub gap_absorption_m2: &'a Spectrum,
    /// Its openings.
    pub openings: &'a OpeningAreas,
}

/// Everything that the balance needs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Balance<'a> {
    /// Chamber in front of the driver.
    pub front: SourceChamber,
    /// Chamber behind it, into which it gives the same power.
    pub rear: Option<SourceChamber>,
    /// Absorption coefficient of the lining.
    pub lining: Option<&'a Spectrum>,
    /// Both shells and the gap as one stack, or the only shell.
    pub stack: &'a StackSpectra,
    /// Transmission coefficient of the inner shell alone.
    pub inner_transmission: &'a Spectrum,
    /// Openings of the inner shell.
    pub openings: &'a OpeningAreas,
    /// Transmission area in m2 of the vents to the room.
    pub vents_m2: &'a Spectrum,
    /// Gap and outer shell.
    pub outer: Option<OuterEnergy<'a>>,
}

/// Energy ratios to the bare source's power, by band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EnergySpectra {
    /// Through walls alone.
    pub walls: Spectrum,
    /// Through the edge of a lid on its way.
    pub leaks: Spectrum,
    /// Through holes on its way.
    pub holes: Spectrum,
    /// Through the vents.
    pub vents: Spectrum,
    /// Mean square pressure in front of the driver over that of sound power W at 1 m2: 4/A.
    pub inside: Spectrum,
    /// The same for the gap.
    pub gap: Spectrum,
}

impl EnergySpectra {
    /// All that gets out, over the bare source's power.
    pub(crate) fn all(&self) -> Spectrum {
        Spectrum::from_fn(|band| self.walls[band] + self.leaks[band] + self.holes[band] + self.vents[band])
    }

    /// Mean square velocity in (m/s)2 of inner walls with the transmission coefficient `leaf`, per W of the source's power.
    ///
    /// Walls that a diffuse field of this intensity drives radiate I tau = rho c v^2, radiation efficiency 1.
    pub(crate) fn wall_velocity(&self, leaf: &Spectrum, air: &Air) -> Spectrum {
        self.inside.zip(leaf, |inside, tau| 0.25 * inside * tau / air.impedance())
    }
}

/// What one chamber sends out in one band, per unit of intensity: walls, leaks, holes, vents in m2; gap as a ratio.
struct Sent {
    paths: [f64; 4],
    gap: f64,
}

impl Balance<'_> {
    /// The ratios.
    pub fn spectra(&self) -> EnergySpectra {
        let zero = Spectrum::constant(0.0);
        let mut sum = EnergySpectra { walls: zero, leaks: zero, holes: zero, vents: zero, inside: zero, gap: zero };
        for band in 0..crate::bands::BAND_COUNT {
            for (chamber, is_front) in [(Some(&self.front), true), (self.rear.as_ref(), false)] {
                let Some(chamber) = chamber else { continue };
                let sent = self.sent(chamber, band);
                let lined = self.lining.map_or(0.0, |coefficient| coefficient[band]);
                let kept = chamber.walls_m2 * (lined + (1.0 - lined) * BARE_ABSORPTION) + chamber.bare_m2 * BARE_ABSORPTION;
                // What gets out cannot be more than the source gives.
                let absorption_m2 = kept + sent.paths.iter().sum::<f64>();
                let [walls, leaks, holes, vents] = sent.paths.map(|area_m2| area_m2 / absorption_m2);
                sum.walls[band] += walls;
                sum.leaks[band] += leaks;
                sum.holes[band] += holes;
                sum.vents[band] += vents;
                sum.gap[band] += sent.gap * 4.0 / absorption_m2;
                if is_front {
                    sum.inside[band] = 4.0 / absorption_m2;
                }
            }
        }
        sum
    }

    fn sent(&self, chamber: &SourceChamber, band: usize) -> Sent {
        let stack = self.stack.transmission[band] * chamber.walls_m2;
        let wall1 = self.inner_transmission[band] * chamber.walls_m2;
        let leak1 = self.openings.leaks[band] * chamber.lid_share;
        let hole1 = self.openings.holes[band] * chamber.holes_share;
        let vents = self.vents_m2[band] * chamber.holes_share;
        let Some(outer) = &self.outer else {
            return Sent { paths: [stack, leak1, hole1, vents], gap: 0.0 };
        };
        let wall2 = outer.transmission[band] * outer.area_m2;
        let (leak2, hole2) = (outer.openings.leaks[band], outer.openings.holes[band]);
        let gap_m2 = outer.gap_absorption_m2[band] + wall1 + leak1 + hole1 + wall2 + leak2 + hole2;
        let both = 0.5 * (leak1 * hole2 + hole1 * leak2);
        let leaks = (leak1 * (wall2 + leak2) + wall1 * leak2 + both) / gap_m2;
        let holes = (hole1 * (wall2 + hole2) + wall1 * hole2 + both) / gap_m2;
        Sent { paths: [stack, leaks, holes, vents], gap: self.stack.gap_gain[band] + (leak1 + hole1) / gap_m2 }
    }
}
