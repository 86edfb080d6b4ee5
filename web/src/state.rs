//! The one reducer: what the page knows, what can happen, and what comes of it.
//!
//! The design in [`State`] has always passed its check. What a field holds that the core refuses stays beside it as
//! typed, with the core's message, and enters the design as soon as the rest of the design lets it.

mod beside;
mod entries;
mod listening;
mod notice;
mod own;
mod refusals;
mod session;
mod texts;

use std::rc::Rc;

use hushwright::buildup::raw::Layer;
use hushwright::design::{Design, ListenerPart, examples};
use hushwright::error::FieldError;
use hushwright::evaluate::Report;
use yew::Reducible;

use crate::band_lists::BandList;
pub use crate::choices::{Choice, NONE};
use crate::estimator::Estimator;
use crate::explanations::Topic;
use crate::fields::{Field, Shell};
use crate::history::History;
use crate::leaf::{self, Edit};
use crate::model::Estimate;
use crate::presets::Preset;
use crate::quantity::Units;

pub use entries::Entry;

pub use texts::Text;

pub use notice::Notice;

pub use beside::{Beside, MOST_BESIDE, parts};

/// What a step in the history is about; changes about the same thing are one step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// A number.
    Number(Field),
    /// A text.
    Text(Text),
    /// A list of band values.
    Bands(BandList),
}

/// A design that has passed its check.
#[derive(Clone, Debug)]
struct Kept {
    design: Rc<Design>,
    /// The fragment of its link.
    fragment: Rc<str>,
    /// The place in the comparison from which it came, if it changed places with the design before it: the way back changes them back.
    came_from: Option<usize>,
}

impl Kept {
    const fn new(design: Rc<Design>, fragment: Rc<str>) -> Self {
        Self { design, fragment, came_from: None }
    }
}

/// Its link says nothing more.
impl PartialEq for Kept {
    fn eq(&self, other: &Self) -> bool {
        self.design == other.design
    }
}

/// Everything that the page knows.
#[derive(Clone, Debug, PartialEq)]
pub struct State {
    history: History<Kept, Step>,
    entries: Vec<(Field, Entry)>,
    lists: Vec<(BandList, Entry)>,
    /// Numbers of one's own that are not in the design.
    own: Vec<(String, Entry)>,
    /// Texts that are not in the design.
    texts: Vec<(Text, Entry)>,
    refusal: Option<(String, String)>,
    report: Rc<Report>,
    /// What the design did before the last step, and how many steps there were.
    before: Option<Rc<Report>>,
    steps: u32,
    estimator: Estimator,
    notice: Option<Notice>,
    explained: Option<Topic>,
    units: Units,
    /// Fragments of the designs that stand beside this one, parted by strokes, and how many more there were in the link.
    beside: (Rc<str>, usize),
    taken_away: Option<(usize, String)>,
}

/// What can happen.
#[derive(Clone, Debug, PartialEq)]
pub enum Action {
    /// Text was typed into a number field.
    Type(Field, String),
    /// A slider was moved; the number is in the unit shown.
    Slide(Field, f64),
    /// An open step is over: a field was left, or a new drag begins.
    Settle,
    /// Nothing was typed for a while: who paused has read the answer, and it is no longer one on the way to another.
    Rest,
    /// Something was chosen by its key.
    Choose(Choice, String),
    /// The sheets of a shell change in order or number.
    Sheets(Shell, Edit),
    /// A text was typed.
    Write(Text, String),
    /// A number of one's own was typed: its key, the text.
    TypeOwn(String, String),
    /// The inside gets length, width and height, in mm.
    FitInside([f64; 3]),
    /// Band values were typed or pasted.
    TypeBands(BandList, String),
    /// One more listener.
    AddListener,
    /// Listener `k` is taken away.
    RemoveListener(usize),
    /// Some numbers are set at once to what is usual.
    Preset(Preset, usize),
    /// A change is made of which it is known what it brings: the changed design, as a link has it.
    Improve(String),
    /// A whole design takes the place of this one.
    Open(Box<Design>),
    /// The fragment of the address has changed.
    Follow(String),
    /// Something happens to the designs that stand beside this one.
    Beside(Beside),
    /// One step back.
    Undo,
    /// One step forward again.
    Redo,
    /// The first example again.
    Reset,
    /// Another system of units.
    SetUnits(Units),
    /// The notice has been read.
    DismissNotice,
    /// Something is to be explained, or nothing any more.
    Explain(Option<Topic>),
}

impl State {
    /// The state of a page opened with `fragment` in its address.
    ///
    /// # Panics
    /// Never: what a link carries has passed its check.
    pub fn new(fragment: &str, units: Units, estimator: Estimator) -> Self {
        let (design, notice) = from_fragment(fragment, &estimator);
        let design = Rc::new(normalised(design));
        let Estimate { fragment, report } =
            estimator.estimate(&design).expect("only what says the same has changed since its check");
        Self {
            history: History::new(Kept::new(design, fragment.into())),
            entries: Vec::new(),
            lists: Vec::new(),
            own: Vec::new(),
            texts: Vec::new(),
            refusal: None,
            report: Rc::new(report),
            before: None,
            steps: 0,
            estimator,
            notice,
            explained: None,
            units,
            beside: ("".into(), 0),
            taken_away: None,
        }
    }

    /// The design; it has passed its check.
    pub const fn design(&self) -> &Rc<Design> {
        &self.history.present().design
    }

    /// The fragment of the link that carries it.
    pub const fn fragment(&self) -> &Rc<str> {
        &self.history.present().fragment
    }

    /// What it does.
    pub const fn report(&self) -> &Rc<Report> {
        &self.report
    }

    /// What the design did before its last step; none before the first one.
    pub const fn before(&self) -> Option<&Rc<Report>> {
        self.before.as_ref()
    }

    /// How many steps there were, those back and forth included.
    pub const fn steps(&self) -> u32 {
        self.steps
    }

    /// Who answers what is asked about designs.
    pub const fn estimator(&self) -> &Estimator {
        &self.estimator
    }

    /// The link that could not be opened.
    pub const fn notice(&self) -> Option<&Notice> {
        self.notice.as_ref()
    }

    /// What is being explained.
    pub const fn explained(&self) -> Option<Topic> {
        self.explained
    }

    /// Units shown.
    pub const fn units(&self) -> Units {
        self.units
    }

    /// Whether there is something to undo, a refused entry included.
    pub fn can_undo(&self) -> bool {
        self.history.can_undo() || self.has_refusals()
    }

    /// Whether there is something to redo.
    pub const fn can_redo(&self) -> bool {
        self.history.can_redo()
    }

    /// Takes `design` if it passes its check, else says what is wrong with it.
    fn take(&mut self, design: &Rc<Design>, step: Option<Step>) -> Result<(), Vec<FieldError>> {
        let Estimate { fragment, report } = self.estimator.estimate(design)?;
        let goes_on = step.is_some() && self.history.is_open(step.as_ref());
        if !goes_on && design != self.design() {
            self.begin_step();
        }
        // What no longer has an effect is no longer on the page, and nothing there could be put right.
        self.entries.retain(|(field, _)| field.shown(design).is_some());
        self.lists.retain(|(list, _)| list.get(design).is_some());
        self.history.set(Kept::new(Rc::clone(design), fragment.into()), step);
        self.report = Rc::new(report);
        self.refusal = None;
        Ok(())
    }

    /// Works out what the present design does.
    fn estimate(&mut self) {
        // All designs of the history have passed their check.
        if let Ok(estimate) = self.estimator.estimate(self.design()) {
            self.report = Rc::new(estimate.report);
        }
    }

    /// From here on the report is compared with what it is now.
    fn begin_step(&mut self) {
        self.before = Some(Rc::clone(&self.report));
        self.steps = self.steps.wrapping_add(1);
    }

    /// Shows the present of the history after a jump in it.
    fn jumped(&mut self) {
        self.entries.clear();
        self.lists.clear();
        self.own.clear();
        self.texts.clear();
        self.refusal = None;
        self.begin_step();
        self.estimate();
    }

    /// Takes back `step` if it is still open.
    fn take_back(&mut self, step: &Step) {
        if self.history.take_back(step) {
            self.estimate();
        }
    }

    /// A change of the document that is one step of its own; `path` is where its refusal would show.
    /// Says whether it was made.
    fn change(&mut self, path: &str, edit: impl FnOnce(&mut Design)) -> bool {
        let mut candidate = (**self.design()).clone();
        edit(&mut candidate);
        self.change_to(path, candidate)
    }

    /// Another document as one step of its own; says whether it passed its check.
    fn change_to(&mut self, path: &str, candidate: Design) -> bool {
        self.history.settle();
        let candidate = Rc::new(candidate);
        if let Err(errors) = self.take(&candidate, None) {
            let message = self.why_refused(&errors, path, &candidate);
            self.refusal = Some((path.to_owned(), message));
            return false;
        }
        self.entries.retain(|(_, entry)| entry.refusal.is_some());
        self.retry();
        true
    }

    /// A change of the sheets of a shell. What was typed goes with its sheet: `place` says where sheet `k` is afterwards.
    fn change_layers(&mut self, shell: Shell, place: &dyn Fn(usize) -> Option<usize>, edit: &dyn Fn(&mut Vec<Layer>)) {
        let before = self.entries.clone();
        for (field, entry) in std::mem::take(&mut self.entries) {
            let moved = match field.sheet() {
                Some((of, k)) if of == shell => place(k).map(|k| field.of_sheet(k)),
                _ => Some(field),
            };
            if let Some(moved) = moved {
                self.keep(moved, entry);
            }
        }
        let made = self.change(shell.path(), |design| {
            if let Some(layers) = shell.layers_mut(design) {
                edit(layers);
            }
        });
        if !made {
            self.entries = before;
        }
    }

    fn choose(&mut self, choice: Choice, key: &str) {
        match choice {
            Choice::Sheet(shell, k) => self.change_layers(shell, &Some, &|layers| leaf::set_material(layers, k, key)),
            Choice::Bond(shell, k) => self.change_layers(shell, &Some, &|layers| leaf::set_bond(layers, k, key)),
            Choice::Shear(shell, k) => {
                self.change_layers(shell, &Some, &|layers| leaf::set_shear(layers, k, key == leaf::SHEAR[1].0));
            }
            _ => {
                let mut candidate = (**self.design()).clone();
                if choice.set(&mut candidate, key) {
                    self.begin_with_what_was_there(choice, &mut candidate);
                    self.hold(choice, &mut candidate);
                    self.change_to(&choice.path(), candidate);
                }
            }
        }
    }

    /// An edit of the order or the number of sheets; one that cannot be leaves them as they are.
    fn edit_sheets(&mut self, shell: Shell, edit: Edit) {
        let count = leaf::sheets(shell.layers(self.design()));
        if edit.is_possible(count, shell.kept(self.design())) {
            self.change_layers(shell, &|k| edit.place(k, count), &|layers| edit.apply(layers));
        }
    }

    fn open(&mut self, design: Design) {
        self.history.settle();
        if self.take(&Rc::new(normalised(design)), None).is_ok() {
            // Another design is no step of this one.
            self.before = None;
            self.entries.clear();
            self.lists.clear();
            self.own.clear();
            self.texts.clear();
        }
    }
}

impl Reducible for State {
    type Action = Action;

    fn reduce(self: Rc<Self>, action: Action) -> Rc<Self> {
        let mut state = (*self).clone();
        match action {
            Action::Type(field, text) => {
                state.enter(field, text);
                state.forget_half_typed(field);
            }
            Action::Slide(field, shown) => {
                let value = field.quantity().to_document(shown, state.units);
                let text = field.quantity().write(value, state.units);
                state.enter(field, text);
                state.entries.retain(|(own, entry)| *own != field || entry.refusal.is_some());
            }
            Action::Settle => {
                state.history.settle();
                state.entries.retain(|(_, entry)| entry.refusal.is_some());
                state.lists.retain(|(_, entry)| entry.refusal.is_some());
            }
            Action::Rest => {
                if state.is_typed() {
                    state.history.settle();
                }
            }
            Action::Choose(choice, key) => state.choose(choice, &key),
            Action::Improve(fragment) => {
                // The worker has made it of a design that had passed its check.
                if let Ok(changed) = state.estimator.open(&fragment) {
                    state.change_to("", changed);
                }
            }
            Action::Sheets(shell, edit) => state.edit_sheets(shell, edit),
            Action::Write(text, words) => state.enter_text(text, words),
            Action::TypeOwn(key, text) => state.enter_own(&key, text),
            Action::FitInside(size_mm) => {
                state.change("inner.length_mm", |design| {
                    [design.inner.length_mm, design.inner.width_mm, design.inner.height_mm] = size_mm;
                });
            }
            Action::TypeBands(list, text) => state.enter_bands(list, text),
            Action::AddListener => {
                state.change("listeners", |design| {
                    let name = format!("Listener {}", design.listeners.len() + 1);
                    design.listeners.push(ListenerPart { name, ..ListenerPart::default() });
                });
            }
            Action::RemoveListener(k) => state.remove_listener(k),
            Action::Preset(preset, at) => {
                state.change(preset.path(), |design| preset.set(design, at));
            }
            Action::Open(design) => {
                state.open(*design);
                state.outlive_notice();
            }
            Action::Follow(fragment) => {
                let (design, notice) = from_fragment(&fragment, &state.estimator);
                state.open(design);
                state.notice = notice;
            }
            Action::Beside(what) => state.set_beside(&what),
            Action::Undo => {
                if state.has_refusals() {
                    state.jumped();
                } else if state.step_back() {
                    state.jumped();
                    state.outlive_notice();
                }
            }
            Action::Redo => {
                if state.step_forward() {
                    state.jumped();
                    state.outlive_notice();
                }
            }
            Action::Reset => {
                state.open(Design::default());
                state.outlive_notice();
            }
            Action::SetUnits(units) => state.set_units(units),
            Action::DismissNotice => state.notice = None,
            Action::Explain(what) => state.explained = what,
        }
        Rc::new(state)
    }
}

/// The design that a fragment carries, or the first example and why it is not the link's.
fn from_fragment(fragment: &str, estimator: &Estimator) -> (Design, Option<Notice>) {
    if fragment.trim_start_matches('#').is_empty() {
        return (Design::default(), None);
    }
    match estimator.open(fragment) {
        Ok(design) => (design, None),
        Err(reason) => (Design::default(), Some(Notice::new(fragment, reason))),
    }
}

/// `design` as the page has it: a bond between each two sheets, no minus before a nought.
pub fn normalised(mut design: Design) -> Design {
    for shell in [Shell::Inner, Shell::Outer] {
        if let Some(layers) = shell.layers_mut(&mut design) {
            *layers = leaf::with_every_bond(layers);
        }
    }
    for field in Field::FIXED {
        if let Some(value) = field.get(&design) {
            // No minus before a nought: it would travel on in links.
            field.set(&mut design, value + 0.0);
        }
    }
    design
}

/// The examples by their number on the page.
pub fn example(index: usize) -> Option<Design> {
    examples().into_iter().nth(index)
}

#[cfg(test)]
mod tests;
