//! Listeners: what a document says of them, and its check.

use super::check::limits;
use crate::bands::Spectrum;
use crate::buildup::check::Problems;
use crate::error::turns_text;
use crate::need::{
    Background, BandValues, Criterion, CriterionKind, Grid, Partition, Place, Room, Way, background_db, check_bands,
    indices_by_thirds, levels_by_thirds,
};

crate::mapping::objects! {
    ListenerPart {
        name, place, partition, reduction_db, area_m2, flanking_db, corridor_m2, distance_m, room, criterion, limit_dba,
        limit_nr, limit_nc, average, background, background_dba, background_db
    }
    ListenerRoomPart { floor_area_m2, height_m, absorption }
}

/// Somebody who is not to be disturbed.
#[derive(Clone, Debug, PartialEq)]
pub struct ListenerPart {
    /// Who or where, for people.
    pub name: String,
    /// What lies between.
    pub place: Place,
    /// What parts the listener from the room with the box; absent: the values of `reduction_db`.
    pub partition: Option<Partition>,
    /// Apparent sound reduction index in dB by octave or third, as (Hz, dB), for a partition of one's own.
    pub reduction_db: BandValues,
    /// Area in m2 of the partition.
    pub area_m2: f64,
    /// By how many dB what goes round the partition lowers its sound reduction index; of a preset only.
    pub flanking_db: f64,
    /// Floor area in m2 of the corridor.
    pub corridor_m2: f64,
    /// Distance in m from the middle of the box in its room, or from the window in the open.
    pub distance_m: f64,
    /// The listener's room.
    pub room: ListenerRoomPart,
    /// What the limit is taken from.
    pub criterion: CriterionKind,
    /// A-weighted limit in dB of one's own.
    pub limit_dba: f64,
    /// Number of the NR curve.
    pub limit_nr: f64,
    /// Number of the NC curve.
    pub limit_nc: f64,
    /// Whether the hours in which nothing plays count towards the mean of a guideline value.
    pub average: bool,
    /// What is heard there anyway.
    pub background: Background,
    /// Its A-weighted level in dB, for one of one's own.
    pub background_dba: f64,
    /// Its levels in dB by octave or third, as (Hz, dB), for band levels of one's own.
    pub background_db: BandValues,
}

/// A listener's room.
#[derive(Clone, Debug, PartialEq)]
pub struct ListenerRoomPart {
    /// Floor area in m2.
    pub floor_area_m2: f64,
    /// Ceiling height in m.
    pub height_m: f64,
    /// Mean absorption coefficient of its surfaces.
    pub absorption: f64,
}

impl Default for ListenerPart {
    fn default() -> Self {
        Self {
            name: "Next room".to_owned(),
            place: Place::NextRoom,
            partition: Some(Partition::BrickWall),
            reduction_db: Vec::new(),
            area_m2: Partition::BrickWall.area_m2(),
            flanking_db: 3.0,
            corridor_m2: 10.0,
            distance_m: 6.0,
            room: ListenerRoomPart::default(),
            criterion: CriterionKind::Who,
            limit_dba: 30.0,
            limit_nr: 25.0,
            limit_nc: 25.0,
            average: false,
            background: Background::LivingRoom,
            background_dba: 25.0,
            background_db: Vec::new(),
        }
    }
}

impl Default for ListenerRoomPart {
    fn default() -> Self {
        Self { floor_area_m2: 16.0, height_m: 2.5, absorption: 0.2 }
    }
}

/// A listener, checked.
#[derive(Clone, Debug, PartialEq)]
pub struct Listener {
    /// What parts the listener from the room, by name or in dB by band; the way's own reduction waits for it.
    pub partition: PartitionBy,
    /// The way there.
    pub way: Way,
    /// How quiet it has to be.
    pub criterion: Criterion,
    /// What is heard there anyway, in dB by band.
    pub background_db: Spectrum,
}

/// How a partition is known.
#[derive(Clone, Debug, PartialEq)]
pub enum PartitionBy {
    /// By its construction, with what flanking takes off in dB.
    Construction(Partition, f64),
    /// By its apparent sound reduction index in dB by band.
    Reduction(Box<Spectrum>),
}

impl ListenerPart {
    /// Checks every number that has an effect; those that have none are checked as well, so that none can come to have one.
    pub(super) fn check(&self, p: &mut Problems, path: &str) -> Listener {
        let at = |field: &str| format!("{path}.{field}");
        if self.name.chars().count() > limits::LISTENER_CHARACTERS || self.name.chars().any(turns_text) {
            let most = limits::LISTENER_CHARACTERS;
            p.push(at("name"), format!("at most {most} characters, none that controls the direction of text"));
        }
        let mut within =
            |field: &str, value: f64, range: (f64, f64), unit: &str, why: &str| p.within(&at(field), value, range, unit, why);
        let area_m2 = within("area_m2", self.area_m2, limits::PARTITION_M2, "m2", "a hatch to a long wall");
        let flanking_db = within("flanking_db", self.flanking_db, limits::FLANKING_DB, "dB", "what goes round the partition");
        let corridor_m2 = within("corridor_m2", self.corridor_m2, limits::FLOOR_AREA_M2, "m2", "a landing to a long hall");
        let distance_m = within("distance_m", self.distance_m, limits::LISTENER_M, "m", "further off wind and ground count");
        let floor_area_m2 =
            within("room.floor_area_m2", self.room.floor_area_m2, limits::FLOOR_AREA_M2, "m2", "a closet to a hall");
        let height_m = within("room.height_m", self.room.height_m, limits::ROOM_HEIGHT_M, "m", "a cellar to a hall");
        let absorption =
            within("room.absorption", self.room.absorption, limits::ROOM_ABSORPTION, "", "bare concrete to a studio");
        let limit_dba = within("limit_dba", self.limit_dba, limits::LIMIT_DBA, "dBA", "inaudible to a busy street");
        let nr = within("limit_nr", self.limit_nr, limits::LIMIT_NR, "", "the curves that are in use");
        let nc = within("limit_nc", self.limit_nc, limits::LIMIT_NC, "", "the curves that are tabled");
        let background_dba =
            within("background_dba", self.background_dba, limits::BACKGROUND_DBA, "dBA", "a still night to a busy street");
        let own_reduction = own_bands(p, &at("reduction_db"), &self.reduction_db, self.partition.is_none(), limits::REDUCTION_DB);
        let partition = match self.partition {
            Some(preset) => PartitionBy::Construction(preset, flanking_db),
            None => PartitionBy::Reduction(Box::new(indices_by_thirds(&self.reduction_db, own_reduction))),
        };
        let by_bands = self.background == Background::OwnBands;
        let own_background = own_bands(p, &at("background_db"), &self.background_db, by_bands, limits::BAND_DB);
        let background_db = if by_bands {
            levels_by_thirds(&self.background_db, own_background)
        } else {
            background_db(self.background.level_dba().unwrap_or(background_dba))
        };
        let way = Way {
            place: self.place,
            reduction_db: Spectrum::constant(0.0),
            area_m2,
            room_absorption_m2: Room::new(floor_area_m2, height_m, absorption, distance_m).absorption_area_m2,
            corridor_m2,
            distance_m,
        };
        let outdoors = self.place == Place::Outdoors;
        let criterion = Criterion { kind: self.criterion, limit_dba, nr, nc, outdoors, average: self.average };
        Listener { partition, way, criterion, background_db }
    }
}

/// The grid of band values of one's own at `path`; none are needed where they have no effect.
pub(super) fn own_bands(p: &mut Problems, path: &str, values: &BandValues, in_effect: bool, range_db: (f64, f64)) -> Grid {
    if values.is_empty() && !in_effect {
        return Grid::Thirds;
    }
    check_bands(values, range_db).unwrap_or_else(|message| {
        p.push(path, message);
        Grid::Thirds
    })
}

impl PartitionBy {
    /// Apparent sound reduction index R' in dB by band; `of_preset` computes that of a construction's direct way.
    pub fn reduction_db(&self, of_preset: impl FnOnce(Partition) -> Spectrum) -> Spectrum {
        match self {
            Self::Construction(preset, flanking_db) => of_preset(*preset).map(|reduction| reduction - flanking_db),
            Self::Reduction(own) => **own,
        }
    }
}
