//! Where the air in a channel resonates, so that band means find narrow peaks.

use std::f64::consts::PI;

use crate::air::Air;
use crate::bands::{BAND_COUNT, band_position};
use crate::math::atan;

/// Most resonances that are looked for: above, short channels are damped by their ends and long ones by their walls.
const MOST: usize = 80;

/// Positions on the scale of band indices, in rising order.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Resonances {
    positions: [f64; MOST],
    count: usize,
}

impl Resonances {
    /// Resonances within our bands along a channel `length_m` long, both of whose ends have the reactance `end` of rho c over
    /// the channel's area at a frequency: half waves that fit between the two masses, k l + 2 atan(x) = n pi.
    pub fn along(length_m: f64, end: impl Fn(f64) -> f64, air: &Air) -> Self {
        let hz = |k: f64| k * air.speed / (2.0 * PI);
        let top = BAND_COUNT as f64 - 0.5;
        let mut found = Self { positions: [0.0; MOST], count: 0 };
        for index in 0..MOST {
            let turn = PI * (index + 1) as f64;
            let mut k = turn / length_m;
            for _ in 0..4 {
                // Each end as a length that the wave sees, which depends little on the frequency.
                k = turn / (length_m + 2.0 * atan(end(hz(k))) / k);
            }
            let position = band_position(hz(k));
            if position > top {
                break;
            }
            found.positions[index] = position;
            found.count += 1;
        }
        found
    }

    /// Keeps those at whose position `keep` says so.
    pub fn retain(&mut self, keep: impl Fn(f64) -> bool) {
        let mut kept = 0;
        for index in 0..self.count {
            if keep(self.positions[index]) {
                self.positions[kept] = self.positions[index];
                kept += 1;
            }
        }
        self.count = kept;
    }

    /// The positions.
    pub fn positions(&self) -> &[f64] {
        &self.positions[..self.count]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn open_tubes_hold_half_waves() {
        let air = Air::default();
        // No mass at the ends: n c/(2 l), 343 Hz for half a metre, of which 32 lie below 11.2 kHz.
        let mut bare = Resonances::along(0.5, |_| 0.0, &air);
        assert_eq!(bare.positions().len(), 32);
        assert!((bare.positions()[2] - band_position(3.0 * air.speed)).abs() < 1e-9);
        bare.retain(|position| position > 20.0);
        assert!(bare.positions().iter().all(|&position| position > 20.0) && bare.positions().len() > 10);
        // Masses of 20 mm at either end lengthen it.
        let mass = Resonances::along(0.5, |hz| libm::tan(0.02 * air.wavenumber(hz).min(70.0)), &air);
        assert!((mass.positions()[1] - band_position(air.speed / 0.54)).abs() < 1e-6);
    }
}
