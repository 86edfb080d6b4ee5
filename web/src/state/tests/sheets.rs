//! The sheets of a shell.

use hushwright::design::link;

use super::*;

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
