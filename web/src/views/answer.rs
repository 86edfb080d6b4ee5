//! The answer, always in sight.

use hushwright::evaluate::Verdict;
use hushwright::uncertainty::Range;
use yew::prelude::*;

use super::explainer::why;
use super::focus_soon;
use super::planned::Plan;
use crate::changes::Changed;
use crate::documents::Gist;
use crate::explanations::{Told, Topic, of_result};
use crate::need_readings::{limit_words, listener_name, margin_words, verdict_words};
use crate::paths::in_short;
use crate::quantity::{decimal, level_dba, whole};
use crate::state::{Action, State};
use crate::sureness::{Sureness, chance_words, range_words};
use crate::view::View;

/// A number of the answer: its id, its term, how it reads, what the last step changed of it, what it is.
struct Fact {
    id: &'static str,
    term: String,
    value: String,
    changed: String,
    explanation: Topic,
}

/// Level at the listener who decides, against the limit; in the room; what the box brings, weighs, costs and measures.
/// `go` goes to another view.
pub fn answer(state: &State, sureness: &Sureness, plan: &Plan, emit: &Callback<Action>, go: &Callback<View>) -> Html {
    let (report, units) = (state.report(), state.units());
    let changed = Changed::of(state, plan.cost_change());
    let steps = state.steps();
    let dba = |level: f64| format!("{} dBA", level_dba(level));
    let listener = report.decisive().zip(report.governing.and_then(|k| state.design().listeners.get(k)));
    let shown = report.governing.and_then(|k| sureness.listener(k, state.design(), report));
    let (about, level, range, chance) = if let Some((heard, part)) = listener {
        let about = format!("{}, {}", listener_name(part), limit_words(heard, part));
        (about, heard.level.dba, shown.map(|shown| shown.dba), shown.and_then(|shown| shown.chance_met))
    } else {
        let about = format!("In the room, {} away", units.distance(state.design().room.distance_m));
        (about, report.stations.room.dba, sureness.room(state.design(), report), None)
    };
    let limit = listener.and_then(|(heard, _)| heard.judgement.dba).map(|limit| limit.level_dba);
    let verdict = listener.zip(report.governing).map(|((heard, _), k)| {
        let verdict = sureness.verdict(k, state.design(), report);
        html! {
            <span class={classes!("verdict", verdict.key())}>{ sign(verdict) }
                <b id="verdict">{ verdict_words(verdict) }</b>
                <span id="margin">{ margin_words(heard) }</span></span>
        }
    });
    let facts = facts(state, plan, &changed, listener.is_some());
    let fact = |Fact { id, term, value, changed, explanation }: Fact| {
        html! {
            <div class={classes!("fact", id)}><dt>{ term }{ why(emit, explanation) }</dt><dd><span {id}>{ value }</span>{ delta(changed, steps) }</dd></div>
        }
    };
    html! {
        <section class="answer" aria-labelledby="answer-title">
            <h2 id="answer-title" class="unseen">{ "The answer" }</h2>
            <div class="chief">
                <p class="about">{ about }{ why(emit, of_result(Told::Level)) }{ delta(changed.level, steps) }</p>
                <p class="level"><b id="answer">{ dba(level) }</b>{ for verdict }</p>
                <p class="way-out"><span id="limiting">{ in_short(report) }</span>{ " " }<a href={format!("#{}", state.fragment())} onclick={to_ways_out(go.clone())}>{ "Why" }</a></p>
            </div>
            <div class="sureness">
                { gauge(level, range, limit) }
                <p><span id="range">{ range_text(range, sureness.unavailable) }</span>{ if chance.is_some() { ", " } else { "" } }<span id="chance">{ chance.map_or_else(String::new, chance_words) }</span>
                    { why(emit, of_result(Told::Range)) }</p>
            </div>
            <dl>{ for facts.into_iter().map(fact) }</dl>
        </section>
    }
}

/// The other numbers: where it is heard, what the box brings, weighs, costs, takes to build and measures.
fn facts(state: &State, plan: &Plan, changed: &Changed, has_listener: bool) -> Vec<Fact> {
    let (report, units) = (state.report(), state.units());
    let dba = |level: f64| format!("{} dBA", level_dba(level));
    let mut facts = Vec::new();
    if has_listener {
        facts.push(Fact {
            id: "room-dba",
            term: "in the room".to_owned(),
            value: dba(report.stations.room.dba),
            changed: String::new(),
            explanation: of_result(Told::Room),
        });
    } else {
        facts.push(Fact {
            id: "outside-dba",
            term: format!("{} outside", units.reference_distance()),
            value: dba(report.stations.outside.dba),
            changed: String::new(),
            explanation: of_result(Told::Outside),
        });
    }
    let bill = &report.bill;
    let gist = plan.latest.as_ref().map(|(_, planned)| &planned.gist);
    let unknown = if plan.is_missing { "–" } else { "…" };
    let told = |words: fn(&Gist) -> String| gist.map_or_else(|| unknown.to_owned(), words);
    facts.extend([
        Fact {
            id: "insertion-loss-dba",
            term: "insertion loss".to_owned(),
            value: format!("{} dB", whole(report.insertion_loss_dba)),
            changed: String::new(),
            explanation: of_result(Told::InsertionLoss),
        },
        Fact {
            id: "mass",
            term: "mass".to_owned(),
            value: units.mass(bill.mass_kg),
            changed: changed.mass.clone(),
            explanation: of_result(Told::Mass),
        },
        Fact {
            id: "cost",
            term: "to buy".to_owned(),
            value: told(Gist::cost_words),
            changed: changed.cost.clone(),
            explanation: of_result(Told::Cost),
        },
        Fact {
            id: "hours",
            term: "hours".to_owned(),
            value: told(|gist| decimal(gist.hours, 0)),
            changed: String::new(),
            explanation: of_result(Told::HoursOfWork),
        },
        Fact {
            id: "outside-size",
            term: format!("outside, {}{}", units.length_unit(), gist.map_or("", through_the_door)),
            value: units.size(report.outside_m),
            changed: String::new(),
            explanation: of_result(Told::OutsideSize),
        },
    ]);
    facts
}

/// Whether it passes the door, and how.
fn through_the_door(gist: &Gist) -> &'static str {
    match (gist.passes, gist.shells_pass) {
        (true, _) => ", door ✓",
        (false, true) => ", door: in parts",
        (false, false) => ", door ✗",
    }
}

/// What the last step changed, for a moment: it fades by itself, and comes again with the next step.
fn delta(changed: String, steps: u32) -> Html {
    if changed.is_empty() {
        return html! {};
    }
    html! { <span key={format!("{steps} {changed}")} class="delta" aria-hidden="true">{ changed }</span> }
}

fn range_text(range: Option<Range>, unavailable: bool) -> String {
    range.map_or_else(|| if unavailable { "no range" } else { "…" }.to_owned(), |range| range_words(&range))
}

/// Ends of the scale in dBA.
const SCALE: (f64, f64) = (0.0, 80.0);
/// Every so many dB the scale has a mark.
const MARK_DB: usize = 20;

/// The level on a scale, with the bar of its range and the mark of the limit. The words beside it say the same.
fn gauge(level: f64, range: Option<Range>, limit: Option<f64>) -> Html {
    let at = |dba: f64| 100.0 * ((dba - SCALE.0) / (SCALE.1 - SCALE.0)).clamp(0.0, 1.0);
    let percent = |dba: f64| format!("left:{:.2}%", at(dba));
    let marks = (SCALE.0 as usize..=SCALE.1 as usize).step_by(MARK_DB).map(|dba| {
        html! { <i class="step" ~style={percent(dba as f64)}>{ dba }</i> }
    });
    html! {
        <div class="gauge" aria-hidden="true">
            { for marks }
            if let Some(Range { low, high, .. }) = range {
                <i class="bar" ~style={format!("left:{:.2}%;width:{:.2}%", at(low), at(high) - at(low))} />
            }
            <i class="dot" ~style={percent(level)} />
            if let Some(limit) = limit { <i class="limit" ~style={percent(limit)}><span>{ "limit" }</span></i> }
        </div>
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

/// The ways out are in the first view; the fragment belongs to the design, so the link moves the focus instead of the address.
fn to_ways_out(go: Callback<View>) -> Callback<MouseEvent> {
    Callback::from(move |event: MouseEvent| {
        event.prevent_default();
        go.emit(View::Estimate);
        focus_soon("ways-out".to_owned());
    })
}
