//! Facts of the trade (common practice, no source): what boxes of boards are known to bring, by a meter held inside and then
//! 1 m outside, and what they weigh.

use hushwright::buildup::raw::Layer;
use hushwright::design::{Design, LidPart, SupportPart};
use hushwright::enclosure::{LidFace, LidForm, SealKind};
use hushwright::evaluate::{Report, evaluate};
use hushwright::need::SourceSpectrum;
use hushwright_tests::heavy_box::{guitar_driver, heavy_box};

/// One shell of plywood of the same inside on pads.
fn single_box(thickness_mm: f64, fixity: f64, lid: &LidPart) -> Design {
    let mut design = heavy_box(fixity, lid, "loose");
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

const CORNERS: [f64; 5] = [0.2, 0.35, 0.5, 0.7, 0.9];

/// Three heavy sheets with compound round a hung plywood box: about 65 dB by a meter held inside and then outside (common
/// practice, no source). Ours lies within 56 to 77 dBA over plausible corners and lids, and exceeds the insertion loss by 12
/// within 4. The meter's lids and corners are not known; ours are better than most.
#[test]
fn three_heavy_sheets_round_a_hung_box() {
    let (mut lowest, mut highest) = (f64::INFINITY, f64::NEG_INFINITY);
    for lid in lids() {
        for fixity in CORNERS {
            let report = report(&heavy_box(fixity, &lid, "loose"));
            let (difference, loss) = (report.level_difference_dba, report.insertion_loss_dba);
            assert!((56.0..=77.0).contains(&difference), "{difference} dBA at {fixity} with {lid:?}");
            assert!((8.0..=16.0).contains(&(difference - loss)), "{difference} less {loss}");
            lowest = lowest.min(difference);
            highest = highest.max(difference);
        }
    }
    println!("{lowest:.1} to {highest:.1} dBA");
    assert!(highest - lowest > 8.0, "corners and lids decide much: {lowest} to {highest}");
}

/// With compound in both joints and lids that hardly leak ours is up to 1 dB above that range: no box is built so tightly.
#[test]
fn compound_in_both_joints() {
    for lid in lids() {
        for fixity in CORNERS {
            let difference = report(&heavy_box(fixity, &lid, "damping-compound")).level_difference_dba;
            assert!((65.0..78.0).contains(&difference), "{difference} dBA at {fixity} with {lid:?}");
        }
    }
}

/// The source decides too. Overdriven guitar, which has little below 150 Hz, in tight lids and firm corners is up to 3 dB above
/// the range that noise gives; electric bass with hinged corners takes 10 dB off.
#[test]
fn bass_and_soft_corners_take_ten_decibels() {
    let lid = LidPart { face: LidFace::Front, form: LidForm::Plain, seals: 3.0, seal: SealKind::Compressed };
    let difference = |spectrum: SourceSpectrum, fixity: f64| {
        let mut design = heavy_box(fixity, &lid, "damping-compound");
        design.source.spectrum = spectrum;
        report(&design).level_difference_dba
    };
    let (soft, firm) = (difference(SourceSpectrum::ElectricBass, 0.0), difference(SourceSpectrum::OverdrivenGuitar, 0.9));
    assert!((63.0..69.0).contains(&soft) && (77.0..81.0).contains(&firm), "{soft} and {firm}");
}

/// A single plywood box: 30 to 37 dB by a meter (common practice, no source), insertion loss 10 to 14 less. Ours of 12 mm lies
/// within, one of 18 mm with good lids up to 0.8 dB above.
#[test]
fn a_single_plywood_box() {
    for (thickness_mm, highest) in [(12.0, 37.0), (15.0, 37.5), (18.0, 38.0)] {
        for lid in lids() {
            for fixity in CORNERS {
                let report = report(&single_box(thickness_mm, fixity, &lid));
                let (difference, loss) = (report.level_difference_dba, report.insertion_loss_dba);
                assert!((30.0..=highest).contains(&difference), "{thickness_mm} mm: {difference} dBA at {fixity} with {lid:?}");
                assert!((10.0..=14.0).contains(&(difference - loss)), "{difference} less {loss}");
            }
        }
    }
}

/// 175 to 230 kg with fittings at about 1.17 x 0.75 x 0.75 m (common practice, no source).
#[test]
fn the_heavy_box_weighs_what_such_boxes_weigh() {
    let report = report(&heavy_box(0.5, &lids()[0], "loose"));
    let mass_kg = report.bill.mass_kg + guitar_driver().mass_kg;
    assert!((175.0..=230.0).contains(&mass_kg), "{mass_kg} kg");
    for (side_m, want_m) in report.outside_m.into_iter().zip([1.17, 0.75, 0.75]) {
        assert!((side_m - want_m).abs() < 0.01, "{side_m} m");
    }
    let hung = report.suspension.expect("it hangs on straps");
    assert!((6.0..10.0).contains(&hung.natural_hz) && !hung.overloaded, "{hung:?}");
}
