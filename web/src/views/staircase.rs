//! The staircase: the stations as one line down which the sound goes, each with its level and its inputs.

use web_sys::HtmlDetailsElement;
use yew::prelude::*;

use super::explainer::why;
use super::layers::layers;
use super::listeners::{listeners, refused_of_listeners};
use super::row::{band_list, choice, preset, row};
use super::stations::{Group, Item, STATIONS, Station};
use crate::explanations::of_result;
use crate::quantity::level_dba;
use crate::state::{Action, State};
use crate::step_words::signed;

/// A level that fills the bar, in dBA.
const FULL_BAR_DBA: f64 = 130.0;

/// The station that is unfolded on a first visit.
const FIRST_OPEN: &str = "inner";

/// The stations from source to room; `idle` counts how often the page came to rest, see [`Fold`].
pub fn staircase(state: &UseReducerHandle<State>, emit: &Callback<Action>, idle: u32) -> Html {
    let mut before: Option<f64> = None;
    let steps = STATIONS.iter().map(|station| {
        let level = (station.level)(&state.report().stations);
        let step = level.and_then(|dba| before.map(|before| dba.round() - before));
        before = level.map(f64::round).or(before);
        html! { <li key={station.group.key}>{ view(station, level, step, (state, emit, idle)) }</li> }
    });
    html! {
        <section class="staircase" aria-labelledby="staircase-title">
            <h2 id="staircase-title">{ "The way of the sound" }</h2>
            <ol>{ for steps }</ol>
        </section>
    }
}

/// What every part of the staircase is made from.
type Common<'a> = (&'a UseReducerHandle<State>, &'a Callback<Action>, u32);

fn view(station: &'static Station, level: Option<f64>, step: Option<f64>, (state, emit, idle): Common) -> Html {
    let Station { group, place, .. } = station;
    let head = html! {
        <>
            <h3>{ group.title_in(state.design()) }<span class="mark" aria-hidden="true" /></h3>
            <span class="gist">{ (group.gist)(state.design(), state.units()) }</span>
            if let Some(dba) = level {
                <span class="level">
                    <b id={format!("{}-station-dba", group.key)}>{ level_dba(dba) }</b>{ " dBA" }
                </span>
                <span class="place">
                    { place[state.units() as usize] }
                    if let Some(step) = step {
                        { ", " }<span class="step">{ signed(step, 0) }</span>
                    }
                </span>
                <span class="bar" aria-hidden="true">
                    <span ~style={format!("width:{:.2}%", 100.0 * (dba / FULL_BAR_DBA).clamp(0.0, 1.0))} />
                </span>
            }
            { refused_here(group.items, state) }
        </>
    };
    html! {
        <Fold {group} class="station" id={format!("station-{}", group.key)} is_first={group.key == FIRST_OPEN} {head} state={state.clone()}
            emit={emit.clone()} {idle} />
    }
}

fn part(group: &'static Group, (state, emit, idle): Common) -> Html {
    let head = html! {
        <>
            <h4>{ group.title_in(state.design()) }<span class="mark" aria-hidden="true" /></h4>
            <span class="gist">{ (group.gist)(state.design(), state.units()) }</span>
            { refused_here(group.items, state) }
        </>
    };
    html! {
        <Fold {group} class="part-of" id={format!("part-{}", group.key)} is_first=false {head} state={state.clone()} emit={emit.clone()} {idle} />
    }
}

/// Inputs of a view of its own, which fold away; those of the first group are unfolded at first.
pub fn inputs(groups: &'static [Group], state: &UseReducerHandle<State>, emit: &Callback<Action>, idle: u32) -> Html {
    let one = |(k, group): (usize, &'static Group)| {
        let head = html! {
            <>
                <h3>{ group.title }<span class="mark" aria-hidden="true" /></h3>
                <span class="gist">{ (group.gist)(state.design(), state.units()) }</span>
                { refused_here(group.items, state) }
            </>
        };
        html! {
            <Fold {group} class="part-of" id={format!("part-{}", group.key)} is_first={k == 0} {head} state={state.clone()}
                emit={emit.clone()} {idle} />
        }
    };
    html! { <>{ for groups.iter().enumerate().map(one) }</> }
}

/// Properties of [`Fold`].
#[derive(Clone, Properties)]
struct FoldProps {
    group: &'static Group,
    class: &'static str,
    id: AttrValue,
    /// Whether it is unfolded on a first visit.
    is_first: bool,
    head: Html,
    state: UseReducerHandle<State>,
    emit: Callback<Action>,
    /// How often the page came to rest.
    idle: u32,
}

/// Its head is shown in any case.
impl PartialEq for FoldProps {
    fn eq(&self, _: &Self) -> bool {
        false
    }
}

/// Inputs that can be folded away. Folded, they are left as they are while something moves, and follow once the page has come to
/// rest: most of a page's inputs are out of sight, and would take most of a frame.
#[component]
fn Fold(props: &FoldProps) -> Html {
    let FoldProps { group, class, id, is_first, head, state, emit, idle } = props;
    let is_open = use_state_eq(|| *is_first);
    let ontoggle = {
        let (is_open, id) = (is_open.setter(), id.clone());
        Callback::from(move |event: Event| {
            let fold: HtmlDetailsElement = event.target_unchecked_into();
            // A fold within this one toggles too.
            if fold.id() == *id {
                is_open.set(fold.open());
            }
        })
    };
    html! {
        <details class={*class} id={id.clone()} open={*is_first} {ontoggle}>
            <summary>{ head.clone() }</summary>
            <Inputs {group} is_open={*is_open} state={state.clone()} emit={emit.clone()} {idle} />
        </details>
    }
}

/// Properties of [`Inputs`].
#[derive(Clone, Properties)]
struct InputsProps {
    group: &'static Group,
    is_open: bool,
    state: UseReducerHandle<State>,
    emit: Callback<Action>,
    idle: u32,
}

impl PartialEq for InputsProps {
    fn eq(&self, other: &Self) -> bool {
        let unlike = self.is_open || other.is_open || self.idle != other.idle;
        !unlike && self.state.units() == other.state.units()
    }
}

/// The inputs of a group.
#[component]
fn Inputs(InputsProps { group, is_open, state, emit, idle }: &InputsProps) -> Html {
    if !is_open && *idle == 0 {
        // What nobody sees yet is built when the page stands.
        return html! {};
    }
    html! {
        <fieldset>
            <legend class="unseen">{ group.title_in(state.design()) }</legend>
            if let Some(told) = group.told {
                <p class="of-level">{ of_result(told).title }{ why(emit, of_result(told)) }</p>
            }
            { for group.items.iter().map(|item| input(item, (state, emit, *idle))) }
        </fieldset>
    }
}

fn input(item: &'static Item, common: Common) -> Html {
    let (state, emit, _) = common;
    match item {
        Item::Number(field) => row(state, emit, *field),
        Item::Choice(what) => choice(state, emit, *what),
        Item::Layers(shell) => layers(state, emit, *shell),
        Item::Preset(which) => preset(state, emit, *which, String::new()),
        Item::Bands(list) => band_list(state, emit, *list, ""),
        Item::Listeners => listeners(state, emit),
        Item::Hint(hint) => hint(state).map_or_else(Html::default, |hint| html! { <p class="hint">{ hint }</p> }),
        Item::Group(group) if (group.applies)(state.design()) => part(group, common),
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
