//! What several designs do, row by row beside each other, and as lines of one chart.

use std::rc::Rc;

use hushwright::design::Design;
use hushwright::evaluate::Report;
use hushwright::need::Judgement;

use super::answer::cost;
use super::differences::{Cell, Row};
use super::levels::by_octaves;
use crate::charts::lines::{Judged, Line, LineChart};
use crate::charts::palette::LineInk;
use crate::documents::Gist;
use crate::explanations::{Told, of_result};
use crate::need_readings::{limit_words, listener_name, margin_words, verdict, verdict_words};
use crate::paths::way_out;
use crate::quantity::{Units, decimal, level_dba, whole};
use crate::step_words::signed;

/// How the designs are told apart.
pub const LETTERS: [&str; 4] = ["A", "B", "C", "D"];
const LIMITS: [&str; 4] = ["limit A", "limit B", "limit C", "limit D"];

/// Colour, width and dashes of each design's line.
pub const LINES: [(LineInk, f64, Option<(f64, f64)>); 4] = [
    (LineInk::Black, 2.75, None),
    (LineInk::Vermilion, 2.25, Some((8.0, 4.0))),
    (LineInk::Green, 2.25, Some((2.5, 2.5))),
    (LineInk::Blue, 2.25, Some((16.0, 4.0))),
];

/// A design with what it does.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// The design.
    pub design: Rc<Design>,
    /// What it does.
    pub report: Rc<Report>,
}

/// What a row is made of: a text, and the number in it that is compared, if there is one.
type Said = (String, Option<f64>);

/// The results of the designs, of which the first is the one that the others are compared with; `None` is one that cannot be opened.
/// `gists` has what the workshop says of each, as far as it has answered.
pub fn outcomes(standings: &[Option<Standing>], gists: &[Option<Gist>], units: Units) -> Vec<Row> {
    let heard_by_somebody = standings.iter().flatten().any(|standing| standing.report.governing.is_some());
    let mut rows = Vec::new();
    let mut row = |label: String, told: Option<Told>, unit: &str, of: &dyn Fn(&Standing, Option<&Gist>) -> Said| {
        let all: Vec<Option<Said>> = standings
            .iter()
            .enumerate()
            .map(|(k, standing)| standing.as_ref().map(|standing| of(standing, gists.get(k).and_then(Option::as_ref))))
            .collect();
        let first = all.first().cloned().flatten();
        let cell = |told: Option<Said>| {
            let Some((text, number)) = told else { return Cell::default() };
            let change = first.as_ref().filter(|(first, _)| *first != text).map(|(_, first)| {
                number.zip(*first).map_or_else(String::new, |(number, first)| signed(number - first, 0) + unit)
            });
            Cell { text, change }
        };
        rows.push(Row { label, topic: told.map(of_result), cells: all.into_iter().map(cell).collect() });
    };
    let dba = |level: f64| (format!("{} dBA", level_dba(level)), Some(level.round().max(0.0)));
    if heard_by_somebody {
        row("Level at the listener".to_owned(), Some(Told::Level), " dB", &|standing, _| match standing.report.decisive() {
            Some(heard) => dba(heard.level.dba),
            None => ("nobody listens".to_owned(), None),
        });
        row("Against the limit".to_owned(), Some(Told::Verdict), "", &|standing, _| match standing.report.decisive() {
            Some(heard) => (format!("{}: {}", verdict_words(verdict(heard)), margin_words(heard)), None),
            None => (DASH.to_owned(), None),
        });
        row("Who decides".to_owned(), None, "", &|standing, _| {
            let listener = standing.report.governing.and_then(|k| standing.design.listeners.get(k));
            let words = standing.report.decisive().zip(listener);
            let words = words.map(|(heard, listener)| format!("{}, {}", listener_name(listener), limit_words(heard, listener)));
            (words.unwrap_or_else(|| DASH.to_owned()), None)
        });
    }
    row("Level in the room".to_owned(), Some(Told::Room), " dB", &|standing, _| dba(standing.report.stations.room.dba));
    row("Insertion loss".to_owned(), Some(Told::InsertionLoss), " dB", &|standing, _| {
        let loss = standing.report.insertion_loss_dba.round();
        (format!("{} dB", whole(loss)), Some(loss))
    });
    row("Most gets out by".to_owned(), Some(Told::LimitingPath), "", &|standing, _| (way_out(&standing.report), None));
    row("Mass".to_owned(), Some(Told::Mass), &format!(" {}", units.mass_unit()), &|standing, _| {
        let kg = standing.report.bill.mass_kg;
        (units.mass(kg), Some(units.of_mass(kg).round()))
    });
    let planned = |gist: Option<&Gist>, of: &dyn Fn(&Gist) -> Said| gist.map_or_else(|| ("…".to_owned(), None), of);
    let one_money = |gist: &Gist| gists.first().and_then(Option::as_ref).is_some_and(|first| first.currency == gist.currency);
    row("To buy".to_owned(), Some(Told::Cost), "", &|_, gist| {
        planned(gist, &|gist| (cost(gist), one_money(gist).then(|| gist.cost.round())))
    });
    row("Hours of work".to_owned(), Some(Told::HoursOfWork), " h", &|_, gist| {
        planned(gist, &|gist| (format!("{} h", decimal(gist.hours, 0)), Some(gist.hours.round())))
    });
    row(format!("Outside, {}", units.length_unit()), Some(Told::OutsideSize), "", &|standing, _| {
        (units.size(standing.report.outside_m), None)
    });
    row("Through the door".to_owned(), None, "", &|_, gist| {
        planned(gist, &|gist| {
            let words = match (gist.passes, gist.shells_pass) {
                (true, _) => "whole",
                (false, true) => "box by box",
                (false, false) => "does not pass",
            };
            (words.to_owned(), None)
        })
    });
    rows
}

/// Where there is nothing to say.
const DASH: &str = "\u{2013}";

/// The levels that the designs are judged by, one line each, with the limits; or what their boxes bring.
pub fn chart(standings: &[Option<Standing>], losses: bool) -> LineChart {
    let line = |k: usize, db| Line {
        name: LETTERS[k],
        short: LETTERS[k],
        db,
        first_band: 0,
        ink: LINES[k].0,
        width: LINES[k].1,
        dash: LINES[k].2,
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
