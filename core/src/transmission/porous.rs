//! Porous material as a fluid: characteristic impedance and wavenumber from flow resistivity.
//!
//! The frame is taken as rigid: fibres that never move. Wool in a gap moves with the air at the lowest frequencies, the more
//! the lighter and the less permeable it is, so that a wholly filled gap of very high resistivity comes out too good there.

use num_complex::Complex64;

use crate::air::Air;
use crate::math::{complex, exp, ln};

/// Lower end of the stated range of f/sigma in m3/kg; below about 0.0065 Miki's relations give a negative density.
pub const LOWEST_RATIO: f64 = 0.01;

/// A fluid as a layer's wave sees it at one frequency; time convention exp(+jwt).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fluid {
    /// Wavenumber in rad/m.
    pub wavenumber: Complex64,
    /// Characteristic impedance in Pa s/m.
    pub impedance: Complex64,
}

/// Porous material of `flow_resistivity` Pa s/m2 at `hz`.
///
/// Miki (1990, J. Acoust. Soc. Jpn (E) 11, 19-24, equations 30 to 33), stated range f/sigma 0.01 to 1. Below
/// [`LOWEST_RATIO`] the values at that ratio are continued as a passive medium: real part of the effective density and the
/// bulk modulus held, imaginary part of the density growing as 1/f, as the static flow resistance demands. Above f/sigma =
/// 1 the power laws tend to air and stay passive.
pub fn miki(flow_resistivity: f64, hz: f64, air: &Air) -> Fluid {
    let ratio = hz / flow_resistivity;
    if ratio >= LOWEST_RATIO {
        return power_laws(ratio, hz, air);
    }
    let omega = 2.0 * std::f64::consts::PI * hz;
    let edge_hz = LOWEST_RATIO * flow_resistivity;
    let edge_omega = 2.0 * std::f64::consts::PI * edge_hz;
    let edge = power_laws(LOWEST_RATIO, edge_hz, air);
    let density = edge.impedance * edge.wavenumber / edge_omega;
    let bulk_modulus = edge.impedance * edge_omega / edge.wavenumber;
    let density = complex(density.re, density.im * edge_hz / hz);
    let slowness = crate::math::sqrt(density / bulk_modulus);
    // The root with negative imaginary part is the wave that decays as it travels.
    let slowness = if slowness.im > 0.0 { -slowness } else { slowness };
    Fluid { wavenumber: slowness * omega, impedance: bulk_modulus * slowness }
}

/// Miki's power laws as published, without the continuation of [`miki`]: for comparison with tables computed from them.
pub fn miki_power_laws(flow_resistivity: f64, hz: f64, air: &Air) -> Fluid {
    power_laws(hz / flow_resistivity, hz, air)
}

fn power_laws(ratio: f64, hz: f64, air: &Air) -> Fluid {
    let scaled = 1000.0 * ratio;
    let log = ln(scaled);
    let (a, b) = (exp(-0.632 * log), exp(-0.618 * log));
    Fluid {
        impedance: complex(1.0 + 5.50 * a, -8.43 * a) * air.impedance(),
        wavenumber: complex(1.0 + 7.81 * b, -11.41 * b) * air.wavenumber(hz),
    }
}

/// Air whose field loses energy by a loss factor: wavenumber k0 sqrt(1 - j eta), density that of air.
pub fn lossy_air(loss_factor: f64, hz: f64, air: &Air) -> Fluid {
    let root = crate::math::sqrt(complex(1.0, -loss_factor));
    Fluid { wavenumber: root * air.wavenumber(hz), impedance: complex(air.impedance(), 0.0) / root }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_low_continuation_joins_and_stays_passive() {
        let air = Air::default();
        for sigma in [5_000.0, 20_000.0, 100_000.0, 1e6] {
            let edge = LOWEST_RATIO * sigma;
            let (below, above) = (miki(sigma, edge * (1.0 - 1e-9), &air), miki(sigma, edge, &air));
            assert!((below.wavenumber - above.wavenumber).l1_norm() < 1e-6 * above.wavenumber.l1_norm());
            assert!((below.impedance - above.impedance).l1_norm() < 1e-6 * above.impedance.l1_norm());
            for step in 0..200 {
                let hz = crate::math::pow(10.0, f64::from(step) / 40.0);
                let fluid = miki(sigma, hz, &air);
                let omega = 2.0 * std::f64::consts::PI * hz;
                let density = fluid.impedance * fluid.wavenumber / omega;
                let bulk_modulus = fluid.impedance * omega / fluid.wavenumber;
                assert!(density.re > 0.0 && density.im <= 0.0, "sigma {sigma}, {hz} Hz: density {density}");
                assert!(bulk_modulus.re > 0.0 && bulk_modulus.im >= 0.0, "sigma {sigma}, {hz} Hz: modulus {bulk_modulus}");
                assert!(fluid.wavenumber.im < 0.0 && fluid.wavenumber.re > 0.0);
            }
        }
    }
}
