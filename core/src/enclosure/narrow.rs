//! Air in narrow channels: viscosity and heat conduction at the walls of a slit or a round tube.
//!
//! Zwikker & Kosten (1949, Sound Absorbing Materials, ch. 2) and, for slits and tubes alike, Stinson (1991, J. Acoust. Soc. Am.
//! 89, 550): the effective density is rho/F(s^2) and the compressibility (1 + (gamma - 1)(1 - F(Pr s^2)))/(rho c^2), where F is
//! the mean of the velocity's profile over that without friction. Slit of height h: F = 1 - tanh(s)/s, s^2 = j w rho (h/2)^2/mu.
//! Tube of radius a: F = 1 - 2 I1(s)/(s I0(s)), s^2 = j w rho a^2/mu.

use std::f64::consts::PI;

use crate::air::{Air, HEAT_RATIO, PRANDTL};
use crate::math::{Complex64, complex, sqrt};
use crate::transmission::layer::tan_over_root_of_imaginary;
use crate::transmission::porous::{Fluid, miki};

/// A medium as the wave along a channel sees it; time convention exp(+jwt).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChannelFluid {
    /// Effective density in kg/m3.
    pub density: Complex64,
    /// Effective compressibility in 1/Pa.
    pub compressibility: Complex64,
}

impl ChannelFluid {
    /// Air in a slit `height_m` high.
    pub fn slit(height_m: f64, hz: f64, air: &Air) -> Self {
        Self::from_profiles(shear_number(0.5 * height_m, hz, air), slit_profile, air)
    }

    /// Air in a round tube.
    pub fn tube(radius_m: f64, hz: f64, air: &Air) -> Self {
        Self::from_profiles(shear_number(radius_m, hz, air), tube_profile, air)
    }

    /// Porous material that fills a channel; what its walls add is nothing beside its own pores.
    pub fn porous(flow_resistivity: f64, hz: f64, air: &Air) -> Self {
        let Fluid { wavenumber, impedance } = miki(flow_resistivity, hz, air);
        let omega = 2.0 * PI * hz;
        Self { density: impedance * wavenumber / omega, compressibility: wavenumber / (impedance * omega) }
    }

    /// Part `share` of this and the rest of `other`, mobilities and compressibilities added: passive if both are.
    #[must_use]
    pub fn mixed(self, share: f64, other: Self) -> Self {
        let one = complex(1.0, 0.0);
        let mobility = one / self.density * share + one / other.density * (1.0 - share);
        Self { density: one / mobility, compressibility: self.compressibility * share + other.compressibility * (1.0 - share) }
    }

    fn from_profiles(shear: f64, profile: impl Fn(f64) -> Complex64, air: &Air) -> Self {
        let bulk_modulus = air.density * air.speed * air.speed;
        let thermal = complex(1.0, 0.0) - profile(PRANDTL * shear);
        Self {
            density: complex(air.density, 0.0) / profile(shear),
            compressibility: (thermal * (HEAT_RATIO - 1.0) + 1.0) / bulk_modulus,
        }
    }
}

/// |s|^2 = w rho x^2/mu for half height or radius x.
fn shear_number(half_m: f64, hz: f64, air: &Air) -> f64 {
    2.0 * PI * hz * air.density * half_m * half_m / air.viscosity()
}

/// Below this the profile is a parabola and its next term.
const LOWEST_SHEAR: f64 = 1e-3;
/// From here on what is left of tanh's distance from 1 is below 1e-12.
const WIDE_SLIT_SHEAR: f64 = 400.0;
/// From here on the asymptotic series of I1/I0 is as good as the continued fraction (1e-6).
const WIDE_TUBE_SHEAR: f64 = 225.0;
/// Terms of the continued fraction, enough up to [`WIDE_TUBE_SHEAR`].
const FRACTION_TERMS: u32 = 24;

/// 1 - tanh(s)/s for s^2 = j `shear`.
fn slit_profile(shear: f64) -> Complex64 {
    let s2 = complex(0.0, shear);
    if shear < LOWEST_SHEAR {
        return s2 * (complex(1.0 / 3.0, 0.0) - s2 * (2.0 / 15.0));
    }
    let one = complex(1.0, 0.0);
    if shear > WIDE_SLIT_SHEAR {
        return one - one / sqrt(s2);
    }
    // tanh(s)/s is sinc over cosine of the root of -s^2: whole functions, no cancellation, no overflow.
    one - tan_over_root_of_imaginary(-shear)
}

/// 1 - 2 I1(s)/(s I0(s)) for s^2 = j `shear`.
fn tube_profile(shear: f64) -> Complex64 {
    let s2 = complex(0.0, shear);
    if shear < LOWEST_SHEAR {
        return s2 * (complex(1.0 / 8.0, 0.0) - s2 * (1.0 / 48.0));
    }
    let one = complex(1.0, 0.0);
    if shear > WIDE_TUBE_SHEAR {
        // Abramowitz & Stegun (1964), 9.7.1: quotient of the two series.
        let u = one / sqrt(s2);
        let quotient = one - u * (u * (u * (u * (25.0 / 128.0) + 1.0 / 8.0) + 1.0 / 8.0) + 0.5);
        return one - u * quotient * 2.0;
    }
    // I1/I0 = s/(2 + s^2/(4 + s^2/(6 + ...))) (Abramowitz & Stegun 1964, 9.1.73 with z = js).
    let mut tail = complex(0.0, 0.0);
    for term in (2..FRACTION_TERMS).rev() {
        tail = s2 / (tail + 2.0 * f64::from(term));
    }
    one - complex(2.0, 0.0) / (tail + 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Both profiles by their differential equation, solved by finite differences, over six decades of s^2.
    #[test]
    fn profiles_solve_their_equation() {
        // u'' + (n/x) u' - s^2 u = -s^2 on 0..1, u'(0) = 0, u(1) = 0; F is the mean of u: n = 0 slit, n = 1 tube.
        let solve = |shear: f64, around: f64| {
            const POINTS: usize = 8000;
            let s2 = complex(0.0, shear);
            let step = 1.0 / POINTS as f64;
            // Volumes about the points, so that u' at the axis is zero of itself.
            let face = |i: usize| if around == 0.0 { 1.0 } else { i as f64 * step };
            let mut upper = vec![complex(0.0, 0.0); POINTS];
            let mut right = vec![complex(0.0, 0.0); POINTS];
            let weight = |i: usize| if around == 0.0 { step } else { (i as f64 + 0.5) * step * step };
            for i in 0..POINTS {
                let below = if i == 0 { 0.0 } else { face(i) / step };
                let above = face(i + 1) / if i + 1 == POINTS { 0.5 * step } else { step };
                let above_kept = if i + 1 == POINTS { 0.0 } else { above };
                let diagonal = s2 * weight(i) + below + above;
                let (previous, carried) =
                    if i == 0 { (complex(0.0, 0.0), complex(0.0, 0.0)) } else { (upper[i - 1], right[i - 1]) };
                let pivot = diagonal - previous * below;
                upper[i] = complex(above_kept, 0.0) / pivot;
                right[i] = (s2 * weight(i) + carried * below) / pivot;
            }
            let mut u = right[POINTS - 1];
            let mut mean = u * weight(POINTS - 1);
            for i in (0..POINTS - 1).rev() {
                u = right[i] + upper[i] * u;
                mean += u * weight(i);
            }
            mean * (1.0 + around)
        };
        for shear in [1e-2, 0.3, 3.0, 30.0, 200.0, 240.0, 390.0, 410.0, 3000.0] {
            for (profile, around) in [(slit_profile as fn(f64) -> Complex64, 0.0), (tube_profile, 1.0)] {
                let (ours, want) = (profile(shear), solve(shear, around));
                assert!((ours - want).l1_norm() < 1e-4 * want.l1_norm(), "s^2 = {shear}j, {around}: {ours} against {want}");
            }
        }
    }

    #[test]
    fn profiles_join_where_the_forms_change() {
        for (profile, edges) in [
            (slit_profile as fn(f64) -> Complex64, [LOWEST_SHEAR, WIDE_SLIT_SHEAR]),
            (tube_profile, [LOWEST_SHEAR, WIDE_TUBE_SHEAR]),
        ] {
            for edge in edges {
                let (below, above) = (profile(edge * (1.0 - 1e-9)), profile(edge * (1.0 + 1e-9)));
                assert!((below - above).l1_norm() < 1e-5 * above.l1_norm(), "{edge}: {below} and {above}");
            }
            for decade in -12..12 {
                let value = profile(libm::pow(10.0, f64::from(decade)));
                assert!(value.re >= 0.0 && value.im >= 0.0 && value.re <= 1.0 && value.is_finite());
            }
        }
    }
}
