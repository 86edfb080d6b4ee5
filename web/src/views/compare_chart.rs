//! Several designs as lines of one chart.

use std::rc::Rc;

use hushwright::design::Design;
use hushwright::evaluate::Report;
use hushwright::need::Judgement;

use super::levels::by_octaves;
use crate::charts::lines::{Judged, Line, LineChart};
use crate::charts::palette::LineInk;
use crate::schedule::{LETTERS, STROKES};

const LIMITS: [&str; 4] = ["limit A", "limit B", "limit C", "limit D"];

/// Colour of each design's line.
const INKS: [LineInk; 4] = [LineInk::Black, LineInk::Vermilion, LineInk::Green, LineInk::Blue];

/// A design with what it does.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// The design.
    pub design: Rc<Design>,
    /// What it does.
    pub report: Rc<Report>,
}

/// The levels that the designs are judged by, one line each, with the limits; or what their boxes bring.
pub fn chart(standings: &[Option<Standing>], losses: bool) -> LineChart {
    let line = |k: usize, db| Line {
        name: LETTERS[k],
        short: LETTERS[k],
        db,
        first_band: 0,
        ink: INKS[k],
        width: STROKES[k].0,
        dash: STROKES[k].1,
    };
    let reports = || standings.iter().enumerate().take(LETTERS.len()).filter_map(|(k, own)| Some((k, &own.as_ref()?.report)));
    if losses {
        let lines = reports().map(|(k, report)| line(k, report.insertion_loss_db)).collect();
        return LineChart { lines, floor_db: -20.0, ..LineChart::default() };
    }
    let mut lines: Vec<Line> = Vec::new();
    let mut judged = None;
    // One line for all limits that are the same; the name says whose it is where they are not.
    let limits: Vec<_> = reports().filter_map(|(k, report)| Some((k, &report.decisive()?.judgement))).collect();
    let same = |one: &Judgement, other: &Judgement| one.first_band == other.first_band && one.limit_db == other.limit_db;
    let is_one = limits.iter().all(|(_, own)| same(own, limits[0].1));
    for (at, (k, judgement)) in limits.iter().enumerate() {
        if limits[..at].iter().any(|(_, before)| same(before, judgement)) {
            continue;
        }
        let name = if is_one { "limit" } else { LIMITS[*k] };
        lines.push(Line {
            name,
            short: name,
            first_band: judgement.first_band,
            ink: LineInk::Purple,
            width: 1.75,
            dash: Some((10.0, 4.0)),
            ..line(*k, judgement.limit_db)
        });
    }
    lines.extend(reports().map(|(k, report)| line(k, report.answer().level_db)));
    if let Some(heard) = standings.first().and_then(Option::as_ref).and_then(|own| own.report.decisive()) {
        let limit = lines.first().map_or("", |line| line.name);
        let of_octave_db = by_octaves(heard.criterion).then_some(heard.judgement.margin_by_band_db);
        judged = Some(Judged { level: LETTERS[0], limit, of_octave_db });
    }
    LineChart { lines, floor_db: 0.0, judged, ..LineChart::default() }
}

/// What the lines are, and which of them is another thing.
pub fn caption(standings: &[Option<Standing>], losses: bool) -> String {
    if losses {
        return "By how much each box lowers the level, by one-third octaves.".to_owned();
    }
    let decisive = |own: &&Option<Standing>| own.as_ref().is_some_and(|own| own.report.governing.is_some());
    if !standings.iter().any(|own| decisive(&own)) {
        return "Levels in the room, by one-third octaves.".to_owned();
    }
    let mut text = "Levels at the listener who decides, by one-third octaves.".to_owned();
    for (letter, own) in LETTERS.iter().zip(standings) {
        if own.as_ref().is_some_and(|own| own.report.governing.is_none()) {
            text = format!("{text} {letter}: in the room, nobody listens.");
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use hushwright::evaluate::evaluate;

    use super::*;

    fn standing(design: Design) -> Standing {
        let report = Rc::new(evaluate(&design.check().expect("a sound design")));
        Standing { design: Rc::new(design), report }
    }

    #[test]
    fn limits_that_are_the_same_are_one_line_and_others_say_whose_they_are() {
        let named = |chart: &LineChart| chart.lines.iter().map(|line| line.name).collect::<Vec<_>>();
        let stricter = |limit_dba: f64| {
            let mut design = Design::default();
            design.listeners[0].limit_dba = limit_dba;
            Some(standing(design))
        };
        let first = Design::default().listeners[0].limit_dba;
        let same = [stricter(first), None, stricter(first)];
        assert_eq!(named(&chart(&same, false)), ["limit", "A", "C"]);
        let other = [stricter(first), stricter(first - 5.0), stricter(first), stricter(first - 9.0)];
        assert_eq!(named(&chart(&other, false)), ["limit A", "limit B", "limit D", "A", "B", "C", "D"]);
        assert_eq!(named(&chart(&other, true)), ["A", "B", "C", "D"]);
        let judged = chart(&other, false).judged.expect("somebody listens");
        assert_eq!((judged.level, judged.limit), ("A", "limit A"));
    }

    #[test]
    fn no_two_designs_have_a_colour_or_dashes_in_common() {
        for k in 0..LETTERS.len() {
            assert!((0..k).all(|other| INKS[other] != INKS[k] && STROKES[other].1 != STROKES[k].1));
        }
    }

    #[test]
    fn a_line_that_is_no_listeners_is_told() {
        let silent = Design { listeners: Vec::new(), ..Design::default() };
        let standings = [Some(standing(Design::default())), None, Some(standing(silent.clone()))];
        assert!(caption(&standings, false).ends_with("C: in the room, nobody listens."), "{}", caption(&standings, false));
        let alone = [Some(standing(silent))];
        assert_eq!((chart(&alone, false).judged, caption(&alone, false).contains("in the room")), (None, true));
    }
}
