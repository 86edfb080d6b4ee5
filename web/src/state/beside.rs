//! What happens to the designs that stand beside the present one in a comparison.
//!
//! They are fragments of links and nothing else: what they do is worked out where it is shown, and one that cannot be opened stays until
//! it is taken away.

use std::rc::Rc;

use super::{Kept, State, normalised};

/// Most designs beside the present one.
pub const MOST_BESIDE: usize = 3;

/// What can happen to them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Beside {
    /// These and no others stand there, parted by strokes: an address has said so.
    Show(String),
    /// One more, by the fragment of its link.
    Put(String),
    /// The one at this place is taken away.
    TakeAway(usize),
    /// The one that was taken away last is back at its place.
    PutBack,
    /// The one at this place and the present design change places.
    Swap(usize),
}

impl State {
    /// Fragments of the designs that stand beside the present one, parted by strokes.
    pub const fn beside(&self) -> &Rc<str> {
        &self.beside.0
    }

    /// How many more the link had than can stand beside it.
    pub const fn left_out(&self) -> usize {
        self.beside.1
    }

    /// The place and the fragment of the design that was taken away last, until another comes.
    pub const fn taken_away(&self) -> Option<&(usize, String)> {
        self.taken_away.as_ref()
    }

    /// Sets these, parted by strokes, beside the present design, as many as have room.
    pub fn show_beside(&mut self, fragments: &str) {
        let mut fragments = parts(fragments);
        self.taken_away = None;
        let left_out = fragments.len().saturating_sub(MOST_BESIDE);
        fragments.truncate(MOST_BESIDE);
        self.beside = (fragments.join("/").into(), left_out);
    }

    pub(super) fn set_beside(&mut self, what: &Beside) {
        let beside = Rc::clone(&self.beside.0);
        let mut fragments = parts(&beside);
        let back;
        match what {
            Beside::Show(shown) => return self.show_beside(shown),
            Beside::Swap(place) => return self.swap(*place),
            Beside::Put(fragment) if fragments.len() < MOST_BESIDE => {
                fragments.push(fragment);
                self.taken_away = None;
            }
            Beside::TakeAway(place) if *place < fragments.len() => {
                self.taken_away = Some((*place, fragments.remove(*place).to_owned()));
            }
            Beside::PutBack => {
                back = self.taken_away.take();
                let Some((place, fragment)) = &back else { return };
                fragments.insert(*place, fragment);
            }
            Beside::Put(_) | Beside::TakeAway(_) => return,
        }
        self.beside = (fragments.join("/").into(), 0);
    }

    /// The design at `place` becomes the present one, which takes its place; one step, which can be undone.
    fn swap(&mut self, place: usize) {
        let present = Rc::clone(self.fragment());
        let Some(design) = parts(&self.beside.0).get(place).and_then(|fragment| self.estimator.open(fragment).ok()) else {
            return;
        };
        let design = normalised(design);
        if design == **self.design() {
            return;
        }
        self.open(design);
        self.history.amend(|kept| kept.came_from = Some(place));
        self.set_at(place, &present);
        self.notice = None;
    }

    /// Another fragment at `place`.
    fn set_at(&mut self, place: usize, fragment: &str) {
        let beside = Rc::clone(&self.beside.0);
        let mut fragments = parts(&beside);
        fragments[place] = fragment;
        self.beside = (fragments.join("/").into(), 0);
    }

    /// One step back in the history; says whether there was one.
    pub(super) fn step_back(&mut self) -> bool {
        let before = self.history.present().clone();
        let stepped = self.history.undo();
        if stepped && let Some(place) = before.came_from {
            self.change_places(place, &before);
        }
        stepped
    }

    /// One step forward again; says whether there was one.
    pub(super) fn step_forward(&mut self) -> bool {
        let before = self.history.present().clone();
        let stepped = self.history.redo();
        if stepped && let Some(place) = self.history.present().came_from {
            self.change_places(place, &before);
        }
        stepped
    }

    /// What was the present design stands where that of now stood, if it still did: at `place`, or where it has moved to.
    fn change_places(&mut self, place: usize, before: &Kept) {
        let now = Rc::clone(self.fragment());
        let fragments = parts(&self.beside.0);
        let is_there = fragments.get(place) == Some(&&*now);
        let place = if is_there { Some(place) } else { fragments.iter().position(|fragment| **fragment == *now) };
        if let Some(place) = place {
            self.set_at(place, &before.fragment);
        }
    }
}

/// The fragments in a row of them.
pub fn parts(fragments: &str) -> Vec<&str> {
    fragments.split('/').filter(|fragment| !fragment.is_empty()).collect()
}

#[cfg(test)]
mod tests {
    use hushwright::design::{examples, link};
    use yew::Reducible;

    use super::super::Action;
    use super::*;
    use crate::estimator::Estimator;
    use crate::fields::Field;
    use crate::model::Core;
    use crate::quantity::Units;

    fn estimator() -> Estimator {
        Estimator::new(Core::default())
    }

    fn opened(fragment: &str, session: &str) -> Rc<State> {
        Rc::new(State::resumed(fragment, session, Units::Metric, estimator()))
    }

    fn after(state: &Rc<State>, actions: impl IntoIterator<Item = Action>) -> Rc<State> {
        actions.into_iter().fold(Rc::clone(state), Reducible::reduce)
    }

    /// The fragments of the examples, as the page writes them.
    fn fragments() -> Vec<String> {
        examples().into_iter().map(|design| link::encode(&normalised(design))).collect()
    }

    fn beside(state: &State) -> Vec<&str> {
        parts(state.beside())
    }

    /// The first example with the other two beside it.
    fn three() -> Rc<State> {
        let [_, b, c] = <[String; 3]>::try_from(fragments()).expect("three examples");
        after(&opened("", ""), [b, c].map(|fragment| Action::Beside(Beside::Put(fragment))))
    }

    #[test]
    fn a_copy_stays_as_it_is_while_the_present_design_changes() {
        let start = opened("", "");
        let copy = start.fragment().to_string();
        let state = after(&start, [Action::Beside(Beside::Put(copy.clone())), Action::Slide(Field::SourceLevel, 100.0)]);
        assert_eq!(beside(&state), [copy.as_str()]);
        assert_ne!(**state.fragment(), *copy);
        assert_eq!(after(&state, [Action::Undo]).design(), start.design(), "that it was set beside is no step of the design");
    }

    #[test]
    fn a_swap_is_one_step_back_and_one_forth() {
        let state = three();
        let [a, b, c] = <[String; 3]>::try_from(fragments()).expect("three examples");
        let swapped = after(&state, [Action::Beside(Beside::Swap(1))]);
        assert_eq!((&**swapped.fragment(), beside(&swapped)), (&*c, vec![&*b, &*a]));
        let back = after(&swapped, [Action::Undo]);
        assert_eq!((&**back.fragment(), beside(&back)), (&*a, vec![&*b, &*c]));
        let forth = after(&back, [Action::Redo]);
        assert_eq!((&**forth.fragment(), beside(&forth)), (&*c, vec![&*b, &*a]));
        // What was changed after it is undone first; across a reload it is still a swap.
        let changed = after(&forth, [Action::Slide(Field::SourceLevel, 80.0)]);
        let resumed = opened(changed.fragment(), &changed.session());
        assert_eq!(beside(&resumed), beside(&changed));
        let back = after(&resumed, [Action::Undo, Action::Undo]);
        assert_eq!((&**back.fragment(), beside(&back)), (&*a, vec![&*b, &*c]));
    }

    #[test]
    fn the_way_back_from_a_swap_loses_no_copy_and_brings_none_back_that_was_taken_away() {
        let a = fragments().swap_remove(0);
        let c = fragments().swap_remove(2);
        let put = |fragment: &String| Action::Beside(Beside::Put(fragment.clone()));
        let copied = after(&opened("", ""), [put(&a), put(&c), Action::Beside(Beside::Swap(1))]);
        assert_eq!(beside(&copied), [&a, &a]);
        assert_eq!(beside(&after(&copied, [Action::Undo])), [&a, &c]);
        let taken = after(&copied, [Action::Beside(Beside::TakeAway(0)), Action::Beside(Beside::TakeAway(0)), Action::Undo]);
        assert!(beside(&taken).is_empty());
        assert_eq!(**taken.fragment(), *a);
    }

    #[test]
    fn what_was_taken_away_can_be_put_back_to_its_place() {
        let state = three();
        let [a, b, c] = <[String; 3]>::try_from(fragments()).expect("three examples");
        let what = |what: Beside| Action::Beside(what);
        assert_eq!(beside(&after(&state, [what(Beside::PutBack)])), [&b, &c], "nothing was taken away");
        let taken = after(&state, [what(Beside::TakeAway(0))]);
        assert_eq!((beside(&taken), taken.taken_away()), (vec![&*c], Some(&(0, b.clone()))));
        let back = after(&taken, [what(Beside::PutBack)]);
        assert_eq!((beside(&back), back.taken_away()), (vec![&*b, &*c], None));
        assert_eq!(beside(&after(&back, [what(Beside::PutBack)])), [&b, &c], "once is enough");
        // A change of places keeps it; another design beside, or another comparison, comes in its place.
        let swapped = after(&taken, [what(Beside::Swap(0)), what(Beside::PutBack)]);
        assert_eq!((&**swapped.fragment(), beside(&swapped)), (&*c, vec![&*b, &*a]));
        for other in [Beside::Put(a), Beside::Show(c)] {
            assert_eq!(after(&taken, [what(other)]).taken_away(), None);
        }
    }

    #[test]
    fn what_cannot_be_is_left_undone() {
        let state = three();
        for what in [Beside::Swap(2), Beside::Swap(7), Beside::TakeAway(2)] {
            let same = after(&state, [Action::Beside(what.clone())]);
            assert_eq!((beside(&same), same.design()), (beside(&state), state.design()), "{what:?}");
        }
        let full = after(&state, [Action::Beside(Beside::Put("v1.x.y".to_owned()))]);
        assert_eq!(beside(&full).len(), MOST_BESIDE);
        assert_eq!(beside(&after(&full, [Action::Beside(Beside::Put("v1.z.z".to_owned()))])), beside(&full));
        // One that cannot be opened stays where it is told, and is taken away like any other.
        let same = after(&full, [Action::Beside(Beside::Swap(2))]);
        assert_eq!((beside(&same), same.design()), (beside(&full), full.design()));
        assert_eq!(beside(&after(&full, [Action::Beside(Beside::TakeAway(2))])), beside(&state));
    }

    #[test]
    fn a_link_with_more_than_have_room_says_how_many_were_left_out() {
        let mut state = State::resumed("", "", Units::Metric, estimator());
        state.show_beside(&["v1.a.b"; 6].join("/"));
        assert_eq!((beside(&state).len(), state.left_out()), (MOST_BESIDE, 3));
        let state = after(&Rc::new(state), [Action::Beside(Beside::TakeAway(0))]);
        assert_eq!((beside(&state).len(), state.left_out()), (MOST_BESIDE - 1, 0));
    }
}
