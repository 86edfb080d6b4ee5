//! What a listener hears anyway.

use super::source::set_to_dba;
use crate::bands::{BAND_1_KHZ, Spectrum};

crate::mapping::names! {
    Background {
        Bedroom = "bedroom", LivingRoom = "living-room", TownRoom = "town-room", CountryOutdoors = "country-outdoors",
        SuburbOutdoors = "suburb-outdoors", OwnLevel = "own-level", OwnBands = "own-bands",
    }
}

/// Fall in dB of one third to the next: 5 dB an octave, the slope of the RC curves (Blazier 1981, Noise Control Eng. 16, 64).
const FALL_DB: f64 = 5.0 / 3.0;

/// The background at a listener's place. All levels are assumed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Background {
    /// A bedroom at night, windows shut, a quiet street.
    Bedroom,
    /// A living room in the evening, nobody talking.
    LivingRoom,
    /// A room in a town, windows shut.
    TownRoom,
    /// In the open at night, in the country.
    CountryOutdoors,
    /// In the open in the evening, in a suburb.
    SuburbOutdoors,
    /// An A-weighted level of one's own.
    OwnLevel,
    /// Band levels of one's own.
    OwnBands,
}

impl Background {
    /// All of them, in the order in which a page offers them.
    pub const ALL: [Self; 7] = [
        Self::Bedroom,
        Self::LivingRoom,
        Self::TownRoom,
        Self::CountryOutdoors,
        Self::SuburbOutdoors,
        Self::OwnLevel,
        Self::OwnBands,
    ];

    /// Its A-weighted level in dB, where it has one of its own.
    pub const fn level_dba(self) -> Option<f64> {
        match self {
            Self::Bedroom => Some(20.0),
            Self::LivingRoom => Some(26.0),
            Self::TownRoom => Some(32.0),
            Self::CountryOutdoors => Some(25.0),
            Self::SuburbOutdoors => Some(38.0),
            Self::OwnLevel | Self::OwnBands => None,
        }
    }
}

/// Band levels in dB of a background of `level_dba`: neutral, falling 5 dB an octave.
pub fn background_db(level_dba: f64) -> Spectrum {
    set_to_dba(&Spectrum::from_fn(|band| FALL_DB * (BAND_1_KHZ as f64 - band as f64)), level_dba)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bands::Weighting;

    #[test]
    fn a_background_has_its_level_and_falls_5_db_an_octave() {
        for level in Background::ALL.into_iter().filter_map(Background::level_dba) {
            let spectrum = background_db(level);
            assert!((spectrum.weighted_sum(Weighting::A) - level).abs() < 1e-9);
            assert!(spectrum.0.windows(4).all(|bands| (bands[0] - bands[3] - 5.0).abs() < 1e-9));
        }
    }
}
