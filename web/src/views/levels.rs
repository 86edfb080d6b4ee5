//! The levels: one chart with a line for each station, below it what the box brings, and both in numbers.

use std::rc::Rc;

use hushwright::bands::{BAND_COUNT, NOMINAL_HZ, Spectrum};
use hushwright::design::{Design, ListenerPart};
use hushwright::evaluate::{ListenerReport, Report};
use hushwright::need::CriterionKind;
use web_sys::HtmlDetailsElement;
use yew::prelude::*;

use super::exports::Exports;
use super::shares::Shares;
use crate::charts::lines::{Judged, LevelRange, Line, LineChart};
use crate::charts::palette::LineInk;
use crate::components::LineChartView;
use crate::level_table::{Column, columns, shown};
use crate::need_readings::listener_name;
use crate::quantity::whole;
use crate::readings::{frequency, resonance_in_the_gap, what_is_left};
use crate::sureness::BandRange;

fn line(name: &'static str, db: Spectrum, ink: LineInk, width: f64, dash: Option<(f64, f64)>) -> Line {
    let short = match name {
        "level difference" => "diff.",
        "insertion loss" => "loss",
        "background" => "backgr.",
        name => name,
    };
    Line { name, short, db, first_band: 0, ink, width, dash }
}

/// Name of the line that the answer is about, and that has a range.
fn answered(report: &Report) -> &'static str {
    if report.governing.is_some() { "listener" } else { "room" }
}

/// The chart of the stations; with the range of the last of them, where it is known.
pub fn stations_chart(report: &Report, range: Option<&BandRange>) -> LineChart {
    let stations = &report.stations;
    let mut lines = vec![
        line("source", stations.source.level_db, LineInk::Black, 1.25, Some((6.0, 4.0))),
        line("inside", stations.inside.level_db, LineInk::Vermilion, 1.5, None),
    ];
    if let Some(gap) = &stations.gap {
        lines.push(line("gap", gap.level_db, LineInk::Green, 1.5, Some((8.0, 3.0))));
    }
    lines.push(line("outside", stations.outside.level_db, LineInk::Blue, 1.75, Some((3.0, 2.5))));
    let mut judged = None;
    if let Some(heard) = report.decisive() {
        lines.push(line("room", stations.room.level_db, LineInk::Blue, 1.75, None));
        lines.push(Line {
            first_band: heard.judgement.first_band,
            ..line("limit", heard.judgement.limit_db, LineInk::Purple, 2.0, Some((10.0, 4.0)))
        });
        lines.push(line("background", heard.background_db, LineInk::Quiet, 1.25, Some((1.5, 3.0))));
        lines.push(line("listener", heard.level.level_db, LineInk::Black, 2.75, None));
        let of_octave_db = by_octaves(heard.criterion).then_some(heard.judgement.margin_by_band_db);
        judged = Some(Judged { level: "listener", limit: "limit", of_octave_db });
    } else {
        lines.push(line("room", stations.room.level_db, LineInk::Black, 2.75, None));
    }
    let range = range.map(|range| LevelRange { of: answered(report), low_db: range.low_db, high_db: range.high_db });
    // From where to where the estimate is weak.
    let weak_hz = Some((report.network_below_hz, 2.0 * report.network_below_hz));
    LineChart { lines, floor_db: 0.0, weak_hz, range, judged }
}

/// Whether a criterion judges octaves.
pub const fn by_octaves(criterion: CriterionKind) -> bool {
    matches!(criterion, CriterionKind::Nr | CriterionKind::Nc)
}

/// The chart of what the box brings.
pub fn loss_lines(report: &Report) -> LineChart {
    let mut lines = vec![
        line("level difference", report.level_difference_db, LineInk::Vermilion, 1.5, Some((6.0, 4.0))),
        line("insertion loss", report.insertion_loss_db, LineInk::Blue, 2.25, None),
    ];
    if let Some(heard) = report.decisive() {
        lines.push(line("needed", heard.judgement.required_db, LineInk::Purple, 2.0, Some((10.0, 4.0))));
    }
    LineChart { lines, floor_db: -20.0, ..LineChart::default() }
}

/// All numbers of both charts.
pub fn level_columns(report: &Report, range: Option<&BandRange>) -> Vec<Column> {
    columns(&stations_chart(report, range), &loss_lines(report), answered(report), report)
}

/// What the shading, the hatching and the limit of the chart of stations are.
pub fn caption(report: &Report, has_range: bool) -> String {
    let place = if report.governing.is_some() { "at the listener" } else { "in the room" };
    let range = if has_range { format!("Shaded: 8 of 10 cases {place}. ") } else { String::new() };
    let limit = match report.decisive() {
        Some(heard) if heard.judgement.dba.is_some() => " The limit is that of each band alone.",
        Some(heard) if by_octaves(heard.criterion) => " The limit of an octave is shared by its thirds.",
        _ => "",
    };
    format!("{range}Hatched: weak estimate.{limit}")
}

/// The band under the cursor that both charts share, and where its moves go.
#[derive(Clone, PartialEq)]
pub struct Cursor {
    /// The band, if the cursor is there.
    pub band: Option<usize>,
    /// The cursor was moved or taken away.
    pub on_move: Callback<Option<usize>>,
}

/// Properties of [`Levels`].
#[derive(Clone, PartialEq, Properties)]
pub struct LevelsProps {
    /// Who listens.
    pub design: Rc<Design>,
    /// What is shown.
    pub report: Rc<Report>,
    /// Within what its last station lies, as far as that is known.
    pub range: Option<BandRange>,
    /// The cursor.
    pub cursor: Cursor,
}

/// The chart of the stations, what is left to hear, and all numbers as a table.
#[component]
pub fn Levels(props: &LevelsProps) -> Html {
    let LevelsProps { design, report, range, cursor } = props;
    let table_open = use_state_eq(|| false);
    let ontoggle = {
        let table_open = table_open.setter();
        Callback::from(move |event: Event| table_open.set(event.target_unchecked_into::<HtmlDetailsElement>().open()))
    };
    let edges = use_state_eq(|| None);
    let on_edges = use_callback(edges.setter(), |of_plot: (f64, f64), edges| edges.set(Some(of_plot)));
    let chart = stations_chart(report, range.as_ref());
    let has_range = chart.range.is_some();
    html! {
        <section class="levels" aria-labelledby="levels-title">
            <h2 id="levels-title">{ "Levels" }<small>{ "one-third octaves, source to listener" }</small></h2>
            <LineChartView id="chart" label="Levels by frequency; arrow keys read one band after the other" {chart}
                caption={caption(report, has_range)} cursor={cursor.band} on_cursor={cursor.on_move.clone()} {on_edges} />
            <Shares report={Rc::clone(report)} cursor={cursor.clone()} edges={*edges} />
            <p class="finding">
                { what_is_left(report) }
                if let Some(resonance) = resonance_in_the_gap(report) { { " " }{ resonance } }
            </p>
            <div class="take-away">
            <details class="numbers" {ontoggle}>
                <summary>{ "The same in numbers" }</summary>
                if *table_open {
                    { table(&level_columns(report, range.as_ref()), TABLE, ". From low to high: 8 of 10 cases") }
                    { for design.listeners.iter().zip(&report.listeners).map(|(part, heard)| needs(part, heard)) }
                }
            </details>
            <Exports design={Rc::clone(design)} report={Rc::clone(report)} range={range.clone().filter(|range| !range.is_carried_over)} />
            </div>
        </section>
    }
}

/// The chart of what the box brings and what a meter reads.
pub fn losses_chart(report: &Report, cursor: &Cursor) -> Html {
    html! {
        <div class="losses">
            <LineChartView id="chart-loss" label="Insertion loss and level difference by frequency" chart={loss_lines(report)}
                caption="The box brings its insertion loss; a meter inside and outside reads the level difference."
                cursor={cursor.band} on_cursor={cursor.on_move.clone()} />
        </div>
    }
}

/// Band by band what a listener hears and may hear, what is left, and what a box has to bring.
fn needs(part: &ListenerPart, heard: &ListenerReport) -> Html {
    let judged = &heard.judgement;
    let limited = |spectrum: &Spectrum, band: usize| (band >= judged.first_band).then(|| spectrum[band]);
    let row = |band: usize| {
        let cells = [
            Some(heard.bare.level_db[band]),
            Some(heard.level.level_db[band]),
            limited(&judged.limit_db, band),
            Some(heard.background_db[band]),
            limited(&judged.margin_by_band_db, band),
            limited(&judged.required_db, band),
            heard.reduction_db.map(|reduction| reduction[band]),
        ];
        let cell = |db: Option<f64>| html! { <td>{ db.map_or_else(|| "–".to_owned(), whole) }</td> };
        html! { <tr><th scope="row">{ frequency(NOMINAL_HZ[band]) }</th>{ for cells.into_iter().map(cell) }</tr> }
    };
    let heads = ["no box", "level", "limit", "background", "margin", "needed", "R′"];
    let name = format!("{}, dB", listener_name(part));
    let note = match part.criterion {
        CriterionKind::Dba | CriterionKind::Who => ". Limit of each band alone; needed so that all together meet it",
        CriterionKind::Nr | CriterionKind::Nc => ". Margin and needed of the octave",
        CriterionKind::Inaudible => "",
    };
    html! {
        <div class="scroll" tabindex="0" role="region" aria-label={name.clone()}>
            <table>
                <caption>{ name.clone() }<small>{ note }</small></caption>
                <thead><tr><th scope="col">{ "Band" }</th>{ for heads.map(|head| html! { <th scope="col">{ head }</th> }) }</tr></thead>
                <tbody>{ for (0..BAND_COUNT).map(row) }</tbody>
            </table>
        </div>
    }
}

/// What the table of both charts holds.
const TABLE: &str = "Levels and losses, dB; shares of the ways out, %";

/// Numbers by band under a title, with a note.
pub fn table(columns: &[Column], title: &'static str, note: &'static str) -> Html {
    let head = |column: &Column| {
        let unit = if column.unit == "%" { " %" } else { "" };
        html! { <th scope="col">{ &column.name }{ unit }</th> }
    };
    let row = |band: usize| {
        html! {
            <tr>
                <th scope="row">{ frequency(NOMINAL_HZ[band]) }</th>
                { for columns.iter().map(|column| html! { <td>{ shown(column.values[band]) }</td> }) }
            </tr>
        }
    };
    html! {
        <div class="scroll" tabindex="0" role="region" aria-label={title}>
            <table>
                <caption>{ title }<small>{ note }</small></caption>
                <thead><tr><th scope="col">{ "Band" }</th>{ for columns.iter().map(head) }</tr></thead>
                <tbody>{ for (0..BAND_COUNT).map(row) }</tbody>
            </table>
        </div>
    }
}
