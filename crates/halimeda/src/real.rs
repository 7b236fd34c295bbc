//! The number a chemical relation is evaluated on.
//!
//! Every empirical relation is written once, generic over [`Real`]: on `f64` it
//! gives the value, on [`Dual`] it gives the value together with its exact
//! first derivatives (forward-mode differentiation), which is where the
//! sensitivities to temperature and salinity come from. Differentiating the
//! code that computes the value means the two can never drift apart.

use core::ops::{Add, Div, Mul, Neg, Sub};

mod sealed {
    pub trait Sealed {}
    impl Sealed for f64 {}
    impl<const N: usize> Sealed for super::Dual<N> {}
    #[cfg(feature = "batch")]
    impl<const FUSED: bool> Sealed for crate::batch::lane::Lane<FUSED> {}
}

/// A real number the relations of this crate can be evaluated on: `f64` or
/// [`Dual`]. Sealed.
pub trait Real:
    sealed::Sealed
    + Copy
    + Neg<Output = Self>
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Div<Output = Self>
    + Add<f64, Output = Self>
    + Sub<f64, Output = Self>
    + Mul<f64, Output = Self>
    + Div<f64, Output = Self>
{
    /// A constant: its derivatives are zero.
    fn constant(value: f64) -> Self;
    /// The value without derivatives.
    fn value(self) -> f64;
    /// Natural exponential.
    #[must_use]
    fn exp(self) -> Self;
    /// Natural logarithm.
    #[must_use]
    fn ln(self) -> Self;
    /// Square root.
    #[must_use]
    fn sqrt(self) -> Self;
    /// `self * self`.
    #[must_use]
    fn square(self) -> Self {
        self * self
    }
    /// `1 / self`.
    #[must_use]
    fn recip(self) -> Self {
        Self::constant(1.0) / self
    }
    /// `10^self`.
    #[must_use]
    fn exp10(self) -> Self {
        (self * core::f64::consts::LN_10).exp()
    }
}

/// Polynomial with ascending coefficients, by Horner's rule.
#[inline(always)]
pub(crate) fn polynomial<R: Real, const N: usize>(x: R, coefficients: [f64; N]) -> R {
    let Some((last, lower)) = coefficients.split_last() else {
        return R::constant(0.0);
    };
    let mut sum = R::constant(*last);
    for c in lower.iter().rev() {
        sum = sum * x + *c;
    }
    sum
}

// One place decides which elementary functions are used. With `libm` and
// without `std` results carry the same bits on every target.
#[cfg(feature = "std")]
#[allow(clippy::disallowed_methods)]
mod elementary {
    #[inline]
    pub(super) fn exp(x: f64) -> f64 {
        x.exp()
    }
    #[inline]
    pub(super) fn ln(x: f64) -> f64 {
        x.ln()
    }
    #[inline]
    pub(super) fn sqrt(x: f64) -> f64 {
        x.sqrt()
    }
    #[inline]
    pub(super) fn log10(x: f64) -> f64 {
        x.log10()
    }
    #[inline]
    pub(super) fn powf(x: f64, y: f64) -> f64 {
        x.powf(y)
    }
}

#[cfg(all(not(feature = "std"), feature = "libm"))]
mod elementary {
    pub(super) use libm::{exp, log as ln, log10, pow as powf, sqrt};
}

#[cfg(not(any(feature = "std", feature = "libm")))]
compile_error!("halimeda needs elementary functions: enable the feature `std` or `libm`");

// Keeps the message above the only one when neither feature is set.
#[cfg(not(any(feature = "std", feature = "libm")))]
mod elementary {
    pub(super) fn exp(x: f64) -> f64 {
        x
    }
    pub(super) use exp as ln;
    pub(super) use exp as sqrt;
    pub(super) use exp as log10;
    pub(super) fn powf(x: f64, _: f64) -> f64 {
        x
    }
}

// Free functions for code on plain `f64`: as methods they would be ambiguous
// with the inherent ones that exist only with `std`.

/// Natural exponential.
#[inline]
pub(crate) fn exp(x: f64) -> f64 {
    elementary::exp(x)
}

/// `10^x`.
#[inline]
pub(crate) fn exp10(x: f64) -> f64 {
    elementary::exp(x * core::f64::consts::LN_10)
}

/// Natural logarithm.
#[inline]
pub(crate) fn ln(x: f64) -> f64 {
    elementary::ln(x)
}

/// Square root.
#[inline]
pub(crate) fn sqrt(x: f64) -> f64 {
    elementary::sqrt(x)
}

/// Base-10 logarithm.
#[inline]
pub(crate) fn log10(x: f64) -> f64 {
    elementary::log10(x)
}

/// `x` to the power `y`.
#[inline]
pub(crate) fn powf(x: f64, y: f64) -> f64 {
    elementary::powf(x, y)
}

impl Real for f64 {
    #[inline]
    fn constant(value: f64) -> Self {
        value
    }
    #[inline]
    fn value(self) -> f64 {
        self
    }
    #[inline]
    fn exp(self) -> Self {
        elementary::exp(self)
    }
    #[inline]
    fn ln(self) -> Self {
        elementary::ln(self)
    }
    #[inline]
    fn sqrt(self) -> Self {
        elementary::sqrt(self)
    }
}

/// A value with its exact derivatives with respect to `N` variables.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dual<const N: usize> {
    /// The value.
    pub value: f64,
    /// Its first derivatives, one per variable.
    pub derivatives: [f64; N],
}

impl<const N: usize> Dual<N> {
    /// The `index`-th of the `N` variables, with derivative one to itself.
    /// An index beyond `N` makes a constant.
    #[must_use]
    pub fn variable(value: f64, index: usize) -> Self {
        let mut derivatives = [0.0; N];
        if let Some(d) = derivatives.get_mut(index) {
            *d = 1.0;
        }
        Self { value, derivatives }
    }

    // Chain rule for a function with value `value` and slope `slope` here.
    #[inline]
    fn chain(self, value: f64, slope: f64) -> Self {
        Self {
            value,
            derivatives: self.derivatives.map(|d| d * slope),
        }
    }

    #[inline]
    fn combine(self, other: Self, value: f64, left: f64, right: f64) -> Self {
        Self {
            value,
            derivatives: core::array::from_fn(|i| {
                // `from_fn` runs over 0..N, the length of both arrays.
                #[allow(clippy::indexing_slicing)]
                let (l, r) = (self.derivatives[i], other.derivatives[i]);
                left * l + right * r
            }),
        }
    }
}

impl<const N: usize> Real for Dual<N> {
    fn constant(value: f64) -> Self {
        Self {
            value,
            derivatives: [0.0; N],
        }
    }
    fn value(self) -> f64 {
        self.value
    }
    fn exp(self) -> Self {
        let e = Real::exp(self.value);
        self.chain(e, e)
    }
    fn ln(self) -> Self {
        self.chain(Real::ln(self.value), 1.0 / self.value)
    }
    fn sqrt(self) -> Self {
        let r = Real::sqrt(self.value);
        let slope = 0.5 / r;
        Self {
            value: r,
            // Keeps a variable that does not enter out of the infinite slope at 0.
            derivatives: self
                .derivatives
                .map(|d| if d == 0.0 { 0.0 } else { d * slope }),
        }
    }
}

impl<const N: usize> Neg for Dual<N> {
    type Output = Self;
    fn neg(self) -> Self {
        self.chain(-self.value, -1.0)
    }
}

impl<const N: usize> Add for Dual<N> {
    type Output = Self;
    fn add(self, rhs: Self) -> Self {
        self.combine(rhs, self.value + rhs.value, 1.0, 1.0)
    }
}

impl<const N: usize> Sub for Dual<N> {
    type Output = Self;
    fn sub(self, rhs: Self) -> Self {
        self.combine(rhs, self.value - rhs.value, 1.0, -1.0)
    }
}

impl<const N: usize> Mul for Dual<N> {
    type Output = Self;
    fn mul(self, rhs: Self) -> Self {
        self.combine(rhs, self.value * rhs.value, rhs.value, self.value)
    }
}

impl<const N: usize> Div for Dual<N> {
    type Output = Self;
    fn div(self, rhs: Self) -> Self {
        let quotient = self.value / rhs.value;
        self.combine(rhs, quotient, 1.0 / rhs.value, -quotient / rhs.value)
    }
}

impl<const N: usize> Add<f64> for Dual<N> {
    type Output = Self;
    fn add(self, rhs: f64) -> Self {
        self.chain(self.value + rhs, 1.0)
    }
}

impl<const N: usize> Sub<f64> for Dual<N> {
    type Output = Self;
    fn sub(self, rhs: f64) -> Self {
        self.chain(self.value - rhs, 1.0)
    }
}

impl<const N: usize> Mul<f64> for Dual<N> {
    type Output = Self;
    fn mul(self, rhs: f64) -> Self {
        self.chain(self.value * rhs, rhs)
    }
}

impl<const N: usize> Div<f64> for Dual<N> {
    type Output = Self;
    fn div(self, rhs: f64) -> Self {
        self.chain(self.value / rhs, 1.0 / rhs)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // A function that uses every operation of `Real`.
    fn everything<R: Real>(x: R, y: R) -> R {
        let a = (x * y + 1.5) / (y.square() + 0.3) - x.recip();
        a.exp() + (x * 2.0 / y).ln() - (y - 0.1).sqrt() / 3.0 + (-x * 0.1).exp10()
            - polynomial(x, [1.0, -2.0, 0.5])
    }

    #[test]
    fn dual_derivatives_agree_with_central_differences() {
        for (x, y) in [(0.7, 1.3), (1.9, 0.4), (2.5, 3.1)] {
            let d = everything(Dual::<2>::variable(x, 0), Dual::<2>::variable(y, 1));
            assert!((d.value - everything(x, y)).abs() < 1e-13 * d.value.abs());
            let h = 1e-5;
            let dx = (everything(x + h, y) - everything(x - h, y)) / (2.0 * h);
            let dy = (everything(x, y + h) - everything(x, y - h)) / (2.0 * h);
            assert!((d.derivatives[0] - dx).abs() < 1e-7 * dx.abs().max(1.0));
            assert!((d.derivatives[1] - dy).abs() < 1e-7 * dy.abs().max(1.0));
        }
    }
}
