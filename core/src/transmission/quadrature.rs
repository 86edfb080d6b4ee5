//! Adaptive integration over angles without allocation, four angles at a time.
//!
//! Nested rules of 3, 7 and 15 points (Patterson 1968, The Optimum Addition of Points to Quadrature Formulae, Math. Comp. 22, 847-856;
//! nodes and weights computed with 60 digits from their definition): 7 points first, the other 8 only where those do not suffice, then
//! the interval with the largest error is halved, until the sum of errors is small against the integral.

use std::array::from_fn;

use arrayvec::ArrayVec;

use crate::lanes::f64x4;

/// Nodes of the rule of 7 points from the middle outward; the first and the third, with its mirror image, are the rule of 3.
const FIRST_NODES: [f64; 4] = [0.0, 0.434_243_749_346_802_56, 0.774_596_669_241_483_4, 0.960_491_268_708_020_3];
/// What the rule of 15 points adds to them.
const MORE_NODES: [f64; 4] = [0.223_386_686_428_966_9, 0.621_102_946_737_226_4, 0.888_459_232_872_257, 0.993_831_963_212_755];
const WEIGHTS_OF_3: [f64; 4] = [8.0 / 9.0, 0.0, 5.0 / 9.0, 0.0];
const WEIGHTS_OF_7: [f64; 4] =
    [0.450_916_538_658_474_14, 0.401_397_414_775_962_2, 0.268_488_089_868_333_45, 0.104_656_226_026_467_27];
/// Weights of the first nodes, then of the others.
const WEIGHTS_OF_15: [[f64; 4]; 2] = [
    [0.225_510_499_798_206_68, 0.200_628_529_376_989_02, 0.134_415_255_243_784_22, 0.051_603_282_997_079_74],
    [0.219_156_858_401_587_5, 0.171_511_909_136_391_4, 0.092_927_195_315_124_53, 0.017_001_719_629_940_257],
];

/// Most intervals at a time; refinement ends there.
const MOST_INTERVALS: usize = 128;

#[derive(Clone, Copy)]
struct Interval<const N: usize> {
    start: f64,
    end: f64,
    value: [f64; N],
    error: f64,
    /// Sums of the first seven values with the weights of the rule of 15; `None` once that has been used.
    kept: Option<[f64; N]>,
}

/// Values at four nodes and at their mirror images.
type Pairs = [f64x4; 2];

/// The sum over all pairs, one lane after the other so that it has the same digits everywhere.
fn weighted([above, below]: &Pairs, weights: [f64; 4]) -> f64 {
    ((*above + *below) * f64x4::from(weights)).to_array().iter().sum()
}

impl<const N: usize> Interval<N> {
    /// By 7 points.
    fn new(start: f64, end: f64, f: &mut impl FnMut(f64x4) -> [f64x4; N]) -> Self {
        let half = 0.5 * (end - start);
        let mut values = pairs(start, end, FIRST_NODES, f);
        // The middle is its own mirror image.
        for [_, below] in &mut values {
            *below *= f64x4::from([0.0, 1.0, 1.0, 1.0]);
        }
        let value = values.each_ref().map(|values| half * weighted(values, WEIGHTS_OF_7));
        let error = (value[0] - half * weighted(&values[0], WEIGHTS_OF_3)).abs();
        let kept = values.each_ref().map(|values| weighted(values, WEIGHTS_OF_15[0]));
        Self { start, end, value, error, kept: Some(kept) }
    }

    /// The same by 15 points.
    fn more(&self, kept: [f64; N], f: &mut impl FnMut(f64x4) -> [f64x4; N]) -> Self {
        let half = 0.5 * (self.end - self.start);
        let values = pairs(self.start, self.end, MORE_NODES, f);
        let value = from_fn(|n| half * (kept[n] + weighted(&values[n], WEIGHTS_OF_15[1])));
        Self { value, error: (value[0] - self.value[0]).abs(), kept: None, ..*self }
    }
}

/// The components of `f` at four nodes of an interval and at their mirror images.
fn pairs<const N: usize>(start: f64, end: f64, nodes: [f64; 4], f: &mut impl FnMut(f64x4) -> [f64x4; N]) -> [Pairs; N] {
    let (centre, offsets) = (f64x4::splat(0.5 * (start + end)), f64x4::splat(0.5 * (end - start)) * f64x4::from(nodes));
    let (above, below) = (f(centre + offsets), f(centre - offsets));
    from_fn(|n| [above[n], below[n]])
}

/// Integrals of the components of `f` over consecutive intervals between `breaks` (in order, 2 to 129).
///
/// Refines until the error estimate of the first component is below `tolerance` of its integral. The estimate is that of the rule
/// with fewer points, so that the result is usually much better than asked for.
pub fn integrate<const N: usize>(breaks: &[f64], tolerance: f64, mut f: impl FnMut(f64x4) -> [f64x4; N]) -> [f64; N] {
    let mut intervals = ArrayVec::<Interval<N>, MOST_INTERVALS>::new();
    for pair in breaks.windows(2) {
        if pair[1] > pair[0] {
            intervals.push(Interval::new(pair[0], pair[1], &mut f));
        }
    }
    loop {
        let mut worst = 0;
        let (mut total, mut error) = (0.0, 0.0);
        for (index, interval) in intervals.iter().enumerate() {
            total += interval.value[0];
            error += interval.error;
            if interval.error > intervals[worst].error {
                worst = index;
            }
        }
        if error <= tolerance * total || intervals.is_full() {
            break;
        }
        if let Some(kept) = intervals[worst].kept {
            intervals[worst] = intervals[worst].more(kept, &mut f);
            continue;
        }
        let Interval { start, end, .. } = intervals[worst];
        let middle = 0.5 * (start + end);
        intervals[worst] = Interval::new(start, middle, &mut f);
        intervals.push(Interval::new(middle, end, &mut f));
    }
    let mut sum = [0.0; N];
    for interval in &intervals {
        for (total, part) in sum.iter_mut().zip(interval.value) {
            *total += part;
        }
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Degrees up to which the nested rules are exact: 5, 11 and 23 (Patterson 1968).
    #[test]
    fn rules_are_exact_for_polynomials() {
        for degree in 0..24 {
            let power = |x: f64| x.powi(degree);
            let exact = if degree % 2 == 0 { 2.0 / f64::from(degree + 1) } else { 0.0 };
            let mut f = |x: f64x4| [f64x4::from(x.to_array().map(power))];
            let first = Interval::new(-1.0, 1.0, &mut f);
            if degree < 12 {
                assert!((first.value[0] - exact).abs() < 1e-14, "7 points, degree {degree}");
            }
            let more = first.more(first.kept.expect("kept"), &mut f);
            assert!((more.value[0] - exact).abs() < 1e-14, "15 points, degree {degree}: {} against {exact}", more.value[0]);
            if degree < 6 {
                assert!(first.error < 1e-14 && more.error < 1e-14, "3 points, degree {degree}");
            }
        }
    }

    #[test]
    fn smooth_and_peaked_functions() {
        let [exponential] = integrate(&[0.0, 0.5, 1.0], 1e-10, |x| [f64x4::from(x.to_array().map(crate::math::exp))]);
        assert!((exponential - (std::f64::consts::E - 1.0)).abs() < 1e-12);
        for width in [1e-2, 1e-3, 1e-4, 1e-5] {
            // A resonance at a known place, as coincidence is.
            let peak = |x: f64| 1.0 / (1.0 + ((x - 0.3) / width).powi(2));
            let exact = width * (crate::math::atan(0.7 / width) + crate::math::atan(0.3 / width));
            let [got] = integrate(&[0.0, 0.3 - 40.0 * width, 0.3, 0.3 + 40.0 * width, 1.0], 0.01, |x| {
                [f64x4::from(x.to_array().map(peak))]
            });
            assert!((got / exact - 1.0).abs() < 0.02, "width {width}: {got} against {exact}");
        }
    }
}
