//! What steps, masses and loads are called.

use hushwright::design::CheckedDesign;
use hushwright::workshop::inside::Piece;
use hushwright::workshop::panel::Face;
use hushwright::workshop::passage::{Attitude, Obstacle};
use hushwright::workshop::{JointKind, Load, MassOf, Plan, ShellName, StepKind, Unit};

/// What a box is called where there is one, or two.
pub fn shell(name: ShellName, plan: &Plan) -> &'static str {
    if plan.shells.len() > 1 { name.name() } else { "box" }
}

/// What a mass belongs to.
pub fn mass(of: MassOf, plan: &Plan) -> String {
    match of {
        MassOf::Layer(name, place) => {
            let board = plan
                .shells
                .iter()
                .find(|shell| shell.name == name)
                .and_then(|shell| shell.layers.get(place))
                .map_or("", |layer| layer.board.name.as_str());
            format!("{}{}: {board}", name.letter(), place + 1)
        }
        MassOf::Joints(name) => format!("Joints, {}", shell(name, plan)),
        MassOf::Braces(name) => format!("Battens, {}", shell(name, plan)),
        MassOf::Baffle => "Baffle".to_owned(),
        MassOf::Lining => "Lining".to_owned(),
        MassOf::GapFill => "Fill of the gap".to_owned(),
        MassOf::Contents => "What stands in it".to_owned(),
    }
}

/// What is carried.
pub fn load(what: Load, plan: &Plan) -> String {
    match what {
        Load::Whole => "The whole, with what stands in it".to_owned(),
        Load::Shell(ShellName::Inner) => "Inner box, empty".to_owned(),
        Load::Shell(ShellName::Outer) => "Outer box, empty".to_owned(),
        Load::Lid(name) => format!("Lid of the {}", shell(name, plan)),
    }
}

/// What stops a box.
pub const fn obstacle(obstacle: Obstacle) -> &'static str {
    match obstacle {
        Obstacle::DoorWidth => "the width of the door",
        Obstacle::DoorHeight => "the height of the door",
        Obstacle::SideDoor => "the turn from the corridor into the door",
        Obstacle::Corner => "the corner of the corridors",
        Obstacle::Flight => "the width of the stairs",
        Obstacle::Landing => "the turn on the landing",
    }
}

/// How a box is held while it passes.
pub const fn attitude(attitude: Attitude) -> &'static str {
    match attitude {
        Attitude::Upright => "upright",
        Attitude::OnSide => "laid on its side",
        Attitude::OnEnd => "stood on end",
    }
}

/// What adds up to a length.
pub const fn piece(piece: Piece) -> &'static str {
    match piece {
        Piece::Lining => "lining",
        Piece::RearChamber => "chamber behind the baffle",
        Piece::Baffle => "baffle",
        Piece::Contents => "what stands in it",
        Piece::Distance => "to the microphones",
        Piece::Microphones => "microphones with plug and holder",
        Piece::Air => "air to move",
    }
}

/// What joins a layer to the one inside it.
pub const fn joint(joint: JointKind) -> &'static str {
    match joint {
        JointKind::None => "the innermost",
        JointKind::Screws => "screwed on, not glued",
        JointKind::Glue => "glued and screwed",
        JointKind::Compound => "damping compound, then screws",
        JointKind::Own => "own bond",
    }
}

/// What things are counted in.
pub const fn unit(unit: Unit) -> &'static str {
    match unit {
        Unit::Pieces => "",
        Unit::Metres => "m",
        Unit::SquareMetres => "m²",
        Unit::Kilograms => "kg",
        Unit::Hundreds => "× 100",
    }
}

/// How the innermost layer is put together.
fn first_layer(plan: &Plan, name: ShellName) -> String {
    let is_top = plan.shells.iter().any(|shell| shell.name == name && shell.lid == Face::Top);
    let order = if is_top {
        "Bottom first, then ends and sides, square to each other"
    } else {
        "Bottom first, then ends and sides, top last"
    };
    let mut own = plan.parts.iter().filter(|part| part.shell == name && part.layer == Some(0) && !part.is_lid);
    let held = own.all(|part| part.screws.are_held);
    let joined = if held {
        "pilot holes, screws into the edges"
    } else {
        "the edges hold no screw: glue and screw battens into the corners"
    };
    format!("{order}, round the opening of the lid. A bead of sealant in every seam before it is closed; {joined}.")
}

/// How holes and cut-outs are made.
fn openings(plan: &Plan, design: &CheckedDesign) -> String {
    let cutouts = if design.vents.is_some() { " Saw the cut-outs for the ducts in every board before it is fixed." } else { "" };
    let loose = if plan.shells.len() > 1 { " The cable makes a loose loop in the gap." } else { "" };
    format!("Bore where it is measured, every layer in line with the one before.{cutouts} Seal round the cables.{loose}")
}

/// What a step is called, and what is done in it.
pub fn step(kind: StepKind, plan: &Plan, design: &CheckedDesign) -> (String, String) {
    let capital = |name: ShellName| crate::words::capital(shell(name, plan));
    let joined = |name: ShellName, place: usize| {
        plan.shells.iter().find(|shell| shell.name == name).and_then(|shell| shell.layers.get(place)).map(|layer| layer.joint)
    };
    match kind {
        StepKind::MarkOut => (
            "Measure and mark out".to_owned(),
            "Measure the thickness of every sheet in three places; where it is another one, enter it above before sawing: all sizes \
             follow. Mark out as drawn, and write the name on every board."
                .to_owned(),
        ),
        StepKind::Saw => (
            "Saw".to_owned(),
            "In the order of the numbers on the drawings, long cuts first. Break the edges. Mask, hearing protection, and the saw’s own \
             rules."
                .to_owned(),
        ),
        StepKind::FirstLayer(name) => (
            format!("{}: first layer", capital(name)),
            first_layer(plan, name),
        ),
        StepKind::NextLayer(name, place) => {
            let how = match joined(name, place) {
                Some(JointKind::Compound | JointKind::Own) => {
                    "Spread the compound in lines over the whole face, press the board on, screw from the middle outwards."
                }
                Some(JointKind::Glue) => "Spread glue over the whole face, press the board on, screw from the middle outwards.",
                _ => "Screw the boards on dry, from the middle outwards.",
            };
            let seams = "Its seams run across those underneath; sealant in every seam, also round the opening.";
            (format!("{}: layer {}", capital(name), place + 1), format!("{how} {seams}"))
        }
        StepKind::Braces(name) => (
            format!("{}: battens", capital(name)),
            "Glue and screw them across the long faces, at equal distances.".to_owned(),
        ),
        StepKind::Baffle => (
            "Baffle".to_owned(),
            "Cut the hole to the driver’s own template, glue and seal the baffle all round: the chamber behind it must be tight."
                .to_owned(),
        ),
        StepKind::Openings(name) => (
            format!("{}: holes", capital(name)),
            openings(plan, design),
        ),
        StepKind::Ducts => (
            "Ducts".to_owned(),
            if plan.shells.len() > 1 {
                "Build the ducts round their lining, every bend square, and seal them to both boxes with a soft collar: a stiff one bridges \
                 the gap."
            } else {
                "Build the ducts round their lining, every bend square, and seal them to the box."
            }
            .to_owned(),
        ),
        StepKind::Lid(name) => {
            let stepped = plan.shells.iter().any(|shell| shell.name == name && shell.is_stepped);
            let how = if stepped {
                "Build it up board on board, each one fitting its own rebate with the play stated; a seal on every step."
            } else {
                "It goes straight through the wall and lies against a frame of battens, 20 × 20 mm, glued and screwed inside round the \
                 opening; the seals between."
            };
            (format!("{}: lid", capital(name)), format!("{how} Latches that pull all round; hinges or handles. It pinches: two people."))
        }
        StepKind::Lining => (
            "Lining".to_owned(),
            "Cut wool a little large so that it holds itself; cover it with thin cloth. Mask and gloves.".to_owned(),
        ),
        StepKind::GapFill => (
            "Fill of the gap".to_owned(),
            "Against one side only: it must not bridge the gap tightly. Mask and gloves.".to_owned(),
        ),
        StepKind::Suspension => (
            "Inner box goes in".to_owned(),
            "Set the supports where they are drawn, under the centre of mass. Check with a strip of card that nothing touches anywhere: \
             one screw that bridges the gap undoes it. Nobody’s hand under it."
                .to_owned(),
        ),
        StepKind::Feet => (
            "Feet and handles".to_owned(),
            "Feet where they are drawn; handles screwed through with washers, sealed.".to_owned(),
        ),
        StepKind::Try => (
            "Try it".to_owned(),
            if design.vents.is_some() {
                "Close it, play noise, and listen along every seam with a tube; measure inside and at 1 m. Feel whether air goes through \
                 and whether it stays cool."
            } else {
                "Close it, play noise, and listen along every seam with a tube; measure inside and at 1 m."
            }
            .to_owned(),
        ),
    }
}
