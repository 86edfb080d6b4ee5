//! The schedule of differences, read for designs drawn from everything that the check lets through: what is changed has a row, and
//! what is not has none.

use hushwright::buildup::raw::Layer;
use hushwright::design::Design;
use hushwright_tests::designs::accepted_design;
use hushwright_web::choices::Choice;
use hushwright_web::differences::differences;
use hushwright_web::fields::{Field, ListenerField, Shell};
use hushwright_web::leaf;
use hushwright_web::quantity::Units;
use hushwright_web::schedule::{Kind, Row};
use hushwright_web::state::normalised;
use proptest::prelude::*;

/// Changed numbers tried for each drawn design.
const TRIES: usize = 12;

const BOTH: [Units; 2] = [Units::Metric, Units::Imperial];

/// The rows of a kind.
fn rows(designs: &[Option<&Design>], units: Units, kind: Kind) -> Vec<Row> {
    differences(designs, units)
        .into_iter()
        .flat_map(|place| place.rows)
        .filter(|(own, _)| *own == kind)
        .map(|(_, row)| row)
        .collect()
}

/// All numbers of `design` that the page shows, those of a size measured outside excepted: they are the inside by another measure.
fn numbers(design: &Design) -> Vec<Field> {
    let listeners =
        (0..design.listeners.len()).flat_map(|k| ListenerField::ALL.iter().map(move |field| Field::Listener(k, *field)));
    Field::FIXED.iter().copied().chain(listeners).filter(|field| field.shown(design).is_some()).collect()
}

/// All choices that have an effect on `design`.
fn choices(design: &Design) -> Vec<Choice> {
    Choice::FIXED.iter().copied().filter(|choice| choice.get(design).is_some()).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(60) })]

    /// A design differs from itself in nothing, however often it stands there, and every number and choice of it is told to be alike.
    #[test]
    fn equal_designs_have_no_rows(drawn in accepted_design()) {
        let design = normalised(drawn.document);
        for units in BOTH {
            let same = [Some(&design), Some(&design), None, Some(&design)];
            prop_assert_eq!(rows(&same, units, Kind::Differs), vec![]);
            prop_assert_eq!(rows(&same, units, Kind::Partly), vec![]);
            let alike = rows(&same, units, Kind::Alike);
            prop_assert!(alike.iter().flat_map(|row| &row.cells).all(|cell| cell.change.is_none()));
            prop_assert!(alike.len() >= numbers(&design).len() + choices(&design).len(), "{}", alike.len());
        }
    }

    /// Changing a number changes exactly its row, and that says by how much, with its sign.
    #[test]
    fn a_changed_number_is_one_row(drawn in accepted_design(), picks in proptest::collection::vec(0.0..1.0_f64, TRIES), down in any::<bool>()) {
        let design = normalised(drawn.document);
        let numbers = numbers(&design);
        for pick in picks {
            let field = numbers[(pick * numbers.len() as f64) as usize];
            let value = field.get(&design).expect("it is shown");
            // Of two numbers that are not nought, so that nothing else comes or goes with them.
            let (low, high) = (value + 1.0, 1.1 * value + 2.5);
            let [mut first, mut other] = [design.clone(), design.clone()];
            field.set(&mut first, if down { high } else { low });
            field.set(&mut other, if down { low } else { high });
            for units in BOTH {
                let differing = rows(&[Some(&first), Some(&other)], units, Kind::Differs);
                prop_assert_eq!(differing.len(), 1, "{}: {:?}", field.path(), differing);
                let row = &differing[0];
                prop_assert!(row.label.contains(field.label(units)), "{} is called {}", field.path(), row.label);
                prop_assert_eq!(row.cells[0].change.as_ref(), None);
                let change = row.cells[1].change.as_ref().expect("it differs");
                prop_assert!(change.starts_with(if down { '\u{2212}' } else { '+' }), "{}: {}", field.path(), change);
                prop_assert_eq!(&row.cells[1].text, &field.quantity().write(if down { low } else { high }, units));
            }
        }
    }

    /// Another choice has its row; a sheet that is thicker, or joined otherwise, or one more, is the row of its shell's layers alone.
    #[test]
    fn a_changed_choice_or_layer_is_told(drawn in accepted_design(), pick in 0.0..1.0_f64, at in 0.0..1.0_f64) {
        let design = normalised(drawn.document);
        let choices = choices(&design);
        let choice = choices[(pick * choices.len() as f64) as usize];
        let options = choice.options();
        let (key, words) = &options[(at * options.len() as f64) as usize];
        let mut other = design.clone();
        prop_assert!(choice.set(&mut other, key));
        let differing = rows(&[Some(&design), Some(&other)], Units::Metric, Kind::Differs);
        let own = differing.iter().find(|row| row.label.contains(choice.label()) && row.cells[1].text == *words);
        prop_assert_eq!(own.is_some(), choice.words(&design) != *words, "{}: {:?}", choice.path(), differing);
        for shell in [Shell::Inner, Shell::Outer].into_iter().filter(|shell| !shell.layers(&design).is_empty()) {
            let thicker: fn(&mut Vec<Layer>) = |layers| layers[0].thickness_mm = Some(77.7);
            for edit in [thicker, leaf::add_sheet, |layers| leaf::set_material(layers, 0, leaf::OWN)] {
                let mut other = design.clone();
                let layers = shell.layers_mut(&mut other).expect("it is there");
                edit(layers);
                let is_changed = other != design;
                let differing = rows(&[Some(&design), Some(&other)], Units::Metric, Kind::Differs);
                prop_assert_eq!(differing.len(), usize::from(is_changed), "{:?}", differing);
                prop_assert!(differing.iter().all(|row| row.label.starts_with("Layers")), "{:?}", differing);
            }
        }
    }
}

/// What only some designs have is told apart from what differs, and a design that cannot be opened makes no difference.
#[test]
fn what_a_design_has_not_is_no_difference_by_itself() {
    let two = Design::default();
    let one = Design { outer: None, ..two.clone() };
    let labels = |rows: Vec<Row>| rows.into_iter().map(|row| row.label).collect::<Vec<_>>();
    let both = [Some(&two), None, Some(&one)];
    assert_eq!(labels(rows(&both, Units::Metric, Kind::Differs)), ["Outer box"]);
    let partly = labels(rows(&both, Units::Metric, Kind::Partly));
    assert!(
        partly.contains(&"Gap depth, mm".to_owned()) && partly.contains(&"Layers, from the inside out".to_owned()),
        "{partly:?}"
    );
    // Where two have it and differ, that a third has not does not hide it.
    let mut deeper = two.clone();
    deeper.gap.depth_mm += 10.0;
    for designs in [[&one, &two, &deeper], [&two, &one, &deeper]] {
        let differing = labels(rows(&designs.map(Some), Units::Metric, Kind::Differs));
        assert!(differing.contains(&"Gap depth, mm".to_owned()), "{differing:?}");
    }
}

/// Words that people type, and numbers of their own, in whatever order they were entered.
#[test]
fn notes_names_and_prices_have_their_rows() {
    let mut first = Design::default();
    let mut other = Design { name: "Another".to_owned(), notes: "Seal the seams".to_owned(), ..first.clone() };
    other.listeners[0].name = "Grandmother".to_owned();
    for (design, keys) in [(&mut first, ["latch", "mdf"]), (&mut other, ["mdf", "latch"])] {
        for key in keys {
            design.build.own.set(key, Some(7.5));
        }
    }
    let labels = |first: &Design, other: &Design| {
        rows(&[Some(first), Some(other)], Units::Metric, Kind::Differs).into_iter().map(|row| row.label).collect::<Vec<_>>()
    };
    assert_eq!(labels(&first, &other), ["Listener 1: Who, where", "Notes"]);
    other.build.own.set("latch", Some(8.0));
    assert_eq!(labels(&first, &other), ["Listener 1: Who, where", "Notes", "Prices, times and sizes of one’s own"]);
}
