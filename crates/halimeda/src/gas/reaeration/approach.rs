//! Least squares for the exponential approach y = A − (A − B) exp(−k (x − x0)).
//!
//! A and B are linear for a given k, so the search is over ln k alone (variable
//! projection; Golub & Pereyra 1973, SIAM J. Numer. Anal. 10, 413-432). The
//! minimum is bracketed by a scan, so no starting value is asked for and no
//! iteration can run away.

use super::Estimate;
use super::student_t::t_975;
use crate::real::{Real, exp, sqrt};
use crate::root;

/// Values that are not fitted.
#[derive(Debug, Clone, Copy)]
pub(super) struct Known {
    /// A.
    pub(super) equilibrium: Option<f64>,
    /// B, at x0 = 0. Fitted, B stands at the first point.
    pub(super) initial: Option<f64>,
}

/// Why a record does not bound the rate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Failure {
    /// From below: a straight line fits as well.
    TooShort,
    /// From above: a jump after the first point fits as well.
    TooCoarse,
}

/// The fitted curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Fit {
    pub(super) rate: Estimate,
    pub(super) rate_interval: (f64, f64),
    pub(super) equilibrium: Estimate,
    pub(super) initial: Estimate,
    pub(super) residual_sd: f64,
    pub(super) degrees_of_freedom: usize,
}

/// Fits points of increasing x ≥ 0, more of them than there are unknowns.
pub(super) fn fit<I>(points: I, known: Known) -> Result<Fit, Failure>
where
    I: Iterator<Item = (f64, f64)> + Clone,
{
    let problem = Problem::new(points, known);
    let best = problem.minimise()?;
    problem.describe(best)
}

struct Problem<I> {
    points: I,
    known: Known,
    count: usize,
    /// x0.
    origin: f64,
    /// Limits of ln k: below, the curve is a straight line over the record;
    /// above, a jump.
    lowest: f64,
    highest: f64,
}

/// A response over the points as a (1 − e) + b e, e = exp(−k (x − x0)), by least
/// squares; a known one of the two is zero.
#[derive(Default)]
struct Projection {
    a: f64,
    b: f64,
    /// Variances of a and b per variance of the response.
    variance_a: f64,
    variance_b: f64,
}

/// Best A and B at one rate, with what they leave.
struct Profile {
    a: f64,
    b: f64,
    sum_of_squares: f64,
    /// Its derivative with respect to k.
    slope: f64,
}

impl<I> Problem<I>
where
    I: Iterator<Item = (f64, f64)> + Clone,
{
    fn new(points: I, known: Known) -> Self {
        let first = points.clone().next().map_or(0.0, |(x, _)| x);
        let origin = if known.initial.is_some() { 0.0 } else { first };
        let mut previous = origin;
        let mut gap = f64::INFINITY;
        let mut count = 0;
        for (x, _) in points.clone() {
            if x > previous {
                gap = gap.min(x - previous);
            }
            previous = x;
            count += 1;
        }
        Self {
            points,
            known,
            count,
            origin,
            lowest: Real::ln(1e-4 / (previous - origin)),
            highest: Real::ln(40.0 / gap),
        }
    }

    /// Points as (x − x0, e, y).
    fn decay(&self, k: f64) -> impl Iterator<Item = (f64, f64, f64)> + Clone {
        let origin = self.origin;
        self.points.clone().map(move |(x, y)| {
            let t = x - origin;
            (t, exp(-k * t), y)
        })
    }

    fn project(&self, k: f64, response: impl Fn(f64, f64, f64) -> f64) -> Projection {
        let points = self.decay(k).map(|(t, e, y)| (e, response(t, e, y)));
        match (self.known.equilibrium, self.known.initial) {
            (Some(_), Some(_)) => Projection::default(),
            (Some(_), None) => {
                let (b, variance_b) = through_origin(points);
                Projection {
                    b,
                    variance_b,
                    ..Projection::default()
                }
            }
            (None, Some(_)) => {
                let (a, variance_a) = through_origin(points.map(|(e, r)| (1.0 - e, r)));
                Projection {
                    a,
                    variance_a,
                    ..Projection::default()
                }
            }
            (None, None) => {
                let n = self.count as f64;
                let (sum_e, sum_r) = points
                    .clone()
                    .fold((0.0, 0.0), |(sum_e, sum_r), (e, r)| (sum_e + e, sum_r + r));
                let (mean_e, mean_r) = (sum_e / n, sum_r / n);
                let (gradient, variance) =
                    through_origin(points.map(|(e, r)| (e - mean_e, r - mean_r)));
                // The line at e = 0 and at e = 1.
                Projection {
                    a: mean_r - gradient * mean_e,
                    b: mean_r + gradient * (1.0 - mean_e),
                    variance_a: 1.0 / n + mean_e.square() * variance,
                    variance_b: 1.0 / n + (1.0 - mean_e).square() * variance,
                }
            }
        }
    }

    fn profile(&self, k: f64) -> (Profile, Projection) {
        let known_a = self.known.equilibrium.unwrap_or(0.0);
        let known_b = self.known.initial.unwrap_or(0.0);
        let fitted = self.project(k, |_, e, y| y - known_a * (1.0 - e) - known_b * e);
        let (a, b) = (known_a + fitted.a, known_b + fitted.b);
        let (sum_of_squares, along) = self.decay(k).fold((0.0, 0.0), |(ss, along), (t, e, y)| {
            let residual = y - a + (a - b) * e;
            (ss + residual.square(), along + residual * t * e)
        });
        let profile = Profile {
            a,
            b,
            sum_of_squares,
            // A and B are at their optimum, so only k counts (envelope theorem).
            slope: -2.0 * (a - b) * along,
        };
        (profile, fitted)
    }

    fn sum_of_squares(&self, ln_k: f64) -> f64 {
        self.profile(exp(ln_k)).0.sum_of_squares
    }

    /// ln k of the least sum of squares.
    fn minimise(&self) -> Result<f64, Failure> {
        const STEPS: u32 = 160;
        let step = (self.highest - self.lowest) / f64::from(STEPS);
        let mut best = (0, f64::INFINITY);
        for i in 0..=STEPS {
            let sum = self.sum_of_squares(self.lowest + f64::from(i) * step);
            if sum < best.1 {
                best = (i, sum);
            }
        }
        if best.0 == 0 {
            return Err(Failure::TooShort);
        }
        if best.0 == STEPS {
            return Err(Failure::TooCoarse);
        }
        let centre = self.lowest + f64::from(best.0) * step;
        let coarse = golden_section(centre - step, centre + step, |x| self.sum_of_squares(x));
        // A minimum is known from its values only to the root of the rounding
        // error; from the sign of the slope it is known to the rounding error.
        Ok(root::of_increasing(
            |ln_k| self.profile(exp(ln_k)).0.slope,
            0.0,
            coarse - 1e-4,
            coarse + 1e-4,
            TOLERANCE,
        ))
    }

    fn describe(&self, ln_k: f64) -> Result<Fit, Failure> {
        let k = exp(ln_k);
        let (
            Profile {
                a,
                b,
                sum_of_squares,
                ..
            },
            fitted,
        ) = self.profile(k);
        let unknowns = 1
            + usize::from(self.known.equilibrium.is_none())
            + usize::from(self.known.initial.is_none());
        let degrees_of_freedom = self.count.saturating_sub(unknowns);
        let variance = sum_of_squares / degrees_of_freedom as f64;

        // k is known from the part of the curve's derivative to k that A and B
        // cannot take up; what they take up is their share in the error of k.
        let derivative = |t: f64, e: f64| (a - b) * t * e;
        let taken_up = self.project(k, |t, e, _| derivative(t, e));
        let information = self.decay(k).fold(0.0, |sum, (t, e, _)| {
            let own = derivative(t, e) - taken_up.a * (1.0 - e) - taken_up.b * e;
            sum + own.square()
        });
        let variance_k = variance / information;

        let t = t_975(degrees_of_freedom);
        let threshold = sum_of_squares * (1.0 + t.square() / degrees_of_freedom as f64);
        let below = self
            .reach(threshold, ln_k - self.lowest, |u| ln_k - u)
            .ok_or(Failure::TooShort)?;
        let above = self
            .reach(threshold, self.highest - ln_k, |u| ln_k + u)
            .ok_or(Failure::TooCoarse)?;

        let estimate = |value: f64, variance: f64| Estimate {
            value,
            standard_error: sqrt(variance),
        };
        Ok(Fit {
            rate: estimate(k, variance_k),
            rate_interval: (exp(ln_k - below), exp(ln_k + above)),
            equilibrium: estimate(
                a,
                fitted.variance_a * variance + taken_up.a.square() * variance_k,
            ),
            initial: estimate(
                b,
                fitted.variance_b * variance + taken_up.b.square() * variance_k,
            ),
            residual_sd: sqrt(variance),
            degrees_of_freedom,
        })
    }

    /// Distance of ln k from the optimum at which the sum of squares reaches a
    /// threshold, if it does within the limit.
    fn reach(&self, threshold: f64, limit: f64, ln_k: impl Fn(f64) -> f64) -> Option<f64> {
        let sum = |distance: f64| self.sum_of_squares(ln_k(distance));
        let (mut inside, mut outside) = (0.0, 1e-9);
        while outside < limit && sum(outside) <= threshold {
            inside = outside;
            outside *= 2.0;
        }
        outside = outside.min(limit);
        (sum(outside) > threshold)
            .then(|| root::of_increasing(sum, threshold, inside, outside, TOLERANCE))
    }
}

/// Of ln k.
const TOLERANCE: f64 = 1e-13;

/// Gradient of a line through the origin, and its variance per variance of y.
fn through_origin(points: impl Iterator<Item = (f64, f64)>) -> (f64, f64) {
    let (sxx, sxy) = points.fold((0.0, 0.0), |(sxx, sxy), (x, y)| (sxx + x * x, sxy + x * y));
    // x is zero everywhere only where exp(−k t) has run out of numbers: then
    // the line has no part in the curve.
    if sxx > 0.0 {
        (sxy / sxx, 1.0 / sxx)
    } else {
        (0.0, f64::INFINITY)
    }
}

/// Golden-section search of a minimum between two values, to 10⁻⁶.
fn golden_section(mut low: f64, mut high: f64, f: impl Fn(f64) -> f64) -> f64 {
    const RATIO: f64 = 0.618_033_988_749_894_8;
    let mut left = high - RATIO * (high - low);
    let mut right = low + RATIO * (high - low);
    let (mut f_left, mut f_right) = (f(left), f(right));
    while high - low > 1e-6 {
        if f_left < f_right {
            high = right;
            (right, f_right) = (left, f_left);
            left = high - RATIO * (high - low);
            f_left = f(left);
        } else {
            low = left;
            (left, f_left) = (right, f_right);
            right = low + RATIO * (high - low);
            f_right = f(right);
        }
    }
    0.5 * (low + high)
}
