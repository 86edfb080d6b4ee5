//! Source spectra: shapes in one-third octaves, set to an A-weighted level at 1 m.

use serde::{Deserialize, Serialize};

use crate::bands::{Spectrum, Weighting, exact_mid_hz};
use crate::math::to_db;

/// The shape of a source's spectrum. All shapes are assumed: sums of simple filters that say what they stand for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SourceSpectrum {
    /// The same level in every third.
    PinkNoise,
    /// Pink noise as a 12- to 15-inch driver in a closed chamber radiates it: 80 Hz to 4 kHz, 12 dB an octave beyond.
    DriverNoise,
    /// Overdriven electric guitar: 100 Hz to 4.5 kHz, a rise of 5 dB round 2 kHz, steep above.
    OverdrivenGuitar,
    /// Electric bass: 45 Hz to 500 Hz, 6 dB an octave above, 18 dB an octave above 4 kHz.
    ElectricBass,
    /// Shop vacuum: broad, highest round 1.5 kHz.
    ShopVacuum,
}

impl SourceSpectrum {
    /// All shapes, in the order in which a page offers them.
    pub const ALL: [Self; 5] = [Self::DriverNoise, Self::PinkNoise, Self::OverdrivenGuitar, Self::ElectricBass, Self::ShopVacuum];

    /// Key in documents.
    pub fn key(self) -> &'static str {
        match self {
            Self::PinkNoise => "pink-noise",
            Self::DriverNoise => "driver-noise",
            Self::OverdrivenGuitar => "overdriven-guitar",
            Self::ElectricBass => "electric-bass",
            Self::ShopVacuum => "shop-vacuum",
        }
    }

    /// Name for people.
    pub fn label(self) -> &'static str {
        match self {
            Self::PinkNoise => "Pink noise",
            Self::DriverNoise => "Noise from a 15-inch driver",
            Self::OverdrivenGuitar => "Overdriven electric guitar",
            Self::ElectricBass => "Electric bass",
            Self::ShopVacuum => "Shop vacuum",
        }
    }

    /// The shape with this key.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|shape| shape.key() == key)
    }

    /// Level in dB by band, before it is set to a total.
    fn shape_db(self, hz: f64) -> f64 {
        match self {
            Self::PinkNoise => 0.0,
            Self::DriverNoise => high_pass(hz, 80.0, 2) + low_pass(hz, 4000.0, 2),
            Self::OverdrivenGuitar => high_pass(hz, 100.0, 3) + low_pass(hz, 4500.0, 4) + bump(hz, 2000.0, 5.0),
            Self::ElectricBass => high_pass(hz, 45.0, 3) + low_pass(hz, 500.0, 1) + low_pass(hz, 4000.0, 3),
            Self::ShopVacuum => high_pass(hz, 200.0, 1) + low_pass(hz, 4000.0, 1) + bump(hz, 1500.0, 4.0),
        }
    }

    /// Level in dB by band whose A-weighted sum is `level_dba`.
    pub fn levels_db(self, level_dba: f64) -> Spectrum {
        let shape = Spectrum::from_fn(|band| self.shape_db(exact_mid_hz(band)));
        let offset = level_dba - shape.weighted_sum(Weighting::A);
        shape.map(|level| level + offset)
    }
}

/// Butterworth high-pass of the given order in dB.
fn high_pass(hz: f64, corner_hz: f64, order: i32) -> f64 {
    -to_db(1.0 + (corner_hz / hz).powi(2 * order))
}

/// Butterworth low-pass of the given order in dB.
fn low_pass(hz: f64, corner_hz: f64, order: i32) -> f64 {
    -to_db(1.0 + (hz / corner_hz).powi(2 * order))
}

/// A rise of `height_db` round `centre_hz`, an octave wide to half height.
fn bump(hz: f64, centre_hz: f64, height_db: f64) -> f64 {
    let octaves = crate::math::ln(hz / centre_hz) / std::f64::consts::LN_2;
    height_db / (1.0 + 4.0 * octaves * octaves)
}
