//! The first enclosure: energy balance, levels and what a second shell brings.

use std::f64::consts::PI;

use hushwright::air::Air;
use hushwright::bands::{BAND_COUNT, Spectrum, band_position_hz, exact_mid_hz};
use hushwright::buildup::raw::Layer;
use hushwright::design::{Design, Shell, run_in_box};
use hushwright::enclosure::{
    BARE_ABSORPTION, Balance, EnergySpectra, Lining, OpeningAreas, SourceChamber, diffuse_absorption, lining_absorption,
    outside_distance_m,
};
use hushwright::evaluate::evaluate;
use hushwright::geometry::{grown, representative_face_m, surface_area_m2, volume_m3};
use hushwright::need::{Room, room_level_db};
use hushwright::transmission::StackSpectra;
use hushwright::transmission::porous::miki;

const NOTHING: Spectrum = Spectrum::constant(0.0);
const NO_OPENINGS: OpeningAreas = OpeningAreas { leaks: NOTHING, holes: NOTHING };

/// One shell of 1.55 m2 that lets `transmission` through, openings as given.
fn one_shell(transmission: f64, lining: Option<Spectrum>, openings: &OpeningAreas, vents_m2: f64) -> EnergySpectra {
    let transmission = Spectrum::constant(transmission);
    Balance {
        front: SourceChamber { walls_m2: 1.55, bare_m2: 0.0, lid_share: 1.0, holes_share: 1.0 },
        rear: None,
        lining: lining.as_ref(),
        stack: &StackSpectra { transmission, gap_gain: NOTHING, leaves: [transmission; 2] },
        inner_transmission: &transmission,
        openings,
        vents_m2: &Spectrum::constant(vents_m2),
        outer: None,
    }
    .spectra()
}

/// R less IL of a large enclosure is 10 lg(1/alpha) (energy balance, for instance Ver & Beranek 2006, ch. 12).
#[test]
fn insertion_loss_follows_the_energy_balance() {
    for alpha in [0.1, 0.2, 0.5, 0.8] {
        let lining = Spectrum::constant((alpha - BARE_ABSORPTION) / (1.0 - BARE_ABSORPTION));
        let spectra = one_shell(1e-4, Some(lining), &NO_OPENINGS, 0.0);
        let want = 40.0 + 10.0 * f64::log10(alpha);
        for band in 0..BAND_COUNT {
            let loss = -10.0 * spectra.walls[band].log10();
            assert!((loss - want).abs() < 0.02, "alpha {alpha}: {loss}");
        }
    }
}

/// 1 % of the area with tau = 1 holds R at 20 dB however good the rest (composite wall, for instance Crocker & Arenas 2021,
/// Engineering Acoustics, ch. 12): leaks, holes and vents alike, in a chamber that absorbs all.
#[test]
fn a_hundredth_of_open_area_holds_the_insertion_loss_at_20_db() {
    let all = Some(Spectrum::constant(1.0));
    let open = Spectrum::constant(0.01 * 1.55);
    let spectra = [
        one_shell(1e-9, all, &OpeningAreas { leaks: open, ..NO_OPENINGS }, 0.0),
        one_shell(1e-9, all, &OpeningAreas { holes: open, ..NO_OPENINGS }, 0.0),
        one_shell(1e-9, all, &NO_OPENINGS, open[0]),
    ];
    for EnergySpectra { walls, leaks, holes, vents, .. } in spectra {
        let loss = -10.0 * (walls[9] + leaks[9] + holes[9] + vents[9]).log10();
        assert!((loss - 20.0).abs() < 0.05, "{loss}");
    }
}

/// Mid-band stands for the band: five points across it give the same mean.
#[test]
fn absorption_at_mid_band_is_that_of_the_band() {
    let air = Air::default();
    for thickness_m in [0.02, 0.05, 0.1] {
        let lining = Lining { thickness_m, flow_resistivity: 20_000.0 };
        let ours = lining_absorption(&lining, &air);
        for band in 0..BAND_COUNT {
            let at = |offset: f64| {
                let hz = band_position_hz(band as f64 + offset);
                diffuse_absorption(miki(lining.flow_resistivity, hz, &air), thickness_m, 0.0, hz, &air)
            };
            let mean = [-0.4, -0.2, 0.0, 0.2, 0.4].map(at).iter().sum::<f64>() / 5.0;
            assert!((ours[band] - mean).abs() < 0.005, "{thickness_m} m, band {band}: {} against {mean}", ours[band]);
        }
    }
}

/// Walls that let everything through bring no more than what bare boards absorb, and nothing makes energy.
#[test]
fn a_box_of_nothing_brings_nothing() {
    let spectra = one_shell(1.0, None, &NO_OPENINGS, 0.0);
    let loss = -10.0 * spectra.walls[0].log10();
    assert!((0.0..0.25).contains(&loss), "{loss}");
    let open = Spectrum::constant(100.0);
    let spectra = one_shell(1.0, None, &OpeningAreas { leaks: open, holes: open }, 100.0);
    let all = spectra.walls[0] + spectra.leaks[0] + spectra.holes[0] + spectra.vents[0];
    assert!(all <= 1.0 && all > 0.99, "{all}");
}

/// Level and power: Lw = Lp + 8 dB at 1 m over a floor (10 lg 2 pi), and in a room Lp = Lw + 10 lg(Q/(4 pi r^2) + 4/A);
/// far away in a hard room only the absorption counts.
#[test]
fn room_levels() {
    let power = Spectrum::constant(100.0);
    let dead = Room { absorption_area_m2: 1e9, distance_m: 1.0 };
    assert!((room_level_db(&power, &dead)[0] - (100.0 - 10.0 * (2.0 * PI).log10())).abs() < 1e-6);
    let hard = Room { absorption_area_m2: 10.0, distance_m: 1e4 };
    assert!((room_level_db(&power, &hard)[0] - (100.0 + 10.0 * 0.4_f64.log10())).abs() < 1e-6);
}

/// Level difference less insertion loss: what builds up inside, and the half sphere outside; nothing else.
#[test]
fn level_difference_and_insertion_loss_differ_by_build_up_and_distance() {
    let report = evaluate(&run_in_box().check().unwrap());
    let distance_m = outside_distance_m(report.outside_m);
    for band in 0..BAND_COUNT {
        let difference = report.level_difference_db[band] - report.insertion_loss_db[band];
        let build_up = report.stations.inside.level_db[band] - report.stations.source.level_db[band];
        let spreading = 10.0 * (distance_m * distance_m).log10();
        assert!((difference - build_up - spreading).abs() < 1e-9, "band {band}");
    }
    assert!(report.level_difference_dba > report.insertion_loss_dba);
    let brought = report.room_without_box_dba - report.stations.room.dba;
    assert!((brought - report.insertion_loss_dba).abs() < 1e-9, "in the room too the box brings its insertion loss");
}

/// Above the mass-air-mass resonance a second shell brings more than its mass put into the first one would.
#[test]
fn a_second_shell_brings_more_than_its_mass() {
    let double = run_in_box();
    let mut single = double.clone();
    single.inner.layers.extend(single.outer.take().into_iter().flat_map(|shell: Shell| shell.layers));
    let [double, single] = [double, single].map(|design: Design| evaluate(&design.check().unwrap()));
    for band in (0..BAND_COUNT).filter(|&band| (300.0..3000.0).contains(&exact_mid_hz(band))) {
        assert!(double.sound_reduction_db[band] > single.sound_reduction_db[band] + 6.0, "band {band}");
    }
    assert!(single.stations.gap.is_none() && double.stations.gap.is_some());
}

/// A box by hand: 500 mm cube inside, 18 mm plywood of 680 kg/m3 all round.
#[test]
fn mass_and_size_by_hand() {
    let mut design = run_in_box();
    design.inner.length_mm = 500.0;
    design.inner.lining = None;
    design.inner.baffle = None;
    design.inner.layers = vec![Layer::sheet("birch-plywood", 18.0)];
    design.outer = None;
    let report = evaluate(&design.check().unwrap());
    let want = 680.0 * (0.536_f64.powi(3) - 0.5_f64.powi(3));
    assert!((report.bill.mass_kg - want).abs() < 1e-9, "{} against {want}", report.bill.mass_kg);
    assert!(report.outside_m.iter().all(|side| (side - 0.536).abs() < 1e-12));
}

#[test]
fn geometry_identities() {
    let size_m = [0.9, 0.5, 0.4];
    let shell = volume_m3(grown(size_m, 1e-7)) - volume_m3(size_m);
    assert!((shell / 1e-7 / surface_area_m2(size_m) - 1.0).abs() < 1e-5, "a thin shell has the area of the faces");
    let [a, b] = representative_face_m(size_m);
    assert!((6.0 * a * b - surface_area_m2(size_m)).abs() < 1e-12);
    let [a, b] = representative_face_m([0.5, 0.5, 0.5]);
    assert!((a - 0.5).abs() < 1e-12 && (b - 0.5).abs() < 1e-12, "a cube is its own face");
}
