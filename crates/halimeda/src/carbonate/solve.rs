//! Root finding for every pair of known quantities.
//!
//! In each pair the hydrogen ion is the one unknown left. What is known of the
//! number of roots follows from the shape of one function of H:
//!
//! - The alkalinity of every acid system falls with H, and is convex in H: an
//!   acid with real, separate dissociation steps contributes a sum of terms
//!   `r/(r + H)`, and `KW/H` and `-H` are convex too.
//! - Alkalinity with DIC, CO2 or HCO3⁻: the function falls strictly from +∞ to
//!   −∞, so there is exactly one root (Munhoven 2013, doi
//!   10.5194/gmd-6-1367-2013; Munhoven 2021, doi 10.5194/gmd-14-4225-2021).
//! - Alkalinity with CO3²⁻: the bicarbonate term `CO3·H/K2` rises, the sum is
//!   strictly convex, so there are none, one or two (Munhoven 2021).
//! - DIC with HCO3⁻ leaves a quadratic with none, one or two positive roots;
//!   DIC with CO2 or with CO3²⁻ leaves one with exactly one positive root where
//!   DIC exceeds the species, and none otherwise.
//! - Two species fix H by one equilibrium; a pH fixes H itself.

use super::constant_set::ConstantSet;
use super::known::KnownClass;
use super::speciation::{AcidBase, CarbonFractions, Part};
use crate::real::{exp, sqrt};

/// A known quantity reduced to its class, in mol/kg or as H on the total scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Canonical {
    Alkalinity(f64),
    Dic(f64),
    H(f64),
    Co2(f64),
    Bicarbonate(f64),
    Carbonate(f64),
}

/// Hydrogen ion and inorganic carbon of one root, mol/kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Root {
    pub(crate) h: f64,
    pub(crate) dic: f64,
}

/// All roots of a pair, or why there are none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Roots {
    /// No state satisfies the pair, for this reason.
    None(&'static str),
    One(Root),
    /// The more acid one first.
    Two(Root, Root),
    /// The two are of the same class, for this reason.
    SameClass(&'static str),
}

const NONE_ALKALINITY: &str =
    "other bases and acids alone already make up a higher alkalinity at this pH";
const NONE_SPECIES: &str =
    "a dissolved inorganic carbon this low cannot hold that much of the species";
const NONE_ZERO: &str =
    "a carbonate species of zero content has no finite pH beside the other quantity";
const NONE_ALKALINITY_CARBONATE: &str =
    "at no pH is so much carbonate found at so low an alkalinity";

/// Solves a pair for H and DIC.
#[inline]
pub(crate) fn solve(water: AcidBase<'_>, first: Canonical, second: Canonical) -> Roots {
    let set = water.set;
    use Canonical::{Alkalinity, Bicarbonate, Carbonate, Co2, Dic, H};
    match (first, second) {
        (Alkalinity(alk), Dic(dic)) | (Dic(dic), Alkalinity(alk)) => Roots::One(Root {
            h: alkalinity_dic(water, alk, dic),
            dic,
        }),
        (H(h), Alkalinity(alk)) | (Alkalinity(alk), H(h)) => {
            let carbonate_alkalinity = alk - water.rest(h).value;
            if carbonate_alkalinity < 0.0 {
                return Roots::None(NONE_ALKALINITY);
            }
            let charge = CarbonFractions::new(set.k1, set.k2, h).charge();
            Roots::One(Root {
                h,
                dic: carbonate_alkalinity / charge,
            })
        }
        (H(h), Dic(dic)) | (Dic(dic), H(h)) => Roots::One(Root { h, dic }),
        (H(h), Co2(co2)) | (Co2(co2), H(h)) => from_species(set, h, co2, |f| f.co2),
        (H(h), Bicarbonate(hco3)) | (Bicarbonate(hco3), H(h)) => {
            from_species(set, h, hco3, |f| f.bicarbonate)
        }
        (H(h), Carbonate(co3)) | (Carbonate(co3), H(h)) => {
            from_species(set, h, co3, |f| f.carbonate)
        }
        (Alkalinity(alk), Co2(co2)) | (Co2(co2), Alkalinity(alk)) => {
            from_species(set, alkalinity_co2(water, alk, co2), co2, |f| f.co2)
        }
        (Alkalinity(alk), Bicarbonate(hco3)) | (Bicarbonate(hco3), Alkalinity(alk)) => {
            from_species(set, alkalinity_bicarbonate(water, alk, hco3), hco3, |f| {
                f.bicarbonate
            })
        }
        (Alkalinity(alk), Carbonate(co3)) | (Carbonate(co3), Alkalinity(alk)) => {
            alkalinity_carbonate(water, alk, co3)
        }
        (Dic(dic), Co2(co2)) | (Co2(co2), Dic(dic)) => dic_co2(set, dic, co2),
        (Dic(dic), Bicarbonate(hco3)) | (Bicarbonate(hco3), Dic(dic)) => {
            dic_bicarbonate(set, dic, hco3)
        }
        (Dic(dic), Carbonate(co3)) | (Carbonate(co3), Dic(dic)) => dic_carbonate(set, dic, co3),
        (Co2(co2), Bicarbonate(hco3)) | (Bicarbonate(hco3), Co2(co2)) => {
            ratio(set, co2, hco3, |r| set.k1 * r, |f| f.bicarbonate)
        }
        (Co2(co2), Carbonate(co3)) | (Carbonate(co3), Co2(co2)) => ratio(
            set,
            co2,
            co3,
            |r| sqrt(set.k1 * set.k2 * r),
            |f| f.carbonate,
        ),
        (Bicarbonate(hco3), Carbonate(co3)) | (Carbonate(co3), Bicarbonate(hco3)) => {
            ratio(set, hco3, co3, |r| set.k2 * r, |f| f.carbonate)
        }
        (Alkalinity(_), Alkalinity(_)) => Roots::SameClass(KnownClass::Alkalinity.same()),
        (Dic(_), Dic(_)) => Roots::SameClass(KnownClass::InorganicCarbon.same()),
        (H(_), H(_)) => Roots::SameClass(KnownClass::Hydrogen.same()),
        (Co2(_), Co2(_)) => Roots::SameClass(KnownClass::CarbonDioxide.same()),
        (Bicarbonate(_), Bicarbonate(_)) => Roots::SameClass(KnownClass::Bicarbonate.same()),
        (Carbonate(_), Carbonate(_)) => Roots::SameClass(KnownClass::Carbonate.same()),
    }
}

/// DIC from one species and H.
#[inline]
fn from_species(
    set: &ConstantSet<f64>,
    h: f64,
    content: f64,
    fraction: impl Fn(CarbonFractions) -> f64,
) -> Roots {
    let f = fraction(CarbonFractions::new(set.k1, set.k2, h));
    Roots::One(Root {
        h,
        dic: if content > 0.0 { content / f } else { 0.0 },
    })
}

/// H from the ratio of two carbonate species.
#[inline]
fn ratio(
    set: &ConstantSet<f64>,
    acid: f64,
    base: f64,
    h_of_ratio: impl Fn(f64) -> f64,
    base_fraction: impl Fn(CarbonFractions) -> f64,
) -> Roots {
    if acid <= 0.0 || base <= 0.0 {
        return Roots::None(NONE_ZERO);
    }
    from_species(set, h_of_ratio(acid / base), base, base_fraction)
}

fn dic_co2(set: &ConstantSet<f64>, dic: f64, co2: f64) -> Roots {
    if co2 <= 0.0 {
        return Roots::None(NONE_ZERO);
    }
    // DIC/CO2 - 1 = K1/H + K1 K2/H²
    let excess = (dic - co2) / co2;
    if excess <= 0.0 {
        return Roots::None(NONE_SPECIES);
    }
    Roots::One(Root {
        h: h_of_dic_per_co2(set, excess),
        dic,
    })
}

/// H at which DIC/CO2 - 1 is `excess`.
#[inline(always)]
pub(crate) fn h_of_dic_per_co2(set: &ConstantSet<f64>, excess: f64) -> f64 {
    let k1 = set.k1;
    (k1 + sqrt(k1 * (k1 + 4.0 * excess * set.k2))) / (2.0 * excess)
}

fn dic_carbonate(set: &ConstantSet<f64>, dic: f64, co3: f64) -> Roots {
    if co3 <= 0.0 {
        return Roots::None(NONE_ZERO);
    }
    // DIC/CO3 - 1 = H/K2 + H²/(K1 K2)
    let excess = (dic - co3) / co3;
    if excess <= 0.0 {
        return Roots::None(NONE_SPECIES);
    }
    Roots::One(Root {
        h: h_of_dic_per_carbonate(set, excess),
        dic,
    })
}

/// H at which DIC/CO3 - 1 is `excess`.
#[inline(always)]
pub(crate) fn h_of_dic_per_carbonate(set: &ConstantSet<f64>, excess: f64) -> f64 {
    let k1 = set.k1;
    2.0 * set.k2 * excess * k1 / (k1 + sqrt(k1 * (k1 + 4.0 * excess * set.k2)))
}

fn dic_bicarbonate(set: &ConstantSet<f64>, dic: f64, hco3: f64) -> Roots {
    if hco3 <= 0.0 {
        return Roots::None(NONE_ZERO);
    }
    // DIC/HCO3 - 1 = H/K1 + K2/H; the right side has its minimum 2√(K2/K1) at
    // H = √(K1 K2).
    let excess = (dic - hco3) / hco3;
    let least = 2.0 * sqrt(set.k2 / set.k1);
    // Differences of the size of rounding decide nothing: the roots coincide.
    let slack = 4.0 * f64::EPSILON * (1.0 + excess.max(0.0));
    if excess < least - slack {
        return Roots::None(NONE_SPECIES);
    }
    let spread = sqrt((excess - least).max(0.0) * (excess + least));
    if excess <= least + slack {
        return Roots::One(Root {
            h: sqrt(set.k1 * set.k2),
            dic,
        });
    }
    let acid = set.k1 * (excess + spread) / 2.0;
    let basic = 2.0 * set.k2 / (excess + spread);
    Roots::Two(Root { h: acid, dic }, Root { h: basic, dic })
}

/// H at which `carbon/H - H/free_to_total` equals `difference`: the alkalinity
/// of water, with `carbon` in place of KW where a species adds to it.
#[inline]
fn h_of_water_alkalinity(numerator: f64, free_to_total: f64, difference: f64) -> f64 {
    let root = sqrt(difference * difference + 4.0 * numerator / free_to_total);
    if difference >= 0.0 {
        2.0 * numerator / (difference + root)
    } else {
        0.5 * free_to_total * (root - difference)
    }
}

/// H from alkalinity and DIC.
#[inline]
fn alkalinity_dic(water: AcidBase<'_>, alkalinity: f64, dic: f64) -> f64 {
    let guess = carbonate_borate_guess(water.set, alkalinity, dic);
    alkalinity_dic_near(water, alkalinity, dic, guess)
}

/// H from alkalinity and DIC, looked for first near a guess.
#[inline]
pub(crate) fn alkalinity_dic_near(
    water: AcidBase<'_>,
    alkalinity: f64,
    dic: f64,
    guess: f64,
) -> f64 {
    let set = water.set;
    let f = |h: f64| alkalinity_dic_residual(water, alkalinity, dic, h).newton();
    if let Some(h) = newton_from_near(guess, f) {
        return h;
    }
    let (lowest, highest) = water.rest_limits();
    let ft = set.free_to_total;
    let lo = h_of_water_alkalinity(set.kw, ft, alkalinity - lowest);
    let hi = h_of_water_alkalinity(set.kw, ft, alkalinity - highest - 2.0 * dic);
    falling_root(lo, hi, guess, f)
}

/// What the alkalinity at `h` has in excess.
#[inline(always)]
pub(crate) fn alkalinity_dic_residual(
    water: AcidBase<'_>,
    alkalinity: f64,
    dic: f64,
    h: f64,
) -> Part {
    let fractions = CarbonFractions::new(water.set.k1, water.set.k2, h);
    let rest = water.rest(h);
    Part {
        value: rest.value + (dic * fractions.charge() - alkalinity),
        slope: rest.slope + dic * fractions.charge_slope(),
        curvature: rest.curvature + dic * fractions.charge_curvature(),
    }
}

/// A first H from carbonate and borate alkalinity alone.
///
/// Munhoven (2013), sect. 3.2.2: with only these two systems the equation is a
/// cubic in H; the parabola through its local minimum has the wanted root.
#[inline(always)]
pub(crate) fn carbonate_borate_guess(set: &ConstantSet<f64>, alkalinity: f64, dic: f64) -> f64 {
    // Its coefficients times the alkalinity, which spares a division.
    let (k1, k2, kb) = (set.k1, set.k2, set.kb);
    let without_borate = alkalinity - set.boron;
    let a3 = alkalinity;
    let a2 = kb * without_borate + k1 * (alkalinity - dic);
    let a1 = k1 * (kb * (without_borate - dic) + k2 * (alkalinity - 2.0 * dic));
    let a0 = k1 * k2 * kb * (without_borate - 2.0 * dic);
    let root = sqrt(a2 * a2 - 3.0 * a1 * a3);
    let (numerator, denominator) = if a2 < 0.0 {
        (root - a2, 3.0 * a3)
    } else {
        (-a1, a2 + root)
    };
    let minimum = numerator / denominator;
    let depth = -(a0 + minimum * (a1 + minimum * (a2 + minimum * a3))) / root;
    let guess = minimum + sqrt(depth);
    // Chosen last, so that many waters can be guessed for without a branch. Where
    // there is no minimum, or not below zero, `guess` is no number.
    if alkalinity <= 0.0 {
        1e-3
    } else if alkalinity >= 2.0 * dic + set.boron {
        1e-10
    } else if guess > 0.0 {
        guess
    } else {
        1e-7
    }
}

/// H from alkalinity and dissolved CO2.
fn alkalinity_co2(water: AcidBase<'_>, alkalinity: f64, co2: f64) -> f64 {
    let set = water.set;
    let (lowest, highest) = water.rest_limits();
    let ft = set.free_to_total;
    let single = set.kw + set.k1 * co2;
    let double = 2.0 * set.k1 * set.k2 * co2;
    let lo = h_of_water_alkalinity(single, ft, alkalinity - lowest);
    // Above both H with `double/H² <= H/(2 ft)` (true from the cube root on, hence
    // for H >= max(1, 2 ft double)) and the root of what remains.
    let hi = h_of_water_alkalinity(single, 2.0 * ft, alkalinity - highest)
        .max(2.0 * ft * double)
        .max(1.0);
    let f = |h: f64| alkalinity_co2_residual(water, alkalinity, co2, h).newton();
    // All alkalinity as bicarbonate.
    let guess = if alkalinity > 0.0 && co2 > 0.0 {
        set.k1 * co2 / alkalinity
    } else {
        1e-8
    };
    falling_root(lo, hi, guess, f)
}

/// What the alkalinity at `h` has in excess.
#[inline(always)]
pub(crate) fn alkalinity_co2_residual(
    water: AcidBase<'_>,
    alkalinity: f64,
    co2: f64,
    h: f64,
) -> Part {
    let set = water.set;
    let inverse = 1.0 / h;
    let bicarbonate = set.k1 * co2 * inverse;
    let twice_carbonate = 2.0 * set.k2 * bicarbonate * inverse;
    let rest = water.rest(h);
    Part {
        value: rest.value + bicarbonate + twice_carbonate - alkalinity,
        slope: rest.slope - bicarbonate - 2.0 * twice_carbonate,
        curvature: rest.curvature + bicarbonate + 4.0 * twice_carbonate,
    }
}

/// H from alkalinity and bicarbonate.
fn alkalinity_bicarbonate(water: AcidBase<'_>, alkalinity: f64, hco3: f64) -> f64 {
    let set = water.set;
    let (lowest, highest) = water.rest_limits();
    let ft = set.free_to_total;
    let numerator = set.kw + 2.0 * set.k2 * hco3;
    let lo = h_of_water_alkalinity(numerator, ft, alkalinity - hco3 - lowest);
    let hi = h_of_water_alkalinity(numerator, ft, alkalinity - hco3 - highest);
    let f = |h: f64| alkalinity_bicarbonate_residual(water, alkalinity, hco3, h).newton();
    falling_root(lo, hi, 1e-8, f)
}

/// What the alkalinity at `h` has in excess.
#[inline(always)]
pub(crate) fn alkalinity_bicarbonate_residual(
    water: AcidBase<'_>,
    alkalinity: f64,
    hco3: f64,
    h: f64,
) -> Part {
    let twice_carbonate = 2.0 * water.set.k2 * hco3 / h;
    let rest = water.rest(h);
    Part {
        value: rest.value + hco3 + twice_carbonate - alkalinity,
        slope: rest.slope - twice_carbonate,
        curvature: rest.curvature + twice_carbonate,
    }
}

/// H from alkalinity and carbonate: none, one or two.
fn alkalinity_carbonate(water: AcidBase<'_>, alkalinity: f64, co3: f64) -> Roots {
    let set = water.set;
    let (lowest, highest) = water.rest_limits();
    let ft = set.free_to_total;
    let rise = co3 / set.k2 - 1.0 / ft;
    let f = |h: f64| {
        let bicarbonate = co3 * h / set.k2;
        let rest = water.rest(h);
        (
            rest.value + 2.0 * co3 + bicarbonate - alkalinity,
            rest.slope + bicarbonate,
        )
    };
    let root = |h: f64| Root {
        h,
        // DIC = CO3 (1 + H/K2 + H²/(K1 K2)), defined at zero carbonate too.
        dic: co3 * (1.0 + h / set.k2 * (1.0 + h / set.k1)),
    };
    // No more than this is left for water once acids are fully protonated.
    let margin = alkalinity - 2.0 * co3 - lowest;
    let lo = h_of_water_alkalinity(set.kw, ft, margin);
    if rise <= 0.0 {
        // Falling throughout, from +∞ to −∞ (to a limit if `rise` is exactly 0).
        let numerator = set.kw;
        let slope = -rise;
        if slope <= 0.0 {
            return Roots::None(NONE_ALKALINITY_CARBONATE);
        }
        let hi = h_of_water_alkalinity(numerator, 1.0 / slope, alkalinity - 2.0 * co3 - highest);
        return Roots::One(root(falling_root(lo, hi, 1e-7, f)));
    }
    // Rising part: f >= 2 CO3 + rise H + lowest - alkalinity > 0 beyond `hi`.
    let hi = margin / rise;
    if margin <= 0.0 || hi <= lo {
        return Roots::None(NONE_ALKALINITY_CARBONATE);
    }
    // The slope to ln H has the sign of the slope to H, which rises: bisect in ln H
    // for the minimum, and stop as soon as a negative value proves two roots.
    let (mut left, mut right) = (lo, hi);
    for _ in 0..BISECTIONS {
        let middle = sqrt(left * right);
        let (value, slope) = f(middle);
        if value < 0.0 {
            let basic = bracketed_root(lo, middle, middle, f);
            let acid = bracketed_root(middle, hi, middle, f);
            return Roots::Two(root(acid), root(basic));
        }
        if slope < 0.0 {
            left = middle;
        } else {
            right = middle;
        }
        if right - left <= f64::EPSILON * right {
            break;
        }
    }
    let touch = sqrt(left * right);
    // At the minimum, a value of the size of rounding in the sum is a root.
    let terms = alkalinity.abs() + 2.0 * co3 + co3 * touch / set.k2 + highest - lowest;
    if f(touch).0 <= 4.0 * f64::EPSILON * terms {
        Roots::One(root(touch))
    } else {
        Roots::None(NONE_ALKALINITY_CARBONATE)
    }
}

/// More halvings of ln H than any bracket of this module can take.
const BISECTIONS: u32 = 128;

/// Root of a function that falls with H, between `lo` and `hi`.
#[inline]
fn falling_root(lo: f64, hi: f64, guess: f64, f: impl Fn(f64) -> (f64, f64)) -> f64 {
    safeguarded_newton(lo, hi, guess, 1.0, LAST_STEP, f)
}

/// A Newton step in ln H below this is the last.
///
/// In ln H the slope of an acid's alkalinity is the variance of its charge and
/// the curvature the third moment, at most the acid's number of protons times
/// the variance. All slopes share their sign, so with phosphate the sum has
/// `|f''| <= 3|f'|`, and a step of size `s` leaves an error below `2 s²`: the step
/// after one of 1e-8 is below rounding.
pub(crate) const LAST_STEP: f64 = 1e-8;

/// A Halley step in ln H below this is the last.
///
/// As [`LAST_STEP`], with the third derivative, the fourth cumulant of charges of
/// at most three: no larger than 9 times their variance. A step of size `s` then
/// leaves an error below 4 `s`³ (9/4 + 9/6 of Halley's and 1/12 of
/// [`exp_of_step`]'s), and that is below rounding.
#[cfg(feature = "batch")]
pub(crate) const LAST_HALLEY_STEP: f64 = 2e-6;

/// Root of a function that falls with H, if it lies near `guess`.
///
/// By the same bound, Newton converges from a point where its step is at most
/// 1/16: over twice that distance the slope changes by less than a factor of 1.5,
/// so Kantorovich's condition holds with 3 × 1.5/16 < 1/2. No bracket is needed
/// then; none is returned where a step is larger.
#[inline]
fn newton_from_near(guess: f64, f: impl Fn(f64) -> (f64, f64)) -> Option<f64> {
    let mut h = guess;
    for _ in 0..6 {
        let (value, slope) = f(h);
        let (size, whole) = (value.abs(), slope.abs());
        // NaN fails this too.
        let near = size <= 0.0625 * whole;
        if !near {
            return None;
        }
        h *= exp_of_step(value, slope);
        if size <= LAST_STEP * whole {
            return Some(h);
        }
    }
    None
}

/// exp(s) of a Newton step s = -value/slope with |s| <= 1, as its [1/1] Padé
/// approximant (2 + s)/(2 - s): exact to third order, and one division in all.
#[inline(always)]
pub(crate) fn exp_of_step(value: f64, slope: f64) -> f64 {
    (2.0 * slope - value) / (2.0 * slope + value)
}

/// Root of a function of either direction; no bound on its curvature is known.
fn bracketed_root(lo: f64, hi: f64, guess: f64, f: impl Fn(f64) -> (f64, f64)) -> f64 {
    let direction = if f(hi).0 > f(lo).0 { -1.0 } else { 1.0 };
    safeguarded_newton(lo, hi, guess, direction, 0.0, f)
}

/// Newton in ln H, kept inside a bracket that every evaluation tightens, with
/// bisection in ln H where Newton would leave it or has stopped shrinking it.
///
/// `direction` is 1 for a falling and −1 for a rising function. Terminates: the
/// Newton steps must halve in size, and where they do not the bracket does.
#[inline]
fn safeguarded_newton(
    mut lo: f64,
    mut hi: f64,
    guess: f64,
    direction: f64,
    last_step: f64,
    f: impl Fn(f64) -> (f64, f64),
) -> f64 {
    let mut h = if guess > lo && guess < hi {
        guess
    } else {
        sqrt(lo * hi)
    };
    let mut previous = f64::INFINITY;
    for _ in 0..2 * BISECTIONS {
        let (value, slope) = f(h);
        // Exactly zero is found, anything else is not.
        #[allow(clippy::float_cmp)]
        if value == 0.0 {
            return h;
        }
        if value * direction > 0.0 {
            lo = h;
        } else {
            hi = h;
        }
        let size = value.abs();
        let whole = slope.abs();
        let next = if size <= whole {
            h * exp_of_step(value, slope)
        } else {
            h * exp((-value / slope).clamp(-50.0, 50.0))
        };
        // Newton must halve its own step, else the bracket is halved instead.
        if size <= 0.5 * previous * whole && next > lo && next < hi {
            h = next;
            if size <= last_step * whole {
                return h;
            }
            previous = size / whole;
        } else {
            if size <= last_step.max(f64::EPSILON) * whole {
                // Where a limit is itself the root, the step ends just beyond it.
                return next.max(lo).min(hi);
            }
            let middle = sqrt(lo * hi);
            if middle <= lo || middle >= hi {
                return h;
            }
            h = middle;
            previous = f64::INFINITY;
        }
    }
    h
}
