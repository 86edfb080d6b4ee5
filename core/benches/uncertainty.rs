//! How long a range takes: as many samples as the page shows.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use hushwright::design::examples;
use hushwright::uncertainty::{SAMPLES, Sampling};

fn ranges(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group(format!("range of {SAMPLES} samples"));
    group.sample_size(10);
    for design in examples() {
        let checked = design.check().expect("an example");
        group.bench_function(&design.name, |bencher| {
            bencher.iter(|| {
                let mut sampling = Sampling::new(black_box(&checked), SAMPLES);
                while sampling.step() {}
                sampling.finish()
            });
        });
    }
}

criterion_group!(benches, ranges);
criterion_main!(benches);
