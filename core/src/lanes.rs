//! Complex numbers side by side, so that one instruction works on several angles at once.
//!
//! Real and imaginary parts stand apart. Every operation is a loop of fixed length over plain numbers, which the compiler turns into
//! vector instructions where the machine has them; each lane has the same digits everywhere.

use std::array::from_fn;
use std::ops::{Add, AddAssign, Mul, Sub};

use crate::math::{Complex64, complex};

/// `L` complex numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lanes<const L: usize> {
    /// Real parts.
    pub re: [f64; L],
    /// Imaginary parts.
    pub im: [f64; L],
}

impl<const L: usize> Lanes<L> {
    /// Zeros.
    pub const ZERO: Self = Self { re: [0.0; L], im: [0.0; L] };

    /// The same number in every lane.
    #[inline]
    pub fn all(number: Complex64) -> Self {
        Self { re: [number.re; L], im: [number.im; L] }
    }

    /// Real numbers.
    #[inline]
    pub fn real(re: [f64; L]) -> Self {
        Self { re, im: [0.0; L] }
    }

    /// Each lane times a real number of its own.
    #[inline]
    #[must_use]
    pub fn scaled(self, by: [f64; L]) -> Self {
        Self { re: from_fn(|k| self.re[k] * by[k]), im: from_fn(|k| self.im[k] * by[k]) }
    }

    /// All lanes times one real number.
    #[inline]
    #[must_use]
    pub fn times(self, by: f64) -> Self {
        self.scaled([by; L])
    }

    /// All lanes plus one complex number.
    #[inline]
    #[must_use]
    pub fn plus(self, number: Complex64) -> Self {
        self + Self::all(number)
    }

    /// All lanes times j.
    #[inline]
    #[must_use]
    pub fn turned(self) -> Self {
        Self { re: self.im.map(|im| -im), im: self.re }
    }

    /// 1 over each.
    #[inline]
    #[must_use]
    pub fn inverse(self) -> Self {
        let squares = self.norm_sqr();
        Self { re: from_fn(|k| self.re[k] / squares[k]), im: from_fn(|k| -self.im[k] / squares[k]) }
    }

    /// Square of the modulus of each.
    #[inline]
    pub fn norm_sqr(self) -> [f64; L] {
        from_fn(|k| self.re[k] * self.re[k] + self.im[k] * self.im[k])
    }

    /// Largest sum of the moduli of both parts.
    #[inline]
    pub fn largest_l1_norm(self) -> f64 {
        from_fn::<f64, L, _>(|k| self.re[k].abs() + self.im[k].abs()).into_iter().fold(0.0, f64::max)
    }
}

impl Lanes<1> {
    /// The number in the only lane.
    #[inline]
    pub fn only(self) -> Complex64 {
        complex(self.re[0], self.im[0])
    }
}

impl<const L: usize> Add for Lanes<L> {
    type Output = Self;

    #[inline]
    fn add(self, other: Self) -> Self {
        Self { re: from_fn(|k| self.re[k] + other.re[k]), im: from_fn(|k| self.im[k] + other.im[k]) }
    }
}

impl<const L: usize> AddAssign for Lanes<L> {
    #[inline]
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl<const L: usize> Sub for Lanes<L> {
    type Output = Self;

    #[inline]
    fn sub(self, other: Self) -> Self {
        Self { re: from_fn(|k| self.re[k] - other.re[k]), im: from_fn(|k| self.im[k] - other.im[k]) }
    }
}

impl<const L: usize> Mul for Lanes<L> {
    type Output = Self;

    #[inline]
    fn mul(self, other: Self) -> Self {
        Self {
            re: from_fn(|k| self.re[k] * other.re[k] - self.im[k] * other.im[k]),
            im: from_fn(|k| self.re[k] * other.im[k] + self.im[k] * other.re[k]),
        }
    }
}
