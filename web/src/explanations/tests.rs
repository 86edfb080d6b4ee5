use std::collections::BTreeSet;

use hushwright::buildup::EdgeLoss;
use hushwright::enclosure::{
    BARE_ABSORPTION, BARE_DUCT_ABSORPTION, BEND_DB, Braces, CLEARANCE_M, LEAST_GAP_M, LOAD_FACTOR, PAD_WORKING_STRAIN,
    QUIET_SPEED_M_S, REFERENCE_ABSORPTION_M2, SEAL_WIDTH_M, SEALED_GAP_M, STEP_M, SealKind, TEMPERATURE_RISE_K,
};
use hushwright::evaluate::{PathKey, UNSURE_DB};
use hushwright::need::{COVERED_DB, Period, SourceSpectrum, niosh_hours, who_guideline};
use hushwright::search::{COARSE_ERROR_DB, MERIT_STEP_DB};
use hushwright::uncertainty::SAMPLES;

use super::*;
use crate::band_lists::BandList;
use crate::choices::Choice;
use crate::fields::{Extent, Field, ListenerField, MaterialNumber, Shell};
use crate::listener_choices::ListenerChoice;
use crate::presets::Preset;

/// Most characters of the plain words, of the relation, and of the other texts.
const MOST: [usize; 3] = [219, 199, 159];
/// Most bytes of all texts: everybody who opens the page loads them.
const MOST_BYTES: usize = 48_500;

fn texts(explanation: &Explanation) -> [&'static str; 5] {
    let Explanation { plain, relation, source, assumptions, validity, .. } = *explanation;
    [plain, relation, source, assumptions, validity]
}

/// Neither spaces at the ends or in a row, nor control characters, nor such as turn the direction of text.
fn is_clean(text: &str) -> bool {
    let turns = |c: char| matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    text.trim() == text && !text.contains("  ") && !text.chars().any(|c| c.is_control() || turns(c) || c == '\u{2014}')
}

#[test]
fn every_explanation_says_what_it_is_and_where_it_comes_from() {
    for explanation in Explanation::all() {
        let key = explanation.topic.key;
        assert!(!explanation.topic.title.is_empty() && !explanation.plain.is_empty() && !explanation.source.is_empty(), "{key}");
        assert!(!key.is_empty() && key.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-'), "{key}");
        for (place, text) in texts(explanation).into_iter().enumerate() {
            let most = MOST[place.min(2)];
            assert!(text.chars().count() <= most, "{key}: {} characters, {most} allowed: {text}", text.chars().count());
            assert!(is_clean(text), "{key}: {text}");
            assert!(text.is_empty() || text.ends_with('.'), "{key}: {text}");
        }
        assert!(is_clean(explanation.topic.title) && !explanation.topic.title.ends_with('.'), "{key}");
    }
}

#[test]
fn keys_and_titles_tell_explanations_apart() {
    let count = Explanation::all().count();
    assert!(count > 0);
    assert_eq!(Explanation::all().map(|explanation| explanation.topic.key).collect::<BTreeSet<_>>().len(), count);
    assert_eq!(Explanation::all().map(|explanation| explanation.topic.title).collect::<BTreeSet<_>>().len(), count);
    assert_eq!(Explanation::all().map(|explanation| explanation.plain).collect::<BTreeSet<_>>().len(), count);
}

/// All that the page asks for.
fn of_inputs() -> Vec<Topic> {
    let shells = [Shell::Inner, Shell::Outer];
    let fixed = Field::FIXED.iter().copied();
    let sheets = shells.map(|shell| Field::SheetThickness(shell, 1));
    let outside = Extent::ALL.map(Field::Outside);
    let of_listener = ListenerField::ALL.iter().map(|field| Field::Listener(2, *field));
    let fields = fixed.chain(sheets).chain(outside).chain(of_listener).map(of_field);
    let layers = shells.into_iter().flat_map(|shell| [Choice::Sheet(shell, 0), Choice::Bond(shell, 0)]);
    let of_listener = ListenerChoice::ALL.map(|choice| Choice::Listener(1, choice));
    let choices = Choice::FIXED.iter().copied().chain(layers).chain(of_listener).map(of_choice);
    let lists = [BandList::Source, BandList::Reduction(0), BandList::Background(0)].map(of_list);
    let presets = [Preset::Driver, Preset::Door, Preset::Room, Preset::ListenerRoom(0)].map(of_preset);
    fields.chain(choices).chain(lists).chain(presets).collect()
}

#[test]
fn every_input_has_an_explanation_and_none_is_left_over() {
    let asked: BTreeSet<_> = of_inputs().into_iter().map(|topic| topic.key).collect();
    let listed = [sources::ALL, shells::ALL, supports::ALL, openings::ALL, listening::ALL, building::ALL].concat();
    let listed: BTreeSet<_> = listed.into_iter().map(|explanation| explanation.topic.key).collect();
    assert_eq!(asked, listed);
}

#[test]
fn numbers_in_the_texts_are_those_of_the_core() {
    let mm = |metres: f64| format!("{} mm", (metres * 1e6).round() / 1e3);
    let has = |topic: Topic, words: String| {
        let explanation = topic.explanation().expect("every topic has one");
        assert!(texts(explanation).iter().any(|text| text.contains(&words)), "{}: no {words}", explanation.topic.key);
    };
    has(shells::LINING, BARE_ABSORPTION.to_string());
    has(shells::BAFFLE, BARE_ABSORPTION.to_string());
    has(shells::BRACES, format!("{} GPa", Braces::YOUNGS_MODULUS / 1e9));
    has(shells::BRACES, format!("{} kg/m³", Braces::DENSITY));
    has(shells::BRACES, format!("loss factor {}", Braces::LOSS_FACTOR));
    has(supports::BREAKING, format!("this/{LOAD_FACTOR}"));
    has(supports::PAD_SIZE, format!("{} %", 100.0 * PAD_WORKING_STRAIN));
    has(openings::LID_EDGE, mm(STEP_M));
    has(openings::LID_EDGE, mm(CLEARANCE_M));
    has(openings::SEALS, mm(SEAL_WIDTH_M));
    has(openings::CABLE, mm(LEAST_GAP_M));
    has(openings::SEALED, mm(SEALED_GAP_M));
    for seal in [SealKind::Bare, SealKind::FoamTape, SealKind::ClosedCell, SealKind::Compressed] {
        has(openings::SEAL, mm(seal.residual().height_m));
    }
    has(openings::VENT_BENDS, format!("{BEND_DB}·α dB"));
    has(openings::VENT_LINING, format!("bare walls {BARE_DUCT_ABSORPTION}"));
    has(sources::SOURCE_HEAT, format!("ΔT = {TEMPERATURE_RISE_K} K"));
    for (source, loudest) in [(SourceSpectrum::DriverNoise, "for noise"), (SourceSpectrum::Drum, "for a drum kit")] {
        has(sources::MAX_ABOVE, format!("{} dB {loudest}", source.max_above_db()));
    }
    for outdoors in [false, true] {
        let most = who_guideline(Period::Night, outdoors).max_dba.expect("the night has a maximum");
        has(listening::QUIET_HOURS, format!("{most} dB"));
    }
}

/// A number that a result names is that of the core as well.
#[test]
fn numbers_of_results_are_those_of_the_core() {
    let has = |told: Told, words: String| {
        let explanation = of_result(told).explanation().expect("every topic has one");
        assert!(texts(explanation).iter().any(|text| text.contains(&words)), "{}: no {words}", explanation.topic.key);
    };
    has(Told::Range, format!("{SAMPLES} estimates"));
    has(Told::Chance, format!("all {SAMPLES}"));
    has(Told::Verdict, format!("pass from {UNSURE_DB} dB under, fail from {UNSURE_DB} dB over"));
    has(Told::Inaudible, format!("background − {COVERED_DB} dB"));
    has(Told::VentFlow, format!("ΔT = {TEMPERATURE_RISE_K} K"));
    has(Told::VentFlow, format!("{QUIET_SPEED_M_S} m/s"));
    has(Told::FloorBorne, format!("10 lg(4/{REFERENCE_ABSORPTION_M2} m²)"));
    has(Told::Vents, format!("{BEND_DB}·α dB"));
    has(Told::Search, format!("{COARSE_ERROR_DB} dB"));
    has(Told::Search, format!("{MERIT_STEP_DB} dB"));
    for (period, name) in [(Period::Day, "day"), (Period::Night, "night")] {
        has(Told::MeanOverPeriod, format!("{name} {} h", period.hours()));
    }
    let [day, night] = [Period::Day, Period::Night].map(|period| [false, true].map(|outdoors| who_guideline(period, outdoors)));
    has(Told::DbaLimit, format!("Day {}, night {} dBA indoors", day[0].level_dba, night[0].level_dba));
    has(Told::DbaLimit, format!("(outdoors {}, {})", day[1].level_dba, night[1].level_dba));
    assert_eq!(niosh_hours(88.0), 4.0, "as the relation of the hours says");
}

#[test]
fn every_number_of_a_material_has_its_explanation_with_values_of_the_catalogue() {
    let explained: Vec<_> = MaterialNumber::ALL.iter().copied().map(of_material_number).collect();
    assert_eq!(explained, materials::ALL.iter().map(|explanation| explanation.topic).collect::<Vec<_>>());
    let has = |number: MaterialNumber, words: String| {
        let plain = of_material_number(number).explanation().expect("every topic has one").plain;
        assert!(plain.contains(&words), "{number:?}: no {words}: {plain}");
    };
    let sheet = |key: &str| hushwright::material::sheet(key).expect("a sheet of the catalogue");
    for (name, key) in [
        ("birch plywood", "birch-plywood"),
        ("gypsum board", "gypsum-board"),
        ("MDF", "mdf"),
        ("glass", "glass"),
        ("steel", "steel"),
    ] {
        has(MaterialNumber::Density, format!("{name} {}", sheet(key).density));
        has(MaterialNumber::YoungsModulus, format!("{name} {}", sheet(key).youngs_modulus / 1e9));
    }
    for (name, key) in [("glass", "glass"), ("steel", "steel"), ("lead", "lead")] {
        has(MaterialNumber::Poisson, format!("{} {name}", sheet(key).poisson));
    }
    for (name, key) in [
        ("steel", "steel"),
        ("birch plywood", "birch-plywood"),
        ("MDF", "mdf"),
        ("acrylic", "acrylic"),
        ("mass-loaded vinyl", "mass-loaded-vinyl"),
    ] {
        has(MaterialNumber::LossFactor, format!("{name} {}", sheet(key).loss_factor));
    }
    let joints = EdgeLoss::BOX_JOINTS.loss_factor(1000.0, 10.0);
    assert!(
        of_material_number(MaterialNumber::LossFactor)
            .explanation()
            .expect("every topic has one")
            .relation
            .ends_with(&format!("add {joints}."))
    );
    let plywood = sheet("birch-plywood").shear_modulus.expect("its own");
    has(MaterialNumber::ShearModulus, format!("{} GPa for birch", plywood / 1e9));
}

/// What is measured at home gives the numbers that the model starts from.
#[test]
fn the_note_of_a_tapped_strip_is_that_of_a_free_beam() {
    // First root of cosh k cos k = 1, for a free beam as for a clamped one.
    let root = 4.730_041_f64;
    let factor = root * root / (2.0 * std::f64::consts::PI * 12.0_f64.sqrt());
    assert!(
        of_material_number(MaterialNumber::YoungsModulus)
            .explanation()
            .expect("every topic has one")
            .relation
            .contains(&format!("{factor:.2}·(h/l²)")),
        "{factor}"
    );
    // Decay by 60 dB in T: 10^-6 = exp(-2 pi f eta T).
    let ringing = 6.0 * std::f64::consts::LN_10 / (2.0 * std::f64::consts::PI);
    assert!(
        of_material_number(MaterialNumber::LossFactor)
            .explanation()
            .expect("every topic has one")
            .relation
            .contains(&format!("η = {ringing:.1}/(f·T)")),
        "{ringing}"
    );
}

#[test]
fn every_term_has_a_sentence_and_its_place() {
    for term in TERMS {
        let Term { key, name, meaning, also } = *term;
        assert!(!name.is_empty() && is_clean(name) && is_clean(meaning), "{key}");
        assert!(!key.is_empty() && key.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-'), "{key}");
        assert!(meaning.ends_with('.') && !meaning.contains(". ") && meaning.chars().count() < 160, "{key}: {meaning}");
        assert!(meaning.chars().next().is_some_and(|first| !first.is_lowercase()), "{key}: {meaning}");
        assert!(also.iter().all(|other| !other.is_empty() && is_clean(other) && *other != name), "{key}");
    }
    assert!(TERMS.windows(2).all(|pair| pair[0].name.to_lowercase() < pair[1].name.to_lowercase()), "by name");
    assert_eq!(TERMS.iter().map(|term| term.key).collect::<BTreeSet<_>>().len(), TERMS.len());
}

#[test]
fn a_word_leads_to_one_term() {
    let words = TERMS.iter().flat_map(|term| std::iter::once(term.name).chain(term.also.iter().copied()));
    let mut seen = BTreeSet::new();
    for word in words {
        assert!(seen.insert(word), "{word} twice");
    }
}

/// Every way out, every unknown and every cause that the page names by a term of the trade can be looked up.
#[test]
fn names_of_the_page_can_be_looked_up() {
    let known = |word: &str| TERMS.iter().any(|term| term.name == word || term.also.contains(&word));
    let ways = ["walls", "leaks", "holes", "suspension", "vents", "motion"];
    assert_eq!(PathKey::ALL.map(crate::paths::name), ways);
    for word in ["leaks", "suspension", "vents", "motion", "insertion loss", "level difference", "background", "R′", "NR", "NC"]
    {
        assert!(known(word), "{word}");
    }
    for title in ["Coincidence", "Mass-air-mass resonance", "Insertion loss", "Level difference", "Limiting path"] {
        assert!(Told::ALL.iter().any(|told| of_result(*told).title == title), "{title}");
        assert!(known(&title.to_lowercase()), "{title}");
    }
}

#[test]
fn all_of_it_is_small() {
    let explained: usize = Explanation::all()
        .map(|explanation| {
            let own: usize = texts(explanation).iter().map(|text| text.len()).sum();
            own + explanation.topic.key.len() + explanation.topic.title.len()
        })
        .sum();
    let terms: usize = TERMS
        .iter()
        .map(|term| {
            let also: usize = term.also.iter().map(|word| word.len()).sum();
            term.key.len() + term.name.len() + term.meaning.len() + also
        })
        .sum();
    assert!(explained + terms <= MOST_BYTES, "{explained} and {terms} bytes");
}
