use hushwright::design::link;

use super::*;
use crate::fields::ListenerField;
use crate::model::Core;

/// The core itself, without an engine between.
fn estimator() -> Estimator {
    Estimator::new(Core::default())
}

fn start() -> Rc<State> {
    Rc::new(State::new("", Units::Metric, estimator()))
}

fn after(state: &Rc<State>, actions: impl IntoIterator<Item = Action>) -> Rc<State> {
    actions.into_iter().fold(Rc::clone(state), Reducible::reduce)
}

fn typed(field: Field, text: &str) -> Action {
    Action::Type(field, text.to_owned())
}

fn chosen(choice: Choice, key: &str) -> Action {
    Action::Choose(choice, key.to_owned())
}

/// Typing 2000 goes through 2, 20 and 200; what is refused in the end leaves the design as it was before.
#[test]
fn what_is_typed_on_the_way_to_a_refused_number_is_forgotten() {
    let before = start();
    let typing = ["1", "12", "120", "1200", "12000"].map(|text| typed(Field::InsideLength, text));
    let after = after(&before, typing);
    assert_eq!(after.design(), before.design());
    assert_eq!(after.report(), before.report());
    assert_eq!(after.entry(Field::InsideLength).map(|entry| entry.text.as_str()), Some("12000"));
    assert!(!after.can_redo());
}

#[test]
fn a_slider_changes_design_answer_and_link() {
    let before = start();
    let moved = after(&before, [Action::Slide(Field::SourceLevel, 100.0)]);
    assert!(moved.report().stations.room.dba < before.report().stations.room.dba - 10.0);
    assert_ne!(link::encode(moved.design()), link::encode(before.design()));
    assert!(moved.entry(Field::SourceLevel).is_none());
}

#[test]
fn a_refused_number_stays_as_typed_and_the_answer_stands() {
    let before = start();
    for text in ["7", "", "many", "-5", "9999999", "1e3", "NaN"] {
        let state = after(&before, [typed(Field::InsideLength, text), Action::Settle]);
        let entry = state.entry(Field::InsideLength).unwrap();
        assert_eq!(entry.text, text);
        assert!(entry.refusal.as_ref().unwrap().contains("llowed is 100 to 3000 mm"), "{text}: {entry:?}");
        assert_eq!(state.report(), before.report());
        assert_eq!(state.design(), before.design());
        assert_eq!(state.refused().count(), 1);
    }
}

#[test]
fn an_accepted_number_stays_as_typed_until_the_field_is_left() {
    let state = after(&start(), [typed(Field::InsideLength, "812,50")]);
    assert_eq!(state.design().inner.length_mm, 812.5);
    assert_eq!(state.entry(Field::InsideLength).unwrap().text, "812,50");
    let left = after(&state, [Action::Settle]);
    assert_eq!(left.entry(Field::InsideLength), None);
}

#[test]
fn a_number_that_another_field_stands_against_names_it_and_enters_when_that_makes_room() {
    let state = after(&start(), [typed(Field::InsideWidth, "105"), Action::Settle]);
    let refusal = state.entry(Field::InsideWidth).unwrap().refusal.clone().unwrap();
    assert!(refusal.contains("lining thickness"), "{refusal}");
    assert_eq!(state.design().inner.width_mm, 500.0);
    let freed = after(&state, [typed(Field::LiningThickness, "20")]);
    assert_eq!(freed.design().inner.width_mm, 105.0);
    assert_eq!(freed.refused().count(), 0);
}

#[test]
fn a_drag_is_one_step_and_undo_first_takes_back_what_was_refused() {
    let begin = start();
    let drag = (60..90).map(|step| Action::Slide(Field::InsideLength, f64::from(step) * 10.0));
    let dragged = after(&begin, drag);
    let refused = after(&dragged, [Action::Settle, typed(Field::RoomHeight, "0")]);
    assert!(refused.can_undo());
    let cleared = after(&refused, [Action::Undo]);
    assert_eq!(cleared.design(), dragged.design());
    assert_eq!(cleared.entry(Field::RoomHeight), None);
    let back = after(&cleared, [Action::Undo]);
    assert_eq!(back.design(), begin.design());
    assert_eq!(back.report(), begin.report());
    assert!(!back.can_undo());
    let again = after(&back, [Action::Redo]);
    assert_eq!(again.design(), dragged.design());
    assert_eq!(again.report(), dragged.report());
}

#[test]
fn a_number_that_stood_for_a_while_is_an_answer_and_what_is_typed_next_a_step_of_its_own() {
    let before = start();
    let on_the_way = after(&before, [typed(Field::InsideLength, "900"), typed(Field::InsideLength, "9000")]);
    assert_eq!(on_the_way.design(), before.design(), "nobody has read what 900 brings");
    let read = after(&before, [typed(Field::InsideLength, "900"), Action::Rest]);
    let nonsense = after(&read, [typed(Field::InsideLength, "abc")]);
    assert_eq!((nonsense.design(), nonsense.report()), (read.design(), read.report()));
    assert!(nonsense.entry(Field::InsideLength).is_some_and(|entry| entry.text == "abc" && entry.refusal.is_some()));
    let more = after(&read, [typed(Field::InsideLength, "950"), Action::Undo]);
    assert_eq!(more.design(), read.design());
}

#[test]
fn a_drag_that_is_held_still_for_a_while_remains_one_step() {
    let before = start();
    let held = after(&before, [Action::Slide(Field::GapDepth, 60.0), Action::Rest, Action::Slide(Field::GapDepth, 70.0)]);
    assert_eq!(after(&held, [Action::Undo]).design(), before.design());
}

#[test]
fn layers_are_added_changed_moved_and_removed() {
    let state =
        after(&start(), [Action::Sheets(Shell::Inner, Edit::Add), chosen(Choice::Sheet(Shell::Inner, 1), "gypsum-board")]);
    assert_eq!(leaf::sheets(&state.design().inner.layers), 2);
    let bonded = after(&state, [chosen(Choice::Bond(Shell::Inner, 0), "damping-compound")]);
    assert_eq!(leaf::key_of(&bonded.design().inner.layers[1]), "damping-compound");
    let swapped = after(&bonded, [Action::Sheets(Shell::Inner, Edit::Move(0, 1))]);
    assert_eq!(leaf::key_of(&swapped.design().inner.layers[0]), "gypsum-board");
    let removed = after(&swapped, [Action::Sheets(Shell::Inner, Edit::Remove(0))]);
    assert_eq!(removed.design().inner.layers, start().design().inner.layers);
}

#[test]
fn too_many_sheets_are_refused_at_the_list() {
    let many = (0..12).map(|_| Action::Sheets(Shell::Inner, Edit::Add));
    let state = after(&start(), std::iter::once(chosen(Choice::Suspension, "rigid")).chain(many));
    assert_eq!(leaf::sheets(&state.design().inner.layers), hushwright::buildup::check::MOST_SHEETS);
    assert!(state.refusal("inner.layers").unwrap().contains("At most 8 sheets"));
    assert!(state.design().check().is_ok());
}

#[test]
fn parts_come_and_go() {
    let bare = after(
        &start(),
        [
            chosen(Choice::Outer, NONE),
            chosen(Choice::Lining, NONE),
            chosen(Choice::Fill, NONE),
            chosen(Choice::Spectrum, "pink-noise"),
        ],
    );
    assert!(bare.design().outer.is_none() && bare.design().inner.lining.is_none() && bare.design().gap.fill.is_none());
    let back = after(
        &bare,
        [
            chosen(Choice::Outer, "box"),
            chosen(Choice::Lining, "glass-wool-14"),
            chosen(Choice::Fill, "glass-wool-14"),
            chosen(Choice::FillSide, "middle"),
        ],
    );
    assert!(back.design().outer.is_some());
    assert_eq!(back.design().inner.lining.as_ref().unwrap().material, "glass-wool-14");
    assert_eq!(Choice::FillSide.words(back.design()), "in the middle");
}

#[test]
fn a_link_opens_its_design_and_a_damaged_one_the_example_with_a_notice() {
    let changed = after(&start(), [Action::Slide(Field::GapDepth, 90.0), Action::Write(Text::Name, "Ours".to_owned())]);
    let fragment = format!("#{}", link::encode(changed.design()));
    let opened = State::new(&fragment, Units::Imperial, estimator());
    assert_eq!(opened.design(), changed.design());
    assert_eq!(opened.report(), changed.report());
    assert_eq!(opened.notice(), None);
    let damaged = Rc::new(State::new(&fragment[..fragment.len() - 3], Units::Metric, estimator()));
    assert_eq!(**damaged.design(), Design::default());
    assert!(damaged.notice().is_some());
    assert_eq!(after(&damaged, [Action::DismissNotice]).notice(), None);
    let followed = after(&damaged, [Action::Follow(fragment)]);
    assert_eq!(followed.design(), changed.design());
    assert_eq!(followed.notice(), None);
    assert_eq!(after(&followed, [Action::Undo]).design(), damaged.design());
}

#[test]
fn every_example_opens_and_reset_brings_the_first_back() {
    let mut index = 0;
    while let Some(design) = example(index) {
        let state = after(&start(), [Action::Open(Box::new(design.clone()))]);
        assert_eq!(state.design().name, design.name);
        assert_eq!(**after(&state, [Action::Reset]).design(), Design::default());
        index += 1;
    }
    assert!(index > 1);
}

#[test]
fn a_name_too_long_is_refused_at_the_name() {
    let state = after(&start(), [Action::Write(Text::Name, "n".repeat(200))]);
    assert!(state.text_refusal(Text::Name).is_some_and(|message| message.contains("80 characters")));
    assert_eq!(state.text(Text::Name), "n".repeat(200), "what was typed stays");
    assert_eq!(state.design().name, Design::default().name);
    let state = after(&state, [Action::Slide(Field::GapDepth, 90.0)]);
    assert_eq!(state.text(Text::Name), "n".repeat(200), "whatever else changes");
    let resumed = State::resumed(state.fragment(), &state.session(), Units::Metric, estimator());
    assert_eq!(resumed.text(Text::Name), "n".repeat(200), "over a reload too");
    let shorter = after(&state, [Action::Write(Text::Name, "n".repeat(80))]);
    assert_eq!((shorter.text_refusal(Text::Name), shorter.design().name.len()), (None, 80));
    let back = after(&state, [Action::Undo]);
    assert_eq!((back.text(Text::Name), back.text_refusal(Text::Name)), (&*Design::default().name, None));
}

/// Notes that a link has no room for wait beside the design until there is.
#[test]
fn notes_that_do_not_fit_a_link_come_in_when_something_else_goes() {
    let notes = "\u{1F50A}".repeat(365);
    let named = after(&start(), [Action::Write(Text::Name, "n".repeat(70))]);
    let noted = after(&named, [Action::Write(Text::Notes, notes.clone())]);
    assert!(noted.text_refusal(Text::Notes).is_some_and(|message| message.contains("2000 characters")));
    assert_eq!((noted.text(Text::Notes), noted.design().notes.as_str()), (&*notes, ""));
    let room = after(&noted, [Action::Write(Text::Name, String::new())]);
    assert_eq!((room.text_refusal(Text::Notes), &room.design().notes), (None, &notes));
}

#[test]
fn a_link_that_cannot_be_opened_is_kept_until_it_is_put_away_or_another_is_opened() {
    let ours = after(&start(), [Action::Slide(Field::GapDepth, 90.0)]);
    let damaged = after(&ours, [Action::Follow("v1.broken".to_owned())]);
    let said = |state: &State| state.notice().map(|notice| (notice.fragment.clone(), notice.is_example_shown));
    let link = |is_example_shown| Some(("v1.broken".to_owned(), is_example_shown));
    assert_eq!(said(&damaged), link(true));
    assert_eq!(said(&after(&damaged, [Action::Slide(Field::GapDepth, 80.0)])), link(true));
    let back = after(&damaged, [Action::Undo]);
    assert_eq!((back.design(), said(&back)), (ours.design(), link(false)));
    let other = Action::Open(Box::new(example(1).expect("a second example")));
    for action in [Action::Redo, Action::Reset, other] {
        assert_eq!(said(&after(&back, [action.clone()])), link(false), "{action:?}");
    }
    let reloaded = State::resumed(&link::encode(back.design()), &back.session(), Units::Metric, estimator());
    assert_eq!(reloaded.notice(), back.notice());
    let good = format!("#{}", link::encode(&Design::default()));
    for action in [Action::Follow(good), Action::DismissNotice] {
        assert_eq!(said(&after(&back, [action.clone()])), None, "{action:?}");
    }
}

#[test]
fn what_was_refused_goes_with_its_sheet() {
    let field = |k| Field::SheetThickness(Shell::Outer, k);
    let text = |state: &Rc<State>, k| state.entry(field(k)).map(|entry| entry.text.clone());
    let refused = after(&start(), [typed(field(0), "900"), Action::Settle]);
    let swapped = after(&refused, [Action::Sheets(Shell::Outer, Edit::Move(0, 1))]);
    assert_eq!((text(&swapped, 0), text(&swapped, 1)), (None, Some("900".to_owned())));
    let removed = after(&swapped, [Action::Sheets(Shell::Outer, Edit::Remove(0))]);
    assert_eq!(text(&removed, 0), Some("900".to_owned()));
    let more = after(&refused, [Action::Sheets(Shell::Outer, Edit::Add), chosen(Choice::Sheet(Shell::Outer, 0), "mdf")]);
    assert_eq!(text(&more, 0), Some("900".to_owned()));
    assert_eq!(text(&after(&refused, [Action::Sheets(Shell::Outer, Edit::Remove(0))]), 0), None);
}

#[test]
fn what_was_refused_stays_refused_in_other_units() {
    let refused = after(&start(), [typed(Field::InsideLength, "50.8"), typed(Field::InsideWidth, "wide"), Action::Settle]);
    let imperial = after(&refused, [Action::SetUnits(Units::Imperial)]);
    let entry = imperial.entry(Field::InsideLength).unwrap();
    assert_eq!(entry.text, "2");
    assert!(entry.refusal.as_ref().unwrap().contains(" in:"), "{entry:?}");
    assert_eq!(imperial.entry(Field::InsideWidth).unwrap().text, "wide");
    assert_eq!(imperial.design(), refused.design());
}

#[test]
fn no_nought_with_a_minus_gets_into_a_link() {
    let state = after(&start(), [typed(Field::FillShare, "-0")]);
    let plain = after(&start(), [typed(Field::FillShare, "0")]);
    assert_eq!(link::encode(state.design()), link::encode(plain.design()));
    let mut signed = Design::default();
    signed.gap.fill.as_mut().unwrap().share = -0.0;
    let opened = State::new(&link::encode(&signed), Units::Metric, estimator());
    assert!(opened.design().gap.fill.as_ref().unwrap().share.is_sign_positive());
}

#[test]
fn numbers_are_typed_in_the_units_shown() {
    let state = after(&start(), [Action::SetUnits(Units::Imperial), typed(Field::InsideLength, "20")]);
    assert_eq!(state.design().inner.length_mm, 508.0);
    let wrong = after(&state, [typed(Field::InsideLength, "700")]);
    assert!(wrong.entry(Field::InsideLength).unwrap().refusal.as_ref().unwrap().contains(" in:"));
}

#[test]
fn a_gap_smaller_than_the_springs_is_refused_and_enters_when_they_are_lower() {
    let before = start();
    let state = after(&before, [typed(Field::GapDepth, "30"), Action::Settle]);
    let refusal = state.entry(Field::GapDepth).unwrap().refusal.clone().unwrap();
    assert!(refusal.contains("height, loaded (suspension)") && refusal.contains("at most 30 mm"), "{refusal}");
    assert_eq!((state.design(), state.report()), (before.design(), before.report()));
    let lower = after(&state, [typed(Field::SuspensionHeight, "25")]);
    assert_eq!((lower.design().gap.depth_mm, lower.design().suspension.height_mm), (30.0, 25.0));
    let too_high = after(&before, [typed(Field::SuspensionHeight, "60")]);
    let refusal = too_high.entry(Field::SuspensionHeight).unwrap().refusal.clone().unwrap();
    assert_eq!(refusal, "Allowed is at most 50 mm: the gap has room for no more.");
    let imperial = after(&before, [Action::SetUnits(Units::Imperial), typed(Field::SuspensionHeight, "3")]);
    let refusal = imperial.entry(Field::SuspensionHeight).unwrap().refusal.clone().unwrap();
    assert!(refusal.contains("at most 1.96 in"), "{refusal}");
}

#[test]
fn braces_that_leave_no_room_are_refused_and_undo_takes_them_back() {
    let braced = after(&start(), [chosen(Choice::InnerBraces, "battens"), typed(Field::InnerBraceWidth, "60")]);
    let state = after(&braced, [Action::Settle, typed(Field::InnerBraces, "6"), Action::Settle]);
    let refusal = state.entry(Field::InnerBraces).unwrap().refusal.clone().unwrap();
    assert_eq!(refusal, "Allowed are at most 3 here: between braces there must stay 60 mm.");
    assert_eq!(state.design(), braced.design());
    let fraction = after(&braced, [typed(Field::InnerBraces, "1.5")]);
    let refusal = fraction.entry(Field::InnerBraces).unwrap().refusal.clone().unwrap();
    assert!(refusal.contains("whole numbers 1 to 6"), "{refusal}");
    let cleared = after(&state, [Action::Undo]);
    assert_eq!((cleared.entry(Field::InnerBraces), cleared.design()), (None, braced.design()));
    let gone = after(&cleared, [Action::Undo, Action::Undo]);
    assert_eq!(**gone.design(), Design::default());
}

#[test]
fn a_load_above_what_the_supports_hold_is_refused_wherever_it_comes_from() {
    let before = start();
    let weak = after(&before, [typed(Field::SuspensionBreaking, "5"), Action::Settle]);
    let refusal = weak.entry(Field::SuspensionBreaking).unwrap().refusal.clone().unwrap();
    assert!(refusal.contains("number (suspension)") && refusal.contains("fails at 5 kg"), "{refusal}");
    let heavy = after(&before, [typed(Field::SourceMass, "290"), Action::Settle]);
    assert!(heavy.entry(Field::SourceMass).unwrap().refusal.as_ref().unwrap().contains("Each of 4 carries"));
    let held = after(&heavy, [typed(Field::SuspensionCount, "8")]);
    assert_eq!((held.design().source.mass_kg, held.refused().count()), (290.0, 0));
    let few = after(&held, [typed(Field::SuspensionCount, "1")]);
    let refusal = few.entry(Field::SuspensionCount).unwrap().refusal.clone().unwrap();
    assert!(refusal.starts_with("Each of 1 carries"), "{refusal}");
}

#[test]
fn a_choice_that_cannot_be_is_refused_at_itself() {
    let short = after(&start(), [chosen(Choice::Baffle, NONE), typed(Field::InsideLength, "150"), Action::Settle]);
    assert_eq!(short.design().inner.length_mm, 150.0);
    let refused = after(&short, [chosen(Choice::Baffle, "mdf")]);
    assert!(refused.refusal("inner.baffle.sheet").unwrap().contains("too short"), "{:?}", refused.refusal("inner.baffle.sheet"));
    assert_eq!((refused.design(), refused.report()), (short.design(), short.report()));
    assert!(refused.can_undo());
    assert_eq!(after(&refused, [Action::Undo]).refusal("inner.baffle.sheet"), None);
}

#[test]
fn what_has_no_effect_any_more_takes_its_refusal_with_it() {
    let refused = after(&start(), [typed(Field::SuspensionTestSag, "0"), Action::Settle]);
    assert_eq!(refused.refused().count(), 1);
    let pads = after(&refused, [chosen(Choice::Suspension, "pads")]);
    assert_eq!((pads.refused().count(), pads.design().suspension.test_sag_mm), (0, 7.0));
    let alone = after(&refused, [chosen(Choice::Outer, NONE)]);
    assert_eq!(alone.refused().count(), 0);
}

/// The gap is too small for the springs: what is allowed is said of their height, at the gap.
#[test]
fn a_refusal_says_which_of_two_numbers_what_is_allowed_belongs_to() {
    let state = after(&start(), [typed(Field::GapDepth, "30")]);
    let refusal = state.entry(Field::GapDepth).and_then(|entry| entry.refusal.clone()).expect("a refusal");
    assert!(refusal.contains("height, loaded (suspension) as it is. There, allowed is at most 30 mm"), "{refusal}");
}

#[test]
fn the_ends_of_a_share_are_told_in_its_own_unit() {
    let state = after(&start(), [typed(Field::InnerFixity, "120")]);
    let refusal = state.entry(Field::InnerFixity).and_then(|entry| entry.refusal.clone()).expect("a refusal");
    assert_eq!(refusal, "Allowed is 0 to 100 %: from corners that turn freely to corners that do not turn at all.");
}

fn bands(list: BandList, text: &str) -> Action {
    Action::TypeBands(list, text.to_owned())
}

#[test]
fn band_values_enter_the_design_and_what_cannot_be_read_stays_beside_it() {
    let own = after(&start(), [chosen(Choice::Spectrum, "own")]);
    assert_eq!(own.design().source.own_db.len(), 7, "they begin with what there was");
    let before = start().report().stations.source.level_db.octaves();
    let begun = own.report().stations.source.level_db.octaves();
    assert!((1..8).all(|octave| (before[octave] - begun[octave]).abs() <= 0.5), "{before:?} {begun:?}");
    let pasted = after(&own, [bands(BandList::Source, "125;90,5\n250;95\n500;88"), Action::Settle]);
    assert_eq!(pasted.design().source.own_db, [(125.0, 90.5), (250.0, 95.0), (500.0, 88.0)]);
    let text = "125;90,5\n250;oops\n500;88";
    let wrong = after(&pasted, [bands(BandList::Source, text), Action::Settle]);
    let entry = wrong.list(BandList::Source).expect("what was typed stays");
    assert_eq!(entry.text, text);
    assert!(entry.refusal.as_ref().unwrap().starts_with("Line 2: "), "{entry:?}");
    assert_eq!((wrong.design(), wrong.report()), (pasted.design(), pasted.report()));
    assert!(wrong.refused_lists().eq([BandList::Source]) && wrong.can_undo());
    let missing = after(&pasted, [bands(BandList::Source, "125 90\n500 88")]);
    assert!(missing.list(BandList::Source).unwrap().refusal.as_ref().unwrap().contains("250 Hz is missing"));
    let back = after(&wrong, [Action::Undo]);
    assert!(back.list(BandList::Source).is_none() && back.design() == pasted.design());
    let other = after(&wrong, [chosen(Choice::Spectrum, "voice")]);
    assert!(other.list(BandList::Source).is_none(), "what has no effect is not kept");
    assert_eq!(other.design().source.max_above_db, 8.0, "its maximum comes with the source");
}

#[test]
fn listeners_come_and_go_and_what_was_typed_goes_with_them() {
    let three = after(&start(), [Action::AddListener, Action::AddListener]);
    assert_eq!((three.design().listeners.len(), three.report().listeners.len()), (3, 3));
    let typing = [
        typed(Field::Listener(0, ListenerField::LimitDba), "999"),
        typed(Field::Listener(1, ListenerField::Area), "0"),
        typed(Field::Listener(2, ListenerField::Area), "many"),
        Action::Write(Text::Listener(2), "Attic".to_owned()),
        Action::Settle,
    ];
    let state = after(&three, typing);
    assert_eq!(state.refused().count(), 3);
    let less = after(&state, [Action::RemoveListener(1)]);
    assert_eq!(less.design().listeners[1].name, "Attic");
    assert_eq!(less.entry(Field::Listener(1, ListenerField::Area)).unwrap().text, "many");
    assert_eq!(less.entry(Field::Listener(0, ListenerField::LimitDba)).unwrap().text, "999");
    assert!(less.entry(Field::Listener(2, ListenerField::Area)).is_none() && less.refused().count() == 2);
    let full = after(&start(), (0..6).map(|_| Action::AddListener));
    assert_eq!(full.design().listeners.len(), hushwright::design::limits::LISTENERS);
    assert!(full.refusal("listeners").is_some_and(|refusal| refusal.starts_with("At most 4")));
    let nobody = after(&start(), [Action::RemoveListener(0)]);
    assert_eq!((nobody.report().governing, nobody.report().answer().dba), (None, nobody.report().stations.room.dba));
    assert_eq!(after(&nobody, [Action::Undo]).design(), start().design());
    assert_eq!(after(&start(), [Action::RemoveListener(7)]).design(), start().design());
}

#[test]
fn a_name_of_a_listener_that_turns_text_is_refused() {
    let state = after(&start(), [Action::Write(Text::Listener(0), "a\u{202e}b".to_owned())]);
    assert!(state.text_refusal(Text::Listener(0)).is_some());
    assert_eq!(state.design(), start().design());
}

#[test]
fn without_a_driver_its_level_is_given() {
    let from_driver = after(&start(), [chosen(Choice::LevelFrom, "driver")]);
    assert!((from_driver.report().stations.source.dba - 111.8).abs() < 0.2);
    let louder = after(&from_driver, [typed(Field::PowerUsed, "120")]);
    assert!((louder.report().stations.source.dba - from_driver.report().stations.source.dba - 3.01).abs() < 0.01);
    let machine = after(&louder, [chosen(Choice::Driver, NONE)]);
    assert_eq!(machine.design().source.level_from, hushwright::design::LevelFrom::Given);
    assert!((machine.report().stations.source.dba - 112.0).abs() < 1e-9);
}

#[test]
fn a_preset_sets_its_numbers_as_one_step() {
    let ten = after(&start(), [Action::Preset(Preset::Driver, 2)]);
    let driver = ten.design().source.driver.clone().unwrap();
    assert_eq!((driver.diameter_mm, driver.moving_mass_g, driver.cone_area_cm2), (254.0, 30.0, 340.0));
    assert_eq!(after(&ten, [Action::Undo]).design(), start().design());
    let bare = after(&start(), [Action::Preset(Preset::ListenerRoom(0), 0), Action::Preset(Preset::Room, usize::MAX)]);
    assert_eq!((bare.design().listeners[0].room.absorption, bare.design().room.absorption), (0.05, 0.1));
}

/// Across a reload nothing is lost: steps back and forth, and what is typed and not taken.
#[test]
fn a_session_goes_on_where_it_was_left() {
    let refused = typed(Field::InsideWidth, "7");
    let bands = Action::TypeBands(BandList::Source, "63 ninety\n125 95".to_owned());
    let left = after(
        &start(),
        [
            typed(Field::InsideLength, "800"),
            Action::Settle,
            chosen(Choice::Spectrum, "own"),
            typed(Field::GapDepth, "60"),
            Action::Undo,
            refused,
            bands,
        ],
    );
    let fragment = link::encode(left.design());
    let resumed = State::resumed(&fragment, &left.session(), Units::Metric, estimator());
    assert_eq!(resumed.design(), left.design());
    assert_eq!(resumed.entry(Field::InsideWidth), left.entry(Field::InsideWidth));
    assert_eq!(resumed.list(BandList::Source), left.list(BandList::Source));
    assert!(resumed.list(BandList::Source).unwrap().refusal.is_some());
    let back = |state: State| after(&Rc::new(state), [Action::Undo, Action::Undo, Action::Undo]);
    let (resumed_back, left_back) = (back(resumed.clone()), after(&left, [Action::Undo, Action::Undo, Action::Undo]));
    assert_eq!(resumed_back.design(), left_back.design());
    assert_eq!(resumed_back.design().inner.length_mm, 700.0);
    let forth = after(&resumed_back, [Action::Redo, Action::Redo, Action::Redo]);
    assert_eq!(forth.design().gap.depth_mm, 60.0);
    // Of another design, or spoilt, it is none.
    for session in [left.session().replace("v1.", "v2."), String::new(), "present".to_owned(), start().session()] {
        let fresh = State::resumed(&fragment, &session, Units::Metric, estimator());
        assert!(!fresh.can_undo() && fresh.design() == left.design(), "{session:.60}");
    }
}

/// What a step changed is told against what was before it, a drag as a whole.
#[test]
fn a_step_is_compared_with_what_was_before_it() {
    let first = start();
    assert!(first.before().is_none());
    let dragged = after(&first, [600.0, 650.0, 690.0].map(|mm| Action::Slide(Field::InsideWidth, mm)));
    assert_eq!(dragged.before(), Some(first.report()));
    assert_eq!(dragged.steps(), 1);
    let back = after(&dragged, [Action::Undo]);
    assert_eq!((back.before(), back.report(), back.steps()), (Some(dragged.report()), first.report(), 2));
    let same = after(&back, [typed(Field::InsideWidth, "500")]);
    assert_eq!(same.steps(), 2, "the same number again is no step");
}

/// A partition by numbers of one's own begins with what was there, so that choosing it changes nothing by much.
#[test]
fn own_numbers_of_a_partition_begin_with_those_of_the_one_before() {
    use crate::listener_choices::ListenerChoice;
    let before = start();
    let own = after(&before, [chosen(Choice::Listener(0, ListenerChoice::Partition), NONE)]);
    assert!(own.design().listeners[0].partition.is_none());
    assert!(own.design().listeners[0].reduction_db.len() >= 6);
    let moved = own.report().listeners[0].level.dba - before.report().listeners[0].level.dba;
    assert!(moved.abs() < 3.0, "{moved}");
}

/// The outer sheets by key and the joints between, from the inside out.
fn outer_keys(state: &Rc<State>) -> Vec<&str> {
    Shell::Outer.layers(state.design()).iter().map(leaf::key_of).collect()
}

#[test]
fn each_edit_of_the_sheets_is_one_step_and_takes_what_was_typed_along() {
    let field = |k| Field::SheetThickness(Shell::Outer, k);
    let text = |state: &Rc<State>| (0..8).find(|k| state.entry(field(*k)).is_some());
    let begun = after(&start(), [typed(field(0), "900"), Action::Settle]);
    assert_eq!(outer_keys(&begun), ["birch-plywood", "damping-compound", "gypsum-board", "loose", "particle-board"]);
    let whole = |order: &str| -> Vec<String> { order.split(' ').map(str::to_owned).collect() };
    for (action, order, typed_at) in [
        (
            Action::Sheets(Shell::Outer, Edit::Move(0, 2)),
            "gypsum-board damping-compound particle-board loose birch-plywood",
            Some(2),
        ),
        (
            Action::Sheets(Shell::Outer, Edit::Move(2, 0)),
            "particle-board damping-compound birch-plywood loose gypsum-board",
            Some(1),
        ),
        (Action::Sheets(Shell::Outer, Edit::Mirror), "particle-board loose gypsum-board damping-compound birch-plywood", Some(2)),
        (
            Action::Sheets(Shell::Outer, Edit::Copy(0)),
            "birch-plywood loose birch-plywood damping-compound gypsum-board loose particle-board",
            Some(0),
        ),
        (Action::Sheets(Shell::Outer, Edit::Remove(1)), "birch-plywood loose particle-board", Some(0)),
        (Action::Sheets(Shell::Outer, Edit::Remove(0)), "gypsum-board loose particle-board", None),
    ] {
        let edited = after(&begun, [action.clone()]);
        assert_eq!(outer_keys(&edited), whole(order), "{action:?}");
        assert_eq!(text(&edited), typed_at, "{action:?}");
        let settled = after(&edited, edited.refused().next().map(|_| Action::Undo));
        assert_eq!(after(&settled, [Action::Undo]).design(), start().design(), "{action:?} is one step");
    }
    let twice = after(&begun, [Action::Sheets(Shell::Outer, Edit::Mirror), Action::Sheets(Shell::Outer, Edit::Mirror)]);
    assert_eq!((twice.design(), text(&twice)), (begun.design(), Some(0)));
    // What is not there is not moved.
    for action in [
        Action::Sheets(Shell::Outer, Edit::Move(0, 3)),
        Action::Sheets(Shell::Outer, Edit::Move(7, 0)),
        Action::Sheets(Shell::Outer, Edit::Move(1, 1)),
        Action::Sheets(Shell::Outer, Edit::Remove(9)),
        Action::Sheets(Shell::Inner, Edit::Remove(0)),
        Action::Sheets(Shell::Inner, Edit::Mirror),
        Action::Sheets(Shell::Outer, Edit::Copy(5)),
    ] {
        let same = after(&begun, [action.clone()]);
        assert_eq!((same.design(), text(&same)), (begun.design(), Some(0)), "{action:?}");
    }
    let many = after(&start(), [chosen(Choice::Suspension, "rigid"), chosen(Choice::Feet, "rigid")]);
    let many = after(&many, (0..9).map(|_| Action::Sheets(Shell::Outer, Edit::Copy(1))));
    assert_eq!(leaf::sheets(Shell::Outer.layers(many.design())), hushwright::buildup::check::MOST_SHEETS);
    assert!(many.refusal("outer.layers").unwrap().contains("At most 8 sheets"));
}

#[test]
fn a_material_of_ones_own_has_numbers_that_are_checked_and_travel() {
    use crate::fields::MaterialNumber::{Density, LossFactor, Poisson, ShearModulus, YoungsModulus};
    let at = |number| Field::SheetNumber(Shell::Outer, 0, number);
    let own = after(&start(), [chosen(Choice::Sheet(Shell::Outer, 0), leaf::OWN)]);
    assert_eq!(own.report().stations, start().report().stations, "it begins as what it was");
    assert!(own.report().bill.cost_incomplete && !start().report().bill.cost_incomplete);
    for (number, text, message) in [
        (Density, "5", "Allowed is 10 to 25000 kg/m³: foam to tungsten."),
        (Density, "heavy", "This is not a number. Allowed is 10 to 25000 kg/m³: foam to tungsten."),
        (YoungsModulus, "0", "Allowed is 0.00001 to 1000 GPa: rubber to diamond."),
        (YoungsModulus, "", "A number belongs here. Allowed is 0.00001 to 1000 GPa: rubber to diamond."),
        (Poisson, "0.5", "Allowed is 0 to 0.4999: isotropic solids."),
        (LossFactor, "-1", "Allowed is 0 to 2: none to heavy damping."),
        (ShearModulus, "1e3", "This is not a number. Allowed is 0.00001 to 1000 GPa: rubber to diamond."),
    ] {
        let refused = after(&own, [typed(at(number), text), Action::Settle]);
        let refusal = refused.entry(at(number)).and_then(|entry| entry.refusal.clone());
        assert_eq!(refusal.as_deref(), Some(message));
        assert_eq!(refused.design(), own.design());
        // It goes with its sheet, and is forgotten with its numbers.
        let moved = after(&refused, [Action::Sheets(Shell::Outer, Edit::Move(0, 1))]);
        assert_eq!(moved.entry(at(number).of_sheet(1)).map(|entry| entry.text.as_str()), Some(text));
        let named = after(&refused, [chosen(Choice::Sheet(Shell::Outer, 0), "osb")]);
        assert_eq!((named.refused().count(), outer_keys(&named)[0]), (0, "osb"));
    }
    let entered = after(&own, [typed(at(Density), "612,5 kg/m3"), typed(at(YoungsModulus), "4.2 GPa"), Action::Settle]);
    let entered = after(&entered, [chosen(Choice::Shear(Shell::Outer, 0), "isotropic"), typed(at(LossFactor), "0.035")]);
    let opened = State::new(&link::encode(entered.design()), Units::Imperial, estimator());
    assert_eq!((opened.design(), opened.report()), (entered.design(), entered.report()));
    let shown = |number: Field| number.shown(opened.design()).map(|value| number.quantity().write(value, Units::Imperial));
    assert_eq!(shown(at(Density)).as_deref(), Some("38.2"));
    assert_eq!(shown(at(YoungsModulus)).as_deref(), Some("0.60916"));
    assert_eq!(shown(at(ShearModulus)), None);
    let imperial = after(&Rc::new(opened), [typed(at(Density), "1 pcf")]);
    assert_eq!(at(Density).get(imperial.design()), Some(16.018_463));
    let back = after(&entered, [chosen(Choice::Sheet(Shell::Outer, 0), "birch-plywood")]);
    assert_eq!(back.design(), start().design());
}

#[test]
fn an_old_cabinet_is_measured_outside_and_stays_innermost() {
    use crate::fields::Extent;
    let outside = Field::Outside(Extent::Width);
    let thickness = Field::SheetThickness(Shell::Inner, 0);
    assert_eq!(outside.shown(start().design()), None);
    let old = after(&start(), [chosen(Choice::Existing, "true")]);
    assert_eq!((outside.shown(old.design()), old.report().stations), (Some(530.0), start().report().stations));
    assert!(old.report().bill.cost < start().report().bill.cost && old.report().bill.mass_kg == start().report().bill.mass_kg);
    let measured = after(&old, [typed(outside, "600"), Action::Settle]);
    assert_eq!(measured.design().inner.width_mm, 570.0);
    // What is allowed is said of the outside: 100 to 3000 mm inside, and 15 mm on either side.
    let refused = after(&old, [typed(outside, "50")]);
    let refusal = refused.entry(outside).and_then(|entry| entry.refusal.clone()).unwrap();
    assert!(refusal.starts_with("Allowed is 130 to 3030 mm"), "{refusal}");
    let inside = after(&refused, [typed(Field::InsideWidth, "500")]);
    assert_eq!((inside.refused().count(), inside.entry(outside)), (0, None), "what was typed last is meant");
    let fragment = link::encode(refused.design());
    let resumed = State::resumed(&fragment, &refused.session(), Units::Metric, estimator());
    assert_eq!(resumed.entry(outside), refused.entry(outside), "it comes back at its own field");
    // Thicker boards leave less inside, as one step.
    let thicker = after(&measured, [typed(thickness, "1"), typed(thickness, "18"), Action::Settle]);
    assert_eq!((thicker.design().inner.width_mm, outside.get(thicker.design())), (564.0, Some(600.0)));
    assert_eq!(after(&thicker, [Action::Undo]).design(), measured.design());
    let slid = after(&measured, [12.0, 9.0, 15.0].map(|mm| Action::Slide(thickness, mm)));
    assert_eq!(slid.design(), measured.design(), "there and back again");
    // It stays innermost, whatever is laid round it.
    let round = after(
        &measured,
        [chosen(Choice::Suspension, "rigid"), Action::Sheets(Shell::Inner, Edit::Add), Action::Sheets(Shell::Inner, Edit::Add)],
    );
    let round = after(&round, [chosen(Choice::Sheet(Shell::Inner, 1), "osb"), Action::Settle]);
    for action in [
        Action::Sheets(Shell::Inner, Edit::Move(0, 1)),
        Action::Sheets(Shell::Inner, Edit::Move(2, 0)),
        Action::Sheets(Shell::Inner, Edit::Remove(0)),
        Action::Sheets(Shell::Inner, Edit::Mirror),
    ] {
        assert_eq!(after(&round, [action.clone()]).design(), round.design(), "{action:?}");
    }
    let moved = after(&round, [Action::Sheets(Shell::Inner, Edit::Move(2, 1)), Action::Sheets(Shell::Inner, Edit::Remove(2))]);
    assert_eq!(Shell::Inner.layers(moved.design()).iter().map(leaf::key_of).collect::<Vec<_>>(), ["mdf", "loose", "mdf"]);
    let built = after(&measured, [chosen(Choice::Existing, "false"), typed(thickness, "18")]);
    assert_eq!(built.design().inner.width_mm, 570.0, "a box that is built keeps its inside");
}

#[test]
fn supports_that_come_with_a_choice_are_as_many_as_hold() {
    let mut heavy = Design { outer: None, ..Design::default() };
    heavy.source.mass_kg = 300.0;
    let before = after(&start(), [Action::Open(Box::new(heavy))]);
    let boxed = after(&before, [chosen(Choice::Outer, "box")]);
    assert!(boxed.design().outer.is_some() && boxed.design().suspension.count > 4.0, "{:?}", boxed.refusal("outer"));
    let fewer = Design {
        suspension: hushwright::design::SupportPart {
            count: boxed.design().suspension.count - 1.0,
            ..boxed.design().suspension.clone()
        },
        ..(**boxed.design()).clone()
    };
    assert!(fewer.check().is_err(), "one less would not hold");
    let on_springs = after(&before, [chosen(Choice::Feet, "springs")]);
    assert!(on_springs.design().feet.count > 4.0, "{:?}", on_springs.refusal("feet.kind"));
}

#[test]
fn band_levels_of_ones_own_begin_with_what_there_was() {
    let before = start();
    let own = after(&before, [chosen(Choice::Spectrum, "own")]);
    assert!(own.design().source.own_db.len() > 5, "{:?}", own.refusal("source.spectrum"));
    assert!((own.report().stations.source.dba - before.report().stations.source.dba).abs() < 1.0);
    // Levels that somebody has entered stay.
    let other = after(&own, [chosen(Choice::Spectrum, "voice"), chosen(Choice::Spectrum, "own")]);
    assert_eq!(other.design().source.own_db, own.design().source.own_db);
}

#[test]
fn what_is_refused_of_ones_own_follows_the_units() {
    let own = |key: &str, text: &str| Action::TypeOwn(key.to_owned(), text.to_owned());
    let state = after(&start(), [own("mdf/length", "25.4"), own("latch", "-5"), Action::SetUnits(Units::Imperial)]);
    let kept: Vec<(String, String)> = state.kept_own().into_iter().map(|kept| (kept.key, kept.text)).collect();
    assert_eq!(kept, [("mdf/length".to_owned(), "1".to_owned()), ("latch".to_owned(), "-5".to_owned())]);
    assert!(state.kept_own()[0].refusal.ends_with(" to 236.22 in: an offcut to the largest sheet made."));
    assert_eq!(**state.design(), **start().design());
}

#[test]
fn a_usual_size_of_sheets_is_one_step() {
    let own = |key: &str, text: &str| Action::TypeOwn(key.to_owned(), text.to_owned());
    let before = start();
    let chosen = after(&before, [own("mdf/size", "2500 1250")]);
    let numbers = &chosen.design().build.own;
    assert_eq!((numbers.get("mdf/length"), numbers.get("mdf/width")), (Some(2500.0), Some(1250.0)));
    assert_eq!(after(&chosen, [Action::Undo]).design(), before.design());
    assert_eq!(after(&before, [own("mdf/size", "")]).design(), before.design(), "nothing was chosen");
}

/// The first example has MDF of 15 mm as inner box and of 18 mm as baffle, and particle board of 18 mm outside.
#[test]
fn a_measured_thickness_is_that_of_every_such_board() {
    let own = |key: &str, text: &str| Action::TypeOwn(key.to_owned(), text.to_owned());
    let before = start();
    let thin = after(&before, [own("measured:mdf/18/18", "17.6")]);
    assert_eq!(thin.design().inner.baffle.as_ref().unwrap().thickness_mm, 17.6);
    assert_eq!(thin.design().inner.layers, before.design().inner.layers);
    assert_eq!(thin.design().outer, before.design().outer);
    let inner = after(&before, [own("measured:mdf/15/15", "14.7")]);
    assert_eq!(inner.design().inner.layers[0].thickness_mm, Some(14.7));
    let again = after(&inner, [own("measured:mdf/14.7/15", " ")]);
    assert_eq!(again.design(), before.design(), "an empty field is the nominal thickness");
    let refused = after(&before, [own("measured:mdf/15/15", "200")]);
    assert_eq!(refused.design(), before.design());
    assert!(refused.kept_own()[0].refusal.contains("100 mm"), "{:?}", refused.kept_own());
}
