//! Transcendental functions by `libm`, so that a shared design gives the same digits natively and in a browser.
//!
//! `std` hands `exp`, `sin` and so on to the platform, whose last digit differs from place to place. Only `sqrt`,
//! which IEEE 754 rounds correctly everywhere, is taken from `std`.

pub use num_complex::Complex64;

use crate::lanes::Number;

/// Shorthand for a complex number.
#[inline]
pub fn complex(re: f64, im: f64) -> Complex64 {
    Complex64::new(re, im)
}

/// Natural exponential.
#[inline]
pub fn exp(x: f64) -> f64 {
    libm::exp(x)
}

/// Natural logarithm.
#[inline]
pub fn ln(x: f64) -> f64 {
    libm::log(x)
}

/// Decimal logarithm.
#[inline]
pub fn lg(x: f64) -> f64 {
    libm::log10(x)
}

/// `base` to the power `exponent`.
#[inline]
pub fn pow(base: f64, exponent: f64) -> f64 {
    libm::pow(base, exponent)
}

/// Sine and cosine of a real angle.
#[inline]
pub fn sin_cos(x: f64) -> (f64, f64) {
    libm::sincos(x)
}

/// Sines and cosines of angles between 0 and a right angle, by series about the half of that: without a branch, so that
/// several are worked on at once. Exact to a few units of the last digit of 1.
#[inline]
pub fn sines_and_cosines<N: Number>(angles: N) -> (N, N) {
    /// (-1)^n/(2n + 1)! and (-1)^n/(2n)!: what is left out is below 1e-16 at an eighth of a turn.
    const SINE: [f64; 8] = [
        1.0,
        -1.0 / 6.0,
        1.0 / 120.0,
        -1.0 / 5040.0,
        1.0 / 362_880.0,
        -1.0 / 39_916_800.0,
        1.0 / 6_227_020_800.0,
        -1.0 / 1_307_674_368_000.0,
    ];
    const COSINE: [f64; 9] = [
        1.0,
        -0.5,
        1.0 / 24.0,
        -1.0 / 720.0,
        1.0 / 40_320.0,
        -1.0 / 3_628_800.0,
        1.0 / 479_001_600.0,
        -1.0 / 87_178_291_200.0,
        1.0 / 20_922_789_888_000.0,
    ];
    let offset = angles - N::splat(std::f64::consts::FRAC_PI_4);
    let square = offset * offset;
    let series = |terms: &[f64]| {
        let mut value = N::splat(0.0);
        for &term in terms.iter().rev() {
            value = value * square + N::splat(term);
        }
        value
    };
    let (odd, even) = (offset * series(&SINE), series(&COSINE));
    let part = N::splat(std::f64::consts::FRAC_1_SQRT_2);
    ((even + odd) * part, (even - odd) * part)
}

/// Cosine of a real angle.
#[inline]
pub fn cos(x: f64) -> f64 {
    libm::cos(x)
}

/// Tangent of a real angle.
#[inline]
pub fn tan(x: f64) -> f64 {
    libm::tan(x)
}

/// Angle in rad with this cosine.
#[inline]
pub fn acos(x: f64) -> f64 {
    libm::acos(x)
}

/// Angle in rad with this tangent.
#[inline]
pub fn atan(x: f64) -> f64 {
    libm::atan(x)
}

/// Cube root.
#[inline]
pub fn cbrt(x: f64) -> f64 {
    libm::cbrt(x)
}

/// Bessel functions of the first kind of order 0 and 1 of a real number.
#[inline]
pub fn bessel_j0_j1(x: f64) -> (f64, f64) {
    (libm::j0(x), libm::j1(x))
}

/// Ten times the decimal logarithm: a level or a level difference from a ratio of energies.
#[inline]
pub fn to_db(ratio: f64) -> f64 {
    10.0 * lg(ratio)
}

/// The ratio of energies of a level difference in dB.
#[inline]
pub fn from_db(db: f64) -> f64 {
    exp(db * (std::f64::consts::LN_10 / 10.0))
}

/// Principal square root of a complex number (real part not negative).
#[inline]
pub fn sqrt(z: Complex64) -> Complex64 {
    if z.im == 0.0 {
        return if z.re >= 0.0 { complex(z.re.sqrt(), 0.0) } else { complex(0.0, (-z.re).sqrt()) };
    }
    let modulus = (z.re * z.re + z.im * z.im).sqrt();
    // The larger of the two halves first: the smaller one from it, without cancellation.
    if z.re >= 0.0 {
        let re = (0.5 * (modulus + z.re)).sqrt();
        complex(re, z.im / (2.0 * re))
    } else {
        let im = (0.5 * (modulus - z.re)).sqrt().copysign(z.im);
        complex(z.im / (2.0 * im), im)
    }
}

/// Cosine and sine of a complex angle, in that order.
#[inline]
pub fn cos_sin(z: Complex64) -> (Complex64, Complex64) {
    let (s, c) = sin_cos(z.re);
    if z.im == 0.0 {
        return (complex(c, 0.0), complex(s, 0.0));
    }
    let up = exp(z.im);
    let down = 1.0 / up;
    let (ch, sh) = (0.5 * (up + down), 0.5 * (up - down));
    (complex(c * ch, -s * sh), complex(s * ch, c * sh))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn series_of_sine_and_cosine_are_those_of_the_library() {
        for step in 0..=64 {
            let angle = std::f64::consts::FRAC_PI_2 * f64::from(step) / 64.0;
            let ((sine, cosine), (got_sine, got_cosine)) = (sin_cos(angle), sines_and_cosines(angle));
            assert!((got_sine - sine).abs() < 4e-16 && (got_cosine - cosine).abs() < 4e-16, "{angle}");
        }
    }
}
