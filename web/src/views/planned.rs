//! The plan of the design, as it is wanted: its gist always, its documents where they are shown.

use std::rc::Rc;

use gloo::timers::callback::Timeout;
use hushwright::design::Design;
use js_sys::Date;
use yew::prelude::*;

use crate::documents::Planned;
use crate::planner::{self, Question};
use crate::state::State;

/// While something moves, a plan is made at most every so many ms,
const PACE_MS: f64 = 120.0;
/// and takes no more than one part in so many of the time: documents of very large boxes take a second.
const REST: f64 = 5.0;

/// What is known of the plan.
#[derive(Clone, Default, PartialEq)]
pub struct Plan {
    /// The latest, and the design that it is of.
    pub latest: Option<(Rc<Design>, Rc<Planned>)>,
    /// What the last step began with in cost, if that is known.
    cost_before: Option<f64>,
    /// Whether the workshop could not be had.
    pub is_missing: bool,
}

impl Plan {
    /// What the last step changed in the cost of building; 0 as long as that is not known.
    pub fn cost_change(&self) -> f64 {
        self.latest.as_ref().zip(self.cost_before).map_or(0.0, |((_, planned), before)| planned.gist.cost - before)
    }
}

/// The plan of the design, with its documents if `with_sections`. The workshop is fetched once the page has come to rest, or at once
/// where its documents are wanted.
#[hook]
pub fn use_planned(state: &State, with_sections: bool, idle: u32) -> Plan {
    let plan = use_state_eq(Plan::default);
    let is_loaded = use_state_eq(|| false);
    // When the next one may be made.
    let next_ms = use_mut_ref(|| 0.0);
    // The step that is being looked at, what things cost before it, and what they cost now.
    let costs = use_mut_ref(|| (0_u32, None::<f64>, None::<f64>));
    let steps = state.steps();
    {
        let (plan, is_loaded) = (plan.clone(), is_loaded.setter());
        use_effect_with(with_sections || idle > 0, move |wanted| {
            if *wanted {
                wasm_bindgen_futures::spawn_local(async move {
                    match planner::load().await {
                        Ok(()) => is_loaded.set(true),
                        Err(_) => plan.set(Plan { is_missing: true, ..Plan::default() }),
                    }
                });
            }
        });
    }
    {
        let plan = plan.setter();
        let wanted = (Rc::clone(state.design()), state.units(), state.kept_own(), with_sections, *is_loaded);
        use_effect_with(wanted, move |(design, units, kept, with_sections, is_loaded)| {
            let wait_ms = (*next_ms.borrow() - Date::now()).max(0.0);
            let (design, question) = (Rc::clone(design), Question::new(design, *units, kept.clone(), *with_sections));
            let waiting = is_loaded.then(|| {
                Timeout::new(wait_ms as u32, move || {
                    let began_ms = Date::now();
                    let planned = planner::planned(&question);
                    let is_missing = planned.is_none();
                    let mut costs = costs.borrow_mut();
                    if costs.0 != steps {
                        (costs.0, costs.1) = (steps, costs.2);
                    }
                    costs.2 = planned.as_ref().map(|planned| planned.gist.cost);
                    let latest = planned.map(|planned| (design, Rc::new(planned)));
                    let took_ms = Date::now() - began_ms;
                    next_ms.replace(Date::now() + PACE_MS.max(REST * took_ms));
                    plan.set(Plan { latest, cost_before: costs.1, is_missing });
                })
            });
            move || drop(waiting)
        });
    }
    (*plan).clone()
}
