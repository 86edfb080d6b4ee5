//! The examples that come with the page.

use crate::buildup::raw::{Layer, Side};
use crate::enclosure::{Floor, SealKind};
use crate::need::{Background, CriterionKind, Partition, Place, SourceSpectrum};

use super::build::{BuildPart, ContentsPart};
use super::document::{
    BafflePart, Design, DriverPart, Fill, GapPart, HolesPart, InnerPart, LevelFrom, LidPart, LiningPart, RoomPart, Shell,
    SourcePart, SupportPart, VentsPart,
};
use super::listener::{ListenerPart, ListenerRoomPart};

/// All examples, the one that loads first at the front.
pub fn examples() -> Vec<Design> {
    vec![run_in_box(), shop_vacuum(), first_box()]
}

/// Run-in box on a ground floor: re-coned 15-inch drivers played for hours in a workshop below a living room.
pub fn run_in_box() -> Design {
    Design {
        name: "Run-in box, ground floor".to_owned(),
        notes: String::new(),
        source: SourcePart {
            spectrum: SourceSpectrum::DriverNoise,
            own_db: Vec::new(),
            level_from: LevelFrom::Given,
            level_dba: 112.0,
            max_above_db: SourceSpectrum::DriverNoise.max_above_db(),
            start_h: 18.0,
            hours: 3.0,
            mass_kg: 9.0,
            heat_w: 60.0,
            driver: Some(DriverPart::default()),
        },
        inner: InnerPart {
            existing: false,
            length_mm: 700.0,
            width_mm: 500.0,
            height_mm: 500.0,
            lining: Some(LiningPart { material: "mineral-wool-48".to_owned(), thickness_mm: 50.0 }),
            layers: vec![Layer::sheet("mdf", 15.0)],
            edge_fixity: 0.5,
            braces: None,
            baffle: Some(BafflePart::default()),
            lid: LidPart::default(),
            holes: HolesPart::default(),
        },
        gap: GapPart {
            depth_mm: 50.0,
            fill: Some(Fill { material: "mineral-wool-48".to_owned(), share: 1.0 / 3.0, side: Side::Second }),
        },
        suspension: SupportPart::springs(),
        outer: Some(Shell {
            layers: vec![
                Layer::sheet("birch-plywood", 12.0),
                Layer::bond("damping-compound"),
                Layer::sheet("gypsum-board", 12.5),
                Layer::bond("loose"),
                Layer::sheet("particle-board", 18.0),
            ],
            ..Shell::default()
        }),
        feet: SupportPart::pads(),
        vents: None,
        room: RoomPart { floor_area_m2: 22.0, height_m: 2.5, absorption: 0.1, distance_m: 3.0, floor: Floor::Ground },
        listeners: vec![ListenerPart {
            name: "Living room upstairs".to_owned(),
            partition: Some(Partition::JoistFloor),
            area_m2: 22.0,
            room: ListenerRoomPart { floor_area_m2: 22.0, ..ListenerRoomPart::default() },
            criterion: CriterionKind::Dba,
            limit_dba: 30.0,
            ..ListenerPart::default()
        }],
        build: BuildPart::default(),
    }
}

/// What the workshop needs to know of a box in which this stands.
fn standing(contents: ContentsPart) -> BuildPart {
    BuildPart { contents, ..BuildPart::default() }
}

/// First box: one shell round a practice loudspeaker.
fn first_box() -> Design {
    Design {
        name: "First box".to_owned(),
        notes: String::new(),
        source: SourcePart {
            spectrum: SourceSpectrum::OverdrivenGuitar,
            level_from: LevelFrom::Driver,
            level_dba: 105.0,
            max_above_db: SourceSpectrum::OverdrivenGuitar.max_above_db(),
            hours: 1.0,
            mass_kg: 10.0,
            heat_w: 10.0,
            driver: Some(DriverPart {
                diameter_mm: 254.0,
                sensitivity_db: 96.0,
                power_w: 10.0,
                crest_db: 8.0,
                moving_mass_g: 30.0,
                cone_area_cm2: 340.0,
                ..DriverPart::default()
            }),
            ..run_in_box().source
        },
        inner: InnerPart {
            existing: false,
            length_mm: 600.0,
            width_mm: 400.0,
            height_mm: 400.0,
            lining: Some(LiningPart { material: "mineral-wool-48".to_owned(), thickness_mm: 50.0 }),
            layers: vec![Layer::sheet("birch-plywood", 18.0)],
            edge_fixity: 0.5,
            braces: None,
            baffle: None,
            lid: LidPart { seals: 1.0, ..LidPart::default() },
            holes: HolesPart { count: 1.0, ..HolesPart::default() },
        },
        outer: None,
        room: RoomPart { floor: Floor::Joists, ..run_in_box().room },
        build: standing(ContentsPart {
            length_mm: 200.0,
            width_mm: 290.0,
            height_mm: 290.0,
            distance_mm: 150.0,
            ..ContentsPart::default()
        }),
        listeners: vec![ListenerPart {
            name: "Room next door".to_owned(),
            partition: Some(Partition::StudWall),
            area_m2: Partition::StudWall.area_m2(),
            ..ListenerPart::default()
        }],
        ..run_in_box()
    }
}

/// Shop vacuum in a garage: one shell, ventilated through a lined labyrinth.
fn shop_vacuum() -> Design {
    Design {
        name: "Shop vacuum in a garage".to_owned(),
        notes: String::new(),
        source: SourcePart {
            spectrum: SourceSpectrum::ShopVacuum,
            level_dba: 84.0,
            max_above_db: SourceSpectrum::ShopVacuum.max_above_db(),
            start_h: 14.0,
            hours: 1.0,
            mass_kg: 9.0,
            heat_w: 1100.0,
            driver: None,
            ..run_in_box().source
        },
        inner: InnerPart {
            existing: false,
            length_mm: 600.0,
            width_mm: 550.0,
            height_mm: 700.0,
            lining: Some(LiningPart { material: "mineral-wool-48".to_owned(), thickness_mm: 50.0 }),
            layers: vec![Layer::sheet("osb", 18.0)],
            edge_fixity: 0.5,
            braces: None,
            baffle: None,
            lid: LidPart { seals: 1.0, seal: SealKind::FoamTape, ..LidPart::default() },
            holes: HolesPart { diameter_mm: 55.0, cable_mm: 50.0, ..HolesPart::default() },
        },
        outer: None,
        build: standing(ContentsPart {
            length_mm: 460.0,
            width_mm: 430.0,
            height_mm: 560.0,
            microphones: 0.0,
            ..ContentsPart::default()
        }),
        vents: Some(VentsPart { width_mm: 200.0, height_mm: 190.0, length_mm: 1500.0, ..VentsPart::default() }),
        room: RoomPart { floor_area_m2: 18.0, height_m: 2.4, absorption: 0.06, distance_m: 3.0, floor: Floor::Ground },
        listeners: vec![ListenerPart {
            name: "Terrace next door".to_owned(),
            place: Place::Outdoors,
            partition: Some(Partition::GarageDoor),
            area_m2: 5.0,
            flanking_db: 0.0,
            criterion: CriterionKind::Inaudible,
            background: Background::SuburbOutdoors,
            ..ListenerPart::default()
        }],
        ..run_in_box()
    }
}
