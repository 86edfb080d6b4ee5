//! Links: every sound design comes back as it was, every damaged link says so, nothing panics.

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use hushwright::buildup::check::{MOST_SHEETS, MOST_TABLE_POINTS};
use hushwright::buildup::raw::{BondNumbers, Layer, NameOr, SheetNumbers, Side};
use hushwright::design::link::{LONGEST, LinkError, decode, encode};
use hushwright::design::{
    BafflePart, BracesPart, Design, DriverPart, Fill, GapPart, HolesPart, InnerPart, LidPart, LiningPart, RoomPart, Shell,
    SourcePart, SupportPart, VentsPart, examples, limits,
};
use hushwright::enclosure::{BraceKind, Floor, LidFace, LidForm, SealKind, SupportKind};
use hushwright::material::{fills, sheets};
use hushwright::need::SourceSpectrum;
use proptest::prelude::*;

/// A whole link, sum and all, round any text.
fn link_round(text: &str) -> String {
    let data = URL_SAFE_NO_PAD.encode(text);
    format!("v0.{data}.{:08x}", crc32fast::hash(data.as_bytes()))
}

fn between((low, high): (f64, f64)) -> impl Strategy<Value = f64> {
    // Slider steps as well as numbers with all their digits.
    prop_oneof![
        low..=high,
        (0_u32..=1000).prop_map(move |step| low + (high - low) * f64::from(step) / 1000.0),
        Just(low),
        Just(high)
    ]
}

fn sheet() -> impl Strategy<Value = Layer> {
    let named = prop::sample::select(sheets()).prop_map(|material| NameOr::Name(material.key.clone()));
    let numbers = (10.0..25_000.0, 1e6..1e12, 0.0..0.49, 0.0..2.0, prop::option::of(1e4..1e12)).prop_map(
        |(density, youngs_modulus, poisson, loss_factor, shear_modulus)| {
            NameOr::Numbers(SheetNumbers { density, youngs_modulus, poisson, loss_factor, shear_modulus })
        },
    );
    (prop_oneof![named, numbers], between((0.3, 100.0))).prop_map(|(sheet, thickness_mm)| Layer {
        sheet: Some(sheet),
        thickness_mm: Some(thickness_mm),
        ..Layer::default()
    })
}

fn bond() -> impl Strategy<Value = Layer> {
    let named = prop::sample::select(vec!["rigid-glue", "damping-compound", "loose"]).prop_map(Layer::bond);
    let table = |low: f64, high: f64| {
        prop::collection::btree_map(1_u32..20_000, low..high, 1..5)
            .prop_map(|points| points.into_iter().map(|(hz, value)| (f64::from(hz), value)).collect::<Vec<_>>())
    };
    let numbers = (0.01..20.0, 1.0..10_000.0, table(1e3, 1e10), table(0.0, 2.0)).prop_map(
        |(thickness_mm, density, shear_modulus, loss_factor)| Layer {
            bond: Some(NameOr::Numbers(BondNumbers { thickness_mm, density, shear_modulus, loss_factor })),
            ..Layer::default()
        },
    );
    prop_oneof![3 => named, 1 => numbers]
}

fn layers() -> impl Strategy<Value = Vec<Layer>> {
    (sheet(), prop::collection::vec((prop::option::of(bond()), sheet()), 0..4)).prop_map(|(first, more)| {
        let mut layers = vec![first];
        for (bond, sheet) in more {
            layers.extend(bond);
            layers.push(sheet);
        }
        layers
    })
}

fn fill_key() -> impl Strategy<Value = String> {
    prop::sample::select(fills()).prop_map(|material| material.key.clone())
}

fn source() -> impl Strategy<Value = SourcePart> {
    let spectra = vec![
        SourceSpectrum::PinkNoise,
        SourceSpectrum::DriverNoise,
        SourceSpectrum::OverdrivenGuitar,
        SourceSpectrum::ElectricBass,
        SourceSpectrum::ShopVacuum,
    ];
    let driver = (between(limits::MOVING_MASS_G), between(limits::CONE_AREA_CM2))
        .prop_map(|(moving_mass_g, cone_area_cm2)| DriverPart { moving_mass_g, cone_area_cm2 });
    (
        prop::sample::select(spectra),
        between(limits::LEVEL_DBA),
        between(limits::CONTENTS_KG),
        between(limits::HEAT_W),
        prop::option::of(driver),
    )
        .prop_map(|(spectrum, level_dba, mass_kg, heat_w, driver)| SourcePart {
            spectrum,
            level_dba,
            mass_kg,
            heat_w,
            driver,
        })
}

fn whole((low, high): (f64, f64)) -> impl Strategy<Value = f64> {
    (low as u32..=high as u32).prop_map(f64::from)
}

fn one_of<T: Clone + std::fmt::Debug + 'static>(all: &[T]) -> impl Strategy<Value = T> + use<T> {
    prop::sample::select(all.to_vec())
}

fn lid() -> impl Strategy<Value = LidPart> {
    let seal = one_of(&[SealKind::Bare, SealKind::FoamTape, SealKind::ClosedCell, SealKind::Compressed]);
    let face = one_of(&[LidFace::Front, LidFace::Side, LidFace::Top]);
    (face, one_of(&[LidForm::Plain, LidForm::Stepped]), whole(limits::SEALS), seal)
        .prop_map(|(face, form, seals, seal)| LidPart { face, form, seals, seal })
}

fn holes() -> impl Strategy<Value = HolesPart> {
    (whole(limits::HOLES), between(limits::HOLE_MM), 0.0..=1.0, any::<bool>()).prop_map(
        |(count, diameter_mm, share, sealed): (f64, f64, f64, bool)| HolesPart {
            count,
            diameter_mm,
            cable_mm: share * diameter_mm,
            sealed,
        },
    )
}

/// Braces that may be too many or too deep for their shell; see [`fitted`].
fn braces() -> impl Strategy<Value = Option<BracesPart>> {
    let kind = one_of(&[BraceKind::Battens, BraceKind::Shelves]);
    let part = (kind, whole(limits::BRACES), between(limits::BRACE_WIDTH_MM), between(limits::BRACE_DEPTH_MM))
        .prop_map(|(kind, count, width_mm, depth_mm)| BracesPart { kind, count, width_mm, depth_mm });
    prop::option::of(part)
}

fn support() -> impl Strategy<Value = SupportPart> {
    let kind = one_of(&[SupportKind::Straps, SupportKind::Springs, SupportKind::Pads, SupportKind::Rigid]);
    let tested = (between(limits::TEST_MASS_KG), between(limits::TEST_SAG_MM), between(limits::SUPPORT_HEIGHT_MM));
    let pads = (between(limits::PAD_SIDE_MM), between(limits::PAD_THICKNESS_MM), between(limits::SHORE_A));
    (kind, whole(limits::SUPPORTS), tested, between(limits::BREAKING_LOAD_KG), pads).prop_map(
        |(kind, count, (test_mass_kg, test_sag_mm, height_mm), breaking_load_kg, (pad_side_mm, pad_thickness_mm, shore_a))| {
            SupportPart {
                kind,
                count,
                test_mass_kg,
                test_sag_mm,
                height_mm,
                breaking_load_kg,
                pad_side_mm,
                pad_thickness_mm,
                shore_a,
            }
        },
    )
}

fn vents() -> impl Strategy<Value = VentsPart> {
    let lining =
        (fill_key(), between(limits::LINING_MM)).prop_map(|(material, thickness_mm)| LiningPart { material, thickness_mm });
    let side = || between(limits::VENT_MM);
    let length = between(limits::VENT_LENGTH_MM);
    (whole(limits::VENTS), side(), side(), length, whole(limits::BENDS), prop::option::of(lining)).prop_map(
        |(count, width_mm, height_mm, length_mm, bends, lining)| VentsPart {
            count,
            width_mm,
            height_mm,
            length_mm,
            bends,
            lining,
        },
    )
}

fn inner() -> impl Strategy<Value = InnerPart> {
    let side = || between(limits::INSIDE_MM);
    let lining =
        prop::option::of((fill_key(), 5.0..45.0).prop_map(|(material, thickness_mm)| LiningPart { material, thickness_mm }));
    let baffle = (between(limits::REAR_MM), prop::sample::select(sheets()), between((0.3, 100.0)))
        .prop_map(|(rear_mm, sheet, thickness_mm)| BafflePart { rear_mm, sheet: sheet.key.clone(), thickness_mm });
    let fittings = (between(limits::EDGE_FIXITY), braces(), prop::option::of(baffle), lid(), holes());
    (side(), side(), side(), lining, layers(), fittings).prop_map(
        |(length_mm, width_mm, height_mm, lining, layers, (edge_fixity, braces, baffle, lid, holes))| InnerPart {
            length_mm,
            width_mm,
            height_mm,
            lining,
            layers,
            edge_fixity,
            braces,
            baffle,
            lid,
            holes,
        },
    )
}

fn shell() -> impl Strategy<Value = Shell> {
    (layers(), between(limits::EDGE_FIXITY), braces(), lid(), holes())
        .prop_map(|(layers, edge_fixity, braces, lid, holes)| Shell { layers, edge_fixity, braces, lid, holes })
}

/// Takes out of `design` what stands against something else in it, one after the other. Each part by itself is in range.
fn fitted(mut design: Design) -> Design {
    let gap_mm = design.gap.depth_mm;
    if design.outer.is_some() {
        let support = &mut design.suspension;
        support.height_mm = support.height_mm.min(gap_mm);
        support.pad_thickness_mm = support.pad_thickness_mm.min(gap_mm);
    }
    while let Err(errors) = design.check() {
        let path = errors[0].path.as_str();
        if path.starts_with("inner.baffle.rear_mm") {
            design.inner.baffle = None;
        } else if path.starts_with("inner.braces") {
            design.inner.braces = fewer(design.inner.braces);
        } else if path.starts_with("outer.braces") {
            let outer = design.outer.as_mut().expect("braces belong to a shell");
            outer.braces = fewer(outer.braces.take());
        } else if path.starts_with("inner.holes") {
            smaller(&mut design.inner.holes);
        } else if path.starts_with("outer.holes") {
            smaller(&mut design.outer.as_mut().expect("holes belong to a shell").holes);
        } else if path.starts_with("vents") {
            design.vents = None;
        } else if path == "suspension.count" && design.suspension.kind != SupportKind::Rigid {
            design.suspension.kind = SupportKind::Rigid;
        } else if path == "feet.count" && design.feet.kind != SupportKind::Rigid {
            design.feet.kind = SupportKind::Rigid;
        } else {
            panic!("a part is out of range by itself: {errors:?}");
        }
    }
    design
}

/// Holes half as wide, with half as much in them.
fn smaller(holes: &mut HolesPart) {
    (holes.diameter_mm, holes.cable_mm) = (holes.diameter_mm / 2.0, holes.cable_mm / 2.0);
}

/// Fewer and shallower battens, at last none.
fn fewer(braces: Option<BracesPart>) -> Option<BracesPart> {
    let part = braces?;
    let (count, depth_mm) = ((part.count / 2.0).floor(), part.depth_mm / 2.0);
    let some = count >= 1.0 && depth_mm >= limits::BRACE_DEPTH_MM.0;
    some.then_some(BracesPart { kind: BraceKind::Battens, count, depth_mm, ..part })
}

fn gap() -> impl Strategy<Value = GapPart> {
    let fill = (fill_key(), between((0.0, 1.0)), prop::sample::select(vec![Side::First, Side::Second, Side::Middle]))
        .prop_map(|(material, share, side)| Fill { material, share, side });
    (between(limits::GAP_MM), prop::option::of(fill)).prop_map(|(depth_mm, fill)| GapPart { depth_mm, fill })
}

fn room() -> impl Strategy<Value = RoomPart> {
    (
        between(limits::FLOOR_AREA_M2),
        between(limits::ROOM_HEIGHT_M),
        between(limits::ROOM_ABSORPTION),
        between(limits::DISTANCE_M),
        one_of(&[Floor::Ground, Floor::Slab, Floor::Joists]),
    )
        .prop_map(|(floor_area_m2, height_m, absorption, distance_m, floor)| RoomPart {
            floor_area_m2,
            height_m,
            absorption,
            distance_m,
            floor,
        })
}

fn design() -> impl Strategy<Value = Design> {
    let name = prop_oneof!["[ -~]{0,40}", "\\PC{0,20}"];
    let between_boxes = (gap(), support(), prop::option::of(shell()));
    (name, source(), inner(), between_boxes, support(), prop::option::of(vents()), room()).prop_map(
        |(name, source, inner, (gap, suspension, outer), feet, vents, room)| {
            fitted(Design { name, source, inner, gap, suspension, outer, feet, vents, room })
        },
    )
}

#[test]
fn the_examples_come_back() {
    for example in examples() {
        let link = encode(&example);
        assert_eq!(decode(&link), Ok(example.clone()));
        assert_eq!(decode(&format!("#{link}")), Ok(example));
    }
}

#[test]
fn an_empty_patch_is_the_first_example() {
    assert_eq!(decode(&link_round("{}")), Ok(Design::default()));
}

#[test]
fn other_fragments_are_told_apart() {
    for fragment in
        ["", "#", "top", "v", "v.", "vx.abc.00000000", "0.abc.00000000", "v0", "v0x.abc", "\u{1F4E6}", "v123456789.a.b"]
    {
        assert_eq!(decode(fragment), Err(LinkError::Unknown), "{fragment}");
    }
    for fragment in ["v1.abc.00000000", "v7.", "#v99999.abc"] {
        assert_eq!(decode(fragment), Err(LinkError::NewerVersion), "{fragment}");
    }
    for fragment in ["v0.", "v0.abc", "v0..", "v0.abc.00000000", "v0.abc.", "v0.\u{e9}.00000000"] {
        assert_eq!(decode(fragment), Err(LinkError::Damaged), "{fragment}");
    }
}

#[test]
fn a_link_longer_than_any_design_is_too_long() {
    assert_eq!(decode(&"v".repeat(LONGEST + 1)), Err(LinkError::TooLong));
    assert_eq!(decode(&link_round(&format!("{{\"name\":\"{}\"}}", "x".repeat(LONGEST)))), Err(LinkError::TooLong));
    assert_eq!(decode(&"\u{1F4E6}".repeat(LONGEST)), Err(LinkError::TooLong));
}

#[test]
fn a_whole_link_round_a_bad_design_names_the_field() {
    for (text, field) in [
        (r#"{"source":{"level_dba":1e999}}"#, "level_dba"),
        (r#"{"source":{"level_dba":NaN}}"#, "level_dba"),
        (r#"{"source":{"level_dba":null}}"#, "level_dba"),
        (r#"{"source":{"level_dba":900}}"#, "level_dba"),
        (r#"{"inner":{"length_mm":-1}}"#, "length_mm"),
        (r#"{"inner":{"layers":[]}}"#, "layers"),
        (r#"{"inner":{"layers":[{"gap_mm":3}]}}"#, "layers"),
        (r#"{"inner":null}"#, "inner"),
        (r#"{"colour":"red"}"#, "colour"),
        (r#"{"room":{"absorption":"much"}}"#, "absorption"),
        (r#"{"gap":{"fill":{"material":"straw"}}}"#, "fill"),
    ] {
        let Err(LinkError::Refused(reason)) = decode(&link_round(text)) else { panic!("{text} is accepted") };
        assert!(reason.contains(field), "{text}: {reason}");
    }
    for text in ["[]", "3", "null", "", "{", "{}{}", &"[".repeat(4000), &"{\"a\":".repeat(900)] {
        assert!(matches!(decode(&link_round(text)), Err(LinkError::Refused(_))), "{text}");
    }
    assert_eq!(decode(&link_round_bytes(&[0xff, 0xfe])), Err(LinkError::Damaged));
}

fn link_round_bytes(bytes: &[u8]) -> String {
    let data = URL_SAFE_NO_PAD.encode(bytes);
    format!("v0.{data}.{:08x}", crc32fast::hash(data.as_bytes()))
}

/// A number that is not finite is refused by the check, and so never gets into a link.
#[test]
fn numbers_that_are_not_finite_are_refused() {
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let mut design = Design::default();
        design.source.level_dba = bad;
        assert!(design.check().is_err_and(|errors| errors[0].path == "source.level_dba"));
        let mut design = Design::default();
        design.inner.layers[0].thickness_mm = Some(bad);
        assert!(design.check().is_err_and(|errors| errors[0].path == "inner.layers[0].thickness_mm"));
        let mut design = Design::default();
        design.gap.depth_mm = bad;
        assert!(design.check().is_err_and(|errors| errors[0].path == "gap.depth_mm"));
    }
}

proptest! {
    #[test]
    fn a_sound_design_comes_back_bit_by_bit(design in design()) {
        prop_assert!(design.check().is_ok(), "{:?}", design.check().err());
        let link = encode(&design);
        prop_assert!(link.bytes().all(|byte| byte.is_ascii_alphanumeric() || b"-_.".contains(&byte)), "no character that mail breaks");
        prop_assert!(link.len() <= LONGEST, "{}", link.len());
        prop_assert_eq!(decode(&link), Ok(design));
    }

    #[test]
    fn a_link_cut_short_is_recognised(design in design(), share in 0.0_f64..1.0) {
        let link = encode(&design);
        let cut = &link[..((link.len() - 1) as f64 * share) as usize];
        let expected = if cut.len() < 3 { LinkError::Unknown } else { LinkError::Damaged };
        prop_assert_eq!(decode(cut), Err(expected));
    }

    #[test]
    fn a_changed_link_never_opens_as_something_else(
        design in design(),
        place in any::<prop::sample::Index>(),
        byte in 0x20_u8..0x7f,
    ) {
        let link = encode(&design);
        let mut bytes = link.clone().into_bytes();
        let place = place.index(bytes.len());
        bytes[place] = byte;
        let changed = String::from_utf8(bytes).expect("ASCII");
        if changed != link {
            prop_assert!(decode(&changed).is_err());
        }
    }

    #[test]
    fn any_text_is_refused_or_sound(text in "\\PC{0,200}") {
        prop_assert!(decode(&text).is_err());
        let prefixed = format!("v0.{text}");
        prop_assert!(decode(&prefixed).is_err());
        if let Ok(design) = decode(&link_round(&text)) {
            prop_assert!(design.check().is_ok());
        }
    }

    /// A whole link round a document with one number replaced opens only as a design that passes its check.
    #[test]
    fn a_changed_document_is_refused_or_sound(
        design in design(),
        place in any::<prop::sample::Index>(),
        number in prop_oneof![Just("1e308".to_owned()), Just("-1".to_owned()), Just("0".to_owned()), Just("null".to_owned()),
            Just("\"\"".to_owned()), Just("[]".to_owned()), Just("{}".to_owned()), any::<f64>().prop_map(|number| number.to_string())],
    ) {
        let text = serde_json::to_string(&design).expect("a design serialises");
        let colons: Vec<usize> = text.match_indices(':').map(|(at, _)| at + 1).collect();
        let start = colons[place.index(colons.len())];
        let end = start + text[start..].find([',', '}', ']']).unwrap_or(0);
        let changed = format!("{}{number}{}", &text[..start], &text[end..]);
        match decode(&link_round(&changed)) {
            Ok(design) => prop_assert!(design.check().is_ok()),
            Err(error) => prop_assert!(matches!(error, LinkError::Refused(_) | LinkError::TooLong), "{error}"),
        }
    }
}

/// The largest document that passes its check: every name as long, every shell as full, every number as many digits as can be.
#[test]
fn the_largest_design_still_fits_a_link() {
    let digits = 1.0 / 3.0;
    let sheet = NameOr::Numbers(SheetNumbers {
        density: 1000.0 + digits,
        youngs_modulus: 1e10 + digits,
        poisson: digits,
        loss_factor: digits,
        shear_modulus: Some(1e9 + digits),
    });
    let table: Vec<(f64, f64)> = (0..MOST_TABLE_POINTS).map(|point| (1000.0 + point as f64 + digits, 0.1 * digits)).collect();
    let bond = NameOr::Numbers(BondNumbers {
        thickness_mm: digits,
        density: 1000.0 + digits,
        shear_modulus: table.iter().map(|&(hz, value)| (hz, 1e6 + value)).collect(),
        loss_factor: table,
    });
    let mut layers = Vec::new();
    for index in 0..MOST_SHEETS {
        if index > 0 {
            layers.push(Layer { bond: Some(bond.clone()), ..Layer::default() });
        }
        layers.push(Layer { sheet: Some(sheet.clone()), thickness_mm: Some(10.0 + digits), ..Layer::default() });
    }
    let mut design = Design { name: "\u{1F50A}".repeat(limits::NAME_CHARACTERS), ..Design::default() };
    design.inner.layers.clone_from(&layers);
    design.outer = Some(Shell { layers, ..Shell::default() });
    fill_with_digits(&mut design, digits);
    assert!(design.check().is_ok(), "{:?}", design.check().err());
    let link = encode(&design);
    assert!(link.len() <= LONGEST, "{} characters", link.len());
    assert_eq!(decode(&link), Ok(design));
}

/// Gives `design` every part that it can have, with as many digits as can be.
fn fill_with_digits(design: &mut Design, digits: f64) {
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
    design.source.driver = Some(DriverPart { moving_mass_g: 100.0 + digits, cone_area_cm2: 800.0 + digits });
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

/// Serde reads a struct from a list of its values as well; a document that means something else must not slip through.
#[test]
fn lists_do_not_pass_as_objects() {
    for (text, field) in [
        (r#"{"room":[22,2.5,0.1,3]}"#, "room"),
        (r#"{"source":["pink-noise",100]}"#, "source"),
        (r#"{"inner":{"layers":[["mdf",16,null,null,null]]}}"#, "inner.layers"),
        (r#"{"inner":{"lining":["mineral-wool-48",50]}}"#, "inner.lining"),
        (r#"{"inner":{"layers":[{"sheet":[700,1e9,0.3,0.01,null],"thickness_mm":15}]}}"#, "inner.layers"),
    ] {
        match decode(&link_round(text)) {
            Err(LinkError::Refused(reason)) => assert!(reason.contains(&format!("{field}: ")), "{text}: {reason}"),
            other => panic!("{text}: {other:?}"),
        }
    }
}

#[test]
fn names_cannot_turn_text_round() {
    for name in ["a\u{202E}b", "a\u{2066}b", "a\nb", "\u{0}"] {
        let design = Design { name: name.to_owned(), ..Design::default() };
        assert!(matches!(decode(&encode(&design)), Err(LinkError::Refused(_))), "{name:?}");
    }
    let design = Design { name: "\u{5E7}\u{5D5}\u{5E4}\u{5E1}\u{5D4} \u{1F4E6}".to_owned(), ..Design::default() };
    assert_eq!(decode(&encode(&design)), Ok(design));
}
