//! Finite size: how well a forced wave of given incidence radiates from a panel of finite area.
//!
//! Spatial windowing after Villot, Guigou & Gagliardini (2001, J. Sound Vib. 245, 433-455) in the closed form of Davy
//! (2009, J. Acoust. Soc. Am. 126, 694-702; relation from memory, agreed with the window's double integral within 0.7 dB).

use std::f64::consts::PI;

use crate::air::Air;

/// The radiation efficiency of forced waves on a finite panel at one frequency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// q = pi/(2 k^2 a^2).
    q: f64,
    /// Value that 1/sigma tends to at grazing, beside q.
    h: f64,
    /// Cosine below which the approach to grazing is linear.
    limit: f64,
    /// Slope of that approach.
    slope: f64,
}

impl Window {
    /// The window of a panel of mean half width `half_width_m` (twice area over perimeter) at `hz`.
    ///
    /// The fitted h has a pole at k a = 0.054. Below k a = 0.25 sigma is 1/q whatever h is, so h is held to 0.3 q there,
    /// which is less than 0.4 dB; at 0.25 itself h is still smaller than that, so that nothing jumps.
    pub fn new(half_width_m: f64, hz: f64, air: &Air) -> Self {
        let ka = air.wavenumber(hz) * half_width_m;
        let q = PI / (2.0 * ka * ka);
        let limit = (1.3 * (PI / (2.0 * ka)).sqrt()).min(1.0);
        let inverse = 2.0 / 3.0 * (2.0 * ka / PI).sqrt() - 0.124;
        let held = 0.3 * q;
        let h = if ka < 0.25 && inverse * held < 1.0 { held } else { 1.0 / inverse };
        Self { q, h, limit, slope: h / limit - 1.0 }
    }

    /// Cosine of the angle at which the formula changes branch.
    pub fn limit(&self) -> f64 {
        self.limit
    }

    /// Radiation efficiency at an angle of incidence with this cosine.
    #[inline]
    pub fn efficiency(&self, cosine: f64) -> f64 {
        let effective = if cosine >= self.limit { cosine } else { self.h - self.slope * cosine };
        1.0 / (effective * effective + self.q * self.q).sqrt()
    }
}
