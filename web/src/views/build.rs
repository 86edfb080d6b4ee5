//! The view for whoever builds it: inputs of the workshop, the drawing, notes and cautions, and the documents of the plan.

use std::rc::Rc;

use gloo::events::EventListener;
use gloo::utils::{document, window};
use hushwright::design::limits;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlInputElement, HtmlSelectElement, HtmlTextAreaElement};
use yew::prelude::*;

use super::bench::BENCH;
use super::planned::Plan;
use super::section::Section;
use super::staircase::inputs;
use crate::components::MarkedUp;
use crate::documents::{self, Planned};
use crate::download;
use crate::planner::{self, Question};
use crate::readings::cautions;
use crate::state::{Action, State, Text};

/// The view.
pub fn build(state: &UseReducerHandle<State>, plan: &Plan, emit: &Callback<Action>, idle: u32) -> Html {
    let print_all = Callback::from(|_: MouseEvent| print(None));
    html! {
        <div class="build" id="view-build">
            <div class="bench">
                <p class="buttons"><button type="button" id="print-build" onclick={print_all}>{ "Print the build sheet" }</button></p>
                <Section design={Rc::clone(state.design())} report={Rc::clone(state.report())} units={state.units()} measured=true
                    emit={emit.clone()} />
                <section class="workshop-inputs" aria-labelledby="bench-title">
                    <h2 id="bench-title">{ "For the workshop" }</h2>
                    { inputs(&BENCH, state, emit, idle) }
                    { fit_inside(state, plan, emit) }
                    { currency(state, emit) }
                </section>
                { notes(state, emit) }
                <section aria-labelledby="build-cautions">
                    <h2 id="build-cautions">{ "Take care" }</h2>
                    <ul class="cautions">
                        { for cautions(state.design(), state.report(), state.units()).into_iter().map(|text| html! { <li>{ text }</li> }) }
                    </ul>
                </section>
            </div>
            { sheets(state, plan, emit) }
        </div>
    }
}

/// The documents.
fn sheets(state: &State, plan: &Plan, emit: &Callback<Action>) -> Html {
    let Some((_, planned)) = plan.latest.as_ref().filter(|(_, planned)| !planned.sections.is_empty()) else {
        let text = if plan.is_missing {
            "The workshop could not be loaded. Check the connection and load the page again; the design is kept."
        } else {
            "Working out boards, sheets and prices …"
        };
        return html! { <div class="documents" id="documents"><p role="status">{ text }</p></div> };
    };
    let onchange = {
        let emit = emit.clone();
        Callback::from(move |event: Event| {
            let Some(target) = event.target().and_then(|target| target.dyn_into::<Element>().ok()) else { return };
            let Some(key) = target.get_attribute("data-own") else { return };
            let text = match target.dyn_ref::<HtmlSelectElement>() {
                Some(select) => select.value(),
                None => target.unchecked_into::<HtmlInputElement>().value(),
            };
            emit.emit(Action::TypeOwn(key, text));
        })
    };
    let onclick = {
        let (planned, design, units) = (Rc::clone(planned), Rc::clone(state.design()), state.units());
        Callback::from(move |event: MouseEvent| {
            let Some(button) = event.target().and_then(|target| target.dyn_into::<Element>().ok()) else { return };
            if let Some(id) = button.get_attribute("data-print") {
                print(Some(&id));
            } else if let Some(what) = button.get_attribute("data-save") {
                save(&what, &planned, &design.name, || Question::new(&design, units, Vec::new(), false));
            }
        })
    };
    let section = |section: &documents::Section| {
        html! {
            <section key={section.id.clone()} id={section.id.clone()} aria-labelledby={format!("{}-title", section.id)}>
                <h2 id={format!("{}-title", section.id)} tabindex="-1">{ &section.title }</h2>
                <MarkedUp body={section.body.clone()} />
            </section>
        }
    };
    let jump = |section: &documents::Section| {
        let title = format!("{}-title", section.id);
        html! { <li><button type="button" class="plain" onclick={move |_: MouseEvent| super::focus(&title)}>{ &section.title }</button></li> }
    };
    html! {
        <div class="documents" id="documents" {onchange} {onclick}>
            <nav class="contents" aria-label="Documents"><ul>{ for planned.sections.iter().map(jump) }</ul></nav>
            { for planned.sections.iter().map(section) }
        </div>
    }
}

/// Saves the cut list, or a drawing by its number.
fn save(what: &str, planned: &Planned, name: &str, question: impl FnOnce() -> Question) {
    let saved = match what.strip_prefix("sheet-").and_then(|number| number.parse().ok()) {
        Some(number) => planner::sheet_drawing(&question(), number)
            .map(|drawing| download::save(&download::file_name(name, what, "svg"), "image/svg+xml", &drawing)),
        None => Some(download::save(&download::file_name(name, "cut-list", "csv"), "text/csv", &planned.cut_list_csv)),
    };
    if let Some(Err(error)) = saved {
        web_sys::console::error_1(&error);
    }
}

/// Prints the view, or only the element with this id.
fn print(only: Option<&str>) {
    let root = document().document_element();
    let element = only.and_then(|id| document().get_element_by_id(id));
    let mark = |element: Option<&Element>, class: &str, on: bool| {
        if let Some(element) = element {
            // Fails only for names with blanks.
            let _ = if on { element.class_list().add_1(class) } else { element.class_list().remove_1(class) };
        }
    };
    if element.is_some() {
        mark(root.as_ref(), "prints-one", true);
        mark(element.as_ref(), "printed", true);
    }
    // Some browsers print only after this has returned.
    EventListener::once(&window(), "afterprint", move |_| {
        mark(root.as_ref(), "prints-one", false);
        mark(element.as_ref(), "printed", false);
    })
    .forget();
    if let Err(error) = window().print() {
        web_sys::console::error_1(&error);
    }
}

/// A button that makes the inside as large as what stands in it needs, where it is not.
fn fit_inside(state: &State, plan: &Plan, emit: &Callback<Action>) -> Html {
    let inner = &state.design().inner;
    let Some((_, planned)) = &plan.latest else { return html! {} };
    let needed = planned.gist.needed_mm.map(f64::ceil);
    let size = [inner.length_mm, inner.width_mm, inner.height_mm];
    if needed == size {
        return html! {};
    }
    let fit = emit.reform(move |_: MouseEvent| Action::FitInside(needed));
    let units = state.units();
    let text = format!("Make the inside {} {}", units.size(needed.map(|mm| mm / 1000.0)), units.length_unit());
    html! {
        <p class="buttons">
            <button type="button" class="plain" id="fit-inside" onclick={fit}>{ text }</button>{ " " }
            <span class="hint">{ "as what stands in it needs" }</span>
            if let Some(refusal) = state.refusal("inner.length_mm") { <span class="refusal" role="alert">{ refusal.to_owned() }</span> }
        </p>
    }
}

/// What money is called.
fn currency(state: &State, emit: &Callback<Action>) -> Html {
    let oninput =
        emit.reform(|event: InputEvent| Action::Write(Text::Currency, event.target_unchecked_into::<HtmlInputElement>().value()));
    let onblur = emit.reform(|_: FocusEvent| Action::Settle);
    let refusal = state.text_refusal(Text::Currency).map(str::to_owned);
    html! {
        <p class="currency">
            <label for="build-currency">{ "Currency" }</label>
            <input id="build-currency" type="text" autocomplete="off"
                value={state.text(Text::Currency).to_owned()} {oninput} {onblur} aria-invalid={refusal.is_some().then_some("true")} />
            if let Some(refusal) = refusal { <span class="refusal" role="alert">{ refusal }</span> }
        </p>
    }
}

/// The notes that go with the design.
fn notes(state: &State, emit: &Callback<Action>) -> Html {
    let refusal = state.text_refusal(Text::Notes).map(str::to_owned);
    let oninput =
        emit.reform(|event: InputEvent| Action::Write(Text::Notes, event.target_unchecked_into::<HtmlTextAreaElement>().value()));
    let onblur = emit.reform(|_: FocusEvent| Action::Settle);
    html! {
        <section aria-labelledby="notes-title" class={state.design().notes.trim().is_empty().then_some("blank")}>
            <h2 id="notes-title"><label for="notes">{ "Notes for whoever builds it" }</label></h2>
            <textarea id="notes" rows="4" value={state.text(Text::Notes).to_owned()}
                aria-invalid={refusal.is_some().then_some("true")}
                aria-describedby={if refusal.is_some() { "notes-error notes-hint" } else { "notes-hint" }} {oninput} {onblur} />
            <p class="hint" id="notes-hint">{ format!("They go with the link, up to {} characters.", limits::NOTES_CHARACTERS) }</p>
            if let Some(refusal) = refusal { <p class="refusal" id="notes-error" role="alert">{ refusal }</p> }
        </section>
    }
}
