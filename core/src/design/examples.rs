//! The examples that come with the page.

use crate::buildup::raw::{Layer, Side};
use crate::need::SourceSpectrum;

use super::document::{Design, Fill, GapPart, InnerPart, LiningPart, RoomPart, Shell, SourcePart};

/// All examples, the one that loads first at the front.
pub fn examples() -> Vec<Design> {
    vec![run_in_box(), first_box()]
}

/// Run-in box on a ground floor: re-coned 15-inch drivers played for hours in a workshop below a living room.
pub fn run_in_box() -> Design {
    Design {
        name: "Run-in box, ground floor".to_owned(),
        source: SourcePart { spectrum: SourceSpectrum::DriverNoise, level_dba: 112.0 },
        inner: InnerPart {
            length_mm: 700.0,
            width_mm: 500.0,
            height_mm: 500.0,
            lining: Some(LiningPart { material: "mineral-wool-48".to_owned(), thickness_mm: 50.0 }),
            layers: vec![Layer::sheet("mdf", 15.0)],
        },
        gap: GapPart {
            depth_mm: 50.0,
            fill: Some(Fill { material: "mineral-wool-48".to_owned(), share: 1.0 / 3.0, side: Side::Second }),
        },
        outer: Some(Shell {
            layers: vec![
                Layer::sheet("birch-plywood", 12.0),
                Layer::bond("damping-compound"),
                Layer::sheet("gypsum-board", 12.5),
                Layer::bond("loose"),
                Layer::sheet("particle-board", 18.0),
            ],
        }),
        room: RoomPart { floor_area_m2: 22.0, height_m: 2.5, absorption: 0.1, distance_m: 3.0 },
    }
}

/// First box: one shell round a practice loudspeaker.
fn first_box() -> Design {
    Design {
        name: "First box".to_owned(),
        source: SourcePart { spectrum: SourceSpectrum::OverdrivenGuitar, level_dba: 105.0 },
        inner: InnerPart {
            length_mm: 600.0,
            width_mm: 400.0,
            height_mm: 400.0,
            lining: Some(LiningPart { material: "mineral-wool-48".to_owned(), thickness_mm: 50.0 }),
            layers: vec![Layer::sheet("birch-plywood", 18.0)],
        },
        outer: None,
        ..run_in_box()
    }
}
