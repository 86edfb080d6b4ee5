//! The bending compliance 1/D of a leaf over angle and frequency, so that few laminates need solving.
//!
//! Over the angle it is a polynomial of the sine through Chebyshev points: exact for one sheet with shear; what it misses
//! for laminates lies near normal incidence, where the factor sin^4 takes it away. Over frequency it varies slowly and is
//! interpolated by parabolas through the edges and the middle of each band.

use std::array::from_fn;
use std::f64::consts::PI;

use num_complex::Complex64;

use super::bending::bending_stiffnesses;
use crate::air::Air;
use crate::bands::{BAND_COUNT, band_position, band_position_hz};
use crate::buildup::{EdgeLoss, Laminate};
use crate::lanes::{Lanes, Number, f64x2};
use crate::math::complex;

/// Number of coefficients of the polynomial.
const TERMS: usize = 6;
const _: () = assert!(TERMS.is_multiple_of(2));

/// 1/D in 1/(N m) as a polynomial of the sine of the angle of incidence, at one frequency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Compliance([Complex64; TERMS]);

impl Compliance {
    /// Value at this sine.
    #[inline]
    pub fn at(&self, sine: f64) -> Complex64 {
        self.at_all(sine).only()
    }

    /// Values at these sines.
    #[inline]
    pub fn at_all<N: Number>(&self, sine: N) -> Lanes<N> {
        let mut value = Lanes::all(self.0[TERMS - 1]);
        for &coefficient in self.0[..TERMS - 1].iter().rev() {
            value = value.scaled(sine).plus(coefficient);
        }
        value
    }

    /// All values times `factor`.
    #[must_use]
    pub fn scaled(&self, factor: f64) -> Self {
        Self(self.0.map(|coefficient| coefficient * factor))
    }
}

/// Turns a leaf into its compliance at a frequency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ComplianceFit {
    nodes: [f64; TERMS],
    /// Coefficient of each power from the values at the nodes: `inverse[power][node]`.
    inverse: [[f64; TERMS]; TERMS],
}

impl ComplianceFit {
    /// Nodes and the inverse of their Vandermonde matrix, from the coefficients of the Lagrange polynomials.
    pub fn new() -> Self {
        let nodes: [f64; TERMS] = from_fn(|i| 0.5 - 0.5 * crate::math::cos(PI * (2.0 * i as f64 + 1.0) / (2.0 * TERMS as f64)));
        let mut inverse = [[0.0; TERMS]; TERMS];
        for (i, &node) in nodes.iter().enumerate() {
            let mut product = [0.0; TERMS];
            product[0] = 1.0;
            let mut degree = 0;
            let mut scale = 1.0;
            for (j, &other) in nodes.iter().enumerate() {
                if j != i {
                    degree += 1;
                    for power in (1..=degree).rev() {
                        product[power] = product[power - 1] - other * product[power];
                    }
                    product[0] *= -other;
                    scale *= node - other;
                }
            }
            for power in 0..TERMS {
                inverse[power][i] = product[power] / scale;
            }
        }
        Self { nodes, inverse }
    }

    /// The compliance of `laminate` with its edge loss at `hz`.
    pub fn fit(&self, laminate: &Laminate, edge_loss: EdgeLoss, hz: f64, air: &Air) -> Compliance {
        let wavenumber = air.wavenumber(hz);
        let edge = edge_loss.loss_factor(hz, laminate.surface_mass());
        let mut values = [complex(0.0, 0.0); TERMS];
        for (nodes, values) in self.nodes.as_chunks::<2>().0.iter().zip(values.as_chunks_mut::<2>().0) {
            let stiffness = bending_stiffnesses(laminate, f64x2::from(nodes.map(|sine| wavenumber * sine)), hz);
            let lossy = Lanes { im: stiffness.im + f64x2::splat(edge) * stiffness.re, ..stiffness }.inverse();
            let (re, im) = (lossy.re.to_array(), lossy.im.to_array());
            *values = [complex(re[0], im[0]), complex(re[1], im[1])];
        }
        Compliance(from_fn(|power| values.iter().zip(&self.inverse[power]).map(|(&value, &weight)| value * weight).sum()))
    }
}

impl Default for ComplianceFit {
    fn default() -> Self {
        Self::new()
    }
}

/// Compliances at the edges and the middle of every band.
#[derive(Clone, Debug, PartialEq)]
pub struct ComplianceTable(Vec<Compliance>);

impl ComplianceTable {
    /// The table of `laminate`.
    pub fn new(laminate: &Laminate, edge_loss: EdgeLoss, air: &Air) -> Self {
        let fit = ComplianceFit::new();
        let points = (0..=2 * BAND_COUNT).map(|half| band_position_hz(0.5 * half as f64 - 0.5));
        Self(points.map(|hz| fit.fit(laminate, edge_loss, hz, air)).collect())
    }

    /// The compliance at `hz`, which lies within the bands.
    pub fn at(&self, hz: f64) -> Compliance {
        let position = (band_position(hz) + 0.5).clamp(0.0, BAND_COUNT as f64);
        let band = (position as usize).min(BAND_COUNT - 1);
        // From -1 at the lower edge to 1 at the upper.
        let x = 2.0 * (position - band as f64) - 1.0;
        let weights = [0.5 * x * (x - 1.0), 1.0 - x * x, 0.5 * x * (x + 1.0)];
        let points = &self.0[2 * band..2 * band + 3];
        Compliance(from_fn(|power| points.iter().zip(weights).map(|(point, weight)| point.0[power] * weight).sum()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::buildup::check::assumed_compound;
    use crate::buildup::{Bond, Sheet};
    use crate::transmission::bending::bending_stiffness;

    #[test]
    fn table_and_polynomial_agree_with_the_laminate() {
        let air = Air::default();
        let sheet = |thickness_m, e| Sheet {
            thickness_m,
            density: 700.0,
            youngs_modulus: e,
            poisson: 0.3,
            loss_factor: 0.02,
            shear_modulus: 0.1 * e,
        };
        let compound = || Bond::Viscoelastic(assumed_compound());
        let laminate = Laminate {
            sheets: vec![sheet(0.012, 8e9), sheet(0.0125, 3e9), sheet(0.018, 3e9)],
            bonds: vec![compound(), compound()],
        };
        let table = ComplianceTable::new(&laminate, EdgeLoss::Laboratory, &air);
        for step in 0..200 {
            let hz = band_position_hz(-0.5 + 27.0 * f64::from(step) / 199.0);
            let compliance = table.at(hz);
            for sine in [0.3_f64, 0.6, 0.8, 0.95, 1.0] {
                let exact = bending_stiffness(&laminate, air.wavenumber(hz) * sine, hz);
                let edge = EdgeLoss::Laboratory.loss_factor(hz, laminate.surface_mass());
                let exact = exact + complex(0.0, edge * exact.re);
                let got = complex(1.0, 0.0) / compliance.at(sine);
                // Error in the place where it counts: the stiffness term against its value at grazing.
                let grazing = bending_stiffness(&laminate, air.wavenumber(hz), hz);
                let error = (got - exact).l1_norm() * sine.powi(4) / grazing.l1_norm();
                assert!(error < 0.005, "{hz} Hz, sine {sine}: {got} against {exact}");
            }
        }
    }
}
