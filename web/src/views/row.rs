//! One number of the design as a row: from the state to the field and back as actions.

use yew::prelude::*;

use crate::components::{NumberField, Slider};
use crate::fields::Field;
use crate::state::{Action, State};

/// A number of the design with its slider; nothing where the design has no such number.
pub fn row(state: &State, emit: &Callback<Action>, field: Field) -> Html {
    row_named(state, emit, field, None)
}

/// A row whose label alone does not say which number it is.
pub fn row_named(state: &State, emit: &Callback<Action>, field: Field, full_label: Option<String>) -> Html {
    let units = state.units();
    let quantity = field.quantity();
    let Some(value) = field.get(state.design()) else { return html! {} };
    let entry = state.entry(field);
    NumberField {
        id: field.id(),
        label: field.label(units),
        full_label,
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
