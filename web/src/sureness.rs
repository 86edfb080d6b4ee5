//! How sure the answer is: the range that the worker has found, as long as it fits what is shown, and its words.

use std::rc::Rc;

use hushwright::bands::Spectrum;
use hushwright::design::Design;
use hushwright::evaluate::{Report, Verdict};
use hushwright::uncertainty::{COVERAGE, Range, Ranges, Unknown};

use crate::need_readings::verdict;
use crate::quantity::{level_dba, whole};
use crate::work::NextStep;

/// The last ranges that were found, and for what.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// The design that they belong to.
    pub design: Rc<Design>,
    /// What it does.
    pub report: Rc<Report>,
    /// Its ranges.
    pub ranges: Rc<Ranges>,
}

/// What each change of a design brings.
#[derive(Clone, Debug, PartialEq)]
pub struct Changes {
    /// The design.
    pub design: Rc<Design>,
    /// Its changes.
    pub steps: Rc<Vec<NextStep>>,
    /// Its answer in dBA with loose and with firm corners.
    pub corners_dba: [f64; 2],
}

/// What the worker has found out about the design that is shown.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sureness {
    /// The last ranges.
    pub found: Option<Found>,
    /// Whether no worker runs here, so that there will be none.
    pub unavailable: bool,
    /// What each change brings.
    pub steps: Option<Changes>,
}

/// What is shown of one listener.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shown {
    /// A-weighted level in dB.
    pub dba: Range,
    /// Margin to the limit in dB.
    pub margin_db: Range,
    /// Part of all cases in which the limit is met; `None` while the range is carried over from a design before.
    pub chance_met: Option<f64>,
}

/// Within what the levels of the answer lie in 8 of 10 cases, by band.
#[derive(Clone, Debug, PartialEq)]
pub struct BandRange {
    /// Lower ends in dB.
    pub low_db: Spectrum,
    /// Upper ends in dB.
    pub high_db: Spectrum,
    /// Whether it is carried over from a design before.
    pub is_carried_over: bool,
}

impl Sureness {
    /// The ranges of `design`, once they are found.
    pub fn of(&self, design: &Rc<Design>) -> Option<&Ranges> {
        self.found.as_ref().filter(|found| Rc::ptr_eq(&found.design, design)).map(|found| &*found.ranges)
    }

    /// What is known of listener `k` of `design`, which does what `report` says.
    ///
    /// While the worker is at it, the range of the design before moves along with the level: its width hardly changes from
    /// one step to the next.
    pub fn listener(&self, k: usize, design: &Rc<Design>, report: &Report) -> Option<Shown> {
        let Found { design: own, report: before, ranges } = self.found.as_ref()?;
        let (range, heard) = (ranges.listeners.get(k)?, report.listeners.get(k)?);
        if Rc::ptr_eq(own, design) {
            return Some(Shown { dba: range.level.dba, margin_db: range.margin_db, chance_met: Some(range.chance_met) });
        }
        let old = before.listeners.get(k).filter(|_| own.listeners.len() == design.listeners.len())?;
        Some(Shown {
            dba: range.level.dba.shifted(heard.level.dba - old.level.dba),
            margin_db: range.margin_db.shifted(heard.judgement.margin_db - old.judgement.margin_db),
            chance_met: None,
        })
    }

    /// What is known by bands of the level at the listener who decides, or else in the room.
    ///
    /// While the worker is at it, the ends of the design before keep their distance from the level, band by band.
    pub fn bands(&self, design: &Rc<Design>, report: &Report) -> Option<BandRange> {
        let Found { design: own, report: before, ranges } = self.found.as_ref()?;
        let (range, level, old) = match report.governing {
            Some(k) => {
                let old = before.listeners.get(k).filter(|_| own.listeners.len() == design.listeners.len())?;
                (&ranges.listeners.get(k)?.level, &report.listeners.get(k)?.level, &old.level)
            }
            None => (&ranges.room, &report.stations.room, &before.stations.room),
        };
        let is_carried_over = !Rc::ptr_eq(own, design);
        let by = level.level_db.zip(&old.level_db, |new, old| if is_carried_over { new - old } else { 0.0 });
        let moved = |end: &Spectrum| end.zip(&by, |end, by| end + by);
        Some(BandRange { low_db: moved(&range.low_db), high_db: moved(&range.high_db), is_carried_over })
    }

    /// The verdict on listener `k`: by the range, or by what all estimates may be off as long as there is none.
    pub fn verdict(&self, k: usize, design: &Rc<Design>, report: &Report) -> Verdict {
        let Some(shown) = self.listener(k, design, report) else { return verdict(&report.listeners[k]) };
        Verdict::within(shown.margin_db.low, shown.margin_db.high)
    }

    /// What is known of the level in the room.
    pub fn room(&self, design: &Rc<Design>, report: &Report) -> Option<Range> {
        let found = self.found.as_ref()?;
        let by = if Rc::ptr_eq(&found.design, design) { 0.0 } else { report.stations.room.dba - found.report.stations.room.dba };
        Some(found.ranges.room.dba.shifted(by))
    }
}

/// `34 to 55 dBA`.
pub fn range_words(range: &Range) -> String {
    let (low, high) = (level_dba(range.low), level_dba(range.high));
    if low == high { format!("{low} dBA") } else { format!("{low} to {high} dBA") }
}

/// A chance for people: in whole tenths, and in words at the ends, since the spreads that it rests on are assumed.
pub fn chance_words(chance: f64) -> String {
    let tenths = (10.0 * chance).round();
    if chance < 0.05 {
        "limit hardly ever met".to_owned()
    } else if chance > 0.95 {
        "limit nearly always met".to_owned()
    } else {
        format!("limit met in {} of 10", whole(tenths))
    }
}

/// How ranges like these have covered measured walls.
pub fn coverage_words() -> String {
    let [published, remembered] = &COVERAGE;
    format!(
        "Held against measured walls, such ranges hold {} of {} published values of {} panes of glass, and {} of {} remembered ones of {} single panels, where they are to hold 8 of 10. Most that lie outside do so above coincidence, where real walls let more through than is computed. No measured box is at hand.",
        published.inside, published.values, published.walls, remembered.inside, remembered.values, remembered.walls
    )
}

/// An unknown's name.
pub const fn unknown_name(unknown: Unknown) -> &'static str {
    match unknown {
        Unknown::Corners => "corners",
        Unknown::Gaps => "gaps at lids and holes",
        Unknown::Compound => "damping compound",
        Unknown::Losses => "damping of boards and joints",
        Unknown::Stiffness => "stiffness of the boards",
        Unknown::Density => "density of the boards",
        Unknown::Lining => "lining and fill",
        Unknown::Rooms => "absorption of the rooms",
        Unknown::Supports => "supports",
        Unknown::Partition => "what lies between",
        Unknown::Method => "the method itself",
    }
}

/// How a person can find out more about it.
pub const fn how_to_pin_down(unknown: Unknown) -> &'static str {
    match unknown {
        Unknown::Corners => {
            "Knock on a face of the finished box and look which note rings: set the corners so that the panels resonate there."
        }
        Unknown::Gaps => "Put paper in the closed lid: where it pulls out, the seal leaks. Press seals all round.",
        Unknown::Compound => "Use the data sheet of the compound: shear modulus and loss factor by frequency.",
        Unknown::Losses => "Hang up an offcut and knock: the longer it rings, the less it loses.",
        Unknown::Stiffness => "Lay an offcut over two edges, load its middle and measure the sag: Young's modulus follows.",
        Unknown::Density => "Weigh a sheet.",
        Unknown::Lining => "Take the flow resistivity from its data sheet.",
        Unknown::Rooms => "Clap and time how long the room rings, or enter its furnishing more closely.",
        Unknown::Supports => "Load one of them and measure its sag.",
        Unknown::Partition => "Play noise in the room and measure on both sides, by bands; enter the values as your own.",
        Unknown::Method => "Nothing at the design helps: measure the finished box.",
    }
}

/// The unknowns that matter: those with the largest shares, at most four, none below 5 %.
pub fn chief_unknowns(ranges: &Ranges) -> impl Iterator<Item = (Unknown, f64)> + '_ {
    ranges.shares.iter().copied().filter(|(_, share)| *share >= 0.05).take(4)
}

#[cfg(test)]
mod tests {
    use hushwright::design::run_in_box;
    use hushwright::evaluate::evaluate;
    use hushwright::uncertainty::Sampling;

    use super::*;

    fn sureness() -> (Rc<Design>, Report, Sureness) {
        let design = Rc::new(run_in_box());
        let checked = design.check().expect("an example");
        let mut sampling = Sampling::new(&checked, 256);
        while sampling.step() {}
        let report = evaluate(&checked);
        let ranges = Rc::new(sampling.finish().expect("all samples"));
        let found = Found { design: Rc::clone(&design), report: Rc::new(report.clone()), ranges };
        (design, report, Sureness { found: Some(found), ..Sureness::default() })
    }

    #[test]
    fn a_range_moves_along_until_the_next_is_found() {
        let (design, report, sureness) = sureness();
        let own = sureness.listener(0, &design, &report).expect("a range");
        assert!(own.chance_met.is_some() && own.dba.low < report.answer().dba && report.answer().dba < own.dba.high);
        let mut louder = (*design).clone();
        louder.source.level_dba += 5.0;
        let louder = Rc::new(louder);
        let report = evaluate(&louder.check().expect("still sound"));
        let carried = sureness.listener(0, &louder, &report).expect("a range");
        assert!(
            (carried.dba.low - own.dba.low - 5.0).abs() < 1e-9
                && (carried.margin_db.high - own.margin_db.high + 5.0).abs() < 1e-9
        );
        assert_eq!(carried.chance_met, None);
        assert!(sureness.of(&design).is_some() && sureness.of(&louder).is_none());
        let mut more = (*louder).clone();
        more.listeners.push(more.listeners[0].clone());
        let more = Rc::new(more);
        assert_eq!(
            sureness.listener(0, &more, &evaluate(&more.check().expect("sound"))),
            None,
            "another listener is another range"
        );
    }

    /// In every band the ends keep their distance from the level while the worker is at it, whoever listens.
    #[test]
    fn the_range_of_every_band_moves_along_with_its_level() {
        let (design, report, sureness) = sureness();
        let own = sureness.bands(&design, &report).expect("a range");
        assert!(!own.is_carried_over);
        let found = &sureness.found.as_ref().expect("found").ranges;
        assert_eq!((own.low_db, own.high_db), (found.listeners[0].level.low_db, found.listeners[0].level.high_db));
        let mut deeper = (*design).clone();
        deeper.gap.depth_mm += 40.0;
        let deeper = Rc::new(deeper);
        let after = evaluate(&deeper.check().expect("still sound"));
        let carried = sureness.bands(&deeper, &after).expect("a range");
        assert!(carried.is_carried_over && after.answer().level_db != report.answer().level_db);
        for band in 0..hushwright::bands::BAND_COUNT {
            let (old, new) = (report.answer().level_db[band], after.answer().level_db[band]);
            assert!((carried.low_db[band] - new - (own.low_db[band] - old)).abs() < 1e-9);
            assert!((carried.high_db[band] - new - (own.high_db[band] - old)).abs() < 1e-9);
        }
        let mut nobody = (*design).clone();
        nobody.listeners.clear();
        let nobody = Rc::new(nobody);
        let alone = evaluate(&nobody.check().expect("sound without listeners"));
        let room = sureness.bands(&nobody, &alone).expect("the room has a range");
        assert!(room.low_db[8] < alone.stations.room.level_db[8] && alone.stations.room.level_db[8] < room.high_db[8]);
        assert_eq!(Sureness::default().bands(&design, &report), None);
        let mut more = (*design).clone();
        more.listeners.push(more.listeners[0].clone());
        let more = Rc::new(more);
        assert_eq!(sureness.bands(&more, &evaluate(&more.check().expect("sound"))), None, "another listener is another range");
    }

    #[test]
    fn words() {
        let range = |low, high| Range { low, middle: 0.5 * (low + high), high };
        assert_eq!(range_words(&range(33.9, 55.4)), "34 to 55 dBA");
        assert_eq!(range_words(&range(33.9, 34.2)), "34 dBA");
        assert!(coverage_words().contains("20 of 28 published") && !COVERAGE[0].from_memory && COVERAGE[1].from_memory);
        assert_eq!(chance_words(0.0), "limit hardly ever met");
        assert_eq!(chance_words(0.31), "limit met in 3 of 10");
        assert_eq!(chance_words(1.0), "limit nearly always met");
        let (.., sureness) = sureness();
        let ranges = &sureness.found.expect("found").ranges;
        let chief: Vec<_> = chief_unknowns(ranges).collect();
        assert!(!chief.is_empty() && chief.len() <= 4 && chief.windows(2).all(|pair| pair[0].1 >= pair[1].1));
    }
}
