//! What several designs do, row by row beside each other.

use hushwright::design::Design;
use hushwright::evaluate::Report;

use super::Gist;
use crate::explanations::Told;
use crate::need_readings::{limit_words, listener_name, margin_words, verdict, verdict_words};
use crate::paths::way_out;
use crate::quantity::{Units, decimal, level_dba, whole};
use crate::schedule::{Cell, Row};
use crate::step_words::signed;

/// A design with what it does and what building it comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Known {
    /// The design.
    pub design: Design,
    /// What it does.
    pub report: Report,
    /// What its plan comes to; none where its boards cannot be cut from any sheet.
    pub gist: Option<Gist>,
}

/// A text, and the number in it that is compared, if there is one.
type Said = (String, Option<f64>);

/// Where there is nothing to say.
const DASH: &str = "\u{2013}";

/// The results of the designs, of which the first is the one that the others are compared with, and what explains them; `None` is one
/// that cannot be opened.
pub fn outcomes(known: &[Option<Known>], units: Units) -> Vec<(Row, Option<Told>)> {
    let mut rows = Vec::new();
    let mut row = |label: &str, told: Option<Told>, unit: &str, of: &dyn Fn(&Known) -> Said| {
        let all: Vec<Option<Said>> = known.iter().map(|own| own.as_ref().map(of)).collect();
        let first = all.first().cloned().flatten();
        let cell = |said: Option<Said>| {
            let Some((text, number)) = said else { return Cell::default() };
            let change = first.as_ref().filter(|(first, _)| *first != text).map(|(_, first)| {
                number.zip(*first).map_or_else(String::new, |(number, first)| signed(number - first, 0) + unit)
            });
            Cell { text, change }
        };
        rows.push((Row { label: label.to_owned(), cells: all.into_iter().map(cell).collect() }, told));
    };
    let words = |words: Option<String>| (words.unwrap_or_else(|| DASH.to_owned()), None);
    let dba = |level: f64| (format!("{} dBA", level_dba(level)), Some(level.round().max(0.0)));
    if known.iter().flatten().any(|own| own.report.governing.is_some()) {
        row("Level at the listener", Some(Told::Level), " dB", &|own| match own.report.decisive() {
            Some(heard) => dba(heard.level.dba),
            None => ("nobody listens".to_owned(), None),
        });
        row("Against the limit", Some(Told::Verdict), "", &|own| {
            let heard = own.report.decisive();
            words(heard.map(|heard| format!("{}: {}", verdict_words(verdict(heard)), margin_words(heard))))
        });
        row("Who decides", None, "", &|own| {
            let listener = own.report.governing.and_then(|k| own.design.listeners.get(k));
            let both = own.report.decisive().zip(listener);
            words(both.map(|(heard, listener)| format!("{}, {}", listener_name(listener), limit_words(heard, listener))))
        });
    }
    row("Level in the room", Some(Told::Room), " dB", &|own| dba(own.report.stations.room.dba));
    row("Insertion loss", Some(Told::InsertionLoss), " dB", &|own| {
        let loss = own.report.insertion_loss_dba.round();
        (format!("{} dB", whole(loss)), Some(loss))
    });
    row("Most gets out by", Some(Told::LimitingPath), "", &|own| words(Some(way_out(&own.report))));
    row("Mass", Some(Told::Mass), &format!(" {}", units.mass_unit()), &|own| {
        let kg = own.report.bill.mass_kg;
        (units.mass(kg), Some(units.of_mass(kg).round()))
    });
    let currency = known.first().and_then(Option::as_ref).and_then(|own| own.gist.as_ref()).map(|gist| gist.currency.clone());
    row("To buy", Some(Told::Cost), "", &|own| {
        let Some(gist) = &own.gist else { return words(None) };
        // Sums in other money cannot be taken from each other.
        (gist.cost_words(), (currency.as_ref() == Some(&gist.currency)).then(|| gist.cost.round()))
    });
    row("Hours of work", Some(Told::HoursOfWork), " h", &|own| {
        let Some(gist) = &own.gist else { return words(None) };
        (format!("{} h", decimal(gist.hours, 0)), Some(gist.hours.round()))
    });
    row(&format!("Outside, {}", units.length_unit()), Some(Told::OutsideSize), "", &|own| {
        words(Some(units.size(own.report.outside_m)))
    });
    row("Through the door", None, "", &|own| {
        words(own.gist.as_ref().map(|gist| {
            match (gist.passes, gist.shells_pass) {
                (true, _) => "whole",
                (false, true) => "box by box",
                (false, false) => "does not pass",
            }
            .to_owned()
        }))
    });
    rows
}

#[cfg(test)]
mod tests {
    use hushwright::design::examples;
    use hushwright::evaluate::evaluate;

    use super::*;

    fn known(design: Design) -> Known {
        let report = evaluate(&design.check().expect("a sound design"));
        Known { design, report, gist: None }
    }

    /// Digits and sign at the beginning of a text.
    fn number(text: &str) -> f64 {
        let digits: String = text.replace('\u{2212}', "-").chars().take_while(|c| *c != ' ').collect();
        digits.parse().unwrap_or_else(|_| panic!("no number in {text:?}"))
    }

    #[test]
    fn a_difference_is_that_of_the_numbers_that_are_shown() {
        let examples: Vec<_> = examples().into_iter().map(|design| Some(known(design))).collect();
        for step in 0..40 {
            let db = 0.37 * f64::from(step);
            let mut other = examples[0].clone().expect("an example");
            other.report.listeners[0].level.dba -= db;
            other.report.stations.room.dba -= db;
            other.report.insertion_loss_dba += db;
            other.report.bill.mass_kg += db;
            let all: Vec<_> = examples.iter().cloned().chain([Some(other)]).collect();
            for units in [Units::Metric, Units::Imperial] {
                let numbers = ["Level at the listener", "Level in the room", "Insertion loss", "Mass"];
                let rows = outcomes(&all, units);
                let rows: Vec<_> = rows.iter().map(|(row, _)| row).filter(|row| numbers.contains(&&*row.label)).collect();
                assert_eq!(rows.len(), numbers.len());
                for row in rows {
                    for cell in row.cells.iter().filter(|cell| cell.text.starts_with(|c: char| c.is_ascii_digit())) {
                        let shown = number(&cell.text) - number(&row.cells[0].text);
                        assert_eq!(cell.change.as_deref().map_or(0.0, number), shown, "{row:?}");
                    }
                }
            }
        }
    }

    #[test]
    fn one_that_cannot_be_opened_and_one_that_nobody_hears_leave_the_rest_as_it_is() {
        let silent = Design { listeners: Vec::new(), ..Design::default() };
        let rows = outcomes(&[Some(known(Design::default())), None, Some(known(silent.clone()))], Units::Metric);
        assert!(
            rows.iter().all(|(row, _)| row.cells.len() == 3 && row.cells[1] == Cell::default() && row.cells[0].change.is_none())
        );
        let level = &rows.iter().find(|(row, _)| row.label == "Level at the listener").expect("somebody listens").0;
        assert_eq!(level.cells[2], Cell { text: "nobody listens".to_owned(), change: Some(String::new()) });
        let alone = outcomes(&[Some(known(silent))], Units::Metric);
        assert!(alone.iter().all(|(row, _)| row.label != "Level at the listener"));
    }

    #[test]
    fn sums_in_other_money_are_not_taken_from_each_other() {
        let gist = |currency: &str, cost: f64| Gist {
            cost,
            is_incomplete: false,
            currency: currency.to_owned(),
            hours: 9.0,
            passes: true,
            shells_pass: true,
            needed_mm: [1.0; 3],
        };
        let of = |currency, cost| Some(Known { gist: Some(gist(currency, cost)), ..known(Design::default()) });
        let rows = outcomes(&[of("EUR", 100.4), of("EUR", 142.4), of("CHF", 142.4)], Units::Metric);
        let changes = rows.into_iter().find(|(row, _)| row.label == "To buy").expect("it costs something").0.cells;
        let changes: Vec<_> = changes.into_iter().map(|cell| cell.change).collect();
        assert_eq!(changes, [None, Some("+42".to_owned()), Some(String::new())]);
    }
}
