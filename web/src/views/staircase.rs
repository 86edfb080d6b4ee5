//! The staircase: the stations as one line down which the sound goes, each with its level and its inputs.

use gloo::timers::callback::Timeout;
use web_sys::HtmlDetailsElement;
use yew::prelude::*;

use super::explainer::why;
use super::folds::comes_unfolded;
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

/// The stations from source to room; `idle` counts how often the page came to rest, see [`Turn`].
pub fn staircase(state: &UseReducerHandle<State>, emit: &Callback<Action>, idle: u32) -> Html {
    let mut before: Option<f64> = None;
    let steps = (0..).zip(&STATIONS).map(|(k, station)| {
        let level = (station.level)(&state.report().stations);
        let step = level.and_then(|dba| before.map(|before| dba.round() - before));
        before = level.map(f64::round).or(before);
        html! { <li key={station.group.key}>{ view(station, level, step, (state, emit, Turn { idle, place: PLACES * k })) }</li> }
    });
    html! {
        <section class="staircase" aria-labelledby="staircase-title">
            <h2 id="staircase-title">{ "The way of the sound" }</h2>
            <ol>{ for steps }</ol>
        </section>
    }
}

/// What every part of the staircase is made from.
type Common<'a> = (&'a UseReducerHandle<State>, &'a Callback<Action>, Turn);

fn view(station: &'static Station, level: Option<f64>, step: Option<f64>, (state, emit, turn): Common) -> Html {
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
            emit={emit.clone()} {turn} />
    }
}

fn part(group: &'static Group, (state, emit, turn): Common) -> Html {
    let head = html! {
        <>
            <h4>{ group.title_in(state.design()) }<span class="mark" aria-hidden="true" /></h4>
            <span class="gist">{ (group.gist)(state.design(), state.units()) }</span>
            { refused_here(group.items, state) }
        </>
    };
    html! {
        <Fold {group} class="part-of" id={format!("part-{}", group.key)} is_first=false {head} state={state.clone()} emit={emit.clone()} {turn} />
    }
}

/// Inputs of a view of its own, which fold away; those of the first group are unfolded at first.
pub fn inputs(groups: &'static [Group], state: &UseReducerHandle<State>, emit: &Callback<Action>, idle: u32) -> Html {
    let one = |(k, group): (u32, &'static Group)| {
        let head = html! {
            <>
                <h3>{ group.title }<span class="mark" aria-hidden="true" /></h3>
                <span class="gist">{ (group.gist)(state.design(), state.units()) }</span>
                { refused_here(group.items, state) }
            </>
        };
        html! {
            <Fold {group} class="part-of" id={format!("part-{}", group.key)} is_first={k == 0} {head} state={state.clone()}
                emit={emit.clone()} turn={Turn { idle, place: k }} />
        }
    };
    html! { <>{ for (0..).zip(groups).map(one) }</> }
}

/// When a folded part follows what has changed.
#[derive(Clone, Copy, PartialEq)]
struct Turn {
    /// How often the page came to rest.
    idle: u32,
    /// How many follow before it.
    place: u32,
}

/// How many places a station has, for itself and what folds within it.
const PLACES: u32 = 10;

/// How long each place waits for the one before, in ms. It is little, so that all stand before long; a browser that is busy for
/// longer takes the next all the same as a step of its own, and can answer in between.
const BETWEEN_MS: u32 = 8;

/// How often the page came to rest, as known in its turn.
#[hook]
fn use_turn(turn: Turn, is_open: bool) -> u32 {
    let Turn { idle, place } = turn;
    let known = use_state_eq(|| 0);
    let setter = known.setter();
    use_effect_with((idle, is_open), move |&(idle, is_open)| {
        // What is unfolded has followed already.
        let waits = idle > 0 && !is_open;
        let waiting = waits.then(|| Timeout::new(BETWEEN_MS * place, move || setter.set(idle)));
        move || drop(waiting)
    });
    *known
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
    turn: Turn,
}

/// Its head is shown in any case.
impl PartialEq for FoldProps {
    fn eq(&self, _: &Self) -> bool {
        false
    }
}

/// Inputs that can be folded away. Folded, they are left as they are while something moves, and follow one after the other once the
/// page has come to rest: most of a page's inputs are out of sight, and all at once would hold the page up.
#[component]
fn Fold(props: &FoldProps) -> Html {
    let FoldProps { group, class, id, is_first, head, state, emit, turn } = props;
    let comes_open = *use_memo((), |()| comes_unfolded(id, *is_first));
    let is_open = use_state_eq(|| comes_open);
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
    let known = use_turn(*turn, *is_open);
    let turn = Turn { idle: if *is_open { turn.idle } else { known }, place: turn.place };
    html! {
        <details class={*class} id={id.clone()} open={comes_open} {ontoggle}>
            <summary>{ head.clone() }</summary>
            <Inputs {group} is_open={*is_open} state={state.clone()} emit={emit.clone()} {turn} />
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
    turn: Turn,
}

impl PartialEq for InputsProps {
    fn eq(&self, other: &Self) -> bool {
        let unlike = self.is_open || other.is_open || self.turn != other.turn;
        !unlike && self.state.units() == other.state.units()
    }
}

/// The inputs of a group.
#[component]
fn Inputs(InputsProps { group, is_open, state, emit, turn }: &InputsProps) -> Html {
    let stands = use_mut_ref(|| false);
    if !is_open && turn.idle == 0 && !*stands.borrow() {
        // What nobody sees yet is built when the page stands.
        return html! {};
    }
    stands.replace(true);
    let within = |k| Turn { idle: turn.idle, place: turn.place + k };
    html! {
        <fieldset>
            <legend class="unseen">{ group.title_in(state.design()) }</legend>
            if let Some(told) = group.told {
                <p class="of-level">{ of_result(told).title }{ why(emit, of_result(told)) }</p>
            }
            { for (1..).zip(group.items).map(|(k, item)| input(item, (state, emit, within(k)))) }
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
