//! Labels to be cut out and stuck on the boards.

use maud::{Markup, html};

use super::Desk;
use super::cells::{sides, thickness};

/// One label for each board.
pub fn labels(desk: &Desk) -> Markup {
    let Desk { plan, units, .. } = *desk;
    html! {
        p class="buttons" { button type="button" class="plain" data-print="plan-labels" { "Print the labels" } }
        ul class="labels" { @for line in &plan.list.lines {
            @let board = &plan.list.boards[line.board];
            @for name in &line.names { li {
                b { (name) }
                span { (sides(line.length_mm, line.width_mm, units)) }
                span { (board.name) ", " (thickness(board.thickness_mm, units)) }
                @if line.keeps_grain { span { "grain ⟷ along the length" } }
            } }
        } }
    }
}
