//! Sizes of the boxes, and what the inside has to hold.

use maud::{Markup, html};

use super::Desk;
use super::cells::measured;
use super::words;

/// Sizes from the inside out.
pub fn sizes(desk: &Desk) -> Markup {
    let Desk { plan, units, .. } = *desk;
    let [length, width, height] = ["length", "width", "height"];
    let row = |name: String, size_mm: [f64; 3]| {
        html! { tr { th scope="row" { (name) } @for side in size_mm { td { (measured(side, units)) } } } }
    };
    let short: Vec<(&str, f64, f64)> = [length, width, height]
        .into_iter()
        .zip(plan.needed.size_mm)
        .zip(plan.shells[0].inside().size_mm())
        .filter(|((_, needs), has)| *needs > has + 0.05)
        .map(|((name, needs), has)| (name, needs, has))
        .collect();
    let rear =
        desk.plan.needed.rear_mm.zip(desk.design.document.inner.baffle.as_ref()).filter(|(needs, part)| *needs > part.rear_mm);
    html! {
        div class="scroll" tabindex="0" role="region" aria-label="Table of sizes" { table class="sizes" {
            thead { tr { td {} th scope="col" { (length) } th scope="col" { (width) } th scope="col" { (height) } } }
            tbody {
                @for shell in &plan.shells {
                    (row(format!("{}, inside", crate::words::capital(words::shell(shell.name, plan))), shell.inside().size_mm()))
                    (row(format!("{}, outside", crate::words::capital(words::shell(shell.name, plan))), shell.outside().size_mm()))
                }
                (row("What stands in it needs".to_owned(), plan.needed.size_mm))
            }
        } }
        p class="hint" {
            "Needed length, from the back: "
            @for (k, (piece, mm)) in plan.needed.length_of.iter().enumerate() {
                @if k > 0 { " + " }
                (words::piece(*piece)) " " (measured(*mm, units))
            }
            "."
        }
        @if short.is_empty() && rear.is_none() {
            p { "What stands in it has room." }
        }
        @for (name, needs, has) in short {
            p class="alarm" {
                "Too small inside: the " (name) " has to be " (measured(needs, units)) ", and is " (measured(has, units)) "."
            }
        }
        @if let Some((needs, part)) = rear {
            p class="alarm" {
                "The chamber behind the baffle has to be " (measured(needs, units)) " deep, and is " (measured(part.rear_mm, units)) "."
            }
        }
    }
}
