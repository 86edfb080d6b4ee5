//! Boards put together again: every box that can be drawn is full of wood, joints and stated play, and of nothing else.

use hushwright::design::CheckedDesign;
use hushwright::workshop::panel::{Block, Face};
use hushwright::workshop::{Part, Plan, ShellBox, ShellName, bill, cable_face, plan, shells};
use hushwright_tests::designs::{Accepted, accepted_design};
use proptest::prelude::*;

/// Rounding in mm.
const ROUNDING_MM: f64 = 1e-6;

fn planned(design: &CheckedDesign) -> Plan {
    plan(design).expect("sheets as shops have them can be cut")
}

/// The same design with other play.
fn with_play(design: &Accepted, seam_mm: f64, lid_mm: f64) -> CheckedDesign {
    let mut document = design.document.clone();
    document.build.clearance_mm = seam_mm;
    document.build.lid_clearance_mm = lid_mm.max(0.5);
    let mut checked = document.check().expect("play does not make a design unsound");
    // None at all is less than a lid can have: that is for the sums here.
    checked.document.build.lid_clearance_mm = lid_mm;
    checked
}

/// The boards of `shell` with no play at all.
fn tight(shell: &ShellBox) -> Vec<(usize, Face, Block)> {
    let boards = |layer: &hushwright::workshop::ShellLayer| {
        let mut tight = layer.layer;
        tight.clearance_mm = 0.0;
        tight.lid = tight.lid.map(|lid| hushwright::workshop::panel::LidFit { clearance_mm: 0.0, ..lid });
        Face::ALL.map(|face| (layer.place, face, tight.board(face)))
    };
    shell.layers.iter().flat_map(boards).collect()
}

/// How far two blocks reach into one another along each axis, in mm; negative: what is between them.
fn common_mm(one: &Block, other: &Block) -> [f64; 3] {
    std::array::from_fn(|axis| one.to_mm[axis].min(other.to_mm[axis]) - one.from_mm[axis].max(other.from_mm[axis]))
}

fn area(block: &Block, axis: usize) -> f64 {
    let size = block.size_mm();
    size[(axis + 1) % 3] * size[(axis + 2) % 3]
}

/// Volume in mm3 of the joints of `shell`: for stepped lids closed rings between the layers; for a lid that goes straight
/// through, rings that are open at its end, and a slice of the lid itself.
fn joints_mm3(shell: &ShellBox) -> f64 {
    let axis = shell.lid.axis();
    let volume = |block: &Block| block.size_mm().iter().product::<f64>();
    shell
        .layers
        .windows(2)
        .map(|pair| {
            let (inner, outer) = (pair[0].layer.outside(), pair[1].layer.inside);
            if shell.is_stepped {
                return volume(&outer) - volume(&inner);
            }
            let mut inner = inner;
            let mut outer = outer;
            let end = shell.outside();
            for block in [&mut inner, &mut outer] {
                if shell.lid.is_far() {
                    block.to_mm[axis] = end.to_mm[axis];
                } else {
                    block.from_mm[axis] = end.from_mm[axis];
                }
            }
            volume(&outer) - volume(&inner) + area(&shell.inside(), axis) * pair[1].joint_mm
        })
        .sum()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Without play, boards and joints fill the space between inside and outside exactly, and none is in another.
    #[test]
    fn boards_and_joints_fill_a_box(design in accepted_design()) {
        for shell in shells(&design.checked) {
            let boards = tight(&shell);
            let wood: f64 = boards.iter().map(|(_, _, board)| board.size_mm().iter().product::<f64>()).sum();
            let walls: f64 = [shell.outside(), shell.inside()].map(|block| block.size_mm().iter().product::<f64>()).iter().rev()
                .fold(0.0, |less, volume| volume - less);
            let sum = wood + joints_mm3(&shell);
            prop_assert!((sum - walls).abs() <= 1e-9 * walls, "boards and joints {sum}, walls {walls} mm3");
            for (k, (layer, face, board)) in boards.iter().enumerate() {
                prop_assert!(board.size_mm().iter().all(|side| *side > 0.0), "layer {layer} {face:?} is {board:?}");
                for (other_layer, other_face, other) in &boards[..k] {
                    let common = common_mm(board, other);
                    prop_assert!(common.iter().any(|mm| *mm <= ROUNDING_MM),
                        "{layer} {face:?} and {other_layer} {other_face:?} are {common:?} mm in one another");
                }
            }
        }
    }

    /// With play, a board is shorter by the play at every end that stands against another board, and nowhere else.
    #[test]
    fn play_is_where_boards_end_against_boards(
        design in accepted_design(), seam_mm in 0.0..5.0_f64, lid_mm in 0.5..10.0_f64,
    ) {
        let checked = with_play(&design, seam_mm, lid_mm);
        for shell in shells(&checked) {
            let tight = tight(&shell);
            for (layer, face, board) in &tight {
                let real = shell.layers[*layer].layer.board(*face);
                let play_mm = if *face == shell.lid { lid_mm } else { seam_mm };
                for axis in 0..3 {
                    for far in [false, true] {
                        let end = |block: &Block| if far { block.to_mm[axis] } else { block.from_mm[axis] };
                        // Another board stands there if it begins where this one ends and both overlap across.
                        let stands = tight.iter().any(|(other_layer, other_face, other)| {
                            let starts = if far { other.from_mm[axis] } else { other.to_mm[axis] };
                            let common = common_mm(board, other);
                            let is_own = *layer == *other_layer || *face == shell.lid;
                            is_own && (layer, face) != (other_layer, other_face) && axis != face.axis()
                                && (starts - end(board)).abs() < ROUNDING_MM
                                && (0..3).filter(|across| *across != axis).all(|across| common[across] > ROUNDING_MM)
                        });
                        let short_mm = (end(board) - end(&real)).abs();
                        // A board that a lid stands against is not shorter for it: the lid has that play.
                        let expected = if stands && ends_there(&shell, &tight, *layer, *face, axis, far) { play_mm } else { 0.0 };
                        prop_assert!((short_mm - expected).abs() < ROUNDING_MM,
                            "layer {layer} {face:?}, axis {axis}, far {far}: {short_mm} mm instead of {expected}");
                    }
                }
            }
        }
    }

    /// No seam lies over a seam: on the faces between two layers their seams are at least a board's thickness apart, and run
    /// off in different directions.
    #[test]
    fn no_seam_lies_over_a_seam(design in accepted_design()) {
        for shell in shells(&design.checked) {
            for pair in shell.layers.windows(2) {
                for (axis, other) in [(0, 1), (1, 2), (2, 0)] {
                    let [under, over] = [0, 1].map(|k| pair[k].layer.joints.covers(axis, other));
                    prop_assert_ne!(under, over);
                    // The seam under comes out where the covering board begins; the seam over begins in the corner.
                    let inner = pair[0].layer;
                    let covering = if under { axis } else { other };
                    let comes_out_mm = inner.inside.to_mm[covering];
                    let begins_mm = pair[1].layer.inside.to_mm[covering];
                    prop_assert!(begins_mm - comes_out_mm >= pair[0].board.thickness_mm - ROUNDING_MM);
                }
            }
        }
    }

    /// The weight of the boards by size is what the bill has by volume, but for the play.
    #[test]
    fn boards_weigh_what_the_bill_says(design in accepted_design()) {
        let checked = with_play(&design, 0.0, 0.0);
        let boxes = planned(&checked);
        let by_hand = bill(&checked).mass_kg + checked.contents_kg;
        // Round a lid that goes straight through, the inner layers have more of the wall and the outer ones less.
        prop_assume!(shells(&checked).iter().all(|shell| shell.is_stepped || shell.layers.len() == 1));
        prop_assert!((boxes.mass_kg - by_hand).abs() <= 1e-6 * by_hand, "{} and {by_hand} kg", boxes.mass_kg);
    }

    /// Holes lie in their boards, whole, and straight behind one another.
    #[test]
    fn holes_lie_in_their_boards(design in accepted_design()) {
        let boxes = planned(&design.checked);
        for part in &boxes.parts {
            let Some(face) = part.face else { continue };
            let [u, v] = face.across();
            let size = part.at.size_mm();
            for opening in part.openings.iter().filter(|opening| opening.height_mm.is_none()) {
                let radius = 0.5 * opening.width_mm;
                prop_assert!(opening.x_mm >= radius - 6.0 && opening.x_mm <= size[u] - radius + 6.0, "{}: {opening:?} in {size:?}", part.name);
                prop_assert!(opening.y_mm >= radius - 6.0 && opening.y_mm <= size[v] - radius + 6.0, "{}: {opening:?} in {size:?}", part.name);
            }
        }
        for shell in &boxes.shells {
            let drilled: Vec<Vec<[f64; 2]>> = boxes.parts.iter()
                .filter(|part| part.shell == shell.name && part.face == Some(cable_face(shell, holes_of(&design.checked, shell))))
                .map(absolute)
                .collect();
            for layer in &drilled {
                prop_assert_eq!(layer.len(), drilled[0].len());
                for (one, other) in layer.iter().zip(&drilled[0]) {
                    prop_assert!((one[0] - other[0]).abs() < ROUNDING_MM && (one[1] - other[1]).abs() < ROUNDING_MM);
                }
            }
        }
    }

    /// Every board that is not there already is in the cut list once, and on a sheet once or told to be too big.
    #[test]
    fn every_board_is_sawn_once(design in accepted_design()) {
        let boxes = planned(&design.checked);
        let mut names: Vec<&String> = boxes.list.lines.iter().flat_map(|line| &line.names).collect();
        let mut sawn: Vec<&String> = boxes.parts.iter().filter(|part| !part.exists).map(|part| &part.name).collect();
        names.sort_unstable();
        sawn.sort_unstable();
        prop_assert_eq!(&names, &sawn);
        names.dedup();
        prop_assert_eq!(names.len(), sawn.len());
        for (k, layout) in boxes.layouts.iter().enumerate() {
            let wanted: usize = boxes.list.lines.iter().filter(|line| line.board == k).map(|line| line.names.len()).sum();
            let laid: usize = layout.sheets.iter().map(|sheet| sheet.placements.len()).sum();
            let too_big: usize = layout.too_big.iter().map(|part| boxes.list.lines[part.part].names.len()).sum();
            prop_assert_eq!(laid + too_big, wanted);
            prop_assert!(layout.sheets.len() >= layout.bound);
        }
    }

    /// Hours of the steps are the hours of the whole; every number is finite, and nothing is bought in less than is needed.
    #[test]
    fn a_plan_adds_up(design in accepted_design()) {
        let boxes = planned(&design.checked);
        let by_steps: f64 = boxes.steps.iter().map(|step| step.hours).sum();
        prop_assert!((by_steps - boxes.hours).abs() < 1e-9 * boxes.hours);
        prop_assert!(boxes.hours > 0.0 && boxes.mass_kg.is_finite() && boxes.money.all().is_finite());
        let by_mass: f64 = boxes.masses.iter().map(|(_, kg)| kg).sum();
        prop_assert!((by_mass - boxes.mass_kg).abs() < 1e-9 * by_mass);
        for purchase in &boxes.purchases {
            prop_assert!(purchase.bought + 1e-9 >= purchase.needed && purchase.bought.is_finite(), "{purchase:?}");
        }
        let json = serde_json::to_string(&(&boxes.list, &boxes.purchases, &boxes.carrying, &boxes.floor, &boxes.tipping)).unwrap();
        prop_assert!(!json.contains("null,\"lift\"") && !json.contains("NaN"));
    }
}

/// Whether the board of `face` ends at the other board rather than the other way round: the end lies within what the other one
/// spans along its own thickness.
fn ends_there(shell: &ShellBox, tight: &[(usize, Face, Block)], layer: usize, face: Face, axis: usize, far: bool) -> bool {
    if face == shell.lid {
        return true;
    }
    let (_, _, board) = tight.iter().find(|(place, own, _)| (*place, *own) == (layer, face)).expect("it is there");
    let end = if far { board.to_mm[axis] } else { board.from_mm[axis] };
    // It ends at the broad face of a board across this axis.
    tight.iter().any(|(place, other, block)| {
        let starts = if far { block.from_mm[axis] } else { block.to_mm[axis] };
        *place == layer && other.axis() == axis && *other != shell.lid && (starts - end).abs() < ROUNDING_MM
    })
}

/// Diameter of the holes of `shell` in mm.
fn holes_of(design: &CheckedDesign, shell: &ShellBox) -> f64 {
    let document = &design.document;
    match (shell.name, &document.outer) {
        (ShellName::Outer, Some(outer)) => outer.holes.diameter_mm,
        _ => document.inner.holes.diameter_mm,
    }
}

/// Holes of `part` from the middle of the inside.
fn absolute(part: &Part) -> Vec<[f64; 2]> {
    let face = part.face.expect("a face");
    let [u, v] = face.across();
    part.openings
        .iter()
        .map(|opening| {
            let across = if face.is_mirrored() { part.at.to_mm[u] - opening.x_mm } else { part.at.from_mm[u] + opening.x_mm };
            [across, part.at.from_mm[v] + opening.y_mm]
        })
        .collect()
}
