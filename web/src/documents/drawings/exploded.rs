//! A shell with its lid drawn away: parallel projection, length and width at 30 degrees to the level, all in one scale.

use hushwright::workshop::panel::{Block, Face};
use hushwright::workshop::{Part, ShellBox};
use maud::{Markup, html};

use super::paper::{Anchor, Label, Paper, Point};
use super::{counted, slug};
use crate::charts::cut::Hatch;
use crate::rect::Rect;

/// Cosine and sine of 30 degrees.
const SLANT: [f64; 2] = [0.866_025_403_784_438_6, 0.5];
/// Size of the text as a part of the width of the drawing.
const TEXT: f64 = 0.032;
/// How far the lid is drawn away, as a part of the mean of its sides.
const AWAY: f64 = 0.55;

/// A point of the box as it is drawn: seen from the front, from the right and from above.
fn on_paper([x, y, z]: [f64; 3]) -> Point {
    (SLANT[0] * (y - x), SLANT[1] * (x + y) - z)
}

/// A body, its look and its name.
struct Body<'a> {
    block: Block,
    part: &'a Part,
}

impl Body<'_> {
    fn corner(&self, far: [bool; 3]) -> Point {
        on_paper(std::array::from_fn(|axis| if far[axis] { self.block.to_mm[axis] } else { self.block.from_mm[axis] }))
    }

    /// The three faces that are seen: front, right, top.
    fn faces(&self) -> [(usize, [Point; 4]); 3] {
        std::array::from_fn(|axis| {
            let [u, v] = [(axis + 1) % 3, (axis + 2) % 3];
            let corner = |at_u: bool, at_v: bool| {
                let mut far = [true; 3];
                (far[u], far[v]) = (at_u, at_v);
                self.corner(far)
            };
            (axis, [corner(false, false), corner(true, false), corner(true, true), corner(false, true)])
        })
    }
}

/// Whether `one` lies behind `other` along some axis, for somebody towards whom all axes point.
fn is_behind(one: &Block, other: &Block) -> bool {
    (0..3).any(|axis| one.to_mm[axis] <= other.from_mm[axis] + 1e-6)
}

/// Bodies in an order in which none covers one that comes after it.
///
/// Should some lie in a ring behind each other, the one furthest away goes first.
fn painters_order(mut bodies: Vec<Body>) -> Vec<Body> {
    let mut order = Vec::with_capacity(bodies.len());
    let depth = |body: &Body| body.block.middle_mm().iter().sum::<f64>();
    while !bodies.is_empty() {
        let blocked = |k: usize| {
            let own = &bodies[k].block;
            (0..bodies.len()).any(|j| j != k && is_behind(&bodies[j].block, own) && !is_behind(own, &bodies[j].block))
        };
        let free = (0..bodies.len()).find(|k| !blocked(*k));
        let furthest = || (0..bodies.len()).min_by(|i, j| depth(&bodies[*i]).total_cmp(&depth(&bodies[*j])));
        let Some(next) = free.or_else(furthest) else { break };
        order.push(bodies.swap_remove(next));
    }
    order
}

/// How far the lid is drawn away along its axis, in mm: it is to stand clear of the opening.
fn away_mm(shell: &ShellBox) -> f64 {
    let size = shell.outside().size_mm();
    let [u, v] = shell.lid.across();
    AWAY * 0.5 * (size[u] + size[v])
}

/// Where the name of a face stands: on the box if it is seen, else beside it with a line to its edge.
fn name_faces(paper: &mut Paper, outside: &Block, lid: Face) {
    let em = paper.em;
    let [middle, far, near] = [outside.middle_mm(), outside.to_mm, outside.from_mm];
    for face in Face::ALL.into_iter().filter(|face| *face != lid) {
        let axis = face.axis();
        let mut at = middle;
        if face.is_far() {
            at[axis] = far[axis];
            paper.label("name", &Label::row(face.name(), on_paper(at)));
            continue;
        }
        // What is not seen is named at an edge that is.
        let (edge, aside, anchor) = match face {
            Face::Back => ([near[0], 0.5 * (middle[1] + far[1]), far[2]], (1.2 * em, -1.4 * em), Anchor::Start),
            Face::Left => ([0.5 * (middle[0] + far[0]), near[1], far[2]], (-1.2 * em, -1.4 * em), Anchor::End),
            _ => ([0.5 * (middle[0] + far[0]), far[1], near[2]], (1.2 * em, 1.4 * em), Anchor::Start),
        };
        let (x, y) = on_paper(edge);
        let end = (x + aside.0, y + aside.1);
        paper.line("leader", &[(x, y), end]);
        let gap = if anchor == Anchor::End { -0.3 * em } else { 0.3 * em };
        paper.label("name", &Label::row(face.name(), (end.0 + gap, end.1)).anchored(anchor));
    }
}

/// The boards of `shell` among `parts`, put together, with the lid drawn away along its axis.
pub fn exploded(shell: &ShellBox, parts: &[Part]) -> Markup {
    let (axis, away) = (shell.lid.axis(), away_mm(shell));
    let own = parts.iter().filter(|part| part.shell == shell.name && part.layer.is_some());
    let bodies: Vec<Body> = own
        .map(|part| {
            let mut block = part.at;
            if part.is_lid {
                block.from_mm[axis] += away;
                block.to_mm[axis] += away;
            }
            Body { block, part }
        })
        .collect();
    let outside = shell.outside();
    let corners = outside.size_mm();
    let mut frame = Rect::about((0.0, 0.0), 1.0, 1.0);
    for body in &bodies {
        for (x, y) in body.faces().into_iter().flat_map(|(_, points)| points) {
            frame = frame.with(&Rect::about((x, y), 0.0, 0.0));
        }
    }
    let mut paper = Paper::new(frame, TEXT * 1.1 * frame.width().max(0.5 * corners[2]));
    let mut lid_middle = None;
    for body in painters_order(bodies) {
        let key = Hatch::of_key(&body.part.board.key).key();
        for (side, points) in body.faces() {
            paper.area(&format!("side {key} side-{side}"), &points);
        }
        if body.part.is_lid {
            let mut at = body.block.middle_mm();
            at[axis] = body.block.to_mm[axis];
            lid_middle = Some(on_paper(at));
        }
    }
    name_faces(&mut paper, &outside, shell.lid);
    if let Some(at) = lid_middle {
        paper.label("name", &Label::row(format!("lid ({})", shell.lid.name()), at));
    }
    let words = format!(
        "The {} put together, seen from the front, the right and above, its lid ({}) drawn away; {}",
        shell.name.name(),
        shell.lid.name(),
        counted(shell.layers.len(), "layer"),
    );
    html! {
        figure class="drawing exploded" {
            (paper.svg(&format!("exploded-{}", slug(shell.name.name())), &words))
            figcaption { (words) ". Not for measuring." }
        }
    }
}
