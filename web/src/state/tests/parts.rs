//! Choices, and parts that come and go with them.

use super::*;
use crate::fields::ListenerField;

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
