//! Undo and redo as a small type: what was, what is, what was undone.

/// Most steps that are kept.
const LONGEST: usize = 200;

/// A value with its past and its undone future.
///
/// Changes that carry the same tag one after the other are one step, until [`History::settle`]: a drag of a slider is
/// undone as a whole.
#[derive(Clone, Debug, PartialEq)]
pub struct History<T, Tag> {
    past: Vec<T>,
    present: T,
    future: Vec<T>,
    open: Option<Tag>,
}

impl<T: PartialEq, Tag: PartialEq> History<T, Tag> {
    /// A history that begins with `present`.
    pub const fn new(present: T) -> Self {
        Self { past: Vec::new(), present, future: Vec::new(), open: None }
    }

    /// A history as it was left: `past` from its beginning, `future` with what is redone first at its end.
    pub fn resumed(mut past: Vec<T>, present: T, mut future: Vec<T>) -> Self {
        past.drain(..past.len().saturating_sub(LONGEST));
        future.drain(..future.len().saturating_sub(LONGEST));
        Self { past, present, future, open: None }
    }

    /// What was, from its beginning.
    pub fn past(&self) -> &[T] {
        &self.past
    }

    /// What was undone; its end is redone first.
    pub fn future(&self) -> &[T] {
        &self.future
    }

    /// The value as it is.
    pub const fn present(&self) -> &T {
        &self.present
    }

    /// Whether there is something to undo.
    pub const fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Whether there is something to redo.
    pub const fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }

    /// Whether the step with this tag is still open.
    pub fn is_open(&self, tag: Option<&Tag>) -> bool {
        self.open.is_some() && self.open.as_ref() == tag
    }

    /// Takes a new value. With the tag of the step that is still open it goes on with that step.
    pub fn set(&mut self, value: T, tag: Option<Tag>) {
        if value == self.present {
            return;
        }
        let before = std::mem::replace(&mut self.present, value);
        let same_step = self.is_open(tag.as_ref());
        if !same_step {
            self.past.push(before);
            if self.past.len() > LONGEST {
                self.past.remove(0);
            }
        }
        self.future.clear();
        self.open = tag;
    }

    /// Notes something about the present value that is no step.
    pub fn amend(&mut self, note: impl FnOnce(&mut T)) {
        note(&mut self.present);
    }

    /// Takes back the step with this tag if it is still open, as if it had never begun; says whether it was.
    pub fn take_back(&mut self, tag: &Tag) -> bool {
        if self.open.as_ref() != Some(tag) {
            return false;
        }
        self.open = None;
        let Some(before) = self.past.pop() else { return false };
        self.present = before;
        true
    }

    /// Ends the open step.
    pub fn settle(&mut self) {
        self.open = None;
    }

    /// One step back; says whether there was one.
    pub fn undo(&mut self) -> bool {
        self.open = None;
        let Some(before) = self.past.pop() else { return false };
        self.future.push(std::mem::replace(&mut self.present, before));
        true
    }

    /// One step forward again; says whether there was one.
    pub fn redo(&mut self) -> bool {
        self.open = None;
        let Some(after) = self.future.pop() else { return false };
        self.past.push(std::mem::replace(&mut self.present, after));
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drag_is_one_step() {
        let mut history = History::new(0);
        for value in 1..=5 {
            history.set(value, Some("length"));
        }
        assert!(history.undo());
        assert_eq!(*history.present(), 0);
        assert!(!history.undo());
        assert!(history.redo());
        assert_eq!(*history.present(), 5);
        assert!(!history.can_redo());
    }

    #[test]
    fn an_open_step_can_be_taken_back_and_leaves_nothing() {
        let mut history = History::new(0);
        history.set(1, Some("length"));
        history.set(7, Some("width"));
        history.set(8, Some("width"));
        assert!(!history.take_back(&"length"), "that step is over");
        assert!(history.take_back(&"width"));
        assert_eq!(*history.present(), 1);
        assert!(!history.can_redo() && !history.take_back(&"width"));
    }

    #[test]
    fn another_field_or_a_new_drag_is_a_new_step() {
        let mut history = History::new(0);
        history.set(1, Some("length"));
        history.set(2, Some("width"));
        history.set(3, Some("width"));
        history.settle();
        history.set(4, Some("width"));
        let mut seen = Vec::new();
        while history.undo() {
            seen.push(*history.present());
        }
        assert_eq!(seen, [3, 1, 0]);
    }

    #[test]
    fn a_change_forgets_what_was_undone_and_no_change_is_no_step() {
        let mut history = History::<_, ()>::new('a');
        history.set('b', None);
        history.undo();
        history.set('a', None);
        assert!(history.can_redo(), "the same value again is no change");
        history.set('c', None);
        assert!(!history.can_redo());
        history.undo();
        assert_eq!(*history.present(), 'a');
    }

    #[test]
    fn steps_without_a_tag_stay_apart_and_the_past_is_bounded() {
        let mut history = History::<_, ()>::new(0);
        for value in 1..=LONGEST + 50 {
            history.set(value, None);
        }
        let mut steps = 0;
        while history.undo() {
            steps += 1;
        }
        assert_eq!(steps, LONGEST);
        assert_eq!(*history.present(), 50);
    }
}
