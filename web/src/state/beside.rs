//! What happens to the designs that stand beside the present one in a comparison.
//!
//! They are fragments of links and nothing else: what they do is worked out where it is shown, and one that cannot be opened stays until
//! it is taken away.

use std::rc::Rc;

use super::{Kept, State, normalised};

/// Most designs beside the present one.
pub const MOST_BESIDE: usize = 3;

/// Longest fragment of one of them in characters: with four of these an address still goes through mail programs and chats.
pub const LONGEST_BESIDE: usize = 2000;

/// What can happen to them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Beside {
    /// These and no others stand there: an address has said so.
    Show(Vec<String>),
    /// One more, by the fragment of its link.
    Put(String),
    /// The one at this place is taken away.
    TakeAway(usize),
    /// The one at this place and the present design change places.
    Swap(usize),
}

impl State {
    /// Fragments of the designs that stand beside the present one.
    pub fn beside(&self) -> &[Rc<str>] {
        &self.beside.0
    }

    /// How many more the link had than can stand beside it.
    pub const fn left_out(&self) -> usize {
        self.beside.1
    }

    /// Sets these beside the present design, as many as have room.
    pub fn show_beside<'a>(&mut self, fragments: impl Iterator<Item = &'a str>) {
        let mut fragments: Vec<Rc<str>> = fragments.map(Rc::from).collect();
        let left_out = fragments.len().saturating_sub(MOST_BESIDE);
        fragments.truncate(MOST_BESIDE);
        self.beside = (fragments, left_out);
    }

    pub(super) fn set_beside(&mut self, what: Beside) {
        match what {
            Beside::Show(fragments) => return self.show_beside(fragments.iter().map(String::as_str)),
            Beside::Put(fragment) => {
                if self.beside.0.len() < MOST_BESIDE && self.has_room_for(&fragment) {
                    self.beside.0.push(fragment.into());
                }
            }
            Beside::TakeAway(place) => {
                if place < self.beside.0.len() {
                    self.beside.0.remove(place);
                }
            }
            Beside::Swap(place) => self.swap(place),
        }
        self.beside.1 = 0;
    }

    /// Whether a link is short enough to stand beside another; says why not.
    fn has_room_for(&mut self, fragment: &str) -> bool {
        let fits = fragment.len() <= LONGEST_BESIDE;
        self.refusal = (!fits).then(|| {
            let message = format!(
                "The link of this design has {} characters; allowed are at most {LONGEST_BESIDE} beside another, so that the \
                 link of all can be sent. Its notes take the most.",
                fragment.len()
            );
            ("beside".to_owned(), message)
        });
        fits
    }

    /// The design at `place` becomes the present one, which takes its place; one step, which can be undone.
    fn swap(&mut self, place: usize) {
        let present = Rc::clone(self.fragment());
        let Some(design) = self.beside.0.get(place).and_then(|fragment| self.estimator.open(fragment).ok()) else { return };
        let design = normalised(design);
        if design == **self.design() || !self.has_room_for(&present) {
            return;
        }
        self.open(design);
        self.history.amend(|kept| kept.came_from = Some(place));
        // Its own link may say the same in other words.
        self.beside.0[place] = Rc::clone(&present);
        self.notice = None;
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
        let beside = &mut self.beside.0;
        let is_there = beside.get(place) == Some(&now);
        let place = if is_there { Some(place) } else { beside.iter().position(|fragment| *fragment == now) };
        if let Some(place) = place {
            beside[place] = Rc::clone(&before.fragment);
        }
    }
}
