//! Facts of the trade (common practice, no source): what boxes of boards are known to bring, by a meter held inside and then
//! 1 m outside, and what they weigh.

use hushwright::buildup::raw::{Layer, Side};
use hushwright::design::{Design, DriverPart, Fill, GapPart, HolesPart, LidPart, LiningPart, Shell, SourcePart, SupportPart};
use hushwright::enclosure::{LidFace, LidForm, SealKind, SupportKind};
use hushwright::evaluate::{Report, evaluate};
use hushwright::need::SourceSpectrum;

/// A 12-inch driver under overdriven guitar.
fn guitar() -> SourcePart {
    SourcePart {
        spectrum: SourceSpectrum::OverdrivenGuitar,
        level_dba: 112.0,
        mass_kg: 12.0,
        heat_w: 30.0,
        driver: Some(DriverPart { moving_mass_g: 45.0, cone_area_cm2: 530.0 }),
    }
}

/// Straps that hold the inner box at about 8 Hz: each gives 6.5 mm under 12 kg.
fn straps() -> SupportPart {
    SupportPart {
        kind: SupportKind::Straps,
        count: 4.0,
        test_mass_kg: 12.0,
        test_sag_mm: 6.0,
        height_mm: 50.0,
        breaking_load_kg: 200.0,
        ..SupportPart::springs()
    }
}

/// Plywood 16 mm, 0.90 x 0.48 x 0.48 m inside, lined with 50 mm, hung in plywood, gypsum board and plywood with compound, gap 65
/// mm half filled.
fn heavy_box(fixity: f64, lid: &LidPart) -> Design {
    let mut design = Design { source: guitar(), vents: None, suspension: straps(), ..Design::default() };
    let inner = &mut design.inner;
    (inner.length_mm, inner.width_mm, inner.height_mm) = (900.0, 480.0, 480.0);
    inner.lining = Some(LiningPart { thickness_mm: 50.0, ..LiningPart::default() });
    inner.layers = vec![Layer::sheet("birch-plywood", 16.0)];
    inner.edge_fixity = fixity;
    inner.braces = None;
    inner.baffle = None;
    inner.lid = lid.clone();
    inner.holes = HolesPart { count: 2.0, diameter_mm: 12.0, cable_mm: 8.0, sealed: true };
    design.gap = GapPart { depth_mm: 65.0, fill: Some(Fill { share: 0.5, side: Side::Second, ..Fill::default() }) };
    design.outer = Some(Shell {
        layers: vec![
            Layer::sheet("birch-plywood", 18.0),
            Layer::bond("damping-compound"),
            Layer::sheet("gypsum-board", 16.0),
            Layer::bond("damping-compound"),
            Layer::sheet("birch-plywood", 18.0),
        ],
        edge_fixity: fixity,
        braces: None,
        lid: lid.clone(),
        holes: HolesPart { count: 2.0, diameter_mm: 12.0, cable_mm: 8.0, sealed: true },
    });
    design
}

/// One shell of plywood of the same inside on pads.
fn single_box(thickness_mm: f64, fixity: f64, lid: &LidPart) -> Design {
    let mut design = heavy_box(fixity, lid);
    design.inner.layers = vec![Layer::sheet("birch-plywood", thickness_mm)];
    design.outer = None;
    design.feet = SupportPart::pads();
    design
}

fn lids() -> Vec<LidPart> {
    let mut lids = Vec::new();
    for seal in [SealKind::Bare, SealKind::FoamTape, SealKind::ClosedCell, SealKind::Compressed] {
        for seals in [1.0, 2.0, 3.0] {
            for form in [LidForm::Plain, LidForm::Stepped] {
                lids.push(LidPart { face: LidFace::Front, form, seals, seal });
            }
        }
    }
    lids
}

fn report(design: &Design) -> Report {
    evaluate(&design.check().expect("a box as it is built"))
}

#[test]
fn explore() {
    for lid in lids() {
        for fixity in [0.2, 0.35, 0.5, 0.7, 0.9] {
            let r = report(&heavy_box(fixity, &lid));
            print!(
                " {:.1}/{:.1}/{:.1}@{}{}",
                r.level_difference_dba,
                r.insertion_loss_dba,
                r.level_difference_dba - r.insertion_loss_dba,
                r.limiting.path.key(),
                hushwright::bands::exact_mid_hz(r.limiting.band).round()
            );
        }
        println!(" {:?} {} {:?}", lid.seal, lid.seals, lid.form);
    }
    for t in [12.0, 15.0, 18.0] {
        for lid in lids() {
            print!("{t} ");
            for fixity in [0.2, 0.5, 0.9] {
                let r = report(&single_box(t, fixity, &lid));
                print!(
                    " {:.1}/{:.1}/{:.1}@{}{}",
                    r.level_difference_dba,
                    r.insertion_loss_dba,
                    r.level_difference_dba - r.insertion_loss_dba,
                    r.limiting.path.key(),
                    hushwright::bands::exact_mid_hz(r.limiting.band).round()
                );
            }
            println!(" {:?} {} {:?}", lid.seal, lid.seals, lid.form);
        }
    }
    let r = report(&heavy_box(0.5, &lids()[0]));
    println!("{:?} {} kg inner {} {:?}", r.outside_m, r.bill.mass_kg, r.bill.inner_mass_kg, r.suspension);
}
#[test]
fn bands() {
    let lid = LidPart { face: LidFace::Front, form: LidForm::Plain, seals: 3.0, seal: SealKind::Compressed };
    for f in [0.0, 0.5, 1.0] {
        for sp in SourceSpectrum::ALL {
            let mut d = heavy_box(f, &lid);
            d.source.spectrum = sp;
            let r = report(&d);
            print!("{sp:?} {:.1}/{:.1} ", r.level_difference_dba, r.insertion_loss_dba);
        }
        let r = report(&heavy_box(f, &lid));
        println!("\n{f} join {} mode {} panels {:?}", r.network_below_hz, r.first_chamber_mode_hz, r.panels_hz);
        for b in 0..20 {
            print!(
                " {:.0}:{:.0}/{:.0}({:.0})",
                hushwright::bands::exact_mid_hz(b),
                r.level_difference_db[b],
                r.insertion_loss_db[b],
                r.sound_reduction_db[b]
            );
        }
        println!();
    }
}
#[test]
fn open_holes() {
    for (sealed, cable) in [(true, 8.0), (false, 12.0), (false, 10.0), (false, 8.0)] {
        let mut all = Vec::new();
        for lid in lids() {
            for f in [0.2, 0.5, 0.9] {
                let mut d = heavy_box(f, &lid);
                d.inner.holes.sealed = sealed;
                d.inner.holes.cable_mm = cable;
                let o = d.outer.as_mut().unwrap();
                o.holes.sealed = sealed;
                o.holes.cable_mm = cable;
                let r = report(&d);
                all.push((r.level_difference_dba, r.limiting.path.key()));
            }
        }
        all.sort_by(|a, b| a.0.total_cmp(&b.0));
        println!("{sealed} {cable}: {:?} {:?} {:?}", all[0], all[all.len() / 2], all[all.len() - 1]);
    }
}
