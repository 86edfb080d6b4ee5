//! How long the model takes: one laminate, one wall, one whole enclosure.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use hushwright::air::Air;
use hushwright::buildup::check::{Problems, check_stack};
use hushwright::buildup::raw::Layer;
use hushwright::buildup::{EdgeLoss, Element, GapLoss, Laminate, Stack};
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

criterion_group!(benches, laminate, wall);
criterion_main!(benches);
