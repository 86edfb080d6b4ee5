//! Where the numbers of cuts go on the drawing of a sheet: in circles that lie on nothing that is read.

use super::paper::Point;
use crate::rect::Rect;

/// Most places on one cut that are tried.
const PLACES_ON_CUT: usize = 48;

/// Where a number stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// Middle of its circle.
    pub at: Point,
    /// The point of the cut that it is about, where it does not stand on the cut.
    pub leads_to: Option<Point>,
}

/// Places for the numbers of cuts, each from where the saw enters to where it leaves, in circles of `radius`: beyond the edge of
/// the sheet where the saw enters there; else on the cut; else in rows round the sheet, as many as are needed.
///
/// No two circles overlap, nor a circle and a text.
pub fn place_numbers(cuts: &[(Point, Point)], sheet: &Rect, texts: &[Rect], radius: f64) -> Vec<Spot> {
    let step = 2.2 * radius;
    let mut taken: Vec<Rect> = texts.to_vec();
    let circle = |at: Point| Rect::about(at, step, step);
    let mut spots: Vec<Option<Spot>> = Vec::with_capacity(cuts.len());
    for &(from, to) in cuts {
        let beyond = [(from, to), (to, from)].into_iter().filter_map(|(near, far)| {
            let at = beyond_edge(near, far, sheet, 0.5 * step)?;
            Some(Spot { at, leads_to: Some(near) })
        });
        let on = on_cut(from, to, radius).map(|at| Spot { at, leads_to: None });
        let spot = beyond.chain(on).find(|spot| !taken.iter().any(|rect| rect.meets(&circle(spot.at))));
        taken.extend(spot.map(|spot| circle(spot.at)));
        spots.push(spot);
    }
    let place = |(spot, &(from, _)): (Option<Spot>, &(Point, Point))| {
        spot.unwrap_or_else(|| {
            let at = round_sheet(from, sheet, step, |at| !taken.iter().any(|rect| rect.meets(&circle(at))));
            taken.push(circle(at));
            Spot { at, leads_to: Some(from) }
        })
    };
    spots.into_iter().zip(cuts).map(place).collect()
}

/// The place beyond the edge of the sheet on the cut's own line, if the cut ends near that edge.
fn beyond_edge((x, y): Point, far: Point, sheet: &Rect, by: f64) -> Option<Point> {
    let (at, to_edge) = if (y - far.1).abs() <= (x - far.0).abs() {
        if x < far.0 { ((sheet.left - by, y), x - sheet.left) } else { ((sheet.right + by, y), sheet.right - x) }
    } else if y < far.1 {
        ((x, sheet.top - by), y - sheet.top)
    } else {
        ((x, sheet.bottom + by), sheet.bottom - y)
    };
    (to_edge <= by).then_some(at)
}

/// Places on a cut from where the saw enters on, as far as its ends leave room.
fn on_cut(from: Point, to: Point, radius: f64) -> impl Iterator<Item = Point> {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let length = dx.abs().max(dy.abs());
    let room = length - 2.4 * radius;
    let count = if room > 0.0 { PLACES_ON_CUT.min((room / (0.5 * radius)) as usize + 1) } else { 0 };
    (0..count).map(move |k| {
        let along = (1.2 * radius + room * k as f64 / count.max(2).saturating_sub(1) as f64) / length;
        (from.0 + along * dx, from.1 + along * dy)
    })
}

/// The free place nearest to a point in the innermost row round the sheet that has one.
fn round_sheet((x, y): Point, sheet: &Rect, step: f64, is_free: impl Fn(Point) -> bool) -> Point {
    let mut row = sheet.grown(0.5 * step);
    loop {
        let (across, down) = ((row.width() / step) as usize + 1, (row.height() / step) as usize + 1);
        let rows = (0..across).flat_map(|k| [row.top, row.bottom].map(|y| (row.left + step * k as f64, y)));
        let columns = (0..down).flat_map(|k| [row.left, row.right].map(|x| (x, row.top + step * k as f64)));
        let off = |at: &Point| (at.0 - x).powi(2) + (at.1 - y).powi(2);
        let nearest = rows.chain(columns).filter(|at| is_free(*at)).min_by(|one, other| off(one).total_cmp(&off(other)));
        match nearest {
            Some(at) => return at,
            // A wider row holds more than the one before, and what lies there already is finite.
            None => row = row.grown(step),
        }
    }
}

#[cfg(all(test, not(target_arch = "wasm32")))]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #![proptest_config(ProptestConfig { cases: 500, ..ProptestConfig::default() })]

        /// Whatever the cuts and the texts: every cut has its number, and no two things lie on each other.
        #[test]
        fn numbers_stand_apart(
            cuts in prop::collection::vec((0.0..1.0_f64, 0.0..1.0_f64, 0.0..1.0_f64, any::<bool>()), 0..120),
            texts in prop::collection::vec((0.0..1.0_f64, 0.0..1.0_f64, 0.02..0.4_f64), 0..20),
            width in 500.0..3000.0_f64, height in 300.0..3000.0_f64, radius in 10.0..80.0_f64,
        ) {
            let sheet = Rect { left: 0.0, top: 0.0, right: width, bottom: height };
            let cuts: Vec<(Point, Point)> = cuts.into_iter().map(|(at, one, two, is_along)| {
                let (from, to) = (one.min(two), one.max(two));
                if is_along { ((from * width, at * height), (to * width, at * height)) }
                else { ((at * width, to * height), (at * width, from * height)) }
            }).collect();
            let texts: Vec<Rect> = texts.into_iter()
                .map(|(x, y, size)| Rect::about((x * width, y * height), size * width, 0.05 * height)).collect();
            let spots = place_numbers(&cuts, &sheet, &texts, radius);
            prop_assert_eq!(spots.len(), cuts.len());
            for (k, spot) in spots.iter().enumerate() {
                let circle = Rect::about(spot.at, 2.0 * radius, 2.0 * radius);
                for text in &texts {
                    prop_assert!(!circle.meets(text));
                }
                for other in &spots[k + 1..] {
                    let off = (spot.at.0 - other.at.0).hypot(spot.at.1 - other.at.1);
                    prop_assert!(off >= 2.0 * radius, "{} apart, radius {}", off, radius);
                }
                let (from, to) = cuts[k];
                let is_on = spot.leads_to.is_some_and(|at| at == from || at == to) || {
                    let (x, y) = spot.at;
                    (x >= from.0.min(to.0) - 1e-6 && x <= from.0.max(to.0) + 1e-6)
                        && (y >= from.1.min(to.1) - 1e-6 && y <= from.1.max(to.1) + 1e-6)
                };
                prop_assert!(is_on, "{spot:?} for {from:?} to {to:?}");
            }
        }
    }
}
