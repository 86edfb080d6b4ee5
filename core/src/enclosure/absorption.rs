//! Absorption of a lined chamber.

use std::f64::consts::FRAC_PI_2;

use crate::air::Air;
use crate::bands::{Spectrum, exact_mid_hz};
use crate::lanes::{Lanes, Number, f64x4};
use crate::math::{complex, sin_cos, sines_and_cosines};
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
    Backed::new(layer, thickness_m, air_gap_m, hz, air).absorption(sine, cosine)
}

/// A porous layer before a hard back at one frequency.
struct Backed {
    /// What the sound meets last first.
    layers: [Option<FluidLayer>; 2],
    wavenumber: f64,
    air_impedance: f64,
}

impl Backed {
    fn new(layer: Fluid, thickness_m: f64, air_gap_m: f64, hz: f64, air: &Air) -> Self {
        let gap = Fluid { wavenumber: complex(air.wavenumber(hz), 0.0), impedance: air.complex_impedance() };
        let gap = (air_gap_m > 0.0).then(|| FluidLayer::new(gap, air_gap_m));
        Self {
            layers: [gap, Some(FluidLayer::new(layer, thickness_m))],
            wavenumber: air.wavenumber(hz),
            air_impedance: air.impedance(),
        }
    }

    fn absorption<N: Number>(&self, sine: N, cosine: N) -> N {
        let kx = N::splat(self.wavenumber) * sine;
        // A hard back lets nothing move.
        let still = State { pressure: Lanes::real(N::splat(1.0)), velocity: Lanes::real(N::splat(0.0)) };
        let state = self.layers.iter().flatten().fold(still, |state, layer| layer.carry(state, kx * kx));
        let (forward, back) = (state.pressure.scaled(cosine), state.velocity.times(self.air_impedance));
        let (arriving, returning) = ((forward + back).norm_sqr(), (forward - back).norm_sqr());
        N::splat(1.0) - returning / arriving
    }
}

/// Diffuse absorption coefficient (Paris' formula, all directions alike) of a porous layer on a hard back.
pub fn diffuse_absorption(layer: Fluid, thickness_m: f64, air_gap_m: f64, hz: f64, air: &Air) -> f64 {
    let backed = Backed::new(layer, thickness_m, air_gap_m, hz, air);
    let [coefficient] = integrate(&[0.0, FRAC_PI_2], 0.001, |angles| {
        let (sine, cosine) = sines_and_cosines(angles);
        let absorption = backed.absorption(sine, cosine);
        [absorption * f64x4::splat(2.0) * sine * cosine]
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
