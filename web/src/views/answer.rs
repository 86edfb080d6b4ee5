//! The answer, always in sight.

use yew::prelude::*;

use crate::paths::in_short;
use crate::quantity::{Units, decimal, level_dba, whole};
use crate::readings::level_difference;
use crate::state::State;

/// Level in the room and outside, what the box brings, weighs, costs and measures.
pub fn answer(state: &State) -> Html {
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
    html! {
        <section class="answer" aria-labelledby="answer-title">
            <h2 id="answer-title" class="unseen">{ "The answer" }</h2>
            <dl>
                <div class="fact room">
                    <dt>{ format!("In the room, {distance} away") }</dt>
                    <dd id="answer">{ dba(report.stations.room.dba) }</dd>
                </div>
                { fact("outside-dba", "In the open, ", outside, dba(report.stations.outside.dba), "sound") }
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

/// The fragment belongs to the design, so the link moves the focus instead of the address.
fn to_ways_out() -> Callback<MouseEvent> {
    Callback::from(|event: MouseEvent| {
        event.prevent_default();
        super::focus("ways-out");
    })
}
