//! An opening as a two-port [p; q]: pressure and volume velocity on one side from those on the other.

use crate::air::Air;
use crate::math::{Complex64, complex};
use crate::transmission::layer::cos_and_sinc;

use super::narrow::ChannelFluid;
use super::radiation::End;

/// What an opening does at one frequency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OpeningAt {
    /// Volume velocity that comes out per pressure difference, m3/(s Pa): 1/T12 of the chain with the masses at its ends and
    /// without their radiation resistance. Beyond a quarter wavelength along the path its real part may be negative.
    pub admittance: Complex64,
    /// Volume velocity that goes in per pressure difference, m3/(s Pa): T22/T12 of the same chain. Its real part is never
    /// negative; for paths short against the wavelength it is the admittance.
    pub driving_admittance: Complex64,
    /// The same from the far side: T11/T12.
    pub far_driving_admittance: Complex64,
    /// Transmission area in m2 for a diffuse field, tau S: power through over the intensity that meets a wall. It may exceed
    /// the area of the opening.
    pub transmission_area_m2: f64,
}

impl OpeningAt {
    /// No opening.
    pub const NONE: Self = Self {
        admittance: Complex64 { re: 0.0, im: 0.0 },
        driving_admittance: Complex64 { re: 0.0, im: 0.0 },
        far_driving_admittance: Complex64 { re: 0.0, im: 0.0 },
        transmission_area_m2: 0.0,
    };

    /// `count` such openings.
    #[must_use]
    pub fn times(self, count: f64) -> Self {
        Self {
            admittance: self.admittance * count,
            driving_admittance: self.driving_admittance * count,
            far_driving_admittance: self.far_driving_admittance * count,
            transmission_area_m2: self.transmission_area_m2 * count,
        }
    }
}

impl std::ops::Add for OpeningAt {
    type Output = Self;

    /// Both openings side by side: volume velocities add in phase, transmitted powers as powers.
    fn add(self, other: Self) -> Self {
        Self {
            admittance: self.admittance + other.admittance,
            driving_admittance: self.driving_admittance + other.driving_admittance,
            far_driving_admittance: self.far_driving_admittance + other.far_driving_admittance,
            transmission_area_m2: self.transmission_area_m2 + other.transmission_area_m2,
        }
    }
}

/// A transfer matrix.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwoPort {
    /// Pressure per pressure.
    pub t11: Complex64,
    /// Pressure per volume velocity.
    pub t12: Complex64,
    /// Volume velocity per pressure.
    pub t21: Complex64,
    /// Volume velocity per volume velocity.
    pub t22: Complex64,
}

impl TwoPort {
    /// A straight through.
    pub const IDENTITY: Self = Self {
        t11: Complex64 { re: 1.0, im: 0.0 },
        t12: Complex64 { re: 0.0, im: 0.0 },
        t21: Complex64 { re: 0.0, im: 0.0 },
        t22: Complex64 { re: 1.0, im: 0.0 },
    };

    /// A channel of constant section, `depth_m` long, at angular frequency `omega`.
    pub fn channel(fluid: ChannelFluid, area_m2: f64, depth_m: f64, omega: f64) -> Self {
        let (inertance, capacitance) = (fluid.density * (omega / area_m2), fluid.compressibility * (omega * area_m2));
        let (cosine, sinc) = cos_and_sinc(inertance * capacitance * (depth_m * depth_m));
        let j_depth_sinc = complex(-sinc.im * depth_m, sinc.re * depth_m);
        Self { t11: cosine, t12: inertance * j_depth_sinc, t21: capacitance * j_depth_sinc, t22: cosine }
    }

    /// This and then `next`.
    #[must_use]
    pub fn then(&self, next: &Self) -> Self {
        Self {
            t11: self.t11 * next.t11 + self.t12 * next.t21,
            t12: self.t11 * next.t12 + self.t12 * next.t22,
            t21: self.t21 * next.t11 + self.t22 * next.t21,
            t22: self.t21 * next.t12 + self.t22 * next.t22,
        }
    }

    /// The opening that this is between two ends.
    ///
    /// The pressure of a diffuse field on the closed opening drives the chain through both radiation impedances, and what
    /// comes out meets the far one's resistance: tau S = 4 rho c G1 R2/|p/q|^2, with G the gathering of [`End`]. For a slit
    /// without friction it is the formula of Gomperts & Kihlman (1967) with m = 8.
    pub fn between(&self, ends: [End; 2], air: &Air) -> OpeningAt {
        let [near, far] = ends;
        // Series impedances before and behind: only T12 and T22 matter.
        let with = |near: Complex64, far: Complex64| {
            let t22 = self.t21 * far + self.t22;
            (self.t11 * far + self.t12 + near * t22, t22)
        };
        let (t12, t22) = with(complex(0.0, near.reactance), complex(0.0, far.reactance));
        let (whole, _) = with(complex(near.resistance, near.reactance), complex(far.resistance, far.reactance));
        let admittance = complex(1.0, 0.0) / t12;
        OpeningAt {
            admittance,
            driving_admittance: t22 * admittance,
            far_driving_admittance: (self.t11 + complex(0.0, near.reactance) * self.t21) * admittance,
            transmission_area_m2: 4.0 * air.impedance() * near.gathering * far.resistance / whole.norm_sqr(),
        }
    }
}

/// Transmission coefficient of a surface of parts in parallel, each an area in m2 and its transmission coefficient: sum of
/// S tau over sum of S (for instance Crocker & Arenas 2021, Engineering Acoustics, equation 12.59).
pub fn composite_transmission(parts: &[(f64, f64)]) -> f64 {
    let (area, transmitted) =
        parts.iter().fold((0.0, 0.0), |(area, transmitted), &(part, tau)| (area + part, transmitted + part * tau));
    transmitted / area
}
