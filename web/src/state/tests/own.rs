//! Band values and numbers of one's own.

use super::*;

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
