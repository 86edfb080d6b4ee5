//! The shopping list, with prices that can be changed in place.

use hushwright::workshop::{Purchase, Unit};
use maud::{Markup, html};

use super::Desk;
use super::cells::{Cell, money, thickness};
use super::words;
use crate::quantity::{Quantity, decimal};

/// The list with its sum.
pub fn shopping(desk: &Desk) -> Markup {
    let Desk { plan, design, .. } = *desk;
    let build = &design.document.build;
    let currency = build.currency.trim();
    let sum = |name: &str, value: f64, class: &str| {
        html! { tr class=(class) { th scope="row" colspan="4" { (name) } td { (money(value)) } } }
    };
    html! {
        div class="scroll" tabindex="0" role="region" aria-label="Table of what is bought" { table class="shopping" {
            thead { tr {
                th scope="col" { "What" } th scope="col" { "Needed" } th scope="col" { "Buy" } th scope="col" { "Each" }
                th scope="col" { "Together" @if !currency.is_empty() { ", " (currency) } }
            } }
            tbody {
                @for purchase in &plan.purchases { (line(purchase, desk)) }
                (sum(if plan.money.is_incomplete { "Before tax, at least" } else { "Before tax" }, plan.money.net, "sum"))
                @if plan.money.tax > 0.0 { (sum("Tax", plan.money.tax, "")) (sum("With tax", plan.money.all(), "sum")) }
            }
        } }
        p class="hint" {
            "Prices are invented" @if currency.is_empty() { ", in no currency" }
            ": change them here, and empty a field to have the usual one back. "
            (decimal(100.0 * build.waste, 0)) " % for waste is in what is bought by length, area and volume; sheets have theirs in the \
             layout. Tools, paint and what lies in the workshop are not in it."
            @if plan.money.is_incomplete { " What has no price, and boards that no sheet holds, are left out of the sum: it comes to more." }
        }
    }
}

fn line(purchase: &Purchase, desk: &Desk) -> Markup {
    let units = desk.units;
    let is_sheet = desk.plan.list.boards.iter().any(|board| board.own_key() == purchase.key);
    let name = purchase.name.replace("m3", "m³");
    let digits = match purchase.unit {
        Unit::Pieces => usize::from(purchase.needed.fract() != 0.0),
        Unit::Kilograms | Unit::Hundreds => 2,
        Unit::Metres | Unit::SquareMetres => 1,
    };
    let amount =
        |value: f64, digits: usize| format!("{} {}", decimal(value, digits), words::unit(purchase.unit)).trim_end().to_owned();
    let bought_digits = match purchase.unit {
        Unit::Kilograms => 2,
        Unit::SquareMetres => 1,
        _ => 0,
    };
    let price = Cell {
        key: purchase.key.clone(),
        id: purchase.key.clone(),
        label: match purchase.thickness_mm {
            Some(mm) => format!("Price of one, {} {}", purchase.name, thickness(mm, units)),
            None => format!("Price of one, {}", purchase.name),
        },
        value: purchase.each,
        quantity: Quantity::Coefficient,
        is_own: purchase.is_own,
        kept: desk.kept,
    };
    html! { tr {
        th scope="row" {
            (name)
            @if let Some(mm) = purchase.thickness_mm { ", " (thickness(mm, units)) }
            @if is_sheet { ", sheet" }
            @if let Some(kg) = purchase.rated_kg { ", carries " (units.mass(kg)) }
        }
        td { (amount(purchase.needed, digits)) }
        td { b { (amount(purchase.bought, bought_digits)) } }
        td { (price.input(units)) }
        td { (purchase.cost().map_or_else(|| "no price".to_owned(), money)) }
    } }
}
