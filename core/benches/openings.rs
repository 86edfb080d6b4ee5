//! How long the openings of one shell take, all bands: the edge of a lid, holes, vents.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use hushwright::air::Air;
use hushwright::enclosure::{
    CLEARANCE_M, Holes, Lid, LidFace, LidForm, Lining, SealKind, Vents, holes_transmission_area, lid_transmission_area,
    lining_absorption, vents_transmission_area,
};

fn openings(criterion: &mut Criterion) {
    let air = Air::default();
    let lid = Lid {
        face: LidFace::Front,
        form: LidForm::Stepped,
        seals: 2,
        seal: SealKind::FoamTape,
        clearance_m: CLEARANCE_M,
        gap_factor: 1.0,
    };
    criterion.bench_function("lid", |bencher| {
        bencher.iter(|| lid_transmission_area(black_box(&lid), 2.0, 0.018, &air));
    });
    let holes = Holes { count: 2, diameter_m: 0.012, cable_m: 0.008, sealed: false, gap_factor: 1.0 };
    criterion.bench_function("holes", |bencher| {
        bencher.iter(|| holes_transmission_area(black_box(&holes), 0.018, &air));
    });
    let lining = Lining { thickness_m: 0.03, flow_resistivity: 15_000.0 };
    let absorption = lining_absorption(&lining, &air);
    let vents = Vents { count: 2, section_m: [0.06, 0.1], length_m: 0.6, bends: 2, lining: Some(lining) };
    criterion.bench_function("vents", |bencher| {
        bencher.iter(|| vents_transmission_area(black_box(&vents), Some(&absorption), &air));
    });
}

criterion_group!(benches, openings);
criterion_main!(benches);
