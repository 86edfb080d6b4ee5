//! Adaptive integration over angles without allocation.
//!
//! Gauss-Kronrod pairs of 7 and 15 points (Kronrod 1965; nodes as in QUADPACK's qk15, Piessens et al. 1983), the interval
//! with the largest error halved until the sum of errors is small against the integral.

/// Abscissae of the 15-point rule, the even positions (counted from 1) being those of the 7-point rule.
const NODES: [f64; 8] = [
    0.991_455_371_120_812_6,
    0.949_107_912_342_758_5,
    0.864_864_423_359_769_1,
    0.741_531_185_599_394_4,
    0.586_087_235_467_691_1,
    0.405_845_151_377_397_2,
    0.207_784_955_007_898_47,
    0.0,
];
const KRONROD_WEIGHTS: [f64; 8] = [
    0.022_935_322_010_529_224,
    0.063_092_092_629_978_56,
    0.104_790_010_322_250_18,
    0.140_653_259_715_525_92,
    0.169_004_726_639_267_9,
    0.190_350_578_064_785_4,
    0.204_432_940_075_298_89,
    0.209_482_141_084_727_82,
];
const GAUSS_WEIGHTS: [f64; 4] =
    [0.129_484_966_168_869_7, 0.279_705_391_489_276_7, 0.381_830_050_505_118_9, 0.417_959_183_673_469_4];

/// Most intervals at a time; refinement ends there.
const MOST_INTERVALS: usize = 128;

#[derive(Clone, Copy)]
struct Interval<const N: usize> {
    start: f64,
    end: f64,
    value: [f64; N],
    error: f64,
}

fn rule<const N: usize>(start: f64, end: f64, f: &mut impl FnMut(f64) -> [f64; N]) -> Interval<N> {
    let (centre, half) = (0.5 * (start + end), 0.5 * (end - start));
    let mut kronrod = [0.0; N];
    let mut gauss = 0.0;
    let mut add = |x: f64, index: usize, f: &mut dyn FnMut(f64) -> [f64; N]| {
        let value = f(x);
        for (sum, part) in kronrod.iter_mut().zip(value) {
            *sum += KRONROD_WEIGHTS[index] * part;
        }
        if index % 2 == 1 {
            gauss += GAUSS_WEIGHTS[index / 2] * value[0];
        }
    };
    for (index, &node) in NODES[..7].iter().enumerate() {
        add(centre - half * node, index, f);
        add(centre + half * node, index, f);
    }
    add(centre, 7, f);
    Interval { start, end, value: kronrod.map(|sum| sum * half), error: (kronrod[0] - gauss).abs() * half }
}

/// Integrals of the components of `f` over consecutive intervals between `breaks` (in order, at least two).
///
/// Halves intervals until the error estimate of the first component is below `tolerance` of its integral. The estimate is
/// that of the 7-point rule, so that the result is usually much better than asked for.
pub fn integrate<const N: usize>(breaks: &[f64], tolerance: f64, mut f: impl FnMut(f64) -> [f64; N]) -> [f64; N] {
    let empty = Interval { start: 0.0, end: 0.0, value: [0.0; N], error: 0.0 };
    let mut intervals = [empty; MOST_INTERVALS];
    let mut count = 0;
    for pair in breaks.windows(2) {
        if pair[1] > pair[0] {
            intervals[count] = rule(pair[0], pair[1], &mut f);
            count += 1;
        }
    }
    loop {
        let mut worst = 0;
        let (mut total, mut error) = (0.0, 0.0);
        for (index, interval) in intervals[..count].iter().enumerate() {
            total += interval.value[0];
            error += interval.error;
            if interval.error > intervals[worst].error {
                worst = index;
            }
        }
        if error <= tolerance * total || count == MOST_INTERVALS {
            break;
        }
        let Interval { start, end, .. } = intervals[worst];
        let middle = 0.5 * (start + end);
        intervals[worst] = rule(start, middle, &mut f);
        intervals[count] = rule(middle, end, &mut f);
        count += 1;
    }
    let mut sum = [0.0; N];
    for interval in &intervals[..count] {
        for (total, part) in sum.iter_mut().zip(interval.value) {
            *total += part;
        }
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn smooth_and_peaked_functions() {
        let [exponential] = integrate(&[0.0, 0.5, 1.0], 1e-10, |x| [crate::math::exp(x)]);
        assert!((exponential - (std::f64::consts::E - 1.0)).abs() < 1e-12);
        for width in [1e-2, 1e-3, 1e-4, 1e-5] {
            // A resonance at a known place, as coincidence is.
            let peak = |x: f64| 1.0 / (1.0 + ((x - 0.3) / width).powi(2));
            let exact = width * (crate::math::atan(0.7 / width) + crate::math::atan(0.3 / width));
            let [got] = integrate(&[0.0, 0.3 - 40.0 * width, 0.3, 0.3 + 40.0 * width, 1.0], 0.01, |x| [peak(x)]);
            assert!((got / exact - 1.0).abs() < 0.02, "width {width}: {got} against {exact}");
        }
    }
}
