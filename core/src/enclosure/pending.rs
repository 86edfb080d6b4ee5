//! Stand-ins for the supports, until the real ones are merged.
#![allow(missing_docs, clippy::all, clippy::pedantic)]
use super::*;
use crate::math::complex;
use num_complex::Complex64;
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loaded {
    pub load_each_kg: f64,
    pub sag_m: f64,
    pub natural_hz: f64,
    pub working_load_kg: f64,
    pub overloaded: bool,
}
impl Support {
    pub fn stiffness(&self) -> Option<Complex64> {
        self.spring.map(|s| {
            let k = s.stiffness * s.dynamic_ratio * self.count as f64;
            complex(k, k * s.loss_factor)
        })
    }
    pub fn loaded(&self, kg: f64) -> Option<Loaded> {
        self.spring.map(|s| {
            let k = s.stiffness * self.count as f64;
            Loaded {
                load_each_kg: kg / self.count as f64,
                sag_m: kg * 9.80665 / k,
                natural_hz: (k * s.dynamic_ratio / kg).sqrt() / 6.2832,
                working_load_kg: s.breaking_load_kg / 5.0,
                overloaded: false,
            }
        })
    }
}
