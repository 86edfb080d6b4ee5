//! Transmission through stacks. (Thin slice: mass law; the transfer matrices replace it next.)

use crate::air::Air;
use crate::bands::{Spectrum, exact_mid_hz};
use crate::buildup::Stack;

/// Transmission coefficient by band.
pub fn transmission(stack: &Stack, air: &Air) -> Spectrum {
    let mass = stack.surface_mass();
    Spectrum::from_fn(|band| {
        let x = std::f64::consts::PI * exact_mid_hz(band) * mass / air.impedance();
        1.0 / (1.0 + 0.3 * x * x)
    })
}
