//! The front: a plot of what nothing else beats, every point of which can be reached by the keyboard and opened.

use hushwright::design::Design;
use web_sys::HtmlElement;
use yew::prelude::*;

use super::gists::{gap_gist, inner_gist, openings_gist, outer_gist};
use crate::charts::scatter::Axis;
use crate::components::{OUT_OF_FLOW, Size};
use crate::estimator::Engine;
use crate::model::Model;
use crate::quantity::{Quantity, Units, decimal, whole};
use crate::state::Action;
use crate::trade_words::point_words;
use crate::work::{Found, Point};

/// Radii in px of the cheapest and of the dearest point.
const RADII: [f64; 2] = [4.0, 9.0];

/// What a front is drawn with.
pub struct FrontView<'a> {
    /// What was found; with points.
    pub found: &'a Found,
    /// Mass in kg and level in dBA of the design that the search began from.
    pub base: (f64, f64),
    /// Units shown.
    pub units: Units,
    /// Where actions go.
    pub emit: &'a Callback<Action>,
    /// The place of the point that is chosen.
    pub chosen: UseStateHandle<usize>,
    /// The element that holds the plot, and its size once that is known.
    pub frame: (NodeRef, Option<Size>),
}

/// The plot, the point that is chosen, and all of them as a table. No component: it has no state of its own.
pub fn front_view(view: FrontView) -> Html {
    let FrontView { found, base, units, emit, chosen, frame: (frame, size) } = view;
    let points = &found.points;
    let place = (*chosen).min(points.len().saturating_sub(1));
    let choose = |place: usize| {
        let chosen = chosen.clone();
        Callback::from(move |event: MouseEvent| {
            // Choosing by hand leaves the keyboard where it can go on from there.
            if let Some(list) = event.target_dyn_into::<web_sys::Element>().and_then(|mark| mark.closest("#front").ok().flatten())
                && let Ok(list) = wasm_bindgen::JsCast::dyn_into::<HtmlElement>(list)
            {
                let _ = list.focus();
            }
            chosen.set(place);
        })
    };
    let Some(point) = points.get(place) else { return Html::default() };
    let open = {
        let (emit, fragment) = (emit.clone(), point.fragment.clone());
        Callback::from(move |()| emit.emit(Action::Follow(fragment.clone())))
    };
    let onkeydown = {
        let (chosen, open, last) = (chosen.clone(), open.clone(), points.len() - 1);
        Callback::from(move |event: KeyboardEvent| {
            let next = match event.key().as_str() {
                "ArrowRight" | "ArrowDown" => (place + 1).min(last),
                "ArrowLeft" | "ArrowUp" => place.saturating_sub(1),
                "PageDown" => (place + 10).min(last),
                "PageUp" => place.saturating_sub(10),
                "Home" => 0,
                "End" => last,
                "Enter" => {
                    open.emit(());
                    place
                }
                _ => return,
            };
            event.prevent_default();
            chosen.set(next);
        })
    };
    let drawing = size.map(|size| {
        let plot = ScatterPlot::new(points, base, units, size);
        let dot = |(k, point): (usize, &Point)| {
            let (x, y) = plot.at(point.mass_kg, point.level_dba);
            let label = point_words(point, units);
            html! {
                <circle role="option" id={format!("front-{k}")} class={classes!((k == place).then_some("chosen"))}
                    aria-selected={(k == place).to_string()} aria-label={label}
                    cx={format!("{x:.1}")} cy={format!("{y:.1}")} r={format!("{:.1}", plot.radius(point.cost))} onclick={choose(k)} />
            }
        };
        // On top of all: among many dots a colour alone is not found.
        let (x, y) = plot.at(point.mass_kg, point.level_dba);
        let ring = html! {
            <circle class="ring" aria-hidden="true" cx={format!("{x:.1}")} cy={format!("{y:.1}")} r={format!("{:.1}", plot.radius(point.cost) + 4.0)} />
        };
        html! {
            <svg width={size.width.to_string()} height={size.height.to_string()} ~style={OUT_OF_FLOW} role="presentation">
                { plot.axes() }
                { for points.iter().enumerate().map(dot) }
                { ring }
            </svg>
        }
    });
    let row = |(k, point): (usize, &Point)| {
        html! {
            <tr class={classes!((k == place).then_some("chosen"))}>
                <th scope="row">{ whole(point.level_dba) }</th>
                <td>{ point.margin_db.map_or_else(|| "–".to_owned(), whole) }</td>
                <td>{ Quantity::Mass.write(point.mass_kg, units) }</td>
                <td>{ decimal(point.cost, 0) }</td>
                <td>{ units.size(point.outside_m) }</td>
            </tr>
        }
    };
    let length = units.length_unit();
    html! {
        <div class="front">
            <div class="dots" id="front" ref={frame} role="listbox" tabindex="0" aria-label="Boxes that nothing else beats, the lightest first"
                aria-activedescendant={format!("front-{place}")} {onkeydown}>{ drawing }</div>
            <p class="hint">{ "Each dot is a box: lighter to the left, quieter below, larger is dearer. The cross is the design that the search began from. Arrow keys go from one to the next, Enter opens it." }</p>
            <div class="point" id="point">
                <p><b>{ point_words(point, units) }</b></p>
                <p>{ format!("{} {length} outside", units.size(point.outside_m)) }</p>
                { parts(&point.fragment, units) }
                <button type="button" id="open-point" onclick={move |_| open.emit(())}>{ "Open this box" }</button>
            </div>
            <details class="numbers"><summary>{ "The same as a table" }</summary>
                <div class="scroll" tabindex="0" role="region" aria-label="Table of the boxes"><table>
                    <thead><tr><th scope="col">{ "dBA" }</th><th scope="col">{ "margin, dB" }</th><th scope="col">{ Quantity::Mass.unit(units) }</th>
                        <th scope="col">{ "cost" }</th><th scope="col">{ format!("outside, {length}") }</th></tr></thead>
                    <tbody>{ for points.iter().enumerate().map(row) }</tbody>
                </table></div>
            </details>
        </div>
    }
}

/// A part of a design in a few words.
type Gist = fn(&Design, Units) -> String;

/// What a design is made of.
fn parts(fragment: &str, units: Units) -> Html {
    // The worker has made the link; were it not readable, opening it would say why.
    let Ok(design) = Engine.open(fragment) else { return Html::default() };
    let part = |(name, gist): (&str, Gist)| html! { <><dt>{ name }</dt><dd>{ gist(&design, units) }</dd></> };
    let parts: [(&str, Gist); 4] =
        [("Inner box", inner_gist), ("Gap", gap_gist), ("Outer box", outer_gist), ("Lid and holes", openings_gist)];
    html! { <dl>{ for parts.into_iter().map(part) }</dl> }
}

/// Where the points lie in a drawing.
struct ScatterPlot {
    size: Size,
    mass: Axis,
    level: Axis,
    costs: [f64; 2],
    own: (f64, f64),
    units: Units,
}

impl ScatterPlot {
    fn new(points: &[Point], (mass_kg, level_dba): (f64, f64), units: Units, size: Size) -> Self {
        let own = (Quantity::Mass.to_shown(mass_kg, units), level_dba);
        let masses = points.iter().map(|point| Quantity::Mass.to_shown(point.mass_kg, units));
        let costs =
            points.iter().fold([f64::INFINITY, 0.0_f64], |[low, high], point| [low.min(point.cost), high.max(point.cost)]);
        Self {
            size,
            mass: Axis::holding(masses.chain([own.0]), (size.width / (5.0 * size.text)).clamp(2.0, 10.0)),
            level: Axis::holding(points.iter().map(|point| point.level_dba).chain([own.1]), 6.0),
            costs,
            own,
            units,
        }
    }

    /// Left, right, top and bottom of the plot in px.
    fn frame(&self) -> [f64; 4] {
        let Size { width, height, text } = self.size;
        [3.2 * text, width - 1.5 * text, 1.6 * text, height - 2.6 * text]
    }

    fn place(&self, mass: f64, level_dba: f64) -> (f64, f64) {
        let [left, right, top, bottom] = self.frame();
        (left + self.mass.part(mass) * (right - left), bottom + self.level.part(level_dba) * (top - bottom))
    }

    fn at(&self, mass_kg: f64, level_dba: f64) -> (f64, f64) {
        self.place(Quantity::Mass.to_shown(mass_kg, self.units), level_dba)
    }

    fn radius(&self, cost: f64) -> f64 {
        let [low, high] = self.costs;
        let part = if high > low { (cost - low) / (high - low) } else { 0.0 };
        RADII[0] + part * (RADII[1] - RADII[0])
    }

    /// Grid, marks, names of the axes, and the cross of the design that is shown.
    fn axes(&self) -> Html {
        let [left, right, top, bottom] = self.frame();
        let text = self.size.text;
        let level = |mark: f64| {
            let (_, y) = self.place(self.mass.low, mark);
            html! {
                <>
                    <path class="grid" d={format!("M{left:.1} {y:.1}H{right:.1}")} />
                    <text x={format!("{:.1}", left - 0.4 * text)} y={format!("{:.1}", y + 0.35 * text)} text-anchor="end">{ whole(mark) }</text>
                </>
            }
        };
        let mass = |mark: f64| {
            let (x, _) = self.place(mark, self.level.low);
            html! {
                <>
                    <path class="grid" d={format!("M{x:.1} {top:.1}V{bottom:.1}")} />
                    <text x={format!("{x:.1}")} y={format!("{:.1}", bottom + 1.2 * text)} text-anchor="middle">{ decimal(mark, 0) }</text>
                </>
            }
        };
        let (x, y) = self.place(self.own.0, self.own.1);
        html! {
            <g aria-hidden="true">
                { for self.level.marks().map(level) }
                { for self.mass.marks().map(mass) }
                <text x="0" y={format!("{:.1}", 0.9 * text)}>{ "dBA" }</text>
                <text x={format!("{right:.1}")} y={format!("{:.1}", bottom + 2.3 * text)} text-anchor="end">{ format!("mass, {}", Quantity::Mass.unit(self.units)) }</text>
                <path class="own" d={format!("M{:.1} {y:.1}h14M{x:.1} {:.1}v14", x - 7.0, y - 7.0)} />
            </g>
        }
    }
}
