//! Which unknown a result varies with: shares of its variance.

use super::points::Coordinate;
use super::spread::Spread;

/// Terms of the series in each number that varies.
const TERMS: usize = 3;
/// Most rounds of the fit, which is over sooner as a rule.
const ROUNDS: usize = 100;
/// Change of a coefficient, over the standard deviation of the result, at which the fit is over.
const SETTLED: f64 = 1e-6;

/// Orthonormal polynomials of first, second and third order: Legendre's in what is spread evenly, Hermite's in what is normal.
fn terms(spread: Spread, coordinate: Coordinate) -> [f64; TERMS] {
    if matches!(spread, Spread::Even(_)) {
        let x = 2.0 * coordinate.even - 1.0;
        let (square, root) = (x * x, f64::sqrt);
        [root(3.0) * x, root(5.0) * 0.5 * (3.0 * square - 1.0), root(7.0) * 0.5 * x * (5.0 * square - 3.0)]
    } else {
        let z = coordinate.normal;
        [z, (z * z - 1.0) / std::f64::consts::SQRT_2, z * (z * z - 3.0) / 6_f64.sqrt()]
    }
}

/// The part of the variance of `results` that goes with each number alone, 0 to 1: the first-order index of Sobol' (1993).
///
/// `points` are what was drawn, a row for every result; `spreads` how each column is spread. The results are fitted by a
/// sum of polynomials of third order in every number (least squares by turns, Hastie & Tibshirani 1990, ch. 5); what
/// the fit leaves, which is noise and what numbers do together, goes into the coefficients as chance has it, and that much is
/// taken off again. Sums to less than 1 by what several do together.
pub fn shares_of_variance(points: &[Vec<Coordinate>], spreads: &[Spread], results: &[f64]) -> Vec<f64> {
    let count = results.len() as f64;
    let mean = results.iter().sum::<f64>() / count;
    let mut rest: Vec<f64> = results.iter().map(|result| result - mean).collect();
    let variance = rest.iter().map(|rest| rest * rest).sum::<f64>() / count;
    let columns = spreads.len() * TERMS;
    // Without variance nothing has a share; without more samples than terms nothing can be told.
    if variance <= 0.0 || results.len() <= columns {
        return vec![0.0; spreads.len()];
    }
    let basis: Vec<Vec<f64>> = (0..columns)
        .map(|column| {
            let number = column / TERMS;
            let values = points.iter().map(|point| terms(spreads[number], point[number])[column % TERMS]);
            let mut values: Vec<f64> = values.collect();
            let middle = values.iter().sum::<f64>() / count;
            for value in &mut values {
                *value -= middle;
            }
            values
        })
        .collect();
    let squares: Vec<f64> = basis.iter().map(|values| values.iter().map(|value| value * value).sum()).collect();
    let mut coefficients = vec![0.0; columns];
    for _ in 0..ROUNDS {
        let mut largest = 0.0_f64;
        for column in 0..columns {
            let product: f64 = basis[column].iter().zip(&rest).map(|(value, rest)| value * rest).sum();
            let change = product / squares[column];
            coefficients[column] += change;
            rest.iter_mut().zip(&basis[column]).for_each(|(rest, value)| *rest -= change * value);
            largest = largest.max(change.abs());
        }
        if largest < SETTLED * variance.sqrt() {
            break;
        }
    }
    let left = rest.iter().map(|rest| rest * rest).sum::<f64>() / (count - columns as f64);
    let by_chance = left * TERMS as f64 / count;
    (0..spreads.len())
        .map(|number| {
            let of = number * TERMS..(number + 1) * TERMS;
            let own: f64 = of.map(|column| coefficients[column] * coefficients[column] * squares[column] / count).sum();
            ((own - by_chance) / variance).max(0.0)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::points::points;
    use super::*;
    use crate::math::sin_cos;

    /// A weighted sum of independent numbers: each has its squared weight.
    #[test]
    fn a_sum_has_the_squares_of_its_weights() {
        let weights = [3.0, 2.0, 1.0, 0.0, 0.5];
        let points = points(30, 512);
        let results: Vec<f64> =
            points.iter().map(|point| weights.iter().zip(point).map(|(weight, own)| weight * own.normal).sum()).collect();
        let shares = shares_of_variance(&points, &[Spread::Normal; 30], &results);
        let whole: f64 = weights.iter().map(|weight| weight * weight).sum();
        for (number, share) in shares.iter().enumerate() {
            let exact = weights.get(number).map_or(0.0, |weight| weight * weight / whole);
            assert!((share - exact).abs() < 0.02, "{number}: {share} against {exact}");
        }
    }

    /// Ishigami & Homma's function, sin x1 + 7 sin^2 x2 + 0.1 x3^4 sin x1 for x even in +-pi: indices 0.314, 0.442, 0 in closed
    /// form (Saltelli et al. 2008, Global Sensitivity Analysis, from memory). A cubic holds 0.87 of the variance of sin x over
    /// a period and hardly any of sin^2 x, so that what a series of third order finds is known as well.
    #[test]
    fn ishigami() {
        let points = points(3, 1024);
        let pi = std::f64::consts::PI;
        let results: Vec<f64> = points
            .iter()
            .map(|point| {
                let x: [f64; 3] = std::array::from_fn(|k| pi * (2.0 * point[k].even - 1.0));
                let (sine, other) = (sin_cos(x[0]).0, sin_cos(x[1]).0);
                sine + 7.0 * other * other + 0.1 * x[2].powi(4) * sine
            })
            .collect();
        let shares = shares_of_variance(&points, &[Spread::Even(1.0); 3], &results);
        // Exact variance: a^2/8 + b pi^4/5 + b^2 pi^8/18 + 1/2 with a = 7, b = 0.1.
        let variance = 49.0 / 8.0 + 0.1 * pi.powi(4) / 5.0 + 0.01 * pi.powi(8) / 18.0 + 0.5;
        let of_sine = 0.5 * (1.0 + 0.1 * pi.powi(4) / 5.0).powi(2) / variance;
        assert!((of_sine - 0.314).abs() < 0.001);
        // Projections of sin(pi t) on Legendre's first and third: 3 (1/pi)^2 and 7 (1/pi - 15/pi^3)^2, of its 1/2.
        let held = (3.0 / (pi * pi) + 7.0 * (1.0 / pi - 15.0 / pi.powi(3)).powi(2)) / 0.5;
        assert!((shares[0] - held * of_sine).abs() < 0.03, "{shares:?}, {}", held * of_sine);
        // sin^2(pi t) on Legendre's second: 5 (3/(8 pi^2))^2 of its 1/8.
        let held = 5.0 * (3.0 / (8.0 * pi * pi)).powi(2) / 0.125 * (49.0 / 8.0 / variance);
        assert!((shares[1] - held).abs() < 0.03, "{shares:?}, {held}");
        assert!(shares[2] < 0.02, "{shares:?}");
    }

    #[test]
    fn what_does_not_vary_has_no_shares() {
        let points = points(2, 64);
        assert_eq!(shares_of_variance(&points, &[Spread::Normal; 2], &[5.0; 64]), [0.0; 2]);
    }
}
