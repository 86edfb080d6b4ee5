//! The fullest design: every part that a design can have, every number another than usual.

use hushwright::bands::NOMINAL_HZ;
use hushwright::buildup::check::MOST_SHEETS;
use hushwright::buildup::raw::Layer;
use hushwright::design::{
    BafflePart, BracesPart, Design, DriverPart, HolesPart, LevelFrom, LidPart, LiningPart, ListenerPart, ListenerRoomPart, Shell,
    SupportPart, VentsPart, limits,
};
use hushwright::enclosure::{BraceKind, Floor, LidFace, LidForm, SealKind, SupportKind};
use hushwright::need::{Background, CriterionKind, Place, SourceSpectrum};

/// Every part that a design can have but its texts; `digits`, which is less than one, is added to every number.
pub fn fullest(digits: f64) -> Design {
    let mut layers = Vec::new();
    for index in 0..MOST_SHEETS {
        if index > 0 {
            layers.push(Layer::bond("damping-compound"));
        }
        layers.push(Layer::sheet("dense-gypsum-board", 10.0 + digits));
    }
    let mut design = Design::default();
    design.inner.layers.clone_from(&layers);
    design.outer = Some(Shell { layers, ..Shell::default() });
    fill(&mut design, digits);
    // As a meter shows them: each band a tenth off the one before at least.
    let bands: Vec<(f64, f64)> =
        NOMINAL_HZ.iter().enumerate().map(|(band, hz)| (*hz, f64::from((band * 37 % 40) as u32) + digits)).collect();
    design.source.spectrum = SourceSpectrum::Own;
    design.source.level_from = LevelFrom::Given;
    design.source.own_db.clone_from(&bands);
    design.listeners = vec![listener(&bands, digits); limits::LISTENERS];
    design
}

/// A listener with everything that one can have.
fn listener(bands: &[(f64, f64)], digits: f64) -> ListenerPart {
    ListenerPart {
        name: String::new(),
        place: Place::BehindCorridor,
        partition: None,
        reduction_db: bands.to_vec(),
        area_m2: 10.0 + digits,
        flanking_db: 10.0 + digits,
        corridor_m2: 100.0 + digits,
        distance_m: 10.0 + digits,
        room: ListenerRoomPart { floor_area_m2: 100.0 + digits, height_m: 2.0 + digits, absorption: digits },
        criterion: CriterionKind::Inaudible,
        limit_dba: 30.0 + digits,
        limit_nr: 30.0 + digits,
        limit_nc: 30.0 + digits,
        average: false,
        background: Background::OwnBands,
        background_dba: 30.0 + digits,
        background_db: bands.to_vec(),
    }
}

/// Gives `design` every part that it can have, with as many digits as can be.
fn fill(design: &mut Design, digits: f64) {
    let braces = BracesPart { width_mm: 30.0 + digits, depth_mm: 20.0 + digits, count: 2.0, kind: BraceKind::Battens };
    let holes = HolesPart { count: 24.0, diameter_mm: 100.0 + digits, cable_mm: 8.0 + digits, sealed: false };
    let lid = LidPart { face: LidFace::Side, form: LidForm::Stepped, seals: 4.0, seal: SealKind::Compressed };
    let support = SupportPart {
        kind: SupportKind::Straps,
        count: 24.0,
        test_mass_kg: 11.0 + digits,
        test_sag_mm: 8.0 + digits,
        height_mm: 41.0 + digits,
        breaking_load_kg: 19_000.0 + digits,
        pad_side_mm: 60.0 + digits,
        pad_thickness_mm: 20.0 + digits,
        shore_a: 50.0 + digits,
    };
    design.source.mass_kg = 10.0 + digits;
    design.source.heat_w = 100.0 + digits;
    design.source.driver =
        Some(DriverPart { moving_mass_g: 100.0 + digits, cone_area_cm2: 800.0 + digits, ..DriverPart::default() });
    (design.inner.length_mm, design.inner.width_mm, design.inner.height_mm) = (900.0 + digits, 600.0 + digits, 600.0 + digits);
    design.inner.baffle =
        Some(BafflePart { rear_mm: 210.0 + digits, sheet: "dense-gypsum-board".to_owned(), thickness_mm: 12.0 + digits });
    design.inner.edge_fixity = 0.1 + digits;
    (design.inner.braces, design.inner.lid, design.inner.holes) = (Some(braces.clone()), lid.clone(), holes.clone());
    if let Some(outer) = &mut design.outer {
        outer.edge_fixity = 0.1 + digits;
        (outer.braces, outer.lid, outer.holes) = (Some(braces), lid, holes);
    }
    (design.suspension, design.feet) = (support.clone(), support);
    design.vents = Some(VentsPart {
        width_mm: 130.0 + digits,
        height_mm: 130.0 + digits,
        length_mm: 1300.0 + digits,
        count: 12.0,
        bends: 12.0,
        lining: Some(LiningPart { material: "mineral-wool-80".to_owned(), thickness_mm: 30.0 + digits }),
    });
    design.room.floor = Floor::Joists;
}
