//! What each listener hears, against what each may.

use serde::{Deserialize, Serialize};

use crate::bands::{BAND_COUNT, Spectrum};
use crate::design::{CheckedDesign, Listener};
use crate::math::to_db;
use crate::need::{CriterionKind, Heard, Judgement, Partition};
use crate::rating::{CriterionRating, nc, nr};

use super::report::Station;

/// By how many dB an estimate may be off either way: between the laboratories' own scatter (1.28 standard deviations of 2 to
/// 3 dB, ISO 12999-1, from memory) and what unknown corners decide; assumed, for all designs alike.
pub const UNSURE_DB: f64 = 5.0;

/// A level against its limit, as far as the estimate is sure of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Verdict {
    /// Below the limit by more than the estimate may be off.
    Pass,
    /// Nearer to the limit than the estimate may be off.
    AtRisk,
    /// Above it by more.
    Fail,
}

impl Verdict {
    /// The verdict on a margin in dB.
    pub fn of(margin_db: f64) -> Self {
        if margin_db >= UNSURE_DB {
            Self::Pass
        } else if margin_db > -UNSURE_DB {
            Self::AtRisk
        } else {
            Self::Fail
        }
    }

    /// The verdict on a margin in dB that is `low` or more in 9 of 10 cases and `high` or less in 9 of 10.
    pub fn within(low: f64, high: f64) -> Self {
        if low >= 0.0 {
            Self::Pass
        } else if high >= 0.0 {
            Self::AtRisk
        } else {
            Self::Fail
        }
    }

    /// Key in output.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Pass => "pass",
            Self::AtRisk => "at-risk",
            Self::Fail => "fail",
        }
    }
}

/// What a listener hears.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ListenerReport {
    /// Level while it plays (LAeq).
    pub level: Station,
    /// A-weighted level in dB of the loudest moments (LAFmax).
    pub max_dba: f64,
    /// The same without any box.
    pub bare: Station,
    /// The level over the whole day or night of a guideline value, with the hours in which nothing plays, in dBA.
    pub mean_over_period_dba: Option<f64>,
    /// Noise rating of the level.
    pub nr: CriterionRating,
    /// Noise criterion rating of the level.
    pub nc: CriterionRating,
    /// Apparent sound reduction index in dB by band of what lies between, where something does.
    pub reduction_db: Option<Spectrum>,
    /// Background in dB by band.
    pub background_db: Spectrum,
    /// What the limit is taken from.
    pub criterion: CriterionKind,
    /// The level against the limit.
    pub judgement: Judgement,
    /// In a word.
    pub verdict: Verdict,
    /// How the level without any box stands against the limit: margin in dB.
    pub bare_margin_db: f64,
}

impl ListenerReport {
    /// What `listener` hears of the sound power `power_db` of the box in the room of `design`, and of `bare_db` without it.
    pub fn new(
        listener: &Listener,
        design: &CheckedDesign,
        power_db: &Spectrum,
        bare_db: &Spectrum,
        of_preset: impl FnOnce(Partition) -> Spectrum,
    ) -> Self {
        let mut way = listener.way.clone();
        let parted = way.place.is_parted();
        if parted {
            way.reduction_db = listener.partition.reduction_db(of_preset);
        }
        let gain_db = way.gain_db(&design.room);
        let at = |power_db: &Spectrum| Station::new(power_db.zip(&gain_db, |power, gain| power + gain));
        let (level, bare) = (at(power_db), at(bare_db));
        let heard = Heard {
            level_db: level.level_db,
            bare_db: bare.level_db,
            max_above_db: design.max_above_db,
            hours: design.hours,
            background_db: listener.background_db,
        };
        let judgement = listener.criterion.judge(&heard);
        let without = listener.criterion.judge(&Heard { level_db: bare.level_db, ..heard });
        let octaves = level.level_db.octaves();
        let period = judgement.dba.and_then(|limit| limit.period);
        Self {
            level,
            max_dba: level.dba + design.max_above_db,
            bare,
            mean_over_period_dba: period.map(|period| level.dba - to_db(period.hours() / design.hours.within(period))),
            nr: nr::nr(&octaves),
            nc: nc::nc(&std::array::from_fn(|octave| octaves[octave + 1])),
            reduction_db: parted.then_some(way.reduction_db),
            background_db: listener.background_db,
            criterion: listener.criterion.kind,
            judgement,
            verdict: Verdict::of(judgement.margin_db),
            bare_margin_db: without.margin_db,
        }
    }

    /// The band in which a box has to bring most.
    pub fn neediest_band(&self) -> usize {
        let required = &self.judgement.required_db;
        (0..BAND_COUNT).max_by(|&a, &b| required[a].total_cmp(&required[b])).unwrap_or(0)
    }
}

/// The listener with the least margin: the one who decides.
pub fn governing(listeners: &[ListenerReport]) -> Option<usize> {
    let margin = |k: &usize| listeners[*k].judgement.margin_db;
    (0..listeners.len()).min_by(|a, b| margin(a).total_cmp(&margin(b)))
}
