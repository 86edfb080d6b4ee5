//! How quiet it has to be: criteria, what they allow by band, and what a level is against them.

use serde::{Deserialize, Serialize};

use super::hours::{Hours, Period};
use super::threshold::THRESHOLD_DB;
use crate::bands::{BAND_COUNT, Spectrum, Weighting};
use crate::math::{from_db, to_db};
use crate::rating::{nc, nr};

crate::mapping::names! {
    CriterionKind { Dba = "dba", Who = "who", Nr = "nr", Nc = "nc", Inaudible = "inaudible" }
}

/// What a listener's limit is taken from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CriterionKind {
    /// An A-weighted level of one's own: a local limit, a lease, a neighbour's word.
    Dba,
    /// The guideline values of WHO (1999), by the hours of use.
    Who,
    /// A noise rating curve.
    Nr,
    /// A noise criterion curve.
    Nc,
    /// Every band below the hearing threshold or covered by the background.
    Inaudible,
}

impl CriterionKind {
    /// All of them, in the order in which a page offers them.
    pub const ALL: [Self; 5] = [Self::Dba, Self::Who, Self::Nr, Self::Nc, Self::Inaudible];

    /// Key in documents and output.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Dba => "dba",
            Self::Who => "who",
            Self::Nr => "nr",
            Self::Nc => "nc",
            Self::Inaudible => "inaudible",
        }
    }
}

/// Guideline values: LAeq over the period, and LAFmax where there is one, in dB.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Guideline {
    /// LAeq in dB over the whole of the period.
    pub level_dba: f64,
    /// LAFmax in dB.
    pub max_dba: Option<f64>,
}

/// The values of the WHO Guidelines for Community Noise (1999), Table 4.1: dwellings by day and evening, bedrooms at night;
/// outdoors, what moderately annoys by day (50 dB), and the outside of bedrooms at night.
///
/// From memory: that 45 dB LAFmax belong to the night only, and the outdoor value of the day.
pub const fn who_guideline(period: Period, outdoors: bool) -> Guideline {
    match (period, outdoors) {
        (Period::Day, false) => Guideline { level_dba: 35.0, max_dba: None },
        (Period::Night, false) => Guideline { level_dba: 30.0, max_dba: Some(45.0) },
        (Period::Day, true) => Guideline { level_dba: 50.0, max_dba: None },
        (Period::Night, true) => Guideline { level_dba: 45.0, max_dba: Some(60.0) },
    }
}

/// By how many dB a background covers a sound of its own level in a band: a tone that lies this far below is not heard in
/// noise (masking index 2 to 6 dB, Zwicker and Fastl, Psychoacoustics, ch. 4, from memory).
pub const COVERED_DB: f64 = 6.0;

/// Stands where a criterion has no limit: more than any sound can be.
const NO_LIMIT_DB: f64 = 200.0;

/// A criterion with its numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Criterion {
    /// Which.
    pub kind: CriterionKind,
    /// A-weighted limit in dB of one's own.
    pub limit_dba: f64,
    /// Number of the NR curve.
    pub nr: f64,
    /// Number of the NC curve.
    pub nc: f64,
    /// Whether the listener is in the open.
    pub outdoors: bool,
    /// Whether the hours in which nothing plays count towards the mean of a guideline value.
    pub average: bool,
}

/// What is judged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heard {
    /// Level in dB by band at the listener, mean while it plays.
    pub level_db: Spectrum,
    /// The same without any box.
    pub bare_db: Spectrum,
    /// How far the loudest moments lie above the mean, in dB.
    pub max_above_db: f64,
    /// When it plays.
    pub hours: Hours,
    /// Background in dB by band.
    pub background_db: Spectrum,
}

/// An A-weighted limit.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct DbaLimit {
    /// What the mean level may be in dB while it plays.
    pub level_dba: f64,
    /// Whether the loudest moments decide it.
    pub by_maximum: bool,
    /// The part of the day whose guideline value it is.
    pub period: Option<Period>,
}

/// A level against a criterion.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Judgement {
    /// The A-weighted limit, where the criterion is one.
    pub dba: Option<DbaLimit>,
    /// First band that the criterion says anything about: NC curves begin at the octave of 63 Hz.
    pub first_band: usize,
    /// What a band may be in dB, from [`Self::first_band`] on: an A-weighted limit for the band alone, a curve
    /// for octaves shared evenly by their thirds.
    pub limit_db: Spectrum,
    /// How many dB a box has to bring in each band; 0 before [`Self::first_band`].
    ///
    /// For an A-weighted limit the least: every band that stands out is brought down to one A-weighted level, and all together
    /// reach the limit. For curves the octave's, for its thirds.
    pub required_db: Spectrum,
    /// How many dB each band lies below what it may be, from [`Self::first_band`] on: the band alone, or its octave.
    pub margin_by_band_db: Spectrum,
    /// How many dB everything could rise before the limit is reached; negative: by how much it is over.
    pub margin_db: f64,
    /// The band that decides it.
    pub band: usize,
}

impl Criterion {
    /// Judges what is heard.
    pub fn judge(&self, heard: &Heard) -> Judgement {
        match self.kind {
            CriterionKind::Dba => by_dba(DbaLimit { level_dba: self.limit_dba, by_maximum: false, period: None }, heard),
            CriterionKind::Who => by_dba(self.who_limit(heard), heard),
            CriterionKind::Nr => by_octaves(&nr::curve_db(self.nr), 0, heard),
            CriterionKind::Nc => {
                let curve = nc::curve_db(self.nc);
                by_octaves(&std::array::from_fn(|octave| if octave == 0 { NO_LIMIT_DB } else { curve[octave - 1] }), 3, heard)
            }
            CriterionKind::Inaudible => {
                let limit_db =
                    THRESHOLD_DB.zip(&heard.background_db, |threshold, background| threshold.max(background - COVERED_DB));
                let margin = limit_db.zip(&heard.level_db, |limit, level| limit - level);
                let required_db = heard.bare_db.zip(&limit_db, |bare, limit| (bare - limit).max(0.0));
                let band = least(&margin, 0);
                Judgement {
                    dba: None,
                    first_band: 0,
                    limit_db,
                    required_db,
                    margin_by_band_db: margin,
                    margin_db: margin[band],
                    band,
                }
            }
        }
    }

    /// The strictest guideline value of the periods in which it plays, as a limit to the mean while it plays.
    fn who_limit(&self, heard: &Heard) -> DbaLimit {
        let limit = |period: Period| {
            let hours = heard.hours.within(period);
            let Guideline { level_dba, max_dba } = who_guideline(period, self.outdoors);
            let quiet_db = if self.average { to_db(period.hours() / hours) } else { 0.0 };
            let (mean, peaks) = (level_dba + quiet_db, max_dba.map_or(f64::INFINITY, |max| max - heard.max_above_db));
            (hours > 0.0).then_some(DbaLimit { level_dba: mean.min(peaks), by_maximum: peaks < mean, period: Some(period) })
        };
        let strictest =
            [Period::Day, Period::Night].into_iter().filter_map(limit).min_by(|a, b| a.level_dba.total_cmp(&b.level_dba));
        // Hours of use are more than none.
        strictest.unwrap_or(DbaLimit { level_dba: self.limit_dba, by_maximum: false, period: None })
    }
}

fn by_dba(limit: DbaLimit, heard: &Heard) -> Judgement {
    let weights = Weighting::A.spectrum();
    let limit_db = weights.map(|weight| limit.level_dba - weight);
    let margin = limit_db.zip(&heard.level_db, |limit, level| limit - level);
    let bare = heard.bare_db.zip(&weights, |level, weight| level + weight);
    let allowed = shared_level(&bare, limit.level_dba);
    Judgement {
        dba: Some(limit),
        first_band: 0,
        limit_db,
        required_db: bare.map(|level| (level - allowed).max(0.0)),
        margin_by_band_db: margin,
        margin_db: limit.level_dba - heard.level_db.weighted_sum(Weighting::A),
        band: least(&margin, 0),
    }
}

/// The level in dB to which every band above it has to fall so that all together are `total_db`; infinite where they are less.
fn shared_level(levels_db: &Spectrum, total_db: f64) -> f64 {
    if levels_db.energy_sum() <= total_db {
        return f64::INFINITY;
    }
    let mut energies = levels_db.from_db().0;
    energies.sort_by(f64::total_cmp);
    let mut rest = from_db(total_db);
    // From the quietest: a band below the even share of what is left stays as it is.
    for (below, energy) in energies.into_iter().enumerate() {
        let share = rest / (BAND_COUNT - below) as f64;
        if energy > share {
            return to_db(share);
        }
        rest -= energy;
    }
    f64::INFINITY
}

/// Judged by octaves of 31.5 Hz to 8 kHz, from the one of `first_band` on.
fn by_octaves(curve_db: &[f64; 9], first_band: usize, heard: &Heard) -> Judgement {
    let over = |levels: &Spectrum| {
        let octaves = levels.octaves();
        Spectrum::from_fn(|band| curve_db[band / 3] - octaves[band / 3])
    };
    let margin = over(&heard.level_db);
    let octave = least(&margin, first_band) / 3;
    // The loudest third of the octave that decides.
    let band =
        (3 * octave..3 * octave + 3).max_by(|&a, &b| heard.level_db[a].total_cmp(&heard.level_db[b])).unwrap_or(3 * octave);
    Judgement {
        dba: None,
        first_band,
        limit_db: Spectrum::from_fn(|band| curve_db[band / 3] - to_db(3.0)),
        required_db: over(&heard.bare_db).map(|margin| (-margin).max(0.0)),
        margin_by_band_db: margin,
        margin_db: margin[band],
        band,
    }
}

/// The band with the least number, from `first` on.
fn least(numbers: &Spectrum, first: usize) -> usize {
    (first..BAND_COUNT).min_by(|&a, &b| numbers[a].total_cmp(&numbers[b])).unwrap_or(first)
}
