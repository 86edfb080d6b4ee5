//! The design to send, to keep and to open: its link, the link as a code to scan, files, paper.
//!
//! What is said of a link comes from the workshop with its code. Buttons say by `data-send` what they do, wherever they are made.

mod link;
mod opening;
mod saving;

use std::rc::Rc;

use gloo::utils::window;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;
use web_sys::Element;
use yew::prelude::*;

use super::shelf::Shelf;
use crate::components::MarkedUp;
use crate::planner;
use crate::state::{Action, State};
use crate::sureness::BandRange;
use crate::view::View;

/// What stands in the place of what the workshop says where it cannot be had.
const MISSING: &str = "<p id=\"code-missing\" role=\"status\">The code to scan could not be drawn: its program could not be loaded. \
                       Check the connection and load the page again.</p>";

/// What can be saved: nothing of it changes with the design.
const FILES: &str = "<section aria-labelledby=\"files-title\"><h2 id=\"files-title\">Files</h2><div class=\"buttons\">\
    <button type=\"button\" id=\"save-design\" data-send=\"design\">Save the design (JSON)</button>\
    <button type=\"button\" id=\"save-levels\" data-send=\"levels\">Save the levels (CSV)</button></div>\
    <p class=\"hint\">The first holds the whole design as plain text and opens here again. The second holds the levels of every station \
    by one-third octaves, for a spreadsheet.</p></section>";

/// What is said in answer to what was done, and where.
#[derive(Clone, Debug, Default, PartialEq)]
struct Said {
    /// Id of what says it.
    place: &'static str,
    text: String,
    /// How many steps there had been.
    steps: u32,
}

impl Said {
    /// What is said at `place`.
    fn at(&self, place: &str) -> Option<&str> {
        (self.place == place && !self.text.is_empty()).then_some(self.text.as_str())
    }

    /// As an alarm at the place with this id.
    fn alarm(&self, place: &'static str) -> Html {
        match self.at(place) {
            Some(text) => html! { <p class="refusal" role="alert" id={place}>{ text }</p> },
            None => Html::default(),
        }
    }
}

/// Properties of [`Share`].
#[derive(Clone, PartialEq, Properties)]
pub struct ShareProps {
    /// The page's state.
    pub state: UseReducerHandle<State>,
    /// The range of the levels, once that is known.
    pub range: Option<BandRange>,
    /// Where actions go.
    pub emit: Callback<Action>,
    /// Goes to another view.
    pub go: Callback<View>,
}

/// The view.
#[component]
pub fn Share(ShareProps { state, range, emit, go }: &ShareProps) -> Html {
    let said = use_state_eq(Said::default);
    let below = use_state_eq(|| AttrValue::Static(""));
    {
        let below = below.setter();
        use_effect_with(Rc::clone(state.design()), {
            let link = link::whole(state);
            move |design: &Rc<_>| {
                let design = Rc::clone(design);
                spawn_local(async move {
                    let text =
                        if planner::load().await.is_ok() { planner::below_link(&link, called(&design.name)) } else { None };
                    below.set(text.map_or(AttrValue::Static(MISSING), AttrValue::from));
                });
            }
        });
    }
    let onclick = {
        let (state, range, said, emit, go) = (state.clone(), range.clone(), said.setter(), emit.clone(), go.clone());
        Callback::from(move |event: MouseEvent| {
            let Some(button) = event.target().and_then(|target| target.dyn_into::<Element>().ok()) else { return };
            match button.get_attribute("data-send").as_deref() {
                Some("sheet") => link::pass_on(&state, &said),
                Some("pasted") => opening::open_pasted(&state, &emit, &said),
                // A plain click stays in this tab.
                Some("build") if !(event.ctrl_key() || event.meta_key() || event.shift_key() || event.alt_key()) => {
                    event.prevent_default();
                    go.emit(View::Build);
                }
                Some("print") => {
                    if let Err(error) = window().print() {
                        web_sys::console::error_1(&error);
                    }
                }
                Some(what) => said.set(saving::done(what, &state, range.as_ref())),
                None => {}
            }
        })
    };
    html! {
        <div class="send" id="view-share" {onclick}>
            <div class="sent">
                { link::link(state, &said) }
                <MarkedUp body={(*below).clone()} />
                { said.alarm("code-refused") }
            </div>
            <div class="kept">
                <MarkedUp body={AttrValue::Static(FILES)} />
                { said.alarm("file-refused") }
                { opening::opening(state, emit, &said) }
                <Shelf design={Rc::clone(state.design())} fragment={Rc::clone(state.fragment())} units={state.units()} emit={emit.clone()} />
            </div>
        </div>
    }
}

/// What a design is called, for people.
fn called(name: &str) -> &str {
    let name = name.trim();
    if name.is_empty() { "a design without a name" } else { name }
}
