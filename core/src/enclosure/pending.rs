//! Stand-ins while the real ones are written; never committed.
#![allow(missing_docs, clippy::all, clippy::pedantic)]
use super::*;
use crate::air::Air;
use crate::bands::Spectrum;
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
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VentFlow {
    pub flow_m3_s: f64,
    pub speed_m_s: f64,
}
pub struct OpeningAt {
    pub admittance: Complex64,
    pub transmission_area_m2: f64,
}
pub fn lid_at(_: &Lid, p: f64, w: f64, hz: f64, air: &Air) -> OpeningAt {
    let h: f64 = std::env::var("SLIT_MM").ok().and_then(|x| x.parse::<f64>().ok()).unwrap_or(0.0) / 1000.0;
    if h == 0.0 {
        return OpeningAt { admittance: complex(0.0, 0.0), transmission_area_m2: 0.0 };
    }
    let om = 6.283 * hz;
    let z = complex(12.0 * 1.8e-5 * w / (h * h * h), om * air.density * 1.2 * w / h) / p;
    let y = complex(1.0, 0.0) / z;
    OpeningAt { admittance: y, transmission_area_m2: 8.0 * air.impedance() * y.norm_sqr() * om * air.density / (2.0 * p) }
}
pub fn holes_at(_: &Holes, _w: f64, _hz: f64, _air: &Air) -> OpeningAt {
    OpeningAt { admittance: complex(0.0, 0.0), transmission_area_m2: 0.0 }
}
pub fn vents_at(_: &Vents, _: &Spectrum, _hz: f64, _air: &Air) -> OpeningAt {
    OpeningAt { admittance: complex(0.0, 0.0), transmission_area_m2: 0.0 }
}
pub fn lid_area_m2(l: &Lid, p: f64, w: f64, air: &Air) -> Spectrum {
    Spectrum::from_fn(|b| lid_at(l, p, w, crate::bands::exact_mid_hz(b), air).transmission_area_m2)
}
pub fn holes_area_m2(_: &Holes, _w: f64, _air: &Air) -> Spectrum {
    Spectrum::constant(0.0)
}
pub fn vent_areas(_: &Vents, _: &Spectrum, _air: &Air) -> Spectrum {
    Spectrum::constant(0.0)
}
pub fn vent_flow(_: &Vents, _: f64, _: &Air) -> VentFlow {
    VentFlow { flow_m3_s: 0.0, speed_m_s: 0.0 }
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
