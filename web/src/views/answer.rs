//! The answer, always in sight.

use std::rc::Rc;

use yew::prelude::*;

use crate::quantity::{decimal, whole};
use crate::readings::LEFT_OUT_SHORT;
use crate::state::State;

/// Properties of [`Answer`].
#[derive(Clone, PartialEq, Properties)]
pub struct AnswerProps {
    /// The state.
    pub state: Rc<State>,
}

/// Level in the room and outside, what the box brings, weighs, costs and measures.
#[component]
pub fn Answer(props: &AnswerProps) -> Html {
    let state = &props.state;
    let (report, units) = (state.report(), state.units());
    let distance = units.distance(state.design().room.distance_m);
    let fact = |id: &'static str, term: String, value: String, class: &'static str| {
        html! { <div class={classes!("fact", class)}><dt>{ term }</dt><dd {id}>{ value }</dd></div> }
    };
    let cost = decimal(report.bill.cost, 0);
    let cost = if report.bill.cost_incomplete { format!("{cost} and more") } else { cost };
    html! {
        <section class="answer" aria-labelledby="answer-title">
            <h2 id="answer-title" class="unseen">{ "The answer" }</h2>
            <dl>
                <div class="fact room">
                    <dt>{ format!("In the room, {distance} away") }</dt>
                    <dd id="answer">{ format!("{} dBA", whole(report.stations.room.dba)) }</dd>
                </div>
                { fact("outside-dba", "1 m outside the box".into(), format!("{} dBA", whole(report.stations.outside.dba)), "sound") }
                { fact("insertion-loss-dba", "Insertion loss".into(), format!("{} dB", whole(report.insertion_loss_dba)), "sound") }
                { fact("level-difference-dba", "Level difference".into(), format!("{} dB", whole(report.level_difference_dba)), "sound") }
                { fact("mass", "Mass".into(), units.mass(report.bill.mass_kg), "thing") }
                { fact("cost", "Material".into(), cost, "thing") }
                { fact("outside-size", format!("Outside, {}", units.length_unit()), units.size(report.outside_m), "thing size") }
            </dl>
            <p class="left-out">{ LEFT_OUT_SHORT }{ " " }<a href="#left-out" onclick={to_left_out()}>{ "More" }</a></p>
        </section>
    }
}

/// The fragment belongs to the design, so the link moves the focus instead of the address.
fn to_left_out() -> Callback<MouseEvent> {
    Callback::from(|event: MouseEvent| {
        event.prevent_default();
        super::focus("left-out");
    })
}
