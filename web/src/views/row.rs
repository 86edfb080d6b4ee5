//! One number of the design as a row: from the state to the component and back as actions.

use std::rc::Rc;

use yew::prelude::*;

use crate::components::{NumberField, Slider};
use crate::fields::Field;
use crate::state::{Action, State};

/// Properties of [`Row`].
#[derive(Clone, PartialEq, Properties)]
pub struct RowProps {
    /// The state.
    pub state: Rc<State>,
    /// Where actions go.
    pub emit: Callback<Action>,
    /// The field.
    pub field: Field,
    /// Its name where the label alone does not say which one it is.
    #[prop_or_default]
    pub full_label: Option<AttrValue>,
}

/// A number of the design with its slider; nothing where the design has no such number.
#[component]
pub fn Row(props: &RowProps) -> Html {
    let RowProps { state, emit, field, full_label } = props;
    let field = *field;
    let units = state.units();
    let quantity = field.quantity();
    let Some(value) = field.get(state.design()) else { return html! {} };
    let entry = state.entry(field);
    let text = entry.map_or_else(|| quantity.write(value, units), |entry| entry.text.clone());
    let slider = Slider { range: field.slider(units), value: quantity.to_shown(value, units) };
    html! {
        <NumberField id={field.id()} label={field.label()} full_label={full_label.clone()} unit={quantity.unit(units)} {text}
            refusal={entry.and_then(|entry| entry.refusal.clone()).map(AttrValue::from)} {slider}
            on_type={emit.reform(move |text| Action::Type(field, text))}
            on_slide={emit.reform(move |shown| Action::Slide(field, shown))}
            on_settle={emit.reform(|()| Action::Settle)} />
    }
}
