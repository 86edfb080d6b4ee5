//! From the raw document to checked numbers: the only place where a design can be refused.

use crate::buildup::check::{Problems, check_leaf, side};
use crate::buildup::{Element, Fill, Gap, GapLoss, Laminate};
use crate::error::FieldError;
use crate::material;
use crate::need::SourceSpectrum;

pub use crate::need::Room;

use super::document::Design;

/// Ranges of the numbers of a design, each with the reason that its message gives.
pub mod limits {
    /// A-weighted level in dB of the source.
    pub const LEVEL_DBA: (f64, f64) = (30.0, 150.0);
    /// Inside length, width and height in mm.
    pub const INSIDE_MM: (f64, f64) = (100.0, 3000.0);
    /// Thickness of the lining in mm.
    pub const LINING_MM: (f64, f64) = (5.0, 300.0);
    /// Depth of the gap in mm.
    pub const GAP_MM: (f64, f64) = (5.0, 500.0);
    /// Floor area of the room in m2.
    pub const FLOOR_AREA_M2: (f64, f64) = (2.0, 500.0);
    /// Height of the room in m.
    pub const ROOM_HEIGHT_M: (f64, f64) = (1.8, 10.0);
    /// Mean absorption coefficient of the room.
    pub const ROOM_ABSORPTION: (f64, f64) = (0.02, 0.9);
    /// Distance in the room in m.
    pub const DISTANCE_M: (f64, f64) = (0.5, 30.0);
    /// Most characters of a name.
    pub const NAME_CHARACTERS: usize = 80;
}

/// A porous lining, checked.
#[derive(Clone, Debug, PartialEq)]
pub struct Lining {
    /// Thickness in m.
    pub thickness_m: f64,
    /// Flow resistivity in Pa s/m2.
    pub flow_resistivity: f64,
}

/// A shell, checked: one leaf.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckedShell {
    /// The leaf.
    pub laminate: Laminate,
}

/// A design whose every number is within its range.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckedDesign {
    /// The document it came from.
    pub document: Design,
    /// Shape of the source's spectrum.
    pub spectrum: SourceSpectrum,
    /// A-weighted level in dB at 1 m from the bare source.
    pub level_dba: f64,
    /// Inside length, width and height in m.
    pub inside_m: [f64; 3],
    /// Lining, if any.
    pub lining: Option<Lining>,
    /// The inner box.
    pub inner: CheckedShell,
    /// Gap and outer box, if any.
    pub outer: Option<(Gap, CheckedShell)>,
    /// The room.
    pub room: Room,
}

impl CheckedDesign {
    /// The elements of the wall in the order in which the sound meets them.
    pub fn wall_elements(&self) -> Vec<Element> {
        let mut elements = vec![Element::Panel(self.inner.laminate.clone())];
        if let Some((gap, outer)) = &self.outer {
            elements.push(Element::Gap(*gap));
            elements.push(Element::Panel(outer.laminate.clone()));
        }
        elements
    }
}

impl Design {
    /// Checks every field.
    ///
    /// # Errors
    /// Every field that is out of range or names something unknown, with what is allowed.
    pub fn check(&self) -> Result<CheckedDesign, Vec<FieldError>> {
        let mut problems = Problems::default();
        let p = &mut problems;
        if self.name.chars().count() > limits::NAME_CHARACTERS || self.name.chars().any(turns_text) {
            p.push("name", format!("at most {} characters, none that controls the direction of text", limits::NAME_CHARACTERS));
        }
        let level_dba =
            p.within("source.level_dba", self.source.level_dba, limits::LEVEL_DBA, "dBA", "a whisper to a jet engine, at 1 m");
        let why = "smaller holds no driver, larger is a room";
        let inside_m = [
            p.within("inner.length_mm", self.inner.length_mm, limits::INSIDE_MM, "mm", why) / 1000.0,
            p.within("inner.width_mm", self.inner.width_mm, limits::INSIDE_MM, "mm", why) / 1000.0,
            p.within("inner.height_mm", self.inner.height_mm, limits::INSIDE_MM, "mm", why) / 1000.0,
        ];
        let lining = self.inner.lining.as_ref().and_then(|lining| {
            let smallest_mm = 1000.0 * inside_m.iter().copied().fold(f64::INFINITY, f64::min);
            let range = (limits::LINING_MM.0, limits::LINING_MM.1.min(0.45 * smallest_mm));
            let why = "thicker would fill the box";
            let thickness_mm = p.within("inner.lining.thickness_mm", lining.thickness_mm, range, "mm", why);
            let Some(fill) = material::fill(&lining.material) else {
                p.push("inner.lining.material", format!("no such lining; known are {}", known_fills()));
                return None;
            };
            Some(Lining { thickness_m: thickness_mm / 1000.0, flow_resistivity: fill.flow_resistivity })
        });
        let inner = check_leaf(p, "inner.layers", &self.inner.layers);
        let depth_mm = p.within("gap.depth_mm", self.gap.depth_mm, limits::GAP_MM, "mm", "less touches, more is a room");
        let fill = self.gap.fill.as_ref().and_then(|fill| {
            let share = p.within("gap.fill.share", fill.share, (0.0, 1.0), "", "part of the depth that is filled");
            let Some(material) = material::fill(&fill.material) else {
                p.push("gap.fill.material", format!("no such fill; known are {}", known_fills()));
                return None;
            };
            Some(Fill { flow_resistivity: material.flow_resistivity, share, side: side(fill.side) })
        });
        let gap = Gap { depth_m: depth_mm / 1000.0, fill, loss: GapLoss::Faces { absorption: GapLoss::FACE_ABSORPTION } };
        let outer = match &self.outer {
            None => Some(None),
            Some(shell) => check_leaf(p, "outer.layers", &shell.layers).map(|laminate| Some((gap, CheckedShell { laminate }))),
        };
        let room = Room::new(
            p.within("room.floor_area_m2", self.room.floor_area_m2, limits::FLOOR_AREA_M2, "m2", "a closet to a hall"),
            p.within("room.height_m", self.room.height_m, limits::ROOM_HEIGHT_M, "m", "a cellar to a hall"),
            p.within("room.absorption", self.room.absorption, limits::ROOM_ABSORPTION, "", "bare concrete to a studio"),
            p.within("room.distance_m", self.room.distance_m, limits::DISTANCE_M, "m", "nearer is inside the near field"),
        );
        let (Some(inner), Some(outer)) = (inner, outer) else {
            return problems.finish(()).map(|()| unreachable!("a missing shell has recorded its error"));
        };
        problems.finish(CheckedDesign {
            document: self.clone(),
            spectrum: self.source.spectrum,
            level_dba,
            inside_m,
            lining,
            inner: CheckedShell { laminate: inner },
            outer,
            room,
        })
    }
}

/// Characters that have no shape but change how others are shown: in a link from a stranger they could disguise what it says.
fn turns_text(character: char) -> bool {
    character.is_control() || matches!(character, '\u{200E}' | '\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}')
}

fn known_fills() -> String {
    material::fills().iter().map(|material| material.key.as_str()).collect::<Vec<_>>().join(", ")
}
