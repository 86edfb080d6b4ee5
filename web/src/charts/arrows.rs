//! The ways out as arrows of the section: each as wide as its share of the sound power, in pixels of the paper.

use hushwright::evaluate::PathKey;

use super::projection::spread;

/// Width in px of the arrow of all the power there is.
pub const WHOLE: f64 = 28.0;
/// Width in px of an arrow whose share would be too small to be seen; drawn broken, as it is to no scale.
pub const THIN: f64 = 1.2;
/// How far in px the two sides of a head stand out over the shaft.
const BARB: f64 = 5.0;
/// Length in px of a head.
const HEAD: f64 = 9.0;
/// How far in px an arrow goes on outside the box, its head included.
pub const REACH: f64 = 24.0;

/// Where an arrow goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Direction {
    /// Up.
    Up,
    /// To the left.
    Left,
}

/// A way out before it is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Way {
    /// Which one.
    pub key: PathKey,
    /// Part of the sound power that goes this way, 0 to 1.
    pub share: f64,
    /// Where it begins.
    pub from: (f64, f64),
    /// Where it goes.
    pub direction: Direction,
}

/// An arrow.
#[derive(Clone, Debug, PartialEq)]
pub struct Arrow {
    /// Which way out.
    pub key: PathKey,
    /// Width of its shaft.
    pub width: f64,
    /// Whether it is too thin for its width to say how much.
    pub is_thin: bool,
    /// The outline of shaft and head.
    pub points: [(f64, f64); 7],
    /// Where its name stands.
    pub name_at: (f64, f64),
    /// Where it goes.
    pub direction: Direction,
}

/// The arrows of `ways` out of a box whose left and upper edge are at `left` and `top`; names are `text` high and up to `name` wide.
/// Those to the left keep clear of each other between `top` and `bottom`, the names of those upwards within the paper, which ends at
/// `right`.
pub fn arrows(ways: &[Way], [left, top, bottom, right]: [f64; 4], text: f64, name: f64) -> Vec<Arrow> {
    let width = |way: &Way| (WHOLE * way.share).max(THIN);
    let aside: Vec<&Way> = ways.iter().filter(|way| way.direction == Direction::Left).collect();
    let gap = aside.iter().map(|way| width(way) + 2.0 * BARB).fold(1.25 * text, f64::max);
    let wished: Vec<f64> = aside.iter().map(|way| way.from.1).collect();
    let mut places = spread(&wished, gap, top, bottom).into_iter();
    let upright = ways.iter().filter(|way| way.direction == Direction::Up);
    let mut up_places = {
        let wished: Vec<f64> = upright.clone().map(|way| way.from.0).collect();
        spread(&wished, name, left, right - 0.5 * name).into_iter()
    };
    ways.iter()
        .filter_map(|way| {
            let (from, to) = match way.direction {
                Direction::Left => ((way.from.0, places.next()?), left - REACH),
                Direction::Up => ((up_places.next()?, way.from.1), top - REACH),
            };
            Some(arrow(way, from, to, width(way), text))
        })
        .collect()
}

fn arrow(way: &Way, (x, y): (f64, f64), to: f64, width: f64, text: f64) -> Arrow {
    let (half, wing) = (0.5 * width, 0.5 * width + BARB);
    let neck = to + HEAD;
    // Along the arrow from its beginning, and across it.
    let outline = |from: f64| [(from, -half), (neck, -half), (neck, -wing), (to, 0.0), (neck, wing), (neck, half), (from, half)];
    let (points, name_at) = match way.direction {
        Direction::Left => (outline(x).map(|(along, across)| (along, y + across)), (to - 4.0, y + 0.35 * text)),
        Direction::Up => (outline(y).map(|(along, across)| (x + across, along)), (x, to - 4.0)),
    };
    Arrow { key: way.key, width, is_thin: WHOLE * way.share < THIN, points, name_at, direction: way.direction }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn left(key: PathKey, share: f64, y: f64) -> Way {
        Way { key, share, from: (200.0, y), direction: Direction::Left }
    }

    #[test]
    fn widths_are_shares_and_the_thin_are_told_apart() {
        let ways = [left(PathKey::Holes, 0.5, 50.0), left(PathKey::Motion, 0.25, 120.0), left(PathKey::Vents, 1e-4, 160.0)];
        let drawn = arrows(&ways, [100.0, 20.0, 220.0, 500.0], 12.0, 80.0);
        let widths: Vec<f64> = drawn.iter().map(|arrow| arrow.width).collect();
        assert_eq!(widths, [14.0, 7.0, THIN]);
        assert_eq!(drawn.iter().map(|arrow| arrow.is_thin).collect::<Vec<_>>(), [false, false, true]);
        for arrow in &drawn {
            let across = arrow.points[0].1 - arrow.points[6].1;
            assert!((across.abs() - arrow.width).abs() < 1e-9);
            assert_eq!(arrow.points[3].0, 100.0 - REACH, "the point is outside the box");
        }
    }

    #[test]
    fn arrows_side_by_side_keep_clear_of_each_other() {
        let ways: Vec<Way> = [PathKey::Holes, PathKey::Suspension, PathKey::Motion, PathKey::Vents]
            .into_iter()
            .zip([0.4, 0.3, 0.2, 0.1])
            .map(|(key, share)| left(key, share, 100.0))
            .collect();
        let mut sides: Vec<(f64, f64)> = arrows(&ways, [100.0, 0.0, 220.0, 500.0], 12.0, 80.0)
            .iter()
            .map(|arrow| {
                let ys = arrow.points.map(|(_, y)| y);
                (ys.iter().copied().fold(f64::INFINITY, f64::min), ys.iter().copied().fold(0.0, f64::max))
            })
            .collect();
        sides.sort_by(|a, b| a.0.total_cmp(&b.0));
        assert!(sides.windows(2).all(|pair| pair[0].1 <= pair[1].0 + 1e-9), "{sides:?}");
    }
}
