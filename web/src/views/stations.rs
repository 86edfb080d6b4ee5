//! The inputs of each station, and one line that says what they amount to.

use hushwright::design::Design;
use hushwright::material;
use hushwright::need::SourceSpectrum;
use yew::prelude::*;

use super::layers::layers;
use super::row::row;
use crate::choices::{self, ROOMS, SIDES};
use crate::components::SelectField;
use crate::fields::{Field, Shell};
use crate::leaf;
use crate::quantity::{Units, decimal};
use crate::readings::room_gives_back;
use crate::state::{Action, Choice, NONE, State};

type Options = Vec<(AttrValue, AttrValue)>;

type Emit = Callback<Action>;

fn choose(emit: &Emit, choice: Choice) -> Callback<String> {
    emit.reform(move |key| Action::Choose(choice, key))
}

fn fill_options(without: &'static str) -> Options {
    let materials = material::fills().iter().map(|fill| (fill.key.clone().into(), porous_name(&fill.key).into()));
    std::iter::once((NONE.into(), without.into())).chain(materials).collect()
}

fn porous_name(key: &str) -> String {
    material::fill(key).map_or_else(|| key.to_owned(), |fill| fill.name.replace("m3", "m³"))
}

/// What the source is.
pub fn source_gist(design: &Design) -> String {
    design.source.spectrum.label().to_owned()
}

/// Inputs of the source.
pub fn source(state: &State, emit: &Emit) -> Html {
    let options = SourceSpectrum::ALL.map(|spectrum| (spectrum.key().into(), spectrum.label().into())).to_vec();
    html! {
        <>
            <SelectField id="source-spectrum" label="Spectrum" {options} value={state.design().source.spectrum.key()}
                on_choose={choose(emit, Choice::Spectrum)} />
            { row(state, emit, Field::SourceLevel) }
        </>
    }
}

fn shell_gist(layers: &[hushwright::buildup::raw::Layer], units: Units) -> String {
    let sheets = layers.iter().filter(|layer| layer.sheet.is_some());
    let list: Vec<String> = sheets
        .map(|layer| format!("{} {}", leaf::sheet_name(layer), units.thickness(layer.thickness_mm.unwrap_or_default())))
        .collect();
    list.join(" + ")
}

/// What the inner box is.
pub fn inner_gist(design: &Design, units: Units) -> String {
    let lining = match &design.inner.lining {
        Some(lining) => format!("lining {} {}", units.thickness(lining.thickness_mm), units.length_unit()),
        None => "no lining".to_owned(),
    };
    format!("{} {}, {lining}", shell_gist(&design.inner.layers, units), units.length_unit())
}

/// Inputs of the inner box.
pub fn inner(state: &State, emit: &Emit) -> Html {
    let lining = state.design().inner.lining.as_ref().map_or(NONE.to_owned(), |lining| lining.material.clone());
    html! {
        <>
            { row(state, emit, Field::InsideLength) }
            { row(state, emit, Field::InsideWidth) }
            { row(state, emit, Field::InsideHeight) }
            <SelectField id="inner-lining-material" label="Lining" options={fill_options("no lining")} value={lining}
                on_choose={choose(emit, Choice::Lining)} />
            { row(state, emit, Field::LiningThickness) }
            { layers(state, emit, Shell::Inner) }
        </>
    }
}

/// What the gap is.
pub fn gap_gist(design: &Design, units: Units) -> String {
    if design.outer.is_none() {
        return "no outer box, no gap".to_owned();
    }
    let depth = format!("{} {}", units.thickness(design.gap.depth_mm), units.length_unit());
    match &design.gap.fill {
        Some(fill) => format!("{depth}, {} % filled", decimal(100.0 * fill.share, 0)),
        None => format!("{depth}, empty"),
    }
}

/// Inputs of the gap.
pub fn gap(state: &State, emit: &Emit) -> Html {
    let design = state.design();
    if design.outer.is_none() {
        return html! { <p class="hint">{ "A gap lies between two boxes. Choose an outer box to have one." }</p> };
    }
    let fill = design.gap.fill.as_ref();
    let material = fill.map_or(NONE.to_owned(), |fill| fill.material.clone());
    let sides = SIDES.map(|(_, key, words)| (key.into(), words.into())).to_vec();
    html! {
        <>
            { row(state, emit, Field::GapDepth) }
            <SelectField id="gap-fill-material" label="Fill" options={fill_options("empty")} value={material}
                on_choose={choose(emit, Choice::Fill)} />
            { row(state, emit, Field::FillShare) }
            if let Some(fill) = fill {
                <SelectField id="gap-fill-side" label="Fill lies" options={sides} value={choices::side_key(fill.side)}
                    on_choose={choose(emit, Choice::FillSide)} />
            }
        </>
    }
}

/// What the outer box is.
pub fn outer_gist(design: &Design, units: Units) -> String {
    match &design.outer {
        Some(shell) => format!("{} {}", shell_gist(&shell.layers, units), units.length_unit()),
        None => "none".to_owned(),
    }
}

/// Inputs of the outer box.
pub fn outer(state: &State, emit: &Emit) -> Html {
    let there = state.design().outer.is_some();
    let options = vec![(NONE.into(), "none: one box only".into()), ("box".into(), "a box round the box".into())];
    html! {
        <>
            <SelectField id="outer" label="Outer box" {options} value={if there { "box" } else { NONE }}
                on_choose={choose(emit, Choice::Outer)} />
            if there {
                { layers(state, emit, Shell::Outer) }
            }
        </>
    }
}

/// What the room is.
pub fn room_gist(design: &Design, units: Units) -> String {
    let room = &design.room;
    format!("{}, {} from the box", units.area(room.floor_area_m2), units.distance(room.distance_m))
}

/// Inputs of the room.
pub fn room(state: &State, emit: &Emit) -> Html {
    let absorption = state.design().room.absorption;
    let known = choices::room(absorption);
    let mut options: Options = ROOMS.iter().map(|(_, words)| ((*words).into(), (*words).into())).collect();
    if known.is_none() {
        options.push((NONE.into(), "own value".into()));
    }
    let preset = emit.reform(|words: String| {
        let value = ROOMS.iter().find(|(_, own)| *own == words).map_or(f64::NAN, |(value, _)| *value);
        // A coefficient reads the same in either system of units.
        Action::Slide(Field::RoomAbsorption, value)
    });
    html! {
        <>
            { row(state, emit, Field::RoomFloorArea) }
            { row(state, emit, Field::RoomHeight) }
            <SelectField id="room-absorption-preset" label="Kind of room" {options} value={known.unwrap_or(NONE)} on_choose={preset} />
            { row(state, emit, Field::RoomAbsorption) }
            { row(state, emit, Field::RoomDistance) }
            if let Some(hint) = room_gives_back(state.report(), state.units()) { <p class="hint">{ hint }</p> }
        </>
    }
}
