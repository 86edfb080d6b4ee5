//! Ranges: against what is known from outside, and of designs drawn over all inputs.

use hushwright::design::{CheckedDesign, Design, examples, run_in_box};
use hushwright::evaluate::{Evaluator, evaluate};
use hushwright::uncertainty::{Ranges, Sampling};
use hushwright_tests::designs::accepted_design;
use proptest::prelude::*;
use proptest::test_runner::{RngSeed, TestRunner};

fn ranges(design: &CheckedDesign, count: usize) -> Ranges {
    let mut sampling = Sampling::new(design, count);
    while sampling.step() {}
    sampling.finish().expect("all samples are there")
}

fn with_seed(cases: u32) -> TestRunner {
    TestRunner::new(ProptestConfig { cases, rng_seed: RngSeed::Fixed(5), failure_persistence: None, ..ProptestConfig::default() })
}

/// A sample is computed less finely than what is shown: by less than a tenth of what a range is wide.
#[test]
fn samples_are_fine_enough() {
    let differences = std::cell::RefCell::new(Vec::new());
    with_seed(100)
        .run(&accepted_design(), |accepted| {
            let full = evaluate(&accepted.checked);
            let sample = Evaluator::for_samples().evaluate(&accepted.checked);
            let difference = sample.stations.room.dba - full.stations.room.dba;
            differences.borrow_mut().push(difference);
            prop_assert!(difference.abs() < 1.5, "{difference}");
            Ok(())
        })
        .unwrap_or_else(|error| panic!("{error}"));
    let differences = differences.into_inner();
    let rms = (differences.iter().map(|difference| difference * difference).sum::<f64>() / differences.len() as f64).sqrt();
    println!("rms {rms} dB of {}", differences.len());
    assert!(rms < 0.3, "{rms}");
}

/// Whatever the design, its range is finite and in order, and chances are chances.
#[test]
fn ranges_of_any_design_are_in_order() {
    with_seed(24)
        .run(&accepted_design(), |accepted| {
            let ranges = ranges(&accepted.checked, 16);
            for range in ranges.listeners.iter().map(|listener| listener.level.dba).chain([ranges.room.dba]) {
                prop_assert!(range.low.is_finite() && range.low <= range.middle && range.middle <= range.high);
                prop_assert!(range.high.is_finite());
            }
            prop_assert!(ranges.listeners.iter().all(|listener| (0.0..=1.0).contains(&listener.chance_met)));
            prop_assert_eq!(Ranges::from_numbers(&ranges.to_numbers()), Some(ranges));
            Ok(())
        })
        .unwrap_or_else(|error| panic!("{error}"));
}

/// A measured partition is known better than a computed one.
#[test]
fn what_is_measured_narrows_the_range() {
    let computed = Design { ..examples().swap_remove(2) };
    let checked = computed.check().expect("an example");
    let wide = ranges(&checked, 256);
    let reduction = evaluate(&checked).listeners[0].reduction_db.expect("a wall lies between");
    let mut measured = computed;
    measured.listeners[0].partition = None;
    let thirds = hushwright::bands::NOMINAL_HZ.iter().copied().zip(reduction.iter().map(|db| (10.0 * db).round() / 10.0));
    measured.listeners[0].reduction_db = thirds.collect();
    let narrow = ranges(&measured.check().expect("sound"), 256);
    let width = |ranges: &Ranges| ranges.listeners[0].level.dba.high - ranges.listeners[0].level.dba.low;
    assert!(width(&narrow) < width(&wide) - 0.5, "{} against {}", width(&narrow), width(&wide));
}

/// Changes a design by so many steps.
type Walk = fn(&mut Design, f64);

/// A small step of an input moves the ends of the range little: the samples are the same, and what they go through has no jumps.
#[test]
fn small_steps_move_the_range_little() {
    let ends = |change: &dyn Fn(&mut Design)| {
        let mut design = run_in_box();
        change(&mut design);
        let mut sampling = Sampling::new(&design.check().expect("still sound"), 128);
        while sampling.step() {}
        let level = sampling.finish().expect("all samples").listeners[0].level;
        [level.dba.low, level.dba.middle, level.dba.high]
    };
    let gap: Walk = |design, step| design.gap.depth_mm += 0.5 * step;
    let length: Walk = |design, step| design.inner.length_mm += 4.0 * step;
    let corners: Walk = |design, step| design.inner.edge_fixity += 0.01 * step;
    let sheet: Walk = |design, step| design.inner.layers[0].thickness_mm = Some(15.0 + 0.1 * step);
    for (name, walk) in [("gap", gap), ("length", length), ("corners", corners), ("sheet", sheet)] {
        let all: Vec<[f64; 3]> = (0..9).map(|step| ends(&|design| walk(design, f64::from(step)))).collect();
        let largest = all.windows(2).flat_map(|pair| (0..3).map(|k| (pair[1][k] - pair[0][k]).abs())).fold(0.0, f64::max);
        println!("{name}: {largest:.2} dB a step");
        assert!(largest < 0.8, "{name}: {largest} dB in one step");
    }
}
