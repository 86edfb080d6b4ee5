//! Where feet, springs or straps go under a box, seen from above.

use hushwright::workshop::Places;
use maud::{Markup, html};

use super::paper::{Anchor, Label, Paper, Point, spread};
use super::{bare, counted, size, slug, unit_note};
use crate::quantity::Units;
use crate::rect::Rect;

/// Size of the text as a part of the larger side of the bottom, with room for measures round it.
const TEXT: f64 = 0.036;
/// Places that differ by less are measured once, in mm: less than anybody measures.
const SAME_MM: f64 = 0.05;

/// Sorted, each once.
fn once(mut values: Vec<f64>) -> Vec<f64> {
    values.sort_by(f64::total_cmp);
    values.dedup_by(|one, other| (*one - *other).abs() < SAME_MM);
    values
}

/// Measures of `points` from the left and the lower edge of `rect`, and its own sides: each place has a thin line to its number
/// at the edge, as in dimensioning by coordinates.
pub fn ordinates(paper: &mut Paper, rect: &Rect, points: &[Point], units: Units) {
    let em = paper.em;
    let xs = once(points.iter().map(|(x, _)| *x).collect());
    let ys = once(points.iter().map(|(_, y)| *y).collect());
    let (below, beside) = (rect.bottom + 1.2 * em, rect.left - 1.2 * em);
    for (x, place) in xs.iter().zip(spread(&xs, 1.2 * em)) {
        // From the uppermost point on this line downwards.
        let top = points.iter().filter(|(own, _)| (own - x).abs() < SAME_MM).map(|(_, y)| *y).fold(rect.bottom, f64::min);
        paper.line("dim", &[(*x, top), (*x, rect.bottom + 0.3 * em), (place, below)]);
        let label = Label::row(bare(x - rect.left, units), (place, below + 0.2 * em)).turned().anchored(Anchor::End);
        paper.label("dims", &label);
    }
    for (y, place) in ys.iter().zip(spread(&ys, 1.2 * em)) {
        let right = points.iter().filter(|(_, own)| (own - y).abs() < SAME_MM).map(|(x, _)| *x).fold(rect.left, f64::max);
        paper.line("dim", &[(right, *y), (rect.left - 0.3 * em, *y), (beside, place)]);
        let label = Label::row(bare(rect.bottom - y, units), (beside - 0.2 * em, place)).anchored(Anchor::End);
        paper.label("dims", &label);
    }
    let frame = paper.frame;
    paper.dimension((rect.left, rect.right), frame.bottom + 1.6 * em, &bare(rect.width(), units));
    paper.dimension_up((rect.bottom, rect.top), frame.right + 1.8 * em, &bare(rect.height(), units));
}

/// The places of supports under a bottom of `size_mm`, length and width, called `label`.
pub fn places(places: &Places, size_mm: [f64; 2], label: &str, units: Units) -> Markup {
    let [length_mm, width_mm] = size_mm;
    let rect = Rect { left: 0.0, right: length_mm, top: -width_mm, bottom: 0.0 };
    let em = TEXT * 1.15 * length_mm.max(0.6 * width_mm);
    let mut paper = Paper::new(rect, em);
    paper.rect("raw", &rect);
    let points: Vec<Point> = places.at_mm.iter().map(|[x, y]| (*x, -y)).collect();
    ordinates(&mut paper, &rect, &points, units);
    for at in &points {
        paper.circle("opening", *at, 0.8 * em);
        paper.circle("screw", *at, 0.16 * em);
    }
    paper.label("quiet", &Label::row("back", (0.8 * em, -0.5 * width_mm)).turned());
    paper.label("quiet", &Label::row("front", (length_mm - 0.8 * em, -0.5 * width_mm)).turned());
    paper.label("quiet", &Label::row("left", (0.5 * length_mm, -0.8 * em)));
    paper.label("quiet", &Label::row("right", (0.5 * length_mm, -width_mm + 0.8 * em)));
    let each = units.load(places.each_kg);
    let words = format!(
        "{label}: {} under a bottom of {}, seen from above, measured {} from the back and from the left side; each carries {each}",
        counted(points.len(), "place"),
        size(length_mm, width_mm, units),
        unit_note(units),
    );
    html! {
        figure class="drawing places" {
            (paper.svg(&format!("places-{}", slug(label)), &words))
            figcaption { (words) "." }
        }
    }
}
