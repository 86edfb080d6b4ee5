//! The levels: one chart with a line for each station, below it what the box brings, and both in numbers.

use std::rc::Rc;

use hushwright::bands::{BAND_COUNT, NOMINAL_HZ, Spectrum};
use hushwright::design::{Design, ListenerPart};
use hushwright::evaluate::{ListenerReport, Path, Report};
use hushwright::need::CriterionKind;
use web_sys::HtmlDetailsElement;
use yew::prelude::*;

use super::shares::Shares;
use crate::charts::lines::{Line, LineChart};
use crate::charts::palette::LineInk;
use crate::components::LineChartView;
use crate::need_readings::listener_name;
use crate::paths;
use crate::quantity::whole;
use crate::readings::{frequency, resonance_in_the_gap, what_is_left};

fn line(name: &'static str, db: Spectrum, ink: LineInk, width: f64, dash: Option<(f64, f64)>) -> Line {
    let short = match name {
        "level difference" => "diff.",
        "insertion loss" => "loss",
        "background" => "backgr.",
        name => name,
    };
    Line { name, short, db, first_band: 0, ink, width, dash }
}

/// The chart of the stations.
pub fn stations_chart(report: &Report) -> LineChart {
    let stations = &report.stations;
    let mut lines = vec![
        line("source", stations.source.level_db, LineInk::Black, 1.25, Some((6.0, 4.0))),
        line("inside", stations.inside.level_db, LineInk::Vermilion, 1.5, None),
    ];
    if let Some(gap) = &stations.gap {
        lines.push(line("gap", gap.level_db, LineInk::Green, 1.5, Some((8.0, 3.0))));
    }
    lines.push(line("outside", stations.outside.level_db, LineInk::Blue, 1.75, Some((3.0, 2.5))));
    let Some(heard) = report.decisive() else {
        lines.push(line("room", stations.room.level_db, LineInk::Black, 2.75, None));
        return LineChart { lines, floor_db: 0.0, weak_hz: Some(weak_hz(report)) };
    };
    lines.push(line("room", stations.room.level_db, LineInk::Blue, 1.75, None));
    lines.push(Line {
        first_band: heard.judgement.first_band,
        ..line("limit", heard.judgement.limit_db, LineInk::Purple, 2.0, Some((10.0, 4.0)))
    });
    lines.push(line("background", heard.background_db, LineInk::Quiet, 1.25, Some((1.5, 3.0))));
    lines.push(line("listener", heard.level.level_db, LineInk::Black, 2.75, None));
    LineChart { lines, floor_db: 0.0, weak_hz: Some(weak_hz(report)) }
}

/// From where to where the estimate is weak.
fn weak_hz(report: &Report) -> (f64, f64) {
    (report.network_below_hz, 2.0 * report.network_below_hz)
}

fn losses(report: &Report) -> LineChart {
    let mut lines = vec![
        line("level difference", report.level_difference_db, LineInk::Vermilion, 1.5, Some((6.0, 4.0))),
        line("insertion loss", report.insertion_loss_db, LineInk::Blue, 2.25, None),
    ];
    if let Some(heard) = report.decisive() {
        lines.push(line("needed", heard.judgement.required_db, LineInk::Purple, 2.0, Some((10.0, 4.0))));
    }
    LineChart { lines, floor_db: -20.0, weak_hz: None }
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
    /// The cursor.
    pub cursor: Cursor,
}

/// The chart of the stations, what is left to hear, and all numbers as a table.
#[component]
pub fn Levels(props: &LevelsProps) -> Html {
    let LevelsProps { design, report, cursor } = props;
    let table_open = use_state_eq(|| false);
    let ontoggle = {
        let table_open = table_open.setter();
        Callback::from(move |event: Event| table_open.set(event.target_unchecked_into::<HtmlDetailsElement>().open()))
    };
    let chart = stations_chart(report);
    let numbers = table_open.then(|| table(&chart, &losses(report), report));
    html! {
        <section class="levels" aria-labelledby="levels-title">
            <h2 id="levels-title">{ "Levels" }<small>{ "dB in one-third octaves, from the source to the listener" }</small></h2>
            <LineChartView id="chart" label="Levels by frequency; arrow keys read one band after the other" {chart}
                cursor={cursor.band} on_cursor={cursor.on_move.clone()} />
            <Shares report={Rc::clone(report)} cursor={cursor.clone()} />
            <p class="finding">
                { what_is_left(report) }
                if let Some(resonance) = resonance_in_the_gap(report) { { " " }{ resonance } }
                if report.decisive().is_some_and(|heard| heard.judgement.dba.is_some()) {
                    { " The limit is that of each band alone." }
                }
            </p>
            <details class="numbers" {ontoggle}>
                <summary>{ "The same in numbers" }</summary>
                { for numbers }
                if *table_open { { for design.listeners.iter().zip(&report.listeners).map(|(part, heard)| needs(part, heard)) } }
            </details>
        </section>
    }
}

/// The chart of what the box brings and what a meter reads.
pub fn losses_chart(report: &Report, cursor: &Cursor) -> Html {
    html! {
        <div class="losses">
            <LineChartView id="chart-loss" label="Insertion loss and level difference by frequency" chart={losses(report)}
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

fn table(levels: &LineChart, losses: &LineChart, report: &Report) -> Html {
    let columns: Vec<_> = levels.lines.iter().chain(&losses.lines).collect();
    let head = |line: &&Line| html! { <th scope="col">{ line.name }</th> };
    let way = |path: &Path| html! { <th scope="col">{ format!("{} %", paths::name(path.key)) }</th> };
    let row = |band: usize| {
        html! {
            <tr>
                <th scope="row">{ frequency(NOMINAL_HZ[band]) }</th>
                { for columns.iter().map(|line| html! { <td>{ line.at(band).map_or_else(|| "–".to_owned(), whole) }</td> }) }
                { for paths::shown_shares(report, Some(band)).into_iter().map(|share| html! { <td>{ share }</td> }) }
            </tr>
        }
    };
    html! {
        <div class="scroll" tabindex="0" role="region" aria-label="Table of levels">
            <table>
                <caption class="unseen">{ "Levels and losses in dB, shares of the ways out in %, by one-third octave" }</caption>
                <thead><tr><th scope="col">{ "Band" }</th>{ for columns.iter().map(head) }{ for report.paths.iter().map(way) }</tr></thead>
                <tbody>{ for (0..BAND_COUNT).map(row) }</tbody>
            </table>
        </div>
    }
}
