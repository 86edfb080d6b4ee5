//! How the boards of a shell meet: its three kinds of edges and the edge of its lid, cut across.

use hushwright::workshop::ShellBox;
use hushwright::workshop::panel::Face;
use maud::{Markup, html};

use super::corner::{Corner, layer_numbers};
use super::lid::lid_edge;
use super::paper::Label;
use super::{length, slug};
use crate::quantity::Units;
use crate::words::capital;

/// The three kinds of edges: axes to the right and up, and how they are seen.
const KINDS: [([usize; 2], &str); 3] = [
    ([0, 1], "length × width, cut level, seen from above"),
    ([1, 2], "width × height, cut across"),
    ([0, 2], "length × height, cut along"),
];

/// The face at the low end of an axis: no lid is there.
pub(super) const fn low_face(axis: usize) -> Face {
    match axis {
        0 => Face::Back,
        1 => Face::Left,
        _ => Face::Bottom,
    }
}

/// Which board covers which, edge by edge and layer by layer, and how the lid sits in its walls.
pub fn joints(shell: &ShellBox, units: Units) -> Markup {
    let play = shell.layers.first().map_or(0.0, |layer| layer.layer.clearance_mm);
    let seams =
        if play > 0.0 { format!("seams, with {} of play", length(play, units)) } else { "seams, without play".to_owned() };
    html! {
        div class="drawing joints" {
            div class="corners" {
                @for (axes, seen) in KINDS { (edge(shell, axes, seen)) }
                (lid_edge(shell, units))
            }
            p {
                "Thicknesses to scale, the boards broken off. Heavy lines: " (seams) ". "
                "Layers are counted from the inside" @if shell.layers.len() > 1 { "; the seam of one never lies behind that of the next" } "."
            }
        }
    }
}

/// Counted in words: `layer 1`, `layers 1 and 3`.
fn layers(places: &[usize]) -> String {
    let numbers: Vec<String> = places.iter().map(|place| (place + 1).to_string()).collect();
    match &numbers[..] {
        [one] => format!("layer {one}"),
        [first @ .., last] => format!("layers {} and {last}", first.join(", ")),
        [] => String::new(),
    }
}

/// One kind of edge.
fn edge(shell: &ShellBox, axes: [usize; 2], seen: &str) -> Markup {
    let corner = Corner::new(shell, axes, false);
    let mut paper = corner.paper();
    let faces = axes.map(low_face);
    let (mut middles, mut covering) = (Vec::new(), [Vec::new(), Vec::new()]);
    let mut seams = Vec::new();
    for layer in &shell.layers {
        corner.bond(&mut paper, layer, faces);
        for (k, face) in faces.into_iter().enumerate() {
            let rect = corner.board(&mut paper, layer, face, (layer.place + k) % 2 == 1);
            if k == 0 {
                middles.push(rect.middle().0);
            }
        }
        let (inside, outside, half) = (layer.layer.inside, layer.layer.outside(), 0.5 * layer.layer.clearance_mm);
        // From the outer corner: the inner and the outer face of the layer.
        let [inner, outer] = [inside, outside].map(|block| {
            let [a, b] = axes;
            [block.from_mm[a] - corner.origin_mm[0], block.from_mm[b] - corner.origin_mm[1]]
        });
        let first_covers = layer.layer.joints.covers(axes[0], axes[1]);
        covering[usize::from(!first_covers)].push(layer.place);
        seams.push(if first_covers {
            [(inner[0] + half, -outer[1]), (inner[0] + half, -inner[1])]
        } else {
            [(outer[0], -inner[1] - half), (inner[0], -inner[1] - half)]
        });
    }
    for seam in seams {
        paper.line("seam", &seam);
    }
    let (em, reach) = (paper.em, corner.reach_mm);
    layer_numbers(&mut paper, &middles, -reach, -reach - 1.4 * em);
    let wall = super::corner::wall_mm(shell);
    paper.label("dims", &Label::row(faces[0].name(), (0.5 * wall, -reach - 2.7 * em)));
    paper.label("dims", &Label::row(faces[1].name(), (reach + em, -0.5 * wall)).turned());
    let [one, other] = faces.map(Face::name);
    let mut ways = [(&covering[0], one, other), (&covering[1], other, one)];
    ways.sort_by_key(|(places, ..)| places.first().copied());
    let mut words = Vec::new();
    for (places, over, under) in ways {
        if !places.is_empty() {
            words.push(format!("{}: the {over} covers the end of the {under}", layers(places)));
        }
    }
    let words = capital(&words.join("; "));
    let title = format!("Corner of the {}, {seen}. {words}", shell.name.name());
    let id = format!("joints-{}-{one}-{other}", slug(shell.name.name()));
    html! {
        figure {
            (paper.svg(&id, &title))
            figcaption { b { (capital(seen)) } ". " (words) "." }
        }
    }
}
