//! Layers as a plane wave meets them: pressure and velocity carried from the far side to the near side.
//!
//! A plate multiplies [p; v] by [[1, Zp], [0, 1]], a fluid of depth d by [[cos, j Z sin], [j sin / Z, cos]] of kz d (for
//! instance Allard & Atalla 2009, Propagation of Sound in Porous Media, ch. 11). Only the state behind the transmitted
//! wave is carried, which is half the work of multiplying matrices and gives the pressure inside every gap on the way.

use num_complex::Complex64;

use super::porous::Fluid;
use crate::math::complex;

/// Sound pressure in Pa and particle velocity in m/s normal to the layers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct State {
    /// Sound pressure.
    pub pressure: Complex64,
    /// Particle velocity.
    pub velocity: Complex64,
}

/// Cosine of the square root, and sine of the square root over the square root, of `z`.
///
/// Both are whole functions of z, so no root is taken. Series to z^7 after halving the angle until |z| < 1, then doubled
/// back: relative error below 1e-10 times 4^halvings.
#[inline]
pub fn cos_and_sinc(z: Complex64) -> (Complex64, Complex64) {
    let mut halvings = 0;
    let mut reduced = z;
    while reduced.re.abs() + reduced.im.abs() > 1.0 {
        reduced *= 0.25;
        halvings += 1;
    }
    let cosine = horner(reduced, &COSINE);
    let sinc = horner(reduced, &SINC);
    let (mut cosine, mut sinc) = (cosine, sinc);
    for _ in 0..halvings {
        sinc *= cosine;
        cosine = cosine * cosine * 2.0 - 1.0;
    }
    (cosine, sinc)
}

/// (-1)^n/(2n)!
const COSINE: [f64; 8] =
    [1.0, -1.0 / 2.0, 1.0 / 24.0, -1.0 / 720.0, 1.0 / 40_320.0, -1.0 / 3_628_800.0, 1.0 / 479_001_600.0, -1.0 / 87_178_291_200.0];
/// (-1)^n/(2n + 1)!
const SINC: [f64; 8] = [
    1.0,
    -1.0 / 6.0,
    1.0 / 120.0,
    -1.0 / 5040.0,
    1.0 / 362_880.0,
    -1.0 / 39_916_800.0,
    1.0 / 6_227_020_800.0,
    -1.0 / 1_307_674_368_000.0,
];

#[inline]
fn horner(z: Complex64, coefficients: &[f64; 8]) -> Complex64 {
    let mut value = complex(coefficients[7], 0.0);
    for &coefficient in coefficients[..7].iter().rev() {
        value = value * z + coefficient;
    }
    value
}

/// A fluid layer at one frequency, ready for any angle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FluidLayer {
    depth_m: f64,
    /// kf^2.
    wavenumber_squared: Complex64,
    /// Zf kf = density times angular frequency.
    inertance: Complex64,
    inverse_inertance: Complex64,
}

impl FluidLayer {
    /// A layer of `fluid`, `depth_m` deep.
    pub fn new(fluid: Fluid, depth_m: f64) -> Self {
        let inertance = fluid.impedance * fluid.wavenumber;
        Self {
            depth_m,
            wavenumber_squared: fluid.wavenumber * fluid.wavenumber,
            inertance,
            inverse_inertance: complex(1.0, 0.0) / inertance,
        }
    }

    /// Depth in m.
    pub fn depth_m(&self) -> f64 {
        self.depth_m
    }

    /// The state at the near side from that at the far side, for trace wavenumber squared `kx2`.
    #[inline]
    pub fn carry(&self, state: State, kx2: f64) -> State {
        let kz2 = self.wavenumber_squared - kx2;
        let (cosine, sinc) = cos_and_sinc(kz2 * (self.depth_m * self.depth_m));
        self.across(state, kz2, cosine, sinc, self.depth_m)
    }

    /// As [`FluidLayer::carry`], with the mean of |p|^2 over the depth by Simpson's rule.
    ///
    /// The functions of the whole depth follow from those of the half, so that the middle costs little.
    #[inline]
    pub fn carry_with_mean(&self, state: State, kx2: f64) -> (State, f64) {
        let kz2 = self.wavenumber_squared - kx2;
        let half_m = 0.5 * self.depth_m;
        let (half_cosine, half_sinc) = cos_and_sinc(kz2 * (half_m * half_m));
        let middle = self.across(state, kz2, half_cosine, half_sinc, half_m);
        let near = self.across(state, kz2, half_cosine * half_cosine * 2.0 - 1.0, half_sinc * half_cosine, self.depth_m);
        let sum = near.pressure.norm_sqr() + 4.0 * middle.pressure.norm_sqr() + state.pressure.norm_sqr();
        (near, sum / 6.0)
    }

    #[inline]
    fn across(&self, state: State, kz2: Complex64, cosine: Complex64, sinc: Complex64, depth_m: f64) -> State {
        // j Z sin(kz d) = j Zf kf d sinc, j sin(kz d)/Z = j kz^2 d sinc/(Zf kf).
        let sinc = complex(-sinc.im * depth_m, sinc.re * depth_m);
        State {
            pressure: state.pressure * cosine + state.velocity * self.inertance * sinc,
            velocity: state.velocity * cosine + state.pressure * (kz2 * self.inverse_inertance) * sinc,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::{cos_sin, sqrt};

    #[test]
    fn the_series_agrees_with_the_functions() {
        for re in [-40.0, -3.0, -0.2, 0.0, 0.5, 0.99, 7.0, 300.0] {
            for im in [-90.0, -2.0, -0.01, 0.0, 0.3, 20.0] {
                let z = complex(re, im);
                let root = sqrt(z);
                let (cosine, sine) = cos_sin(root);
                let (got_cosine, got_sinc) = cos_and_sinc(z);
                let scale = 1.0 + cosine.l1_norm();
                assert!((got_cosine - cosine).l1_norm() < 1e-8 * scale, "{z}: {got_cosine} against {cosine}");
                if z.l1_norm() > 0.0 {
                    assert!((got_sinc - sine / root).l1_norm() < 1e-8 * scale, "{z}");
                }
            }
        }
    }
}
