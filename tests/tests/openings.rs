//! Openings: slits, lids, holes and vents against textbook limits, and properties that hold for all of them.

use std::f64::consts::PI;

use hushwright::air::Air;
use hushwright::bands::{BAND_COUNT, Spectrum, Weighting, band_position_hz, exact_mid_hz};
use hushwright::enclosure::{
    CLEARANCE_M, Holes, LEAST_GAP_M, Lid, LidFace, LidForm, Lining, Medium, OpeningAt, SEAL_WIDTH_M, SealKind, Segment, SlitEnd,
    Vents, absorption_at, duct_absorption, duct_attenuation_db, holes_at, holes_transmission_area, lid_at, lid_path,
    lid_transmission_area, lining_absorption, slit_at, vent_flow, vents_at, vents_transmission_area,
};
use hushwright::transmission::band_mean::band_means;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

const SEALS: [SealKind; 4] = [SealKind::Bare, SealKind::FoamTape, SealKind::ClosedCell, SealKind::Compressed];
const FORMS: [LidForm; 2] = [LidForm::Plain, LidForm::Stepped];

fn air_slit(height_m: f64, depth_m: f64) -> Segment {
    Segment { height_m, depth_m, medium: Medium::Air }
}

fn lid(form: LidForm, seals: usize, seal: SealKind) -> Lid {
    Lid { face: LidFace::Front, form, seals, seal, clearance_m: CLEARANCE_M, gap_factor: 1.0 }
}

fn duct(section_m: [f64; 2], length_m: f64, bends: usize) -> Vents {
    Vents { count: 1, section_m, length_m, bends, lining: None }
}

/// A-weighted leak in dB re 1 m2 for equal levels in all bands.
fn weighted_db(area_m2: &Spectrum) -> f64 {
    area_m2.to_db().weighted_sum(Weighting::A)
}

/// A thin slit at the lowest frequencies: plane Poiseuille flow, h^3 L/(12 mu d) (for instance White 1991, section 3-3.1).
#[test]
fn a_thin_slit_follows_the_cubic_law() {
    let air = Air::default();
    for (height_m, depth_m, length_m) in [(1e-4, 0.018, 2.0), (1e-4, 0.05, 3.0), (5e-5, 0.018, 2.0), (2e-5, 0.1, 0.05)] {
        let slit = slit_at(&[air_slit(height_m, depth_m)], length_m, [SlitEnd::Edge, SlitEnd::MidWall], 1.0, &air);
        let want = height_m * height_m * height_m * length_m / (12.0 * air.viscosity() * depth_m);
        assert!((slit.admittance.re / want - 1.0).abs() < 0.01, "{height_m}: {} against {want}", slit.admittance);
        assert!(slit.admittance.im.abs() < 0.1 * want, "{}", slit.admittance);
    }
}

/// Viscosity of air at 20 degrees Celsius: 1.81e-5 Pa s within 1 % (any table of air).
#[test]
fn viscosity_of_air() {
    assert!((Air::default().viscosity() / 1.81e-5 - 1.0).abs() < 0.01);
    assert!((Air::default().temperature_k() - 293.15).abs() < 1e-9);
}

/// Below its resonance a thin slit lets less through than one without friction (Gomperts & Kihlman 1967, m = 8, n = 1, from
/// memory), the less the thinner it is.
#[test]
fn friction_only_takes_away() {
    let air = Air::default();
    let mut last_loss_db = 0.0;
    for height_m in [0.01, 0.002, 0.001, 0.0005, 0.0002] {
        let depth_m = 0.018;
        let mut loss_db = 0.0;
        for hz in [63.0, 125.0, 250.0, 500.0, 1000.0, 2000.0] {
            let k = air.wavenumber(hz) * height_m;
            let e = ((8.0 / k).ln() - 0.577_22) / PI;
            let x = depth_m / height_m;
            let whole = (k * (x + 2.0 * e)).sin().powi(2) / (k * e).cos().powi(2);
            let radiated = 0.5 * k * k * (1.0 + (k * (x + 2.0 * e)).cos() * (k * x).cos());
            let tau = 8.0 * k * (k * e).cos().powi(2) / (2.0 * (whole + radiated));
            let slit = slit_at(&[air_slit(height_m, depth_m)], 1e4, [SlitEnd::MidWall; 2], hz, &air);
            let db = 10.0 * (tau * height_m * 1e4 / slit.transmission_area_m2).log10();
            assert!(db > -0.15, "{height_m} at {hz} Hz: {db} dB more than without friction");
            loss_db += db;
        }
        assert!(loss_db > last_loss_db, "{height_m}: {loss_db} dB after {last_loss_db}");
        last_loss_db = loss_db;
    }
}

/// A plug of porous material: pressure over volume velocity is flow resistivity times depth over area as f falls.
#[test]
fn a_porous_slit_resists_as_its_flow_resistivity() {
    let path = [Segment { height_m: 0.003, depth_m: 0.01, medium: Medium::Porous(20_000.0) }];
    let slit = slit_at(&path, 2.0, [SlitEnd::MidWall; 2], 0.1, &Air::default());
    let want = 0.003 * 2.0 / (20_000.0 * 0.01);
    // Miki's fit, continued from its lower edge, comes to nine tenths of the static resistance.
    assert!((slit.admittance.re / want - 1.0).abs() < 0.12, "{} against {want}", slit.admittance);
}

/// An open hole below its resonance: mass of the air in it and of two flanged ends of 0.85 a (for instance Kinsler et al. 2000,
/// Fundamentals of Acoustics, section 10.4; 0.82 a is exact and within the tolerance), and a transmission area 8 rho c R/|Z|^2 with R = rho c k^2/(2 pi).
#[test]
fn an_open_hole_is_a_mass() {
    let air = Air::default();
    for (diameter_m, wall_m) in [(0.03, 0.018), (0.05, 0.03), (0.1, 0.05)] {
        let holes = Holes { count: 3, diameter_m, cable_m: 0.0, sealed: false, gap_factor: 1.0 };
        let hz = 50.0;
        let hole = holes_at(&holes, wall_m, hz, &air);
        let a = 0.5 * diameter_m;
        let inertance = air.density * (wall_m + 2.0 * 8.0 * a / (3.0 * PI)) / (PI * a * a);
        let want = 3.0 / (2.0 * PI * hz * inertance);
        assert!((hole.admittance.im / -want - 1.0).abs() < 0.03, "{diameter_m}: {} against {want}", hole.admittance);
        let k = air.wavenumber(hz);
        let resistance = air.impedance() * k * k / (2.0 * PI);
        let area_m2 = 3.0 * 8.0 * air.impedance() * resistance / (2.0 * PI * hz * inertance).powi(2);
        assert!((hole.transmission_area_m2 / area_m2 - 1.0).abs() < 0.06, "{} against {area_m2}", hole.transmission_area_m2);
    }
}

/// Wide against the wavelength, an opening lets through what falls on it: its area, within half a decibel.
#[test]
fn a_wide_opening_transmits_its_area() {
    let air = Air::default();
    let hole =
        holes_transmission_area(&Holes { count: 1, diameter_m: 0.15, cable_m: 0.0, sealed: false, gap_factor: 1.0 }, 0.018, &air);
    let vent = vents_transmission_area(&duct([0.3, 0.4], 0.05, 0), None, &air);
    for (area_m2, want) in [(hole, PI * 0.075 * 0.075), (vent, 0.12)] {
        for band in (0..BAND_COUNT).filter(|&band| exact_mid_hz(band) > 5000.0) {
            assert!((10.0 * (area_m2[band] / want).log10()).abs() < 0.5, "band {band}: {} of {want}", area_m2[band]);
        }
    }
}

/// Round a cable: plane Poiseuille flow in the gap, unrolled; steady flow in an annulus of a thin wire (White 1991, section 3-3).
#[test]
fn steady_flow_round_a_cable() {
    let air = Air::default();
    let mu = air.viscosity();
    let at = |diameter_m, cable_m| {
        holes_at(&Holes { count: 1, diameter_m, cable_m, sealed: false, gap_factor: 1.0 }, 0.05, 0.5, &air).admittance.re
    };
    let (d, h): (f64, f64) = (0.0104, 0.0002);
    let unrolled = PI * (d - h) * h.powi(3) / (12.0 * mu * 0.05);
    assert!((at(d, d - 2.0 * h) / unrolled - 1.0).abs() < 0.01);
    let (a, b): (f64, f64) = (0.001, 0.0002);
    let annulus = PI / (8.0 * mu * 0.05) * (a.powi(4) - b.powi(4) - (a.powi(2) - b.powi(2)).powi(2) / (a / b).ln());
    assert!((at(2.0 * a, 2.0 * b) / annulus - 1.0).abs() < 0.01, "{} against {annulus}", at(2.0 * a, 2.0 * b));
    let tube = PI * a.powi(4) / (8.0 * mu * 0.05);
    assert!((at(2.0 * a, 0.0) / tube - 1.0).abs() < 0.015, "{} against {tube}", at(2.0 * a, 0.0));
}

/// In every band boards that touch let through more than tape or a closed-cell gasket, and those more than a pressed one.
#[test]
fn seals_keep_their_order_in_every_band() {
    let air = Air::default();
    for form in FORMS {
        for wall_m in [0.009, 0.012, 0.015, 0.018, 0.025, 0.034, 0.048, 0.06] {
            for seals in 1..=4 {
                for perimeter_m in [0.8, 2.0, 5.0] {
                    let [bare, foam, closed, pressed] =
                        SEALS.map(|seal| lid_transmission_area(&lid(form, seals, seal), perimeter_m, wall_m, &air));
                    for band in 0..BAND_COUNT {
                        let what = format!("{form:?}, {wall_m} m, {seals} seals, {perimeter_m} m, band {band}");
                        assert!(bare[band] > foam[band] && bare[band] > closed[band], "{what}: bare");
                        assert!(foam[band] > pressed[band] && closed[band] > pressed[band], "{what}: compressed");
                    }
                }
            }
        }
    }
}

/// The path of a lid is as long as the wall, or longer by its steps, and holds all its seals.
#[test]
fn the_path_of_a_lid_adds_up() {
    for (form, seals, wall_m, want_m, sealed_m) in [
        (LidForm::Plain, 1, 0.018, 0.018, 0.009),
        (LidForm::Plain, 2, 0.018, 0.018, 0.012),
        (LidForm::Plain, 3, 0.048, 0.048, 0.03),
        (LidForm::Stepped, 4, 0.018, 0.098, 0.04),
    ] {
        let (pieces, count) = lid_path(&lid(form, seals, SealKind::Compressed), wall_m);
        let depth_m: f64 = pieces[..count].iter().map(|piece| piece.depth_m).sum();
        let closed_m: f64 = pieces[..count].iter().filter(|piece| piece.height_m < CLEARANCE_M).map(|piece| piece.depth_m).sum();
        assert!((depth_m - want_m).abs() < 1e-12 && (closed_m - sealed_m).abs() < 1e-12);
    }
}

/// Piening's relation by hand: 100 x 100 mm, absorption 0.5, 1 m: 1.5 x 0.5 x 0.4/0.01 = 30 dB; beaming halves it at 2 f_b.
#[test]
fn attenuation_of_a_lined_duct_by_hand() {
    let air = Air::default();
    let straight = duct([0.1, 0.1], 1.0, 0);
    assert!((duct_attenuation_db(&straight, 0.5, 500.0, &air) - 30.0).abs() < 1e-9);
    let beaming_hz = air.speed / 0.1;
    assert!((duct_attenuation_db(&straight, 0.5, 2.0 * beaming_hz, &air) - 15.0).abs() < 1e-9);
    let bent = duct([0.1, 0.1], 0.8, 2);
    let far_above = duct_attenuation_db(&bent, 0.5, 2.0 * beaming_hz, &air);
    assert!((30.0..30.0 + 6.0).contains(&far_above), "a labyrinth keeps it: {far_above}");
    // What comes out of a long duct at high frequencies is its area less that.
    let spectrum = vents_transmission_area(&bent, None, &air);
    let bare_db = duct_attenuation_db(&bent, duct_absorption(None)[BAND_COUNT - 1], exact_mid_hz(BAND_COUNT - 1), &air);
    assert!((10.0 * (spectrum[BAND_COUNT - 1] / 0.01).log10() + bare_db).abs() < 0.5);
}

/// Far below its first resonance a duct is the mass of its air and of two flanged ends, lined or not: what walls absorb
/// does not brake the air as a whole.
#[test]
fn a_vent_is_a_mass_at_low_frequencies() {
    let air = Air::default();
    let vents = duct([0.1, 0.1], 0.5, 0);
    let length_m = 0.5 + 2.0 * 0.85 * (0.01 / PI).sqrt();
    let want = 0.01 / (2.0 * PI * 10.0 * air.density * length_m);
    for absorption in [0.0, 0.01, 0.1] {
        let vent = vents_at(&vents, absorption, 10.0, &air);
        assert!((vent.admittance.im / -want - 1.0).abs() < 0.05, "{absorption}: {} against {want}", vent.admittance);
    }
}

/// P = rho cp V dT: 100 W at 10 K take 8.3 l/s of air of 1.204 kg/m3 and 1005 J/(kg K).
#[test]
fn air_for_the_heat() {
    let air = Air::default();
    let mut vents = duct([0.05, 0.1], 0.5, 2);
    vents.count = 4;
    let flow = vent_flow(&vents, 100.0, &air);
    assert!((flow.flow_m3_s / 8.27e-3 - 1.0).abs() < 0.005, "{}", flow.flow_m3_s);
    assert!((flow.speed_m_s - flow.flow_m3_s / 0.01).abs() < 1e-12 && !flow.is_heard());
    vents.count = 1;
    assert!((vent_flow(&vents, 100.0, &air).speed_m_s - flow.flow_m3_s / 0.0025).abs() < 1e-12);
    assert!(vent_flow(&vents, 100.0, &air).is_heard());
}

/// Halving the steps again and again changes no band by more than 0.2 dB.
#[test]
fn band_means_have_converged() {
    let air = Air::default();
    let close = |usual: Spectrum, exact: Spectrum, what: &str| {
        for band in 0..BAND_COUNT {
            let db = 10.0 * (usual[band] / exact[band]).log10();
            assert!(db.abs() < 0.2, "{what}, band {band}: {db} dB");
        }
    };
    for form in FORMS {
        for seal in SEALS {
            for (seals, wall_m) in [(1, 0.018), (2, 0.048), (4, 0.034)] {
                let lid = lid(form, seals, seal);
                let [exact] = band_means(1e-5, &[], |position| {
                    [lid_at(&lid, 2.0, wall_m, band_position_hz(position), &air).transmission_area_m2]
                });
                close(lid_transmission_area(&lid, 2.0, wall_m, &air), exact, &format!("{lid:?}"));
            }
        }
    }
    for (diameter_m, cable_m) in [(0.01, 0.0), (0.01, 0.009), (0.03, 0.0), (0.1, 0.02)] {
        let holes = Holes { count: 1, diameter_m, cable_m, sealed: false, gap_factor: 1.0 };
        for wall_m in [0.018, 0.06, 0.12] {
            let [exact] = band_means(1e-5, &[], |position| {
                [holes_at(&holes, wall_m, band_position_hz(position), &air).transmission_area_m2]
            });
            close(holes_transmission_area(&holes, wall_m, &air), exact, &format!("{holes:?}"));
        }
    }
    let lining = lining_absorption(&Lining { thickness_m: 0.03, flow_resistivity: 15_000.0 }, &air);
    for section_m in [[0.02, 0.02], [0.05, 0.1], [0.3, 0.2], [0.6, 0.6]] {
        for length_m in [0.05, 0.3, 1.0, 3.0, 10.0] {
            for bends in [0, 3] {
                for lining in [None, Some(&lining)] {
                    let vents = duct(section_m, length_m, bends);
                    let absorption = duct_absorption(lining);
                    let [exact] = band_means(1e-5, &[], |position| {
                        let hz = band_position_hz(position);
                        [vents_at(&vents, absorption_at(&absorption, hz), hz, &air).transmission_area_m2]
                    });
                    close(vents_transmission_area(&vents, lining, &air), exact, &format!("{vents:?}"));
                }
            }
        }
    }
}

/// The same cases at every run; change the seed to look elsewhere.
fn fixed(cases: u32) -> ProptestConfig {
    ProptestConfig { rng_seed: RngSeed::Fixed(20_261_125), failure_persistence: None, ..ProptestConfig::with_cases(cases) }
}

fn log(low: f64, high: f64) -> impl Strategy<Value = f64> {
    (low.ln()..high.ln()).prop_map(f64::exp)
}

fn any_lid() -> impl Strategy<Value = Lid> {
    (0..2_usize, 1..=4_usize, 0..4_usize).prop_map(|(form, seals, seal)| lid(FORMS[form], seals, SEALS[seal]))
}

/// Within the limits of a design; a cable from none to one that fills the hole.
fn any_holes() -> impl Strategy<Value = Holes> {
    let share = prop_oneof![Just(0.0), Just(1.0), 0.0..=1.0_f64, log(1e-9, 1.0)];
    (1..=24_usize, log(0.002, 0.15), share, any::<bool>()).prop_map(|(count, diameter_m, share, sealed)| Holes {
        count,
        diameter_m,
        cable_m: share * diameter_m,
        sealed,
        gap_factor: 1.0,
    })
}

fn any_vents() -> impl Strategy<Value = Vents> {
    (1..=12_usize, log(0.02, 0.6), log(0.02, 0.6), log(0.05, 10.0), 0..=12_usize)
        .prop_map(|(count, width, height, length_m, bends)| Vents { count, ..duct([width, height], length_m, bends) })
}

fn sound(opening: &OpeningAt) -> Result<(), TestCaseError> {
    let (transfer, driving) = (opening.admittance, opening.driving_admittance);
    prop_assert!(transfer.re.is_finite() && transfer.im.is_finite(), "{opening:?}");
    prop_assert!(driving.re.is_finite() && driving.im.is_finite(), "{opening:?}");
    prop_assert!(opening.transmission_area_m2.is_finite() && opening.transmission_area_m2 > 0.0, "{opening:?}");
    let size = driving.re.abs() + driving.im.abs();
    prop_assert!(driving.re >= -1e-9 * size, "an opening takes power and gives none: {opening:?}");
    Ok(())
}

proptest! {
    #![proptest_config(fixed(512))]

    /// Finite and passive within the limits of a design and beyond; in phase with the pressure while the path is short.
    #[test]
    fn openings_are_finite_and_passive(
        lid in any_lid(), holes in any_holes(), vents in any_vents(), perimeter_m in log(0.4, 12.0), wall_m in log(0.0005, 0.3),
        hz in log(1.0, 11_300.0), absorption in 0.0..=1.0_f64,
    ) {
        let air = Air::default();
        let at = [lid_at(&lid, perimeter_m, wall_m, hz, &air), holes_at(&holes, wall_m, hz, &air), vents_at(&vents, absorption, hz, &air)];
        for opening in &at {
            sound(opening)?;
        }
        // Below a quarter wavelength of the wall and the end masses; the finest gaps carry slower, viscous waves.
        let open = Holes { sealed: false, cable_m: 0.9 * holes.cable_m, ..holes };
        if hz * (wall_m + 2.0 * holes.diameter_m) < 0.2 * air.speed {
            let hole = holes_at(&open, wall_m, hz, &air);
            prop_assert!(hole.admittance.re >= 0.0, "{hole:?}");
        }
        let both = at[0] + at[1];
        prop_assert!((both.transmission_area_m2 - at[0].transmission_area_m2 - at[1].transmission_area_m2).abs() < 1e-15);
    }

    /// A diffuse field on either side drives the same power through: the path reversed, with its ends.
    #[test]
    fn slits_are_reciprocal(
        pieces in proptest::collection::vec((log(1e-5, 0.02), log(0.001, 0.1), proptest::option::of(log(1e3, 1e6))), 1..9),
        length_m in log(0.01, 20.0), hz in log(1.0, 11_300.0),
    ) {
        let air = Air::default();
        let mut path: Vec<Segment> = pieces
            .into_iter()
            .map(|(height_m, depth_m, fill)| Segment { height_m, depth_m, medium: fill.map_or(Medium::Air, Medium::Porous) })
            .collect();
        let there = slit_at(&path, length_m, [SlitEnd::Edge, SlitEnd::MidWall], hz, &air);
        path.reverse();
        let back = slit_at(&path, length_m, [SlitEnd::MidWall, SlitEnd::Edge], hz, &air);
        sound(&there)?;
        prop_assert!((there.transmission_area_m2 / back.transmission_area_m2 - 1.0).abs() < 1e-4, "{there:?} {back:?}");
        prop_assert!((there.admittance / back.admittance - 1.0).l1_norm() < 1e-4, "{there:?} {back:?}");
    }

    /// No opening lets through more than its plane wave at its best, lambda^2/pi (4 L/k of a long slit), and its area.
    #[test]
    fn no_opening_makes_power(holes in any_holes(), vents in any_vents(), hz in log(20.0, 11_300.0), wall_m in log(0.003, 0.1)) {
        let air = Air::default();
        let k = air.wavenumber(hz);
        let plane_m2 = 4.0 * PI / (k * k);
        let vent = vents_at(&vents, 0.0, hz, &air).transmission_area_m2 / vents.count as f64;
        prop_assert!(vent <= 1.0001 * plane_m2.max(vents.section_m[0] * vents.section_m[1]), "{vent} {plane_m2}");
        let hole = holes_at(&Holes { sealed: false, ..holes }, wall_m, hz, &air).transmission_area_m2 / holes.count as f64;
        let (area_m2, ring_m2) = (0.25 * PI * holes.diameter_m * holes.diameter_m, 4.0 * PI * holes.diameter_m / k);
        prop_assert!(hole <= 1.6 * (plane_m2 + ring_m2).max(area_m2), "{hole} {plane_m2} {ring_m2} {area_m2}");
    }

    /// One more seal lets through no more: at low frequencies by volume velocity, over all by the A-weighted leak. In a wall
    /// that is too thin for it the others become narrower, and it may cost up to 1 dB.
    #[test]
    fn one_more_seal_never_hurts(lid in any_lid(), perimeter_m in log(0.4, 12.0), wall_m in log(0.003, 0.08), hz in log(1.0, 40.0)) {
        prop_assume!(lid.seals < 4);
        let air = Air::default();
        let more = Lid { seals: lid.seals + 1, ..lid };
        let [fewer_at, more_at] = [&lid, &more].map(|lid| lid_at(lid, perimeter_m, wall_m, hz, &air).admittance.l1_norm());
        prop_assert!(more_at <= fewer_at * (1.0 + 1e-9), "{more_at} after {fewer_at}");
        let fits = lid.form == LidForm::Stepped || wall_m >= (more.seals as f64 + 1.0) * SEAL_WIDTH_M;
        let [fewer, more] = [&lid, &more].map(|lid| weighted_db(&lid_transmission_area(lid, perimeter_m, wall_m, &air)));
        prop_assert!(more <= fewer + if fits { 0.0 } else { 1.0 }, "{more} after {fewer}: {lid:?} {perimeter_m} {wall_m}");
    }

    /// A narrower gap lets through less, straight or round a cable.
    #[test]
    fn a_narrower_gap_leaks_less(
        height_m in log(2e-5, 0.003), narrower in 0.3..0.98_f64, depth_m in log(0.003, 0.08), hz in log(1.0, 11_300.0),
        diameter_m in log(0.005, 0.05), gap in 0.05..0.9_f64,
    ) {
        let air = Air::default();
        let slit = |height_m| slit_at(&[air_slit(height_m, depth_m)], 2.0, [SlitEnd::MidWall; 2], hz, &air);
        let (wide, narrow) = (slit(height_m), slit(narrower * height_m));
        if hz * (depth_m + 0.02) < 0.2 * air.speed {
            prop_assert!(narrow.transmission_area_m2 < wide.transmission_area_m2);
            prop_assert!(narrow.admittance.norm_sqr() < wide.admittance.norm_sqr());
        }
        if hz * (depth_m + 2.0 * diameter_m) < 0.2 * air.speed {
            let hole = |gap: f64| holes_at(&Holes { count: 1, diameter_m, cable_m: diameter_m * (1.0 - gap), sealed: false, gap_factor: 1.0 }, depth_m, hz, &air);
            let (wide, narrow) = (hole(gap), hole(narrower * gap));
            // A hole in a thin wall owes its mass to its rim and hardly feels a thin cable.
            prop_assert!(narrow.transmission_area_m2 <= 1.02 * wide.transmission_area_m2, "{hz} {diameter_m} {gap}");
        }
    }

    /// Sealing a hole never lets more through.
    #[test]
    fn sealing_never_hurts(holes in any_holes(), wall_m in log(0.003, 0.08)) {
        let air = Air::default();
        let [open, sealed] = [false, true].map(|sealed| weighted_db(&holes_transmission_area(&Holes { sealed, ..holes }, wall_m, &air)));
        prop_assert!(sealed < open, "{sealed} after {open}");
    }

    /// A longer lined duct lets through less of the A-weighted sound.
    #[test]
    fn a_longer_lined_vent_leaks_less(vents in any_vents(), longer in 1.05..3.0_f64, thickness_m in 0.015..0.1_f64) {
        let air = Air::default();
        let lining = lining_absorption(&Lining { thickness_m, flow_resistivity: 12_000.0 }, &air);
        let leak = |vents: &Vents| weighted_db(&vents_transmission_area(vents, Some(&lining), &air));
        let longer = Vents { length_m: longer * vents.length_m, ..vents.clone() };
        prop_assert!(leak(&longer) < leak(&vents) + 0.05, "{} after {}: {vents:?}", leak(&longer), leak(&vents));
    }

    /// A step of 1 % moves no A-weighted leak by more than 0.3 dB; of a gap round a cable, what is left open is stepped.
    #[test]
    fn leaks_are_continuous(
        lid in any_lid(), holes in any_holes(), vents in any_vents(), perimeter_m in log(0.4, 12.0), wall_m in log(0.005, 0.08),
    ) {
        let air = Air::default();
        let close = |before: &Spectrum, after: &Spectrum, what: &str| {
            let (before, after) = (weighted_db(before), weighted_db(after));
            // The clearances of a lid are what its seals leave of the wall: they change by more than the wall does.
            // The resonance of a fine, deep hole is narrow: from one third into the next it takes that one's weight, 1 dB less.
            let most_db = match what {
                "wall of a lid" | "gap round a cable" => 0.6,
                "wall of a hole" | "scale of a hole" => 1.0,
                _ => 0.3,
            };
            // In the finest gaps waves of friction decay within the wall; a hundredth of a square millimetre is not heard.
            let floor_db = -80.0;
            let (before, after) = (before.max(floor_db), after.max(floor_db));
            prop_assert!((before - after).abs() < most_db, "{what}: {before} to {after}, {lid:?} {holes:?} {vents:?} {wall_m}");
            Ok(())
        };
        let of_lid = |perimeter_m, wall_m| lid_transmission_area(&lid, perimeter_m, wall_m, &air);
        close(&of_lid(perimeter_m, wall_m), &of_lid(1.01 * perimeter_m, wall_m), "perimeter")?;
        close(&of_lid(perimeter_m, wall_m), &of_lid(perimeter_m, 1.01 * wall_m), "wall of a lid")?;
        let of_holes = |holes: &Holes, wall_m| holes_transmission_area(holes, wall_m, &air);
        let before = of_holes(&holes, wall_m);
        close(&before, &of_holes(&holes, 1.01 * wall_m), "wall of a hole")?;
        let bigger = Holes { diameter_m: 1.01 * holes.diameter_m, cable_m: 1.01 * holes.cable_m, ..holes };
        close(&before, &of_holes(&bigger, wall_m), "scale of a hole")?;
        let gap_m = holes.diameter_m - holes.cable_m;
        let narrower = Holes { cable_m: holes.diameter_m - 0.99 * gap_m, ..holes };
        // The thinnest wire holds the air in the middle of a fine hole, where it is fastest: as 1/ln(D/d), steeper than any step.
        if gap_m > 2.1 * LEAST_GAP_M && holes.cable_m > 0.05 * holes.diameter_m {
            close(&before, &of_holes(&narrower, wall_m), "gap round a cable")?;
        }
        if holes.cable_m == 0.0 {
            let wire = Holes { cable_m: 1e-9, ..holes };
            close(&before, &of_holes(&wire, wall_m), "a wire as thin as can be")?;
        }
        let of_vents = |vents: &Vents| vents_transmission_area(vents, None, &air);
        let before = of_vents(&vents);
        close(&before, &of_vents(&Vents { length_m: 1.01 * vents.length_m, ..vents.clone() }), "length of a vent")?;
        let [width, height] = vents.section_m;
        close(&before, &of_vents(&Vents { section_m: [1.01 * width, height], ..vents.clone() }), "width of a vent")?;
    }
}

/// Who does not know a seal's gap says by what factor it is off; the clearance between seals stays, and a hole is no wider.
#[test]
fn unsure_gaps_are_wider_by_their_factor() {
    let lid = lid(LidForm::Stepped, 2, SealKind::Compressed);
    let (nominal, pieces) = lid_path(&lid, 0.018);
    let (wider, _) = lid_path(&Lid { gap_factor: 2.0, ..lid }, 0.018);
    for (piece, (before, after)) in nominal[..pieces].iter().zip(&wider).enumerate() {
        let factor = if piece % 2 == 0 { 1.0 } else { 2.0 };
        assert_eq!(after.height_m, factor * before.height_m, "piece {piece}");
    }
    let air = Air::default();
    let at = |holes: &Holes| holes_at(holes, 0.018, 200.0, &air).admittance;
    let holes = Holes { count: 1, diameter_m: 0.012, cable_m: 0.008, sealed: false, gap_factor: 1.5 };
    let thinner_cable = Holes { cable_m: 0.006, gap_factor: 1.0, ..holes };
    assert!((at(&holes) / at(&thinner_cable) - 1.0).l1_norm() < 1e-9);
    let empty = Holes { cable_m: 0.0, ..holes };
    assert_eq!(at(&empty), at(&Holes { gap_factor: 1.0, ..empty }));
    let sealed = Holes { sealed: true, ..holes };
    assert!(at(&sealed).l1_norm() > 2.0 * at(&Holes { gap_factor: 1.0, ..sealed }).l1_norm());
}
