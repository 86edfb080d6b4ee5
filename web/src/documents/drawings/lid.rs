//! The edge of a lid, cut across: steps or none, the play round it, the seals.

use hushwright::workshop::ShellBox;
use maud::{Markup, html};

use super::corner::{Corner, layer_numbers, wall_mm};
use super::joints::low_face;
use super::paper::{Anchor, Label, Point};
use super::{length, slug};
use crate::quantity::Units;
use crate::rect::Rect;
use crate::words::capital;

/// Largest radius of a seal as it is drawn, in mm.
const SEAL_MM: f64 = 4.0;
/// Least radius of a seal as a part of the width of the drawing: it is to be seen.
const LEAST_SEAL: f64 = 0.012;

/// Where seals lie: on the steps from the outermost inwards, then in the play beside the boards; without steps, in that play one
/// behind the other. `walls` and `lids` are the boards as they are drawn, from the inside out.
fn seals(count: usize, is_stepped: bool, walls: &[Rect], lids: &[Rect]) -> Vec<Point> {
    let mut places = Vec::new();
    if is_stepped {
        // The lid's board lies on the end of the wall one layer further inside.
        for (wall, lid) in walls.iter().zip(lids.iter().skip(1)).rev() {
            let (from, to) = (wall.left.max(lid.left), wall.right);
            places.push((0.5 * (from + to), 0.5 * (wall.top + lid.bottom)));
        }
    }
    places.truncate(count);
    let rest = count - places.len();
    let beside: Vec<(f64, f64, f64)> = if is_stepped {
        walls.iter().zip(lids).map(|(wall, lid)| (0.5 * (wall.right + lid.left), lid.top, lid.bottom)).collect()
    } else {
        let (top, bottom) = (lids.last().map_or(0.0, |lid| lid.top), lids.first().map_or(0.0, |lid| lid.bottom));
        walls.first().zip(lids.first()).map(|(wall, lid)| (0.5 * (wall.right + lid.left), top, bottom)).into_iter().collect()
    };
    if let Some(rows) = (!beside.is_empty()).then_some(beside.len()) {
        for k in 0..rest {
            let (x, top, bottom) = beside[k % rows];
            let in_row = rest / rows + usize::from(k % rows < rest % rows);
            places.push((x, top + (bottom - top) * ((k / rows) as f64 + 0.5) / in_row as f64));
        }
    }
    places
}

/// Radius of the circles of seals: none touches another, unless it could not be seen any more.
fn seal_radius(seals: &[Point], thickness_mm: f64, reach_mm: f64) -> f64 {
    let pairs = seals.iter().enumerate().flat_map(|(k, one)| seals[k + 1..].iter().map(move |other| (one, other)));
    let nearest = pairs.map(|(one, other)| (one.0 - other.0).hypot(one.1 - other.1)).fold(f64::INFINITY, f64::min);
    SEAL_MM.min(0.3 * thickness_mm).min(0.4 * nearest).max(LEAST_SEAL * reach_mm)
}

/// The edge of the lid of `shell`, its outside upwards.
pub fn lid_edge(shell: &ShellBox, units: Units) -> Markup {
    let up = shell.lid.axis();
    let wall = low_face(shell.lid.across()[1]);
    let corner = Corner::new(shell, [wall.axis(), up], true);
    let mut paper = corner.paper();
    let (mut walls, mut lids) = (Vec::new(), Vec::new());
    for layer in &shell.layers {
        walls.push(corner.board(&mut paper, layer, wall, layer.place % 2 == 0));
        lids.push(corner.board(&mut paper, layer, shell.lid, layer.place % 2 == 1));
    }
    let (em, thickness) = (paper.em, wall_mm(shell));
    let seals = seals(shell.seals, shell.is_stepped, &walls, &lids);
    let radius = seal_radius(&seals, thickness, corner.reach_mm);
    for at in &seals {
        paper.circle("seal", *at, radius);
    }
    let middles: Vec<f64> = walls.iter().map(|rect| rect.middle().0).collect();
    let reach = corner.reach_mm;
    layer_numbers(&mut paper, &middles, reach, reach + 1.4 * em);
    let play = shell.layers.iter().filter_map(|layer| layer.layer.lid).map(|lid| lid.clearance_mm).fold(0.0, f64::max);
    if let Some(lid) = lids.last() {
        // The wall beside the outermost board of the lid.
        let wall = walls.iter().map(|wall| wall.right).filter(|right| *right <= lid.left + 1e-6).fold(0.0, f64::max);
        let x = 0.5 * (wall + lid.left);
        let y = paper.frame.top - 1.2 * em;
        paper.line("leader", &[(x, lid.top + 0.2 * lid.height()), (x, y + 0.6 * em)]);
        paper.label("dims", &Label::row(format!("play {}", length(play, units)), (x, y)).anchored(Anchor::Start));
    }
    paper.label("dims", &Label::row("lid", (reach + em, 0.5 * thickness)).turned());
    paper.label("dims", &Label::row(wall.name(), (0.5 * thickness, reach + 2.7 * em)));
    let form = if shell.is_stepped && shell.layers.len() > 1 { "a step for every layer" } else { "straight, without steps" };
    let lies = match shell.seals {
        0 => "no seal".to_owned(),
        1 => "one seal, the circle, drawn larger than it is".to_owned(),
        count => format!("{count} seals, the circles, drawn larger than they are"),
    };
    let words = format!("{}; {} of play all round; {lies}", capital(form), length(play, units));
    let title = format!("Edge of the lid of the {}, cut across, its outside upwards. {words}", shell.name.name());
    html! {
        figure {
            (paper.svg(&format!("lid-{}", slug(shell.name.name())), &title))
            figcaption { b { "Edge of the lid (" (shell.lid.name()) "), its outside upwards" } ". " (words) "." }
        }
    }
}
