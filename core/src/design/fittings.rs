//! Checks of what is fitted to the boxes: baffle, braces, lids, holes, supports, vents, and what the supports carry.

use crate::buildup::check::{Problems, tidy};
use crate::enclosure::{BraceKind, Braces, Holes, Lid, Lining, Spring, Support, SupportKind, Vents, stiffness_from_test};
use crate::error::FieldError;
use crate::geometry::surface_area_m2;
use crate::workshop::bill;

use super::build::BuildPart;
use super::check::{Baffle, CheckedDesign, check_lining, check_one_sheet, limits};
use super::document::{BafflePart, BracesPart, HolesPart, LidPart, SupportPart, VentsPart};

/// A whole number within `range`, else an error that says so.
pub fn whole(p: &mut Problems, path: &str, value: f64, range: (f64, f64), why: &str) -> usize {
    let value = p.within(path, value, range, "", why);
    if value.fract() != 0.0 {
        p.push(path, format!("allowed are the whole numbers {} to {}: {why}", range.0, range.1));
    }
    value as usize
}

/// The baffle of a box `length_m` long inside.
pub fn check_baffle(p: &mut Problems, baffle: &BafflePart, length_m: f64, lining: Option<&Lining>) -> Option<Baffle> {
    let laminate = check_one_sheet(p, "inner.baffle", &baffle.sheet, baffle.thickness_mm)?;
    // In front of the baffle and behind it the lining of the end needs its place, and the driver some air.
    let least_mm = limits::REAR_MM.0 + lining.map_or(0.0, |lining| 1000.0 * lining.thickness_m);
    let most_mm = (1000.0 * (length_m - laminate.thickness_m()) - least_mm).min(limits::REAR_MM.1);
    if most_mm < least_mm {
        p.push("inner.baffle.rear_mm", "the box is too short for a chamber on either side of a baffle");
        return None;
    }
    let why = "either chamber needs room for its lining and the driver";
    let rear_mm = p.within("inner.baffle.rear_mm", baffle.rear_mm, (least_mm, most_mm), "mm", why);
    Some(Baffle { rear_m: rear_mm / 1000.0, laminate })
}

/// Braces of faces `length_m` long that have `room_mm` in front of them; shelves only where `shelves_fit`.
pub fn check_braces(p: &mut Problems, path: &str, braces: &BracesPart, length_m: f64, room_mm: f64, shelves_fit: bool) -> Braces {
    let count = whole(p, &format!("{path}.count"), braces.count, limits::BRACES, "none is no braces");
    let width_mm = p.within(&format!("{path}.width_mm"), braces.width_mm, limits::BRACE_WIDTH_MM, "mm", "strips and battens");
    // Inside, battens must leave the middle free and shelves need not; round an inner box all that is there is the gap.
    let deepest = match (shelves_fit, braces.kind) {
        (true, BraceKind::Shelves) => limits::BRACE_DEPTH_MM.1,
        (true, BraceKind::Battens) => limits::BRACE_DEPTH_MM.1.min(0.4 * room_mm.max(0.0)),
        (false, _) => limits::BRACE_DEPTH_MM.1.min(room_mm),
    };
    if braces.kind == BraceKind::Shelves && !shelves_fit {
        p.push(format!("{path}.kind"), "only battens fit here: the inner box is in the way of shelves");
    } else if deepest < limits::BRACE_DEPTH_MM.0 {
        p.push(format!("{path}.depth_mm"), "there is no room for braces here");
    }
    let range = (limits::BRACE_DEPTH_MM.0, deepest.max(limits::BRACE_DEPTH_MM.0));
    let why = if shelves_fit { "deeper ones meet in the middle" } else { "the gap has room for no more" };
    let depth_mm = p.within(&format!("{path}.depth_mm"), braces.depth_mm, range, "mm", why);
    let bay_mm = (1000.0 * length_m - count as f64 * width_mm) / (count as f64 + 1.0);
    if bay_mm < limits::BAY_MM {
        let most = ((1000.0 * length_m - limits::BAY_MM) / (limits::BAY_MM + width_mm)).floor().max(0.0);
        p.push(
            format!("{path}.count"),
            format!("allowed are at most {most} here: between braces there must stay {} mm", limits::BAY_MM),
        );
    }
    Braces { kind: braces.kind, count: count.max(1), width_m: width_mm / 1000.0, depth_m: depth_mm / 1000.0 }
}

/// A lid, with errors under `path`.
pub fn check_lid(p: &mut Problems, path: &str, lid: &LidPart, build: &BuildPart) -> Lid {
    let seals = whole(p, &format!("{path}.seals"), lid.seals, limits::SEALS, "one behind the other along the edge");
    let clearance_m = build.lid_clearance_mm / 1000.0;
    Lid { face: lid.face, form: lid.form, seals, seal: lid.seal, clearance_m, gap_factor: 1.0 }
}

/// Refuses `count` openings, `sides_mm` across, that are larger than the faces of a box of `inside_m`, or too many for them.
/// The errors go to `wide` and to `many`.
fn check_room(p: &mut Problems, [wide, many]: [&str; 2], inside_m: [f64; 3], sides_mm: [f64; 2], count: usize) {
    let mut faces_mm = inside_m.map(|side| 1000.0 * side);
    faces_mm.sort_by(f64::total_cmp);
    let [_, middle_mm, longest_mm] = faces_mm;
    let [narrow_mm, broad_mm] = [sides_mm[0].min(sides_mm[1]), sides_mm[0].max(sides_mm[1])];
    if narrow_mm > middle_mm || broad_mm > longest_mm {
        p.push(wide, format!("allowed is at most {middle_mm:.0} mm here: it lies in a face of the box"));
        return;
    }
    let area_m2 = 1e-6 * narrow_mm * broad_mm;
    let most = limits::OPEN_SHARE * surface_area_m2(inside_m) / area_m2;
    if count as f64 > most {
        p.push(many, format!("allowed are at most {:.0} of this size here: more leave no walls", most.floor()));
    }
}

/// Holes of a shell whose inside is at least `inside_m`, with errors under `path`; `None` when there are none.
pub fn check_holes(p: &mut Problems, path: &str, holes: &HolesPart, inside_m: [f64; 3]) -> Option<Holes> {
    let count = whole(p, &format!("{path}.count"), holes.count, limits::HOLES, "cables and jacks of one box");
    let diameter_mm = p.within(&format!("{path}.diameter_mm"), holes.diameter_mm, limits::HOLE_MM, "mm", "a wire to a hose");
    let why = "what is in a hole is thinner than the hole";
    let cable_mm = p.within(&format!("{path}.cable_mm"), holes.cable_mm, (0.0, diameter_mm), "mm", why);
    if count > 0 {
        let fields = [format!("{path}.diameter_mm"), format!("{path}.count")];
        check_room(p, [&fields[0], &fields[1]], inside_m, [diameter_mm; 2], count);
    }
    (count > 0).then_some(Holes {
        count,
        diameter_m: diameter_mm / 1000.0,
        cable_m: cable_mm / 1000.0,
        sealed: holes.sealed,
        gap_factor: 1.0,
    })
}

/// Supports, with errors under `path`; those in a gap must fit its depth.
pub fn check_support(p: &mut Problems, path: &str, support: &SupportPart, gap_m: Option<f64>) -> Support {
    let at = |field: &str| format!("{path}.{field}");
    let count = whole(p, &at("count"), support.count, limits::SUPPORTS, "a box rests on some");
    // What belongs to the other kinds is kept in the document and checked too, so that a change of kind never fails.
    let test_mass_kg = p.within(&at("test_mass_kg"), support.test_mass_kg, limits::TEST_MASS_KG, "kg", "what one can hang on");
    let test_sag_mm = p.within(&at("test_sag_mm"), support.test_sag_mm, limits::TEST_SAG_MM, "mm", "what one can measure");
    let height_mm =
        p.within(&at("height_mm"), support.height_mm, limits::SUPPORT_HEIGHT_MM, "mm", "with its fittings, under load");
    let breaking_load_kg =
        p.within(&at("breaking_load_kg"), support.breaking_load_kg, limits::BREAKING_LOAD_KG, "kg", "of one of them");
    let side_mm = p.within(&at("pad_side_mm"), support.pad_side_mm, limits::PAD_SIDE_MM, "mm", "of a square pad");
    let thickness_mm =
        p.within(&at("pad_thickness_mm"), support.pad_thickness_mm, limits::PAD_THICKNESS_MM, "mm", "sheet rubber to blocks");
    let shore_a = p.within(&at("shore_a"), support.shore_a, limits::SHORE_A, "Shore A", "soft to hard rubber");
    let spring = match support.kind {
        SupportKind::Rigid => None,
        SupportKind::Pads => Some(Spring::pad(side_mm / 1000.0, thickness_mm / 1000.0, shore_a)),
        SupportKind::Straps | SupportKind::Springs => {
            let stiffness = stiffness_from_test(test_mass_kg, test_sag_mm / 1000.0);
            let made = if support.kind == SupportKind::Straps { Spring::strap } else { Spring::steel };
            Some(made(stiffness, breaking_load_kg, height_mm / 1000.0))
        }
    };
    if let (Some(gap_m), Some(spring)) = (gap_m, &spring)
        && spring.height_m > gap_m
    {
        let field = if support.kind == SupportKind::Pads { "pad_thickness_mm" } else { "height_mm" };
        p.push(at(field), format!("allowed is at most {} mm: the gap has room for no more", tidy(1000.0 * gap_m)));
    }
    Support { kind: support.kind, count, spring }
}

/// Vents of a box of `inside_m`.
pub fn check_vents(p: &mut Problems, vents: &VentsPart, inside_m: [f64; 3]) -> Vents {
    let count = whole(p, "vents.count", vents.count, limits::VENTS, "more is a lattice");
    let why = "narrower chokes, wider is a door";
    let section_m = [
        p.within("vents.width_mm", vents.width_mm, limits::VENT_MM, "mm", why) / 1000.0,
        p.within("vents.height_mm", vents.height_mm, limits::VENT_MM, "mm", why) / 1000.0,
    ];
    let widest = if vents.width_mm < vents.height_mm { "vents.height_mm" } else { "vents.width_mm" };
    check_room(p, [widest, "vents.count"], inside_m, section_m.map(|side| 1000.0 * side), count);
    let length_mm = p.within("vents.length_mm", vents.length_mm, limits::VENT_LENGTH_MM, "mm", "a hole to a long duct");
    let bends = whole(p, "vents.bends", vents.bends, limits::BENDS, "right-angled ones");
    let lining = vents.lining.as_ref().and_then(|lining| check_lining(p, "vents.lining", lining, f64::INFINITY));
    Vents { count: count.max(1), section_m, length_m: length_mm / 1000.0, bends, lining }
}

/// Refuses a design whose supports break or go solid under their load.
///
/// # Errors
/// The support that is overloaded, with its load.
pub fn check_loads(design: CheckedDesign) -> Result<CheckedDesign, Vec<FieldError>> {
    let bill = bill(&design);
    let mut problems = Problems::default();
    let hung_kg = bill.inner_mass_kg + design.contents_kg;
    let all_kg = bill.mass_kg + design.contents_kg;
    let suspension = design.outer.is_some().then_some(("suspension", &design.suspension, hung_kg));
    for (path, support, load_kg) in suspension.into_iter().chain([("feet", &design.feet, all_kg)]) {
        let Some(spring) = &support.spring else { continue };
        let each_kg = load_kg / support.count as f64;
        if each_kg > spring.breaking_load_kg {
            let least = (load_kg / spring.breaking_load_kg).ceil();
            let remedy = if least <= limits::SUPPORTS.1 {
                format!("allowed are {least} or more of these, or take stronger ones")
            } else {
                "take stronger ones".to_owned()
            };
            let message = format!(
                "each of {} carries {each_kg:.1} kg, and one fails at {:.1} kg: {remedy}",
                support.count, spring.breaking_load_kg
            );
            problems.push(format!("{path}.count"), message);
        }
    }
    problems.finish(design)
}
