//! Mass, lifting, floors and stability against statics.

use std::f64::consts::PI;

use hushwright::enclosure::FREE_FALL;
use hushwright::workshop::carry::{LoadLevel, Mass, Standing, castors, floor_load, hanging, lift, together};
use hushwright::workshop::tipping::{Edge, OnFeet, foot_loads_n, swung, tipping};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

fn fixed(cases: u32) -> ProptestConfig {
    ProptestConfig { rng_seed: RngSeed::Fixed(20_261_125), failure_persistence: None, ..ProptestConfig::with_cases(cases) }
}

fn log(low: f64, high: f64) -> impl Strategy<Value = f64> {
    (low.ln()..high.ln()).prop_map(f64::exp)
}

fn any_mass() -> impl Strategy<Value = Mass> {
    (log(0.01, 1000.0), [-3.0..3.0, -3.0..3.0, 0.01..3.0]).prop_map(|(kg, at_m)| Mass { kg, at_m })
}

/// A stiff box on three of four corner feet: moments about both axes leave half of its weight on each of two opposite ones and
/// nothing on the third (statics). That is what rocks; the rating shares it among three.
#[test]
fn three_feet_of_four() {
    let feet = [[-0.5, -0.3], [0.5, -0.3], [0.5, 0.3]];
    let load = castors(90.0, 4);
    let carried = [load.rocking_kg, 0.0, load.rocking_kg];
    for axis in 0..2 {
        let moment: f64 = feet.iter().zip(carried).map(|(foot, kg)| foot[axis] * kg).sum();
        assert!(moment.abs() < 1e-12);
    }
    assert_eq!((carried.iter().sum::<f64>(), load.rated_kg), (90.0, 30.0));
}

/// 150 kg/m2 are 1.47 kPa and 204 kg/m2 are 2.00 kPa: just below and above the design load.
#[test]
fn design_load_of_dwellings() {
    let level = |kg: f64| {
        let standing = Standing { box_kg: kg, contents_kg: 0.0, people_kg: 0.0, footprint_m: [2.0, 0.5], feet: 4 };
        floor_load(&standing).level
    };
    assert_eq!([150.0, 180.0, 204.0].map(level), [LoadLevel::Below, LoadLevel::Within, LoadLevel::Above]);
}

proptest! {
    #![proptest_config(fixed(1000))]

    #[test]
    fn splitting_parts_moves_no_centre(
        parts in proptest::collection::vec(any_mass(), 1..12), share in 0.01..0.99_f64, offset in -1.0..1.0_f64,
    ) {
        let whole = together(&parts).expect("they weigh something");
        // Each in two pieces on either side of its centre, as the lever has it.
        let pieces: Vec<Mass> = parts.iter().flat_map(|part| {
            let moved = |by: f64| part.at_m.map(|at| at + by);
            [
                Mass { kg: share * part.kg, at_m: moved((1.0 - share) * offset) },
                Mass { kg: (1.0 - share) * part.kg, at_m: moved(-share * offset) },
            ]
        }).collect();
        let split = together(&pieces).expect("they weigh something");
        prop_assert!((split.kg / whole.kg - 1.0).abs() < 1e-12);
        for axis in 0..3 {
            prop_assert!((split.at_m[axis] - whole.at_m[axis]).abs() < 1e-9);
            let along = || parts.iter().map(|part| part.at_m[axis]);
            prop_assert!(along().any(|at| at <= whole.at_m[axis] + 1e-9) && along().any(|at| at >= whole.at_m[axis] - 1e-9));
        }
    }

    #[test]
    fn people_and_supports_carry_it(kg in log(1e-6, 1e6), more in log(1.0, 10.0), count in 0_usize..20) {
        let one = lift(kg);
        prop_assert!(one.each_kg <= 25.0 && (one.people == 1 || kg > 25.0 * f64::from(one.people - 1)));
        prop_assert!(lift(kg * more).people >= one.people);
        let (load, hung) = (castors(kg, count), hanging(kg, count));
        prop_assert!(load.rated_kg.is_finite() && load.rated_kg * count.max(2).saturating_sub(1) as f64 >= kg * (1.0 - 1e-12));
        prop_assert!(hung.breaking_kg >= 5.0 * hung.working_kg * (1.0 - 1e-12));
        prop_assert!(castors(kg, count + 1).rated_kg <= load.rated_kg);
    }

    #[test]
    fn floors_carry_weight_over_area(
        box_kg in log(1e-9, 1e9), contents_kg in log(1e-9, 1e9), people_kg in 0.0..1000.0,
        footprint_m in [log(1e-9, 1e9), log(1e-9, 1e9)], feet in 0_usize..100,
    ) {
        let load = floor_load(&Standing { box_kg, contents_kg, people_kg, footprint_m, feet });
        let numbers = [load.weight_n, load.pressure_kpa, load.share_of_low, load.share_of_high, load.per_foot_n, load.spread_m2];
        prop_assert!(numbers.into_iter().all(|number| number.is_finite() && number >= 0.0));
        // Spread over that area it is at 1.5 kN/m2.
        prop_assert!((load.weight_n / load.spread_m2 / 1500.0 - 1.0).abs() < 1e-12);
        prop_assert_eq!(load.level == LoadLevel::Below, load.share_of_low < 1.0);
        prop_assert_eq!(load.level == LoadLevel::Above, load.share_of_high > 1.0);
    }

    /// Turned by that angle about the edge, the centre is straight above it; and at that push the moments about it balance.
    #[test]
    fn at_the_tipping_angle_the_centre_is_above_the_edge(
        mass in any_mass(), support_m in [log(0.05, 5.0), log(0.05, 5.0)], push_m in log(0.01, 5.0),
    ) {
        let tips = tipping(&OnFeet { support_m, mass }, push_m);
        for tip in tips.edges {
            let (axis, sign) = match tip.edge {
                Edge::LengthStart => (0, -1.0),
                Edge::LengthEnd => (0, 1.0),
                Edge::WidthStart => (1, -1.0),
                Edge::WidthEnd => (1, 1.0),
            };
            let (out, up) = (sign * mass.at_m[axis] - 0.5 * support_m[axis], mass.at_m[2]);
            let (s, c) = tip.angle_deg.to_radians().sin_cos();
            prop_assert!((out * c + up * s).abs() < 1e-9 && tip.angle_deg.abs() < 90.0);
            prop_assert!(tip.push_n.is_finite());
            if tip.angle_deg > 0.0 {
                let (pushing, holding) = (tip.push_n * push_m, -out * FREE_FALL * mass.kg);
                prop_assert!((pushing / holding - 1.0).abs() < 1e-9);
            }
            prop_assert!(tips.weakest.angle_deg <= tip.angle_deg);
        }
    }

    /// Forces and moments of the feet balance the weight; all press on the floor only if the box does not fall.
    #[test]
    fn feet_are_in_equilibrium(mass in any_mass(), support_m in [log(0.05, 5.0), log(0.05, 5.0)]) {
        let standing = OnFeet { support_m, mass };
        let loads = foot_loads_n(&standing);
        let weight = FREE_FALL * mass.kg;
        let corners = [[-0.5, -0.5], [0.5, -0.5], [0.5, 0.5], [-0.5, 0.5]];
        let size: f64 = loads.iter().map(|load| load.abs()).sum();
        prop_assert!((loads.iter().sum::<f64>() - weight).abs() < 1e-9 * size);
        for axis in 0..2 {
            let moment: f64 = loads.iter().zip(corners).map(|(load, corner)| load * corner[axis] * support_m[axis]).sum();
            prop_assert!((moment - weight * mass.at_m[axis]).abs() < 1e-9 * size * support_m[axis]);
        }
        if loads.iter().all(|&load| load > 0.0) {
            prop_assert!(tipping(&standing, 1.0).weakest.angle_deg > 0.0);
        }
    }

    /// A lid keeps its distance from the hinge, and swung back it is where it was.
    #[test]
    fn a_lid_turns_about_its_hinge(
        lid in any_mass(), hinge in [-2.0..2.0, -2.0..2.0, 0.0..2.0], edge in 0_usize..4, angle in 0.0..PI,
    ) {
        let edge = Edge::ALL[edge];
        let open = swung(&lid, hinge, edge, angle);
        let distance = |mass: &Mass| (0..3).map(|axis| (mass.at_m[axis] - hinge[axis]).powi(2)).sum::<f64>().sqrt();
        prop_assert!((distance(&open) - distance(&lid)).abs() < 1e-12 && open.kg == lid.kg);
        let shut = swung(&open, hinge, edge, -angle);
        prop_assert!((0..3).all(|axis| (shut.at_m[axis] - lid.at_m[axis]).abs() < 1e-12));
    }
}
