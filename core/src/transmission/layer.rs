//! Layers as a plane wave meets them: pressure and velocity carried from the far side to the near side.
//!
//! A plate multiplies [p; v] by [[1, Zp], [0, 1]], a fluid of depth d by [[cos, j Z sin], [j sin / Z, cos]] of kz d (for
//! instance Allard & Atalla 2009, Propagation of Sound in Porous Media, ch. 11). Only the state behind the transmitted
//! wave is carried, which is half the work of multiplying matrices and gives the pressure inside every gap on the way.

use num_complex::Complex64;

use super::porous::Fluid;
use crate::lanes::{Lanes, Number};
use crate::math::complex;

/// Sound pressure in Pa and particle velocity in m/s normal to the layers, for several plane waves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct State<N> {
    /// Sound pressure.
    pub pressure: Lanes<N>,
    /// Particle velocity.
    pub velocity: Lanes<N>,
}

/// Cosine of the square root, and sine of the square root over the square root, of `z`.
#[inline]
pub fn cos_and_sinc(z: Complex64) -> (Complex64, Complex64) {
    let (cosine, sinc) = cos_and_sinc_of_all(Lanes::<f64>::all(z));
    (cosine.only(), sinc.only())
}

/// The same of several numbers.
///
/// Both are whole functions of z, so no root is taken. Series to z^6 after halving the angle until |z| < 1 in every lane, then
/// doubled back: relative error below 2e-11 times 4^halvings.
// Large: copies of it would cost a page more than the calls.
#[inline(never)]
pub fn cos_and_sinc_of_all<N: Number>(z: Lanes<N>) -> (Lanes<N>, Lanes<N>) {
    let mut halvings = 0;
    let mut scale = 1.0;
    let largest = z.bound();
    while largest * scale > 1.0 {
        scale *= 0.25;
        halvings += 1;
    }
    let reduced = z.times(scale);
    let (mut cosine, mut sinc) = (horner(reduced, &COSINE), horner(reduced, &SINC));
    for _ in 0..halvings {
        sinc = sinc * cosine;
        cosine = (cosine * cosine).times(2.0).plus_real(-1.0);
    }
    (cosine, sinc)
}

/// Sine of the square root over the square root and over its cosine, of the imaginary number `j y`.
///
/// As in [`cos_and_sinc_of_all`], but that the series of real and imaginary part are half as long.
#[inline]
pub fn tan_over_root_of_imaginary(y: f64) -> Complex64 {
    let mut halvings = 0;
    let mut reduced = y;
    while reduced.abs() > 1.0 {
        reduced *= 0.25;
        halvings += 1;
    }
    let square = -reduced * reduced;
    let series = |c: &[f64; TERMS]| {
        let real = ((c[6] * square + c[4]) * square + c[2]) * square + c[0];
        let imaginary = (c[5] * square + c[3]) * square + c[1];
        complex(real, imaginary * reduced)
    };
    let (mut cosine, mut sinc) = (series(&COSINE), series(&SINC));
    for _ in 0..halvings {
        sinc *= cosine;
        cosine = cosine * cosine * 2.0 - 1.0;
    }
    sinc / cosine
}

/// Terms of the series.
const TERMS: usize = 7;
/// (-1)^n/(2n)!
const COSINE: [f64; TERMS] = [1.0, -1.0 / 2.0, 1.0 / 24.0, -1.0 / 720.0, 1.0 / 40_320.0, -1.0 / 3_628_800.0, 1.0 / 479_001_600.0];
/// (-1)^n/(2n + 1)!
const SINC: [f64; TERMS] =
    [1.0, -1.0 / 6.0, 1.0 / 120.0, -1.0 / 5040.0, 1.0 / 362_880.0, -1.0 / 39_916_800.0, 1.0 / 6_227_020_800.0];

#[inline]
fn horner<N: Number>(z: Lanes<N>, coefficients: &[f64; TERMS]) -> Lanes<N> {
    let mut value = Lanes::all(complex(coefficients[TERMS - 1], 0.0));
    for &coefficient in coefficients[..TERMS - 1].iter().rev() {
        value = (value * z).plus_real(coefficient);
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

    /// The states at the near side from those at the far side, for trace wavenumbers squared `kx2`.
    #[inline]
    pub fn carry<N: Number>(&self, state: State<N>, kx2: N) -> State<N> {
        let kz2 = self.normal(kx2);
        let (cosine, sinc) = cos_and_sinc_of_all(kz2.times(self.depth_m * self.depth_m));
        self.across(state, kz2, cosine, sinc, self.depth_m)
    }

    /// As [`FluidLayer::carry`], with the means of |p|^2 over the depth by Simpson's rule.
    ///
    /// The functions of the whole depth follow from those of the half, so that the middle costs little.
    #[inline]
    pub fn carry_with_mean<N: Number>(&self, state: State<N>, kx2: N) -> (State<N>, N) {
        let kz2 = self.normal(kx2);
        let half_m = 0.5 * self.depth_m;
        let (half_cosine, half_sinc) = cos_and_sinc_of_all(kz2.times(half_m * half_m));
        let middle = self.across(state, kz2, half_cosine, half_sinc, half_m);
        let cosine = (half_cosine * half_cosine).times(2.0).plus_real(-1.0);
        let near = self.across(state, kz2, cosine, half_sinc * half_cosine, self.depth_m);
        let [far, half, close] = [state, middle, near].map(|state| state.pressure.norm_sqr());
        (near, (close + N::splat(4.0) * half + far) / N::splat(6.0))
    }

    /// Squares of the wavenumbers normal to the layer.
    #[inline]
    fn normal<N: Number>(&self, kx2: N) -> Lanes<N> {
        Lanes::all(self.wavenumber_squared) - Lanes::real(kx2)
    }

    #[inline(never)]
    fn across<N: Number>(&self, state: State<N>, kz2: Lanes<N>, cosine: Lanes<N>, sinc: Lanes<N>, depth_m: f64) -> State<N> {
        // j Z sin(kz d) = j Zf kf d sinc, j sin(kz d)/Z = j kz^2 d sinc/(Zf kf).
        let sinc = sinc.times(depth_m).turned();
        State {
            pressure: state.pressure * cosine + state.velocity * Lanes::all(self.inertance) * sinc,
            velocity: state.velocity * cosine + state.pressure * (kz2 * Lanes::all(self.inverse_inertance)) * sinc,
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
                if z.l1_norm() > 0.0 && re == 0.0 {
                    let want = sine / root / cosine;
                    assert!((tan_over_root_of_imaginary(im) - want).l1_norm() < 1e-8 * want.l1_norm(), "{z}");
                }
                if z.l1_norm() > 0.0 {
                    assert!((got_sinc - sine / root).l1_norm() < 1e-8 * scale, "{z}");
                }
            }
        }
    }
}
