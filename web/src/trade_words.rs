//! The search for the best trade-offs in words.

use std::fmt::Write;

use hushwright::search::{COARSE_ERROR_DB, Progress};

use crate::quantity::{Units, decimal, level_dba, whole};
use crate::work::{Found, Point};

/// A number with a space between thousands.
fn grouped(count: u64) -> String {
    let digits = count.to_string();
    let mut text = String::new();
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            text.push('\u{202f}');
        }
        text.push(digit);
    }
    text
}

/// How far a search is.
pub fn progress_words(progress: &Progress) -> String {
    let Progress { combinations, evaluated, pruned, candidates, checked, beaten, .. } = progress;
    let mut words = if *candidates > 0 {
        format!("Step 2 of 2: {} of {} candidates estimated in full", grouped(checked + beaten), grouped(*candidates))
    } else {
        format!("Step 1 of 2: {} of {} boxes compared", grouped(evaluated + pruned.all()), grouped(*combinations))
    };
    let reasons = [
        (pruned.mass, "too heavy"),
        (pruned.cost, "too dear"),
        (pruned.door, "too large for the door"),
        (pruned.loads, "too much for their supports"),
        (pruned.refused, "do not go together"),
    ];
    let left_out: Vec<String> =
        reasons.iter().filter(|(count, _)| *count > 0).map(|(count, why)| format!("{} {why}", grouped(*count))).collect();
    if !left_out.is_empty() {
        let _ = write!(words, "; left out: {}", left_out.join(", "));
    }
    words.push('.');
    words
}

/// What a search has found, and how far it can be relied on; `stopped` by the user before its end.
pub fn found_words(found: &Found, stopped: bool) -> String {
    let Found { is_finished, is_exact, largest_deviation_db, of_all, points } = found;
    if points.is_empty() {
        return match (is_finished, stopped) {
            (true, _) => "No box keeps these limits. Allow more mass, cost or width, or thinner sheets.".to_owned(),
            (false, true) => "Stopped before anything was found.".to_owned(),
            (false, false) => String::new(),
        };
    }
    let shown = format!("{} of {of_all} boxes that nothing else beats stand for all", points.len());
    match (is_finished, is_exact) {
        (true, true) => format!(
            "{shown}: everything in the space was compared, by a coarser model that was within {} dB of the full one wherever both were worked out.",
            decimal(largest_deviation_db.max(0.05), 2)
        ),
        (true, false) => format!(
            "{shown}. Take it as a good guess: the coarser model that ranks was off by {} dB where {} were counted on, or not every candidate could be estimated.",
            decimal(*largest_deviation_db, 2),
            decimal(COARSE_ERROR_DB, 2)
        ),
        (false, _) if stopped => format!("{shown}, as far as the search came before it was stopped."),
        (false, _) => format!("{shown} so far."),
    }
}

/// A point in one line.
pub fn point_words(point: &Point, units: Units) -> String {
    let margin = point.margin_db.map_or_else(String::new, |margin_db| {
        let side = if margin_db < 0.0 { "over" } else { "under" };
        format!(", {} dB {side} the limit", whole(margin_db.abs()))
    });
    format!("{} dBA{margin}, {}, cost {}", level_dba(point.level_dba), units.mass(point.mass_kg), decimal(point.cost, 0))
}

#[cfg(test)]
mod tests {
    use hushwright::search::Pruned;

    use super::*;

    #[test]
    fn words() {
        assert_eq!(grouped(7), "7");
        assert_eq!(grouped(1_234_567), "1\u{202f}234\u{202f}567");
        let pruned = Pruned { mass: 1200, refused: 3, ..Pruned::default() };
        let progress = Progress { combinations: 5000, evaluated: 797, pruned, ..Progress::default() };
        let words = progress_words(&progress);
        assert_eq!(
            words,
            "Step 1 of 2: 2\u{202f}000 of 5\u{202f}000 boxes compared; left out: 1\u{202f}200 too heavy, 3 do not go together."
        );
        let second = Progress { candidates: 40, checked: 10, beaten: 5, pruned: Pruned::default(), ..progress };
        assert_eq!(progress_words(&second), "Step 2 of 2: 15 of 40 candidates estimated in full.");
        let point = Point {
            level_dba: 31.4,
            margin_db: Some(-1.4),
            mass_kg: 96.2,
            cost: 180.4,
            outside_m: [0.9, 0.7, 0.6],
            fragment: String::new(),
        };
        assert_eq!(point_words(&point, Units::Metric), "31 dBA, 1 dB over the limit, 96 kg, cost 180");
        let found = |is_finished, is_exact, points: Vec<Point>| Found {
            is_finished,
            is_exact,
            largest_deviation_db: 0.1,
            of_all: 9,
            points,
        };
        assert!(found_words(&found(true, true, vec![point.clone()]), false).starts_with("1 of 9 boxes"));
        assert!(found_words(&found(true, false, vec![point.clone()]), false).contains("good guess"));
        assert!(found_words(&found(false, false, vec![point]), true).contains("stopped"));
        assert!(found_words(&found(true, true, Vec::new()), false).starts_with("No box"));
        assert_eq!(found_words(&found(false, false, Vec::new()), false), "");
    }
}
