//! How easily a panel moves where a force drives it, and what part of that power it radiates.
//!
//! Point mobility averaged over the position: a sum over modes up to a few times the first of them, that of an infinite
//! plate above.

use std::f64::consts::PI;

use super::transmissibility::{band_edges, resonance_mean};
use crate::air::Air;
use crate::bands::{Spectrum, exact_mid_hz};
use crate::buildup::{EdgeLoss, Laminate};
use crate::geometry::representative_face_m;
use crate::math::{Complex64, pow};
use crate::transmission::bending::{bending_stiffness, free_wavenumber};
use crate::transmission::resonant::{first_mode_hz, free_wave_efficiency};

/// Point mobility 1/(8 sqrt(D m)) in m/(N s) of an infinite plate of bending stiffness D in N m and mass m in kg/m2.
///
/// Cremer, Heckl & Petersson (2005), Structure-Borne Sound, ch. 4. It is real and does not depend on frequency.
pub fn infinite_plate_mobility(stiffness: f64, surface_mass: f64) -> f64 {
    1.0 / (8.0 * (stiffness * surface_mass).sqrt())
}

/// Most half waves along one side.
const MOST_HALF_WAVES: usize = 32;
/// Modes count up to this many times the frequency of the first: what lies beyond adds less than 0.1 dB where they are used.
pub(super) const HIGHEST_MODE: f64 = 10.0;
/// The modal sum gives way to the infinite plate between these multiples of the first mode's frequency.
const BLEND: [f64; 2] = [2.0, 4.0];

/// The modes of a rectangular plate: bending wavenumbers, each to the fourth power.
#[derive(Clone, Debug, PartialEq)]
pub struct PlateModes {
    /// Area in m2.
    area_m2: f64,
    /// Wavenumbers to the fourth power in 1/m4, the first mode at the front.
    fourth_powers: Vec<f64>,
}

impl PlateModes {
    /// Modes of a plate of `size_m` up to `highest` times the frequency of the first.
    ///
    /// Products of beam functions, k^4 = (k_m/a)^4 + (k_n/b)^4 + 2 h_m h_n/(a b)^2 (Warburton 1954, "The vibration of
    /// rectangular plates", Proc. Inst. Mech. Eng. 168, 371-384), `fixity` from 0, hinged, to 1, clamped, as in
    /// [`super::panel`].
    pub fn new([a, b]: [f64; 2], fixity: f64, highest: f64) -> Self {
        let [along, across] = [a, b].map(|side_m| {
            let unit = 1.0 / (side_m * side_m);
            std::array::from_fn::<_, MOST_HALF_WAVES, _>(|index| beam(index + 1, fixity).map(|measure| measure * unit))
        });
        let fourth_power = |m: usize, n: usize| {
            let ([k_m, h_m], [k_n, h_n]) = (along[m], across[n]);
            k_m * k_m + k_n * k_n + 2.0 * h_m * h_n
        };
        let limit = highest * highest * fourth_power(0, 0);
        let mut fourth_powers = Vec::with_capacity(32);
        for m in 0..MOST_HALF_WAVES {
            for n in 0..MOST_HALF_WAVES {
                let power = fourth_power(m, n);
                if power > limit {
                    break;
                }
                fourth_powers.push(power);
            }
        }
        Self { area_m2: a * b, fourth_powers }
    }

    /// Frequency in Hz of the first mode of a plate of this `stiffness` in N m and `surface_mass` in kg/m2.
    pub fn first_hz(&self, stiffness: f64, surface_mass: f64) -> f64 {
        (stiffness * self.fourth_powers[0] / surface_mass).sqrt() / (2.0 * PI)
    }

    /// Real part of the point mobility in m/(N s), mean over the plate and over a band.
    ///
    /// Each mode gives w eta w_n^2/(M ((w_n^2 - w^2)^2 + eta^2 w_n^4)) with M the mass of the plate, since the mean square
    /// of its shape is 1 by choice of scale. Precondition: positive loss factor.
    pub fn mobility(&self, stiffness: f64, surface_mass: f64, loss_factor: f64, band: usize) -> f64 {
        let edges = band_edges(band);
        let modes = self.fourth_powers.iter().map(|power| {
            let natural = stiffness * power / surface_mass;
            natural * resonance_mean(natural, loss_factor * natural, edges)
        });
        2.0 * PI * exact_mid_hz(band) * loss_factor / (surface_mass * self.area_m2) * modes.sum::<f64>()
    }
}

/// Square of the wavenumber and mean square slope of the beam function with `half_waves` on a side of length 1; each in
/// geometric proportion between hinged and clamped (assumed).
fn beam(half_waves: usize, fixity: f64) -> [f64; 2] {
    let hinged = PI * half_waves as f64;
    // Roots of cosh k cos k = 1, and sigma = (cosh k - cos k)/(sinh k - sin k), whose slope is sigma k (sigma k - 2).
    let (clamped, sigma) = match half_waves {
        1 => (4.730_041, 0.982_502),
        2 => (7.853_205, 1.000_777),
        _ => (hinged + 0.5 * PI, 1.0),
    };
    let slope = sigma * clamped * (sigma * clamped - 2.0);
    let hinged = hinged * hinged;
    [clamped * clamped, slope].map(|clamped| hinged * pow(clamped / hinged, fixity))
}

/// What a panel makes of a force, by band; it depends on the panel alone and may be kept while that stays.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PanelResponse {
    /// Real part of the point mobility in m/(N s): power over mean square force.
    pub mobility: Spectrum,
    /// Part of that power which leaves as sound on one side: eta_rad/(eta_rad + eta_structure).
    pub radiated_share: Spectrum,
}

impl PanelResponse {
    /// The mean face of a box `box_m` of `laminate` whose edges are held with `fixity`, radiating to one side.
    pub fn of_box(laminate: &Laminate, box_m: [f64; 3], fixity: f64, air: &Air) -> Self {
        let size_m = representative_face_m(box_m);
        let modes = PlateModes::new(size_m, fixity, HIGHEST_MODE);
        let surface_mass = laminate.surface_mass();
        let first = modes.fourth_powers[0];
        let first_wavenumber = first.sqrt().sqrt();
        let plate = |band: usize| {
            let hz = exact_mid_hz(band);
            let omega = 2.0 * PI * hz;
            // Below the first mode the panel bends in its shape, above in free waves.
            let at_first = bending_stiffness(laminate, first_wavenumber, hz);
            let stiffness = if at_first.re * first >= surface_mass * omega * omega {
                at_first
            } else {
                bending_stiffness(laminate, free_wavenumber(laminate, hz), hz)
            };
            Plate { stiffness, surface_mass }
        };
        panel_response(size_m, Some(&modes), EdgeLoss::BOX_JOINTS, plate, air)
    }
}

/// A plate as it is in one band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Plate {
    /// Bending stiffness in N m with its loss, edges left out.
    pub stiffness: Complex64,
    /// Mass in kg/m2.
    pub surface_mass: f64,
}

/// The response of a `plate`, given by band; without `modes` it is taken as infinite at all frequencies.
pub(super) fn panel_response(
    size_m: [f64; 2],
    modes: Option<&PlateModes>,
    edge_loss: EdgeLoss,
    plate: impl Fn(usize) -> Plate,
    air: &Air,
) -> PanelResponse {
    let mut response = PanelResponse { mobility: Spectrum::constant(0.0), radiated_share: Spectrum::constant(0.0) };
    for band in 0..crate::bands::BAND_COUNT {
        let hz = exact_mid_hz(band);
        let Plate { stiffness, surface_mass } = plate(band);
        let structure_loss = stiffness.im / stiffness.re + edge_loss.loss_factor(hz, surface_mass);
        let critical_hz = air.speed * air.speed / (2.0 * PI) * (surface_mass / stiffness.re).sqrt();
        let efficiency = radiation_efficiency(size_m, critical_hz, hz, air);
        let radiation_loss = air.impedance() * efficiency / (2.0 * PI * hz * surface_mass);
        let loss = structure_loss + radiation_loss;
        let infinite = infinite_plate_mobility(stiffness.re, surface_mass);
        response.mobility[band] = modes.map_or(infinite, |modes| {
            let over_first = hz / modes.first_hz(stiffness.re, surface_mass);
            let weight = ((BLEND[1] - over_first) / (BLEND[1] - BLEND[0])).clamp(0.0, 1.0);
            let modal = if weight > 0.0 { modes.mobility(stiffness.re, surface_mass, loss, band) } else { 0.0 };
            weight * modal + (1.0 - weight) * infinite
        });
        response.radiated_share[band] = radiation_loss / loss;
    }
    response
}

/// Radiation efficiency to one side of a panel that a force drives, at most 1.
///
/// Free waves above the first mode; below it not more than a small piston in a baffle, 4 S f^2/c^2 (ISO 12354-1:2017,
/// Annex B). That bound is let go over the octave above the first mode, so that nothing jumps.
fn radiation_efficiency(size_m: [f64; 2], critical_hz: f64, hz: f64, air: &Air) -> f64 {
    let free = free_wave_efficiency(size_m, critical_hz, hz, air).min(1.0);
    let per_wavelength = hz / air.speed;
    let small = free.min(4.0 * size_m[0] * size_m[1] * per_wavelength * per_wavelength);
    let above_first = (hz / first_mode_hz(size_m, critical_hz, air) - 1.0).clamp(0.0, 1.0);
    small + above_first * (free - small)
}
