//! Corners, doors and stairs against a search of all positions and closed forms.

use std::f64::consts::FRAC_PI_2;
use std::ops::Range;

use hushwright::workshop::passage::{Attitude, Carried, DOORS, Door, Passage, Stairs, Way, passage};
use hushwright::workshop::turn::{breadth_round_corner_m, corridor_for_side_door_m, fits_turned, length_round_corner_m};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

/// A wall seen from above: from x0 to x1, from y0 to y1.
type Wall = [f64; 4];

/// Far enough away to be never reached.
const FAR: f64 = 100.0;

/// Positions of a rectangle: its centre on a grid, its angle in half degrees.
struct Room<'a> {
    walls: &'a [Wall],
    rectangle: [f64; 2],
    x: [f64; 2],
    y: [f64; 2],
}

/// Distance of neighbouring positions in m.
const STEP: f64 = 0.01;
/// Half degrees in half a turn, after which a rectangle is as before.
const ANGLES: usize = 360;

impl Room<'_> {
    /// Whether the rectangle touches no wall: some side of it or of the wall separates the two (separating axis theorem).
    fn free(&self, x: f64, y: f64, half_degrees: usize) -> bool {
        let (s, c) = (0.5 * half_degrees as f64).to_radians().sin_cos();
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
        let mut seen = vec![false; columns * rows * ANGLES];
        let place = |value: f64, low: f64| ((value - low) / STEP).round() as usize;
        let first = (place(start[0], self.x[0]), place(start[1], self.y[0]), 0);
        let mut open = vec![first];
        let mut any = false;
        while let Some((column, row, half_degrees)) = open.pop() {
            let index = (row * columns + column) * ANGLES + half_degrees;
            if seen[index] {
                continue;
            }
            seen[index] = true;
            let (x, y) = (self.x[0] + STEP * column as f64, self.y[0] + STEP * row as f64);
            if !self.free(x, y, half_degrees) {
                continue;
            }
            any = true;
            if y >= goal_y {
                return true;
            }
            open.push((column, row, (half_degrees + 1) % ANGLES));
            open.push((column, row, (half_degrees + ANGLES - 1) % ANGLES));
            open.extend((column > 0).then(|| (column - 1, row, half_degrees)));
            open.extend((column + 1 < columns).then_some((column + 1, row, half_degrees)));
            open.extend((row > 0).then(|| (column, row - 1, half_degrees)));
            open.extend((row + 1 < rows).then_some((column, row + 1, half_degrees)));
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
    assert!(gets_round([1.0, 0.6], [0.98, 0.56]) && !gets_round([1.0, 0.6], [0.98, 0.62]));
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

/// Whether a rectangle gets from a corridor into a door by leaning step by step, one corner on the far wall, until it can slide
/// out along itself: what is in the doorway is cut out of it and measured.
fn leans_in(corridor: f64, [length, breadth]: [f64; 2], door: f64, wall: f64) -> bool {
    let leaned = |length: f64, angle: f64| {
        let (s, c) = angle.sin_cos();
        let across = [length * c + breadth * s, length * s];
        [[0.0, breadth * c], [breadth * s, 0.0], across, [length * c, length * s + breadth * c]]
    };
    let fits = |length: f64, angle: f64| extent_between(&leaned(length, angle), corridor, corridor + wall) <= door;
    (1..10_000)
        .map(|step| FRAC_PI_2 * f64::from(step) / 10_000.0)
        // From here on something endless of that breadth slides out.
        .take_while(|&angle| !fits(1e6, angle))
        .all(|angle| fits(length, angle))
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
    let option = proptest::option::of::<Range<f64>>;
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
    fn turns_have_no_scale(
        l in log(0.2, 4.0), w in log(0.1, 2.0), a in log(0.3, 2.0), b in log(0.3, 2.0), scale in log(1e-6, 1e6),
    ) {
        let near = |one: f64, other: f64| (one - other).abs() < 1e-9 * (1.0 + l);
        prop_assert!(near(breadth_round_corner_m(l, [a, b]), breadth_round_corner_m(scale * l, [scale * a, scale * b]) / scale));
        prop_assert!(near(breadth_round_corner_m(l, [a, b]), breadth_round_corner_m(l, [b, a])));
        let once = corridor_for_side_door_m(l, w, a, 0.1);
        let scaled = corridor_for_side_door_m(scale * l, scale * w, scale * a, scale * 0.1);
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

    /// The longest of a breadth that fits at any of 4000 angles fits, and one that is longer by half a hundredth does not.
    #[test]
    fn a_leaned_rectangle(a in log(0.3, 3.0), b in log(0.3, 3.0), part in 0.01..0.99_f64) {
        let q = part * a.min(b);
        let longest = (1..4000)
            .map(|step| (FRAC_PI_2 * f64::from(step) / 4000.0).sin_cos())
            .map(|(s, c)| ((a - q * s) / c).min((b - q * c) / s))
            .fold(a.max(b), f64::max);
        for [one, other] in [[0, 1], [1, 0]] {
            let turned = |p: f64| fits_turned([[p, q][one], [p, q][other]], [a, b]);
            prop_assert!(turned(longest * (1.0 - 1e-9)) && !turned(1.005 * longest));
        }
    }

    #[test]
    fn what_pokes_into_the_doorway_is_no_wider_than_it(
        longer in log(1.001, 6.0), part in 0.05..0.999, door in 0.5..1.2, wall in prop_oneof![Just(0.0), 0.0..0.5],
    ) {
        let (length, breadth) = (longer * door, part * door);
        let corridor = corridor_for_side_door_m(length, breadth, door, wall).expect("the door is wide enough");
        prop_assert!(corridor >= breadth && corridor <= length);
        let enters = |corridor: f64| leans_in(corridor, [length, breadth], door, wall);
        // As wide as it is long the corridor lets it go in end first; as wide as it is broad is the least in which it lies.
        prop_assert!(corridor == length || enters(corridor + 2e-3));
        prop_assert!(corridor == breadth || !enters(corridor - 2e-3));
    }

    #[test]
    fn passages_are_finite(
        lengths in proptest::collection::vec(log(1e-9, 1e9), 12),
    ) {
        let [l, w, h, handles_m, feet_m, width_m, height_m, wall_m, corridor, one, other, stairs] = lengths[..] else {
            return Err(TestCaseError::fail("twelve lengths"));
        };
        let size_m = [l, w, h];
        let way = Way {
            door: Door { width_m, height_m },
            wall_m,
            corridor_m: Some(corridor),
            corner_m: Some([one, other]),
            stairs: Some(Stairs { width_m: stairs, landing: true }),
        };
        let carried = Carried { size_m, handles_m, feet_m };
        prop_assert!(finite(&passage(&carried, &way)));
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
