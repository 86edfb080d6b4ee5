//! Axes of a plot of points: round ends and steps.

/// A straight axis with round ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Axis {
    /// Least value.
    pub low: f64,
    /// Largest value.
    pub high: f64,
    /// Between two marks.
    pub step: f64,
}

impl Axis {
    /// An axis that holds all of `values` with at most `marks` steps of 1, 2 or 5 times a power of ten; without values from 0 to 1.
    pub fn holding(values: impl Iterator<Item = f64>, marks: f64) -> Self {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for value in values {
            low = low.min(value);
            high = high.max(value);
        }
        if low > high {
            return Self { low: 0.0, high: 1.0, step: 1.0 };
        }
        let mut step = 1.0;
        let mut factors = [2.0, 2.5, 2.0].into_iter().cycle();
        while (high / step).floor() - (low / step).floor() + 1.0 > marks {
            step *= factors.next().unwrap_or(2.0);
        }
        let (low, high) = ((low / step).floor() * step, (high / step).ceil() * step);
        Self { low, high: high.max(low + step), step }
    }

    /// Where `value` lies, from 0 at the lower end to 1 at the upper.
    pub fn part(&self, value: f64) -> f64 {
        (value - self.low) / (self.high - self.low)
    }

    /// Its marks.
    pub fn marks(&self) -> impl Iterator<Item = f64> {
        let Self { low, high, step } = *self;
        (0..=((high - low) / step).round() as usize).map(move |k| low + k as f64 * step)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ends_and_steps_are_round() {
        for values in [&[31.2, 58.9][..], &[40.0], &[81.0, 403.0, 222.0], &[-3.0, 7.0], &[0.2, 0.3], &[1e6, 3.7e6]] {
            let axis = Axis::holding(values.iter().copied(), 6.0);
            let marks: Vec<f64> = axis.marks().collect();
            assert!((2..=8).contains(&marks.len()), "{values:?}: {marks:?}");
            for value in values {
                assert!((0.0..=1.0).contains(&axis.part(*value)), "{values:?}");
            }
            let leading = axis.step / 10_f64.powf(axis.step.log10().floor());
            assert!([1.0, 2.0, 5.0].iter().any(|round| (leading - round).abs() < 1e-6), "{}", axis.step);
            assert_eq!((marks[0], *marks.last().expect("two")), (axis.low, axis.high));
        }
        assert_eq!(Axis::holding([].into_iter(), 6.0).marks().count(), 2);
    }
}
