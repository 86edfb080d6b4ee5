//! Sheets to be bought, and how each is sawn.

use hushwright::workshop::layout::{SheetLayout, Stock};
use maud::{Markup, html};

use super::Desk;
use super::cells::{Cell, MEASURED, SIZE, sides, thickness};
use super::drawings::{sheet, sheet_svg_file};
use crate::quantity::{Quantity, decimal};

/// Length and width in mm of sheets as shops have them (common practice, no source).
const USUAL_MM: [[f64; 2]; 3] = [[2440.0, 1220.0], [2500.0, 1250.0], [2400.0, 1200.0]];

/// Sheets by material and thickness, and the drawing of each.
pub fn sheets(desk: &Desk) -> Markup {
    let Desk { plan, .. } = *desk;
    html! {
        div class="scroll" tabindex="0" role="region" aria-label="Table of sheets" { table class="stock" {
            thead { tr {
                th scope="col" { "Material" } th scope="col" { "Nominal" } th scope="col" { "Measured" }
                th scope="col" { "Sheet, mm" } th scope="col" { "Sheet, length" } th scope="col" { "Sheet, width" } th scope="col" { "Sheets" } th scope="col" { "Used" }
            } }
            tbody { @for k in 0..plan.list.boards.len() { (stock(desk, k)) } }
        } }
        p class="hint" {
            "Measured thickness counts everywhere, in the sizes as in the sound. Choose a usual size of sheets, or enter their own. The \
             layout is the best of many tries, not proven to be the best \
             there is: “at least” says what no layout can go below."
        }
        (too_big(desk))
        (drawings(desk))
    }
}

/// A board's line: what it is, how large its sheets are, how many are needed.
fn stock(desk: &Desk, k: usize) -> Markup {
    let Desk { plan, units, design, kept } = *desk;
    let (board, stock, layout) = (&plan.list.boards[k], &plan.stocks[k], &plan.layouts[k]);
    let own = &design.document.build.own;
    let size = |what: &str, value: f64| {
        let key = format!("{}/{what}", board.key);
        // The sheets of one material have one size, whatever their thickness.
        let id = format!("{key}/{k}");
        let label =
            format!("{} of a sheet of {} {}", crate::words::capital(what), board.name, thickness(board.nominal_mm, units));
        let is_own = Cell::is_own(own, &key);
        Cell { key, id, label, value: Some(value), quantity: Quantity::Length, is_own, kept }.input(units)
    };
    html! { tr {
        th scope="row" { (board.name) }
        td { (thickness(board.nominal_mm, units)) }
        td { (measured_cell(k, desk)) " " (units.length_unit()) }
        td { (usual_size(k, desk)) }
        td { (size("length", stock.length_mm)) }
        td { (size("width", stock.width_mm)) }
        td { b { (layout.sheets.len()) } ", at least " (layout.bound) }
        td { (decimal(100.0 * layout.yield_share, 0)) "\u{a0}%" }
    } }
}

/// Sizes of sheets as shops have them, to be chosen from: the key says what the material's sheets measure now, if it is one of them.
fn usual_size(k: usize, desk: &Desk) -> Markup {
    let (board, stock) = (&desk.plan.list.boards[k], &desk.plan.stocks[k]);
    let now = USUAL_MM.iter().position(|[length_mm, width_mm]| *length_mm == stock.length_mm && *width_mm == stock.width_mm);
    html! {
        select class="own" id=(format!("own-size-{k}")) data-own=(format!("{}{SIZE}", board.key))
            aria-label=(format!("Usual size of a sheet of {} {}", board.name, thickness(board.nominal_mm, desk.units))) {
            @if now.is_none() { option value="" selected { "own" } }
            @for (at, [length_mm, width_mm]) in USUAL_MM.iter().enumerate() {
                option value=(format!("{length_mm} {width_mm}")) selected[now == Some(at)] { (length_mm) " × " (width_mm) }
            }
        }
    }
}

fn measured_cell(k: usize, desk: &Desk) -> Markup {
    let board = &desk.plan.list.boards[k];
    let key = format!("{MEASURED}{}/{}/{}", board.key, board.thickness_mm, board.nominal_mm);
    let id = format!("{MEASURED}{}/{k}", board.key);
    let label =
        format!("Measured thickness of {} {}, {}", board.name, thickness(board.nominal_mm, desk.units), desk.units.length_unit());
    let value = Some(board.thickness_mm);
    let is_own = board.thickness_mm != board.nominal_mm;
    Cell { key, id, label, value, quantity: Quantity::Thickness, is_own, kept: desk.kept }.input(desk.units)
}

/// Boards that no sheet holds, with the joint that they need.
fn too_big(desk: &Desk) -> Markup {
    let Desk { plan, units, .. } = *desk;
    let all = plan.layouts.iter().flat_map(|layout| &layout.too_big);
    html! { @for part in all {
        @let line = &plan.list.lines[part.part];
        @let pieces = part.pieces_along * part.pieces_across;
        p class="alarm" {
            (line.names.join(", ")) ", " (sides(line.length_mm, line.width_mm, units)) ": larger than a sheet. Join "
            @if line.names.len() > 1 { "each of them " } "from " (pieces) " equal pieces, "
            (part.pieces_along) " along and " (part.pieces_across) " across, with a glued butt joint, and turn it away from those of the next \
             layer. They are in no drawing and in no price: take a larger sheet, or reckon them \
             extra."
        }
    } }
}

/// The drawing of sheet `number`, counted from 1 through all materials, as a file of its own.
pub fn sheet_file(desk: &Desk, number: usize) -> Option<String> {
    let (layout, stock) = numbered(desk).find(|(own, _, _)| *own == number).map(|(_, layout, stock)| (layout, stock))?;
    Some(sheet_svg_file(layout, stock, &desk.plan.list, number, desk.units))
}

/// All sheets with their numbers, counted from 1 through all materials.
fn numbered<'a>(desk: &Desk<'a>) -> impl Iterator<Item = (usize, &'a SheetLayout, &'a Stock)> + use<'a> {
    let plan = desk.plan;
    let all = plan.layouts.iter().zip(&plan.stocks).flat_map(|(layout, stock)| layout.sheets.iter().map(move |own| (own, stock)));
    all.enumerate().map(|(k, (layout, stock))| (k + 1, layout, stock))
}

/// The drawings, sheet by sheet.
fn drawings(desk: &Desk) -> Markup {
    html! { @for (number, layout, stock) in numbered(desk) {
        (sheet(layout, stock, &desk.plan.list, number, desk.units))
        p class="buttons" { button type="button" class="plain" data-save={ "sheet-" (number) } { "Save sheet " (number) " as SVG" } }
    } }
}
