//! The staircase: the stations as one line down which the sound goes, each with its level and its inputs.

use yew::prelude::*;

use super::stations;
use crate::quantity::{Units, level_dba, whole};
use crate::state::{Action, State};

/// A level that fills the bar, in dBA.
const FULL_BAR_DBA: f64 = 130.0;

/// What the head of a station shows.
struct Station {
    key: &'static str,
    title: &'static str,
    gist: String,
    level: Option<(f64, &'static str)>,
    prefixes: &'static [&'static str],
    open: bool,
    inputs: Html,
}

/// The stations from source to room.
pub fn staircase(state: &State, emit: &Callback<Action>) -> Html {
    let (design, units) = (state.design(), state.units());
    let levels = &state.report().stations;
    let places = match units {
        Units::Metric => ("at 1 m, no box", "1 m outside"),
        Units::Imperial => ("at 3.3 ft, no box", "3.3 ft outside"),
    };
    let list = [
        Station {
            key: "source",
            title: "Source",
            gist: stations::source_gist(design),
            level: Some((levels.source.dba, places.0)),
            prefixes: &["source."],
            open: false,
            inputs: stations::source(state, emit),
        },
        Station {
            key: "inner",
            title: "Inner box",
            gist: stations::inner_gist(design, units),
            level: Some((levels.inside.dba, "inside")),
            prefixes: &["inner."],
            open: true,
            inputs: stations::inner(state, emit),
        },
        Station {
            key: "gap",
            title: "Gap",
            gist: stations::gap_gist(design, units),
            level: levels.gap.map(|gap| (gap.dba, "in the gap")),
            prefixes: &["gap."],
            open: false,
            inputs: stations::gap(state, emit),
        },
        Station {
            key: "outer",
            title: "Outer box",
            gist: stations::outer_gist(design, units),
            level: Some((levels.outside.dba, places.1)),
            prefixes: &["outer."],
            open: false,
            inputs: stations::outer(state, emit),
        },
        Station {
            key: "room",
            title: "Room",
            gist: stations::room_gist(design, units),
            level: Some((levels.room.dba, "at the ear")),
            prefixes: &["room."],
            open: false,
            inputs: stations::room(state, emit),
        },
    ];
    let mut before: Option<f64> = None;
    let steps = list.into_iter().map(|station| {
        let step = station.level.and_then(|(dba, _)| before.map(|before| dba.round() - before));
        before = station.level.map(|(dba, _)| dba.round()).or(before);
        html! { <li key={station.key}>{ view(station, step, state) }</li> }
    });
    html! {
        <section class="staircase" aria-labelledby="staircase-title">
            <h2 id="staircase-title">{ "The way of the sound" }</h2>
            <ol>{ for steps }</ol>
        </section>
    }
}

fn view(station: Station, step: Option<f64>, state: &State) -> Html {
    let refused = state.refused_under(station.prefixes);
    let width = station.level.map_or(0.0, |(dba, _)| (dba / FULL_BAR_DBA).clamp(0.0, 1.0));
    html! {
        <details class="station" id={format!("station-{}", station.key)} open={station.open}>
            <summary>
                <h3>{ station.title }<span class="mark" aria-hidden="true" /></h3>
                <span class="gist">{ station.gist }</span>
                if let Some((dba, place)) = station.level {
                    <span class="level">
                        <b id={format!("{}-station-dba", station.key)}>{ level_dba(dba) }</b>{ " dBA" }
                    </span>
                    <span class="place">
                        { place }
                        if let Some(step) = step {
                            { ", " }<span class="step">{ signed(step) }</span>
                        }
                    </span>
                }
                <span class="bar" aria-hidden="true"><span style={format!("width:{:.2}%", 100.0 * width)} /></span>
                if refused > 0 {
                    <span class="refused-here">{ format!("{refused} not used: unfold to see why") }</span>
                }
            </summary>
            <fieldset>
                <legend class="unseen">{ station.title }</legend>
                { station.inputs }
            </fieldset>
        </details>
    }
}

fn signed(db: f64) -> String {
    if db > 0.0 { format!("+{}", whole(db)) } else { whole(db) }
}
