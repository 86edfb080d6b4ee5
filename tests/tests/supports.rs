//! What boxes hang and stand on, how panels answer forces, and the structure-borne path.

use std::f64::consts::PI;

use hushwright::air::Air;
use hushwright::bands::{BAND_COUNT, Spectrum, band_position_hz, exact_mid_hz};
use hushwright::buildup::Laminate;
use hushwright::design::{CheckedDesign, Design, run_in_box};
use hushwright::enclosure::mobility::{PlateModes, infinite_plate_mobility};
use hushwright::enclosure::panel::{Panel, PanelShape};
use hushwright::enclosure::transmissibility::{hysteretic, transmission, viscous};
use hushwright::enclosure::{
    Driver, FREE_FALL, Floor, PanelResponse, Shaken, Spring, Support, SupportKind, Suspended, SuspensionPath, apparent_modulus,
    floor_borne, rubber_modulus, stiffness_from_test, suspension_path,
};
use hushwright::geometry::grown;
use hushwright::workshop::bill;
use num_complex::Complex64;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

fn springs(stiffness: f64, count: usize) -> Support {
    Support { kind: SupportKind::Springs, count, spring: Some(Spring::steel(stiffness, 60.0, 0.05)) }
}

const RIGID: Support = Support { kind: SupportKind::Rigid, count: 4, spring: None };

fn db(ratio: f64) -> f64 {
    10.0 * ratio.log10()
}

/// The masses of a design and its two panels.
struct Parts {
    design: CheckedDesign,
    inner_kg: f64,
    outer_kg: f64,
    inner: PanelResponse,
    outer: PanelResponse,
}

impl Parts {
    fn new(design: &Design) -> Self {
        let design = design.check().expect("a sound design");
        let bill = bill(&design);
        let air = Air::default();
        let (gap, shell) = design.outer.as_ref().expect("two boxes");
        let outer_m = grown(design.inside_m, design.inner.laminate.thickness_m() + gap.depth_m);
        let outer = PanelResponse::of_box(&shell.laminate, outer_m, shell.edge_fixity, &air);
        let inner = PanelResponse::of_box(&design.inner.laminate, design.inside_m, design.inner.edge_fixity, &air);
        let inner_kg = bill.inner_mass_kg + design.contents_kg;
        Self { inner_kg, outer_kg: bill.mass_kg - bill.inner_mass_kg, inner, outer, design }
    }

    fn path(&self, suspension: &Support, wall_velocity: f64) -> SuspensionPath {
        let path = Suspended {
            driver: self.design.driver.as_ref(),
            suspension,
            inner_kg: self.inner_kg,
            outer_kg: self.outer_kg,
            wall_velocity: &Spectrum::constant(wall_velocity),
            inner: &self.inner,
            outer: &self.outer,
        };
        suspension_path(&path, &Air::default())
    }
}

#[test]
fn a_test_with_a_known_mass_gives_stiffness_and_sag() {
    let stiffness = stiffness_from_test(10.0, 0.007);
    assert!((stiffness - 10.0 * FREE_FALL / 0.007).abs() < 1e-9);
    // Twice the mass on each of four: twice the sag, and a natural frequency lower by the root of two.
    let loaded = |mass_kg| springs(stiffness, 4).loaded(mass_kg).expect("elastic");
    let (once, twice) = (loaded(40.0), loaded(80.0));
    assert!((once.sag_m - 0.007).abs() < 1e-12 && (twice.sag_m - 0.014).abs() < 1e-12);
    assert!((once.natural_hz / twice.natural_hz - 2.0_f64.sqrt()).abs() < 1e-12);
    assert_eq!(once.load_each_kg, 10.0);
    assert!(!once.overloaded && twice.overloaded, "the working load is a fifth of 60 kg");
    assert!(!loaded(48.0).overloaded, "exactly the working load is allowed");
    assert!(RIGID.loaded(40.0).is_none() && RIGID.stiffness().is_none());
}

#[test]
fn straps_are_stiffer_when_they_move_than_at_rest() {
    let strap = Spring::strap(5000.0, 60.0, 0.1);
    let support = Support { kind: SupportKind::Straps, count: 4, spring: Some(strap) };
    let stiffness = support.stiffness().expect("elastic");
    assert!((stiffness.re - 4.0 * 5000.0 * strap.dynamic_ratio).abs() < 1e-9);
    assert!((stiffness.im / stiffness.re - strap.loss_factor).abs() < 1e-12);
    assert!(strap.dynamic_ratio > 1.0);
}

#[test]
fn pads_stiffen_with_their_shape_and_bulk_compression_ends_that() {
    let modulus = rubber_modulus(50.0);
    // A tall block is a free one, a flat one tends to the bulk modulus of about 2 GPa.
    assert!((apparent_modulus(modulus, 0.01) / modulus - 1.0).abs() < 0.01);
    assert!((apparent_modulus(modulus, 2.0) / modulus / 9.0 - 1.0).abs() < 0.02);
    assert!((1.9e9..2.0e9).contains(&apparent_modulus(modulus, 100.0)));
    let pad = Spring::pad(0.05, 0.025, 50.0);
    assert!((pad.stiffness - apparent_modulus(modulus, 0.5) * 0.0025 / 0.025).abs() < 1e-6);
    let load_kg = pad.working_load_kg();
    let sag = Support { kind: SupportKind::Pads, count: 1, spring: Some(pad) }.loaded(load_kg).expect("elastic").sag_m;
    assert!((sag / 0.025 - 0.15).abs() < 1e-9, "15 % under the working load");
}

#[test]
fn hysteretic_and_viscous_agree_at_resonance_and_far_below() {
    let (mass, natural_hz) = (40.0, 8.0);
    let stiffness = mass * (2.0 * PI * natural_hz).powi(2);
    for damping_ratio in [0.02, 0.1] {
        let complex_stiffness = Complex64::new(stiffness, 2.0 * damping_ratio * stiffness);
        for ratio in [0.02, 1.0] {
            let (got, want) = (hysteretic(complex_stiffness, mass, ratio * natural_hz), viscous(ratio, damping_ratio));
            assert!((got / want - 1.0).abs() < 0.03, "{ratio}: {got} against {want}");
        }
    }
}

/// The textbook value 1/(8 sqrt(D m)): 10 mm of steel, D = 19.2 kN m and 78 kg/m2, have 1.02e-4 m/(N s).
#[test]
fn an_infinite_plate() {
    let stiffness = 2.1e11 * 0.01_f64.powi(3) / (12.0 * (1.0 - 0.09));
    assert!((infinite_plate_mobility(stiffness, 78.0) / 1.02e-4 - 1.0).abs() < 0.01);
}

#[test]
fn the_modal_mean_tends_to_the_infinite_plate() {
    let (stiffness, mass) = (2000.0, 12.0);
    for (size, fixity) in [([0.9, 0.7], 0.0), ([0.9, 0.7], 1.0), ([1.2, 0.5], 0.5)] {
        let modes = PlateModes::new(size, fixity, 200.0);
        let first = modes.first_hz(stiffness, mass);
        let bands: Vec<usize> = (0..BAND_COUNT).filter(|&band| (12.0..60.0).contains(&(exact_mid_hz(band) / first))).collect();
        assert!(bands.len() >= 6);
        let mean = bands.iter().map(|&band| modes.mobility(stiffness, mass, 0.03, band)).sum::<f64>() / bands.len() as f64;
        let error_db = db(mean / infinite_plate_mobility(stiffness, mass));
        assert!(error_db.abs() < 1.0, "{size:?}, {fixity}: {error_db} dB");
    }
}

#[test]
fn first_modes_of_hinged_and_clamped_squares() {
    // lambda^2 = w a^2 sqrt(m/D): 19.74 and 35.99 (Leissa 1969, Vibration of Plates, NASA SP-160).
    for (fixity, lambda, tolerance) in [(0.0, 19.739, 1e-4), (1.0, 35.99, 0.005)] {
        let got = PlateModes::new([0.6, 0.6], fixity, 2.0).first_hz(3000.0, 15.0) * 2.0 * PI * 0.36 * (15.0_f64 / 3000.0).sqrt();
        assert!((got / lambda - 1.0).abs() < tolerance, "{got}");
    }
}

/// The network of chambers and panels knows the same plate.
#[test]
fn first_modes_are_those_of_panels_under_pressure() {
    for fixity in [0.0, 0.5, 1.0] {
        let (laminate, size_m) = (sheet(0.012, 4e9), [0.8, 0.45]);
        let panel = Panel::new(&laminate, &PanelShape { size_m, fixity: [fixity; 2] }, None);
        let modes = PlateModes::new(size_m, fixity, 2.0);
        let stiffness = laminate.sheets[0].bending_stiffness();
        // A thin sheet: shear takes a few percent.
        let ratio = modes.first_hz(stiffness, laminate.surface_mass()) / panel.first_hz();
        assert!((1.0..1.03).contains(&ratio), "{fixity}: {ratio}");
    }
}

#[test]
fn modes_are_those_of_sampled_mobility() {
    // Second way: the modal sum of a hinged plate at many frequencies and points, modes and shapes written out.
    let ([a, b], stiffness, mass, loss) = ([0.8_f64, 0.6_f64], 2500.0_f64, 14.0_f64, 0.04_f64);
    let modes = PlateModes::new([a, b], 0.0, 60.0);
    let first = modes.first_hz(stiffness, mass);
    for band in (0..BAND_COUNT).filter(|&band| exact_mid_hz(band) < 8.0 * first) {
        let edges = [-0.5, 0.5].map(|half| (2.0 * PI * band_position_hz(band as f64 + half)).powi(2));
        let count = 1500;
        let mut sum = 0.0;
        for step in 0..count {
            let omega = (edges[0] + (edges[1] - edges[0]) * (f64::from(step) + 0.5) / f64::from(count)).sqrt();
            for (m, n) in (1..=12).flat_map(|m| (1..=12).map(move |n| (f64::from(m), f64::from(n)))) {
                let k2 = (m * PI / a).powi(2) + (n * PI / b).powi(2);
                let natural = Complex64::new(stiffness, stiffness * loss) * k2 * k2 / mass;
                // The mean of 4 sin^2 sin^2 over the plate is 1.
                sum += (Complex64::new(0.0, omega) / ((natural - omega * omega) * (mass * a * b))).re;
            }
        }
        let error_db = db(modes.mobility(stiffness, mass, loss, band) / (sum / f64::from(count)));
        // The factor w is taken at the middle of the band, half a dB from either edge.
        assert!(error_db.abs() < 0.5, "band {band}: {error_db} dB");
    }
}

#[test]
fn far_below_the_first_mode_a_panel_is_a_lossy_spring() {
    // Its tail is w eta/(M w_1^2), so that the mobility rises by 6 dB an octave.
    let (stiffness, mass, loss) = (40_000.0, 20.0, 0.05);
    let modes = PlateModes::new([0.4, 0.4], 0.0, 1.5);
    let first = 2.0 * PI * modes.first_hz(stiffness, mass);
    for band in 0..5 {
        let omega = 2.0 * PI * exact_mid_hz(band);
        let want = omega * loss / (mass * 0.16 * first * first);
        assert!((modes.mobility(stiffness, mass, loss, band) / want - 1.0).abs() < 0.05, "band {band}");
    }
}

#[test]
fn a_rigid_suspension_passes_what_an_elastic_one_keeps() {
    let parts = Parts::new(&run_in_box());
    let natural_hz: f64 = 8.0;
    let stiffness = parts.inner_kg * (2.0 * PI * natural_hz).powi(2) / 4.0;
    // Cords without mass, so that nothing but the mass on springs is in question.
    let spring = Spring { mass_kg: 0.0, ..Spring::steel(stiffness, 60.0, 0.05) };
    let hung = parts.path(&Support { spring: Some(spring), ..springs(1.0, 4) }, 0.0).transmission;
    let rigid = parts.path(&RIGID, 0.0).transmission;
    for band in 0..BAND_COUNT {
        let ratio = exact_mid_hz(band) / natural_hz;
        let want_db = 20.0 * (ratio * ratio - 1.0).log10();
        assert!((db(rigid[band] / hung[band]) - want_db).abs() < 0.3, "band {band}");
    }
    // 63 to 250 Hz: rigid about 23 dB below the source in one example, others within 15 dB of that.
    for band in 4..=10 {
        assert!((10.0..45.0).contains(&-db(rigid[band])), "band {band}: {}", db(rigid[band]));
    }
}

#[test]
fn recoil_from_the_level_and_from_the_power_is_one() {
    let (air, driver) = (Air::default(), Driver { moving_mass_kg: 0.11, cone_area_m2: 0.0855 });
    // 1 Pa at 1 m in a half space: a = 2 pi/(1.204 x 0.0855) = 61 m/s2 and 6.7 N.
    let force = driver.recoil_per_pressure(1.0, &air).sqrt();
    assert!((force - 6.71).abs() < 0.02, "{force}");
    // The force of a level at 2 m is that of twice the pressure at 1 m.
    assert!((driver.recoil_per_pressure(2.0, &air) / driver.recoil_per_pressure(1.0, &air) - 4.0).abs() < 1e-12);
    let want = (0.11_f64 / 0.0855).powi(2) * 2.0 * PI * air.speed / air.density;
    assert!((driver.recoil_per_power(&air) / want - 1.0).abs() < 1e-12);
}

#[test]
fn walls_shake_the_outer_box_through_rigid_fixings_most() {
    let mut parts = Parts::new(&run_in_box());
    parts.design.driver = None;
    let forces = [1e3, 1e4, 1e5, 1e9].map(|stiffness| {
        let spring = Spring { mass_kg: 0.0, ..Spring::steel(stiffness, 60.0, 0.05) };
        parts.path(&Support { spring: Some(spring), ..springs(1.0, 4) }, 1e-3).shaken.force
    });
    let rigid = parts.path(&RIGID, 1e-3).shaken.force;
    for band in 0..BAND_COUNT {
        assert!(forces.windows(2).all(|pair| pair[0][band] < pair[1][band]) && forces[3][band] <= rigid[band]);
        let mobility = parts.inner.mobility[band] + parts.outer.mobility[band];
        assert!((rigid[band] / (4.0 * 1e-3 / (mobility * mobility)) - 1.0).abs() < 1e-9);
    }
    assert!(parts.path(&RIGID, 0.0).transmission.iter().all(|ratio| ratio == 0.0), "nothing shakes, nothing sounds");
}

#[test]
fn floors_have_mobilities_of_the_published_order() {
    // Slabs about 1e-6 m/(N s), timber 1e-5 to 1e-4 and more between the joists (from memory; a factor of 3 either way).
    let at = |floor: Floor, band: usize| floor.response(&Air::default()).panel.mobility[band];
    for band in 6..BAND_COUNT {
        assert!((3e-7..6e-6).contains(&at(Floor::Slab, band)));
        assert!((3e-7..6e-6).contains(&at(Floor::Ground, band)));
        assert!((1e-5..1e-3).contains(&at(Floor::Joists, band)));
    }
}

#[test]
fn feet_decide_what_the_floor_gets() {
    let parts = Parts::new(&run_in_box());
    let source = parts.design.source_db;
    let shaken = Shaken::directly(parts.design.driver.as_ref(), 130.0, &Air::default());
    let level = |feet: &Support, floor: Floor| {
        floor_borne(&shaken, feet, &floor.response(&Air::default()), &source).expect("a driver shakes it")
    };
    for floor in [Floor::Ground, Floor::Slab, Floor::Joists] {
        let (soft, pads, rigid) = (level(&springs(50_000.0, 4), floor), level(&parts.design.feet, floor), level(&RIGID, floor));
        // At three times the 17 Hz of the pads and above.
        for band in 3..BAND_COUNT {
            assert!(pads[band] <= rigid[band] + 0.01, "{floor:?}, band {band}");
        }
        assert!(soft.energy_sum() < pads.energy_sum(), "{floor:?}");
    }
    assert!(level(&parts.design.feet, Floor::Joists).energy_sum() > level(&parts.design.feet, Floor::Slab).energy_sum());
    let still = Shaken::directly(None, 130.0, &Air::default());
    assert!(floor_borne(&still, &RIGID, &Floor::Slab.response(&Air::default()), &source).is_none());
}

#[test]
fn a_load_at_the_breaking_load_is_taken_and_one_above_is_refused_at_its_field() {
    let mut design = run_in_box();
    let inner_kg = Parts::new(&design).inner_kg;
    design.suspension.breaking_load_kg = inner_kg / design.suspension.count;
    assert!(design.check().is_ok(), "exactly the breaking load");
    design.suspension.breaking_load_kg *= 0.99;
    let errors = design.check().expect_err("more than they bear");
    assert_eq!(errors.len(), 1);
    assert_eq!(errors[0].path, "suspension.count");
    assert!(errors[0].message.contains("allowed are 5 or more"), "{}", errors[0].message);
    // One box: the suspension carries nothing, the feet all.
    design.outer = None;
    assert!(design.check().is_ok());
    design.feet.pad_side_mm = 6.0;
    let errors = design.check().expect_err("small pads");
    assert_eq!(errors[0].path, "feet.count");
    design.feet.pad_side_mm = 5.0;
    design.feet.shore_a = 25.0;
    let errors = design.check().expect_err("too small for any number of them");
    assert!(errors[0].message.ends_with("take stronger ones"), "{}", errors[0].message);
}

#[test]
fn a_stiffer_suspension_passes_no_less_and_more_mass_no_more() {
    for band in 0..BAND_COUNT {
        let with = |stiffness: f64, mass_kg: f64| {
            let spring = Spring { mass_kg: 0.0, ..Spring::strap(stiffness, 60.0, 0.05) };
            transmission(&Support { kind: SupportKind::Straps, count: 4, spring: Some(spring) }, mass_kg, 0.0, band)
        };
        // Natural frequencies of 2 to 9 Hz, below a third of the lowest band.
        for stiffness in [1e3, 3e3, 1e4, 2e4] {
            assert!(with(1.05 * stiffness, 40.0) > with(stiffness, 40.0));
            assert!(with(stiffness, 42.0) < with(stiffness, 40.0));
        }
    }
}

fn any_support() -> impl Strategy<Value = Support> {
    use hushwright::design::limits::{
        BREAKING_LOAD_KG, PAD_SIDE_MM, PAD_THICKNESS_MM, SHORE_A, SUPPORT_HEIGHT_MM, TEST_MASS_KG, TEST_SAG_MM,
    };
    let log = |(low, high): (f64, f64)| (low.ln()..=high.ln()).prop_map(f64::exp);
    let tested = (any::<bool>(), log(TEST_MASS_KG), log(TEST_SAG_MM), log(BREAKING_LOAD_KG), log(SUPPORT_HEIGHT_MM)).prop_map(
        |(strap, mass_kg, sag_mm, breaking_kg, height_mm)| {
            let made = if strap { Spring::strap } else { Spring::steel };
            made(stiffness_from_test(mass_kg, sag_mm / 1000.0), breaking_kg, height_mm / 1000.0)
        },
    );
    let pad = (log(PAD_SIDE_MM), log(PAD_THICKNESS_MM), SHORE_A.0..=SHORE_A.1)
        .prop_map(|(side_mm, thickness_mm, shore_a)| Spring::pad(side_mm / 1000.0, thickness_mm / 1000.0, shore_a));
    let spring = prop_oneof![1 => Just(None), 4 => tested.prop_map(Some), 4 => pad.prop_map(Some)];
    (1_usize..=24, spring).prop_map(|(count, spring)| Support { kind: SupportKind::Springs, count, spring })
}

/// A step so small that even the flank of a resonance changes little over it.
const STEP: f64 = 1.0 + 1e-5;

/// The same supports, stiffer by `factor`.
fn stiffer(support: &Support, factor: f64) -> Support {
    let spring = support.spring.map(|spring| Spring { stiffness: spring.stiffness * factor, ..spring });
    Support { spring, ..*support }
}

fn any_panel() -> impl Strategy<Value = ([f64; 3], f64, f64, f64)> {
    let log = |low: f64, high: f64| (low.ln()..=high.ln()).prop_map(f64::exp);
    ((log(0.1, 3.5), log(0.1, 3.5), log(0.1, 3.5)), log(0.003, 0.08), log(5e8, 7e10), 0.0..=1.0)
        .prop_map(|((l, w, h), thickness_m, modulus, fixity)| ([l, w, h], thickness_m, modulus, fixity))
}

fn sheet(thickness_m: f64, youngs_modulus: f64) -> Laminate {
    let shear_modulus = 0.1 * youngs_modulus;
    let sheet = hushwright::buildup::Sheet {
        thickness_m,
        density: 700.0,
        youngs_modulus,
        poisson: 0.3,
        loss_factor: 0.02,
        shear_modulus,
    };
    Laminate { sheets: vec![sheet], bonds: Vec::new() }
}

fn fixed(cases: u32) -> ProptestConfig {
    ProptestConfig { rng_seed: RngSeed::Fixed(20_261_125), failure_persistence: None, ..ProptestConfig::with_cases(cases) }
}

proptest! {
    #![proptest_config(fixed(400))]

    #[test]
    fn panels_are_finite_and_change_with_their_size_and_board_smoothly((size, thickness, modulus, fixity) in any_panel()) {
        let air = Air::default();
        let response = |scale: [f64; 3], thickness: f64| {
            let size = [0, 1, 2].map(|axis| size[axis] * scale[axis]);
            PanelResponse::of_box(&sheet(thickness, modulus), size, fixity, &air)
        };
        let once = response([1.0; 3], thickness);
        prop_assert!(once.mobility.iter().all(|mobility| mobility.is_finite() && mobility > 0.0));
        prop_assert!(once.radiated_share.iter().all(|share| share > 0.0 && share < 1.0));
        let step = 1.0 + 1e-5;
        // A side alone may let a mode in or out at ten times the first, which is less than 0.1 dB.
        let others = [
            (response([step; 3], thickness), 0.02),
            (response([1.0; 3], step * thickness), 0.02),
            (response([step, 1.0, 1.0], thickness), 0.1),
        ];
        for (other, most_db) in others {
            for band in 0..BAND_COUNT {
                let change = db(other.mobility[band] * other.radiated_share[band])
                    - db(once.mobility[band] * once.radiated_share[band]);
                prop_assert!(change.abs() < most_db, "band {band}: {change} dB");
            }
        }
    }

    #[test]
    fn supports_are_finite_and_pass_force_smoothly(
        support in any_support(),
        mass in (0.5_f64.ln()..5000.0_f64.ln()).prop_map(f64::exp),
        mobility in prop_oneof![Just(0.0), (1e-7_f64.ln()..1e-2_f64.ln()).prop_map(f64::exp)],
    ) {
        for band in 0..BAND_COUNT {
            let once = transmission(&support, mass, mobility, band);
            prop_assert!(once.is_finite() && once >= 0.0);
            if db(once) > -300.0 {
                for other in [
                    transmission(&support, STEP * mass, mobility, band),
                    transmission(&stiffer(&support, STEP), mass, mobility, band),
                ] {
                    prop_assert!(db(other / once).abs() < 0.02, "band {band}: {once} to {other}");
                }
            }
        }
        if let Some(loaded) = support.loaded(mass) {
            prop_assert!(loaded.natural_hz.is_finite() && loaded.sag_m > 0.0);
        }
    }

    #[test]
    fn floors_answer_finite_levels(
        suspension in any_support(),
        feet in any_support(),
        floor in prop_oneof![Just(Floor::Ground), Just(Floor::Slab), Just(Floor::Joists)],
        velocity in prop_oneof![Just(0.0), (1e-12_f64.ln()..1e3_f64.ln()).prop_map(f64::exp)],
    ) {
        let parts = Parts::new(&run_in_box());
        let path = parts.path(&suspension, velocity);
        prop_assert!(path.transmission.is_finite() && path.transmission.iter().all(|ratio| ratio >= 0.0));
        let source = parts.design.source_db;
        let level = floor_borne(&path.shaken, &feet, &floor.response(&Air::default()), &source);
        prop_assert!(level.expect("a driver shakes it").is_finite());
    }
}
