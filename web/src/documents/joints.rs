//! How the boards go together: layer by layer, with the pattern of their joints, the lid, holes and supports.

use hushwright::workshop::panel::Face;
use hushwright::workshop::screws::EDGE_MM;
use hushwright::workshop::{Part, Places, ShellBox, openings_fit};
use maud::{Markup, html};

use super::Desk;
use super::cells::{mass, measured, sides, thickness};
use super::drawings;
use super::words;
use crate::quantity::Units;

/// Layers, joints, lid, holes, places of supports.
pub fn joints(desk: &Desk) -> Markup {
    let Desk { plan, units, design, .. } = *desk;
    let build = &design.document.build;
    html! {
        p {
            "Every layer is a box of its own, of five boards and one of the lid. "
            @if plan.shells.iter().any(|shell| shell.layers.len() > 1) {
                "From layer to layer the boards meet the other way round at every edge, so that no seam lies over a seam. "
            }
            "Play in every seam: "
            (thickness(build.clearance_mm, units)) ", filled with sealant; round the lid: " (thickness(build.lid_clearance_mm, units)) ". Screws at most "
            (measured(build.screw_mm, units)) " apart, the outermost " (measured(EDGE_MM, units)) " from the edges; those of every other \
             layer lie half a step further, so that no screw meets a screw."
        }
        @for shell in &plan.shells {
            h3 { (crate::words::capital(words::shell(shell.name, plan))) }
            div class="scroll" tabindex="0" role="region" aria-label={ "Table of layers, " (words::shell(shell.name, plan)) } { table class="layers-table" {
                thead { tr {
                    th scope="col" { "Layer" } th scope="col" { "Board" } th scope="col" { "Joined by" }
                    th scope="col" { "Run to the outside" } th scope="col" { "Lie between" } th scope="col" { "Screws up to" }
                } }
                tbody { @for layer in &shell.layers {
                    @let [first, _, last] = layer.layer.joints.0;
                    tr {
                        th scope="row" { (shell.name.letter()) (layer.place + 1) }
                        td { (layer.board.name) ", " (thickness(layer.board.thickness_mm, units))
                            @if layer.exists { ", there already" } }
                        td { (words::joint(layer.joint))
                            @if layer.joint_mm > 0.0 { ", " (thickness(layer.joint_mm, units)) } }
                        td { (pair(first)) }
                        td { (pair(last)) }
                        td { (longest(desk, shell, layer.place)) }
                    }
                } }
            } }
            p { (lid(shell)) }
            div class="row" { (drawings::joints(shell, units)) (drawings::exploded(shell, &plan.parts)) }
        }
        (holes(desk))
        h3 { "Supports" }
        @if let Some(places) = &plan.suspension { (supports("The inner box stands or hangs", places, desk)) }
        (supports("The whole stands", &plan.feet, desk))
        div class="row" {
            @if let Some(places) = &plan.suspension {
                (drawings::places(places, base(&plan.shells[0]), "Supports of the inner box", units))
            }
            @if let Some(shell) = plan.shells.last() { (drawings::places(&plan.feet, base(shell), "Feet", units)) }
        }
    }
}

/// Length and width in mm of the bottom of `shell`.
fn base(shell: &ShellBox) -> [f64; 2] {
    let [length_mm, width_mm, _] = shell.outside().size_mm();
    [length_mm, width_mm]
}

/// The two faces across `axis`.
const fn pair(axis: usize) -> &'static str {
    match axis {
        0 => "front and back",
        1 => "left and right",
        _ => "top and bottom",
    }
}

fn longest(desk: &Desk, shell: &ShellBox, place: usize) -> Markup {
    let of_layer = desk.plan.parts.iter().filter(|part| part.shell == shell.name && part.layer == Some(place));
    let longest_mm = of_layer.map(|part| part.screws.longest_mm).fold(0.0, f64::max);
    let into = if place == 0 { "into edges" } else { "through the face" };
    html! {
        @if longest_mm > 0.0 { (measured(longest_mm, desk.units)) ", " (into) }
        @else { "nothing behind holds a screw: glue" @if place == 0 { ", battens in the corners" } }
    }
}

fn lid(shell: &ShellBox) -> String {
    let face = shell.lid.name();
    let layers = shell.layers.len();
    if shell.is_stepped {
        let steps = layers - 1;
        let on = match steps {
            0 => "One board has no step: its seals lie on a frame of battens inside".to_owned(),
            1 => "It has one step, on the edge of the inner layer".to_owned(),
            _ => format!("It has {steps} steps, each on the edge of the layer inside it"),
        };
        let more = if shell.seals > steps && steps > 0 { "; further ones on a frame of battens inside the opening" } else { "" };
        format!("The lid is the {face}. {on}; a seal on each{more}.")
    } else {
        let seals = if shell.seals == 1 { "one seal".to_owned() } else { format!("{} seals one behind the other", shell.seals) };
        format!("The lid is the {face}. It goes straight through the wall with {seals}; a stop of battens inside holds it.")
    }
}

/// Where holes and cut-outs are, for every board that has some.
fn holes(desk: &Desk) -> Markup {
    let units = desk.units;
    let bored: Vec<_> = desk.plan.parts.iter().filter(|part| !part.openings.is_empty()).collect();
    if bored.is_empty() {
        return html! {};
    }
    let crowded = bored.iter().filter(|part| {
        let sides = part.face.map_or([0, 1], Face::across).map(|axis| part.at.size_mm()[axis]);
        !openings_fit(&part.openings, sides)
    });
    html! {
        h3 { "Holes" }
        div class="scroll" tabindex="0" role="region" aria-label="Table of holes" { table {
            thead { tr {
                th scope="col" { "Board" } th scope="col" { "Its width × height" } th scope="col" { "Hole" } th scope="col" { "From the left" } th scope="col" { "From below" }
            } }
            tbody { @for part in &bored { @for opening in &part.openings { tr {
                th scope="row" { (part.name) }
                td { (standing(part, units)) }
                td { @match opening.height_mm {
                    Some(height_mm) => { (measured(opening.width_mm, units)) " × " (measured(height_mm, units)) }
                    None => { "⌀ " (measured(opening.width_mm, units)) }
                } }
                td { (measured(opening.x_mm, units)) }
                td { (measured(opening.y_mm, units)) }
            } } } }
        } }
        div class="row" { @for shell in &desk.plan.shells {
            // One board stands for all layers: openings go straight through.
            @if let Some(part) = bored_first(desk, shell) { (drawings::board(part, units)) }
        } }
        @for part in crowded { p class="alarm" {
            (part.name) ": these openings do not all fit into one board. Take fewer or smaller ones, or a larger box."
        } }
        p class="hint" {
            "To the middle of the hole, from the edges of the board as it is seen from outside; of top and bottom, from the "
            (Face::Back.name()) " and from the " (Face::Left.name()) "."
        }
    }
}

/// The outermost board of `shell` with openings.
fn bored_first<'a>(desk: &Desk<'a>, shell: &ShellBox) -> Option<&'a Part> {
    desk.plan.parts.iter().rfind(|part| part.shell == shell.name && !part.openings.is_empty())
}

/// Width and height of a board as it is seen from outside.
fn standing(part: &Part, units: Units) -> String {
    let size_mm = part.at.size_mm();
    let [width_mm, height_mm] = part.face.map_or([1, 2], Face::across).map(|axis| size_mm[axis]);
    sides(width_mm, height_mm, units)
}

/// Where supports go.
fn supports(what: &str, places: &Places, desk: &Desk) -> Markup {
    let units = desk.units;
    html! {
        p {
            (what) " on " (places.at_mm.len()) ", each with " (mass(places.each_kg, units))
            @if places.most_kg > 1.05 * places.each_kg {
                " on average, the most loaded with " (mass(places.most_kg, units)) ": the mass lies far to one side"
            }
            ", from the back and from the left edge of \
             the bottom: "
            @for (k, [x, y]) in places.at_mm.iter().enumerate() {
                @if k > 0 { "; " }
                (measured(*x, units)) " and " (measured(*y, units))
            }
            "."
        }
    }
}
