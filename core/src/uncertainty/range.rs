//! The range of what is heard, by sampling.

use crate::bands::{BAND_COUNT, Spectrum, Weighting};
use crate::design::CheckedDesign;
use crate::evaluate::{Evaluator, Report};
use crate::need::Heard;

use super::importance::shares_of_variance;
use super::method::method_deviation_db;
use super::points::{Coordinate, points};
use super::spread::{Dimension, Spread, Unknown};
use super::vary::Drawn;

/// Samples of a range that is shown: a power of two, which quasi-random points fill best.
pub const SAMPLES: usize = 512;
/// Part of all cases that lies below the lower end of a range, and above its upper end.
const TAIL: f64 = 0.1;

/// What holds in 8 of 10 cases.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// In 1 of 10 cases it is less.
    pub low: f64,
    /// As often more as less.
    pub middle: f64,
    /// In 1 of 10 cases it is more.
    pub high: f64,
}

impl Range {
    /// The same, all of it this much more.
    #[must_use]
    pub fn shifted(self, by: f64) -> Self {
        Self { low: self.low + by, middle: self.middle + by, high: self.high + by }
    }

    /// Of numbers that are alike in probability, at least one; they are sorted.
    pub fn of(numbers: &mut [f64]) -> Self {
        numbers.sort_by(f64::total_cmp);
        let at = |part: f64| {
            let place = (part * numbers.len() as f64 - 0.5).clamp(0.0, numbers.len() as f64 - 1.0);
            let (below, above) = (place.floor() as usize, place.ceil() as usize);
            numbers[below] + (numbers[above] - numbers[below]) * place.fract()
        };
        Self { low: at(TAIL), middle: at(0.5), high: at(1.0 - TAIL) }
    }
}

/// A level that holds in 8 of 10 cases.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantiles {
    /// A-weighted level in dB.
    pub dba: Range,
    /// Level in dB by band that it is above in 9 of 10 cases.
    pub low_db: Spectrum,
    /// Level in dB by band that it is below in 9 of 10 cases.
    pub high_db: Spectrum,
}

/// What a listener hears, as far as that is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ListenerRange {
    /// Its level.
    pub level: Quantiles,
    /// Margin to the limit in dB.
    pub margin_db: Range,
    /// Part of all cases in which the limit is met, 0 to 1.
    pub chance_met: f64,
}

/// How sure an estimate is.
#[derive(Clone, Debug, PartialEq)]
pub struct Ranges {
    /// Samples that were taken.
    pub samples: usize,
    /// The room.
    pub room: Quantiles,
    /// The listeners, in the order of the design.
    pub listeners: Vec<ListenerRange>,
    /// Part of all cases in which every limit is met; `None` without listeners.
    pub chance_met: Option<f64>,
    /// Part of the variance of the margin of the listener who decides (or of the level in the room) that goes with each
    /// unknown, 0 to 1, largest first; those that the design does not have are left out.
    pub shares: Vec<(Unknown, f64)>,
}

/// What one sample gave at one place.
#[derive(Clone, Copy, Debug)]
struct Sampled {
    level_db: Spectrum,
    dba: f64,
    margin_db: f64,
}

/// Samples being taken: one at a time, so that a page can answer in between.
#[derive(Clone, Debug)]
pub struct Sampling {
    nominal: CheckedDesign,
    governing: Option<usize>,
    method_db: Spectrum,
    dimensions: Vec<Dimension>,
    points: Vec<Vec<Coordinate>>,
    evaluator: Evaluator,
    /// The room last, a row for every sample.
    sampled: Vec<Vec<Sampled>>,
}

impl Sampling {
    /// `count` samples of `design`, none of them taken yet.
    pub fn new(design: &CheckedDesign, count: usize) -> Self {
        let dimensions = Dimension::of(design);
        let mut evaluator = Evaluator::for_samples();
        let report = evaluator.evaluate(design);
        Self {
            nominal: design.clone(),
            governing: report.governing,
            method_db: method_deviation_db(report.network_below_hz),
            points: points(dimensions.len(), count),
            dimensions,
            evaluator,
            sampled: Vec::with_capacity(count),
        }
    }

    /// Takes one sample; says whether more are to be taken.
    pub fn step(&mut self) -> bool {
        if let Some(point) = self.points.get(self.sampled.len()) {
            let drawn = Drawn { dimensions: &self.dimensions, point };
            let design = drawn.design(&self.nominal);
            let report = self.evaluator.evaluate(&design);
            self.sampled.push(sampled(&drawn, &design, &report, &self.method_db));
        }
        self.sampled.len() < self.points.len()
    }

    /// The ranges, once all samples are taken.
    pub fn finish(&self) -> Option<Ranges> {
        if self.sampled.is_empty() || self.sampled.len() < self.points.len() {
            return None;
        }
        let places = self.nominal.listeners.len();
        let listeners: Vec<ListenerRange> = (0..places)
            .map(|place| {
                let mut margins = self.column(place, |sampled| sampled.margin_db);
                let chance_met = self.part(|sampled| sampled[place].margin_db >= 0.0);
                ListenerRange { level: self.quantiles(place), margin_db: Range::of(&mut margins), chance_met }
            })
            .collect();
        let met = |sampled: &[Sampled]| sampled[..places].iter().all(|sampled| sampled.margin_db >= 0.0);
        Some(Ranges {
            samples: self.sampled.len(),
            room: self.quantiles(places),
            listeners,
            chance_met: (places > 0).then(|| self.part(met)),
            shares: self.shares(),
        })
    }

    /// Part of the samples for which `holds`.
    fn part(&self, holds: impl Fn(&[Sampled]) -> bool) -> f64 {
        self.sampled.iter().filter(|sampled| holds(sampled)).count() as f64 / self.sampled.len() as f64
    }

    fn column(&self, place: usize, number: impl Fn(&Sampled) -> f64) -> Vec<f64> {
        self.sampled.iter().map(|sampled| number(&sampled[place])).collect()
    }

    fn quantiles(&self, place: usize) -> Quantiles {
        let mut bands = [Range { low: 0.0, middle: 0.0, high: 0.0 }; BAND_COUNT];
        for (band, range) in bands.iter_mut().enumerate() {
            *range = Range::of(&mut self.column(place, |sampled| sampled.level_db[band]));
        }
        Quantiles {
            dba: Range::of(&mut self.column(place, |sampled| sampled.dba)),
            low_db: Spectrum(bands.map(|range| range.low)),
            high_db: Spectrum(bands.map(|range| range.high)),
        }
    }

    fn shares(&self) -> Vec<(Unknown, f64)> {
        let place = self.governing.unwrap_or(self.nominal.listeners.len());
        let results = self.column(place, |sampled| sampled.margin_db);
        let spreads: Vec<Spread> = self.dimensions.iter().map(|dimension| dimension.spread()).collect();
        let by_dimension = shares_of_variance(&self.points, &spreads, &results);
        let share = |unknown: Unknown| {
            let own = self.dimensions.iter().zip(&by_dimension).filter(|(dimension, _)| dimension.unknown() == unknown);
            own.map(|(_, share)| *share).reduce(|a, b| a + b).map(|share| (unknown, share))
        };
        let mut shares: Vec<_> = Unknown::ALL.into_iter().filter_map(share).collect();
        shares.sort_by(|a, b| b.1.total_cmp(&a.1));
        shares
    }
}

/// What is heard in one sample: at every listener and in the room.
fn sampled(drawn: &Drawn, design: &CheckedDesign, report: &Report, method_db: &Spectrum) -> Vec<Sampled> {
    let method = drawn.method_db(method_db);
    let at = |level_db: &Spectrum, more_db: &Spectrum| {
        let level_db = level_db.zip(more_db, |level, more| level + more);
        (level_db, level_db.weighted_sum(Weighting::A))
    };
    let listeners = design.listeners.iter().zip(&report.listeners).enumerate().map(|(k, (listener, heard))| {
        let partition = drawn.partition_db(design, k);
        let (level_db, dba) = at(&heard.level.level_db, &method.zip(&partition, |a, b| a + b));
        let judgement = listener.criterion.judge(&Heard {
            level_db,
            bare_db: heard.bare.level_db,
            max_above_db: design.max_above_db,
            hours: design.hours,
            background_db: listener.background_db,
        });
        Sampled { level_db, dba, margin_db: judgement.margin_db }
    });
    let (level_db, dba) = at(&report.stations.room.level_db, &method);
    listeners.chain([Sampled { level_db, dba, margin_db: -dba }]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::{examples, run_in_box};

    fn sampled(design: &CheckedDesign, count: usize) -> Ranges {
        let mut sampling = Sampling::new(design, count);
        while sampling.step() {
            assert_eq!(sampling.finish(), None, "a range of some samples is none");
        }
        sampling.finish().expect("all samples are there")
    }

    /// A normal variable of mean 50 and standard deviation 3, and the sum of two: quantiles in closed form, 50 -+ 1.2816 sigma.
    #[test]
    fn ranges_of_normal_variables() {
        let points = points(20, SAMPLES);
        let quantile = 1.281_551_6;
        let mut one: Vec<f64> = points.iter().map(|point| 50.0 + 3.0 * point[7].normal).collect();
        let range = Range::of(&mut one);
        for (found, exact) in [(range.low, 50.0 - 3.0 * quantile), (range.middle, 50.0), (range.high, 50.0 + 3.0 * quantile)] {
            assert!((found - exact).abs() < 0.02, "{found} against {exact}");
        }
        let mut sum: Vec<f64> = points.iter().map(|point| 50.0 + 3.0 * point[3].normal + 4.0 * point[17].normal).collect();
        let range = Range::of(&mut sum);
        for (found, exact) in [(range.low, 50.0 - 5.0 * quantile), (range.middle, 50.0), (range.high, 50.0 + 5.0 * quantile)] {
            assert!((found - exact).abs() < 0.25, "{found} against {exact}");
        }
    }

    #[test]
    fn the_same_design_has_the_same_range() {
        let checked = run_in_box().check().expect("an example");
        assert_eq!(sampled(&checked, 64), sampled(&checked, 64));
    }

    #[test]
    fn ranges_hold_together() {
        for design in examples() {
            let ranges = sampled(&design.check().expect("an example"), 128);
            let listener = &ranges.listeners[0];
            for range in [&listener.level.dba, &listener.margin_db, &ranges.room.dba] {
                assert!(range.low < range.middle && range.middle < range.high, "{range:?}");
            }
            assert!((0..BAND_COUNT).all(|band| listener.level.low_db[band] < listener.level.high_db[band]));
            // What is beyond the upper end in 1 of 10 cases meets its limit as often.
            assert_eq!(listener.chance_met >= 0.9, listener.margin_db.low >= 0.0);
            assert!(ranges.shares.iter().all(|(_, share)| (0.0..=1.0).contains(share)), "{:?}", ranges.shares);
            // Through a wall between more may be off than in the room.
            assert!(listener.level.dba.high - listener.level.dba.low > ranges.room.dba.high - ranges.room.dba.low);
        }
    }

    /// Higher limits are met more often, and whoever hears too much spoils it for all.
    #[test]
    fn chances_follow_the_limit() {
        let mut design = run_in_box();
        let mut before = 0.0;
        for limit_dba in [30.0, 40.0, 45.0, 50.0, 60.0, 80.0] {
            design.listeners[0].limit_dba = limit_dba;
            let chance = sampled(&design.check().expect("sound"), 64).chance_met.expect("somebody listens");
            assert!(chance >= before, "{limit_dba}: {chance} after {before}");
            before = chance;
        }
        assert_eq!(before, 1.0);
        let mut strict = design.listeners[0].clone();
        strict.limit_dba = 10.0;
        design.listeners.push(strict);
        assert_eq!(sampled(&design.check().expect("sound"), 64).chance_met, Some(0.0));
        design.listeners.clear();
        assert_eq!(sampled(&design.check().expect("sound"), 8).chance_met, None);
    }
}
