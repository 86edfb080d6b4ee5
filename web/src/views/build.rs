//! The view for whoever builds it: sizes, boards from the inside out, the notes, what it weighs and costs, what to be careful with.

use std::rc::Rc;

use hushwright::buildup::raw::NameOr;
use hushwright::design::limits;
use web_sys::HtmlTextAreaElement;
use yew::prelude::*;

use super::explainer::why;
use super::section::Section;
use crate::explanations::{Told, of_result};
use crate::fields::Shell;
use crate::leaf;
use crate::quantity::decimal;
use crate::readings::cautions;
use crate::state::{Action, State};

/// The view.
pub fn build(state: &State, emit: &Callback<Action>) -> Html {
    html! {
        <div class="build" id="view-build">
            <Section design={Rc::clone(state.design())} report={Rc::clone(state.report())} units={state.units()} measured=true
                emit={emit.clone()} />
            <div class="sheets">
                { sizes(state, emit) }
                { notes(state, emit) }
                { boards(state, Shell::Inner) }
                { boards(state, Shell::Outer) }
                { bill(state, emit) }
                <section aria-labelledby="build-cautions">
                    <h2 id="build-cautions">{ "Take care" }</h2>
                    <ul class="cautions">
                        { for cautions(state.design(), state.report(), state.units()).into_iter().map(|text| html! { <li>{ text }</li> }) }
                    </ul>
                </section>
            </div>
        </div>
    }
}

/// Inside and outside of the boxes, and what the whole weighs.
fn sizes(state: &State, emit: &Callback<Action>) -> Html {
    let (report, units) = (state.report(), state.units());
    let two = state.design().outer.is_some();
    let rows = [
        (if two { "Inner box, inside" } else { "Inside" }, Some(report.inside_m)),
        ("Inner box, outside", two.then_some(report.inner_outside_m)),
        (if two { "Outer box, outside" } else { "Outside" }, Some(report.outside_m)),
    ];
    let row = |(name, size): (&str, Option<[f64; 3]>)| {
        size.map(|size| html! { <tr><th scope="row">{ name }</th><td>{ units.size(size) }</td></tr> })
    };
    html! {
        <section aria-labelledby="build-sizes">
            <h2 id="build-sizes">{ "Sizes" }<small>{ format!("length × width × height, {}", units.length_unit()) }</small>
                { why(emit, of_result(Told::OutsideSize)) }</h2>
            <table>
                <tbody>{ for rows.into_iter().filter_map(row) }
                    <tr><th scope="row">{ "Mass of the whole, empty" }</th><td>{ units.mass(report.bill.mass_kg) }</td></tr></tbody>
            </table>
        </section>
    }
}

/// The boards of a shell and how each is joined to the one inside it.
fn boards(state: &State, shell: Shell) -> Html {
    let (layers, units) = (shell.layers(state.design()), state.units());
    if layers.is_empty() {
        return html! {};
    }
    let two = state.design().outer.is_some();
    let title = match shell {
        Shell::Inner if two => "Inner box, from the inside out",
        Shell::Inner => "Box, from the inside out",
        Shell::Outer => "Outer box, from the inside out",
    };
    let boards = layers.iter().map(|layer| {
        if let (Some(_), Some(mm)) = (&layer.sheet, layer.thickness_mm) {
            html! { <li><b>{ leaf::sheet_name(layer) }</b>{ format!(" {} {}", units.thickness(mm), units.length_unit()) }</li> }
        } else {
            let joint = match &layer.bond {
                Some(NameOr::Name(key)) => {
                    leaf::BONDS.iter().find(|(own, _)| own == key).map_or(key.as_str(), |(_, words)| words)
                }
                _ => "own bond",
            };
            html! { <li class="bond">{ joint }</li> }
        }
    });
    let key = if shell == Shell::Inner { "build-inner" } else { "build-outer" };
    html! {
        <section aria-labelledby={key}><h2 id={key}>{ title }</h2><ol class="boards">{ for boards }</ol></section>
    }
}

/// The notes that go with the design.
fn notes(state: &State, emit: &Callback<Action>) -> Html {
    let refusal = state.refusal("notes").map(str::to_owned);
    let oninput = emit.reform(|event: InputEvent| Action::Annotate(event.target_unchecked_into::<HtmlTextAreaElement>().value()));
    let onblur = emit.reform(|_: FocusEvent| Action::Settle);
    html! {
        <section aria-labelledby="notes-title">
            <h2 id="notes-title"><label for="notes">{ "Notes for whoever builds it" }</label></h2>
            <textarea id="notes" rows="5" maxlength={limits::NOTES_CHARACTERS.to_string()} value={state.design().notes.clone()}
                aria-invalid={refusal.is_some().then_some("true")}
                aria-describedby={if refusal.is_some() { "notes-error notes-hint" } else { "notes-hint" }} {oninput} {onblur} />
            <p class="hint" id="notes-hint">{ format!("They go with the link, up to {} characters.", limits::NOTES_CHARACTERS) }</p>
            if let Some(refusal) = refusal { <p class="refusal" id="notes-error" role="alert">{ refusal }</p> }
        </section>
    }
}

/// Area, mass and cost by part.
fn bill(state: &State, emit: &Callback<Action>) -> Html {
    let (bill, units) = (&state.report().bill, state.units());
    let lines = bill.lines.iter().map(|line| {
        html! {
            <tr>
                <th scope="row">{ line.name.replace("m3", "m³") }</th>
                <td>{ units.area(line.area_m2) }</td>
                <td>{ units.mass(line.mass_kg) }</td>
                <td>{ line.cost.map_or_else(|| "no price".to_owned(), |cost| decimal(cost, 0)) }</td>
            </tr>
        }
    });
    html! {
        <section aria-labelledby="bill-title">
            <h2 id="bill-title">{ "Material and its cost" }{ why(emit, of_result(Told::Cost)) }</h2>
            <div class="scroll" tabindex="0" role="region" aria-label="Table of material"><table class="bill">
                <thead><tr><th scope="col">{ "Part" }</th><th scope="col">{ "Area" }</th><th scope="col">{ "Mass" }</th><th scope="col">{ "Cost" }</th></tr></thead>
                <tbody>{ for lines }
                    <tr class="sum"><th scope="row">{ "All" }</th><td /><td>{ units.mass(bill.mass_kg) }</td>
                        <td>{ decimal(bill.cost, 0) }</td></tr></tbody>
            </table></div>
            <p class="hint">{ "Prices are invented, without a currency, and without waste." }</p>
        </section>
    }
}
