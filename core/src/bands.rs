//! One-third-octave bands, spectra over them, frequency weightings and energy sums.
//!
//! 27 bands, nominal 25 Hz to 10 kHz; exact mid-band frequencies on base ten (IEC 61260-1:2014, 5.2 and 5.3).

use serde::{Deserialize, Serialize};

use std::f64::consts::LN_10;
use std::ops::{Index, IndexMut};

use crate::math::{exp, from_db, lg, to_db};

/// Number of one-third-octave bands.
pub const BAND_COUNT: usize = 27;

/// Position of the 1 kHz band.
pub const BAND_1_KHZ: usize = 16;

/// Nominal mid-band frequencies in Hz (IEC 61260-1:2014, Annex E).
pub const NOMINAL_HZ: [f64; BAND_COUNT] = [
    25.0, 31.5, 40.0, 50.0, 63.0, 80.0, 100.0, 125.0, 160.0, 200.0, 250.0, 315.0, 400.0, 500.0, 630.0, 800.0, 1000.0, 1250.0,
    1600.0, 2000.0, 2500.0, 3150.0, 4000.0, 5000.0, 6300.0, 8000.0, 10000.0,
];

/// Exact mid-band frequency in Hz of the band at `index` (IEC 61260-1:2014, equation 2: 1000 G^(x/3), G = 10^(3/10)).
pub fn exact_mid_hz(index: usize) -> f64 {
    band_position_hz(index as f64)
}

/// Frequency in Hz at a position on the scale of band indices: whole numbers are mid-bands, halves are band edges.
pub fn band_position_hz(position: f64) -> f64 {
    1000.0 * exp(LN_10 / 10.0 * (position - BAND_1_KHZ as f64))
}

/// Position on the scale of band indices of a frequency in Hz: the inverse of [`band_position_hz`].
pub fn band_position(hz: f64) -> f64 {
    BAND_1_KHZ as f64 + 10.0 * lg(hz / 1000.0)
}

/// Index of the band with the given nominal frequency, if it is one of ours.
pub fn band_index(nominal_hz: f64) -> Option<usize> {
    NOMINAL_HZ.iter().position(|&nominal| (nominal - nominal_hz).abs() < 1e-6 * nominal)
}

/// A frequency weighting of IEC 61672-1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weighting {
    /// The A curve.
    A,
    /// The C curve.
    C,
    /// No weighting.
    Z,
}

impl Weighting {
    /// Weighting in dB at `hz` (IEC 61672-1:2013, Annex E, equations E.1 and E.6; 0 dB at 1 kHz within 0.01 dB).
    pub fn db(self, hz: f64) -> f64 {
        let f2 = hz * hz;
        let (f1, f2_corner, f3, f4) =
            (20.598_997_f64.powi(2), 107.652_65_f64.powi(2), 737.862_23_f64.powi(2), 12_194.217_f64.powi(2));
        match self {
            Self::Z => 0.0,
            Self::C => 20.0 * lg(f4 * f2 / ((f2 + f1) * (f2 + f4))) + 0.0619,
            Self::A => 20.0 * lg(f4 * f2 * f2 / ((f2 + f1) * ((f2 + f2_corner) * (f2 + f3)).sqrt() * (f2 + f4))) + 1.9997,
        }
    }

    /// Weighting in dB at the 27 exact mid-band frequencies.
    pub fn spectrum(self) -> Spectrum {
        Spectrum::from_fn(|index| self.db(exact_mid_hz(index)))
    }
}

/// One number for each of the 27 bands.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Spectrum(pub [f64; BAND_COUNT]);

impl Spectrum {
    /// The same number in every band.
    pub const fn constant(value: f64) -> Self {
        Self([value; BAND_COUNT])
    }

    /// A spectrum from a function of the band index.
    pub fn from_fn(value: impl FnMut(usize) -> f64) -> Self {
        Self(std::array::from_fn(value))
    }

    /// The numbers, lowest band first.
    pub fn iter(&self) -> impl Iterator<Item = f64> + '_ {
        self.0.iter().copied()
    }

    /// A function applied to every band.
    #[must_use]
    pub fn map(&self, f: impl Fn(f64) -> f64) -> Self {
        Self(self.0.map(f))
    }

    /// A function applied to this and another spectrum, band by band.
    #[must_use]
    pub fn zip(&self, other: &Self, f: impl Fn(f64, f64) -> f64) -> Self {
        Self::from_fn(|index| f(self.0[index], other.0[index]))
    }

    /// Every energy ratio as a level in dB.
    #[must_use]
    pub fn to_db(&self) -> Self {
        self.map(to_db)
    }

    /// Every level in dB as an energy ratio.
    #[must_use]
    pub fn from_db(&self) -> Self {
        self.map(from_db)
    }

    /// Two spectra of levels added as energy.
    #[must_use]
    pub fn energy_add(&self, other: &Self) -> Self {
        self.zip(other, |a, b| to_db(from_db(a) + from_db(b)))
    }

    /// The levels of all bands added as energy, in dB.
    pub fn energy_sum(&self) -> f64 {
        to_db(self.iter().map(from_db).sum())
    }

    /// The levels of all bands, weighted and added as energy, in dB.
    pub fn weighted_sum(&self, weighting: Weighting) -> f64 {
        self.zip(&weighting.spectrum(), |level, weight| level + weight).energy_sum()
    }

    /// The nine octave levels (31.5 Hz to 8 kHz), each the energy sum of its three thirds, in dB.
    pub fn octaves(&self) -> [f64; BAND_COUNT / 3] {
        std::array::from_fn(|octave| to_db(self.0[3 * octave..3 * octave + 3].iter().map(|&level| from_db(level)).sum()))
    }

    /// Whether every number is finite.
    pub fn is_finite(&self) -> bool {
        self.0.iter().all(|value| value.is_finite())
    }
}

impl Index<usize> for Spectrum {
    type Output = f64;

    fn index(&self, band: usize) -> &f64 {
        &self.0[band]
    }
}

impl IndexMut<usize> for Spectrum {
    fn index_mut(&mut self, band: usize) -> &mut f64 {
        &mut self.0[band]
    }
}
