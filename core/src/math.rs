//! Transcendental functions by `libm`, so that a shared design gives the same digits natively and in a browser.
//!
//! `std` hands `exp`, `sin` and so on to the platform, whose last digit differs from place to place. Only `sqrt`,
//! which IEEE 754 rounds correctly everywhere, is taken from `std`.

pub use num_complex::Complex64;

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
