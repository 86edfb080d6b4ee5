//! Numbers as they are typed and drawn: what enters the design, what is refused, what is one step.

use hushwright::design::link;

use super::*;

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
