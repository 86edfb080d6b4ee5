//! Carrying: corners and doors against a search of all positions, mass and stability against statics.

use std::f64::consts::{FRAC_PI_2, PI};

use hushwright::enclosure::FREE_FALL;
use hushwright::workshop::carry::{LoadLevel, Mass, Standing, castors, floor_load, hanging, lift, together};
use hushwright::workshop::passage::{Attitude, Carried, DOORS, Door, Passage, Stairs, Way, passage};
use hushwright::workshop::tipping::{Edge, OnFeet, foot_loads_n, swung, tipping};
use hushwright::workshop::turn::{breadth_round_corner_m, corridor_for_side_door_m, fits_turned, length_round_corner_m};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

/// A wall seen from above: from x0 to x1, from y0 to y1.
type Wall = [f64; 4];

/// Far enough away to be never reached.
const FAR: f64 = 100.0;

/// Positions of a rectangle: its centre on a grid, its angle in whole degrees.
struct Room<'a> {
    walls: &'a [Wall],
    rectangle: [f64; 2],
    x: [f64; 2],
    y: [f64; 2],
}

/// Distance of neighbouring positions in m.
const STEP: f64 = 0.02;
const DEGREES: usize = 180;

impl Room<'_> {
    /// Whether the rectangle touches no wall: some side of it or of the wall separates the two (separating axis theorem).
    fn free(&self, x: f64, y: f64, degrees: usize) -> bool {
        let (s, c) = (degrees as f64).to_radians().sin_cos();
        let [half_length, half_breadth] = self.rectangle.map(|side| 0.5 * side);
        self.walls.iter().all(|&[x0, x1, y0, y1]| {
            let (dx, dy) = (x - 0.5 * (x0 + x1), y - 0.5 * (y0 + y1));
            let (wx, wy) = (0.5 * (x1 - x0), 0.5 * (y1 - y0));
            dx.abs() >= wx + half_length * c.abs() + half_breadth * s.abs()
                || dy.abs() >= wy + half_length * s.abs() + half_breadth * c.abs()
                || (dx * c + dy * s).abs() >= half_length + wx * c.abs() + wy * s.abs()
                || (dy * c - dx * s).abs() >= half_breadth + wx * s.abs() + wy * c.abs()
        })
    }

    /// Whether the rectangle gets from `start`, lying along x, to any centre with a y of at least `goal_y`: every position that
    /// is next to one reached is tried.
    fn reaches(&self, start: [f64; 2], goal_y: f64) -> bool {
        let count = |[low, high]: [f64; 2]| ((high - low) / STEP).ceil() as usize + 1;
        let (columns, rows) = (count(self.x), count(self.y));
        let mut seen = vec![false; columns * rows * DEGREES];
        let place = |value: f64, low: f64| ((value - low) / STEP).round() as usize;
        let first = (place(start[0], self.x[0]), place(start[1], self.y[0]), 0);
        let mut open = vec![first];
        let mut any = false;
        while let Some((column, row, degrees)) = open.pop() {
            let index = (row * columns + column) * DEGREES + degrees;
            if seen[index] {
                continue;
            }
            seen[index] = true;
            let (x, y) = (self.x[0] + STEP * column as f64, self.y[0] + STEP * row as f64);
            if !self.free(x, y, degrees) {
                continue;
            }
            any = true;
            if y >= goal_y {
                return true;
            }
            open.push((column, row, (degrees + 1) % DEGREES));
            open.push((column, row, (degrees + DEGREES - 1) % DEGREES));
            open.extend((column > 0).then(|| (column - 1, row, degrees)));
            open.extend((column + 1 < columns).then_some((column + 1, row, degrees)));
            open.extend((row > 0).then(|| (column, row - 1, degrees)));
            open.extend((row + 1 < rows).then_some((column, row + 1, degrees)));
        }
        assert!(any, "it stands free at the start");
        false
    }
}

fn gets_round([a, b]: [f64; 2], [length, breadth]: [f64; 2]) -> bool {
    let walls = [[-FAR, 0.0, -FAR, FAR], [-FAR, FAR, -FAR, 0.0], [b, FAR, a, FAR]];
    let room = Room { walls: &walls, rectangle: [length, breadth], x: [0.0, b + 1.2 * length], y: [0.0, a + 1.2 * length] };
    room.reaches([b + length, 0.5 * a], a + length)
}

/// Whatever turns and shifts are tried, the right way round or the other: none gets a wider one round, and the widest less a few
/// steps of the grid does.
#[test]
fn no_path_at_all_takes_more_round_a_corner() {
    for (corridors, length) in
        [([1.0, 1.0], 1.3), ([1.0, 1.0], 2.0), ([0.7, 1.0], 1.1), ([1.0, 0.6], 1.5), ([0.5, 1.2], 1.3), ([1.2, 0.9], 1.25)]
    {
        let widest = breadth_round_corner_m(length, corridors);
        assert!(gets_round(corridors, [length, widest - 0.06]), "{corridors:?}, {length} x {widest}");
        assert!(!gets_round(corridors, [length, widest + 0.03]), "{corridors:?}, {length} x {widest}");
    }
    // Not longer than a corridor is wide: it slides, up to the width of the narrower one.
    assert!(gets_round([0.6, 1.0], [0.98, 0.56]) && !gets_round([0.6, 1.0], [0.98, 0.62]));
}

/// Sliding along the outer walls, at 20 000 angles: the inner corner stays outside of the widest rectangle, and comes into one
/// that is wider by a thousandth.
#[test]
fn the_inner_corner_just_stays_outside() {
    for (corridors @ [a, b], length) in [([1.0, 1.0], 1.3), ([0.7, 1.1], 1.8), ([1.0, 0.3], 1.01), ([2.0, 1.9], 5.0)] {
        let inside = |breadth: f64| {
            (0..=20_000).any(|step| {
                let (s, c) = (FRAC_PI_2 * f64::from(step) / 20_000.0).sin_cos();
                // From the end on the second wall, along the side and across it.
                let (dx, dy) = (b - length * c, a);
                let (along, across) = (dy * s - dx * c, dx * s + dy * c);
                (0.0..=length).contains(&along) && (0.0..breadth).contains(&across)
            })
        };
        let widest = breadth_round_corner_m(length, corridors);
        assert!(!inside(0.999 * widest) && inside(1.001 * widest), "{corridors:?}, {length}: {widest}");
    }
}

fn enters(corridor: f64, [length, breadth]: [f64; 2], door: f64, wall: f64) -> bool {
    let top = corridor + wall;
    let walls = [[-FAR, FAR, -FAR, 0.0], [-FAR, 0.0, corridor, top], [door, FAR, corridor, top]];
    let room = Room {
        walls: &walls,
        rectangle: [length, breadth],
        x: [-1.2 * length, door + 1.2 * length],
        y: [0.0, top + 0.8 * length],
    };
    room.reaches([-length, 0.5 * corridor], top + 0.6 * length)
}

#[test]
fn no_path_at_all_takes_more_through_a_side_door() {
    for (size, door, wall) in
        [([1.4, 0.6], 0.8, 0.0), ([1.4, 0.6], 0.8, 0.15), ([2.0, 0.5], 0.7, 0.3), ([1.0, 0.7], 0.8, 0.1), ([1.6, 0.3], 0.8, 0.15)]
    {
        let corridor = corridor_for_side_door_m(size[0], size[1], door, wall).expect("the door is wide enough");
        assert!(enters(corridor + 0.06, size, door, wall), "{size:?}, {door}, {wall}: {corridor}");
        assert!(!enters(corridor - 0.04, size, door, wall), "{size:?}, {door}, {wall}: {corridor}");
    }
    assert!(!enters(1.5, [1.2, 0.84], 0.8, 0.1), "broader than the door");
}

/// Extent along x of the part of a polygon between two heights: of its corners there and of its edges at the heights.
fn extent_between(corners: &[[f64; 2]; 4], low: f64, high: f64) -> f64 {
    let mut reach = [f64::INFINITY, f64::NEG_INFINITY];
    let mut take = |x: f64| reach = [reach[0].min(x), reach[1].max(x)];
    for (index, &[x, y]) in corners.iter().enumerate() {
        let [next_x, next_y] = corners[(index + 1) % 4];
        if (low..=high).contains(&y) {
            take(x);
        }
        for height in [low, high] {
            let share = (height - y) / (next_y - y);
            if (0.0..=1.0).contains(&share) {
                take(x + share * (next_x - x));
            }
        }
    }
    (reach[1] - reach[0]).max(0.0)
}

/// The rectangle is leaned step by step, one corner on the far wall; what is in the doorway is cut out of it and measured.
#[test]
fn what_pokes_into_the_doorway_is_no_wider_than_it() {
    for (size, door, wall) in
        [([1.4, 0.6], 0.8, 0.0), ([1.4, 0.6], 0.8, 0.15), ([2.0, 0.5], 0.7, 0.3), ([0.9, 0.75], 0.8, 0.1), ([3.0, 0.2], 0.8, 0.5)]
    {
        let [length, breadth] = size;
        let leaned = |length: f64, angle: f64| {
            let (s, c) = angle.sin_cos();
            [
                [0.0, breadth * c],
                [breadth * s, 0.0],
                [length * c + breadth * s, length * s],
                [length * c, length * s + breadth * c],
            ]
        };
        let enters = |corridor: f64| {
            (1..20_000)
                .map(|step| FRAC_PI_2 * f64::from(step) / 20_000.0)
                // From here on something endless of that breadth slides out.
                .take_while(|&angle| extent_between(&leaned(1e6, angle), corridor, corridor + wall) > door)
                .all(|angle| extent_between(&leaned(length, angle), corridor, corridor + wall) <= door)
        };
        let corridor = corridor_for_side_door_m(length, breadth, door, wall).expect("the door is wide enough");
        assert!(corridor < length, "end first would be trivial");
        assert!(enters(corridor + 1e-3) && !enters(corridor - 1e-3), "{size:?}, {door}, {wall}: {corridor}");
    }
}

/// A door at the end of a deep passage is a corner, but for the outer wall beyond it, which nothing has to touch.
#[test]
fn a_deep_doorway_is_no_worse_than_a_corner() {
    for (length, breadth) in [(1.4, 0.6), (2.0, 0.3), (1.1, 0.75)] {
        let corridor = corridor_for_side_door_m(length, breadth, 0.8, 1e6).expect("the door is wide enough");
        assert!(breadth_round_corner_m(length, [corridor - 1e-4, 0.8]) < breadth);
        let thin = corridor_for_side_door_m(length, breadth, 0.8, 0.1).expect("the door is wide enough");
        assert!(thin <= corridor + 1e-9);
    }
}

fn fixed(cases: u32) -> ProptestConfig {
    ProptestConfig { rng_seed: RngSeed::Fixed(20_261_125), failure_persistence: None, ..ProptestConfig::with_cases(cases) }
}

fn log(low: f64, high: f64) -> impl Strategy<Value = f64> {
    (low.ln()..high.ln()).prop_map(f64::exp)
}

fn any_way() -> impl Strategy<Value = Way> {
    let opening = || 0.5..1.5;
    let stairs = (opening(), any::<bool>()).prop_map(|(width_m, landing)| Stairs { width_m, landing });
    let option = proptest::option::of::<std::ops::Range<f64>>;
    (opening(), 1.5..2.2, 0.0..0.5, option(opening()), proptest::option::of([opening(), opening()]), proptest::option::of(stairs))
        .prop_map(|(width_m, height_m, wall_m, corridor_m, corner_m, stairs)| Way {
            door: Door { width_m, height_m },
            wall_m,
            corridor_m,
            corner_m,
            stairs,
        })
}

fn sides() -> impl Strategy<Value = [f64; 3]> {
    [log(0.2, 2.5), log(0.2, 2.5), log(0.2, 2.5)]
}

/// What passes of a passage, attitude by attitude.
fn verdicts(passage: &Passage) -> Vec<bool> {
    passage.attitudes.iter().map(|through| through.stopped_by.is_empty()).chain([passage.passes]).collect()
}

fn finite(passage: &Passage) -> bool {
    passage.attitudes.iter().all(|through| {
        let corners = [through.corner, through.landing];
        let numbers = through.door.needs_m.into_iter().chain(through.door.margin_m).chain([through.least_margin_m]);
        let corners = corners.into_iter().flatten().flat_map(|fit| [fit.widest_m, fit.margin_m, fit.plan_m[0], fit.plan_m[1]]);
        let side = through.side_door.into_iter().flat_map(|fit| [fit.margin_m, fit.corridor_needed_m.unwrap_or(0.0)]);
        let flight = through.flight.into_iter().flat_map(|fit| [fit.needs_m, fit.margin_m]);
        numbers.chain(corners).chain(side).chain(flight).all(f64::is_finite)
    })
}

proptest! {
    #![proptest_config(fixed(2000))]

    #[test]
    fn what_is_larger_passes_nowhere_where_the_smaller_does_not(
        size_m in sides(), more in [0.0..0.3, 0.0..0.3, 0.0..0.3], handles_m in 0.0..0.1, feet_m in 0.0..0.2, way in any_way(),
    ) {
        let small = Carried { size_m, handles_m, feet_m };
        let large = Carried { size_m: [0, 1, 2].map(|axis| size_m[axis] + more[axis]), ..small };
        let (small, large) = (passage(&small, &way), passage(&large, &way));
        for (small, large) in verdicts(&small).into_iter().zip(verdicts(&large)) {
            prop_assert!(small || !large);
        }
        prop_assert_eq!(small.passes, small.stopped_by().is_empty());
        prop_assert!(small.must_be_tipped == (small.passes && small.best != Attitude::Upright));
    }

    /// Length and width may change places, and where nothing says what is up, so may all three.
    #[test]
    fn the_order_of_sides_does_not_matter([l, w, h] in sides(), way in any_way()) {
        let of = |size_m: [f64; 3]| passage(&Carried::plain(size_m), &way);
        let (once, turned) = (of([l, w, h]), of([w, l, h]));
        prop_assert_eq!(once.through(Attitude::Upright), turned.through(Attitude::Upright));
        for size_m in [[w, l, h], [l, h, w], [h, w, l], [w, h, l], [h, l, w]] {
            prop_assert_eq!(of(size_m).passes, once.passes);
        }
    }

    /// Every opening a little wider: no margin of the way becomes smaller.
    #[test]
    fn wider_ways_stop_nothing_more(size_m in sides(), way in any_way(), more in 0.0..0.3) {
        let carried = Carried::plain(size_m);
        let wider = Way {
            door: Door { width_m: way.door.width_m + more, height_m: way.door.height_m + more },
            corridor_m: way.corridor_m.map(|width| width + more),
            corner_m: way.corner_m.map(|widths| widths.map(|width| width + more)),
            stairs: way.stairs.map(|stairs| Stairs { width_m: stairs.width_m + more, ..stairs }),
            ..way
        };
        for (before, after) in verdicts(&passage(&carried, &way)).into_iter().zip(verdicts(&passage(&carried, &wider))) {
            prop_assert!(after || !before);
        }
    }

    #[test]
    fn turns_have_no_scale(l in log(0.2, 4.0), w in log(0.1, 2.0), a in log(0.3, 2.0), b in log(0.3, 2.0), scale in log(1e-6, 1e6)) {
        let near = |one: f64, other: f64| (one - other).abs() < 1e-9 * (1.0 + l);
        prop_assert!(near(breadth_round_corner_m(l, [a, b]), breadth_round_corner_m(scale * l, [scale * a, scale * b]) / scale));
        prop_assert!(near(breadth_round_corner_m(l, [a, b]), breadth_round_corner_m(l, [b, a])));
        let (once, scaled) = (corridor_for_side_door_m(l, w, a, 0.1), corridor_for_side_door_m(scale * l, scale * w, scale * a, scale * 0.1));
        prop_assert_eq!(once.is_some(), scaled.is_some());
        prop_assert!(near(once.unwrap_or(0.0), scaled.unwrap_or(0.0) / scale));
        prop_assert_eq!(once, corridor_for_side_door_m(w, l, a, 0.1));
    }

    /// The longest of a breadth and the widest of that length are the same rectangle, and the ladder is longer.
    #[test]
    fn longest_and_widest_agree(w in log(0.01, 1.0), a in log(0.3, 2.0), b in log(0.3, 2.0)) {
        match length_round_corner_m(w, [a, b]) {
            None => prop_assert!(w > a.min(b)),
            Some(length) => {
                let ladder = (a.powf(2.0 / 3.0) + b.powf(2.0 / 3.0)).powf(1.5);
                prop_assert!(length < ladder && length >= a.max(b));
                prop_assert!(breadth_round_corner_m(length, [a, b]) >= w - 1e-9);
                prop_assert!(breadth_round_corner_m(length * 1.000_001, [a, b]) < w);
            }
        }
    }

    /// Turned by every one of 4000 angles.
    #[test]
    fn a_leaned_rectangle(p in log(0.1, 3.0), q in log(0.1, 3.0), a in log(0.1, 3.0), b in log(0.1, 3.0)) {
        let by_turning = |share: f64| (0..4000).any(|step| {
            let (s, c) = (FRAC_PI_2 * f64::from(step) / 3999.0).sin_cos();
            share * (p * c + q * s) <= a && share * (p * s + q * c) <= b
        });
        // What is between fits only at angles between those tried.
        if by_turning(1.0) {
            prop_assert!(fits_turned([p, q], [a, b]));
        } else if !by_turning(0.999) {
            prop_assert!(!fits_turned([p, q], [a, b]));
        }
    }

    #[test]
    fn passages_are_finite(
        size_m in [log(1e-9, 1e9), log(1e-9, 1e9), log(1e-9, 1e9)], out in [log(1e-9, 1e9), log(1e-9, 1e9)],
        clear in [log(1e-9, 1e9), log(1e-9, 1e9), log(1e-9, 1e9), log(1e-9, 1e9), log(1e-9, 1e9), log(1e-9, 1e9)], wall_m in log(1e-9, 1e9),
    ) {
        let [width_m, height_m, corridor, one, other, stairs] = clear;
        let way = Way {
            door: Door { width_m, height_m },
            wall_m,
            corridor_m: Some(corridor),
            corner_m: Some([one, other]),
            stairs: Some(Stairs { width_m: stairs, landing: true }),
        };
        prop_assert!(finite(&passage(&Carried { size_m, handles_m: out[0], feet_m: out[1] }, &way)));
        prop_assert!(corridor_for_side_door_m(size_m[0], size_m[1], width_m, wall_m).is_none_or(f64::is_finite));
        prop_assert!(length_round_corner_m(size_m[0], [one, other]).is_none_or(f64::is_finite));
    }
}

/// Opened at a right angle, an interior leaf 36 in wide leaves at least the 32 in that doors for wheelchairs must have (ADA
/// Standards 404.2.3; from memory), one 32 in wide does not.
#[test]
fn a_leaf_of_36_inches_leaves_32() {
    let width = |key: &str| DOORS.iter().find(|preset| preset.key == key).expect("it is in the table").door.width_m;
    assert!(width("leaf-36-in") > 32.0 * 0.0254 && width("leaf-32-in") < 32.0 * 0.0254);
}

/// Common practice, no source: a 700 mm box passes a leaf of 860 mm, not one of 735 mm unless it is tipped.
#[test]
fn a_box_and_two_leaves() {
    let of = |key: &str, height_m: f64| {
        let door = DOORS.iter().find(|preset| preset.key == key).expect("it is in the table").door;
        passage(&Carried::plain([1.1, 0.7, height_m]), &Way::door(door))
    };
    assert!(of("leaf-860", 0.7).passes && !of("leaf-860", 0.7).must_be_tipped);
    assert!(!of("leaf-735", 0.7).passes);
    assert_eq!((of("leaf-735", 0.5).best, of("leaf-735", 0.5).must_be_tipped), (Attitude::OnSide, true));
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
    fn splitting_parts_moves_no_centre(parts in proptest::collection::vec(any_mass(), 1..12), share in 0.01..0.99, offset in -1.0..1.0) {
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
    fn at_the_tipping_angle_the_centre_is_above_the_edge(mass in any_mass(), support_m in [log(0.05, 5.0), log(0.05, 5.0)], push_m in log(0.01, 5.0)) {
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
        let loads = foot_loads_n(&OnFeet { support_m, mass });
        let weight = FREE_FALL * mass.kg;
        let corners = [[-0.5, -0.5], [0.5, -0.5], [0.5, 0.5], [-0.5, 0.5]];
        let size: f64 = loads.iter().map(|load| load.abs()).sum();
        prop_assert!((loads.iter().sum::<f64>() - weight).abs() < 1e-9 * size);
        for axis in 0..2 {
            let moment: f64 = loads.iter().zip(corners).map(|(load, corner)| load * corner[axis] * support_m[axis]).sum();
            prop_assert!((moment - weight * mass.at_m[axis]).abs() < 1e-9 * size * support_m[axis]);
        }
        if loads.iter().all(|&load| load > 0.0) {
            prop_assert!(tipping(&OnFeet { support_m, mass }, 1.0).weakest.angle_deg > 0.0);
        }
    }

    /// A lid keeps its distance from the hinge, and swung back it is where it was.
    #[test]
    fn a_lid_turns_about_its_hinge(lid in any_mass(), hinge in [-2.0..2.0, -2.0..2.0, 0.0..2.0], edge in 0_usize..4, angle in 0.0..PI) {
        let edge = Edge::ALL[edge];
        let open = swung(&lid, hinge, edge, angle);
        let distance = |mass: &Mass| (0..3).map(|axis| (mass.at_m[axis] - hinge[axis]).powi(2)).sum::<f64>().sqrt();
        prop_assert!((distance(&open) - distance(&lid)).abs() < 1e-12 && open.kg == lid.kg);
        let shut = swung(&open, hinge, edge, -angle);
        prop_assert!((0..3).all(|axis| (shut.at_m[axis] - lid.at_m[axis]).abs() < 1e-12));
    }
}
