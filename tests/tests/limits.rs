//! The whole box against limits that can be worked out by hand.

use std::f64::consts::PI;

use hushwright::air::Air;
use hushwright::bands::{BAND_COUNT, band_position, exact_mid_hz};
use hushwright::buildup::raw::Layer;
use hushwright::buildup::{EdgeLoss, Laminate, Sheet};
use hushwright::design::{BafflePart, Design, HolesPart, VentsPart, run_in_box};
use hushwright::enclosure::network::{Branch, Chamber, Faces, Network, OpeningAdmittances, OpeningsAt, OuterShell, Passage};
use hushwright::enclosure::panel::{Panel, PanelShape};
use hushwright::enclosure::{BARE_ABSORPTION, Join, SealKind, SupportKind};
use hushwright::evaluate::{PathKey, Report, evaluate};
use num_complex::Complex64;

/// Up to which band panels are tabulated here.
const LAST_BAND: usize = 14;

/// A stiff thick board, so that its resonances lie far above the lowest band.
fn board() -> Laminate {
    let joints = EdgeLoss::BOX_JOINTS.loss_factor(100.0, 1.0);
    let sheet = Sheet {
        thickness_m: 0.018,
        density: 680.0,
        youngs_modulus: 8e9,
        poisson: 0.3,
        loss_factor: 0.03 - joints,
        shear_modulus: 1e16,
    };
    Laminate { sheets: vec![sheet], bonds: vec![] }
}

fn faces(sides_m: &[([f64; 2], f64)]) -> Faces {
    let panel = |&(size_m, times): &([f64; 2], f64)| {
        let shape = PanelShape { size_m, fixity: [0.5; 2] };
        (Panel::new(&board(), &shape, None).tabulated(&board(), LAST_BAND), times)
    };
    Faces(sides_m.iter().map(panel).collect())
}

fn branch(volume_m3: f64, faces: Faces) -> Branch {
    Branch { chamber: Chamber { volume_m3, porous_m3: 0.0, flow_resistivity: 1.0 }, faces, lid_share: 1.0, holes_share: 1.0 }
}

/// One chamber of 0.3 x 0.25 x 0.2 m whose outside is so large that the air there does not load it.
fn network() -> Network {
    Network {
        front: branch(0.3 * 0.25 * 0.2, faces(&[([0.3, 0.25], 2.0), ([0.25, 0.2], 2.0), ([0.3, 0.2], 2.0)])),
        rear: None,
        outer: None,
        rigid_body: None,
        free_surface_m2: 1e9,
        lid_edge_m: 1.0,
        air: Air::default(),
    }
}

/// Far below all resonances everything is a spring: with compliances C1 and C2 of the air, W1 and W2 of the walls,
/// Q/Qout = (C2 + W2)/W2 + C1/W2 (1 + (C2 + W2)/W1).
#[test]
fn two_shells_at_the_lowest_frequencies_are_four_springs() {
    let air = Air::default();
    let (size_m, gap_m3) = ([0.38_f64, 0.33, 0.28], 0.015);
    let outer = faces(&[([size_m[0], size_m[1]], 2.0), ([size_m[1], size_m[2]], 2.0), ([size_m[0], size_m[2]], 2.0)]);
    let network = Network {
        outer: Some(OuterShell { gap: Chamber { volume_m3: gap_m3, porous_m3: 0.0, flow_resistivity: 1.0 }, faces: outer }),
        ..network()
    };
    let hz = 22.5;
    let compliance = |faces: &Faces| {
        let admittance: Complex64 = faces.0.iter().map(|(panel, times)| panel.response(hz).admittance * *times).sum();
        admittance / Complex64::new(0.0, 2.0 * PI * hz)
    };
    let stiffness = air.density * air.speed * air.speed;
    let (c1, c2) = (0.3 * 0.25 * 0.2 / stiffness, gap_m3 / stiffness);
    let (w1, w2) = (compliance(&network.front.faces), compliance(&network.outer.as_ref().expect("two shells").faces));
    let want = (w2 + c2) / w2 + (w2 + c2 + w1) / w1 * c1 / w2;
    let got = 1.0 / network.volume_velocity(hz, &OpeningsAt::default());
    assert!((got / want - 1.0).l1_norm() < 1e-6, "{got} against {want}");
    assert!(10.0 * got.norm_sqr().log10() > 60.0, "two stiff small boxes: {got}");
}

/// A box halved by a baffle is two boxes that do not know of each other: twice the power of either.
#[test]
fn a_chamber_behind_the_driver_gives_the_same_again() {
    let half = || branch(0.02, faces(&[([0.3, 0.25], 2.0), ([0.25, 0.2], 1.0), ([0.3, 0.2], 2.0)]));
    let one = Network { front: half(), ..network() };
    let two = Network { front: half(), rear: Some(half()), ..network() };
    for hz in [25.0, 80.0, 200.0, 400.0] {
        let leak = Passage { through: Complex64::new(1e-8, -1e-8), ..Passage::default() };
        let openings = OpeningsAt { inner: OpeningAdmittances { leaks: leak, ..Default::default() }, ..Default::default() };
        let (one, two) = (one.at(hz, &openings), two.at(hz, &openings));
        for path in 0..4 {
            assert!((two[path] - 2.0 * one[path]).abs() <= 1e-6 * one[path], "{hz} Hz, {path}: {} and {}", one[path], two[path]);
        }
    }
}

/// A heavy stiff box without anything else that sounds get out by.
fn steel_box(length_mm: f64, width_mm: f64, height_mm: f64) -> Design {
    let mut design = Design { outer: None, vents: None, ..run_in_box() };
    design.source.driver = None;
    let inner = &mut design.inner;
    (inner.length_mm, inner.width_mm, inner.height_mm) = (length_mm, width_mm, height_mm);
    inner.layers = vec![Layer::sheet("steel", 30.0)];
    (inner.lining, inner.baffle, inner.braces) = (None, None, None);
    (inner.lid.seal, inner.lid.seals) = (SealKind::Compressed, 4.0);
    inner.holes = HolesPart { count: 0.0, ..HolesPart::default() };
    design.feet.kind = SupportKind::Rigid;
    design
}

fn report(design: &Design) -> Report {
    evaluate(&design.check().expect("within the limits"))
}

/// A short vent and the air of a stiff box are a Helmholtz resonator, c/(2 pi) sqrt(A/(V l')), with the end corrections of a
/// flanged tube, 0.82 radii at either end: there the box is loudest inside and amplifies.
#[test]
fn a_vented_box_is_a_helmholtz_resonator() {
    let air = Air::default();
    for (sides_mm, width_mm, length_mm) in
        [([500.0, 400.0, 400.0], 60.0, 100.0), ([700.0, 500.0, 450.0], 100.0, 200.0), ([600.0, 400.0, 300.0], 80.0, 60.0)]
    {
        let [length, width, height] = sides_mm;
        let mut design = steel_box(length, width, height);
        design.vents = Some(VentsPart { count: 1.0, width_mm, height_mm: width_mm, length_mm, bends: 0.0, lining: None });
        let report = report(&design);
        let (area_m2, volume_m3) = (1e-6 * width_mm * width_mm, 1e-9 * length * width * height);
        let long_m = 0.001 * length_mm + 2.0 * 0.82 * (area_m2 / PI).sqrt();
        let want = band_position(air.speed / (2.0 * PI) * (area_m2 / (volume_m3 * long_m)).sqrt());
        let below = band_position(0.7 * report.first_chamber_mode_hz) as usize;
        let level = |band: usize| report.stations.inside.level_db[band] - report.stations.source.level_db[band];
        let loudest = (0..below).max_by(|&a, &b| level(a).total_cmp(&level(b))).expect("bands");
        assert!((want - loudest as f64).abs() < 0.75, "{sides_mm:?}: {want} against {loudest}");
        assert!(report.insertion_loss_db[loudest] < -3.0, "{}", report.insertion_loss_db[loudest]);
    }
}

/// Where a diffuse field fills the chamber, a bare box brings R less 10 lg(S/A) with A what its walls absorb and let out.
#[test]
fn a_bare_box_brings_its_reduction_index_less_the_build_up() {
    let mut design = steel_box(1500.0, 1200.0, 1000.0);
    for (sheet, thickness_mm) in [("lead", 1.0), ("mass-loaded-vinyl", 3.0), ("gypsum-board", 12.5)] {
        design.inner.layers = vec![Layer::sheet(sheet, thickness_mm)];
        let report = report(&design);
        let walls = report.path(PathKey::Walls).expect("there are walls");
        for band in (0..BAND_COUNT).filter(|&band| exact_mid_hz(band) > 2.0 * report.network_below_hz) {
            let tau = 10_f64.powf(-0.1 * report.sound_reduction_db[band]);
            let want = 10.0 * ((BARE_ABSORPTION + tau) / tau).log10();
            let got = walls.insertion_loss_db[band];
            // The lid's edge absorbs a little beside them.
            assert!((got - want).abs() < 0.3, "{sheet}, band {band}: {got} against {want}");
        }
    }
}

/// A baffle across the middle makes of a bare box two, with the same power into each: nearly 3 dB less than one half alone.
#[test]
fn a_baffle_in_the_middle_halves_the_box() {
    let thickness_mm = 18.0;
    let mut whole = steel_box(818.0, 400.0, 400.0);
    whole.inner.layers = vec![Layer::sheet("mdf", 18.0)];
    whole.inner.baffle = Some(BafflePart { rear_mm: 400.0, sheet: "mdf".to_owned(), thickness_mm });
    let mut half = whole.clone();
    half.inner.length_mm = 400.0;
    half.inner.baffle = None;
    let (whole, half) = (report(&whole), report(&half));
    for band in (0..BAND_COUNT).filter(|&band| exact_mid_hz(band) > 2.0 * half.network_below_hz) {
        let walls = |report: &Report| report.path(PathKey::Walls).expect("there are walls").insertion_loss_db[band];
        // The half has a sixth wall where the other has its baffle, which absorbs the same and lets nothing out: 5/6.
        // Panels of the whole are larger, and with them R.
        let larger = whole.sound_reduction_db[band] - half.sound_reduction_db[band];
        let want = walls(&half) - 10.0 * (2.0 * 5.0 / 6.0_f64).log10() + larger;
        assert!((walls(&whole) - want).abs() < 0.1, "band {band}: {} against {want}", walls(&whole));
    }
}

/// Where the network hands over at the ends of what can be asked.
#[test]
fn the_join_at_its_ends() {
    assert_eq!(Join::new(6000.0, 20_000.0).last_network_band(), Some(BAND_COUNT - 1));
    assert_eq!(Join::new(10.0, 1.0).last_network_band(), None);
    assert_eq!(Join::new(10.0, 1.0).network_below_hz, 10.0);
    assert_eq!(Join::new(100.0, 100.0).network_below_hz, 150.0);
    assert_eq!(Join::new(100.0, 500.0).network_below_hz, 200.0);
}
