//! How long the whole estimate of the first example takes: from nothing, and after changes that leave much as it was.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use hushwright::design::{CheckedDesign, Design, run_in_box};
use hushwright::evaluate::{Evaluator, evaluate};
use hushwright::improve::{Change, Step};

fn changed(change: impl Fn(&mut Design)) -> CheckedDesign {
    let mut design = run_in_box();
    change(&mut design);
    design.check().expect("still sound")
}

/// From checked document to report with nothing known.
fn from_nothing(criterion: &mut Criterion) {
    let design = changed(|_| {});
    criterion.bench_function("estimate", |bencher| bencher.iter(|| evaluate(black_box(&design))));
}

/// Two estimates, there and back, as a slider gives them: what changes is computed again, the rest is known.
fn after_a_change(criterion: &mut Criterion) {
    let design = changed(|_| {});
    let mut with = |name: &str, change: &dyn Fn(&mut Design)| {
        let other = changed(change);
        let mut evaluator = Evaluator::default();
        evaluator.evaluate(&design);
        criterion.bench_function(&format!("estimate, {name} and back"), |bencher| {
            bencher.iter(|| {
                evaluator.evaluate(black_box(&other));
                evaluator.evaluate(black_box(&design))
            });
        });
    };
    with("distance", &|design| design.room.distance_m += 1.0);
    with("level", &|design| design.source.level_dba += 1.0);
    with("seals", &|design| design.inner.lid.seals += 1.0);
    with("corners", &|design| design.inner.edge_fixity += 0.1);
    with("gap", &|design| design.gap.depth_mm += 5.0);
    with("length", &|design| design.inner.length_mm += 10.0);
}

/// What the worker works out first: every change that makes sense.
fn every_change(criterion: &mut Criterion) {
    let design = run_in_box();
    let report = evaluate(&changed(|_| {}));
    let changes = Change::all(&design);
    let mut evaluator = Evaluator::default();
    criterion.bench_function("changes", |bencher| {
        bencher
            .iter(|| changes.iter().filter_map(|&change| Step::of(change, black_box(&design), &report, &mut evaluator)).count());
    });
}

criterion_group!(benches, from_nothing, after_a_change, every_change);
criterion_main!(benches);
