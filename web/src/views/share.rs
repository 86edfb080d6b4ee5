//! The design to send, to keep and to open: its link, the link as a code to scan, files, paper.

mod code;
mod files;
mod link;
mod open;
mod paper;

use std::rc::Rc;

use yew::prelude::*;

use self::code::Code;
use self::files::Files;
use self::link::Link;
use self::open::Open;
use self::paper::paper;
use crate::address;
use crate::state::{Action, State};
use crate::sureness::Sureness;
use crate::view::View;

/// The view; `go` goes to another one.
pub fn share(state: &UseReducerHandle<State>, sureness: &Sureness, emit: &Callback<Action>, go: &Callback<View>) -> Html {
    let design = state.design();
    let link = AttrValue::from(address::link(state.fragment()));
    let name = AttrValue::from(called(&design.name).to_owned());
    let range = sureness.bands(design, state.report()).filter(|range| !range.is_carried_over);
    html! {
        <div class="send" id="view-share">
            <div class="sent">
                <Link link={link.clone()} name={name.clone()} />
                <Code {link} {name} />
            </div>
            <div class="kept">
                <Files state={state.clone()} report={Rc::clone(state.report())} {range} />
                <Open state={state.clone()} emit={emit.clone()} />
                { paper(state.fragment(), go) }
            </div>
        </div>
    }
}

/// What a design is called, for people.
fn called(name: &str) -> &str {
    let name = name.trim();
    if name.is_empty() { "a design without a name" } else { name }
}
