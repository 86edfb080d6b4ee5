//! How long the plan of a large box takes: boards, cut list, layout of its sheets, shopping list, order of work.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use hushwright::design::{Design, LidPart};
use hushwright::enclosure::{LidForm, SealKind};
use hushwright::workshop::plan;
use hushwright_tests::heavy_box::heavy_box;

fn plans(criterion: &mut Criterion) {
    let lid = LidPart { form: LidForm::Stepped, seals: 2.0, seal: SealKind::Compressed, ..LidPart::default() };
    let large = heavy_box(0.5, &lid, "damping-compound").check().expect("a sound design");
    criterion.bench_function("plan of three heavy layers round a hung box", |bencher| bencher.iter(|| plan(black_box(&large))));
    let first = Design::default().check().expect("the first example is sound");
    criterion.bench_function("plan of the first example", |bencher| bencher.iter(|| plan(black_box(&first))));
}

criterion_group!(benches, plans);
criterion_main!(benches);
