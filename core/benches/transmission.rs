//! How long the model takes: one laminate, one wall, one whole enclosure.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use hushwright::air::Air;
use hushwright::buildup::check::{Problems, check_stack};
use hushwright::buildup::raw::Layer;
use hushwright::buildup::{EdgeLoss, Element, GapLoss, Laminate, Stack};
use hushwright::design::run_in_box;
use hushwright::evaluate::{Evaluator, evaluate};
use hushwright::transmission::bending::bending_stiffness;
use hushwright::transmission::{Mount, sound_reduction_db};

fn three_sheets() -> Stack {
    let layers = [
        Layer::sheet("birch-plywood", 12.0),
        Layer::bond("damping-compound"),
        Layer::sheet("gypsum-board", 12.5),
        Layer::bond("damping-compound"),
        Layer::sheet("particle-board", 18.0),
    ];
    let mut problems = Problems::default();
    check_stack(&mut problems, "layers", &layers, GapLoss::Lossless).expect("a sound build-up")
}

/// Stiffness of three sheets with two compound joints at one wavenumber and frequency.
fn laminate(criterion: &mut Criterion) {
    let stack = three_sheets();
    let Some(Element::Panel(laminate)): Option<&Element> = stack.elements.first() else { unreachable!("one leaf") };
    let laminate: &Laminate = laminate;
    criterion.bench_function("laminate", |bencher| {
        bencher.iter(|| bending_stiffness(black_box(laminate), black_box(8.0), black_box(500.0)));
    });
}

/// R of three sheets in 27 bands.
fn wall(criterion: &mut Criterion) {
    let stack = three_sheets();
    let mount = Mount { size_m: [1.5, 1.25], edge_loss: EdgeLoss::Laboratory };
    criterion.bench_function("wall", |bencher| {
        bencher.iter(|| sound_reduction_db(black_box(&stack), &mount, &Air::default()));
    });
}

/// The first example from checked document to report: from nothing, and after a change that leaves the walls as they are.
fn enclosure(criterion: &mut Criterion) {
    let design = run_in_box().check().expect("the example is sound");
    criterion.bench_function("enclosure", |bencher| bencher.iter(|| evaluate(black_box(&design))));
    let mut moved = run_in_box();
    moved.room.distance_m += 1.0;
    let moved = moved.check().expect("still sound");
    let mut evaluator = Evaluator::default();
    evaluator.evaluate(&design);
    criterion.bench_function("enclosure, walls reused", |bencher| {
        bencher.iter(|| {
            evaluator.evaluate(black_box(&moved));
            evaluator.evaluate(black_box(&design))
        });
    });
}

criterion_group!(benches, laminate, wall, enclosure);
criterion_main!(benches);
