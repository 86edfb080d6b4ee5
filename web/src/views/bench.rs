//! The inputs of the workshop as a table, and one line that says what they amount to.

use hushwright::design::Design;

use super::stations::{Group, Item};
use crate::choices::Choice;
use crate::fields::Field;
use crate::presets::Preset;
use crate::quantity::{Quantity, Units, decimal};

use Item::Number;

fn always(_: &Design) -> bool {
    true
}

fn length(mm: f64, units: Units) -> String {
    Quantity::Length.write(mm, units)
}

fn contents_gist(design: &Design, units: Units) -> String {
    let contents = &design.build.contents;
    let [depth, width, height] = [contents.length_mm, contents.width_mm, contents.height_mm].map(|mm| length(mm, units));
    let microphones = match contents.microphones as usize {
        0 => String::new(),
        1 => ", a microphone".to_owned(),
        count => format!(", {count} microphones"),
    };
    format!("{depth} × {width} × {height} {}{microphones}", units.length_unit())
}

fn way_gist(design: &Design, units: Units) -> String {
    let way = &design.build.way;
    let sides = [way.door_width_mm, way.door_height_mm].map(|mm| length(mm, units));
    let door = format!("door {} {}", sides.join(" × "), units.length_unit());
    let more = [(way.corridor_mm, "corridor"), (way.corner_mm, "corner"), (way.stairs_mm, "stairs")];
    let more = more.into_iter().filter(|(width_mm, _)| *width_mm > 0.0).map(|(_, name)| name);
    std::iter::once(door.as_str()).chain(more).collect::<Vec<_>>().join(", ")
}

fn making_gist(design: &Design, units: Units) -> String {
    let build = &design.build;
    let thin = |mm: f64| Quantity::Thickness.write(mm, units);
    format!("play {}, saw cut {} {}", thin(build.clearance_mm), thin(build.kerf_mm), units.length_unit())
}

fn money_gist(design: &Design, _: Units) -> String {
    let build = &design.build;
    let percent = |share: f64| format!("{} %", decimal(100.0 * share, 0));
    format!("waste {}, tax {}", percent(build.waste), percent(build.tax))
}

/// The inputs.
pub static BENCH: [Group; 4] = [
    Group {
        key: "contents",
        told: None,
        title: "What stands in it",
        gist: contents_gist,
        applies: always,
        items: &[
            Number(Field::ContentsLength),
            Number(Field::ContentsWidth),
            Number(Field::ContentsHeight),
            Number(Field::Microphones),
            Number(Field::MicrophoneDistance),
            Number(Field::MicrophoneLength),
        ],
    },
    Group {
        key: "way",
        told: None,
        title: "The way to its place",
        gist: way_gist,
        applies: always,
        items: &[
            Item::Preset(Preset::Door),
            Number(Field::DoorWidth),
            Number(Field::DoorHeight),
            Number(Field::CorridorWidth),
            Number(Field::CornerWidth),
            Number(Field::StairsWidth),
            Number(Field::HandleDepth),
        ],
    },
    Group {
        key: "making",
        told: None,
        title: "Sawing and joining",
        gist: making_gist,
        applies: always,
        items: &[
            Number(Field::SeamPlay),
            Number(Field::LidPlay),
            Item::Choice(Choice::Grain),
            Number(Field::Kerf),
            Number(Field::Trim),
            Number(Field::ScrewPitch),
            Number(Field::Bead),
            Number(Field::CompoundCover),
        ],
    },
    Group {
        key: "money",
        told: None,
        title: "Waste and tax",
        gist: money_gist,
        applies: always,
        items: &[Number(Field::Waste), Number(Field::Tax)],
    },
];
