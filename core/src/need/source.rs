//! Source spectra: shapes in one-third octaves, set to an A-weighted level at 1 m.

use super::band_values::NOTHING_DB;
use crate::bands::{BAND_COUNT, Spectrum, Weighting, exact_mid_hz};
use crate::math::to_db;

crate::mapping::names! {
    SourceSpectrum {
        DriverNoise = "driver-noise", PinkNoise = "pink-noise", OverdrivenGuitar = "overdriven-guitar",
        CleanGuitar = "clean-guitar", ElectricBass = "electric-bass", PedalSteel = "pedal-steel", Keyboard = "keyboard",
        Voice = "voice", Drum = "drum", Compressor = "compressor", ShopVacuum = "shop-vacuum", Pump = "pump", Own = "own",
    }
}

/// What sounds, as far as the shape of its spectrum goes.
///
/// All shapes but that of speech are assumed: sums of simple filters that say what they stand for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SourceSpectrum {
    /// Pink noise as a 12- to 15-inch driver in a closed chamber radiates it: 80 Hz to 4 kHz, 12 dB an octave beyond.
    DriverNoise,
    /// The same level in every third.
    PinkNoise,
    /// Overdriven electric guitar: 100 Hz to 4.5 kHz, a rise of 5 dB round 2 kHz, steep above.
    OverdrivenGuitar,
    /// Clean electric guitar: as overdriven, but falling from 500 Hz on.
    CleanGuitar,
    /// Electric bass: 45 Hz to 500 Hz, 6 dB an octave above, 18 dB an octave above 4 kHz.
    ElectricBass,
    /// Pedal steel: 150 Hz to 4 kHz, a rise of 4 dB round 800 Hz.
    PedalSteel,
    /// Keyboard: 50 Hz to 5 kHz, falling from 600 Hz on.
    Keyboard,
    /// Speech: the long-term average of talkers of both sexes.
    Voice,
    /// Drum kit: 50 Hz to 10 kHz, a rise of 8 dB round 80 Hz.
    Drum,
    /// Piston compressor: 40 Hz to 2 kHz, a rise of 8 dB round 100 Hz, that of its strokes.
    Compressor,
    /// Shop vacuum: broad, highest round 1.5 kHz.
    ShopVacuum,
    /// Pump: 100 Hz to 3 kHz, a rise of 6 dB round 400 Hz, that of its blades.
    Pump,
    /// Band levels of one's own.
    Own,
}

/// One part of an assumed shape.
#[derive(Clone, Copy, Debug)]
enum Part {
    /// Butterworth high-pass: corner in Hz, order.
    HighPass(f64, i32),
    /// Butterworth low-pass: corner in Hz, order.
    LowPass(f64, i32),
    /// A rise: centre in Hz, height in dB; an octave wide to half height.
    Rise(f64, f64),
}

use Part::{HighPass, LowPass, Rise};

/// All that is assumed of a source.
struct Row {
    key: &'static str,
    label: &'static str,
    /// How far the loudest moments (LAFmax) lie above the mean (LAeq), in dB; assumed.
    max_above_db: f64,
    parts: &'static [Part],
}

/// Level in dB of thirds from 63 Hz to 10 kHz of the long-term average speech spectrum, both sexes, 70 dB in all (Byrne et
/// al. 1994, J. Acoust. Soc. Am. 96, 2108, Table II, from memory).
const SPEECH_DB: [f64; 23] = [
    38.6, 43.5, 54.4, 57.7, 56.8, 60.2, 60.3, 59.0, 62.1, 62.1, 60.5, 56.8, 53.7, 53.0, 52.0, 48.7, 48.1, 46.8, 45.6, 44.5, 44.3,
    43.7, 43.4,
];
/// Fall in dB from one third to the next below the lowest band of the speech spectrum; assumed.
const SPEECH_FALL_DB: f64 = 6.0;

impl SourceSpectrum {
    /// All shapes, in the order in which a page offers them.
    pub const ALL: [Self; 13] = [
        Self::DriverNoise,
        Self::PinkNoise,
        Self::OverdrivenGuitar,
        Self::CleanGuitar,
        Self::ElectricBass,
        Self::PedalSteel,
        Self::Keyboard,
        Self::Voice,
        Self::Drum,
        Self::Compressor,
        Self::ShopVacuum,
        Self::Pump,
        Self::Own,
    ];

    fn row(self) -> &'static Row {
        const fn of(key: &'static str, label: &'static str, max_above_db: f64, parts: &'static [Part]) -> Row {
            Row { key, label, max_above_db, parts }
        }
        const ROWS: [Row; 13] = [
            of("driver-noise", "Loudspeaker noise", 1.0, &[HighPass(80.0, 2), LowPass(4000.0, 2)]),
            of("pink-noise", "Pink noise", 1.0, &[]),
            of(
                "overdriven-guitar",
                "Overdriven electric guitar",
                5.0,
                &[HighPass(100.0, 3), LowPass(4500.0, 4), Rise(2000.0, 5.0)],
            ),
            of("clean-guitar", "Clean electric guitar", 8.0, &[HighPass(100.0, 3), LowPass(500.0, 1), LowPass(4500.0, 4)]),
            of("electric-bass", "Electric bass", 6.0, &[HighPass(45.0, 3), LowPass(500.0, 1), LowPass(4000.0, 3)]),
            of("pedal-steel", "Pedal steel", 6.0, &[HighPass(150.0, 3), LowPass(4000.0, 3), Rise(800.0, 4.0)]),
            of("keyboard", "Keyboard", 8.0, &[HighPass(50.0, 2), LowPass(600.0, 1), LowPass(5000.0, 2)]),
            of("voice", "Voice", 8.0, &[]),
            of("drum", "Drum kit", 10.0, &[HighPass(50.0, 3), LowPass(10000.0, 2), Rise(80.0, 8.0)]),
            of("compressor", "Compressor", 3.0, &[HighPass(40.0, 2), LowPass(2000.0, 1), Rise(100.0, 8.0)]),
            of("shop-vacuum", "Shop vacuum", 1.0, &[HighPass(200.0, 1), LowPass(4000.0, 1), Rise(1500.0, 4.0)]),
            of("pump", "Pump", 1.0, &[HighPass(100.0, 2), LowPass(3000.0, 1), Rise(400.0, 6.0)]),
            of("own", "Own band levels", 5.0, &[]),
        ];
        &ROWS[self as usize]
    }

    /// Key in documents.
    pub fn key(self) -> &'static str {
        self.row().key
    }

    /// Name for people.
    pub fn label(self) -> &'static str {
        self.row().label
    }

    /// How far its loudest moments (LAFmax) usually lie above its mean (LAeq), in dB; assumed.
    pub fn max_above_db(self) -> f64 {
        self.row().max_above_db
    }

    /// Where the shape comes from, for people; nothing for band levels of one's own.
    pub const fn provenance(self) -> Option<&'static str> {
        match self {
            Self::Own => None,
            Self::Voice => Some("Shape: mean of long talk, Byrne et al. (1994), from memory."),
            _ => Some("Shape: assumed. Levels of your own by bands are better."),
        }
    }

    /// The shape with this key.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|shape| shape.key() == key)
    }

    /// Shape in dB by band, to any total; nothing for band levels of one's own.
    pub fn shape_db(self) -> Spectrum {
        match self {
            Self::Own => Spectrum::constant(NOTHING_DB),
            Self::Voice => {
                const FIRST: usize = BAND_COUNT - SPEECH_DB.len();
                Spectrum::from_fn(|band| match band.checked_sub(FIRST) {
                    Some(at) => SPEECH_DB[at],
                    None => SPEECH_DB[0] - SPEECH_FALL_DB * (FIRST - band) as f64,
                })
            }
            _ => Spectrum::from_fn(|band| self.row().parts.iter().map(|part| part.db(exact_mid_hz(band))).sum()),
        }
    }

    /// Levels in dB by band whose A-weighted sum is `level_dba`.
    pub fn levels_db(self, level_dba: f64) -> Spectrum {
        set_to_dba(&self.shape_db(), level_dba)
    }
}

impl Part {
    /// Its level in dB at `hz`.
    fn db(self, hz: f64) -> f64 {
        match self {
            HighPass(corner_hz, order) => -to_db(1.0 + (corner_hz / hz).powi(2 * order)),
            LowPass(corner_hz, order) => -to_db(1.0 + (hz / corner_hz).powi(2 * order)),
            Rise(centre_hz, height_db) => {
                let octaves = crate::math::ln(hz / centre_hz) / std::f64::consts::LN_2;
                height_db / (1.0 + 4.0 * octaves * octaves)
            }
        }
    }
}

/// A shape in dB by band, moved as a whole so that its A-weighted sum is `level_dba`.
pub fn set_to_dba(shape_db: &Spectrum, level_dba: f64) -> Spectrum {
    let offset = level_dba - shape_db.weighted_sum(Weighting::A);
    shape_db.map(|level| level + offset)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_in_documents_are_those_of_the_table() {
        for shape in SourceSpectrum::ALL {
            assert_eq!(serde_json::to_value(shape).unwrap(), shape.key());
            assert_eq!(SourceSpectrum::from_key(shape.key()), Some(shape));
        }
    }

    #[test]
    fn a_shape_is_set_to_its_level_and_keeps_its_shape() {
        for shape in SourceSpectrum::ALL {
            let (quiet, loud) = (shape.levels_db(60.0), shape.levels_db(100.0));
            assert!((loud.weighted_sum(Weighting::A) - 100.0).abs() < 1e-9, "{shape:?}");
            assert!(loud.zip(&quiet, |a, b| a - b).iter().all(|step| (step - 40.0).abs() < 1e-9), "{shape:?}");
        }
    }

    /// Rises and corners lie where the words say.
    #[test]
    fn shapes_are_what_they_are_said_to_be() {
        for (shape, high, low, least) in [
            (SourceSpectrum::OverdrivenGuitar, 19, 11, 4.0),
            (SourceSpectrum::PedalSteel, 15, 10, 1.5),
            (SourceSpectrum::Drum, 5, 16, 7.0),
            (SourceSpectrum::Compressor, 6, 12, 6.0),
            (SourceSpectrum::Pump, 12, 17, 4.0),
            (SourceSpectrum::CleanGuitar, 11, 19, 8.0),
            (SourceSpectrum::ElectricBass, 7, 16, 5.0),
            (SourceSpectrum::Keyboard, 10, 19, 8.0),
            (SourceSpectrum::ShopVacuum, 18, 6, 8.0),
            (SourceSpectrum::Voice, 4, 0, 23.9),
        ] {
            let level = shape.shape_db();
            assert!(level[high] - level[low] > least, "{shape:?}: {}", level[high] - level[low]);
        }
    }

    /// The table adds up to the 70 dB that the paper sets its talkers to.
    #[test]
    fn speech_adds_up_to_70_db() {
        let speech = SourceSpectrum::Voice.shape_db();
        assert!((speech.energy_sum() - 70.0).abs() < 0.3, "{}", speech.energy_sum());
    }

    #[test]
    fn filters_are_3_db_down_at_their_corners() {
        for part in [HighPass(80.0, 2), LowPass(4000.0, 3)] {
            let (HighPass(corner, _) | LowPass(corner, _) | Rise(corner, _)) = part;
            assert!((part.db(corner) + 3.0103).abs() < 1e-4);
        }
        assert!(
            (Rise(1000.0, 6.0).db(1000.0) - 6.0).abs() < 1e-12 && (Rise(1000.0, 6.0).db(1000.0 * 2f64.sqrt()) - 3.0).abs() < 1e-9
        );
    }
}
