//! The normal distribution's quantiles.

use std::f64::consts::{FRAC_1_SQRT_2, PI};

use crate::math::{exp, ln};

/// Steps of the iteration; each triples the digits, so that four are enough from anywhere within the range.
const STEPS: usize = 5;
/// Scale of the logistic distribution that is nearest to the normal one (for instance Johnson, Kotz & Balakrishnan 1995, from
/// memory): where the iteration starts.
const LOGISTIC: f64 = 1.702;
/// Probability nearest to 0 and to 1 that is told apart.
const LEAST: f64 = 1e-12;

/// The number that a standard normal variable stays below with probability `p`; `p` is held to 1e-12 from 0 and 1.
///
/// Halley's iteration on the complementary error function.
pub fn normal_quantile(p: f64) -> f64 {
    let p = p.clamp(LEAST, 1.0 - LEAST);
    // By symmetry in the lower tail, where the function keeps its digits.
    let (tail, sign) = if p < 0.5 { (p, 1.0) } else { (1.0 - p, -1.0) };
    // Far out the logistic distribution has more; there exp(-z^2/2) is more than the tail.
    let mut z = (ln(tail / (1.0 - tail)) / LOGISTIC).max(-(-2.0 * ln(tail)).sqrt());
    for _ in 0..STEPS {
        let below = 0.5 * libm::erfc(-z * FRAC_1_SQRT_2);
        let density = exp(-0.5 * z * z) / (2.0 * PI).sqrt();
        let newton = (below - tail) / density;
        z -= newton / (1.0 + 0.5 * z * newton);
    }
    sign * z
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Abramowitz & Stegun 1964, tables 26.1 and 26.5 (from memory).
    #[test]
    fn tabled_quantiles() {
        for (p, z) in [(0.5, 0.0), (0.9, 1.281_551_6), (0.975, 1.959_964_0), (0.999, 3.090_232_3), (1e-6, -4.753_424_3)] {
            assert!((normal_quantile(p) - z).abs() < 1e-6, "{p}: {}", normal_quantile(p));
        }
        assert!((normal_quantile(0.1) + normal_quantile(0.9)).abs() < 1e-12);
        for p in [0.0, 1e-12, 1e-9, 0.3, 1.0 - 1e-9, 1.0] {
            assert!(normal_quantile(p).abs() < 7.1, "{p}: {}", normal_quantile(p));
        }
    }
}
