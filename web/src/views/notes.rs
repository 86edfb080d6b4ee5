//! Beside the drawing: why two readings differ, what is left out, what it weighs where, what to be careful with.

use std::rc::Rc;

use hushwright::design::ListenerPart;
use hushwright::evaluate::{ListenerReport, Path, Verdict};
use yew::prelude::*;

use super::explainer::why;
use super::levels::{Cursor, losses_chart};
use super::steps::Steps;
use super::sure::how_sure;
use crate::explanations::{Told, of_result};
use crate::need_readings::{
    background_dba, hearing_hours, limit_words, listener_name, other_measures, short_level, verdict_words, without_a_box,
};
use crate::paths;
use crate::quantity::whole;
use crate::readings::{cautions, left_out, level_difference, why_they_differ};
use crate::state::{Action, State};
use crate::sureness::Sureness;
use crate::view::View;
use crate::words::capital;

/// The notes.
pub fn notes(state: &State, cursor: &Cursor, sureness: &Sureness, emit: &Callback<Action>, go: &Callback<View>) -> Html {
    let (report, units) = (state.report(), state.units());
    let way = |(path, share): (&Path, String)| {
        html! {
            <li><span>{ paths::name(path.key) }</span>
                <span class="bar"><span ~style={format!("width:{:.1}%", 100.0 * path.share_dba)} /></span>
                <b>{ share }{ "\u{a0}%" }</b></li>
        }
    };
    let of = |k: usize| sureness.verdict(k, state.design(), report);
    let who = |(k, (part, heard)): (usize, (&ListenerPart, &ListenerReport))| {
        html! {
            <li class={of(k).key()}><span>{ listener_name(part) }</span>
                <b>{ format!("{}: {}", short_level(heard), verdict_words(of(k))) }</b>
                <span class="hint">
                    { format!("{}, background {} dBA. ", capital(&limit_words(heard, part)), whole(background_dba(heard))) }
                    { other_measures(heard) }
                </span></li>
        }
    };
    let found = sureness.steps.as_ref().filter(|found| Rc::ptr_eq(&found.design, state.design()));
    let corners = found.and_then(|found| paths::corners(found.corners_dba, report));
    html! {
        <section class="notes" aria-label="Notes">
            if let (Some(decisive), Some(k)) = (report.decisive(), report.governing) {
                <section aria-labelledby="who-hears">
                    <h2 id="who-hears">{ "Who hears it" }{ why(emit, of_result(Told::Verdict)) }</h2>
                    <ul class="hear">{ for state.design().listeners.iter().zip(&report.listeners).enumerate().map(who) }</ul>
                    if (0..report.listeners.len()).any(|k| of(k) == Verdict::AtRisk) {
                        <p class="hint">{ "At risk: the limit lies within the range that holds in 8 of 10 cases." }</p>
                    }
                    if report.listeners.len() > 1 {
                        <p>{ format!("{} decides.", listener_name(&state.design().listeners[k])) }</p>
                    }
                    <p id="without-box">{ without_a_box(decisive) }</p>
                </section>
            }
            <section aria-labelledby="ways-out">
                <h2 id="ways-out" tabindex="-1">{ "What lets it out" }{ why(emit, of_result(Told::LimitingPath)) }</h2>
                <p id="why-limiting">{ paths::why(report, state.design()) }</p>
                <ul class="ways">{ for report.paths.iter().zip(paths::shown_shares(report, None)).map(way) }</ul>
                if let Some(corners) = corners {
                    <p id="corners">{ corners }</p>
                }
            </section>
            <Steps design={Rc::clone(state.design())} steps={sureness.steps.clone()} unavailable={sureness.unavailable} {units}
                on_all={go.reform(|()| View::Improve)} emit={emit.clone()} />
            { how_sure(state, sureness, emit) }
            <section aria-labelledby="differ-title">
                <h2 id="differ-title">{ "What the box brings" }<small>{ "dB" }</small>{ why(emit, of_result(Told::WhyTheyDiffer)) }</h2>
                { losses_chart(report, cursor) }
                <p>{ "Level difference: " }<b id="level-difference-dba">{ format!("{} dB", whole(level_difference(report))) }</b>
                    { why(emit, of_result(Told::LevelDifference)) }</p>
                <p>{ hearing_hours(report, state.design().source.hours) }{ why(emit, of_result(Told::HearingHours)) }</p>
                <p>{ why_they_differ(report, units) }</p>
            </section>
            <section aria-labelledby="left-out">
                <h2 id="left-out">{ "Not in it yet" }{ why(emit, of_result(Told::NetworkBelow)) }</h2>
                <ul>{ for left_out(report).map(|text| html! { <li>{ text }</li> }) }</ul>
            </section>
            <section aria-labelledby="cautions-title">
                <h2 id="cautions-title">{ "Take care" }{ why(emit, of_result(Told::Cautions)) }</h2>
                <ul class="cautions">
                    { for cautions(state.design(), report, units).into_iter().map(|text| html! { <li>{ text }</li> }) }
                </ul>
            </section>
        </section>
    }
}
