//! What the page does with what can happen.

mod documents;
mod numbers;
mod own;
mod parts;
mod sheets;

use super::*;
use crate::model::Core;

/// The core itself, without an engine between.
fn estimator() -> Estimator {
    Estimator::new(Core::default())
}

fn start() -> Rc<State> {
    Rc::new(State::new("", Units::Metric, estimator()))
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

fn bands(list: BandList, text: &str) -> Action {
    Action::TypeBands(list, text.to_owned())
}
