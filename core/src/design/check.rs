//! From the raw document to checked numbers: the only place where a design can be refused.

use crate::air::Air;
use crate::bands::Spectrum;
use crate::buildup::check::{Problems, check_leaf, check_sheet, side};
use crate::buildup::raw::NameOr;
use crate::buildup::{Element, Fill, Gap, GapLoss, Laminate};
use crate::enclosure::{Braces, Driver, Floor, Holes, Lid, Lining, Support, Vents};
use crate::error::{FieldError, turns_text};
use crate::geometry::grown;
use crate::material;
use crate::need::{Hours, Loudspeaker, SourceSpectrum, levels_by_thirds, set_to_dba};

pub use crate::need::Room;

use super::document::{Design, DriverPart, LevelFrom, LiningPart};
use super::fittings::{check_baffle, check_braces, check_holes, check_lid, check_loads, check_support, check_vents, whole};
use super::listener::{Listener, ListenerPart, own_bands};
use super::patch;

/// Ranges of the numbers of a design, each with the reason that its message gives.
pub mod limits {
    /// A-weighted level in dB of the source.
    pub const LEVEL_DBA: (f64, f64) = (30.0, 150.0);
    /// Band level in dB.
    pub const BAND_DB: (f64, f64) = (-50.0, 170.0);
    /// Sound reduction index in dB of a band.
    pub const REDUCTION_DB: (f64, f64) = (-10.0, 120.0);
    /// Loudest moments over the mean, in dB.
    pub const MAX_ABOVE_DB: (f64, f64) = (0.0, 40.0);
    /// Hour of day.
    pub const START_H: (f64, f64) = (0.0, 24.0);
    /// Hours of use a day.
    pub const HOURS: (f64, f64) = (0.1, 24.0);
    /// Drivers side by side.
    pub const DRIVERS: (f64, f64) = (1.0, 8.0);
    /// Nominal diameter of a driver in mm.
    pub const DIAMETER_MM: (f64, f64) = (20.0, 800.0);
    /// Sensitivity of a driver in dB at 1 m for 1 W.
    pub const SENSITIVITY_DB: (f64, f64) = (70.0, 112.0);
    /// Electrical power in W.
    pub const POWER_W: (f64, f64) = (0.001, 5000.0);
    /// Crest factor in dB.
    pub const CREST_DB: (f64, f64) = (0.0, 30.0);
    /// Most listeners.
    pub const LISTENERS: usize = 4;
    /// Most characters of a listener's name.
    pub const LISTENER_CHARACTERS: usize = 40;
    /// Area of a partition in m2.
    pub const PARTITION_M2: (f64, f64) = (0.1, 200.0);
    /// What flanking takes off a sound reduction index in dB.
    pub const FLANKING_DB: (f64, f64) = (0.0, 20.0);
    /// Distance of a listener in m.
    pub const LISTENER_M: (f64, f64) = (0.5, 100.0);
    /// A-weighted limit in dB.
    pub const LIMIT_DBA: (f64, f64) = (5.0, 90.0);
    /// Number of an NR curve.
    pub const LIMIT_NR: (f64, f64) = (0.0, 80.0);
    /// Number of an NC curve.
    pub const LIMIT_NC: (f64, f64) = (15.0, 70.0);
    /// A-weighted background in dB.
    pub const BACKGROUND_DBA: (f64, f64) = (5.0, 80.0);
    /// Mass in kg of what stands in the box.
    pub const CONTENTS_KG: (f64, f64) = (0.0, 300.0);
    /// Heat in W.
    pub const HEAT_W: (f64, f64) = (0.0, 5000.0);
    /// Moving mass in g of a driver.
    pub const MOVING_MASS_G: (f64, f64) = (1.0, 1000.0);
    /// Area in cm2 of a cone.
    pub const CONE_AREA_CM2: (f64, f64) = (10.0, 3000.0);
    /// Inside length, width and height in mm.
    pub const INSIDE_MM: (f64, f64) = (100.0, 3000.0);
    /// Thickness of the lining in mm.
    pub const LINING_MM: (f64, f64) = (5.0, 300.0);
    /// Fixity of edges.
    pub const EDGE_FIXITY: (f64, f64) = (0.0, 1.0);
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
    /// Most characters of the notes: a link with them stays one that can be sent.
    pub const NOTES_CHARACTERS: usize = 600;
    /// Depth of the chamber behind a baffle in mm.
    pub const REAR_MM: (f64, f64) = (50.0, 2900.0);
    /// Braces on a face.
    pub const BRACES: (f64, f64) = (1.0, 6.0);
    /// Width of a brace in mm.
    pub const BRACE_WIDTH_MM: (f64, f64) = (5.0, 100.0);
    /// Depth of a brace in mm.
    pub const BRACE_DEPTH_MM: (f64, f64) = (5.0, 300.0);
    /// Least clear width in mm of a bay between braces.
    pub const BAY_MM: f64 = 60.0;
    /// Seals one behind the other.
    pub const SEALS: (f64, f64) = (1.0, 4.0);
    /// Holes in a shell.
    pub const HOLES: (f64, f64) = (0.0, 24.0);
    /// Diameter of a hole in mm.
    pub const HOLE_MM: (f64, f64) = (2.0, 150.0);
    /// Number of supports.
    pub const SUPPORTS: (f64, f64) = (1.0, 24.0);
    /// Mass in kg of a test.
    pub const TEST_MASS_KG: (f64, f64) = (0.1, 500.0);
    /// Sag in mm in a test.
    pub const TEST_SAG_MM: (f64, f64) = (0.05, 500.0);
    /// Height of a support in mm.
    pub const SUPPORT_HEIGHT_MM: (f64, f64) = (1.0, 500.0);
    /// Breaking load in kg.
    pub const BREAKING_LOAD_KG: (f64, f64) = (0.5, 20_000.0);
    /// Side of a pad in mm.
    pub const PAD_SIDE_MM: (f64, f64) = (5.0, 500.0);
    /// Thickness of a pad in mm.
    pub const PAD_THICKNESS_MM: (f64, f64) = (2.0, 200.0);
    /// Hardness of a pad, Shore A.
    pub const SHORE_A: (f64, f64) = (25.0, 85.0);
    /// Vents.
    pub const VENTS: (f64, f64) = (1.0, 12.0);
    /// Clear width and height of a vent in mm.
    pub const VENT_MM: (f64, f64) = (20.0, 600.0);
    /// Length of a vent in mm.
    pub const VENT_LENGTH_MM: (f64, f64) = (50.0, 10_000.0);
    /// Bends of a vent.
    pub const BENDS: (f64, f64) = (0.0, 12.0);
    /// Most of a box's faces that holes, or vents, may take.
    pub const OPEN_SHARE: f64 = 0.5;
    /// Clearance in mm that moving parts need in the gap.
    pub const CLEARANCE_MM: f64 = 5.0;
}

/// A baffle across the inner box.
#[derive(Clone, Debug, PartialEq)]
pub struct Baffle {
    /// Depth in m of the chamber behind it.
    pub rear_m: f64,
    /// Its one sheet.
    pub laminate: Laminate,
}

/// A shell, checked.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckedShell {
    /// The leaf.
    pub laminate: Laminate,
    /// How firmly the edges of its faces are held, 0 (hinged) to 1 (clamped).
    pub edge_fixity: f64,
    /// Braces of its long faces.
    pub braces: Option<Braces>,
    /// Its lid.
    pub lid: Lid,
    /// Holes for cables, if any.
    pub holes: Option<Holes>,
}

/// A design whose every number is within its range.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckedDesign {
    /// The document it came from.
    pub document: Design,
    /// Levels in dB by band at 1 m from the bare source, on the floor: the mean while it plays.
    pub source_db: Spectrum,
    /// How far the loudest moments lie above that mean, in dB.
    pub max_above_db: f64,
    /// When it plays.
    pub hours: Hours,
    /// What is printed on the loudspeaker, if the source is one.
    pub loudspeaker: Option<Loudspeaker>,
    /// Mass in kg of what stands in the box beside boards and lining.
    pub contents_kg: f64,
    /// Heat in W that is set free in the box.
    pub heat_w: f64,
    /// The driver, if the source is one.
    pub driver: Option<Driver>,
    /// Inside length, width and height in m.
    pub inside_m: [f64; 3],
    /// Lining, if any.
    pub lining: Option<Lining>,
    /// The inner box.
    pub inner: CheckedShell,
    /// Baffle with a closed chamber behind it, if any.
    pub baffle: Option<Baffle>,
    /// Gap and outer box, if any.
    pub outer: Option<(Gap, CheckedShell)>,
    /// What holds the inner box in the outer one.
    pub suspension: Support,
    /// What the whole stands on.
    pub feet: Support,
    /// Vents, if any.
    pub vents: Option<Vents>,
    /// The room.
    pub room: Room,
    /// The floor of the room.
    pub floor: Floor,
    /// Who is not to be disturbed.
    pub listeners: Vec<Listener>,
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

    /// Inside length, width and height in m of the chamber in front of the driver.
    pub fn front_m(&self) -> [f64; 3] {
        let [length, width, height] = self.inside_m;
        let behind = self.baffle.as_ref().map_or(0.0, |baffle| baffle.rear_m + baffle.laminate.thickness_m());
        [length - behind, width, height]
    }
}

impl Design {
    /// Checks every field.
    ///
    /// # Errors
    /// Every field that is out of range or names something unknown, with what is allowed.
    pub fn check(&self) -> Result<CheckedDesign, Vec<FieldError>> {
        self.check_packed().map(|(checked, _)| checked)
    }

    /// As [`Design::check`], with what the design has other than the base of links: whether that fits a link is a part of the check.
    pub(super) fn check_packed(&self) -> Result<(CheckedDesign, Vec<u8>), Vec<FieldError>> {
        let checked = check_loads(self.check_fields()?)?;
        let packed = patch::packed(self);
        match patch::excess(&packed) {
            0 => Ok((checked, packed)),
            excess => Err(vec![FieldError::new(
                "notes",
                format!(
                    "a design has to fit into a link of {} characters: {excess} plain letters fewer in notes and names (of others, which \
                     take more room each, not so many), or fewer band values or numbers of one's own, and it does",
                    patch::LONGEST
                ),
            )]),
        }
    }

    /// As [`Design::check`], but for what the supports carry.
    pub(crate) fn check_fields(&self) -> Result<CheckedDesign, Vec<FieldError>> {
        let mut problems = Problems::default();
        let p = &mut problems;
        if self.name.chars().count() > limits::NAME_CHARACTERS || self.name.chars().any(turns_text) {
            p.push("name", format!("at most {} characters, none that controls the direction of text", limits::NAME_CHARACTERS));
        }
        let turns = |character: char| character != '\n' && turns_text(character);
        if self.notes.chars().count() > limits::NOTES_CHARACTERS || self.notes.chars().any(turns) {
            let most = limits::NOTES_CHARACTERS;
            p.push("notes", format!("at most {most} characters in lines, none that controls the direction of text"));
        }
        let (driver, loudspeaker) = self.source.driver.as_ref().map(|driver| check_driver(p, driver)).unzip();
        let (source_db, max_above_db) = self.check_level(p, loudspeaker.as_ref());
        let hours = Hours {
            start_h: p.within("source.start_h", self.source.start_h, limits::START_H, "h", "the hour of day"),
            hours: p.within("source.hours", self.source.hours, limits::HOURS, "h", "hours a day"),
        };
        let heat_why = "more needs a machine room";
        let contents_why = "what is in the box beside its boards";
        let contents_kg = p.within("source.mass_kg", self.source.mass_kg, limits::CONTENTS_KG, "kg", contents_why);
        let heat_w = p.within("source.heat_w", self.source.heat_w, limits::HEAT_W, "W", heat_why);
        let why = "smaller holds no driver, larger is a room";
        let inside_m = [
            p.within("inner.length_mm", self.inner.length_mm, limits::INSIDE_MM, "mm", why) / 1000.0,
            p.within("inner.width_mm", self.inner.width_mm, limits::INSIDE_MM, "mm", why) / 1000.0,
            p.within("inner.height_mm", self.inner.height_mm, limits::INSIDE_MM, "mm", why) / 1000.0,
        ];
        let smallest_m = inside_m.iter().copied().fold(f64::INFINITY, f64::min);
        let lining = self.inner.lining.as_ref().and_then(|lining| check_lining(p, "inner.lining", lining, smallest_m));
        let inner = &self.inner;
        let compound_mm = self.build.compound_mm();
        let laminate = check_leaf(p, "inner.layers", &inner.layers, compound_mm);
        let baffle = inner.baffle.as_ref().and_then(|baffle| check_baffle(p, baffle, inside_m[0], lining.as_ref()));
        let front_m = inside_m[0] - baffle.as_ref().map_or(0.0, |baffle| baffle.rear_m + baffle.laminate.thickness_m());
        let inner_braces = inner.braces.as_ref().map(|braces| {
            let room_mm = 1000.0 * smallest_m;
            check_braces(p, "inner.braces", braces, front_m, room_mm, true)
        });
        let inner_shell = laminate.map(|laminate| CheckedShell {
            laminate,
            edge_fixity: check_fixity(p, "inner.edge_fixity", inner.edge_fixity),
            braces: inner_braces,
            lid: check_lid(p, "inner.lid", &inner.lid, &self.build),
            holes: check_holes(p, "inner.holes", &inner.holes, inside_m),
        });
        let gap = self.check_gap(p);
        let outer = match &self.outer {
            None => Some(None),
            Some(shell) => check_leaf(p, "outer.layers", &shell.layers, compound_mm).map(|laminate| {
                let room_mm = 1000.0 * gap.depth_m - limits::CLEARANCE_MM;
                let length_m = inside_m[0];
                let braces = shell.braces.as_ref().map(|b| check_braces(p, "outer.braces", b, length_m, room_mm, false));
                let shell = CheckedShell {
                    laminate,
                    edge_fixity: check_fixity(p, "outer.edge_fixity", shell.edge_fixity),
                    braces,
                    lid: check_lid(p, "outer.lid", &shell.lid, &self.build),
                    holes: check_holes(p, "outer.holes", &shell.holes, grown(inside_m, gap.depth_m)),
                };
                Some((gap, shell))
            }),
        };
        let in_gap = self.outer.is_some().then_some(gap.depth_m);
        let suspension = check_support(p, "suspension", &self.suspension, in_gap);
        let feet = check_support(p, "feet", &self.feet, None);
        let vents = self.vents.as_ref().map(|vents| check_vents(p, vents, inside_m));
        let room = self.check_room(p);
        self.build.check(p);
        if self.listeners.len() > limits::LISTENERS {
            p.push("listeners", format!("at most {} listeners: the strictest decides", limits::LISTENERS));
        }
        let one = |(k, listener): (usize, &ListenerPart)| listener.check(p, &format!("listeners[{k}]"));
        let listeners = self.listeners.iter().take(limits::LISTENERS).enumerate().map(one).collect();
        let (Some(inner), Some(outer)) = (inner_shell, outer) else {
            return problems.finish(()).map(|()| unreachable!("a missing shell has recorded its error"));
        };
        problems.finish(CheckedDesign {
            document: self.clone(),
            source_db,
            max_above_db,
            hours,
            loudspeaker,
            contents_kg,
            heat_w,
            driver,
            inside_m,
            lining,
            inner,
            baffle,
            outer,
            suspension,
            feet,
            vents,
            room,
            floor: self.room.floor,
            listeners,
        })
    }

    /// Levels in dB by band at 1 m, and how far the loudest moments lie above them.
    fn check_level(&self, p: &mut Problems, loudspeaker: Option<&Loudspeaker>) -> (Spectrum, f64) {
        let source = &self.source;
        let level_dba =
            p.within("source.level_dba", source.level_dba, limits::LEVEL_DBA, "dBA", "a whisper to a jet engine, at 1 m");
        let max_why = "a steady hum to single strokes";
        let max_above_db = p.within("source.max_above_db", source.max_above_db, limits::MAX_ABOVE_DB, "dB", max_why);
        let own = source.spectrum == SourceSpectrum::Own;
        let grid = own_bands(p, "source.own_db", &source.own_db, own, limits::BAND_DB);
        let shape_db = if own { levels_by_thirds(&source.own_db, grid) } else { source.spectrum.shape_db() };
        match (source.level_from, loudspeaker) {
            (LevelFrom::Driver, Some(loudspeaker)) => {
                (loudspeaker.levels_db(&shape_db, &Air::default()), loudspeaker.max_above_db())
            }
            (LevelFrom::Driver, None) => {
                p.push("source.level_from", "from the driver only where there is one");
                (shape_db, max_above_db)
            }
            (LevelFrom::Given, _) if own => (shape_db, max_above_db),
            (LevelFrom::Given, _) => (set_to_dba(&shape_db, level_dba), max_above_db),
        }
    }

    fn check_room(&self, p: &mut Problems) -> Room {
        let room = &self.room;
        Room::new(
            p.within("room.floor_area_m2", room.floor_area_m2, limits::FLOOR_AREA_M2, "m2", "a closet to a hall"),
            p.within("room.height_m", room.height_m, limits::ROOM_HEIGHT_M, "m", "a cellar to a hall"),
            p.within("room.absorption", room.absorption, limits::ROOM_ABSORPTION, "", "bare concrete to a studio"),
            p.within("room.distance_m", room.distance_m, limits::DISTANCE_M, "m", "nearer is inside the near field"),
        )
    }

    fn check_gap(&self, p: &mut Problems) -> Gap {
        let depth_mm = p.within("gap.depth_mm", self.gap.depth_mm, limits::GAP_MM, "mm", "less touches, more is a room");
        let fill = self.gap.fill.as_ref().and_then(|fill| {
            let share = p.within("gap.fill.share", fill.share, (0.0, 1.0), "", "part of the depth that is filled");
            let Some(material) = material::fill(&fill.material) else {
                p.push("gap.fill.material", format!("no such fill; known are {}", known_fills()));
                return None;
            };
            Some(Fill { flow_resistivity: material.flow_resistivity, share, side: side(fill.side) })
        });
        Gap { depth_m: depth_mm / 1000.0, fill, loss: GapLoss::Faces { absorption: GapLoss::FACE_ABSORPTION } }
    }
}

/// What the recoil needs of the driver, and what its level comes from.
fn check_driver(p: &mut Problems, driver: &DriverPart) -> (Driver, Loudspeaker) {
    let why = "tweeter to subwoofer";
    let mass_g = p.within("source.driver.moving_mass_g", driver.moving_mass_g, limits::MOVING_MASS_G, "g", why);
    let area_cm2 = p.within("source.driver.cone_area_cm2", driver.cone_area_cm2, limits::CONE_AREA_CM2, "cm2", why);
    let count = whole(p, "source.driver.count", driver.count, limits::DRIVERS, "drivers side by side");
    let diameter_mm = p.within("source.driver.diameter_mm", driver.diameter_mm, limits::DIAMETER_MM, "mm", why);
    let printed = "what is printed on loudspeakers";
    let sensitivity_db = p.within("source.driver.sensitivity_db", driver.sensitivity_db, limits::SENSITIVITY_DB, "dB", printed);
    let power_w = p.within("source.driver.power_w", driver.power_w, limits::POWER_W, "W", "a whisper to a hall");
    let crest_db = p.within("source.driver.crest_db", driver.crest_db, limits::CREST_DB, "dB", "a square wave to single strokes");
    (
        Driver { moving_mass_kg: mass_g / 1000.0, cone_area_m2: area_cm2 / 10_000.0 },
        Loudspeaker { count, diameter_m: diameter_mm / 1000.0, sensitivity_db, power_w, crest_db },
    )
}

/// A lining of what is `smallest_m` wide, with errors under `path`.
pub(super) fn check_lining(p: &mut Problems, path: &str, lining: &LiningPart, smallest_m: f64) -> Option<Lining> {
    let range = (limits::LINING_MM.0, limits::LINING_MM.1.min(450.0 * smallest_m));
    let why = "thicker would fill the box";
    let thickness_mm = p.within(&format!("{path}.thickness_mm"), lining.thickness_mm, range, "mm", why);
    let Some(fill) = material::fill(&lining.material) else {
        p.push(format!("{path}.material"), format!("no such lining; known are {}", known_fills()));
        return None;
    };
    Some(Lining { thickness_m: thickness_mm / 1000.0, flow_resistivity: fill.flow_resistivity })
}

fn check_fixity(p: &mut Problems, path: &str, fixity: f64) -> f64 {
    p.within(path, fixity, limits::EDGE_FIXITY, "", "from corners that turn freely to corners that do not turn at all")
}

/// One sheet of the catalogue as a leaf.
pub(super) fn check_one_sheet(p: &mut Problems, path: &str, key: &str, thickness_mm: f64) -> Option<Laminate> {
    let sheet = check_sheet(p, path, &NameOr::Name(key.to_owned()), Some(thickness_mm))?;
    Some(Laminate { sheets: vec![sheet], bonds: Vec::new() })
}

fn known_fills() -> String {
    material::fills().iter().map(|material| material.key).collect::<Vec<_>>().join(", ")
}
