//! Whether a box, or a piece of it, passes a door, corridors and stairs.

use serde::{Deserialize, Serialize};

use super::turn::{breadth_round_corner_m, corridor_for_side_door_m, fits_turned, must_turn};
use crate::units::METRES_PER_INCH;

/// Room for hands on each side at a door and in a corridor, in m (common practice, no source).
pub const HANDS_AT_DOOR_M: f64 = 0.010;
/// Room for hands on each side on stairs, where people hold on to it beside it, in m (common practice, no source).
pub const HANDS_ON_STAIRS_M: f64 = 0.050;
/// Less than this in m is rounding, not a lack of room.
const ROUNDING_M: f64 = 5e-5;

/// What is carried: a box with what sticks out of it. Lengths in m, positive; what sticks out may be zero.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Carried {
    /// Outside length, width and height.
    pub size_m: [f64; 3],
    /// What a handle sticks out at each of the two ends of the length.
    pub handles_m: f64,
    /// Height of feet or castors below; zero where they are taken off.
    pub feet_m: f64,
}

impl Carried {
    /// A plain box: a shell or a piece without handles and feet.
    pub fn plain(size_m: [f64; 3]) -> Self {
        Self { size_m, handles_m: 0.0, feet_m: 0.0 }
    }

    /// The same without its feet.
    #[must_use]
    pub fn without_feet(self) -> Self {
        Self { feet_m: 0.0, ..self }
    }
}

/// How it stands while it is carried; about a vertical axis it may be turned in each.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Attitude {
    /// On its feet.
    Upright,
    /// Tipped about its length: its width is upright.
    OnSide,
    /// Tipped on one end: its length is upright.
    OnEnd,
}

impl Attitude {
    /// All of them, the one that asks least of people first.
    pub const ALL: [Self; 3] = [Self::Upright, Self::OnSide, Self::OnEnd];

    /// Longer and shorter side in plan, and height, in m, with handles and feet.
    pub fn outline_m(self, carried: &Carried) -> [f64; 3] {
        let [length, width, height] = carried.size_m;
        let (length, height) = (length + 2.0 * carried.handles_m, height + carried.feet_m);
        let (one, other, upright) = match self {
            Self::Upright => (length, width, height),
            Self::OnSide => (length, height, width),
            Self::OnEnd => (width, height, length),
        };
        [one.max(other), one.min(other), upright]
    }
}

/// The clear opening of a door.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Door {
    /// Clear width in m.
    pub width_m: f64,
    /// Clear height in m.
    pub height_m: f64,
}

/// A usual door.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DoorPreset {
    /// Key in a document.
    pub key: &'static str,
    /// Name for people: the size of its leaf.
    pub name: &'static str,
    /// Its clear opening.
    pub door: Door,
}

/// What a leaf that stands open at a right angle, about 40 mm thick, and the stop on the other side take of its width, in m
/// (common practice, no source).
const LEAF_TAKES_WIDTH_M: f64 = 0.060;
/// What the stop above and a threshold take of the height of a leaf, in m (common practice, no source).
const LEAF_TAKES_HEIGHT_M: f64 = 0.020;

const fn preset(key: &'static str, name: &'static str, width_m: f64, height_m: f64) -> DoorPreset {
    let door = Door { width_m: width_m - LEAF_TAKES_WIDTH_M, height_m: height_m - LEAF_TAKES_HEIGHT_M };
    DoorPreset { key, name, door }
}

/// Doors inside dwellings by the nominal size of their leaves, less what the open leaf, stops and threshold take (common
/// practice, no source: measure the door). Leaves of 735 and 860 mm hang in wall openings of about 760 and 885 mm. A leaf
/// that is taken off its hinges gives back its thickness.
pub const DOORS: [DoorPreset; 8] = [
    preset("leaf-610", "610 x 1985 mm", 0.610, 1.985),
    preset("leaf-735", "735 x 1985 mm", 0.735, 1.985),
    preset("leaf-860", "860 x 1985 mm", 0.860, 1.985),
    preset("leaf-985", "985 x 1985 mm", 0.985, 1.985),
    preset("leaf-28-in", "28 x 80 in", 28.0 * METRES_PER_INCH, 80.0 * METRES_PER_INCH),
    preset("leaf-30-in", "30 x 80 in", 30.0 * METRES_PER_INCH, 80.0 * METRES_PER_INCH),
    preset("leaf-32-in", "32 x 80 in", 32.0 * METRES_PER_INCH, 80.0 * METRES_PER_INCH),
    preset("leaf-36-in", "36 x 80 in", 36.0 * METRES_PER_INCH, 80.0 * METRES_PER_INCH),
];

/// Stairs between walls or rails.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Stairs {
    /// Clear width in m.
    pub width_m: f64,
    /// Whether they turn by a right angle on a landing of the same width.
    pub landing: bool,
}

/// Where it has to pass. Lengths in m, positive; the thickness of the wall may be zero.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Way {
    /// The narrowest door.
    pub door: Door,
    /// Thickness of the wall of that door.
    pub wall_m: f64,
    /// Width of the corridor in whose side wall the door is, if it has to be entered from one. The corridor runs on past it.
    pub corridor_m: Option<f64>,
    /// Widths of two corridors that meet at a right angle, if there is such a corner.
    pub corner_m: Option<[f64; 2]>,
    /// Stairs, if there are any. Their headroom is not looked at.
    pub stairs: Option<Stairs>,
}

impl Way {
    /// A door and nothing else.
    pub fn door(door: Door) -> Self {
        Self { door, wall_m: 0.0, corridor_m: None, corner_m: None, stairs: None }
    }
}

/// What stops it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Obstacle {
    /// The clear width of the door.
    DoorWidth,
    /// The clear height of the door.
    DoorHeight,
    /// The turn from the corridor into the door.
    SideDoor,
    /// The corner of two corridors.
    Corner,
    /// The clear width of a flight of stairs.
    Flight,
    /// The turn on the landing.
    Landing,
}

/// How it fits a door, hands included. Lengths in m.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct DoorFit {
    /// Smallest clear width and height that it needs.
    pub needs_m: [f64; 2],
    /// What is left of width and height; negative where it lacks.
    pub margin_m: [f64; 2],
    /// Whether it passes.
    pub passes: bool,
    /// Whether its cross-section passes at least leaned over about the way it goes.
    pub passes_leaned: bool,
}

/// How it fits round a corner, hands included. Lengths in m.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct CornerFit {
    /// Longer and shorter side in plan.
    pub plan_m: [f64; 2],
    /// The widest of that length that gets round; negative where even a rod is stuck.
    pub widest_m: f64,
    /// What is left of the width; negative where it lacks.
    pub margin_m: f64,
    /// Whether it has to be turned: it is longer than either corridor is wide.
    pub turned: bool,
    /// Whether it passes.
    pub passes: bool,
}

/// How it fits from a corridor through a door in its side, hands included. Lengths in m.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct SideDoorFit {
    /// Narrowest corridor from which it gets into the door; `None` where the door is too narrow for it from anywhere.
    pub corridor_needed_m: Option<f64>,
    /// What is left of the corridor, or what the door lacks if that is too narrow.
    pub margin_m: f64,
    /// Whether it passes.
    pub passes: bool,
}

/// How it fits a straight flight, hands included. Lengths in m.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct FlightFit {
    /// Smallest clear width that it needs.
    pub needs_m: f64,
    /// What is left of the width; negative where it lacks.
    pub margin_m: f64,
    /// Whether it passes.
    pub passes: bool,
}

/// One attitude kept all the way.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Through {
    /// Which.
    pub attitude: Attitude,
    /// The door.
    pub door: DoorFit,
    /// From the corridor into the door.
    pub side_door: Option<SideDoorFit>,
    /// The corner of two corridors.
    pub corner: Option<CornerFit>,
    /// The flight of stairs.
    pub flight: Option<FlightFit>,
    /// The turn on the landing.
    pub landing: Option<CornerFit>,
    /// What stops it; empty where it passes.
    pub stopped_by: Vec<Obstacle>,
    /// The smallest of all margins in m; negative where it is stopped.
    pub least_margin_m: f64,
}

/// Whether and how it passes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Passage {
    /// Every attitude, upright first.
    pub attitudes: [Through; 3],
    /// Upright where that passes; else the one with most room to spare, or that lacks least.
    pub best: Attitude,
    /// Whether some attitude passes all the way.
    pub passes: bool,
    /// Whether it passes only tipped on its side or end.
    pub must_be_tipped: bool,
}

impl Passage {
    /// What is to be said about `attitude`.
    pub fn through(&self, attitude: Attitude) -> &Through {
        &self.attitudes[attitude as usize]
    }

    /// What stops it in the attitude in which it lacks least; empty where it passes.
    pub fn stopped_by(&self) -> &[Obstacle] {
        &self.through(self.best).stopped_by
    }
}

/// How `carried` passes `way`: for the whole box, a shell or a piece alone. One attitude is kept all the way.
///
/// Finite for lengths whose sums are.
pub fn passage(carried: &Carried, way: &Way) -> Passage {
    let attitudes = Attitude::ALL.map(|attitude| through(attitude, carried, way));
    let [upright, on_side, on_end] = &attitudes;
    let tipped = if on_end.least_margin_m > on_side.least_margin_m { on_end } else { on_side };
    let stands = enough(upright.least_margin_m);
    let best = if stands || upright.least_margin_m >= tipped.least_margin_m { upright } else { tipped };
    let (best, passes) = (best.attitude, enough(best.least_margin_m));
    Passage { best, passes, must_be_tipped: passes && !stands, attitudes }
}

fn enough(margin_m: f64) -> bool {
    margin_m >= -ROUNDING_M
}

/// How `carried` passes `way`, standing as `attitude` says.
fn through(attitude: Attitude, carried: &Carried, way: &Way) -> Through {
    let [length, breadth, height] = attitude.outline_m(carried);
    let with_hands = |each_side_m: f64| [length, breadth, height].map(|side| side + 2.0 * each_side_m);
    let [long, broad, high] = with_hands(HANDS_AT_DOOR_M);
    let [stairs_long, stairs_broad, _] = with_hands(HANDS_ON_STAIRS_M);

    let door = door_fit([broad, high], way.door);
    let side_door = way.corridor_m.map(|corridor_m| side_door_fit([long, broad], corridor_m, way));
    let corner = way.corner_m.map(|corridors_m| corner_fit([long, broad], corridors_m));
    let flight = way.stairs.map(|stairs| {
        let margin_m = stairs.width_m - stairs_broad;
        FlightFit { needs_m: stairs_broad, margin_m, passes: enough(margin_m) }
    });
    let landing =
        way.stairs.filter(|stairs| stairs.landing).map(|stairs| corner_fit([stairs_long, stairs_broad], [stairs.width_m; 2]));

    let margins = [
        (Obstacle::DoorWidth, Some(door.margin_m[0])),
        (Obstacle::DoorHeight, Some(door.margin_m[1])),
        (Obstacle::SideDoor, side_door.map(|fit| fit.margin_m)),
        (Obstacle::Corner, corner.map(|fit| fit.margin_m)),
        (Obstacle::Flight, flight.map(|fit| fit.margin_m)),
        (Obstacle::Landing, landing.map(|fit| fit.margin_m)),
    ];
    let known = || margins.iter().filter_map(|&(obstacle, margin_m)| Some((obstacle, margin_m?)));
    let stopped_by = known().filter(|&(_, margin_m)| !enough(margin_m)).map(|(obstacle, _)| obstacle).collect();
    let least_margin_m = known().map(|(_, margin_m)| margin_m).fold(door.margin_m[0], f64::min);
    Through { attitude, door, side_door, corner, flight, landing, stopped_by, least_margin_m }
}

fn door_fit(needs_m: [f64; 2], door: Door) -> DoorFit {
    let clear_m = [door.width_m, door.height_m];
    let margin_m = [0, 1].map(|side| clear_m[side] - needs_m[side]);
    let passes = margin_m.into_iter().all(enough);
    DoorFit { needs_m, margin_m, passes, passes_leaned: passes || fits_turned(needs_m, clear_m) }
}

fn corner_fit(plan_m: [f64; 2], corridors_m: [f64; 2]) -> CornerFit {
    let widest_m = breadth_round_corner_m(plan_m[0], corridors_m);
    let margin_m = widest_m - plan_m[1];
    CornerFit { plan_m, widest_m, margin_m, turned: must_turn(plan_m[0], corridors_m), passes: enough(margin_m) }
}

fn side_door_fit([long, broad]: [f64; 2], corridor_m: f64, way: &Way) -> SideDoorFit {
    let corridor_needed_m = corridor_for_side_door_m(long, broad, way.door.width_m, way.wall_m);
    let margin_m = corridor_needed_m.map_or(way.door.width_m - broad, |needed_m| corridor_m - needed_m);
    SideDoorFit { corridor_needed_m, margin_m, passes: enough(margin_m) }
}

#[cfg(test)]
mod tests {
    use super::*;

    const DOOR: Door = Door { width_m: 0.8, height_m: 2.0 };

    #[test]
    fn a_door_needs_the_shorter_side_and_room_for_hands() {
        let carried = Carried { size_m: [1.2, 0.7, 0.9], handles_m: 0.05, feet_m: 0.1 };
        let passage = passage(&carried, &Way::door(DOOR));
        let fit = passage.through(Attitude::Upright).door;
        for (got, by_hand) in fit.needs_m.into_iter().chain(fit.margin_m).zip([0.72, 1.02, 0.08, 0.98]) {
            assert!((got - by_hand).abs() < 1e-12, "{fit:?}");
        }
        assert!(passage.passes && !passage.must_be_tipped && passage.stopped_by().is_empty());
        // On its end the handles count, feet and width are in plan.
        assert_eq!(Attitude::OnEnd.outline_m(&carried), [1.0, 0.7, 1.3]);
    }

    #[test]
    fn a_low_broad_one_is_tipped_on_its_side() {
        let passage = passage(&Carried::plain([2.5, 0.9, 0.5]), &Way::door(DOOR));
        assert_eq!((passage.best, passage.must_be_tipped), (Attitude::OnSide, true));
        assert_eq!(passage.through(Attitude::Upright).stopped_by, [Obstacle::DoorWidth]);
        assert_eq!(passage.through(Attitude::OnEnd).stopped_by, [Obstacle::DoorHeight]);
    }

    #[test]
    fn exactly_what_it_needs_is_enough_and_feet_may_be_what_lacks() {
        let carried = Carried { size_m: [0.78, 0.78, 1.98], handles_m: 0.0, feet_m: 0.06 };
        let of = |carried: &Carried| passage(carried, &Way::door(DOOR)).through(Attitude::Upright).stopped_by.clone();
        assert_eq!(of(&carried), [Obstacle::DoorHeight]);
        assert_eq!(of(&carried.without_feet()), []);
    }

    #[test]
    fn every_obstacle_is_told() {
        use Obstacle::{Corner, DoorHeight, DoorWidth, Flight, Landing, SideDoor};

        let stairs = Some(Stairs { width_m: 0.8, landing: true });
        let way = Way { door: DOOR, wall_m: 0.1, corridor_m: Some(0.9), corner_m: Some([0.9, 0.9]), stairs };
        let all = passage(&Carried::plain([3.0, 3.0, 3.0]), &way);
        assert_eq!(all.stopped_by(), [DoorWidth, DoorHeight, SideDoor, Corner, Flight, Landing]);
        // 0.72 m broad passes door and corridor, but not stairs where hands take 50 mm.
        let some = passage(&Carried::plain([0.75, 0.72, 0.72]), &way);
        assert_eq!(some.stopped_by(), [Flight, Landing]);
    }

    #[test]
    fn keys_of_doors_differ_and_leaves_are_larger_than_openings() {
        for (place, preset) in DOORS.iter().enumerate() {
            assert!(DOORS[..place].iter().all(|other| other.key != preset.key && other.name != preset.name));
            assert!((0.5..0.95).contains(&preset.door.width_m) && (1.9..2.04).contains(&preset.door.height_m));
        }
    }
}
