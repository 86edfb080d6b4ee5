//! Links are short enough for mail, messengers and codes to scan.

use hushwright::buildup::raw::Layer;
use hushwright::design::link::{LONGEST, decode, encode};
use hushwright::design::{Design, LiningPart, ListenerPart, examples, limits};
use hushwright::material;
use hushwright_tests::designs::accepted_design;
use hushwright_tests::fullest::fullest;
use hushwright_tests::heavy_box::heavy_box;
use hushwright_tests::links::opened;
use proptest::prelude::*;
use serde_json::Value;

/// Longest link of a usual design, in characters.
const USUAL: usize = 600;

/// A design as people make them: one of the examples or a large box of common practice, with a title, a sentence of notes, sizes of
/// its own, two listeners and some prices.
fn usual_designs() -> Vec<Design> {
    let lid = Design::default().inner.lid;
    let mut designs: Vec<Design> = examples();
    designs.push(heavy_box(0.5, &lid, "damping-compound"));
    designs.into_iter().map(changed).collect()
}

fn changed(mut design: Design) -> Design {
    "Box for the practice room, second try".clone_into(&mut design.name);
    "Ask for cut edges. Castors under the feet come last.\nDoor 762 mm.".clone_into(&mut design.notes);
    (design.inner.length_mm, design.inner.width_mm, design.inner.height_mm) = (835.5, 612.0, 587.5);
    (design.source.level_dba, design.source.start_h, design.source.hours) = (109.5, 20.5, 2.5);
    (design.gap.depth_mm, design.feet.count, design.room.distance_m) = (52.5, 6.0, 2.4);
    design.build.way.door_width_mm = 762.0;
    "EUR".clone_into(&mut design.build.currency);
    for (key, number) in [("mdf/15", 38.5), ("birch-plywood/12", 61.0), ("minutes/saw", 4.5), ("compound-tube", 19.9)] {
        design.build.own.set(key, Some(number));
    }
    let next = ListenerPart { name: "Flat next door".to_owned(), area_m2: 9.5, ..ListenerPart::default() };
    design.listeners.push(next);
    design
}

#[test]
fn links_of_usual_designs_are_short() {
    for design in usual_designs() {
        assert!(design.check().is_ok(), "{:?}", design.check().err());
        let link = encode(&design);
        assert!(link.len() < USUAL, "{} has {} characters", design.name, link.len());
        assert_eq!(decode(&link), Ok(design));
    }
    for example in examples() {
        assert!(encode(&example).len() < USUAL / 2, "{}: {}", example.name, encode(&example).len());
    }
}

/// Words that documents use travel as their places in a list: one that is missing there would be spelled out.
#[test]
fn no_word_of_documents_is_spelled_out() {
    fn words(value: &Value, into: &mut Vec<String>) {
        match value {
            Value::String(text) => into.push(text.clone()),
            Value::Array(list) => list.iter().for_each(|value| words(value, into)),
            Value::Object(object) => object.iter().for_each(|(key, value)| {
                into.push(key.clone());
                words(value, into);
            }),
            _ => {}
        }
    }
    let full = fullest(0.5);
    let in_wood = material::sheets().iter().map(|sheet| {
        let mut design = full.clone();
        design.inner.layers = vec![Layer::sheet(sheet.key, 12.0), Layer::bond("loose"), Layer::sheet(sheet.key, 12.0)];
        design.build.own.set(&format!("{}/length", sheet.key), Some(2000.0));
        design
    });
    let in_wool = material::fills().iter().map(|fill| {
        let mut design = full.clone();
        design.inner.lining = Some(LiningPart { material: fill.key.to_owned(), thickness_mm: 40.0 });
        design.build.own.set(&format!("{}/40", fill.key), Some(7.0));
        design
    });
    let mut count = 0;
    for mut design in in_wood.chain(in_wool) {
        for listener in &mut design.listeners {
            listener.name.clear();
        }
        let packed = opened(&encode(&design));
        let mut used = Vec::new();
        words(&serde_json::to_value(&design).expect("a design serialises"), &mut used);
        for word in used.iter().filter(|word| word.len() > 4 && **word != design.name) {
            let is_there = packed.windows(word.len()).any(|piece| piece == word.as_bytes());
            assert!(!is_there, "{word} is spelled out");
            count += 1;
        }
    }
    assert!(count > 1000);
}

/// With numbers as fields and meters show them, no part has to be left out.
#[test]
fn a_design_with_every_part_fits() {
    let mut design = fullest(0.5);
    assert!(design.check().is_ok(), "{:?}", design.check().err());
    // What is left takes a name, or a listener less takes notes.
    "Everything at once".clone_into(&mut design.name);
    assert!(encode(&design).len() < LONGEST);
    assert_eq!(decode(&encode(&design)), Ok(design.clone()));
    design.listeners.truncate(2);
    design.notes = "n".repeat(limits::NOTES_CHARACTERS / 2);
    assert_eq!(decode(&encode(&design)), Ok(design));
}

#[test]
fn what_does_not_fit_a_link_is_refused_and_says_by_how_much() {
    let mut design = Design { notes: "\u{1F50A}".repeat(limits::NOTES_CHARACTERS), ..Design::default() };
    let errors = design.check().expect_err("2400 bytes of notes");
    let [error] = &errors[..] else { panic!("{errors:?}") };
    assert_eq!(error.path, "notes");
    let excess: usize =
        error.message.split(' ').find_map(|word| word.parse().ok().filter(|number| *number != LONGEST)).expect("a number");
    // Each of these takes four bytes.
    design.notes = "\u{1F50A}".repeat(limits::NOTES_CHARACTERS - excess.div_ceil(4) - 1);
    assert!(design.check().is_ok(), "{:?}", design.check().err());
    assert_eq!(decode(&encode(&design)), Ok(design.clone()));
    design.notes = "\u{1F50A}".repeat(limits::NOTES_CHARACTERS - excess / 4 + 1);
    assert!(design.check().is_err());
}

proptest! {
    /// However many digits its numbers have.
    #[test]
    fn what_passes_its_check_fits(digits in prop_oneof![0.02_f64..0.9, (20_u32..900).prop_map(|digits| f64::from(digits) / 1000.0)]) {
        let design = fullest(digits);
        let fits = encode(&design).len() <= LONGEST;
        prop_assert_eq!(design.check().is_ok(), fits, "{:?}", design.check().err());
        if fits {
            prop_assert_eq!(decode(&encode(&design)), Ok(design));
        }
    }

    #[test]
    fn designs_of_all_kinds_fit(accepted in accepted_design()) {
        prop_assert!(encode(&accepted.document).len() <= LONGEST);
    }
}
