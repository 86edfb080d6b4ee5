//! The layers of one shell: sheets from the inside out, each with its thickness, a joint between each two.

use hushwright::material;
use yew::prelude::*;

use super::explainer::why;
use super::row::row_of;
use super::sheet_numbers::sheet_numbers;
use super::stack::{Drawn, Stack};
use crate::charts::cut::Hatch;
use crate::components::SelectField;
use crate::explanations::of_choice;
use crate::fields::{Field, Shell, id_of};
use crate::leaf;
use crate::quantity::Quantity;
use crate::state::{Action, Choice, State};

/// The sheets and joints of a shell: drawn as they lie, and a row for each.
pub fn layers(state: &State, emit: &Callback<Action>, shell: Shell) -> Html {
    let layers = shell.layers(state.design());
    let base = id_of(shell.path());
    let refusal = state.refusal(shell.path()).map(str::to_owned);
    let units = state.units();
    let of = |k: usize| {
        let layer = &layers[2 * k];
        let thickness_mm = layer.thickness_mm.unwrap_or_default();
        Drawn {
            name: leaf::sheet_name(layer),
            thickness_mm,
            words: format!("{} {}", units.thickness(thickness_mm), units.length_unit()),
            hatch: Hatch::of_sheet(layer),
        }
    };
    let count = leaf::sheets(layers);
    let bonds: Vec<String> = layers.iter().skip(1).step_by(2).map(|bond| leaf::key_of(bond).to_owned()).collect();
    let row = |k: usize| [material_of(state, emit, shell, k), numbers_of(state, emit, shell, k), joint(state, emit, shell, k)];
    let rows: Vec<[Html; 3]> = (0..count).map(row).collect();
    html! {
        <div class="layers" role="group" aria-label="Layers, from the inside out">
            <Stack {shell} sheets={(0..count).map(of).collect::<Vec<_>>()} {bonds} kept={shell.kept(state.design())} {rows}
                emit={emit.clone()} />
            if let Some(refusal) = refusal {
                <p class="refusal" role="alert" id={format!("{base}-error")}>{ refusal }</p>
            }
        </div>
    }
}

/// What sheet `k` is made of.
fn material_of(state: &State, emit: &Callback<Action>, shell: Shell, k: usize) -> Html {
    let layer = &shell.layers(state.design())[2 * k];
    let mut options: Vec<(AttrValue, AttrValue)> =
        material::sheets().iter().map(|sheet| (sheet.key.into(), sheet.name.into())).collect();
    options.push((leaf::OWN.into(), "Own material, by numbers".into()));
    let key = leaf::key_of(layer);
    let value = if key.is_empty() { leaf::OWN } else { key }.to_owned();
    html! {
        <>
            <SelectField id={format!("{}-{}-sheet", id_of(shell.path()), 2 * k)} label={format!("Sheet {}", k + 1)} label_unseen=true
                {options} {value} on_choose={emit.reform(move |key| Action::Choose(Choice::Sheet(shell, k), key))} />
            { why(emit, of_choice(Choice::Sheet(shell, k))) }
        </>
    }
}

/// The numbers of sheet `k`.
fn numbers_of(state: &State, emit: &Callback<Action>, shell: Shell, k: usize) -> Html {
    html! {
        <>
            { row_of(state, emit, Field::SheetThickness(shell, k), format!("sheet {}", k + 1)) }
            if let Some(stock) = leaf::stock_instead(&shell.layers(state.design())[2 * k]) {
                <p class="hint">
                    { "No stock size; shops keep " }
                    { stock.iter().map(|mm| Quantity::Thickness.write(*mm, state.units())).collect::<Vec<_>>().join(", ") }
                    { " " }{ state.units().length_unit() }{ "." }
                </p>
            }
            { sheet_numbers(state, emit, shell, k) }
        </>
    }
}

/// The joint outside sheet `k`, if there is one.
fn joint(state: &State, emit: &Callback<Action>, shell: Shell, k: usize) -> Html {
    let Some(bond) = shell.layers(state.design()).get(2 * k + 1) else { return html! {} };
    let key = leaf::key_of(bond).to_owned();
    let mut options: Vec<(AttrValue, AttrValue)> =
        leaf::BONDS.iter().map(|(key, words)| ((*key).into(), (*words).into())).collect();
    if key.is_empty() {
        options.insert(0, ("".into(), "own bond, by numbers".into()));
    }
    html! {
        <div class="joint">
            <SelectField id={format!("{}-{}-bond", id_of(shell.path()), 2 * k + 1)} label={format!("Joint {}", k + 1)} {options}
                value={key} why={why(emit, of_choice(Choice::Bond(shell, k)))}
                on_choose={emit.reform(move |key| Action::Choose(Choice::Bond(shell, k), key))} />
        </div>
    }
}
