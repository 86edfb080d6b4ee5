use super::*;

fn start() -> Rc<State> {
    Rc::new(State::new("", Units::Metric))
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

#[test]
fn a_slider_changes_design_answer_and_link() {
    let before = start();
    let moved = after(&before, [Action::Slide(Field::SheetThickness(Shell::Outer, 2), 30.0)]);
    assert!(moved.report().stations.room.dba < before.report().stations.room.dba - 0.1);
    assert_ne!(link::encode(moved.design()), link::encode(before.design()));
    assert!(moved.entry(Field::SheetThickness(Shell::Outer, 2)).is_none());
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
fn layers_are_added_changed_moved_and_removed() {
    let state = after(&start(), [Action::AddSheet(Shell::Inner), chosen(Choice::Sheet(Shell::Inner, 1), "gypsum-board")]);
    assert_eq!(leaf::sheets(&state.design().inner.layers), 2);
    let bonded = after(&state, [chosen(Choice::Bond(Shell::Inner, 0), "damping-compound")]);
    assert_eq!(leaf::key_of(&bonded.design().inner.layers[1]), "damping-compound");
    let swapped = after(&bonded, [Action::SwapSheets(Shell::Inner, 0)]);
    assert_eq!(leaf::key_of(&swapped.design().inner.layers[0]), "gypsum-board");
    let removed = after(&swapped, [Action::RemoveSheet(Shell::Inner, 0)]);
    assert_eq!(removed.design().inner.layers, start().design().inner.layers);
}

#[test]
fn too_many_sheets_are_refused_at_the_list() {
    let many = (0..12).map(|_| Action::AddSheet(Shell::Inner));
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
    let changed = after(&start(), [Action::Slide(Field::GapDepth, 90.0), Action::Rename("Ours".to_owned())]);
    let fragment = format!("#{}", link::encode(changed.design()));
    let opened = State::new(&fragment, Units::Imperial);
    assert_eq!(opened.design(), changed.design());
    assert_eq!(opened.report(), changed.report());
    assert_eq!(opened.notice(), None);
    let damaged = Rc::new(State::new(&fragment[..fragment.len() - 3], Units::Metric));
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
    let state = after(&start(), [Action::Rename("n".repeat(200))]);
    assert!(state.refusal("name").is_some());
    assert_eq!(state.design().name, Design::default().name);
}

#[test]
fn the_notice_goes_when_another_design_is_shown() {
    let ours = after(&start(), [Action::Slide(Field::GapDepth, 90.0)]);
    let damaged = after(&ours, [Action::Follow("v0.broken".to_owned())]);
    assert!(damaged.notice().is_some());
    assert!(after(&damaged, [Action::Slide(Field::GapDepth, 80.0)]).notice().is_some());
    let back = after(&damaged, [Action::Undo]);
    assert_eq!((back.design(), back.notice()), (ours.design(), None));
    let good = format!("#{}", link::encode(&Design::default()));
    assert_eq!(after(&damaged, [Action::Follow(good)]).notice(), None);
}

#[test]
fn what_was_refused_goes_with_its_sheet() {
    let field = |k| Field::SheetThickness(Shell::Outer, k);
    let text = |state: &Rc<State>, k| state.entry(field(k)).map(|entry| entry.text.clone());
    let refused = after(&start(), [typed(field(0), "900"), Action::Settle]);
    let swapped = after(&refused, [Action::SwapSheets(Shell::Outer, 0)]);
    assert_eq!((text(&swapped, 0), text(&swapped, 1)), (None, Some("900".to_owned())));
    let removed = after(&swapped, [Action::RemoveSheet(Shell::Outer, 0)]);
    assert_eq!(text(&removed, 0), Some("900".to_owned()));
    let more = after(&refused, [Action::AddSheet(Shell::Outer), chosen(Choice::Sheet(Shell::Outer, 0), "mdf")]);
    assert_eq!(text(&more, 0), Some("900".to_owned()));
    assert_eq!(text(&after(&refused, [Action::RemoveSheet(Shell::Outer, 0)]), 0), None);
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
    let opened = State::new(&link::encode(&signed), Units::Metric);
    assert!(opened.design().gap.fill.as_ref().unwrap().share.is_sign_positive());
}

#[test]
fn numbers_are_typed_in_the_units_shown() {
    let state = after(&start(), [Action::SetUnits(Units::Imperial), typed(Field::InsideLength, "20")]);
    assert_eq!(state.design().inner.length_mm, 508.0);
    let wrong = after(&state, [typed(Field::InsideLength, "700")]);
    assert!(wrong.entry(Field::InsideLength).unwrap().refusal.as_ref().unwrap().contains(" in:"));
}
