//! The ends of an opening: mass and radiation resistance of a strip and of a round piston, and what a field drives into them.

use std::f64::consts::{FRAC_2_PI, PI};

use crate::air::Air;
use crate::math::{bessel_j0_j1, exp, ln, sin_cos};

/// exp of Euler's constant 0.5772, turned over.
const EXP_MINUS_EULER: f64 = 0.561_459_483_566_885_2;

/// One end of an opening at one frequency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct End {
    /// Reactance of the mass before the opening in Pa s/m3, pressure over volume velocity.
    pub reactance: f64,
    /// Radiation resistance in Pa s/m3.
    pub resistance: f64,
    /// Mean square of the pressure on the closed opening, averaged over it, over that of the diffuse field before it.
    pub gathering: f64,
}

impl End {
    /// Part `share` of this and the rest of `other`.
    #[must_use]
    pub fn mixed(self, share: f64, other: Self) -> Self {
        let mix = |a: f64, b: f64| share * a + (1.0 - share) * b;
        Self {
            reactance: mix(self.reactance, other.reactance),
            resistance: mix(self.resistance, other.resistance),
            gathering: mix(self.gathering, other.gathering),
        }
    }
}

/// What lies round the end of a slit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SlitEnd {
    /// A wall to either side: radiation into a half space.
    MidWall,
    /// A second wall at right angles along the slit: radiation into a quarter space.
    Edge,
}

impl SlitEnd {
    /// The n of Gomperts & Kihlman (1967): the angle into which the slit radiates over 180 degrees.
    pub fn openness(self) -> f64 {
        match self {
            Self::MidWall => 1.0,
            Self::Edge => 0.5,
        }
    }
}

/// The end of a slit `height_m` high that runs in a loop of `length_m` round a lid or a cable.
///
/// A line source in a baffle: resistance rho w/(2 n) per metre, mass rho/(pi n) (ln(8 n/kh) - 0.5772) per metre, with n = 1
/// as in the formula of Gomperts & Kihlman (1967, Acustica 18, 144, from memory). In an edge, n = 1/2, the slit's image
/// doubles its height and its volume velocity. A diffuse field gathers 2/n times its mean square on the closed slit, their m
/// = 8 for n = 1. Two limits beyond their formula:
/// * kh above about 4, where the logarithm turns negative: ln x is continued as ln(1 + x^2)/2, which goes to zero, and the
///   resistance is kept below that of a plane wave, rho c/h per metre; the gathering follows it by reciprocity;
/// * a loop small against the wavelength is one source and no line: its resistance is that of the ring of the same length
///   ([`ring_coherence`]) and its mass tends to that of the ring at rest, ln(16 L/(pi h)) in place of the difference (potential
///   of a thin ring, for instance Jackson 1999, Classical Electrodynamics, section 5.5; [`ring_retarded`]).
pub fn strip_end(height_m: f64, length_m: f64, end: SlitEnd, hz: f64, air: &Air) -> End {
    let openness = end.openness();
    let k = air.wavenumber(hz);
    let omega_rho = k * air.impedance();
    let diameter = k * length_m / PI;
    let argument = 16.0 * openness * length_m / (PI * height_m) * ring_retarded(diameter);
    let correction = 0.5 * ln(1.0 + argument * argument) / (PI * openness);
    let width = 0.5 * k * height_m / openness;
    let width_squared = width * width;
    let line = omega_rho / (2.0 * openness) / (1.0 + width_squared * width_squared).sqrt().sqrt();
    End {
        reactance: omega_rho * correction / length_m,
        resistance: line / length_m * ring_coherence(diameter),
        gathering: 4.0 * line / omega_rho,
    }
}

/// Where the integral of J0 first falls back to 1.
const RING_LIMIT: f64 = 4.062_3;

/// Radiation resistance of a ring over that of a long line of its length; `x` is k L/pi, its diameter in wavelengths times 2 pi.
///
/// The mean of sin(kr)/kr over the ring is the integral of J0 from 0 to x, over x. Small rings radiate as one source, which
/// is less than a line by x; beyond the first maximum the integral swings about 1, where a frame with corners does not: 1 is
/// kept.
fn ring_coherence(x: f64) -> f64 {
    if x >= RING_LIMIT {
        return 1.0;
    }
    // Power series of J0, integrated.
    let quarter = -0.25 * x * x;
    x * INTEGRAL_OF_J0.iter().rev().fold(0.0, |sum, term| sum * quarter + term)
}

/// 1/((2 n + 1) n!^2).
const INTEGRAL_OF_J0: [f64; 14] = {
    let mut terms = [1.0; 14];
    let (mut factorials, mut n) = (1.0, 1);
    while n < terms.len() {
        factorials *= (n * n) as f64;
        terms[n] = 1.0 / ((2 * n + 1) as f64 * factorials);
        n += 1;
    }
    terms
};

/// Where [`ring_retardation`] first reaches that of a line.
const RETARDATION_LIMIT: f64 = 2.476_170_985;

/// By how much retardation divides the argument of the logarithm of a ring's mass, turned over; `x` as in [`ring_coherence`].
///
/// Beyond the first crossing the retardation swings about ln(2 x) + 0.5772, that of a line, which is kept.
fn ring_retarded(x: f64) -> f64 {
    if x >= RETARDATION_LIMIT { EXP_MINUS_EULER / (2.0 * x) } else { exp(-ring_retardation(x)) }
}

/// What retardation takes from the logarithm of a ring's mass, up to [`RETARDATION_LIMIT`].
///
/// The mean of (1 - cos(kr))/r over the ring: the integral of (1 - cos(x sin t))/sin t from 0 to a quarter turn, term by term with
/// the integrals of odd powers of the sine.
fn ring_retardation(x: f64) -> f64 {
    x * x * RETARDATION.iter().rev().fold(0.0, |sum, term| sum * (-x * x) + term)
}

/// The quotients of neighbours are 2 m/((2 m + 1)^2 (2 m + 2)).
const RETARDATION: [f64; 10] = {
    let mut terms = [0.5; 10];
    let mut m = 1;
    while m < terms.len() {
        let odd = (2 * m + 1) as f64;
        terms[m] = terms[m - 1] * (2 * m) as f64 / (odd * odd * (2 * m + 2) as f64);
        m += 1;
    }
    terms
};

/// End correction of a wide flanged tube over that of a piston, 8/(3 pi): 0.8217 radii (Norris & Sheng 1989, J. Sound Vib.
/// 135, 85, from memory), since the air in an opening does not move as a piston.
const FLANGED_TUBE: f64 = 0.8217 * 3.0 * PI / 8.0;

/// The end of a round tube in a wide baffle, or of a rectangular one of the same area.
///
/// Rayleigh's piston: resistance 1 - 2 J1(x)/x and reactance 2 H1(x)/x of rho c/area, x = 2 ka, with Struve's H1 by Aarts &
/// Janssen (2003, J. Acoust. Soc. Am. 113, 2635; error below 0.005), the reactance times [`FLANGED_TUBE`]. The gathering follows by reciprocity: a plane wave from
/// every direction at once drives 4 pi R/(k^2 rho c) of its mean square into it, 2 while it is small.
pub fn piston_end(area_m2: f64, hz: f64, air: &Air) -> End {
    let k = air.wavenumber(hz);
    let x = 2.0 * k * (area_m2 / PI).sqrt();
    let impedance = air.impedance() / area_m2;
    let (resistance, reactance) = piston_impedance(x);
    End {
        reactance: impedance * reactance * FLANGED_TUBE,
        resistance: impedance * resistance,
        gathering: 4.0 * PI * resistance / (k * k * area_m2),
    }
}

fn piston_impedance(x: f64) -> (f64, f64) {
    if x < 0.02 {
        return (0.125 * x * x, 4.0 * x / (3.0 * PI));
    }
    let (j0, j1) = bessel_j0_j1(x);
    let (sine, cosine) = sin_cos(x);
    let struve = FRAC_2_PI - j0 + (16.0 / PI - 5.0) * sine / x + (12.0 - 36.0 / PI) * (1.0 - cosine) / (x * x);
    (1.0 - 2.0 * j1 / x, 2.0 * struve / x)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Midpoint sums of the integrals of Bessel's and Struve's functions.
    #[test]
    fn piston_and_ring_by_their_integrals() {
        const STEPS: usize = 20_000;
        let quarter_turn = |f: &dyn Fn(f64) -> f64| {
            let step = 0.5 * PI / STEPS as f64;
            (0..STEPS).map(|i| f((i as f64 + 0.5) * step)).sum::<f64>() * step
        };
        for x in [1e-3, 0.019, 0.021, 0.3, 1.0, 3.0, 10.0, 40.0] {
            // J1(x)/x and H1(x)/x = 2/pi times the integral of cos, sin (x cos t) sin^2 t over a quarter turn.
            let j1 = FRAC_2_PI * quarter_turn(&|t| libm::cos(x * libm::cos(t)) * libm::pow(libm::sin(t), 2.0));
            let h1 = FRAC_2_PI * quarter_turn(&|t| libm::sin(x * libm::cos(t)) * libm::pow(libm::sin(t), 2.0));
            let (resistance, reactance) = piston_impedance(x);
            assert!((resistance - (1.0 - 2.0 * j1)).abs() < 1e-4 * resistance + 1e-9, "{x}: {resistance}");
            assert!((reactance - 2.0 * h1).abs() < 0.004 * reactance + 0.01 / x, "{x}: {reactance} against {}", 2.0 * h1);
        }
        for x in [0.01, 0.5, 1.0, 2.4, 4.0, RING_LIMIT] {
            let step = x / STEPS as f64;
            let want = (0..STEPS).map(|i| libm::j0((i as f64 + 0.5) * step)).sum::<f64>() * step;
            assert!((ring_coherence(x) - want).abs() < 2e-4, "{x}: {} against {want}", ring_coherence(x));
        }
        for x in [0.01, 0.5, 1.0, 2.0, RETARDATION_LIMIT, RETARDATION_LIMIT * (1.0 - 1e-9)] {
            let want = quarter_turn(&|t| (1.0 - libm::cos(x * libm::sin(t))) / libm::sin(t));
            assert!((ring_retardation(x) - want).abs() < 1e-4 * want, "{x}: {} against {want}", ring_retardation(x));
        }
    }

    /// Small loops radiate as one source into a half space, rho w k/(2 pi), long ones as a line; pistons likewise.
    #[test]
    fn small_ends_are_one_source() {
        let air = Air::default();
        let hz = 20.0;
        let k = air.wavenumber(hz);
        let monopole = air.impedance() * k * k / (2.0 * PI);
        let loop_end = strip_end(1e-3, 0.1, SlitEnd::MidWall, hz, &air);
        let piston = piston_end(1e-3, hz, &air);
        for end in [loop_end, piston] {
            assert!((end.resistance / monopole - 1.0).abs() < 1e-3);
            assert!((end.gathering - 2.0).abs() < 1e-3);
        }
        let line = strip_end(1e-3, 1e4, SlitEnd::MidWall, hz, &air);
        assert!((line.resistance * 1e4 / (0.5 * k * air.impedance()) - 1.0).abs() < 1e-9);
        let edge = strip_end(1e-3, 1e4, SlitEnd::Edge, hz, &air);
        assert!((edge.resistance / line.resistance - 2.0).abs() < 1e-9 && (edge.gathering - 4.0).abs() < 1e-3);
    }

    /// The ring at rest: a closed slit as thin as a wire has the potential of a thin ring.
    #[test]
    fn wide_strips_keep_a_passive_end() {
        let air = Air::default();
        let mut last = f64::INFINITY;
        for step in 0..200 {
            let height_m = 1e-5 * libm::pow(10.0, f64::from(step) / 40.0);
            let end = strip_end(height_m, 1.0, SlitEnd::Edge, 10_000.0, &air);
            assert!(end.reactance > 0.0 && end.resistance > 0.0 && end.reactance < last);
            assert!(end.resistance <= air.impedance() / height_m * (1.0 + 1e-9), "{height_m}");
            last = end.reactance;
        }
    }
}
