//! Complex numbers side by side, so that one instruction works on several angles at once.
//!
//! Real and imaginary parts stand apart. Every lane has the same digits natively and in a browser: vectors of [`wide`] are only added,
//! multiplied and divided here, never fused or summed across.

use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub};

pub use wide::{f64x2, f64x4};

use crate::math::{Complex64, complex};

/// A number or several at once.
pub trait Number:
    Copy + Add<Output = Self> + Sub<Output = Self> + Mul<Output = Self> + Div<Output = Self> + Neg<Output = Self>
{
    /// The same number in every lane.
    fn splat(number: f64) -> Self;
    /// Largest modulus of any lane.
    fn largest(self) -> f64;
}

impl Number for f64 {
    #[inline]
    fn splat(number: f64) -> Self {
        number
    }

    #[inline]
    fn largest(self) -> f64 {
        self.abs()
    }
}

impl Number for f64x2 {
    #[inline]
    fn splat(number: f64) -> Self {
        Self::splat(number)
    }

    #[inline]
    fn largest(self) -> f64 {
        let [a, b] = self.to_array();
        a.abs().max(b.abs())
    }
}

impl Number for f64x4 {
    #[inline]
    fn splat(number: f64) -> Self {
        Self::splat(number)
    }

    #[inline]
    fn largest(self) -> f64 {
        let [a, b, c, d] = self.to_array();
        a.abs().max(b.abs()).max(c.abs().max(d.abs()))
    }
}

/// Complex numbers, as many as `N` has lanes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lanes<N> {
    /// Real parts.
    pub re: N,
    /// Imaginary parts.
    pub im: N,
}

impl<N: Number> Lanes<N> {
    /// The same number in every lane.
    #[inline]
    pub fn all(number: Complex64) -> Self {
        Self { re: N::splat(number.re), im: N::splat(number.im) }
    }

    /// Real numbers.
    #[inline]
    pub fn real(re: N) -> Self {
        Self { re, im: N::splat(0.0) }
    }

    /// Each lane times a real number of its own.
    #[inline]
    #[must_use]
    pub fn scaled(self, by: N) -> Self {
        Self { re: self.re * by, im: self.im * by }
    }

    /// All lanes times one real number.
    #[inline]
    #[must_use]
    pub fn times(self, by: f64) -> Self {
        self.scaled(N::splat(by))
    }

    /// All lanes plus one complex number.
    #[inline]
    #[must_use]
    pub fn plus(self, number: Complex64) -> Self {
        self + Self::all(number)
    }

    /// All lanes plus one real number.
    #[inline]
    #[must_use]
    pub fn plus_real(self, number: f64) -> Self {
        Self { re: self.re + N::splat(number), ..self }
    }

    /// All lanes times j.
    #[inline]
    #[must_use]
    pub fn turned(self) -> Self {
        Self { re: -self.im, im: self.re }
    }

    /// 1 over each.
    #[inline]
    #[must_use]
    pub fn inverse(self) -> Self {
        let squares = self.norm_sqr();
        Self { re: self.re / squares, im: -self.im / squares }
    }

    /// Square of the modulus of each.
    #[inline]
    pub fn norm_sqr(self) -> N {
        self.re * self.re + self.im * self.im
    }

    /// At least the largest sum of the moduli of both parts.
    #[inline]
    pub fn bound(self) -> f64 {
        self.re.largest() + self.im.largest()
    }
}

impl Lanes<f64> {
    /// The number in the only lane.
    #[inline]
    pub fn only(self) -> Complex64 {
        complex(self.re, self.im)
    }
}

impl<N: Number> Add for Lanes<N> {
    type Output = Self;

    #[inline]
    fn add(self, other: Self) -> Self {
        Self { re: self.re + other.re, im: self.im + other.im }
    }
}

impl<N: Number> AddAssign for Lanes<N> {
    #[inline]
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl<N: Number> Sub for Lanes<N> {
    type Output = Self;

    #[inline]
    fn sub(self, other: Self) -> Self {
        Self { re: self.re - other.re, im: self.im - other.im }
    }
}

impl<N: Number> Mul for Lanes<N> {
    type Output = Self;

    #[inline]
    fn mul(self, other: Self) -> Self {
        Self { re: self.re * other.re - self.im * other.im, im: self.re * other.im + self.im * other.re }
    }
}
