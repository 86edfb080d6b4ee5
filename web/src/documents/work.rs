//! Work: hours by operation, and the order in which it is done.

use hushwright::workshop::{Operation, minutes};
use maud::{Markup, html};

use super::Desk;
use super::cells::{Cell, hours};
use super::words;
use crate::quantity::{Quantity, decimal};

/// The order of work, then the hours by operation.
pub fn work(desk: &Desk) -> Markup {
    let Desk { plan, design, .. } = *desk;
    let drying: f64 = plan.steps.iter().map(|step| step.drying_h).sum();
    html! {
        p { b { (hours(plan.hours)) } " of work, and up to " (hours(drying)) " of waiting in between, less where steps overlap." }
        ol class="order" { @for step in &plan.steps {
            @let (title, text) = words::step(step.kind, plan, design);
            li {
                b { (title) } " " span class="time" { (hours(step.hours)) @if step.drying_h > 0.0 { ", then " (hours(step.drying_h)) " to set" } }
                br; (text)
            }
        } }
        details class="rates" {
            summary { "Hours by kind of work, and how long one takes" }
            (rates(desk))
        }
    }
}

fn rates(desk: &Desk) -> Markup {
    let Desk { plan, design, units, kept } = *desk;
    let own = &design.document.build.own;
    let amount = |operation: Operation| -> f64 {
        plan.tasks.iter().filter(|task| task.operation == operation).map(|task| task.amount).sum()
    };
    html! {
        div class="scroll" tabindex="0" role="region" aria-label="Table of hours" { table {
            thead { tr { th scope="col" { "Work" } th scope="col" { "How much" } th scope="col" { "Minutes for one" } th scope="col" { "Hours" } } }
            tbody {
                @for operation in Operation::ALL {
                    @let much = amount(operation);
                    @if much > 0.0 { tr {
                        th scope="row" { (operation.name()) }
                        td { (decimal(much, usize::from(much.fract() != 0.0))) " × " (operation.per()) }
                        td { (Cell {
                            key: operation.own_key(),
                            id: operation.own_key(),
                            label: format!("Minutes for one {}: {}", operation.per(), operation.name()),
                            value: Some(minutes(operation, own)),
                            quantity: Quantity::Coefficient,
                            is_own: Cell::is_own(own, &operation.own_key()),
                            kept,
                        }.input(units)) }
                        td { (decimal(much * minutes(operation, own) / 60.0, 1)) }
                    } }
                }
                tr class="sum" { th scope="row" { "All" } td {} td {} td { (decimal(plan.hours, 1)) } }
            }
        } }
        p class="hint" { "The times are assumed, for hand-held machines and somebody who does not do this every day. Change what you know better." }
    }
}
