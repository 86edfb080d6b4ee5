//! The low-frequency network against a coupled modal model, against limits, and as a passive network.

use std::f64::consts::PI;

use hushwright::air::Air;
use hushwright::bands::{BAND_COUNT, band_position, band_position_hz, exact_mid_hz};
use hushwright::buildup::{EdgeLoss, Laminate};
use hushwright::enclosure::network::{Fineness, Network, OpeningsAt};
use hushwright::enclosure::panel::{Panel, PanelShape};
use hushwright::enclosure::{BraceKind, Braces};
use hushwright::transmission::band_mean::soft_share;
use hushwright_tests::coupled_modes::{CoupledBox, HingedBox, ThinSheet};
use hushwright_tests::sealed_box::{self, thin_plate};

const PLYWOOD: ThinSheet = ThinSheet { modulus_pa: 8e9, poisson: 0.3, density: 680.0, thickness_m: 0.018 };
const GYPSUM: ThinSheet = ThinSheet { modulus_pa: 2.7e9, poisson: 0.3, density: 700.0, thickness_m: 0.0125 };
/// Up to which band panels are tabulated here.
const LAST_BAND: usize = 14;

/// The sheet as a leaf that does not shear; with the joints of a box its loss is `loss_factor`.
fn leaf(sheet: ThinSheet, loss_factor: f64) -> Laminate {
    thin_plate(sheet, loss_factor - EdgeLoss::BOX_JOINTS.loss_factor(100.0, 1.0))
}

fn panel(laminate: &Laminate, size_m: [f64; 2], fixity: f64, braces: Option<&Braces>) -> Panel {
    sealed_box::panel(laminate, size_m, fixity, braces, LAST_BAND)
}

/// One shell whose outside is so large that the air there does not load it.
fn network(inside_m: [f64; 3], laminate: &Laminate, fixity: f64) -> Network {
    sealed_box::sealed_box(inside_m, laminate, fixity, LAST_BAND, 1e9)
}

/// Up to 0.7 times the first chamber mode: 1.5 dB by third octaves, and 3.5 dB in the third with the largest panel's first
/// resonance, wherever the source stands.
#[test]
fn the_network_agrees_with_coupled_modes_below_the_first_chamber_mode() {
    let (mut at_resonance, mut elsewhere): (f64, f64) = (0.0, 0.0);
    for inside_m in [[0.6, 0.5, 0.4], [0.7, 0.5, 0.5], [1.0, 0.8, 0.7]] {
        for (sheet, loss_factor) in [(PLYWOOD, 0.03), (PLYWOOD, 0.05), (GYPSUM, 0.03), (GYPSUM, 0.05)] {
            let ours = network(inside_m, &leaf(sheet, loss_factor), 0.0);
            for place in [[0.37, 0.41, 0.45], [0.1, 0.1, 0.1], [0.5, 0.5, 0.5]] {
                let source_m = std::array::from_fn(|axis| place[axis] * inside_m[axis]);
                let hinged = HingedBox { inside_m, sheet, loss_factor, source_m, air: Air::default(), air_loss: 0.01 };
                let coupled = CoupledBox::new(hinged);
                let resonance = band_position(coupled.first_panel_resonance_hz()).round() as usize;
                for band in (0..BAND_COUNT).take_while(|&band| exact_mid_hz(band) <= 0.7 * coupled.first_chamber_mode_hz()) {
                    let difference = 10.0 * (coupled.band_mean(band, 40) / band_mean(&ours, band)).log10().abs();
                    let largest = if band == resonance { &mut at_resonance } else { &mut elsewhere };
                    *largest = largest.max(difference);
                }
            }
        }
    }
    println!("{at_resonance:.2} dB in the third of the first panel resonance, {elsewhere:.2} dB elsewhere");
    assert!(elsewhere < 1.5, "{elsewhere} dB");
    assert!(at_resonance < 3.5, "{at_resonance} dB");
}

/// Mean of |Qout/Q|^2 over a band by 40 points, as the coupled model has it.
fn band_mean(network: &Network, band: usize) -> f64 {
    let points = 40;
    let hz = |point: i32| exact_mid_hz(band) * 10_f64.powf(0.1 * ((f64::from(point) + 0.5) / f64::from(points) - 0.5));
    let square = |point| network.volume_velocity(hz(point), &OpeningsAt::default()).norm_sqr();
    (0..points).map(square).sum::<f64>() / f64::from(points)
}

/// Adaptive band means are those of many points, with air outside.
#[test]
fn band_means_have_converged() {
    for (sheet, loss_factor) in [(PLYWOOD, 0.021), (GYPSUM, 0.03)] {
        let network = Network { free_surface_m2: 1.5, ..network([0.7, 0.5, 0.5], &leaf(sheet, loss_factor), 0.0) };
        let spectra = network.bands(LAST_BAND, Fineness::FULL, |_| OpeningsAt::default());
        // Half a step from either end, so that no point lies on an edge.
        let points = 4000 * (LAST_BAND + 1);
        let position = |point: usize| -0.5 + (LAST_BAND + 1) as f64 * (point as f64 + 0.5) / points as f64;
        let totals: Vec<_> =
            (0..points).map(|point| network.at(band_position_hz(position(point)), &OpeningsAt::default())[0]).collect();
        for band in 1..LAST_BAND {
            let weighted = |point: usize| totals[point] * soft_share(position(point) - band as f64);
            let mean = (0..points).map(weighted).sum::<f64>() / 4000.0;
            let error = 10.0 * (spectra.total[band] / mean).log10();
            assert!(error.abs() < 0.2, "band {band}: {error} dB");
        }
    }
}

/// Battens of next to nothing change nothing; stiff ones leave bays whose edges at them do not turn.
#[test]
fn battens_between_nothing_and_a_wall() {
    let laminate = leaf(PLYWOOD, 0.03);
    let (a, b) = (0.9, 0.5);
    let bare = panel(&laminate, [a, b], 0.0, None);
    let braces = |count, width_m, depth_m| Braces { kind: BraceKind::Battens, count, width_m, depth_m };
    for hz in [30.0, 100.0, 170.0, 300.0] {
        let thread = panel(&laminate, [a, b], 0.0, Some(&braces(1, 1e-6, 1e-4)));
        let ratio = thread.response(hz).admittance / bare.response(hz).admittance;
        assert!((ratio - 1.0).l1_norm() < 0.03, "{hz} Hz: {ratio}");
    }
    for count in [1, 2, 3] {
        let held = panel(&laminate, [a, b], 0.0, Some(&braces(count, 0.1, 0.3)));
        let bay_m = a / (count + 1) as f64;
        // Bays between a hinge and a clamp are taken as half fixed, those between two battens as clamped.
        let bay = |held: f64| {
            let shape = PanelShape { size_m: [bay_m, b], fixity: [held, 0.0] };
            Panel::new(&laminate, &shape, None).tabulated(&laminate, LAST_BAND).response(20.0).admittance.im
        };
        let want = 2.0 * bay(0.5) + (count - 1) as f64 * bay(1.0);
        let ratio = held.response(20.0).admittance.im / want;
        assert!((ratio - 1.0).abs() < 0.15, "{count} battens: {ratio}");
    }
}

/// More and deeper battens never make a panel softer, and raise its first resonance.
#[test]
fn battens_stiffen() {
    let laminate = leaf(GYPSUM, 0.03);
    for fixity in [0.0, 0.5, 1.0] {
        let mut last = panel(&laminate, [1.0, 0.6], fixity, None);
        for depth_m in [0.01, 0.02, 0.04, 0.08] {
            let braces = Braces { kind: BraceKind::Battens, count: 2, width_m: 0.03, depth_m };
            let next = panel(&laminate, [1.0, 0.6], fixity, Some(&braces));
            let static_volume = |panel: &Panel| panel.response(5.0).admittance.im;
            assert!(static_volume(&next) < 1.001 * static_volume(&last), "{depth_m} m");
            last = next;
        }
    }
}

/// A panel takes power from the sound and never gives any, and moves at least as much as its mean does.
#[test]
fn panels_are_passive() {
    let laminate = leaf(PLYWOOD, 0.03);
    for fixity in [0.0, 0.3, 1.0] {
        for braces in [None, Some(Braces { kind: BraceKind::Battens, count: 3, width_m: 0.03, depth_m: 0.04 })] {
            let panel = panel(&laminate, [0.9, 0.5], fixity, braces.as_ref());
            for step in 0..200 {
                let hz = 22.5 * 25_f64.powf(f64::from(step) / 200.0);
                let response = panel.response(hz);
                assert!(response.admittance.re >= 0.0, "{hz} Hz: {}", response.admittance);
                let square = panel.area_m2() * response.square_velocity;
                assert!(square >= response.admittance.norm_sqr() * (1.0 - 1e-9), "{hz} Hz");
            }
        }
    }
}

/// Far above its resonances a panel moves as its mass says: Y = S/(j w m).
#[test]
fn above_all_resonances_the_mass_moves() {
    let lead = ThinSheet { modulus_pa: 1e7, poisson: 0.4, density: 11_340.0, thickness_m: 0.001 };
    let panel = panel(&leaf(lead, 0.3), [0.8, 0.6], 0.0, None);
    let hz = 400.0;
    let mass = lead.area_mass();
    let want = 0.8 * 0.6 / (2.0 * PI * hz * mass);
    let got = panel.response(hz).admittance;
    assert!((-got.im / want - 1.0).abs() < 0.05 && got.re < 0.2 * want, "{got} against {want}");
}
