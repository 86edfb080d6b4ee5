//! The stations as a table: which inputs stand at each, and one line that says what they amount to.

use hushwright::design::{Design, LevelFrom, SupportPart};
use hushwright::enclosure::SupportKind;
use hushwright::evaluate::Stations;

use super::gists::{
    baffle_gist, drivers_gist, edges_gist, gap_gist, inner_gist, inner_layers_gist, listeners_gist, openings_gist, outer_gist,
    room_gist, shell_gist, source_gist, vents_gist,
};
use crate::band_lists::BandList;
use crate::explanations::Told;
use crate::fields::{Extent, Field, Shell};
use crate::need_readings::{amplifier, hearing_hours, hours_gist};
use crate::presets::Preset;
use crate::quantity::{Units, decimal};
use crate::readings::{floor_reading, flow_reading, load_reading, room_gives_back};
use crate::state::{Choice, State};
use crate::words::{holes_gist, lid_gist, support_gist};

/// Something at a station.
pub enum Item {
    /// A number with its slider.
    Number(Field),
    /// A choice.
    Choice(Choice),
    /// The sheets of a shell.
    Layers(Shell),
    /// Numbers that are usual together.
    Preset(Preset),
    /// Band values, typed or pasted.
    Bands(BandList),
    /// All listeners.
    Listeners,
    /// A sentence that helps, where it applies.
    Hint(fn(&State) -> Option<String>),
    /// Inputs that fold away under a title.
    Group(&'static Group),
}

/// Inputs of one part.
pub struct Group {
    /// Its place in ids.
    pub key: &'static str,
    /// What its level is, where it has one.
    pub told: Option<Told>,
    /// What it is called.
    pub title: &'static str,
    /// What there is, in a few words.
    pub gist: fn(&Design, Units) -> String,
    /// Whether the design can have such a part.
    pub applies: fn(&Design) -> bool,
    /// Its inputs.
    pub items: &'static [Item],
}

impl Group {
    /// What it is called in `design`: where there is one box, it is no inner one.
    pub fn title_in(&self, design: &Design) -> &'static str {
        match self.key {
            _ if two_boxes(design) => self.title,
            "inner" => "Box",
            "inner-lid" => "Lid",
            "inner-holes" => "Holes",
            _ => self.title,
        }
    }
}

/// A place on the way of the sound.
pub struct Station {
    /// Name, gist and inputs.
    pub group: Group,
    /// Its level in dBA, if it has one.
    pub level: fn(&Stations) -> Option<f64>,
    /// Where that level is, in metric and in imperial units.
    pub place: [&'static str; 2],
}

use Item::{Bands, Group as Part, Hint, Layers, Listeners, Number};

const fn pick(choice: Choice) -> Item {
    Item::Choice(choice)
}

fn always(_: &Design) -> bool {
    true
}

fn two_boxes(design: &Design) -> bool {
    design.outer.is_some()
}

/// The stations from source to listener.
pub static STATIONS: [Station; 7] = [
    Station {
        group: Group {
            key: "source",
            told: Some(Told::Source),
            title: "Source",
            gist: source_gist,
            applies: always,
            items: &[
                pick(Choice::Spectrum),
                Hint(|state| state.design().source.spectrum.provenance().map(str::to_owned)),
                Bands(BandList::Source),
                pick(Choice::Driver),
                pick(Choice::LevelFrom),
                Number(Field::SourceLevel),
                Number(Field::MaxAbove),
                Hint(|state| {
                    let given = state.design().source.level_from == LevelFrom::Given;
                    given.then(|| "Mean while it plays (LAeq), and its loudest moments (LAFmax).".to_owned())
                }),
                Number(Field::Sensitivity),
                Number(Field::PowerUsed),
                Number(Field::Crest),
                Hint(|state| amplifier(state.design())),
                Part(&Group {
                    key: "source-driver",
                    told: None,
                    title: "Drivers",
                    gist: drivers_gist,
                    applies: |design| design.source.driver.is_some(),
                    items: &[
                        Item::Preset(Preset::Driver),
                        Number(Field::DriverCount),
                        Number(Field::DriverDiameter),
                        Number(Field::MovingMass),
                        Number(Field::ConeArea),
                    ],
                }),
                Part(&Group {
                    key: "source-hours",
                    told: None,
                    title: "Hours of use",
                    gist: |design, _| hours_gist(design),
                    applies: always,
                    items: &[
                        Number(Field::StartHour),
                        Number(Field::PlayHours),
                        Hint(|state| Some(hearing_hours(state.report(), state.design().source.hours))),
                    ],
                }),
                Part(&Group {
                    key: "source-box",
                    told: None,
                    title: "Mass and heat",
                    gist: |design, units| {
                        format!("{}, {} W", units.mass(design.source.mass_kg), decimal(design.source.heat_w, 0))
                    },
                    applies: always,
                    items: &[Number(Field::SourceMass), Number(Field::SourceHeat)],
                }),
            ],
        },
        level: |levels| Some(levels.source.dba),
        place: ["at 1 m, no box", "at 3.3 ft, no box"],
    },
    Station {
        group: Group {
            key: "inner",
            told: Some(Told::Inside),
            title: "Inner box",
            gist: inner_gist,
            applies: always,
            items: &[
                pick(Choice::Existing),
                Number(Field::Outside(Extent::Length)),
                Number(Field::Outside(Extent::Width)),
                Number(Field::Outside(Extent::Height)),
                Hint(|state| state.design().inner.existing.then(|| EXISTING_HINT.to_owned())),
                Number(Field::InsideLength),
                Number(Field::InsideWidth),
                Number(Field::InsideHeight),
                pick(Choice::Lining),
                Number(Field::LiningThickness),
                Part(&Group {
                    key: "inner-walls",
                    told: None,
                    title: "Layers",
                    gist: inner_layers_gist,
                    applies: always,
                    items: &[Layers(Shell::Inner)],
                }),
                Part(&Group {
                    key: "inner-edges",
                    told: None,
                    title: "Corners and braces",
                    gist: |design, _| edges_gist(design.inner.edge_fixity, design.inner.braces.as_ref()),
                    applies: always,
                    items: &[
                        Number(Field::InnerFixity),
                        Hint(|_| Some(CORNERS_HINT.to_owned())),
                        pick(Choice::InnerBraces),
                        Number(Field::InnerBraces),
                        Number(Field::InnerBraceWidth),
                        Number(Field::InnerBraceDepth),
                        Hint(|state| state.design().inner.braces.as_ref().map(|_| BRACES_HINT.to_owned())),
                    ],
                }),
                Part(&Group {
                    key: "inner-baffle",
                    told: None,
                    title: "Baffle",
                    gist: baffle_gist,
                    applies: always,
                    items: &[
                        pick(Choice::Baffle),
                        Number(Field::BaffleThickness),
                        Number(Field::BaffleRear),
                        Hint(|_| Some(BAFFLE_HINT.to_owned())),
                    ],
                }),
            ],
        },
        level: |levels| Some(levels.inside.dba),
        place: ["inside"; 2],
    },
    Station {
        group: Group {
            key: "gap",
            told: Some(Told::Gap),
            title: "Gap and suspension",
            gist: gap_gist,
            applies: always,
            items: &[
                Hint(|state| {
                    let text = "A gap lies between two boxes. Choose an outer box to have one.";
                    (!two_boxes(state.design())).then(|| text.to_owned())
                }),
                Number(Field::GapDepth),
                pick(Choice::Fill),
                Number(Field::FillShare),
                pick(Choice::FillSide),
                Part(&Group {
                    key: "suspension",
                    told: None,
                    title: "Suspension",
                    gist: |design, _| support_gist(&design.suspension),
                    applies: two_boxes,
                    items: &[
                        pick(Choice::Suspension),
                        Number(Field::SuspensionCount),
                        Number(Field::SuspensionTestMass),
                        Number(Field::SuspensionTestSag),
                        Number(Field::SuspensionHeight),
                        Number(Field::SuspensionBreaking),
                        Number(Field::SuspensionPadSide),
                        Number(Field::SuspensionPadThickness),
                        Number(Field::SuspensionShore),
                        Hint(|state| support_hint(&state.design().suspension)),
                        Hint(|state| state.report().suspension.map(|loaded| load_reading(&loaded, state.units()))),
                    ],
                }),
            ],
        },
        level: |levels| levels.gap.map(|gap| gap.dba),
        place: ["in the gap"; 2],
    },
    Station {
        group: Group {
            key: "outer",
            told: Some(Told::Outside),
            title: "Outer box",
            gist: outer_gist,
            applies: always,
            items: &[
                pick(Choice::Outer),
                Part(&Group {
                    key: "outer-walls",
                    told: None,
                    title: "Layers",
                    gist: |design, units| shell_gist(Shell::Outer.layers(design), units),
                    applies: two_boxes,
                    items: &[Layers(Shell::Outer)],
                }),
                Part(&Group {
                    key: "outer-edges",
                    told: None,
                    title: "Corners and braces",
                    gist: |design, _| {
                        let outer = design.outer.as_ref();
                        outer.map(|outer| edges_gist(outer.edge_fixity, outer.braces.as_ref())).unwrap_or_default()
                    },
                    applies: two_boxes,
                    items: &[
                        Number(Field::OuterFixity),
                        Hint(|_| Some(CORNERS_HINT.to_owned())),
                        pick(Choice::OuterBraces),
                        Number(Field::OuterBraces),
                        Number(Field::OuterBraceWidth),
                        Number(Field::OuterBraceDepth),
                    ],
                }),
            ],
        },
        level: |levels| Some(levels.outside.dba),
        place: ["1 m outside", "3.3 ft outside"],
    },
    Station {
        group: Group {
            key: "openings",
            told: None,
            title: "Openings",
            gist: openings_gist,
            applies: always,
            items: &[
                Part(&Group {
                    key: "inner-lid",
                    told: None,
                    title: "Lid of the inner box",
                    gist: |design, _| lid_gist(&design.inner.lid),
                    applies: always,
                    items: &[
                        pick(Choice::InnerFace),
                        pick(Choice::InnerForm),
                        pick(Choice::InnerSeal),
                        Number(Field::InnerSeals),
                    ],
                }),
                Part(&Group {
                    key: "outer-lid",
                    told: None,
                    title: "Lid of the outer box",
                    gist: |design, _| design.outer.as_ref().map(|outer| lid_gist(&outer.lid)).unwrap_or_default(),
                    applies: two_boxes,
                    items: &[
                        pick(Choice::OuterFace),
                        pick(Choice::OuterForm),
                        pick(Choice::OuterSeal),
                        Number(Field::OuterSeals),
                    ],
                }),
                Part(&Group {
                    key: "inner-holes",
                    told: None,
                    title: "Holes in the inner box",
                    gist: |design, _| holes_gist(&design.inner.holes),
                    applies: always,
                    items: &[
                        Number(Field::InnerHoles),
                        Number(Field::InnerHoleDiameter),
                        Number(Field::InnerCable),
                        pick(Choice::InnerSealed),
                        Hint(|state| (state.design().inner.holes.count > 0.0).then(|| HOLES_HINT.to_owned())),
                    ],
                }),
                Part(&Group {
                    key: "outer-holes",
                    told: None,
                    title: "Holes in the outer box",
                    gist: |design, _| design.outer.as_ref().map(|outer| holes_gist(&outer.holes)).unwrap_or_default(),
                    applies: two_boxes,
                    items: &[
                        Number(Field::OuterHoles),
                        Number(Field::OuterHoleDiameter),
                        Number(Field::OuterCable),
                        pick(Choice::OuterSealed),
                    ],
                }),
                Part(&Group {
                    key: "vent-ducts",
                    told: None,
                    title: "Vents",
                    gist: vents_gist,
                    applies: always,
                    items: &[
                        pick(Choice::Vents),
                        Number(Field::VentCount),
                        Number(Field::VentWidth),
                        Number(Field::VentHeight),
                        Number(Field::VentLength),
                        Number(Field::VentBends),
                        pick(Choice::VentLining),
                        Number(Field::VentLining),
                        Hint(|state| state.design().vents.as_ref().map(|_| VENTS_HINT.to_owned())),
                        Hint(|state| state.report().vent_flow.map(|flow| flow_reading(flow, state.units()))),
                    ],
                }),
            ],
        },
        level: |_| None,
        place: [""; 2],
    },
    Station {
        group: Group {
            key: "room",
            told: Some(Told::Room),
            title: "Room",
            gist: room_gist,
            applies: always,
            items: &[
                Number(Field::RoomFloorArea),
                Number(Field::RoomHeight),
                Item::Preset(Preset::Room),
                Number(Field::RoomAbsorption),
                Number(Field::RoomDistance),
                Hint(|state| room_gives_back(state.report(), state.units())),
                pick(Choice::Floor),
                Hint(|state| floor_reading(state.report(), state.design().room.floor)),
                Part(&Group {
                    key: "feet",
                    told: None,
                    title: "Feet",
                    gist: |design, _| support_gist(&design.feet),
                    applies: always,
                    items: &[
                        pick(Choice::Feet),
                        Number(Field::FeetCount),
                        Number(Field::FeetTestMass),
                        Number(Field::FeetTestSag),
                        Number(Field::FeetHeight),
                        Number(Field::FeetBreaking),
                        Number(Field::FeetPadSide),
                        Number(Field::FeetPadThickness),
                        Number(Field::FeetShore),
                        Hint(|state| support_hint(&state.design().feet)),
                        Hint(|state| state.report().feet.map(|loaded| load_reading(&loaded, state.units()))),
                    ],
                }),
            ],
        },
        level: |levels| Some(levels.room.dba),
        place: ["at the ear"; 2],
    },
    Station {
        group: Group {
            key: "listener",
            told: Some(Told::Level),
            title: "Listeners",
            gist: listeners_gist,
            applies: always,
            items: &[Listeners],
        },
        level: |levels| levels.listener.map(|listener| listener.dba),
        place: ["at the ear"; 2],
    },
];

const EXISTING_HINT: &str = "Measured over its own boards; the inside follows from their thickness, under Layers.";
const CORNERS_HINT: &str = "0 %: screwed boards that can turn. 50 %: a glued box. 100 %: welded, or set in mortar.";
const BRACES_HINT: &str = "Softwood, glued and screwed across the four long walls; they divide the length into equal bays.";
const BAFFLE_HINT: &str =
    "The board that the driver is mounted on; it parts the box into a chamber in front and a closed one behind.";
const HOLES_HINT: &str = "Each hole, with the cable or plug that goes through it; 0 is an empty hole.";
const VENTS_HINT: &str = "Half of them let air in, half let it out, from the source straight to the room.";

fn support_hint(support: &SupportPart) -> Option<String> {
    let text = match support.kind {
        SupportKind::Straps => {
            "Hang a known mass on one of them and measure how far it gives. Each works at a fifth of the load at which it fails."
        }
        SupportKind::Springs => {
            "Put a known mass on one of them and measure how far it gives. Each works at a fifth of the load at which it fails."
        }
        // Common practice, no source.
        SupportKind::Pads => "Shore A tells how hard rubber is: about 30 an eraser, 60 the tread of a tyre, 80 a shoe heel.",
        SupportKind::Rigid => return None,
    };
    Some(text.to_owned())
}
