#[test]
fn print() {
    use hushwright::{air::Air, bands::*, design::*, enclosure::*, geometry::grown, workshop::bill};
    let air = Air::default();
    let d = run_in_box().check().unwrap();
    let b = bill(&d);
    let inner_kg = b.inner_mass_kg + d.contents_kg;
    println!("inner {inner_kg} whole {}", b.mass_kg + d.contents_kg);
    let (gap, shell) = d.outer.as_ref().unwrap();
    let inner_out = grown(d.inside_m, d.inner.laminate.thickness_m());
    let t = std::time::Instant::now();
    let outer = PanelResponse::of_box(&shell.laminate, grown(inner_out, gap.depth_m), shell.edge_fixity, &air);
    println!("outer panel {:?}", t.elapsed());
    let t = std::time::Instant::now();
    let inner = PanelResponse::of_box(&d.inner.laminate, d.inside_m, d.inner.edge_fixity, &air);
    println!("inner panel {:?}", t.elapsed());
    let none = Spectrum::constant(0.0);
    let rigid = Support { spring: None, ..d.suspension };
    println!("{:?} {:?}", d.suspension.loaded(inner_kg), d.feet.loaded(b.mass_kg + d.contents_kg));
    let source = d.spectrum.levels_db(d.level_dba);
    for (s, feet) in [(&d.suspension, &d.feet), (&rigid, &d.feet), (&rigid, &rigid)] {
        let p = Suspended {
            driver: d.driver.as_ref(),
            suspension: s,
            inner_kg,
            outer_kg: b.mass_kg - b.inner_mass_kg,
            wall_velocity: &none,
            inner: &inner,
            outer: &outer,
        };
        let t = std::time::Instant::now();
        let r = suspension_path(&p, &air);
        println!("path {:?}", t.elapsed());
        println!("IL {:.0?}", r.transmission.to_db().map(|x| -x).0);
        for f in [Floor::Ground, Floor::Slab, Floor::Joists] {
            let t = std::time::Instant::now();
            let fl = f.response(&air);
            let l = floor_borne(&r.shaken, feet, &fl, &source).unwrap();
            println!("{f:?} {:.1} dBA {:.0?} {:?}", l.weighted_sum(Weighting::A), l.0, t.elapsed());
        }
    }
    println!(
        "Yo {:?}\nYi {:?}\nshare {:.2?}",
        outer.mobility.map(|y| 10.0 * y.log10()).iter().map(|x| x.round()).collect::<Vec<_>>(),
        inner.mobility.map(|y| 10.0 * y.log10()).iter().map(|x| x.round()).collect::<Vec<_>>(),
        outer.radiated_share.0
    );
    for f in [Floor::Ground, Floor::Slab, Floor::Joists] {
        let r = f.response(&air);
        println!(
            "{f:?} Y {:?} share {:.3?}",
            r.panel.mobility.map(|y| 10.0 * y.log10()).iter().map(|x| x.round()).collect::<Vec<_>>(),
            r.panel.radiated_share.0
        );
    }
}
