//! The schedule of differences: a column for each design, first what they do, then where their inputs are not the same.

use hushwright::design::Design;
use hushwright::evaluate::Report;
use yew::prelude::*;

use super::compare::Opened;
use super::differences::{Kind, Place, Row};
use super::explainer::why;
use super::focus_soon;
use super::hatches::fill;
use super::outcomes::{LETTERS, LINES, Standing};
use crate::charts::cut::Hatch;
use crate::fields::Shell;
use crate::state::{Action, Beside};

/// What all parts of the schedule are made from.
pub struct Sheet<'a> {
    /// All designs, the present one first; `None` for one that cannot be opened.
    pub standings: &'a [Option<Standing>],
    /// Those beside the present one, or why they cannot be opened.
    pub others: &'a [Opened],
    /// Where actions go.
    pub emit: &'a Callback<Action>,
}

impl Sheet<'_> {
    /// A table of these rows with a head of letters.
    pub fn table(&self, title: &'static str, rows: Html) -> Html {
        let letter = |letter: &'static str| html! { <th scope="col">{ letter }</th> };
        html! {
            <div class="scroll" tabindex="0" role="region" aria-label={title}>
                <table class="schedule">
                    <thead><tr><td />{ for LETTERS.into_iter().take(self.standings.len()).map(letter) }</tr></thead>
                    { rows }
                </table>
            </div>
        }
    }

    /// What stands over the column of design `k`.
    fn head(&self, k: usize) -> Html {
        let own = self.standings[k].as_ref();
        let name = own.map_or("", |own| own.design.name.trim());
        let name = if name.is_empty() { "Design without a name" } else { name };
        let (_, width, dash) = LINES[k];
        let dash = dash.map(|(dash, gap)| format!("{dash} {gap}"));
        let twin = own.and_then(|own| {
            self.standings[..k].iter().position(|other| other.as_ref().is_some_and(|other| other.design == own.design))
        });
        let note = match (k, twin, k.checked_sub(1).and_then(|k| self.others[k].as_ref().err())) {
            (_, _, Some(message)) => html! { <p class="refusal">{ message }</p> },
            (0, ..) => html! { <p class="note">{ "the design at hand" }</p> },
            (_, Some(twin), _) => html! { <p class="note">{ "the same as " }{ LETTERS[twin] }</p> },
            _ => html! {},
        };
        let button = |id: &str, words: &'static str, what: fn(usize) -> Beside, focus: Option<&'static str>| {
            let emit = self.emit.clone();
            let onclick = Callback::from(move |_: MouseEvent| {
                emit.emit(Action::Beside(what(k - 1)));
                if let Some(focus) = focus {
                    focus_soon(focus.to_owned());
                }
            });
            html! { <button type="button" id={format!("compare-{id}-{}", LETTERS[k].to_ascii_lowercase())} {onclick}>{ words }<span class="unseen">{ " " }{ LETTERS[k] }{ ", " }{ name }</span></button> }
        };
        html! {
            <th scope="col">
                <span class="tag"><b class="letter">{ LETTERS[k] }</b>
                    <svg class={format!("sample {}", LETTERS[k])} viewBox="0 0 48 6" aria-hidden="true">
                        <path d="M0 3H48" stroke-width={width.to_string()} stroke-dasharray={dash} />
                    </svg></span>
                if own.is_some() { <b class="called">{ name }</b> } else { <b class="called">{ "Cannot be opened" }</b> }
                { note }
                if k > 0 {
                    <span class="buttons">
                        if own.is_some() && twin != Some(0) { { button("open", "Open", Beside::Swap, None) } }
                        { button("remove", "Remove", Beside::TakeAway, Some("compare-freeze")) }
                    </span>
                }
            </th>
        }
    }
}

/// The schedule: a column for each design.
pub fn schedule(sheet: &Sheet, outcomes: &[Row], inputs: &[Place]) -> Html {
    let count = sheet.standings.len();
    let is_alone = count < 2;
    let is_alike = !inputs.iter().flat_map(|place| &place.rows).any(|(kind, _)| *kind == Kind::Differs);
    let head = |words: &'static str| html! { <tr class="heading"><th scope="rowgroup" colspan={(count + 1).to_string()}>{ words }</th></tr> };
    html! {
        <div class="scroll" tabindex="0" role="region" aria-label="Schedule of differences">
            <table class="schedule whole">
                <caption class="unseen">{ "What the designs do and where their inputs differ; differences are those to A" }</caption>
                <thead><tr><td>{ "△ differs from A" }</td>{ for (0..count).map(|k| sheet.head(k)) }</tr></thead>
                <tbody>
                    <tr class="sketches"><th scope="row">{ "Cut lengthwise, one scale" }</th>{ for sketches(sheet.standings) }</tr>
                    { for outcomes.iter().map(|row| line(row, sheet)) }
                </tbody>
                if !is_alone {
                    <tbody>
                        { head(if is_alike { "No input that they have in common differs" } else { "Inputs that differ" }) }
                    </tbody>
                    { places(inputs, Kind::Differs, sheet) }
                }
            </table>
        </div>
    }
}

/// The rows of a kind under their places on the way of the sound.
pub fn places(inputs: &[Place], kind: Kind, sheet: &Sheet) -> Html {
    let place = |place: &Place| {
        let rows: Vec<Html> = place.rows.iter().filter(|(own, _)| *own == kind).map(|(_, row)| line(row, sheet)).collect();
        if rows.is_empty() {
            return html! {};
        }
        html! {
            <tbody>
                <tr class="place"><th scope="rowgroup" colspan={(sheet.standings.len() + 1).to_string()}>{ place.title }</th></tr>
                { for rows }
            </tbody>
        }
    };
    inputs.iter().map(place).collect()
}

/// A row: what is another than in the first design has a mark, and by how much where that can be counted.
fn line(row: &Row, sheet: &Sheet) -> Html {
    let cell = |cell: &super::differences::Cell| {
        let text = if cell.text.is_empty() { "\u{2013}" } else { &cell.text };
        html! {
            <td class={cell.change.is_some().then_some("differs")}>
                { text }
                if let Some(change) = &cell.change {
                    if change.is_empty() { <span class="unseen">{ " (differs from A)" }</span> } else { <span class="change">{ change }</span> }
                }
            </td>
        }
    };
    html! {
        <tr>
            <th scope="row">{ &row.label }if let Some(topic) = row.topic { { why(sheet.emit, topic) } }</th>
            { for row.cells.iter().map(cell) }
        </tr>
    }
}

/// Width and height of a sketch in px.
const PAPER: [f64; 2] = [150.0, 96.0];

/// The boxes cut open lengthwise, all to one scale, on one floor.
fn sketches(standings: &[Option<Standing>]) -> Vec<Html> {
    let largest = |axis: usize| standings.iter().flatten().map(|own| own.report.outside_m[axis]).fold(0.1, f64::max);
    let scale = ((PAPER[0] - 4.0) / largest(0)).min((PAPER[1] - 4.0) / largest(2));
    let sketch = |own: &Option<Standing>| {
        let own = own.as_ref().map(|own| boxes(&own.design, &own.report, scale));
        html! {
            <td>if let Some(own) = own {
                <svg class="sketch" viewBox={format!("0 0 {} {}", PAPER[0], PAPER[1])} aria-hidden="true">
                    { own }<path d={format!("M0 {y}H{}", PAPER[0], y = PAPER[1] - 1.0)} />
                </svg>
            }</td>
        }
    };
    standings.iter().map(sketch).collect()
}

/// The boards of the boxes as rectangles one in the other, hatched by the outermost sheet of each.
fn boxes(design: &Design, report: &Report, scale: f64) -> Html {
    let hatch = |shell: Shell| {
        let sheet = shell.layers(design).iter().rev().find(|layer| layer.sheet.is_some());
        sheet.map_or_else(|| "none".to_owned(), |layer| fill(Hatch::of_sheet(layer), shell == Shell::Outer))
    };
    let middle = [0.5 * PAPER[0], PAPER[1] - 1.0 - 0.5 * scale * report.outside_m[2]];
    let rect = |[length_m, _, height_m]: [f64; 3], fill: Option<String>| {
        let (width, height) = (scale * length_m, scale * height_m);
        let at = |place: f64| format!("{place:.1}");
        html! { <rect x={at(middle[0] - 0.5 * width)} y={at(middle[1] - 0.5 * height)} width={at(width)} height={at(height)} {fill} /> }
    };
    let gap_m = 2.0 * design.gap.depth_mm / 1000.0;
    html! {
        <>
            if design.outer.is_some() {
                { rect(report.outside_m, Some(hatch(Shell::Outer))) }
                { rect(report.inner_outside_m.map(|side| side + gap_m), None) }
            }
            { rect(report.inner_outside_m, Some(hatch(Shell::Inner))) }
            { rect(report.inside_m, None) }
        </>
    }
}
