//! The layers of one shell: sheets from the inside out, each with its thickness, a joint between each two.

use hushwright::buildup::check::MOST_SHEETS;
use hushwright::material;
use yew::prelude::*;

use super::focus_soon;
use super::row::row_of;
use crate::components::SelectField;
use crate::fields::{Field, Shell, id_of};
use crate::leaf;
use crate::quantity::Quantity;
use crate::state::{Action, Choice, State};

/// The list of sheets and joints of a shell, and a button for one more.
pub fn layers(state: &State, emit: &Callback<Action>, shell: Shell) -> Html {
    let count = leaf::sheets(shell.layers(state.design()));
    let base = id_of(shell.path());
    let refusal = state.refusal(shell.path()).map(str::to_owned);
    let full = count >= MOST_SHEETS;
    let add = emit.reform(move |_: MouseEvent| Action::AddSheet(shell));
    html! {
        <div class="layers" role="group" aria-labelledby={format!("{base}-title")}>
            <p class="hint" id={format!("{base}-title")}>{ "From the inside out" }</p>
            <ol>{ for (0..count).map(|k| sheet(state, emit, shell, k)) }</ol>
            <button type="button" class="add" id={format!("{base}-add")} onclick={add} disabled={full}
                aria-describedby={full.then(|| format!("{base}-full"))}>{ "Add a sheet outside" }</button>
            if full {
                <p class="hint" id={format!("{base}-full")}>{ format!("{MOST_SHEETS} sheets are the most in one box.") }</p>
            }
            if let Some(refusal) = refusal {
                <p class="refusal" role="alert" id={format!("{base}-error")}>{ refusal }</p>
            }
        </div>
    }
}

fn sheet(state: &State, emit: &Callback<Action>, shell: Shell, k: usize) -> Html {
    let layers = shell.layers(state.design());
    let count = leaf::sheets(layers);
    let id = |part: &str| format!("{}-{}-{part}", id_of(shell.path()), 2 * k);
    let number = k + 1;
    let mut options: Vec<(AttrValue, AttrValue)> =
        material::sheets().iter().map(|sheet| (sheet.key.into(), sheet.name.into())).collect();
    let key = leaf::key_of(&layers[2 * k]).to_owned();
    if key.is_empty() {
        options.insert(0, ("".into(), "Own material, by numbers".into()));
    }
    let swap = |from: usize, to: usize| {
        let emit = emit.clone();
        Callback::from(move |_: MouseEvent| {
            emit.emit(Action::SwapSheets(shell, from.min(to)));
            // The focus goes with the sheet; at either end to the button that leads back.
            let direction = if to == 0 || (to > from && to + 1 < count) { "outwards" } else { "inwards" };
            focus_soon(format!("{}-{}-{direction}", id_of(shell.path()), 2 * to));
        })
    };
    let remove = {
        let emit = emit.clone();
        Callback::from(move |_: MouseEvent| {
            emit.emit(Action::RemoveSheet(shell, k));
            focus_soon(format!("{}-add", id_of(shell.path())));
        })
    };
    html! {
        <li key={k}>
            <div class="sheet">
                <SelectField id={id("sheet")} label={format!("Sheet {number}")} label_unseen=true {options} value={key}
                    on_choose={emit.reform(move |key| Action::Choose(Choice::Sheet(shell, k), key))} />
                <button type="button" id={id("inwards")} disabled={k == 0} aria-label={format!("Move sheet {number} in, towards the source")}
                    title="inwards" onclick={swap(k, k.saturating_sub(1))}><><span aria-hidden="true">{ "↑" }</span>{ " in" }</></button>
                <button type="button" id={id("outwards")} disabled={number == count} title="outwards"
                    aria-label={format!("Move sheet {number} out, towards the room")} onclick={swap(k, k + 1)}><><span aria-hidden="true">{ "↓" }</span>{ " out" }</></button>
                <button type="button" id={id("remove")} disabled={count == 1} title="remove"
                    aria-label={format!("Remove sheet {number}")} onclick={remove}>{ "×" }</button>
                { row_of(state, emit, Field::SheetThickness(shell, k), format!("sheet {number}")) }
                if let Some(stock) = leaf::stock_instead(&layers[2 * k]) {
                    <p class="hint">
                        { "No stock size; shops keep " }
                        { stock.iter().map(|mm| Quantity::Thickness.write(*mm, state.units())).collect::<Vec<_>>().join(", ") }
                        { " " }{ state.units().length_unit() }{ "." }
                    </p>
                }
            </div>
            if number < count { { joint(state, emit, shell, k) } }
        </li>
    }
}

fn joint(state: &State, emit: &Callback<Action>, shell: Shell, k: usize) -> Html {
    let key = leaf::key_of(&shell.layers(state.design())[2 * k + 1]).to_owned();
    let mut options: Vec<(AttrValue, AttrValue)> =
        leaf::BONDS.iter().map(|(key, words)| ((*key).into(), (*words).into())).collect();
    if key.is_empty() {
        options.insert(0, ("".into(), "own bond, by numbers".into()));
    }
    html! {
        <div class="joint">
            <SelectField id={format!("{}-{}-bond", id_of(shell.path()), 2 * k + 1)} label={format!("Joint {}", k + 1)} {options}
                value={key} on_choose={emit.reform(move |key| Action::Choose(Choice::Bond(shell, k), key))} />
        </div>
    }
}
