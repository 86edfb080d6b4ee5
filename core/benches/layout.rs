//! How long a sheet layout takes: the parts of a large box on common sheets, and the most pieces that are allowed.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use hushwright::workshop::layout::{MAX_PIECES, Part, Stock, lay_out};

/// `kinds` different parts, each `count` times, sizes spread evenly by the golden ratio between 80 and 1000 mm.
fn parts(kinds: usize, count: usize) -> Vec<Part> {
    let spread = |place: usize, shift: f64| 80.0 + 920.0 * (place as f64 * 0.618_034 + shift).fract();
    let part = |place| Part {
        length_mm: spread(place, 0.0).round(),
        width_mm: spread(place * place, 0.3).round(),
        count,
        may_turn: place % 3 > 0,
    };
    (0..kinds).map(part).collect()
}

fn layout(criterion: &mut Criterion) {
    let stock = Stock { length_mm: 2440.0, width_mm: 1220.0, trim_mm: 5.0, kerf_mm: 3.2 };
    let several = parts(40, 2);
    criterion.bench_function("layout of 80 pieces", |bencher| {
        bencher.iter(|| lay_out(black_box(&several), black_box(&stock)));
    });
    let many = parts(MAX_PIECES / 4, 4);
    criterion.bench_function("layout of 1000 pieces", |bencher| {
        bencher.iter(|| lay_out(black_box(&many), black_box(&stock)));
    });
}

criterion_group!(benches, layout);
criterion_main!(benches);
