//! A rectangle moved on the level round a corner, through a door in the side of a corridor, and leaned through an opening.
//!
//! All three are exact for a rigid rectangle and walls at right angles; clearances for hands are the caller's. Lengths that
//! are passed are positive and finite, in any one unit.

use std::f64::consts::FRAC_PI_2;

use crate::math::{acos, atan, sin_cos};

/// Halvings that bring a right angle, or a length to a few times itself, down to the last digit of a double.
const HALVINGS: usize = 60;
/// Angles looked at before the best of them is refined. A peak between two of them that is missed altogether is less than
/// about a hundred thousandth of the length higher.
const ANGLES: u32 = 512;
/// Part of an interval that golden section keeps.
const GOLDEN: f64 = 0.618_033_988_749_894_9;

/// Widest rectangle of length `length_m` that passes the right-angled corner between corridors of widths `corridors_m`.
///
/// A rectangle not longer than one of the corridors is wide goes from one into the other without being turned: it may be as
/// wide as the narrower one. Every other one has to be turned while the ends of its outer long side slide along the outer
/// walls. At an angle t between that side and the first corridor, the inner corner lies
/// a cos t + b sin t - l sin t cos t from it, and the breadth is the least of these over a right angle (the envelope of a
/// moving segment, textbook calculus). The derivative of that in t is b - l, negative, at 0 and l - a, positive, at a right
/// angle, and it rises only between the two angles at which a/sin t + b/cos t = 4 l. So it changes its sign once, and halving
/// finds the only minimum.
///
/// Negative where even a rod of that length is stuck. Meant for the longer side: a result above `length_m` only says that
/// the rectangle passes.
pub fn breadth_round_corner_m(length_m: f64, corridors_m: [f64; 2]) -> f64 {
    let [first, second] = corridors_m;
    if !must_turn(length_m, corridors_m) {
        return first.min(second);
    }
    let (mut low, mut high) = (0.0, FRAC_PI_2);
    for _ in 0..HALVINGS {
        let angle = 0.5 * (low + high);
        let (s, c) = sin_cos(angle);
        if second * c - first * s < length_m * (c - s) * (c + s) {
            low = angle;
        } else {
            high = angle;
        }
    }
    let (s, c) = sin_cos(0.5 * (low + high));
    (first * c + second * s - length_m * s * c).min(first).min(second)
}

/// Whether a rectangle of `length_m` has to be turned in the corner between corridors of widths `corridors_m`: it is longer than
/// either is wide.
pub fn must_turn(length_m: f64, [first, second]: [f64; 2]) -> bool {
    length_m > first.max(second)
}

/// Longest rectangle of breadth `breadth_m` that passes the right-angled corner between corridors of widths `corridors_m`;
/// `None` where the narrower one is too narrow for the breadth.
///
/// At least the width of the wider corridor, because what is no longer need not be turned.
pub fn length_round_corner_m(breadth_m: f64, corridors_m: [f64; 2]) -> Option<f64> {
    let [first, second] = corridors_m;
    if breadth_m > first.min(second) {
        return None;
    }
    // A rod in two corridors as wide as the wider one: (2 a^(2/3))^(3/2) = 2 sqrt(2) a is longer than all that pass.
    let (mut low, mut high) = (first.max(second), 3.0 * first.max(second));
    for _ in 0..HALVINGS {
        let length_m = 0.5 * (low + high);
        if breadth_round_corner_m(length_m, corridors_m) >= breadth_m {
            low = length_m;
        } else {
            high = length_m;
        }
    }
    Some(low)
}

/// Narrowest corridor from which a rectangle of `length_m` by `breadth_m` gets through a door of clear width `door_m` in a
/// side wall of thickness `wall_m` (zero allowed); `None` where the door is too narrow for its shorter side.
///
/// The corridor runs on past the door and the room behind is clear. A rectangle not longer than the door is wide goes through
/// sideways. A longer one leans its long side at an angle t to the corridor, one corner against the far wall, and its
/// front pokes p = l sin t + w cos t - a into the doorway, where it is at its widest
///
/// - p/(sin t cos t) while one corner is in the doorway,
/// - p cot t + w sin t once the second is in it too (and the same for any p from p = w cos t + wall on).
///
/// Once wall cos t + w <= d sin t, it slides out along itself. So the corridor has to leave room for the largest
/// l sin t + w cos t - p(t) up to that angle, p(t) being what the doorway admits.
///
/// Found by looking at 512 angles and refining the best: right to 1e-5 of the length, as a rule to the last digits.
pub fn corridor_for_side_door_m(length_m: f64, breadth_m: f64, door_m: f64, wall_m: f64) -> Option<f64> {
    let (length, breadth) = (length_m.max(breadth_m), length_m.min(breadth_m));
    if breadth > door_m {
        return None;
    }
    if length <= door_m {
        return Some(breadth);
    }
    let needed = |angle: f64| {
        let (s, c) = sin_cos(angle);
        if door_m * s <= breadth {
            length * s + breadth * c - door_m * s * c
        } else {
            // The breadth in the doorway divided out, so that nothing large cancels near a right angle.
            length * s + (breadth - door_m * s) / c
        }
    };
    // sin(t - atan(wall/d)) = w/sqrt(d^2 + wall^2).
    let diagonal = door_m * (1.0 + (wall_m / door_m) * (wall_m / door_m)).sqrt();
    let free = atan(wall_m / door_m) + FRAC_PI_2 - acos((breadth / diagonal).min(1.0));
    // A rectangle as broad as the door reaches a right angle, where the quotient above would be 0/0.
    let turned = highest(needed, free.min(FRAC_PI_2 - 1e-9));
    // A corridor as wide as the rectangle is long lets it go through end first.
    Some(turned.max(breadth).min(length))
}

/// Highest value of `height` between 0 and `end`.
fn highest(height: impl Fn(f64) -> f64, end: f64) -> f64 {
    let step = end / f64::from(ANGLES);
    let (mut best, mut at) = (height(0.0), 0.0);
    for index in 1..=ANGLES {
        let value = height(step * f64::from(index));
        if value > best {
            (best, at) = (value, step * f64::from(index));
        }
    }
    let (mut low, mut high) = ((at - step).max(0.0), (at + step).min(end));
    for _ in 0..HALVINGS {
        let (left, right) = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
        let (at_left, at_right) = (height(left), height(right));
        best = best.max(at_left).max(at_right);
        if at_left > at_right {
            high = right;
        } else {
            low = left;
        }
    }
    best
}

/// Whether a rectangle lies within another, turned by some angle in its plane: a cross-section leaned over in a doorway.
///
/// With p >= q the sides of the inner one and a >= b those of the outer: either p <= a and q <= b, or q <= b and
/// ((a + b)/(p + q))^2 + ((a - b)/(p - q))^2 >= 2 (W. B. Carver, American Mathematical Monthly 64, 1957; from memory).
pub fn fits_turned(inner_m: [f64; 2], outer_m: [f64; 2]) -> bool {
    let sorted = |[one, other]: [f64; 2]| (one.max(other), one.min(other));
    let ((p, q), (a, b)) = (sorted(inner_m), sorted(outer_m));
    if q > b {
        return false;
    }
    // Where p > a, also p > q, and neither quotient is above what a double holds.
    p <= a || ((a + b) / (p + q)).powi(2) + ((a - b) / (p - q)).powi(2) >= 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two corridors of the same width a: by symmetry the worst angle is half a right one, a sqrt 2 - l/2.
    #[test]
    fn square_corner() {
        for length in [1.001, 1.3, 2.0, 2.8, 4.0] {
            let breadth = breadth_round_corner_m(length, [1.0, 1.0]);
            assert!((breadth - (2.0_f64.sqrt() - 0.5 * length)).abs() < 1e-12, "{length}: {breadth}");
        }
    }

    /// The ladder of textbook calculus: (a^(2/3) + b^(2/3))^(3/2); corridors of 8 and 27 give 13 sqrt 13.
    #[test]
    fn ladder() {
        let length = length_round_corner_m(1e-12, [8.0, 27.0]).expect("a rod is narrow enough");
        assert!((length - 13.0 * 13.0_f64.sqrt()).abs() < 1e-9, "{length}");
        assert!(breadth_round_corner_m(length * 1.001, [8.0, 27.0]) < 0.0);
    }

    #[test]
    fn what_is_short_slides() {
        assert_eq!(breadth_round_corner_m(1.0, [1.0, 0.6]), 0.6);
        assert_eq!(length_round_corner_m(0.7, [1.0, 0.6]), None);
        assert_eq!(length_round_corner_m(0.6, [1.0, 0.6]), Some(1.0));
        assert_eq!(corridor_for_side_door_m(0.7, 0.5, 0.8, 0.1), Some(0.5));
        assert_eq!(corridor_for_side_door_m(2.0, 0.9, 0.8, 0.1), None);
    }

    /// A rod comes through any door of a thin wall, if it is pushed through along itself: no corridor is too narrow.
    #[test]
    fn rod_through_a_door_in_a_thin_wall() {
        let corridor = corridor_for_side_door_m(5.0, 1e-6, 0.8, 0.0).expect("narrow enough");
        assert!(corridor < 1e-5, "{corridor}");
    }

    /// As wide as the door: it comes through at a right angle only, so that the corridor has to be as wide as it is long.
    #[test]
    fn as_wide_as_the_door() {
        for wall in [0.0, 0.15] {
            let corridor = corridor_for_side_door_m(1.5, 0.8, 0.8, wall).expect("just narrow enough");
            assert!((corridor - 1.5).abs() < 1e-6, "{corridor}");
        }
    }

    /// 20 x 1 lies within 15 x 15 on the diagonal: 21/sqrt 2 = 14.85; 20 x 1.3 does not: 15.06.
    #[test]
    fn on_the_diagonal() {
        assert!(fits_turned([20.0, 1.0], [15.0, 15.0]) && !fits_turned([1.3, 20.0], [15.0, 15.0]));
    }
}
