//! Elementary functions without branches, for loops over many rows.

use core::f64::consts::{LN_2, LOG2_E, LOG10_E, SQRT_2};
use core::ops::{Add, Div, Mul, Neg, Sub};

use crate::real::{Real, sqrt};

/// A number in one of many rows that are computed together.
///
/// As `f64`, but `exp` and `ln` are short straight code, which a compiler turns
/// into vector instructions where a call into a library would stop it. `FUSED`
/// says that the processor multiplies and adds in one instruction.
///
/// Accuracy, measured against `f64`'s own over the arguments of the relations
/// (`|x| <= 700` for `exp`): at most 1 unit in the last place for each of the
/// two functions. Arguments beyond that, and others than positive normal
/// numbers for `ln`, give nonsense; the rows are checked before.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Lane<const FUSED: bool>(pub(super) f64);

/// `a * b + c`.
// Rounded once or twice: either way the functions below keep their accuracy.
#[allow(clippy::disallowed_methods)]
#[inline(always)]
fn multiply_add<const FUSED: bool>(a: f64, b: f64, c: f64) -> f64 {
    if FUSED { a.mul_add(b, c) } else { a * b + c }
}

/// Polynomial with descending coefficients.
#[inline(always)]
fn horner<const FUSED: bool, const N: usize>(x: f64, descending: [f64; N]) -> f64 {
    let Some((first, lower)) = descending.split_first() else {
        return 0.0;
    };
    let mut sum = *first;
    for c in lower {
        sum = multiply_add::<FUSED>(sum, x, *c);
    }
    sum
}

/// 1.5 × 2^52: what is added to it is rounded to an integer, which then stands
/// in the lowest bits.
const ROUNDER: f64 = 6_755_399_441_055_744.0;

/// ln 2 to 32 bits: its product with an exponent is exact.
const LN_2_HIGH: f64 = f64::from_bits(LN_2.to_bits() & !0x1f_ffff);
/// The rest of ln 2, from its binary expansion (0x1.62e42fefa39ef35793c7673007e5fp-1).
const LN_2_LOW: f64 = (LN_2 - LN_2_HIGH) + 2.319_046_813_846_299_6e-17;

/// Bits of the mantissa.
const MANTISSA: u32 = 52;

#[inline(always)]
fn exp<const FUSED: bool>(x: f64) -> f64 {
    // x = n ln 2 + r with |r| <= ln 2 / 2.
    let rounded = multiply_add::<FUSED>(x, LOG2_E, ROUNDER);
    let n = rounded - ROUNDER;
    let r = multiply_add::<FUSED>(n, -LN_2_HIGH, x);
    let r = multiply_add::<FUSED>(n, -LN_2_LOW, r);
    // 1 + r + r²/2 and the rest as the polynomial that departs least from it over
    // |r| <= ln 2 / 2 (Remez, coefficients then rounded): below 2^-56 of the whole.
    let tail = horner::<FUSED, 10>(
        r,
        [
            2.511507064672255e-8,
            2.7625404987339534e-7,
            2.7557226160994082e-6,
            2.4801508125294464e-5,
            1.9841269904816812e-4,
            1.3888888927245052e-3,
            8.33333333331397e-3,
            4.166666666660284e-2,
            1.6666666666666685e-1,
            0.5,
        ],
    );
    let e = multiply_add::<FUSED>(r * r, tail, r) + 1.0;
    // Times 2^n: n added to the exponent.
    f64::from_bits(e.to_bits().wrapping_add(rounded.to_bits() << MANTISSA))
}

#[inline(always)]
fn ln<const FUSED: bool>(x: f64) -> f64 {
    // x = 2^n m with m from √½ to √2; 2^n is told apart at the bits of √½.
    const SPLIT: u64 = (SQRT_2 / 2.0).to_bits();
    const TWO_52: f64 = 4_503_599_627_370_496.0;
    const BIAS: u64 = 1023;
    let above = x
        .to_bits()
        .wrapping_sub(SPLIT)
        .wrapping_add(BIAS << MANTISSA);
    let exponent = above >> MANTISSA;
    let n = f64::from_bits(TWO_52.to_bits() | exponent) - (TWO_52 + BIAS as f64);
    let mantissa = (1 << MANTISSA) - 1;
    let m = f64::from_bits((above & mantissa).wrapping_add(SPLIT));
    // ln m = 2 artanh z, z = (m - 1)/(m + 1), |z| <= 0.1716: with f = m - 1 it
    // is f - z (f - w), w = 2 (z²/3 + z⁴/5 + …), of which the polynomial in z²
    // (Remez, as for exp) departs by less than 2^-58 of the whole.
    let f = m - 1.0;
    let z = f / (2.0 + f);
    let s = z * z;
    let series = s * horner::<FUSED, 7>(
        s,
        [
            0.14796105510224017,
            0.15314035826947248,
            0.1818356486706799,
            0.22222198563476092,
            0.2857142874247499,
            0.3999999999941432,
            0.6666666666666734,
        ],
    );
    // The largest part last, so that only its rounding counts.
    let low = multiply_add::<FUSED>(n, LN_2_LOW, z * (series - f));
    multiply_add::<FUSED>(n, LN_2_HIGH, f + low)
}

impl<const FUSED: bool> Lane<FUSED> {
    /// Base-10 logarithm.
    #[inline(always)]
    pub(super) fn log10(self) -> f64 {
        ln::<FUSED>(self.0) * LOG10_E
    }
}

impl<const FUSED: bool> Real for Lane<FUSED> {
    #[inline(always)]
    fn constant(value: f64) -> Self {
        Self(value)
    }
    #[inline(always)]
    fn value(self) -> f64 {
        self.0
    }
    #[inline(always)]
    fn exp(self) -> Self {
        Self(exp::<FUSED>(self.0))
    }
    #[inline(always)]
    fn ln(self) -> Self {
        Self(ln::<FUSED>(self.0))
    }
    #[inline(always)]
    fn sqrt(self) -> Self {
        Self(sqrt(self.0))
    }
    #[inline(always)]
    fn square(self) -> Self {
        self * self
    }
    #[inline(always)]
    fn recip(self) -> Self {
        Self(1.0 / self.0)
    }
    #[inline(always)]
    fn exp10(self) -> Self {
        (self * core::f64::consts::LN_10).exp()
    }
}

impl<const FUSED: bool> Neg for Lane<FUSED> {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

macro_rules! operator {
    ($($trait:ident $method:ident $operator:tt;)*) => { $(
        impl<const FUSED: bool> $trait for Lane<FUSED> {
            type Output = Self;
            #[inline(always)]
            fn $method(self, other: Self) -> Self {
                Self(self.0 $operator other.0)
            }
        }

        impl<const FUSED: bool> $trait<f64> for Lane<FUSED> {
            type Output = Self;
            #[inline(always)]
            fn $method(self, other: f64) -> Self {
                Self(self.0 $operator other)
            }
        }
    )* };
}

operator! {
    Add add +;
    Sub sub -;
    Mul mul *;
    Div div /;
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Distance in units of the last place of `b`.
    fn ulp(a: f64, b: f64) -> f64 {
        (a.to_bits() as i64 - b.to_bits() as i64).unsigned_abs() as f64
    }

    /// Largest distance to `f64`'s own function, and the share of arguments
    /// at which there is one at all.
    fn compare(f: impl Fn(f64) -> (f64, f64), min: f64, max: f64) -> (f64, f64) {
        const POINTS: u32 = 1_000_000;
        let (mut largest, mut differing) = (0.0_f64, 0.0);
        for i in 0..=POINTS {
            let x = min + (max - min) * f64::from(i) / f64::from(POINTS);
            let (ours, theirs) = f(x);
            let distance = ulp(ours, theirs);
            largest = largest.max(distance);
            differing += distance.min(1.0);
        }
        (largest, differing / f64::from(POINTS))
    }

    fn exp_and_ln_are_those_of_f64<const FUSED: bool>() {
        for (min, max) in [(-700.0, 700.0), (-60.0, 10.0), (-1.0, 1.0), (-1e-9, 1e-9)] {
            let (largest, differing) = compare(|x| (Lane::<FUSED>(x).exp().0, x.exp()), min, max);
            assert!(largest <= 1.0, "exp: {largest} ulp in {min}..{max}");
            assert!(differing < 0.2, "exp: {differing} in {min}..{max}");
        }
        // Temperatures in kelvin, hydrogen ion, around one, and everything.
        for (min, max) in [(200.0, 400.0), (1e-15, 1e-7), (0.5, 2.0), (1e-300, 1e300)] {
            let (largest, differing) = compare(|x| (Lane::<FUSED>(x).ln().0, x.ln()), min, max);
            assert!(largest <= 1.0, "ln: {largest} ulp in {min}..{max}");
            assert!(differing < 0.2, "ln: {differing} in {min}..{max}");
        }
    }

    #[test]
    fn fused_exp_and_ln_are_those_of_f64_to_one_unit_in_the_last_place() {
        exp_and_ln_are_those_of_f64::<true>();
    }

    #[test]
    fn unfused_exp_and_ln_are_those_of_f64_to_one_unit_in_the_last_place() {
        exp_and_ln_are_those_of_f64::<false>();
    }
}
