//! How many designs a second the search evaluates: a space in which every design is evaluated, by the coarse model, tables included.
//!
//! Designs that are pruned cost next to nothing and are not in it.

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use hushwright::design::examples;
use hushwright::search::{Limits, Search, Space};

/// The coarse part of a search in the default space with four sheets at hand and at most two outside.
fn evaluated(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("search");
    group.sample_size(10);
    for base in examples() {
        let mut space = Space::of(&base);
        space.stock.truncate(4);
        space.outer_sheets = [1, 2];
        let search = Search::new(&base, &space, Limits::default()).expect("sound wishes");
        group.throughput(Throughput::Elements(search.progress().combinations));
        group.bench_function(&base.name, |bencher| {
            bencher.iter(|| {
                let mut search = Search::new(&base, &space, Limits::default()).expect("sound wishes");
                // Candidates are known as soon as the coarse model is through.
                while search.progress().candidates == 0 && search.step(1) {}
                assert_eq!(search.progress().evaluated, search.progress().combinations, "none is pruned");
                search.progress().candidates
            });
        });
    }
    group.finish();
}

criterion_group!(benches, evaluated);
criterion_main!(benches);
