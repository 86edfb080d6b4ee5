//! What sets a design beside the present one: a copy of that, an example, a design kept on the device, a pasted link.

use maud::{Markup, html};

use crate::schedule::{Comparison, LETTERS};

/// The controls; the page listens for them.
pub fn tools(asked: &Comparison) -> Markup {
    // Said to be disabled instead of being so: whoever has set the last one beside stays at the button.
    let full = (asked.columns.len() >= LETTERS.len()).then_some("true");
    let wrong = asked.wrong.as_deref();
    html! {
        p class="hint" {
            "A is the design at hand and follows every change of it. Set it beside itself, change something in Estimate, and come back: \
             the difference stands here. The address of this view holds all designs."
        }
        form class="set-beside" {
            button type="button" id="compare-freeze" class="chief" data-beside="copy 0" aria-disabled=[full] { "Set this design beside" }
            div class="offered" {
                div class="choice" {
                    label for="compare-which" { "Another" }
                    select id="compare-which" { @for (k, name) in asked.offered.iter().enumerate() { option value=(k) { (name) } } }
                }
                button type="button" id="compare-put" data-beside="put 0" aria-disabled=[full] { "Set it beside" }
            }
            div class="offered" {
                div class="choice" {
                    label for="compare-link" { "Link of one" }
                    input type="text" id="compare-link" autocomplete="off" spellcheck="false" value=(asked.pasted)
                        aria-invalid=[wrong.map(|_| "true")] aria-describedby=[wrong.map(|_| "compare-error")];
                }
                button type="submit" id="compare-paste" aria-disabled=[full] { "Set it beside" span class="unseen" { ", by its link" } }
            }
            @if let Some(wrong) = wrong { p class="refusal" id="compare-error" role="alert" { (wrong) } }
        }
    }
}
