//! The box that the recoil of the driver shakes as one rigid body.

use std::f64::consts::PI;

use num_complex::Complex64;

use crate::air::Air;
use crate::math::{complex, sin_cos};

/// Loss factor of the air that flows round the inner box from one end of the gap to the other; assumed.
const FLOW_LOSS: f64 = 0.1;

/// What the recoil of a driver shakes as one rigid body along the box's length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RigidBody {
    /// Moving mass of the driver over the area of its cone, in kg/m2.
    pub mass_per_area: f64,
    /// Mass in kg of what is shaken.
    pub mass_kg: f64,
    /// Complex stiffness in N/m of what holds it.
    pub stiffness: Complex64,
    /// Area in m2 of either end.
    pub end_area_m2: f64,
    /// Distance in m between the ends.
    pub length_m: f64,
    /// Cross-section in m2 of the gap along the sides; unused without an outer shell.
    pub flow_area_m2: f64,
}

impl RigidBody {
    /// Power over the bare source's by the box that shakes along its length.
    ///
    /// In a gap its ends press the air there, which can flow round the box: half of the gap's compliance on either side, and
    /// an inertance that puts their antisymmetric resonance where half a wavelength fits the way from end to end. The
    /// pressures drive the outer ends against each other. Without an outer shell the ends radiate themselves. Two such ends
    /// a length L apart radiate 1 - sin(kL)/(kL) of what they would alone. `gap` is the
    /// volume in m3 of its air and the admittance of an outer end.
    pub(crate) fn radiated(&self, gap: Option<(f64, Complex64)>, omega: f64, air: &Air) -> f64 {
        let wavenumber = omega / air.speed;
        let area = self.end_area_m2;
        let force = complex(0.0, omega * self.mass_per_area);
        let mobility_free = complex(0.0, omega * self.mass_kg) + self.stiffness / complex(0.0, omega);
        let each = match gap {
            None => force / mobility_free * area,
            Some((volume_m3, end_panel)) => {
                let stiffness = air.density * air.speed * air.speed;
                let way_m = self.length_m + 0.5 * area.sqrt();
                let inertance = 4.0 * air.density * way_m / (PI * PI * self.flow_area_m2);
                let flow = complex(2.0, 0.0) / (complex(FLOW_LOSS, 1.0) * (omega * inertance));
                let yields = complex(0.0, 0.5 * omega * volume_m3 / stiffness) + flow + end_panel;
                let velocity = force / (mobility_free + yields.inv() * (2.0 * area * area));
                velocity * area / yields * end_panel
            }
        };
        let apart = wavenumber * self.length_m;
        let cancelled = if apart < 1e-3 { apart * apart / 6.0 } else { 1.0 - sin_cos(apart).0 / apart };
        2.0 * each.norm_sqr() * cancelled / (1.0 + wavenumber * wavenumber * area / (2.0 * PI))
    }

    /// Natural frequency in Hz, without loss.
    pub(crate) fn natural_hz(&self) -> f64 {
        (self.stiffness.re / self.mass_kg).sqrt() / (2.0 * PI)
    }
}
