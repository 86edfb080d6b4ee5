//! How long a design takes to become a link and to come out of one, check included: the page does the first at every step.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use hushwright::design::{examples, link};

fn there_and_back(criterion: &mut Criterion) {
    // The second example differs from the base in most of its parts.
    let Some(design) = examples().into_iter().nth(1) else { return };
    let text = link::encode(&design);
    criterion.bench_function("link, written", |bencher| bencher.iter(|| link::encode(black_box(&design))));
    criterion.bench_function("link, opened", |bencher| bencher.iter(|| link::decode(black_box(&text))));
    criterion.bench_function("design, checked", |bencher| bencher.iter(|| black_box(&design).check().is_ok()));
}

criterion_group!(benches, there_and_back);
criterion_main!(benches);
