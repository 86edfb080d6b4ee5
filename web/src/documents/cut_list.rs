//! The cut list: what is sawn, from what, how large.

use hushwright::workshop::{CutLine, feet_and_inches};
use maud::{Markup, html};

use super::Desk;
use super::cells::{millimetres, thickness};
use super::words;
use crate::quantity::decimal;

/// The list as a table, and its buttons.
pub fn cut_list(desk: &Desk) -> Markup {
    let Desk { plan, units, design, .. } = *desk;
    let count: usize = plan.list.lines.iter().map(|line| line.names.len()).sum();
    let grain = |line: &CutLine| if line.keeps_grain { "along the length" } else { "any" };
    html! {
        p class="buttons" {
            button type="button" class="plain" data-save="csv" { "Save as CSV" } " "
            button type="button" class="plain" data-print="plan-cut-list" { "Print this list" }
        }
        div class="scroll" tabindex="0" role="region" aria-label="Table of boards" { table class="cut" {
            thead { tr {
                th scope="col" { "Boards" } th scope="col" { "Count" } th scope="col" { "Length" } th scope="col" { "Width" }
                th scope="col" { "ft and in" } th scope="col" { "Material" } th scope="col" { "Grain" }
            } }
            tbody { @for line in &plan.list.lines {
                @let board = &plan.list.boards[line.board];
                tr {
                    th scope="row" { (line.names.join(", ")) @if line.has_openings { " ◦" } }
                    td { (line.names.len()) }
                    td { (millimetres(line.length_mm)) }
                    td { (millimetres(line.width_mm)) }
                    td { (feet_and_inches(line.length_mm)) " × " (feet_and_inches(line.width_mm)) }
                    td { (board.name) ", " (thickness(board.thickness_mm, units)) }
                    td { @if board.has_grain { (grain(line)) } @else { "none" } }
                }
            } }
        } }
        p class="hint" {
            (count) " boards. The letter is the box (" @for (k, shell) in plan.shells.iter().enumerate() {
                @if k > 0 { ", " } (shell.name.letter()) " " (words::shell(shell.name, plan)) }
            "), the number the layer from the inside. Length and width in mm, to a tenth; in inches to the nearest 1/32, 0.4 mm off at \
             most. ◦ has holes: see above."
            @if design.document.inner.baffle.is_some() { " The driver’s hole in the baffle follows its own template." }
        }
    }
}

/// The list as comma-separated values (RFC 4180), names of parts with blanks between them.
pub fn csv(desk: &Desk) -> String {
    let plan = desk.plan;
    let mut lines = vec!["boards,count,length_mm,width_mm,length_ft_in,width_ft_in,material,thickness_mm,grain".to_owned()];
    for line in &plan.list.lines {
        let board = &plan.list.boards[line.board];
        lines.push(
            [
                quoted(&line.names.join("; ")),
                line.names.len().to_string(),
                millimetres(line.length_mm),
                millimetres(line.width_mm),
                quoted(&feet_and_inches(line.length_mm)),
                quoted(&feet_and_inches(line.width_mm)),
                quoted(&board.name),
                decimal(board.thickness_mm, 2),
                if line.keeps_grain { "length" } else { "any" }.to_owned(),
            ]
            .join(","),
        );
    }
    lines.join("\r\n") + "\r\n"
}

/// A field in quotes, those within it doubled.
fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('"', "\"\""))
}
