use crate::numbers::with_number;
use hushwright::design::Design;
use hushwright::evaluate::evaluate;
#[test]
fn explain() {
    let Ok(file) = std::env::var("DESIGN") else { return };
    let pointer = std::env::var("POINTER").unwrap();
    let [a, b] = ["A", "B"].map(|k| std::env::var(k).unwrap().parse::<f64>().unwrap());
    let d = Design::from_json(&std::fs::read_to_string(file).unwrap()).unwrap();
    let [x, y] = [a, b].map(|v| evaluate(&with_number(&d, &pointer, v).check().unwrap()));
    println!(
        "join {} {} panels {:?} {:?} chamber {}",
        x.network_below_hz, y.network_below_hz, x.panels_hz, y.panels_hz, x.first_chamber_mode_hz
    );
    for (n, p, q) in [
        ("outside", x.stations.outside, y.stations.outside),
        ("room", x.stations.room, y.stations.room),
        ("inside", x.stations.inside, y.stations.inside),
    ] {
        println!("{n} {} {}", p.dba, q.dba);
    }
    for band in 0..27 {
        let mut line = format!(
            "{band:2} {:7.0} out {:8.3} {:+8.4} in {:8.3} {:+8.4} R {:+.4}",
            hushwright::bands::exact_mid_hz(band),
            x.stations.outside.level_db[band],
            y.stations.outside.level_db[band] - x.stations.outside.level_db[band],
            x.stations.inside.level_db[band],
            y.stations.inside.level_db[band] - x.stations.inside.level_db[band],
            y.sound_reduction_db[band] - x.sound_reduction_db[band]
        );
        for (p, q) in x.paths.iter().zip(&y.paths) {
            line += &format!(
                " {} {:.2} {:+.4}",
                p.key.key(),
                p.insertion_loss_db[band],
                q.insertion_loss_db[band] - p.insertion_loss_db[band]
            );
        }
        println!("{line}");
    }
}
#[test]
fn dump() {
    let Ok(file) = std::env::var("DUMP") else { return };
    use proptest::strategy::{Strategy, ValueTree};
    let mut runner = proptest::test_runner::TestRunner::new(crate::fixed(1));
    let strategy = crate::designs::accepted_design();
    let mut out = String::new();
    let mut time = std::time::Duration::ZERO;
    for _ in 0..400 {
        let d = strategy.new_tree(&mut runner).unwrap().current();
        let start = std::time::Instant::now();
        let r = evaluate(&d.checked);
        time += start.elapsed();
        let s = &r.stations;
        out += &format!("{} {} {}", s.outside.dba, s.inside.dba, r.network_below_hz);
        for band in 0..27 {
            out += &format!(" {}", s.outside.level_db[band]);
        }
        out += "\n";
    }
    println!("{time:?}");
    std::fs::write(file, out).unwrap();
}
#[test]
fn speed() {
    for d in hushwright::design::examples() {
        let c = d.check().unwrap();
        let mut ev = hushwright::evaluate::Evaluator::default();
        ev.evaluate(&c);
        let best = (0..40)
            .map(|_| {
                let s = std::time::Instant::now();
                std::hint::black_box(evaluate(&c));
                s.elapsed()
            })
            .min();
        let best2 = (0..40)
            .map(|i| {
                let mut d = d.clone();
                d.inner.edge_fixity = 0.5 + 0.001 * f64::from(i);
                let c = d.check().unwrap();
                let s = std::time::Instant::now();
                std::hint::black_box(ev.evaluate(&c));
                s.elapsed()
            })
            .min();
        println!("{} cold {best:?} fixity {best2:?}", d.name);
    }
}
