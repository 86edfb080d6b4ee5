//! The inputs of each station, and one line that says what they amount to.

use std::rc::Rc;

use hushwright::design::Design;
use hushwright::material;
use hushwright::need::SourceSpectrum;
use yew::prelude::*;

use super::layers::Layers;
use super::row::Row;
use super::staircase::StationProps;
use crate::choices::{self, ROOMS, SIDES};
use crate::components::SelectField;
use crate::fields::{Field, Shell};
use crate::leaf;
use crate::quantity::{Units, decimal};
use crate::state::{Action, Choice, NONE};

type Options = Vec<(AttrValue, AttrValue)>;

fn row(props: &StationProps, field: Field) -> Html {
    html! { <Row state={Rc::clone(&props.state)} emit={props.emit.clone()} {field} /> }
}

fn choose(props: &StationProps, choice: Choice) -> Callback<String> {
    props.emit.reform(move |key| Action::Choose(choice, key))
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
#[component]
pub fn Source(props: &StationProps) -> Html {
    let options = SourceSpectrum::ALL.map(|spectrum| (spectrum.key().into(), spectrum.label().into())).to_vec();
    html! {
        <>
            <SelectField id="source-spectrum" label="Spectrum" {options} value={props.state.design().source.spectrum.key()}
                on_choose={choose(props, Choice::Spectrum)} />
            { row(props, Field::SourceLevel) }
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
        Some(lining) => format!("lining {}", units.thickness(lining.thickness_mm)),
        None => "no lining".to_owned(),
    };
    format!("{}, {lining} {}", shell_gist(&design.inner.layers, units), units.length_unit())
}

/// Inputs of the inner box.
#[component]
pub fn Inner(props: &StationProps) -> Html {
    let lining = props.state.design().inner.lining.as_ref().map_or(NONE.to_owned(), |lining| lining.material.clone());
    html! {
        <>
            { row(props, Field::InsideLength) }
            { row(props, Field::InsideWidth) }
            { row(props, Field::InsideHeight) }
            <SelectField id="inner-lining-material" label="Lining" options={fill_options("no lining")} value={lining}
                on_choose={choose(props, Choice::Lining)} />
            { row(props, Field::LiningThickness) }
            <Layers state={Rc::clone(&props.state)} emit={props.emit.clone()} shell={Shell::Inner} />
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
#[component]
pub fn Gap(props: &StationProps) -> Html {
    let design = props.state.design();
    if design.outer.is_none() {
        return html! { <p class="hint">{ "A gap lies between two boxes. Choose an outer box to have one." }</p> };
    }
    let fill = design.gap.fill.as_ref();
    let material = fill.map_or(NONE.to_owned(), |fill| fill.material.clone());
    let sides = SIDES.map(|(_, key, words)| (key.into(), words.into())).to_vec();
    html! {
        <>
            { row(props, Field::GapDepth) }
            <SelectField id="gap-fill-material" label="Fill" options={fill_options("empty")} value={material}
                on_choose={choose(props, Choice::Fill)} />
            { row(props, Field::FillShare) }
            if let Some(fill) = fill {
                <SelectField id="gap-fill-side" label="Fill lies" options={sides} value={choices::side_key(fill.side)}
                    on_choose={choose(props, Choice::FillSide)} />
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
#[component]
pub fn Outer(props: &StationProps) -> Html {
    let there = props.state.design().outer.is_some();
    let options = vec![(NONE.into(), "none: one box only".into()), ("box".into(), "a box round the box".into())];
    html! {
        <>
            <SelectField id="outer" label="Outer box" {options} value={if there { "box" } else { NONE }}
                on_choose={choose(props, Choice::Outer)} />
            if there {
                <Layers state={Rc::clone(&props.state)} emit={props.emit.clone()} shell={Shell::Outer} />
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
#[component]
pub fn Room(props: &StationProps) -> Html {
    let absorption = props.state.design().room.absorption;
    let known = choices::room(absorption);
    let mut options: Options = ROOMS.iter().map(|(_, words)| ((*words).into(), (*words).into())).collect();
    if known.is_none() {
        options.push((NONE.into(), "own value".into()));
    }
    let preset = props.emit.reform(|words: String| {
        let value = ROOMS.iter().find(|(_, own)| *own == words).map_or(f64::NAN, |(value, _)| *value);
        // A coefficient reads the same in either system of units.
        Action::Slide(Field::RoomAbsorption, value)
    });
    html! {
        <>
            { row(props, Field::RoomFloorArea) }
            { row(props, Field::RoomHeight) }
            <SelectField id="room-absorption-preset" label="It is" {options} value={known.unwrap_or(NONE)} on_choose={preset} />
            { row(props, Field::RoomAbsorption) }
            { row(props, Field::RoomDistance) }
        </>
    }
}
