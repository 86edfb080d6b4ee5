use hushwright::design::{Design, examples};
use proptest::prelude::*;

use super::super::fake::Fake;
use super::*;
use crate::model::{Core, Model};

/// A tab: a shelf, a page's design and a clock that goes on.
struct Tab<'a> {
    store: &'a Fake,
    core: &'a Core,
    shelf: Shelf,
    design: Design,
    fragment: String,
    nonce: u64,
}

impl<'a> Tab<'a> {
    fn open(store: &'a Fake, core: &'a Core, first_nonce: u64) -> Self {
        let (design, nonce) = (Design::default(), first_nonce);
        let fragment = core.estimate(&design).unwrap().fragment;
        let shelf = Shelf::new("", &Hand { store, links: core, now_ms: 0.0, nonce });
        Self { store, core, shelf, design, fragment, nonce }
    }

    fn show(&mut self, design: Design) {
        self.fragment = self.core.estimate(&design).unwrap().fragment;
        self.design = design;
    }

    fn act<T>(&mut self, act: impl FnOnce(&mut Shelf, Present, &Hand) -> T) -> T {
        self.nonce += 1;
        let hand = Hand { store: self.store, links: self.core, now_ms: 1000.0 * self.nonce as f64, nonce: self.nonce };
        let packed = self.design.to_bytes();
        act(&mut self.shelf, Present { name: &self.design.name, packed: &packed, fragment: &self.fragment }, &hand)
    }

    fn follow(&mut self, action: Option<Deed>) {
        match action {
            Some(Deed::Open(fragment)) => self.show(Model::open(self.core, &fragment).unwrap()),
            Some(Deed::Rename(name)) => self.show(Design { name, ..self.design.clone() }),
            None => {}
        }
    }

    fn keep(&mut self) {
        self.act(Shelf::keep);
    }

    fn open_item(&mut self, k: usize) {
        let action = self.act(|shelf, _, _| shelf.open(k));
        self.follow(action);
    }

    /// Longer by so many mm inside.
    fn lengthen(&mut self, by_mm: f64) {
        let mut design = self.design.clone();
        design.inner.length_mm += by_mm;
        self.show(design);
    }

    fn standing(&self) -> Standing {
        let packed = self.design.to_bytes();
        self.shelf.standing(Present { name: &self.design.name, packed: &packed, fragment: &self.fragment })
    }

    /// Names and inside lengths of what is kept by now.
    fn kept(&mut self) -> Vec<(String, f64)> {
        self.act(|shelf, _, hand| shelf.refresh(hand));
        let length = |item: &Item| item.design.as_ref().map_or(f64::NAN, |design| design.inner.length_mm);
        self.shelf.items().iter().map(|item| (item.name.clone(), length(item))).collect()
    }
}

fn named(name: &str) -> String {
    name.to_owned()
}

const NAME: &str = "Run-in box, ground floor";

#[test]
fn a_design_is_kept_opened_changed_and_saved() {
    let (store, core) = (Fake::default(), Core::default());
    let mut tab = Tab::open(&store, &core, 100);
    assert_eq!(tab.standing(), Standing::Nowhere);
    let first = tab.design.clone();
    tab.keep();
    assert_eq!(tab.standing(), Standing::Kept(named(NAME)));
    tab.show(examples().remove(1));
    assert_eq!(tab.standing(), Standing::Differs(named(NAME)));
    tab.keep();
    assert_eq!(tab.shelf.items().len(), 2);
    assert_eq!(tab.shelf.items()[0].name, tab.design.name, "newest first");
    tab.open_item(1);
    assert_eq!((&tab.design, tab.standing()), (&first, Standing::Kept(named(NAME))));
    tab.lengthen(50.0);
    assert_eq!(tab.standing(), Standing::Differs(named(NAME)));
    tab.act(Shelf::save);
    assert_eq!(tab.kept()[0], (named(NAME), first.inner.length_mm + 50.0));
    assert_eq!(tab.standing(), Standing::Kept(named(NAME)));
    tab.act(|shelf, _, hand| shelf.undo(hand));
    assert_eq!(tab.kept()[1], (named(NAME), first.inner.length_mm), "saving can be taken back");
    assert_eq!(tab.standing(), Standing::Differs(named(NAME)));
    tab.act(Shelf::save);
    assert_eq!((tab.kept().len(), tab.standing()), (2, Standing::Kept(named(NAME))));
}

#[test]
fn a_name_that_is_there_is_asked_about() {
    let (store, core) = (Fake::default(), Core::default());
    let mut tab = Tab::open(&store, &core, 100);
    tab.keep();
    tab.keep();
    assert_eq!((tab.kept().len(), tab.shelf.question()), (1, None), "it is kept already");
    assert!(tab.shelf.said().words.contains("already"));
    let length = tab.design.inner.length_mm;
    tab.lengthen(10.0);
    tab.keep();
    assert_eq!(tab.kept(), [(named(NAME), length)], "nothing before it is answered");
    let other = tab.shelf.question().and_then(|question| question.other_name.clone());
    assert_eq!(other, Some(format!("{NAME} 2")));
    let action = tab.act(Shelf::keep_both);
    tab.follow(action);
    assert_eq!(tab.kept(), [(format!("{NAME} 2"), length + 10.0), (named(NAME), length)]);
    assert_eq!(tab.standing(), Standing::Kept(format!("{NAME} 2")), "the design on the page is called so too");
    tab.lengthen(10.0);
    tab.keep();
    tab.act(Shelf::replace);
    assert_eq!(tab.kept(), [(format!("{NAME} 2"), length + 20.0), (named(NAME), length)]);
    tab.lengthen(10.0);
    tab.keep();
    tab.act(|shelf, present, hand| shelf.perform("leave", 0, "", present, hand));
    assert_eq!((tab.kept().len(), tab.shelf.question()), (2, None));
}

/// Two tabs with the same kept design open: whoever saves second overwrites nothing without knowing.
#[test]
fn two_tabs_do_not_overwrite_each_other() {
    let (store, core) = (Fake::default(), Core::default());
    let (mut one, mut two) = (Tab::open(&store, &core, 100), Tab::open(&store, &core, 200_000));
    let length = one.design.inner.length_mm;
    one.keep();
    two.act(|shelf, _, hand| shelf.refresh(hand));
    two.open_item(0);
    one.lengthen(10.0);
    two.lengthen(30.0);
    one.act(Shelf::save);
    // The list of the second tab may have followed, which changes nothing: what counts is what was opened.
    for list_follows in [false, true] {
        if list_follows {
            two.act(|shelf, _, hand| shelf.refresh(hand));
            assert_eq!(two.standing(), Standing::ChangedElsewhere(named(NAME)));
        }
        two.act(Shelf::save);
        let question = two.shelf.question().expect("it asks").clone();
        assert!(question.words.contains("another tab"), "{}", question.words);
        assert_eq!(one.kept(), [(named(NAME), length + 10.0)], "nothing was overwritten");
        two.act(|shelf, present, hand| shelf.perform("leave", 0, "", present, hand));
    }
    two.act(Shelf::save);
    let action = two.act(Shelf::keep_both);
    two.follow(action);
    assert_eq!(one.kept(), [(format!("{NAME} 2"), length + 30.0), (named(NAME), length + 10.0)]);
    // And knowingly (what the second tab keeps is the newer, since its clock is ahead): but if it changes once more while that is asked, it is asked again.
    two.open_item(1);
    two.lengthen(100.0);
    one.lengthen(1.0);
    one.act(Shelf::save);
    two.act(Shelf::save);
    one.lengthen(1.0);
    one.act(Shelf::save);
    two.act(Shelf::replace);
    assert!(two.shelf.question().is_some(), "another record than was asked about");
    assert_eq!(one.kept()[1], (named(NAME), length + 12.0));
    two.act(Shelf::replace);
    assert_eq!(one.kept()[0], (named(NAME), length + 110.0));
    assert_eq!(one.standing(), Standing::ChangedElsewhere(named(NAME)));
}

#[test]
fn what_another_tab_has_deleted_is_not_saved_unasked() {
    let (store, core) = (Fake::default(), Core::default());
    let (mut one, mut two) = (Tab::open(&store, &core, 100), Tab::open(&store, &core, 200_000));
    one.keep();
    two.act(|shelf, _, hand| shelf.refresh(hand));
    two.open_item(0);
    two.lengthen(30.0);
    one.act(|shelf, _, hand| shelf.delete(0, hand));
    for act in
        [Shelf::delete as fn(&mut Shelf, usize, &Hand), |shelf, k, hand| drop(shelf.rename(k, "other", present_of_none(), hand))]
    {
        let before = two.shelf.clone();
        two.act(|shelf, _, hand| act(shelf, 0, hand));
        assert!(two.shelf.said().failed && two.shelf.said().words.contains("deleted"), "{:?}", two.shelf.said());
        two.shelf = before;
    }
    two.act(|shelf, _, hand| shelf.refresh(hand));
    assert_eq!(two.standing(), Standing::GoneElsewhere(named(NAME)));
    two.act(Shelf::save);
    let question = two.shelf.question().expect("it asks").clone();
    assert!(question.words.contains("deleted") && question.other_name.is_none(), "{question:?}");
    assert_eq!(one.kept(), []);
    two.act(Shelf::replace);
    assert_eq!(one.kept(), [(named(NAME), two.design.inner.length_mm)]);
    // The first tab has still the deleted one to put back: what is there now is not overwritten by it.
    one.act(|shelf, _, hand| shelf.undo(hand));
    assert!(one.shelf.said().failed, "{:?}", one.shelf.said());
    assert_eq!(one.kept(), [(named(NAME), two.design.inner.length_mm)]);
}

/// A present design that nothing holds.
fn present_of_none() -> Present<'static> {
    Present { name: "another", packed: &[], fragment: "none" }
}

#[test]
fn what_is_deleted_can_be_put_back() {
    let (store, core) = (Fake::default(), Core::default());
    let mut tab = Tab::open(&store, &core, 100);
    tab.keep();
    let before = all(&store);
    tab.act(|shelf, _, hand| shelf.delete(0, hand));
    assert_eq!((tab.kept(), tab.standing()), (Vec::new(), Standing::Nowhere));
    assert_eq!(tab.shelf.undo_words(), Some("Put back"));
    // Where it does not fit any more at first, the button stays until it does.
    store.fail(Some(Fault::Full));
    tab.act(|shelf, _, hand| shelf.undo(hand));
    assert!(tab.shelf.said().failed && tab.shelf.undo_words() == Some("Put back"), "{:?}", tab.shelf.said());
    store.fail(None);
    tab.act(|shelf, _, hand| shelf.undo(hand));
    assert_eq!((all(&store), tab.standing()), (before, Standing::Kept(named(NAME))));
    assert_eq!(tab.shelf.undo_words(), None);
}

#[test]
fn a_name_is_changed_in_the_design_too_and_one_that_is_refused_is_told() {
    let (store, core) = (Fake::default(), Core::default());
    let mut tab = Tab::open(&store, &core, 100);
    tab.keep();
    let action = tab.act(|shelf, present, hand| shelf.rename(0, "  Cellar  ", present, hand));
    tab.follow(action);
    assert_eq!((tab.design.name.as_str(), tab.standing()), ("Cellar", Standing::Kept(named("Cellar"))));
    assert_eq!(tab.kept()[0].0, "Cellar");
    let saved_ms = tab.shelf.items()[0].saved_ms;
    let long = "a".repeat(81);
    assert_eq!(tab.act(|shelf, present, hand| shelf.rename(0, &long, present, hand)), None);
    assert!(tab.shelf.said().failed && tab.shelf.said().words.contains("80"), "{:?}", tab.shelf.said());
    tab.lengthen(10.0);
    assert_eq!(tab.act(|shelf, present, hand| shelf.rename(0, "Attic", present, hand)), None, "another design on the page");
    assert_eq!((tab.kept()[0].0.as_str(), tab.shelf.items()[0].saved_ms), ("Attic", saved_ms), "its time stays");
    tab.act(Shelf::save);
    assert_eq!(tab.kept()[0].0, "Cellar", "what is saved has the name of what is on the page");
    tab.act(|shelf, _, hand| shelf.undo(hand));
    assert_eq!((tab.kept()[0].0.as_str(), tab.standing()), ("Attic", Standing::Differs(named("Attic"))));
}

#[test]
fn a_name_is_typed_in_place_and_stays_there_while_it_is_refused() {
    let (store, core) = (Fake::default(), Core::default());
    let mut tab = Tab::open(&store, &core, 100);
    tab.keep();
    let perform = |tab: &mut Tab, key: &str, typed: &str| {
        let action = tab.act(|shelf, present, hand| shelf.perform(key, 0, typed, present, hand));
        tab.follow(action);
        tab.shelf.is_renamed(0)
    };
    assert!(perform(&mut tab, "rename", ""));
    assert!(perform(&mut tab, "name", &"a".repeat(81)), "still to be put right");
    assert!(!perform(&mut tab, "name", "Cellar"));
    assert!(perform(&mut tab, "rename", "") && !perform(&mut tab, "leave", "Attic"));
    assert_eq!(tab.kept()[0].0, "Cellar");
}

#[test]
fn a_full_or_forbidden_store_is_told_and_nothing_is_lost() {
    let (store, core) = (Fake::default(), Core::default());
    let mut tab = Tab::open(&store, &core, 100);
    tab.keep();
    let before = all(&store);
    tab.lengthen(10.0);
    store.fail(Some(Fault::Full));
    tab.act(Shelf::save);
    assert!(tab.shelf.said().failed && tab.shelf.said().words.contains("no more room"), "{:?}", tab.shelf.said());
    assert_eq!((all(&store), tab.shelf.fault()), (before.clone(), None));
    assert_eq!(tab.standing(), Standing::Differs(named(NAME)), "and the page says that it is not saved");
    store.fail(Some(Fault::Forbidden));
    tab.keep();
    assert!(tab.shelf.said().failed && tab.shelf.said().words.contains("does not let"), "{:?}", tab.shelf.said());
    assert_eq!((tab.shelf.fault(), tab.shelf.items().len()), (Some(Fault::Forbidden), 0));
    store.fail(None);
    assert_eq!((all(&store), tab.kept().len(), tab.shelf.fault()), (before, 1, None));
}

/// What a later version, or nobody knows who, has left there is shown, kept, and can be deleted and put back.
#[test]
fn records_that_cannot_be_read_are_told_and_kept() {
    let (store, core) = (Fake::default(), Core::default());
    let mut tab = Tab::open(&store, &core, 100);
    tab.keep();
    let good = store.read(&all(&store).unwrap()[0].0).unwrap().unwrap();
    let cut = Record { fragment: "v1.e30.0000".to_owned(), name: "cut".to_owned(), ..Record::read(&good).unwrap() }.write();
    let records = [
        ("newer", good.replacen('1', "2", 1), "newer version"),
        ("rubbish", "\u{0}\u{1f}".repeat(50), "cannot be read"),
        ("link", cut, "link"),
        ("empty", String::new(), "cannot be read"),
    ];
    for (key, text, _) in &records {
        store.write(&format!("{KEY}{key}"), text).unwrap();
    }
    let before = all(&store).unwrap();
    tab.act(|shelf, _, hand| shelf.refresh(hand));
    assert_eq!(tab.shelf.items().len(), 5);
    for (key, text, why) in &records {
        let at = |shelf: &Shelf| shelf.items().iter().position(|item| item.key.ends_with(key));
        let k = at(&tab.shelf).expect("it is listed");
        let message = tab.shelf.items()[k].design.as_ref().expect_err("no design").clone();
        assert!(message.contains(why), "{key}: {message}");
        assert_eq!(tab.act(|shelf, _, _| shelf.open(k)), None);
        assert_eq!(tab.act(|shelf, present, hand| shelf.rename(k, "x", present, hand)), None);
        assert_eq!(all(&store).unwrap(), before);
        tab.act(|shelf, _, hand| shelf.delete(k, hand));
        assert_eq!((at(&tab.shelf), store.read(&format!("{KEY}{key}"))), (None, Ok(None)));
        tab.act(|shelf, _, hand| shelf.undo(hand));
        assert_eq!(store.read(&format!("{KEY}{key}")), Ok(Some(text.clone())));
    }
    assert_eq!(tab.standing(), Standing::Kept(named(NAME)));
}

#[test]
fn a_tab_remembers_across_a_reload_what_it_has_open() {
    let (store, core) = (Fake::default(), Core::default());
    let mut tab = Tab::open(&store, &core, 100);
    assert_eq!(tab.shelf.memory(), "");
    tab.keep();
    tab.lengthen(10.0);
    let memory = tab.shelf.memory();
    tab.shelf = tab.act(|_, _, hand| Shelf::new(&memory, hand));
    assert_eq!(tab.standing(), Standing::Differs(named(NAME)));
    for rubbish in ["", "\u{1f}", "a", "a\u{1f}b"] {
        tab.shelf = tab.act(|_, _, hand| Shelf::new(rubbish, hand));
        assert_eq!(tab.standing(), Standing::Nowhere, "{rubbish}");
    }
}

#[test]
fn a_design_that_came_otherwise_is_known_again() {
    let (store, core) = (Fake::default(), Core::default());
    let mut tab = Tab::open(&store, &core, 100);
    tab.keep();
    let other = examples().remove(2);
    tab.show(other.clone());
    tab.keep();
    tab.show(Design::default());
    assert_eq!(tab.standing(), Standing::Kept(named(NAME)));
    tab.act(|shelf, present, _| shelf.adopt(present));
    tab.lengthen(10.0);
    assert_eq!(tab.standing(), Standing::Differs(named(NAME)), "and not from what was kept last");
}

#[test]
fn the_other_name_is_free_and_no_longer_than_names_may_be() {
    let long = "ä".repeat(80);
    let taken = ["Box", "Box 2", "Box 3", "7", "Box3", "", &long];
    let free = |name: &str| free_name(name, |other| taken.contains(&other));
    assert_eq!(free("Box"), "Box 4");
    assert_eq!(free("Box 2"), "Box 4");
    assert_eq!(free(" Cellar "), "Cellar");
    assert_eq!((free("7"), free("Box3"), free("")), (named("7 2"), named("Box3 2"), named("2")));
    let other = free(&long);
    assert_eq!((other.chars().count(), other.ends_with("ä 2")), (80, true));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(10_000))]

    /// Whatever lies in the store, the list is made, and deleting works.
    #[test]
    fn rubbish_in_the_store_does_no_harm(text in "(1\u{1f}[a-z]{0,3}\u{1f}[0-9]{0,20}\u{1f}(v[01].)?[!-~]{0,20}\u{1f}\\PC{0,20})|\\PC{0,60}") {
        let (store, core) = (Fake::default(), Core::default());
        let key = format!("{KEY}{}", text.len());
        store.write(&key, &text).unwrap();
        let hand = Hand { store: &store, links: &core, now_ms: 1.0, nonce: 1 };
        let mut shelf = Shelf::new(&text, &hand);
        prop_assert_eq!(shelf.items().len(), 1);
        prop_assert!(shelf.items()[0].design.as_ref().is_err_and(|why| !why.is_empty()));
        prop_assert_eq!(shelf.open(0), None);
        shelf.delete(0, &hand);
        prop_assert_eq!(all(&store), Ok(Vec::new()));
        shelf.undo(&hand);
        prop_assert_eq!(store.read(&key), Ok(Some(text)));
    }
}
