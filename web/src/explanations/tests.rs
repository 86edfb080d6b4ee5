use std::collections::BTreeSet;

use hushwright::enclosure::{
    BARE_ABSORPTION, BARE_DUCT_ABSORPTION, BEND_DB, Braces, CLEARANCE_M, LEAST_GAP_M, LOAD_FACTOR, PAD_WORKING_STRAIN,
    QUIET_SPEED_M_S, REFERENCE_ABSORPTION_M2, SEAL_WIDTH_M, SEALED_GAP_M, STEP_M, SealKind, TEMPERATURE_RISE_K,
};
use hushwright::evaluate::UNSURE_DB;
use hushwright::need::{COVERED_DB, Period, niosh_hours, who_guideline};
use hushwright::search::{COARSE_ERROR_DB, MERIT_STEP_DB};
use hushwright::uncertainty::SAMPLES;

use super::*;
use crate::band_lists::BandList;
use crate::choices::Choice;
use crate::fields::{Field, ListenerField, Shell};
use crate::listener_choices::ListenerChoice;
use crate::presets::Preset;

/// Most characters of the plain words, of the relation, and of the other texts.
const MOST: [usize; 3] = [219, 199, 159];
/// Most bytes of all texts: everybody who opens the page loads them.
const MOST_BYTES: usize = 45_000;

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
        let key = explanation.key;
        assert!(!explanation.title.is_empty() && !explanation.plain.is_empty() && !explanation.source.is_empty(), "{key}");
        assert!(!key.is_empty() && key.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-'), "{key}");
        for (place, text) in texts(explanation).into_iter().enumerate() {
            let most = MOST[place.min(2)];
            assert!(text.chars().count() <= most, "{key}: {} characters, {most} allowed: {text}", text.chars().count());
            assert!(is_clean(text), "{key}: {text}");
            assert!(text.is_empty() || text.ends_with('.'), "{key}: {text}");
        }
        assert!(is_clean(explanation.title) && !explanation.title.ends_with('.'), "{key}");
    }
}

#[test]
fn keys_and_titles_tell_explanations_apart() {
    let count = Explanation::all().count();
    assert!(count > 0);
    assert_eq!(Explanation::all().map(|explanation| explanation.key).collect::<BTreeSet<_>>().len(), count);
    assert_eq!(Explanation::all().map(|explanation| explanation.title).collect::<BTreeSet<_>>().len(), count);
    assert_eq!(Explanation::all().map(|explanation| explanation.plain).collect::<BTreeSet<_>>().len(), count);
}

/// All that the page asks for.
fn of_inputs() -> Vec<&'static Explanation> {
    let shells = [Shell::Inner, Shell::Outer];
    let fixed = Field::FIXED.iter().copied();
    let sheets = shells.map(|shell| Field::SheetThickness(shell, 1));
    let of_listener = ListenerField::ALL.iter().map(|field| Field::Listener(2, *field));
    let fields = fixed.chain(sheets).chain(of_listener).map(of_field);
    let layers = shells.into_iter().flat_map(|shell| [Choice::Sheet(shell, 0), Choice::Bond(shell, 0)]);
    let of_listener = ListenerChoice::ALL.map(|choice| Choice::Listener(1, choice));
    let choices = Choice::FIXED.iter().copied().chain(layers).chain(of_listener).map(of_choice);
    let lists = [BandList::Source, BandList::Reduction(0), BandList::Background(0)].map(of_list);
    let presets = [Preset::Driver, Preset::Room, Preset::ListenerRoom(0)].map(of_preset);
    fields.chain(choices).chain(lists).chain(presets).collect()
}

#[test]
fn every_input_has_an_explanation_and_none_is_left_over() {
    let asked: BTreeSet<_> = of_inputs().into_iter().map(|explanation| explanation.key).collect();
    let listed = [sources::ALL, shells::ALL, supports::ALL, openings::ALL, listening::ALL].concat();
    let listed: BTreeSet<_> = listed.into_iter().map(|explanation| explanation.key).collect();
    assert_eq!(asked, listed);
}

#[test]
fn numbers_in_the_texts_are_those_of_the_core() {
    let mm = |metres: f64| format!("{} mm", (metres * 1e6).round() / 1e3);
    let has = |explanation: &Explanation, words: String| {
        assert!(texts(explanation).iter().any(|text| text.contains(&words)), "{}: no {words}", explanation.key);
    };
    has(&shells::LINING, BARE_ABSORPTION.to_string());
    has(&shells::BAFFLE, BARE_ABSORPTION.to_string());
    has(&shells::BRACES, format!("{} GPa", Braces::YOUNGS_MODULUS / 1e9));
    has(&shells::BRACES, format!("{} kg/m³", Braces::DENSITY));
    has(&shells::BRACES, format!("loss factor {}", Braces::LOSS_FACTOR));
    has(&supports::BREAKING, format!("this/{LOAD_FACTOR}"));
    has(&supports::PAD_SIZE, format!("{} %", 100.0 * PAD_WORKING_STRAIN));
    has(&openings::LID_EDGE, mm(STEP_M));
    has(&openings::LID_EDGE, mm(CLEARANCE_M));
    has(&openings::SEALS, mm(SEAL_WIDTH_M));
    has(&openings::CABLE, mm(LEAST_GAP_M));
    has(&openings::SEALED, mm(SEALED_GAP_M));
    for seal in [SealKind::Bare, SealKind::FoamTape, SealKind::ClosedCell, SealKind::Compressed] {
        has(&openings::SEAL, mm(seal.residual().height_m));
    }
    has(&openings::VENT_BENDS, format!("{BEND_DB}·α dB"));
    has(&openings::VENT_LINING, format!("bare walls {BARE_DUCT_ABSORPTION}"));
    has(&sources::SOURCE_HEAT, format!("ΔT = {TEMPERATURE_RISE_K} K"));
    for outdoors in [false, true] {
        let most = who_guideline(Period::Night, outdoors).max_dba.expect("the night has a maximum");
        has(&listening::QUIET_HOURS, format!("{most} dB"));
    }
}

/// A number that a result names is that of the core as well.
#[test]
fn numbers_of_results_are_those_of_the_core() {
    let has = |told: Told, words: String| {
        let explanation = of_result(told);
        assert!(texts(explanation).iter().any(|text| text.contains(&words)), "{}: no {words}", explanation.key);
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
fn all_of_it_is_small() {
    let bytes: usize = Explanation::all()
        .map(|explanation| {
            let own: usize = texts(explanation).iter().map(|text| text.len()).sum();
            own + explanation.key.len() + explanation.title.len()
        })
        .sum();
    assert!(bytes <= MOST_BYTES, "{bytes} bytes");
}
