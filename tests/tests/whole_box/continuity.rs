//! No input makes an answer jump.

use hushwright::design::Design;
use hushwright::evaluate::{Evaluator, Report, evaluate};
use proptest::prelude::*;

use crate::designs::accepted_design;
use crate::numbers::{number, numbers, with_number};

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
    ["/count", "/seals", "/bends", "/level_dba"].iter().any(|end| pointer.ends_with(end))
}

fn answers(report: &Report) -> [f64; 3] {
    let stations = &report.stations;
    [stations.outside.dba, stations.room.dba, stations.inside.dba]
}

fn largest_change(before: [f64; 3], after: [f64; 3]) -> f64 {
    (0..3).map(|i| (before[i] - after[i]).abs()).fold(0.0, f64::max)
}

/// Where a step of 1 % from `value` goes. What a hole and the cable in it set is the gap between them, so theirs is 1 % of
/// that; from nothing a step is 0.0001, since thin
/// wool in an empty gap is no small change.
fn stepped(design: &Design, pointer: &str, value: f64) -> Option<f64> {
    let holes = pointer.strip_suffix("/diameter_mm").or(pointer.strip_suffix("/cable_mm"));
    let gap_mm = holes.map(|at| number(design, &format!("{at}/diameter_mm")) - number(design, &format!("{at}/cable_mm")));
    let step = match gap_mm {
        Some(gap_mm) => 0.01 * gap_mm.max(0.1),
        None if value == 0.0 => 1e-4,
        None => 0.01 * value,
    };
    let steps = [value + step, value - step];
    steps.into_iter().find(|&value| with_number(design, pointer, value).check().is_ok())
}

/// The answers at eight equal steps from `from` to `to`.
fn walk(design: &Design, pointer: &str, from: f64, to: f64) -> Vec<[f64; 3]> {
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

/// Counts of what the walk over all designs met.
#[derive(Default)]
struct Met {
    steps: usize,
    steep: usize,
}

/// Steps every number of `design` by 1 %.
fn check(design: &Design, met: &mut Met) -> Result<(), TestCaseError> {
    let mut evaluator = Evaluator::default();
    let before = answers(&evaluator.evaluate(&design.check().expect("it was checked")));
    for pointer in numbers(design) {
        let value = number(design, &pointer);
        if is_exempt(&pointer) {
            continue;
        }
        let Some(to) = stepped(design, &pointer, value) else { continue };
        let changed = with_number(design, &pointer, to).check().expect("it was checked");
        let change = largest_change(before, answers(&evaluator.clone().evaluate(&changed)));
        met.steps += 1;
        if std::env::var("EXPLORE").is_ok() && change > 0.2 && change < STEP_DB {
            let (jump, place) = jump_db(design, &pointer, value, to);
            if jump > 0.1 {
                println!(
                    "BAD {pointer} {value} {to} change {change} jump {jump} at {place}\n   {}",
                    serde_json::to_string(design).unwrap()
                );
            }
        }
        if change < STEP_DB {
            continue;
        }
        met.steep += 1;
        let path = walk(design, &pointer, value, to);
        let parts: Vec<f64> = path.windows(2).map(|pair| largest_change(pair[0], pair[1])).collect();
        let uneven = parts.iter().map(|part| part - change / PARTS as f64).fold(0.0, f64::max);
        let (jump, place) =
            if uneven < UNEVEN_DB && change < MOST_DB { (0.0, 0.0) } else { jump_db(design, &pointer, value, to) };
        let story = format!("{pointer} from {value} to {to}: {change:.2} dB, by parts {parts:.2?}, jump {jump:.3} at {place}");
        println!("{story}");
        if std::env::var("EXPLORE").is_ok() {
            if jump > 0.05 || change > MOST_DB {
                println!("BAD {story}\n   {}", serde_json::to_string(design).unwrap());
            }
            continue;
        }
        prop_assert!(
            uneven < UNEVEN_DB && change < MOST_DB,
            "{story}\n{}",
            serde_json::to_string(design).expect("a design is JSON")
        );
    }
    Ok(())
}

/// A step of 1 % in any number moves no A-weighted answer by more than 0.5 dB; where a narrow resonance makes it more, the
/// answer slopes and does not jump.
#[test]
fn answers_are_continuous_in_every_input() {
    let mut met = Met::default();
    let cases = std::env::var("CASES").ok().and_then(|cases| cases.parse().ok()).unwrap_or(20);
    let mut runner = proptest::test_runner::TestRunner::new(crate::fixed(cases));
    let met_cell = std::cell::RefCell::new(&mut met);
    let result = runner.run(&accepted_design(), |design| check(&design.document, &mut met_cell.borrow_mut()));
    println!("{} of {} steps of 1 % move an answer by more than {STEP_DB} dB", met.steep, met.steps);
    result.unwrap_or_else(|error| panic!("{error}"));
}
