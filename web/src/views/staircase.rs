//! The staircase: the stations as one line down which the sound goes, each with its level and its inputs.

use yew::prelude::*;

use super::layers::layers;
use super::listeners::{listeners, refused_of_listeners};
use super::row::{band_list, choice, preset, row};
use super::stations::{Item, STATIONS, Station};
use crate::quantity::{level_dba, whole};
use crate::state::{Action, State};

/// A level that fills the bar, in dBA.
const FULL_BAR_DBA: f64 = 130.0;

/// The station that is unfolded on a first visit.
const FIRST_OPEN: &str = "inner";

/// The stations from source to room.
pub fn staircase(state: &State, emit: &Callback<Action>) -> Html {
    let mut before: Option<f64> = None;
    let steps = STATIONS.iter().map(|station| {
        let level = (station.level)(&state.report().stations);
        let step = level.and_then(|dba| before.map(|before| dba.round() - before));
        before = level.map(f64::round).or(before);
        html! { <li key={station.group.key}>{ view(station, level, step, state, emit) }</li> }
    });
    html! {
        <section class="staircase" aria-labelledby="staircase-title">
            <h2 id="staircase-title">{ "The way of the sound" }</h2>
            <ol>{ for steps }</ol>
        </section>
    }
}

fn view(station: &Station, level: Option<f64>, step: Option<f64>, state: &State, emit: &Callback<Action>) -> Html {
    let Station { group, place, .. } = station;
    html! {
        <details class="station" id={format!("station-{}", group.key)} open={group.key == FIRST_OPEN}>
            <summary>
                <h3>{ group.title_in(state.design()) }<span class="mark" aria-hidden="true" /></h3>
                <span class="gist">{ (group.gist)(state.design(), state.units()) }</span>
                if let Some(dba) = level {
                    <span class="level">
                        <b id={format!("{}-station-dba", group.key)}>{ level_dba(dba) }</b>{ " dBA" }
                    </span>
                    <span class="place">
                        { place[state.units() as usize] }
                        if let Some(step) = step {
                            { ", " }<span class="step">{ signed(step) }</span>
                        }
                    </span>
                    <span class="bar" aria-hidden="true">
                        <span style={format!("width:{:.2}%", 100.0 * (dba / FULL_BAR_DBA).clamp(0.0, 1.0))} />
                    </span>
                }
                { refused_here(group.items, state) }
            </summary>
            <fieldset>
                <legend class="unseen">{ group.title_in(state.design()) }</legend>
                { for group.items.iter().map(|item| input(item, state, emit)) }
            </fieldset>
        </details>
    }
}

fn input(item: &Item, state: &State, emit: &Callback<Action>) -> Html {
    match *item {
        Item::Number(field) => row(state, emit, field),
        Item::Choice(what) => choice(state, emit, what),
        Item::Layers(shell) => layers(state, emit, shell),
        Item::Preset(which) => preset(state, emit, which, String::new()),
        Item::Bands(list) => band_list(state, emit, list, ""),
        Item::Listeners => listeners(state, emit),
        Item::Hint(hint) => hint(state).map_or_else(Html::default, |hint| html! { <p class="hint">{ hint }</p> }),
        Item::Group(group) if (group.applies)(state.design()) => html! {
            <details class="part-of" id={format!("part-{}", group.key)}>
                <summary>
                    <h4>{ group.title_in(state.design()) }<span class="mark" aria-hidden="true" /></h4>
                    <span class="gist">{ (group.gist)(state.design(), state.units()) }</span>
                    { refused_here(group.items, state) }
                </summary>
                <fieldset>
                    <legend class="unseen">{ group.title_in(state.design()) }</legend>
                    { for group.items.iter().map(|item| input(item, state, emit)) }
                </fieldset>
            </details>
        },
        Item::Group(_) => html! {},
    }
}

/// How many of the inputs hold something that is not in the design.
fn refused(items: &[Item], state: &State) -> usize {
    let one = |item: &Item| match *item {
        Item::Number(field) => usize::from(state.refused().any(|other| other == field)),
        Item::Choice(choice) => usize::from(state.refusal(&choice.path()).is_some()),
        Item::Layers(shell) => {
            let sheets = state.refused().filter(|field| field.sheet().is_some_and(|(of, _)| of == shell));
            sheets.count() + usize::from(state.refusal(shell.path()).is_some())
        }
        Item::Group(group) => refused(group.items, state),
        Item::Bands(list) => usize::from(state.refused_lists().any(|other| other == list)),
        Item::Listeners => refused_of_listeners(state),
        Item::Preset(_) | Item::Hint(_) => 0,
    };
    items.iter().map(one).sum()
}

/// What a folded part says of refused inputs in it.
fn refused_here(items: &[Item], state: &State) -> Html {
    not_used(refused(items, state))
}

/// What a folded part says of `count` refused inputs in it.
pub fn not_used(count: usize) -> Html {
    if count == 0 {
        return html! {};
    }
    html! { <span class="refused-here">{ format!("{count} not used: unfold to see why") }</span> }
}

fn signed(db: f64) -> String {
    if db > 0.0 { format!("+{}", whole(db)) } else { whole(db) }
}
