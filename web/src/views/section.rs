//! The section on the page: the drawing, what it says of the part that is pointed at, the way to that part's inputs and back.

use std::rc::Rc;

use gloo::utils::document;
use hushwright::design::Design;
use hushwright::evaluate::Report;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, XmlSerializer};
use yew::prelude::*;

use super::drawing::{Drawing, Pointed, Reactions, Spot};
use super::explainer::why;
use super::focus;
use crate::components::use_size;
use crate::download;
use crate::estimator::explanation;
use crate::explanations::{Told, of_result};
use crate::quantity::Units;
use crate::state::Action;

/// The colours of the drawing on paper, and its rules.
const COLOURS: &str = include_str!("../../style/section_paper.css");
const RULES: &str = include_str!("../../style/section.css");

/// Properties of [`Section`].
#[derive(Clone, PartialEq, Properties)]
pub struct SectionProps {
    /// The design.
    pub design: Rc<Design>,
    /// What it does.
    pub report: Rc<Report>,
    /// Units shown.
    pub units: Units,
    /// The band whose shares the arrows show; none: of all that is heard.
    #[prop_or_default]
    pub band: Option<usize>,
    /// Whether sizes are written to the drawing from the beginning.
    #[prop_or_default]
    pub measured: bool,
    /// Where actions go.
    pub emit: Callback<Action>,
}

/// The section of the box.
#[component]
pub fn Section(props: &SectionProps) -> Html {
    let SectionProps { design, report, units, band, measured, emit } = props;
    let id = if *measured { "build-section" } else { "section" };
    let frame = use_node_ref();
    let size = use_size(&frame, true);
    let chosen = use_state_eq(|| None::<Spot>);
    let with_dimensions = use_state_eq(|| *measured);
    // Where the person went from here, to come back to.
    let left_for = use_state_eq(|| None::<Spot>);
    let failure = use_state_eq(|| None::<String>);
    let drawing = Drawing::new(design, report, *units, *band);
    let pointed = drawing.pointed();
    let place = (*chosen).and_then(|spot| pointed.iter().position(|own| own.spot == spot));
    let go = {
        let (chosen, left_for) = (chosen.setter(), left_for.setter());
        Callback::from(move |spot: Spot| {
            chosen.set(Some(spot));
            match spot {
                Spot::Part(part) => {
                    left_for.set(Some(spot));
                    focus(&part.input());
                }
                Spot::Way(_) => focus("ways-out"),
            }
        })
    };
    let on = Reactions {
        on_point: {
            let chosen = chosen.setter();
            Callback::from(move |spot| chosen.set(Some(spot)))
        },
        on_go: go.clone(),
    };
    let onkeydown = {
        let (chosen, spots) = (chosen.setter(), pointed.iter().map(|own| own.spot).collect::<Vec<_>>());
        let go = go.clone();
        Callback::from(move |event: KeyboardEvent| {
            let last = spots.len().saturating_sub(1);
            let next = match (event.key().as_str(), place) {
                ("ArrowRight" | "ArrowDown", Some(place)) => Some((place + 1).min(last)),
                ("ArrowLeft" | "ArrowUp", Some(place)) => Some(place.saturating_sub(1)),
                ("ArrowRight" | "ArrowDown" | "ArrowLeft" | "ArrowUp" | "Home", _) => Some(0),
                ("End", _) => Some(last),
                ("Enter" | " ", Some(place)) => {
                    event.prevent_default();
                    go.emit(spots[place]);
                    return;
                }
                ("Escape", _) => None,
                _ => return,
            };
            event.prevent_default();
            chosen.set(next.map(|next| spots[next]));
        })
    };
    let onpointerleave = {
        let chosen = chosen.setter();
        Callback::from(move |_: PointerEvent| chosen.set(None))
    };
    let back = {
        let (left_for, id) = (left_for.setter(), format!("{id}-paper"));
        Callback::from(move |()| {
            left_for.set(None);
            focus(&id);
        })
    };
    let measure = {
        let with_dimensions = with_dimensions.clone();
        Callback::from(move |_: MouseEvent| with_dimensions.set(!*with_dimensions))
    };
    let save = {
        let (frame, name, failure) = (frame.clone(), design.name.clone(), failure.setter());
        Callback::from(move |_: MouseEvent| {
            let saved = svg_text(&frame).ok_or_else(|| "the drawing is not on the page".to_owned()).and_then(|svg| {
                download::save(&download::file_name(&name, "section", "svg"), "image/svg+xml", &svg)
                    .map_err(|error| format!("{error:?}"))
            });
            failure.set(saved.err());
        })
    };
    let active = place.map(|place| format!("{id}-spot-{place}"));
    let svg = size.map(|size| drawing.view(size, *with_dimensions, *chosen, &on));
    let told = match place {
        Some(place) => told(&pointed[place]),
        None => html! {
            <>{ format!("Arrows: the wider, the more of the sound power gets out there ({}; bar: half of it). ", drawing.shares_of()) }
                { "Point at a part, or go through them with the arrow keys." }</>
        },
    };
    html! {
        <section class="cut" aria-labelledby={format!("{id}-title")}>
            <div class="title">
                <h2 id={format!("{id}-title")}>{ "Section" }<small>{ "cut along the length, to scale" }</small></h2>
                { why(emit, of_result(Told::LimitingPath)) }
                <button type="button" class="plain" aria-pressed={with_dimensions.to_string()} onclick={measure}>{ "Dimensions" }</button>
                <button type="button" class="plain" onclick={save}>{ "Save as SVG" }</button>
            </div>
            if let Some(failure) = &*failure {
                <p class="refusal" role="alert">{ format!("The drawing could not be saved: {failure}") }</p>
            }
            <div class="paper" id={format!("{id}-paper")} ref={frame} tabindex="0" role="listbox" aria-label="Parts of the box and ways out of it"
                aria-activedescendant={active} aria-describedby={format!("{id}-desc {id}-told")} {onkeydown} {onpointerleave}>
                { svg }
                { for pointed.iter().enumerate().map(|(at, own)| html! {
                    <span class="unseen" role="option" id={format!("{id}-spot-{at}")} aria-selected={(place == Some(at)).to_string()}>{ &own.name }</span>
                }) }
            </div>
            <p class="unseen" id={format!("{id}-desc")}>{ drawing.described() }</p>
            <p class="told" id={format!("{id}-told")}>{ told }</p>
            if left_for.is_some() && !measured {
                <Back on_back={back} />
            }
        </section>
    }
}

/// What is said of what is pointed at.
fn told(pointed: &Pointed) -> Html {
    let where_to = match pointed.spot {
        Spot::Part(_) => " Enter or a click: to its inputs.",
        Spot::Way(_) => " Enter or a click: to the ways out.",
    };
    let plain = explanation(pointed.topic).map(|explained| explained.plain).unwrap_or_default();
    html! { <><b>{ &pointed.name }</b>{ ". " }{ plain }<span class="where-to">{ where_to }</span></> }
}

/// Properties of [`Back`].
#[derive(Clone, PartialEq, Properties)]
struct BackProps {
    on_back: Callback<()>,
}

/// The way back to the section from the inputs that it led to: a button that stays in sight, or the Escape key.
#[component]
fn Back(props: &BackProps) -> Html {
    use_effect_with(props.on_back.clone(), |on_back| {
        let on_back = on_back.clone();
        let listener = gloo::events::EventListener::new(&document(), "keydown", move |event| {
            let escape = event.dyn_ref::<KeyboardEvent>().is_some_and(|event| event.key() == "Escape");
            // An explanation that is open is closed first.
            let explains = document().query_selector("#explanation:popover-open").is_ok_and(|open| open.is_some());
            if escape && !explains {
                on_back.emit(());
            }
        });
        move || drop(listener)
    });
    html! {
        <button type="button" class="back" onclick={props.on_back.reform(|_: MouseEvent| ())}>{ "Back to the section" }</button>
    }
}

/// The drawing as a file of its own: with its patterns, rules and the colours of paper.
fn svg_text(frame: &NodeRef) -> Option<String> {
    let frame = frame.cast::<HtmlElement>()?;
    let svg = frame.query_selector("svg").ok()??;
    let patterns = document().query_selector(".patterns > defs").ok()??;
    let (width, height) = (frame.client_width(), frame.client_height());
    // What a browser writes of a page's element is HTML; a file has to be XML.
    let serializer = XmlSerializer::new().ok()?;
    let text = |element: &Element| serializer.serialize_to_string(element).ok();
    Some(format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" viewBox=\"0 0 {width} {height}\" \
         font-family=\"sans-serif\" font-size=\"12\"><style>{COLOURS}{RULES}</style>{}{}</svg>",
        text(&patterns)?,
        text(&svg)?
    ))
}
