//! One board with its holes, cut-outs and screws, measured from its left and lower edge.

use hushwright::workshop::panel::Face;
use hushwright::workshop::screws::{EDGE_MM, row_mm};
use hushwright::workshop::{Opening, Part};
use maud::{Markup, html};

use super::paper::{Label, Paper, Point};
use super::places::ordinates;
use super::{counted, length, size, slug};
use crate::charts::cut::Hatch;
use crate::quantity::Units;
use crate::rect::Rect;

/// Size of the text as a part of the larger side of the board, with room for measures round it.
const TEXT: f64 = 0.036;
/// A screw keeps so far in mm from the edge of an opening; assumed.
const BESIDE_MM: f64 = 10.0;

/// How a face is looked at, and what its left and its lower edge are.
const fn seen(face: Face) -> &'static str {
    match face {
        Face::Front => "seen from outside; left edge: the box's left side; lower edge: its bottom",
        Face::Back => "seen from outside; left edge: the box's right side; lower edge: its bottom",
        Face::Left => "seen from outside; left edge: the box's back; lower edge: its bottom",
        Face::Right => "seen from outside; left edge: the box's front; lower edge: its bottom",
        Face::Top | Face::Bottom => "seen from above; left edge: the box's back; lower edge: its left side",
    }
}

/// What an opening covers, from the left and the lower edge, in mm.
fn covers(opening: &Opening, [x, y]: [f64; 2]) -> bool {
    let (dx, dy) = ((x - opening.x_mm).abs(), (y - opening.y_mm).abs());
    match opening.height_mm {
        None => dx.hypot(dy) < 0.5 * opening.width_mm + BESIDE_MM,
        Some(height_mm) => dx < 0.5 * opening.width_mm + BESIDE_MM && dy < 0.5 * height_mm + BESIDE_MM,
    }
}

/// Where the screws through the face of `part` go, from its left and its lower edge in mm.
fn screws_mm(part: &Part, [width_mm, height_mm]: [f64; 2]) -> Vec<[f64; 2]> {
    let [across, up] = part.screws.grid;
    if across == 0 || up == 0 {
        return Vec::new();
    }
    let columns = row_mm(width_mm, across, part.screws.is_shifted);
    let rows = row_mm(height_mm, up, false);
    rows.into_iter().flat_map(|y| columns.iter().map(move |x| [*x, y])).collect()
}

fn opening_words(opening: &Opening, units: Units) -> String {
    let what = match opening.height_mm {
        None => format!("hole ⌀ {}", length(opening.width_mm, units)),
        Some(height_mm) => format!("cut-out {}", size(opening.width_mm, height_mm, units)),
    };
    let [x, y] = [opening.x_mm, opening.y_mm].map(|at| length(at, units));
    format!("{what}, its middle {x} from the left and {y} from the lower edge")
}

/// The screws in words; `beside` of them would fall into openings.
fn screw_words(part: &Part, size_mm: [f64; 2], beside: usize, units: Units) -> String {
    let [across, up] = part.screws.grid;
    if across == 0 || up == 0 {
        return match part.screws.into_edges {
            0 => "No screws go through this board.".to_owned(),
            count => format!(
                "{} into the edges of the boards that it covers, at most {} long: not drawn here.",
                counted(count, "screw"),
                length(part.screws.longest_mm, units)
            ),
        };
    }
    let step = |row: &[f64]| if let [one, two, ..] = row { two - one } else { 0.0 };
    let columns = row_mm(size_mm[0], across, part.layer.is_some_and(|place| place % 2 == 0));
    let rows = row_mm(size_mm[1], up, false);
    let mut words = format!(
        "Dots: {across} × {up} screws through the face, at most {} long; {} apart across, the first {} from the left edge; {} apart upwards, the first {} from the lower edge.",
        length(part.screws.longest_mm, units),
        length(step(&columns), units),
        length(columns.first().copied().unwrap_or(EDGE_MM), units),
        length(step(&rows), units),
        length(rows.first().copied().unwrap_or(EDGE_MM), units),
    );
    if beside > 0 {
        let they = if beside == 1 { "is not drawn: it goes" } else { "are not drawn: they go" };
        words = format!("{words} {} would fall into openings and {they} beside them.", counted(beside, "screw"));
    }
    words
}

/// Numbers beside openings, where nothing else stands.
fn number_openings(paper: &mut Paper, openings: &[Opening], drawn: &[Rect], board: &Rect) {
    let em = paper.em;
    let mut taken = drawn.to_vec();
    for (k, (_, rect)) in openings.iter().zip(drawn).enumerate() {
        let words = (k + 1).to_string();
        let (x, y) = rect.middle();
        let (dx, dy) = (0.5 * rect.width() + 0.6 * em, 0.5 * rect.height() + 0.7 * em);
        let places = [(x + dx, y - dy), (x - dx, y - dy), (x + dx, y + dy), (x - dx, y + dy), (x, y - dy), (x, y + dy)];
        let labels = places.map(|at| Label::row(words.clone(), at));
        // Beside the cross in the middle.
        let middle = Label::row(words.clone(), (x + 0.25 * rect.width(), y - 0.25 * rect.height()));
        let fits_within = rect.grown(-0.1 * em).holds(&middle.rect(em));
        let free = |label: &&Label| {
            let own = label.rect(em);
            board.holds(&own) && !taken.iter().any(|other| other.meets(&own))
        };
        let label = if fits_within { Some(&middle) } else { labels.iter().find(free) };
        if let Some(label) = label {
            paper.label("name", label);
            taken.push(label.rect(em));
        }
    }
}

/// One board: its holes and cut-outs measured from the left and the lower edge, its screws as dots.
pub fn board(part: &Part, units: Units) -> Markup {
    let face = part.face.unwrap_or(Face::Front);
    let [u, v] = face.across();
    let sides = part.at.size_mm();
    let size_mm @ [width_mm, height_mm] = [sides[u], sides[v]];
    let rect = Rect { left: 0.0, right: width_mm, top: -height_mm, bottom: 0.0 };
    let em = TEXT * 1.15 * width_mm.max(0.6 * height_mm);
    let mut paper = Paper::new(rect, em);
    paper.rect(&format!("piece heavy {}", Hatch::of_key(&part.board.key).key()), &rect);
    let drawn: Vec<Rect> = part
        .openings
        .iter()
        .map(|opening| {
            Rect::about((opening.x_mm, -opening.y_mm), opening.width_mm, opening.height_mm.unwrap_or(opening.width_mm))
        })
        .collect();
    let middles: Vec<Point> = drawn.iter().map(Rect::middle).collect();
    ordinates(&mut paper, &rect, &middles, units);
    for (opening, rect) in part.openings.iter().zip(&drawn) {
        match opening.height_mm {
            None => paper.circle("opening", rect.middle(), 0.5 * opening.width_mm),
            Some(_) => paper.rect("opening", rect),
        }
        let (x, y) = rect.middle();
        let arm = 0.5 * rect.width().min(rect.height()).min(em);
        paper.line("centre", &[(x - arm, y), (x + arm, y)]);
        paper.line("centre", &[(x, y - arm), (x, y + arm)]);
    }
    let all = screws_mm(part, size_mm);
    let free: Vec<[f64; 2]> =
        all.iter().copied().filter(|at| !part.openings.iter().any(|opening| covers(opening, *at))).collect();
    for [x, y] in &free {
        paper.circle("screw", (*x, -y), 0.16 * em);
    }
    number_openings(&mut paper, &part.openings, &drawn, &rect);
    let seen = part.face.map_or("seen from the front", seen);
    let title = format!("Board {}, {}, {seen}, drawn to scale", part.name, size(width_mm, height_mm, units));
    html! {
        figure class="drawing board" {
            (paper.svg(&format!("board-{}", slug(&part.name)), &title))
            figcaption { b { (part.name) } ", " (size(width_mm, height_mm, units)) ", " (part.board.name) ": " (seen) "." }
            @if !part.openings.is_empty() {
                ol class="cuts" {
                    @for (k, opening) in part.openings.iter().enumerate() {
                        li { b { (k + 1) "." } " " (crate::words::capital(&opening_words(opening, units))) }
                    }
                }
            }
            p { (screw_words(part, size_mm, all.len() - free.len(), units)) }
        }
    }
}
