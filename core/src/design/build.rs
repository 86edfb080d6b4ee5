//! What the workshop needs to know beside the box itself: what stands in it, how it is put together, the way it has to go, and
//! the numbers of one's own that take the place of usual ones.

use serde_json::{Map, Value};

use crate::buildup::check::Problems;
use crate::error::{FieldError, turns_text};
use crate::mapping::{self, Held};
use crate::packed::{Packed, pack_count, unpack_count};
use crate::workshop::OwnKey;

crate::mapping::objects! {
    BuildPart {
        contents, way, clearance_mm, lid_clearance_mm, compound_m2, screw_mm, bead_mm, kerf_mm, trim_mm, keeps_grain, waste, tax,
        currency, own
    }
    ContentsPart { length_mm, width_mm, height_mm, microphones, distance_mm, microphone_mm }
    WayPart { door_width_mm, door_height_mm, corridor_mm, corner_mm, stairs_mm, handles_mm }
}

/// Ranges of the numbers of this part.
pub mod limits {
    /// Size in mm of what stands in the box.
    pub const CONTENTS_MM: (f64, f64) = (20.0, 3000.0);
    /// Microphones side by side.
    pub const MICROPHONES: (f64, f64) = (0.0, 8.0);
    /// Distance in mm from the loudspeaker to a microphone.
    pub const DISTANCE_MM: (f64, f64) = (0.0, 2000.0);
    /// Length in mm of a microphone with its plug and holder.
    pub const MICROPHONE_MM: (f64, f64) = (20.0, 600.0);
    /// Clear width in mm of a door.
    pub const DOOR_WIDTH_MM: (f64, f64) = (300.0, 5000.0);
    /// Clear height in mm of a door.
    pub const DOOR_HEIGHT_MM: (f64, f64) = (500.0, 5000.0);
    /// Clear width in mm of a corridor or of stairs, where there are any.
    pub const CORRIDOR_MM: (f64, f64) = (400.0, 10_000.0);
    /// How far in mm handles stand out.
    pub const HANDLES_MM: (f64, f64) = (0.0, 300.0);
    /// Play in mm in every seam between boards.
    pub const CLEARANCE_MM: (f64, f64) = (0.0, 5.0);
    /// Play in mm round a lid.
    pub const LID_CLEARANCE_MM: (f64, f64) = (0.5, 10.0);
    /// Area in m2 that a tube of compound covers.
    pub const COMPOUND_M2: (f64, f64) = (0.2, 20.0);
    /// Distance in mm between screws.
    pub const SCREW_MM: (f64, f64) = (50.0, 1000.0);
    /// Diameter in mm of a bead of sealant.
    pub const BEAD_MM: (f64, f64) = (1.0, 20.0);
    /// Width in mm of a saw cut.
    pub const KERF_MM: (f64, f64) = (0.0, 10.0);
    /// What is cut off all round a sheet first, in mm.
    pub const TRIM_MM: (f64, f64) = (0.0, 50.0);
    /// Part that is bought on top, for waste.
    pub const WASTE: (f64, f64) = (0.0, 1.0);
    /// Tax as a part of the price.
    pub const TAX: (f64, f64) = (0.0, 1.0);
    /// Most characters of a currency.
    pub const CURRENCY_CHARACTERS: usize = 6;
    /// Price of one's own, in any currency.
    pub const PRICE: (f64, f64) = (0.0, 1e7);
    /// Work in minutes of one's own for one of a thing.
    pub const MINUTES: (f64, f64) = (0.0, 6000.0);
    /// Side in mm of a sheet of one's own.
    pub const SHEET_MM: (f64, f64) = (200.0, 6000.0);
    /// Most numbers of one's own.
    pub const OWN_NUMBERS: usize = 80;
}

/// Volume in l of a tube of compound (common practice, no source).
pub const COMPOUND_TUBE_L: f64 = 0.8;

/// What the workshop needs to know beside the box itself.
#[derive(Clone, Debug, PartialEq)]
pub struct BuildPart {
    /// What stands in the box: what its inside has to hold.
    pub contents: ContentsPart,
    /// The way that the box has to go.
    pub way: WayPart,
    /// Play in mm in every seam between two boards of a layer; sealant fills it.
    pub clearance_mm: f64,
    /// Play in mm round the boards of a lid.
    pub lid_clearance_mm: f64,
    /// Area in m2 that a tube of damping compound covers: what is in it, spread over that, is the joint.
    pub compound_m2: f64,
    /// Distance in mm between screws.
    pub screw_mm: f64,
    /// Diameter in mm of a bead of sealant.
    pub bead_mm: f64,
    /// Width in mm of a saw cut.
    pub kerf_mm: f64,
    /// What is cut off all round a sheet first, in mm.
    pub trim_mm: f64,
    /// Whether boards with a grain have it along their longer side.
    pub keeps_grain: bool,
    /// Part that is bought on top of what is needed, for waste; sheets have theirs in the layout.
    pub waste: f64,
    /// Tax as a part of the price.
    pub tax: f64,
    /// What money is called.
    pub currency: String,
    /// Prices, working times and sizes of sheets that are not the usual ones.
    pub own: OwnNumbers,
}

/// What stands in the box, and the microphones in front of it.
#[derive(Clone, Debug, PartialEq)]
pub struct ContentsPart {
    /// Size in mm along the length of the box: of a loudspeaker, from its back to its front.
    pub length_mm: f64,
    /// Width in mm.
    pub width_mm: f64,
    /// Height in mm.
    pub height_mm: f64,
    /// How many microphones stand in front of it.
    pub microphones: f64,
    /// Distance in mm from its front to a microphone.
    pub distance_mm: f64,
    /// Length in mm of a microphone with its plug, its holder and the bend of its cable.
    pub microphone_mm: f64,
}

/// The way that the box has to go.
#[derive(Clone, Debug, PartialEq)]
pub struct WayPart {
    /// Clear width in mm of the narrowest door.
    pub door_width_mm: f64,
    /// Its clear height in mm.
    pub door_height_mm: f64,
    /// Width in mm of a corridor from which the box is turned into the door; 0: there is none.
    pub corridor_mm: f64,
    /// Width in mm of a corridor into which that one turns at a right angle; 0: there is none.
    pub corner_mm: f64,
    /// Clear width in mm of stairs and their landing; 0: there are none.
    pub stairs_mm: f64,
    /// How far in mm handles stand out at both ends; 0: there are none.
    pub handles_mm: f64,
}

/// Numbers of one's own by their keys, each once; see [`OwnKey`].
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OwnNumbers(Vec<(String, f64)>);

impl OwnNumbers {
    /// The number under `key`, if there is one.
    pub fn get(&self, key: &str) -> Option<f64> {
        self.0.iter().find(|(own, _)| own == key).map(|(_, number)| *number)
    }

    /// Puts `number` under `key`, or takes away what is there.
    pub fn set(&mut self, key: &str, number: Option<f64>) {
        let place = self.0.iter().position(|(own, _)| own == key);
        match (place, number) {
            (Some(place), Some(number)) => self.0[place].1 = number,
            (Some(place), None) => {
                self.0.remove(place);
            }
            (None, Some(number)) => self.0.push((key.to_owned(), number)),
            (None, None) => {}
        }
    }

    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = (&str, f64)> {
        self.0.iter().map(|(key, number)| (key.as_str(), *number))
    }

    /// Whether everything is as usual.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl Held for OwnNumbers {
    fn blank() -> Self {
        Self::default()
    }

    fn read(&mut self, value: &Value) -> Result<(), FieldError> {
        let Value::Object(given) = value else { return Err(mapping::invalid(value, "an object")) };
        self.0.clear();
        for (key, value) in given {
            let number = mapping::from_value(value).map_err(|error| error.within(key))?;
            self.0.push((key.clone(), number));
        }
        Ok(())
    }

    fn write(&self) -> Value {
        self.0.iter().map(|(key, number)| (key.clone(), (*number).into())).collect::<Map<_, _>>().into()
    }
}

impl Packed for OwnNumbers {
    fn pack(&self, bytes: &mut Vec<u8>) {
        pack_count(self.0.len(), bytes);
        for (key, number) in &self.0 {
            key.pack(bytes);
            number.pack(bytes);
        }
    }

    fn unpack(&mut self, bytes: &mut &[u8]) -> Option<()> {
        self.0.clear();
        for _ in 0..unpack_count(bytes)? {
            let (mut key, mut number) = (String::new(), 0.0);
            key.unpack(bytes)?;
            number.unpack(bytes)?;
            self.0.push((key, number));
        }
        Some(())
    }
}

impl Default for BuildPart {
    fn default() -> Self {
        Self {
            contents: ContentsPart::default(),
            way: WayPart::default(),
            clearance_mm: 0.5,
            lid_clearance_mm: 1.0,
            compound_m2: 3.0,
            screw_mm: 200.0,
            bead_mm: 5.0,
            kerf_mm: 3.0,
            trim_mm: 5.0,
            keeps_grain: true,
            waste: 0.1,
            tax: 0.0,
            currency: String::new(),
            own: OwnNumbers::default(),
        }
    }
}

impl Default for ContentsPart {
    fn default() -> Self {
        Self { length_mm: 165.0, width_mm: 390.0, height_mm: 390.0, microphones: 1.0, distance_mm: 250.0, microphone_mm: 130.0 }
    }
}

impl Default for WayPart {
    fn default() -> Self {
        Self { door_width_mm: 800.0, door_height_mm: 1965.0, corridor_mm: 0.0, corner_mm: 0.0, stairs_mm: 0.0, handles_mm: 0.0 }
    }
}

impl BuildPart {
    /// Thickness in mm of a joint of damping compound: a tube, spread over what it covers.
    pub fn compound_mm(&self) -> f64 {
        COMPOUND_TUBE_L / self.compound_m2
    }

    /// Checks every number, with errors under `build`.
    pub(super) fn check(&self, p: &mut Problems) {
        let contents_why = "what stands in the box";
        let contents = &self.contents;
        p.within("build.contents.length_mm", contents.length_mm, limits::CONTENTS_MM, "mm", contents_why);
        p.within("build.contents.width_mm", contents.width_mm, limits::CONTENTS_MM, "mm", contents_why);
        p.within("build.contents.height_mm", contents.height_mm, limits::CONTENTS_MM, "mm", contents_why);
        let side_by_side = "side by side; none for what is not recorded";
        super::fittings::whole(p, "build.contents.microphones", contents.microphones, limits::MICROPHONES, side_by_side);
        p.within("build.contents.distance_mm", contents.distance_mm, limits::DISTANCE_MM, "mm", "from the front to a microphone");
        let microphone_why = "with its plug and holder";
        p.within("build.contents.microphone_mm", contents.microphone_mm, limits::MICROPHONE_MM, "mm", microphone_why);
        let way = &self.way;
        p.within("build.way.door_width_mm", way.door_width_mm, limits::DOOR_WIDTH_MM, "mm", "a hatch to a gate");
        p.within("build.way.door_height_mm", way.door_height_mm, limits::DOOR_HEIGHT_MM, "mm", "a hatch to a gate");
        let paths = [
            ("build.way.corridor_mm", way.corridor_mm),
            ("build.way.corner_mm", way.corner_mm),
            ("build.way.stairs_mm", way.stairs_mm),
        ];
        for (path, width_mm) in paths {
            if width_mm != 0.0 {
                p.within(path, width_mm, limits::CORRIDOR_MM, "mm", "or 0 where there is none");
            }
        }
        p.within("build.way.handles_mm", way.handles_mm, limits::HANDLES_MM, "mm", "at either end");
        p.within("build.clearance_mm", self.clearance_mm, limits::CLEARANCE_MM, "mm", "sealant fills it");
        p.within("build.lid_clearance_mm", self.lid_clearance_mm, limits::LID_CLEARANCE_MM, "mm", "a lid has to come out again");
        p.within("build.compound_m2", self.compound_m2, limits::COMPOUND_M2, "m2", "for one tube");
        p.within("build.screw_mm", self.screw_mm, limits::SCREW_MM, "mm", "closer ones split boards, wider ones hold nothing");
        p.within("build.bead_mm", self.bead_mm, limits::BEAD_MM, "mm", "as it comes from the nozzle");
        p.within("build.kerf_mm", self.kerf_mm, limits::KERF_MM, "mm", "what a saw takes away");
        p.within("build.trim_mm", self.trim_mm, limits::TRIM_MM, "mm", "on each edge of a sheet");
        p.within("build.waste", self.waste, limits::WASTE, "", "part of what is needed");
        p.within("build.tax", self.tax, limits::TAX, "", "part of the price");
        let most = limits::CURRENCY_CHARACTERS;
        if self.currency.chars().count() > most || self.currency.chars().any(turns_text) {
            p.push("build.currency", format!("at most {most} characters, none that controls the direction of text"));
        }
        if self.own.0.len() > limits::OWN_NUMBERS {
            p.push("build.own", format!("at most {} numbers of one's own", limits::OWN_NUMBERS));
        }
        for (key, number) in self.own.iter().take(limits::OWN_NUMBERS) {
            let path = format!("build.own.{key}");
            let (range, unit, why) = match OwnKey::parse(key) {
                None => {
                    p.push("build.own", format!("no price, working time or size is called {key:.40}"));
                    continue;
                }
                Some(OwnKey::Minutes(_)) => (limits::MINUTES, "min", "of work for one"),
                Some(OwnKey::SheetLength(_) | OwnKey::SheetWidth(_)) => {
                    (limits::SHEET_MM, "mm", "an offcut to the largest sheet made")
                }
                Some(_) => (limits::PRICE, "", "a price; 0 for what you have already"),
            };
            p.within(&path, number, range, unit, why);
        }
    }
}
