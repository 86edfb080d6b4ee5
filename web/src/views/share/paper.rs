//! What is printed from here, and what from Build.

use gloo::utils::window;
use yew::prelude::*;

use crate::view::View;

/// The button, and the way to the build sheet.
pub fn paper(fragment: &str, go: &Callback<View>) -> Html {
    let print = Callback::from(|_: MouseEvent| {
        if let Err(error) = window().print() {
            web_sys::console::error_1(&error);
        }
    });
    html! {
        <section aria-labelledby="paper-title">
            <h2 id="paper-title">{ "On paper" }</h2>
            <div class="buttons"><button type="button" id="print-share" onclick={print}>{ "Print link and code" }</button></div>
            <p class="hint">
                { "One sheet with the name, the answer, the link and the code. The build sheet, with sizes, cut list and drawings, is printed from " }
                { super::super::header::link_to(View::Build, "share-to-build", fragment, go, None) }
                { "." }
            </p>
        </section>
    }
}
