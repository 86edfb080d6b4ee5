//! What a family of noise criterion curves says about a spectrum.

use serde::{Deserialize, Serialize};

/// Rating of octave levels by a family of curves.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum CriterionRating {
    /// Every band lies below the lowest curve, whose number this is.
    Below(f64),
    /// The highest curve that a band reaches.
    At {
        /// Number of the curve, interpolated between those that are tabled.
        value: f64,
        /// Nominal octave in Hz that reaches it.
        band_hz: f64,
    },
    /// Some band lies above the highest curve, whose number this is.
    Above(f64),
}

impl CriterionRating {
    /// The rating from the numbers of the curves that the bands reach, as (Hz, number), within the range of the family.
    pub(super) fn highest(numbers: impl Iterator<Item = (f64, f64)>, (lowest, highest): (f64, f64)) -> Self {
        let governing = numbers.reduce(|best, next| if next.1 > best.1 { next } else { best });
        match governing {
            Some((_, value)) if value > highest => Self::Above(highest),
            Some((band_hz, value)) if value >= lowest => Self::At { value, band_hz },
            _ => Self::Below(lowest),
        }
    }

    /// The number in whole steps, halves up; `None` outside the family of curves.
    pub fn rounded(self) -> Option<i64> {
        match self {
            Self::At { value, .. } => Some(super::whole_db(value)),
            Self::Below(_) | Self::Above(_) => None,
        }
    }
}
