//! A large box of common practice: a wooden box hung in one of three heavy layers. For tests alone.

use hushwright::buildup::raw::{Layer, Side};
use hushwright::design::{
    Design, DriverPart, Fill, GapPart, HolesPart, LevelFrom, LidPart, LiningPart, Shell, SourcePart, SupportPart,
};
use hushwright::enclosure::SupportKind;
use hushwright::need::SourceSpectrum;

/// A 12-inch driver with noise, as one measures.
pub fn guitar_driver() -> SourcePart {
    SourcePart {
        spectrum: SourceSpectrum::DriverNoise,
        level_from: LevelFrom::Given,
        level_dba: 112.0,
        mass_kg: 12.0,
        heat_w: 30.0,
        driver: Some(DriverPart { moving_mass_g: 45.0, cone_area_cm2: 530.0, ..DriverPart::default() }),
        ..SourcePart::default()
    }
}

/// Straps that hold the inner box at about 8 Hz: each gives 6.5 mm under 12 kg.
pub fn straps() -> SupportPart {
    SupportPart {
        kind: SupportKind::Straps,
        count: 4.0,
        test_mass_kg: 12.0,
        test_sag_mm: 6.0,
        height_mm: 50.0,
        breaking_load_kg: 200.0,
        ..SupportPart::springs()
    }
}

/// Plywood 16 mm, 0.90 x 0.48 x 0.48 m inside, lined with 50 mm, hung in plywood, gypsum board and plywood with compound
/// between the last two, and `first_joint` between the first two; gap 65 mm, half filled.
pub fn heavy_box(fixity: f64, lid: &LidPart, first_joint: &str) -> Design {
    let mut design = Design { source: guitar_driver(), vents: None, suspension: straps(), ..Design::default() };
    let inner = &mut design.inner;
    (inner.length_mm, inner.width_mm, inner.height_mm) = (900.0, 480.0, 480.0);
    inner.lining = Some(LiningPart { thickness_mm: 50.0, ..LiningPart::default() });
    inner.layers = vec![Layer::sheet("birch-plywood", 16.0)];
    inner.edge_fixity = fixity;
    inner.braces = None;
    inner.baffle = None;
    inner.lid = lid.clone();
    inner.holes = HolesPart { count: 2.0, diameter_mm: 12.0, cable_mm: 8.0, sealed: true };
    design.gap = GapPart { depth_mm: 65.0, fill: Some(Fill { share: 0.5, side: Side::Second, ..Fill::default() }) };
    design.outer = Some(Shell {
        layers: vec![
            Layer::sheet("birch-plywood", 18.0),
            Layer::bond(first_joint),
            Layer::sheet("gypsum-board", 16.0),
            Layer::bond("damping-compound"),
            Layer::sheet("birch-plywood", 18.0),
        ],
        edge_fixity: fixity,
        braces: None,
        lid: lid.clone(),
        holes: HolesPart { count: 2.0, diameter_mm: 12.0, cable_mm: 8.0, sealed: true },
    });
    design
}
