//! The numbers of a sheet whose material is a person's own, each with a line on how one finds it.

use hushwright::buildup::raw::{NameOr, SheetNumbers};
use yew::prelude::*;

use super::row::row_of;
use crate::components::SelectField;
use crate::estimator::explanation;
use crate::explanations::of_material_number;
use crate::fields::{Field, MaterialNumber, Shell, id_of};
use crate::leaf;
use crate::state::{Action, Choice, State};

/// What sheet `k` of `shell` has of them; nothing for a material of the catalogue.
pub fn sheet_numbers(state: &State, emit: &Callback<Action>, shell: Shell, k: usize) -> Html {
    let sheet = shell.layers(state.design()).get(2 * k).and_then(|layer| layer.sheet.as_ref());
    let Some(NameOr::Numbers(numbers)) = sheet else { return html! {} };
    let part = format!("sheet {}", k + 1);
    let number = |number: &MaterialNumber| {
        let field = Field::SheetNumber(shell, k, *number);
        let is_shear = *number == MaterialNumber::ShearModulus;
        html! {
            <>
                if is_shear { { shear(numbers, emit, shell, k) } }
                { row_of(state, emit, field, part.clone()) }
                <p class="hint">{ explanation(of_material_number(*number)).map(|explained| explained.plain).unwrap_or_default() }</p>
            </>
        }
    };
    html! {
        <div class="own-material">
            { for MaterialNumber::ALL.iter().map(number) }
        </div>
    }
}

fn shear(numbers: &SheetNumbers, emit: &Callback<Action>, shell: Shell, k: usize) -> Html {
    let options: Vec<(AttrValue, AttrValue)> = leaf::SHEAR.iter().map(|(key, words)| ((*key).into(), (*words).into())).collect();
    let value = options[usize::from(numbers.shear_modulus.is_some())].0.clone();
    html! {
        <SelectField id={format!("{}-{}-shear", id_of(shell.path()), 2 * k)} label="Shear modulus is" part={format!("sheet {}", k + 1)}
            {options} {value} on_choose={emit.reform(move |key| Action::Choose(Choice::Shear(shell, k), key))} />
    }
}
