//! Sound reduction indices of which some bands may be missing.

use std::ops::RangeInclusive;

use crate::bands::{BAND_COUNT, NOMINAL_HZ, Spectrum, band_index};

/// Largest magnitude in dB that counts as a sound reduction index; anything beyond is no measurement and no wall.
pub const LARGEST_DB: f64 = 1000.0;

/// Sound reduction index in dB for each of the 27 one-third octaves, or nothing where it is not known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThirdOctaves([Option<f64>; BAND_COUNT]);

impl ThirdOctaves {
    /// No band known.
    pub const fn none() -> Self {
        Self([None; BAND_COUNT])
    }

    /// Sets the band of nominal frequency `nominal_hz`; `false` when there is no such band or `db` is no sound
    /// reduction index (not finite, or beyond [`LARGEST_DB`]).
    pub fn set(&mut self, nominal_hz: f64, db: f64) -> bool {
        match band_index(nominal_hz).zip(usable(db)) {
            None => false,
            Some((index, db)) => {
                self.0[index] = Some(db);
                true
            }
        }
    }

    /// The value at nominal frequency `nominal_hz`, if known.
    pub fn get(&self, nominal_hz: f64) -> Option<f64> {
        self.0[band_index(nominal_hz)?]
    }

    /// The values of the bands within `nominal_hz`, lowest first, if all are known.
    pub(super) fn range(&self, nominal_hz: RangeInclusive<f64>) -> Option<Vec<f64>> {
        let inside = self.0.iter().zip(NOMINAL_HZ).filter(|(_, hz)| nominal_hz.contains(hz));
        inside.map(|(value, _)| *value).collect()
    }
}

impl From<&Spectrum> for ThirdOctaves {
    /// All bands; one that is no sound reduction index counts as missing.
    fn from(spectrum: &Spectrum) -> Self {
        Self(spectrum.0.map(usable))
    }
}

fn usable(db: f64) -> Option<f64> {
    (db.is_finite() && db.abs() <= LARGEST_DB).then_some(db)
}
