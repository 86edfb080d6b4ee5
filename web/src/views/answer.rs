//! The answer, always in sight.

use hushwright::evaluate::Verdict;
use hushwright::uncertainty::Range;
use yew::prelude::*;

use crate::need_readings::{limit_words, listener_name, margin_words, verdict_words};
use crate::paths::in_short;
use crate::quantity::{Units, decimal, level_dba, whole};
use crate::readings::level_difference;
use crate::state::State;
use crate::sureness::{Sureness, chance_words, range_words};

/// Level at the listener who decides, against the limit; in the room and outside; what the box brings, weighs, costs and measures.
pub fn answer(state: &State, sureness: &Sureness) -> Html {
    let (report, units) = (state.report(), state.units());
    let distance = units.distance(state.design().room.distance_m);
    let bill = &report.bill;
    let cost = decimal(bill.cost, 0) + if bill.cost_incomplete { " and more" } else { "" };
    // Where the page is narrow, the first word of a term is left out.
    let fact = |id: &'static str, detail: &'static str, term: &'static str, value: String, class: &'static str| {
        html! {
            <div class={classes!("fact", class)}><dt><span class="detail">{ detail }</span>{ term }</dt><dd {id}>{ value }</dd></div>
        }
    };
    let outside = match units {
        Units::Metric => "1 m outside",
        Units::Imperial => "3.3 ft outside",
    };
    let dba = |level: f64| format!("{} dBA", level_dba(level));
    let db = |level: f64| format!("{} dB", whole(level));
    let listener = report.decisive().zip(report.governing.and_then(|k| state.design().listeners.get(k)));
    let chief = match listener {
        Some((heard, part)) => {
            let known = report.governing.and_then(|k| sureness.listener(k, state.design(), report));
            let verdict = report.governing.map_or(heard.verdict, |k| sureness.verdict(k, state.design(), report));
            let chance = known.and_then(|known| known.chance_met);
            html! {
                <div class="fact chief">
                    <dt>{ format!("{}, {}", listener_name(part), limit_words(heard, part)) }</dt>
                    <dd><b id="answer">{ dba(heard.level.dba) }</b>
                        { range(known.map(|known| known.dba), chance) }
                        <span class={classes!("verdict", verdict.key())}>{ sign(verdict) }
                            <b id="verdict">{ verdict_words(verdict) }</b>
                            <span id="margin">{ margin_words(heard) }</span></span></dd>
                </div>
            }
        }
        None => html! {
            <div class="fact chief">
                <dt>{ format!("In the room, {distance} away") }</dt>
                <dd><b id="answer">{ dba(report.stations.room.dba) }</b>
                    { range(sureness.room(state.design(), report), None) }</dd>
            </div>
        },
    };
    let room = listener.map(|_| fact("room-dba", "", "in the room", dba(report.stations.room.dba), "sound"));
    html! {
        <section class="answer" aria-labelledby="answer-title">
            <h2 id="answer-title" class="unseen">{ "The answer" }</h2>
            <dl>
                { chief }
                { for room }
                if listener.is_none() {
                    { fact("outside-dba", "In the open, ", outside, dba(report.stations.outside.dba), "sound") }
                }
                { fact("insertion-loss-dba", "", "insertion loss", db(report.insertion_loss_dba), "sound") }
                { fact("level-difference-dba", "level ", "difference", db(level_difference(report)), "sound") }
                { fact("mass", "", "mass", units.mass(bill.mass_kg), "thing") }
                { fact("cost", "assumed ", "material cost", cost, "thing") }
                { fact("outside-size", "outside, ", units.length_unit(), units.size(report.outside_m), "thing size") }
            </dl>
            <p class="way-out"><span id="limiting">{ in_short(report) }</span>{ " " }<a href="#ways-out" onclick={to_ways_out()}>{ "Why" }</a></p>
        </section>
    }
}

/// What the level lies within in 8 of 10 cases, and the chance that the limit is met; room for it until it is known.
fn range(dba: Option<Range>, chance_met: Option<f64>) -> Html {
    html! {
        <span class="range" title="In 8 of 10 cases it is within this: what is unknown of the design and what the method may be off">
            <span id="range">{ dba.map_or_else(|| "…".to_owned(), |range| range_words(&range)) }</span>
            <span id="chance">{ chance_met.map_or_else(String::new, chance_words) }</span>
        </span>
    }
}

/// The sign of a verdict, so that it is not told by colour alone: a tick, a triangle, a cross.
fn sign(verdict: Verdict) -> Html {
    let d = match verdict {
        Verdict::Pass => "M2 8.5L6.5 13L14 3.5",
        Verdict::AtRisk => "M8 2L14.5 13.5H1.5Z",
        Verdict::Fail => "M3 3L13 13M13 3L3 13",
    };
    html! { <svg viewBox="0 0 16 16" aria-hidden="true"><path {d} /></svg> }
}

/// The fragment belongs to the design, so the link moves the focus instead of the address.
fn to_ways_out() -> Callback<MouseEvent> {
    Callback::from(|event: MouseEvent| {
        event.prevent_default();
        super::focus("ways-out");
    })
}
