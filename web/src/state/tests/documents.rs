//! Whole designs: links, examples, names and notes, a reload, what a step changed.

use hushwright::design::link;

use super::*;

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
