//! No input makes an answer jump.

use std::cell::Cell;

use hushwright::design::Design;
use hushwright::enclosure::LEAST_GAP_M;
use hushwright::evaluate::{Evaluator, Report, evaluate};
use proptest::prelude::*;
use proptest::test_runner::TestRunner;

use crate::numbers::{number, numbers, with_number};
use hushwright_tests::designs::accepted_design;

/// Largest change in dB of an A-weighted answer that a step of 1 % may make without a closer look.
const STEP_DB: f64 = 0.5;
/// Parts into which a step that makes more is cut.
const PARTS: usize = 8;
/// How far in dB one part may be from its due.
const UNEVEN_DB: f64 = 0.25;
/// Most in dB that 1 % may make at all.
const MOST_DB: f64 = 2.0;

/// What is counted is whole, and a level in dB is no amount: 1 % of it is 1 dB.
fn is_exempt(pointer: &str) -> bool {
    ["/count", "/seals", "/bends", "_dba", "_db"].iter().any(|end| pointer.ends_with(end)) || pointer.contains("_db/")
}

fn answers(report: &Report) -> [f64; 4] {
    let stations = &report.stations;
    let listener = report.listeners.first().map_or(stations.room.dba, |heard| heard.level.dba);
    [stations.outside.dba, stations.room.dba, stations.inside.dba, listener]
}

fn largest_change(before: [f64; 4], after: [f64; 4]) -> f64 {
    (0..4).map(|i| (before[i] - after[i]).abs()).fold(0.0, f64::max)
}

/// What an input decides, where that is the difference of two: the gap between a hole and what is in it, the chamber in front
/// of a baffle.
fn decides(design: &Design, pointer: &str, value: f64) -> f64 {
    let hole = pointer.strip_suffix("/diameter_mm").or(pointer.strip_suffix("/cable_mm"));
    if let Some(holes) = hole.filter(|hole| hole.ends_with("/holes")) {
        let gap_mm = number(design, &format!("{holes}/diameter_mm")) - number(design, &format!("{holes}/cable_mm"));
        return gap_mm.max(2000.0 * LEAST_GAP_M);
    }
    match &design.inner.baffle {
        Some(baffle) if pointer.starts_with("/inner/baffle/") || pointer == "/inner/length_mm" => {
            value.min(design.inner.length_mm - baffle.rear_mm - baffle.thickness_mm)
        }
        _ => value,
    }
}

/// Where a step of 1 % from `value` goes; from nothing a step is 0.0001, since thin wool in an empty gap is no small change.
fn stepped(design: &Design, pointer: &str, value: f64) -> Option<f64> {
    let step = if value == 0.0 { 1e-4 } else { 0.01 * decides(design, pointer, value) };
    [value + step, value - step].into_iter().find(|&value| with_number(design, pointer, value).check().is_ok())
}

/// The answers at eight equal steps from `from` to `to`.
fn walk(design: &Design, pointer: &str, from: f64, to: f64) -> Vec<[f64; 4]> {
    let at = |part: usize| from + (to - from) * part as f64 / PARTS as f64;
    let answer = |value| with_number(design, pointer, value).check().ok().map(|checked| answers(&evaluate(&checked)));
    (0..=PARTS).filter_map(|part| answer(at(part))).collect()
}

/// Change that stays when the steepest half is halved again twelve times: that of a jump.
fn jump_db(design: &Design, pointer: &str, mut from: f64, mut to: f64) -> (f64, f64) {
    let answer = |value| with_number(design, pointer, value).check().ok().map(|checked| answers(&evaluate(&checked)));
    let (Some(mut low), Some(mut high)) = (answer(from), answer(to)) else { return (0.0, from) };
    for _ in 0..12 {
        let middle = 0.5 * (from + to);
        let Some(half) = answer(middle) else { break };
        if largest_change(low, half) > largest_change(half, high) {
            (to, high) = (middle, half);
        } else {
            (from, low) = (middle, half);
        }
    }
    (largest_change(low, high), from)
}

/// What the walk over all designs met.
#[derive(Clone, Copy, Default)]
struct Met {
    steps: usize,
    steep: usize,
    largest_db: f64,
}

/// Steps every number of `design` by 1 %.
fn check(design: &Design, met: &mut Met) -> Result<(), TestCaseError> {
    let mut evaluator = Evaluator::default();
    let before = answers(&evaluator.evaluate(&design.check().expect("it was accepted")));
    for pointer in numbers(design) {
        let value = number(design, &pointer);
        if is_exempt(&pointer) {
            continue;
        }
        let Some(to) = stepped(design, &pointer, value) else { continue };
        let changed = with_number(design, &pointer, to).check().expect("it was accepted");
        let change = largest_change(before, answers(&evaluator.clone().evaluate(&changed)));
        met.steps += 1;
        met.largest_db = met.largest_db.max(change);
        if change < STEP_DB {
            continue;
        }
        met.steep += 1;
        let path = walk(design, &pointer, value, to);
        let parts: Vec<f64> = path.windows(2).map(|pair| largest_change(pair[0], pair[1])).collect();
        let uneven = parts.iter().map(|part| part - change / PARTS as f64).fold(0.0, f64::max);
        if uneven >= UNEVEN_DB || change >= MOST_DB {
            let (jump, place) = jump_db(design, &pointer, value, to);
            let story =
                format!("{pointer} from {value} to {to}: {change:.2} dB, by parts {parts:.2?}, of it {jump:.3} at {place}");
            return Err(TestCaseError::fail(story));
        }
    }
    Ok(())
}

/// A step of 1 % in any number moves no A-weighted answer by more than 0.5 dB; where a narrow resonance makes it more, the
/// answer slopes and does not jump.
#[test]
fn answers_are_continuous_in_every_input() {
    let met = Cell::new(Met::default());
    let result = TestRunner::new(crate::fixed(80)).run(&accepted_design(), |design| {
        let mut sum = met.get();
        let result = check(&design.document, &mut sum);
        met.set(sum);
        result
    });
    let Met { steps, steep, largest_db } = met.get();
    println!("{steep} of {steps} steps of 1 % move an answer by more than {STEP_DB} dB, the largest by {largest_db:.2} dB");
    result.unwrap_or_else(|error| panic!("{error}"));
    assert!(100 * steep < steps, "{steep} of {steps}");
}
