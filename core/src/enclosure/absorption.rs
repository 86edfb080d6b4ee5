//! Absorption of a lined chamber.

use std::f64::consts::FRAC_PI_2;

use crate::air::Air;
use crate::bands::{Spectrum, exact_mid_hz};
use crate::math::{complex, sin_cos};
use crate::transmission::layer::{FluidLayer, State};
use crate::transmission::porous::{Fluid, miki};
use crate::transmission::quadrature::integrate;

/// A porous lining on hard walls.
#[derive(Clone, Debug, PartialEq)]
pub struct Lining {
    /// Thickness in m.
    pub thickness_m: f64,
    /// Flow resistivity in Pa s/m2.
    pub flow_resistivity: f64,
}

/// Absorption coefficient of bare boards and of what else stands in a chamber; assumed.
pub const BARE_ABSORPTION: f64 = 0.05;

/// Absorption coefficient of a porous layer on a hard back at one angle of incidence, 0 to 1.
///
/// `air_gap_m` of air may lie between layer and back. One less the square of the reflection factor of the surface
/// impedance (for instance Kuttruff 2009, Room Acoustics, equations 2.10 and 2.13).
pub fn absorption_at_angle(layer: Fluid, thickness_m: f64, air_gap_m: f64, hz: f64, angle: f64, air: &Air) -> f64 {
    let (sine, cosine) = sin_cos(angle);
    let trace = air.wavenumber(hz) * sine;
    let kx2 = trace * trace;
    // A hard back lets nothing move.
    let mut state = State { pressure: complex(1.0, 0.0), velocity: complex(0.0, 0.0) };
    if air_gap_m > 0.0 {
        let gap = Fluid { wavenumber: complex(air.wavenumber(hz), 0.0), impedance: air.complex_impedance() };
        state = FluidLayer::new(gap, air_gap_m).carry(state, kx2);
    }
    state = FluidLayer::new(layer, thickness_m).carry(state, kx2);
    let (forward, back) = (state.pressure * cosine, state.velocity * air.impedance());
    let arriving = (forward + back).norm_sqr();
    if arriving == 0.0 {
        return 0.0;
    }
    1.0 - (forward - back).norm_sqr() / arriving
}

/// Diffuse absorption coefficient (Paris' formula, all directions alike) of a porous layer on a hard back.
pub fn diffuse_absorption(layer: Fluid, thickness_m: f64, air_gap_m: f64, hz: f64, air: &Air) -> f64 {
    let [coefficient] = integrate(&[0.0, FRAC_PI_2], 0.001, |angle| {
        let (sine, cosine) = sin_cos(angle);
        [absorption_at_angle(layer, thickness_m, air_gap_m, hz, angle, air) * 2.0 * sine * cosine]
    });
    coefficient
}

/// Diffuse absorption coefficient of `lining` at mid-band: it varies so slowly that a mean over the band would be the same.
pub fn lining_absorption(lining: &Lining, air: &Air) -> Spectrum {
    Spectrum::from_fn(|band| {
        let hz = exact_mid_hz(band);
        diffuse_absorption(miki(lining.flow_resistivity, hz, air), lining.thickness_m, 0.0, hz, air)
    })
}
