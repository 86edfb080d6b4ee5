//! One number or choice of the design as a row: from the state to the field and back as actions.

use yew::prelude::*;

use crate::components::{NumberField, SelectField, Slider};
use crate::fields::{Field, id_of};
use crate::state::{Action, Choice, State};

/// A choice; nothing where it has no effect on the design.
pub fn choice(state: &State, emit: &Callback<Action>, choice: Choice) -> Html {
    let Some(at) = choice.get(state.design()) else { return html! {} };
    let options: Vec<(AttrValue, AttrValue)> =
        choice.options().into_iter().map(|(key, words)| (AttrValue::Static(key), words.into())).collect();
    let value = options.get(at).map(|(key, _)| key.clone()).unwrap_or_default();
    let refusal = state.refusal(choice.path()).map(|refusal| AttrValue::from(refusal.to_owned()));
    html! {
        <SelectField id={id_of(choice.path())} label={choice.label()} part={choice.part()} {options} {value} {refusal}
            on_choose={emit.reform(move |key| Action::Choose(choice, key))} />
    }
}

/// A number of the design with its slider; nothing where the design has no such number.
pub fn row(state: &State, emit: &Callback<Action>, field: Field) -> Html {
    row_of(state, emit, field, field.part().to_owned())
}

/// A row of a number that belongs to `part`.
pub fn row_of(state: &State, emit: &Callback<Action>, field: Field, part: String) -> Html {
    let units = state.units();
    let quantity = field.quantity();
    let Some(value) = field.shown(state.design()) else { return html! {} };
    let entry = state.entry(field);
    NumberField {
        id: field.id(),
        label: field.label(units),
        part,
        unit: quantity.unit(units),
        text: entry.map_or_else(|| quantity.write(value, units), |entry| entry.text.clone()),
        refusal: entry.and_then(|entry| entry.refusal.clone()),
        slider: Slider {
            range: field.slider(units),
            value: quantity.to_shown(value, units),
            words: format!("{} {}", quantity.write(value, units), quantity.unit(units)),
        },
        on_type: emit.reform(move |text| Action::Type(field, text)),
        on_slide: emit.reform(move |shown| Action::Slide(field, shown)),
        on_settle: emit.reform(|()| Action::Settle),
    }
    .view()
}
