//! Sentences about who hears it, how quiet it has to be, and for how long ears bear it.

use std::fmt::Write;

use hushwright::bands::NOMINAL_HZ;
use hushwright::design::{Design, LevelFrom, ListenerPart};
use hushwright::evaluate::{ListenerReport, Report, Verdict};
use hushwright::need::{Background, CriterionKind, Guideline, Hours, Period, Place, amplifier_w, niosh_hours, who_guideline};
use hushwright::rating::{CriterionRating, ThirdOctaves, iso717_1};

use crate::quantity::{decimal, level_dba, sentence, whole};
use crate::readings::{frequency, without_the_box};
use crate::state::State;

/// A verdict in words.
pub const fn verdict_words(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Pass => "pass",
        Verdict::AtRisk => "at risk",
        Verdict::Fail => "fail",
    }
}

/// What a listener is called.
pub fn listener_name(listener: &ListenerPart) -> String {
    if listener.name.trim().is_empty() { "Listener".to_owned() } else { listener.name.trim().to_owned() }
}

/// The limit in a few words: `limit 30 dBA`.
pub fn limit_words(heard: &ListenerReport, listener: &ListenerPart) -> String {
    match (heard.criterion, heard.judgement.dba) {
        (_, Some(limit)) => {
            let guideline = limit.period.map(|period| (period, who_guideline(period, listener.place == Place::Outdoors)));
            let of = match guideline {
                None => String::new(),
                Some((_, Guideline { max_dba: Some(max), .. })) if limit.by_maximum => {
                    format!(" (WHO, night: {max} at the loudest)")
                }
                Some((Period::Day, _)) => " (WHO, day)".to_owned(),
                Some((Period::Night, _)) => " (WHO, night)".to_owned(),
            };
            format!("limit {} dBA{of}", whole(limit.level_dba))
        }
        (CriterionKind::Nr, _) => format!("limit NR {}", decimal(listener.limit_nr, 0)),
        (CriterionKind::Nc, _) => format!("limit NC {}", decimal(listener.limit_nc, 0)),
        _ => "not to be heard".to_owned(),
    }
}

/// How many whole dB `margin_db` leaves; for a limit in dBA the difference of the two numbers that are shown.
fn shown_margin(heard: &ListenerReport) -> f64 {
    let level = heard.level.dba.round().max(0.0);
    heard.judgement.dba.map_or(heard.judgement.margin_db.round(), |limit| limit.level_dba.round() - level)
}

/// The verdict on the margin that is shown, so that the same number never has two; until the range of the design is known.
pub fn verdict(heard: &ListenerReport) -> Verdict {
    Verdict::of(shown_margin(heard))
}

/// A margin in words.
pub fn over_or_under(margin_db: f64) -> String {
    if margin_db < 0.0 {
        format!("{} dB over", whole(-margin_db))
    } else if margin_db > 0.0 {
        format!("{} dB under", whole(margin_db))
    } else {
        "just at".to_owned()
    }
}

/// A band as a sentence names it.
fn at(band: usize) -> String {
    frequency(NOMINAL_HZ[band]).replace(' ', "\u{a0}")
}

/// How far a listener's level lies from the limit: `19 dB over the limit`; by bands, where that is: `19 dB over at 160 Hz`. A
/// curve's number rises by other steps than its dB, and what is heard has no number at all.
pub fn margin_words(heard: &ListenerReport) -> String {
    let margin = over_or_under(shown_margin(heard));
    match heard.judgement.dba {
        Some(_) => format!("{margin} the limit"),
        None if margin.ends_with("at") => format!("{margin} the limit at {}", at(heard.judgement.band)),
        None => format!("{margin} at {}", at(heard.judgement.band)),
    }
}

/// A listener's level and how far it lies from the limit, in one line.
pub fn short_level(heard: &ListenerReport) -> String {
    format!("{} dBA, {}", level_dba(heard.level.dba), margin_words(heard))
}

/// How bad it is without a box, and where a box has to bring most.
pub fn without_a_box(heard: &ListenerReport) -> String {
    let bare = level_dba(heard.bare.dba);
    let margin = match heard.judgement.dba {
        Some(limit) => limit.level_dba.round() - heard.bare.dba.round().max(0.0),
        None => heard.bare_margin_db.round(),
    };
    if heard.bare_margin_db >= 0.0 {
        return format!("Without any box it would be {bare} dBA there, {} the limit.", over_or_under(margin));
    }
    let band = heard.neediest_band();
    format!(
        "Without any box it would be {bare} dBA there, {} the limit. A box has to bring most at {}: {} dB.",
        over_or_under(margin),
        at(band),
        whole(heard.judgement.required_db[band])
    )
}

/// What a listener's level is by other measures, and the band that decides.
pub fn other_measures(heard: &ListenerReport) -> String {
    let curve = |name: &str, rating: CriterionRating| match rating {
        CriterionRating::At { value, .. } => format!("{name}\u{a0}{}", whole(value)),
        CriterionRating::Below(lowest) => format!("below {name}\u{a0}{}", whole(lowest)),
        CriterionRating::Above(highest) => format!("above {name}\u{a0}{}", whole(highest)),
    };
    format!(
        "{}, {}, maximum {} dBA; {} decides.",
        curve("NR", heard.nr),
        curve("NC", heard.nc),
        level_dba(heard.max_dba),
        at(heard.judgement.band)
    )
}

/// What amplifier the source takes, and what level its driver makes.
pub fn amplifier(design: &Design) -> Option<String> {
    if design.source.level_from == LevelFrom::Given {
        return None;
    }
    let driver = design.source.driver.as_ref()?;
    Some(format!(
        "Its peaks need an amplifier of {} W. Nearly all of the power becomes heat.",
        whole(amplifier_w(driver.power_w, driver.crest_db))
    ))
}

/// A time for people.
fn time(hours: f64) -> String {
    let seconds = 3600.0 * hours;
    if seconds < 99.5 {
        format!("{} s", whole(seconds.max(1.0)))
    } else if seconds < 5400.0 {
        format!("{} min", whole(seconds / 60.0))
    } else {
        format!("{} h", decimal(hours, 1))
    }
}

/// For how long ears bear what is heard in the room.
pub fn hearing_hours(report: &Report, hours: f64) -> String {
    let bears = |dba: f64| {
        let allowed = niosh_hours(dba);
        let enough = if hours <= allowed { "" } else { ", less than it plays" };
        format!("{} a day{enough}", time(allowed))
    };
    // Of the numbers that are shown, so that who reckons with them gets the same times.
    let (open, shut) = (without_the_box(report), report.stations.room.dba.round());
    let mut text = format!("Without the box, or lid open, the room has {} dBA: ears bear that for {}", whole(open), bears(open));
    if niosh_hours(shut) < 24.0 {
        let _ = write!(text, "; lid shut {} dBA, for {}", whole(shut), bears(shut));
    }
    text + " (NIOSH: 85 dBA for 8 h, half as long for each 3 dB more)."
}

/// The hours of use in a few words.
pub fn hours_gist(design: &Design) -> String {
    let hours = Hours { start_h: design.source.start_h, hours: design.source.hours };
    format!("{} to {}", clock(hours.start_h), clock(hours.end_h()))
}

/// An hour of day as clocks show it.
fn clock(hours: f64) -> String {
    let minutes = (60.0 * hours).round();
    format!("{}:{:02}", (minutes / 60.0).floor(), minutes % 60.0)
}

/// What the partition before listener `k` is.
pub fn partition_reading(state: &State, k: usize) -> Option<String> {
    let (listener, heard) = (&state.design().listeners[k], &state.report().listeners[k]);
    let rated = iso717_1::rate_thirds(&ThirdOctaves::from(heard.reduction_db.as_ref()?))?;
    let what =
        listener.partition.map(|partition| sentence(&partition.description().replace("m2", "m²")) + " ").unwrap_or_default();
    let round = if listener.partition.is_some() && listener.flanking_db > 0.0 { ", what goes round it counted in" } else { "" };
    Some(format!("{what}R′w {}\u{a0}dB{round}.", rated.rw))
}

/// What the way from the room to listener `k` takes.
pub fn way_reading(state: &State, k: usize) -> Option<String> {
    let (listener, heard) = (&state.design().listeners[k], &state.report().listeners[k]);
    let lost = state.report().stations.room.dba.round() - heard.level.dba.round();
    let what = match listener.place {
        Place::SameRoom => return None,
        Place::Outdoors => "What lies between and the distance take",
        Place::NextRoom => "What lies between takes",
        Place::Corridor => "Door and corridor take",
        Place::BehindCorridor => "Doors and corridor take",
    };
    (heard.level.dba.round() >= 0.0 && lost >= 0.0)
        .then(|| format!("{what} {}\u{a0}dB: {} dBA at the ear.", whole(lost), level_dba(heard.level.dba)))
}

/// Over which hours a guideline value is meant, and what the mean over them is.
pub fn time_reading(state: &State, k: usize) -> Option<String> {
    let heard = &state.report().listeners[k];
    let (limit, mean) = (heard.judgement.dba?, heard.mean_over_period_dba?);
    let period = limit.period?;
    let when = match period {
        Period::Day => "day and evening, 7 to 23 h",
        Period::Night => "night, 23 to 7 h",
    };
    let decides = if limit.by_maximum { " The loudest moments decide." } else { "" };
    Some(format!(
        "For {when}: {} dBA while it plays. Over these {} hours the mean is {} dBA.{decides}",
        whole(limit.level_dba),
        whole(period.hours()),
        level_dba(mean)
    ))
}

/// Where the background of listener `k` comes from.
pub fn background_reading(state: &State, k: usize) -> Option<String> {
    let background = state.design().listeners[k].background;
    let level = if background.level_dba().is_some() { "Level assumed, shape" } else { "Shape" };
    (background != Background::OwnBands).then(|| format!("{level}: 5 dB less each octave, as RC curves (Blazier 1981)."))
}

/// Level of the background of a listener in dBA.
pub fn background_dba(heard: &ListenerReport) -> f64 {
    heard.background_db.weighted_sum(hushwright::bands::Weighting::A)
}

#[cfg(test)]
mod tests {
    use super::*;
    use hushwright::evaluate::evaluate;

    fn report(design: &Design) -> Report {
        evaluate(&design.check().unwrap())
    }

    #[test]
    fn a_margin_is_the_difference_of_the_numbers_shown() {
        let design = Design::default();
        let mut heard = report(&design).listeners[0];
        for (level, limit, words) in [
            (49.4, 30.0, "19 dB over the limit"),
            (29.6, 30.0, "just at the limit"),
            (24.4, 30.2, "6 dB under the limit"),
            (-7.0, 30.0, "30 dB under the limit"),
        ] {
            heard.level.dba = level;
            let dba = heard.judgement.dba.as_mut().unwrap();
            dba.level_dba = limit;
            assert_eq!(margin_words(&heard), words);
        }
        (heard.judgement.dba, heard.judgement.band) = (None, 8);
        for (margin, words) in
            [(-2.6, "3 dB over at 160\u{a0}Hz"), (1.6, "2 dB under at 160\u{a0}Hz"), (0.2, "just at the limit at 160\u{a0}Hz")]
        {
            heard.judgement.margin_db = margin;
            assert_eq!(margin_words(&heard), words);
        }
    }

    #[test]
    fn the_same_margin_shown_has_the_same_verdict() {
        let mut heard = report(&Design::default()).listeners[0];
        for (level, limit) in [(34.6, 30.4), (35.4, 29.6), (34.51, 30.49)] {
            heard.level.dba = level;
            heard.judgement.dba.as_mut().unwrap().level_dba = limit;
            assert_eq!(
                (margin_words(&heard).as_str(), verdict(&heard)),
                ("5 dB over the limit", Verdict::Fail),
                "{level} {limit}"
            );
        }
        heard.level.dba = 25.4;
        assert_eq!(verdict(&heard), Verdict::Pass);
    }

    #[test]
    fn without_a_box_says_how_bad_and_where() {
        let design = Design::default();
        let report = report(&design);
        let heard = &report.listeners[0];
        let text = without_a_box(heard);
        let level = whole(heard.bare.dba);
        assert!(text.starts_with(&format!("Without any box it would be {level} dBA there, ")), "{text}");
        assert!(
            text.contains(&format!("{} dB over", whole(heard.bare.dba.round() - 30.0))) && text.contains("has to bring most"),
            "{text}"
        );
        let mut quiet = design;
        quiet.listeners[0].limit_dba = 90.0;
        assert!(!without_a_box(&evaluate(&quiet.check().unwrap()).listeners[0]).contains("bring most"));
    }

    #[test]
    fn ears_bear_less_the_louder_it_is() {
        let design = Design::default();
        let mut report = report(&design);
        (report.insertion_loss_dba, report.stations.room.dba) = (40.4, 60.4);
        let text = hearing_hours(&report, 3.0);
        assert!(
            text.contains("100 dBA: ears bear that for 15 min a day, less than it plays") && !text.contains("lid shut"),
            "{text}"
        );
        (report.insertion_loss_dba, report.stations.room.dba) = (36.0, 88.4);
        let text = hearing_hours(&report, 3.0);
        assert!(text.contains("for 4 s a day") && text.contains("lid shut 88 dBA, for 4 h a day ("), "{text}");
    }

    #[test]
    fn limits_are_named_by_where_they_come_from() {
        let mut design = Design::default();
        let words = |design: &Design| limit_words(&report(design).listeners[0], &design.listeners[0]);
        assert_eq!(words(&design), "limit 30 dBA");
        design.listeners[0].criterion = CriterionKind::Who;
        assert_eq!(words(&design), "limit 35 dBA (WHO, day)");
        (design.source.start_h, design.source.hours) = (23.0, 2.0);
        assert_eq!(words(&design), "limit 30 dBA (WHO, night)");
        design.source.max_above_db = 20.0;
        assert_eq!(words(&design), "limit 25 dBA (WHO, night: 45 at the loudest)");
        design.listeners[0].criterion = CriterionKind::Nr;
        assert_eq!(words(&design), "limit NR 25");
        design.listeners[0].criterion = CriterionKind::Inaudible;
        assert_eq!(words(&design), "not to be heard");
    }

    #[test]
    fn the_amplifier_is_named_where_the_driver_makes_the_level() {
        let mut design = Design::default();
        assert_eq!(amplifier(&design), None);
        design.source.level_from = LevelFrom::Driver;
        assert!(amplifier(&design).unwrap().contains("119 W"), "{:?}", amplifier(&design));
        assert_eq!(hours_gist(&design), "18:00 to 21:00");
    }
}
