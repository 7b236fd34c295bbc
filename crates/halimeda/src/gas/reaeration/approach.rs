//! Least squares for the exponential approach y = A − (A − B) exp(−k (x − x0)).
//!
//! A and B are linear for a given k, so the search is over ln k alone (variable
//! projection; Golub & Pereyra 1973, SIAM J. Numer. Anal. 10, 413-432). The
//! minimum is bracketed by a scan, so no starting value is asked for and no
//! iteration can run away.

use super::Estimate;
use super::student_t::t_975;
use crate::real::Real;

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

/// Best A and B at one rate, with what they leave.
struct Profile {
    equilibrium: f64,
    initial: f64,
    sum_of_squares: f64,
    /// Its derivative with respect to k.
    slope: f64,
}

/// Simple regression on one variable: y = intercept + gradient x, or through
/// the origin.
struct Line {
    intercept: f64,
    gradient: f64,
    /// Mean of x; zero through the origin.
    mean: f64,
    /// Sum of squares of x about its mean.
    spread: f64,
}

impl Line {
    fn new(points: impl Iterator<Item = (f64, f64)> + Clone) -> Self {
        let n = points.clone().count() as f64;
        let (sum_x, sum_y) = points
            .clone()
            .fold((0.0, 0.0), |(sx, sy), (x, y)| (sx + x, sy + y));
        let (mean_x, mean_y) = (sum_x / n, sum_y / n);
        let centred = points.map(|(x, y)| (x - mean_x, y - mean_y));
        let line = Self::through_origin(centred);
        Self {
            intercept: mean_y - line.gradient * mean_x,
            mean: mean_x,
            ..line
        }
    }

    fn through_origin(points: impl Iterator<Item = (f64, f64)>) -> Self {
        let (sxx, sxy) = points.fold((0.0, 0.0), |(sxx, sxy), (x, y)| (sxx + x * x, sxy + x * y));
        Self {
            intercept: 0.0,
            gradient: if sxx > 0.0 { sxy / sxx } else { 0.0 },
            mean: 0.0,
            spread: sxx,
        }
    }
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

    /// Points as (x − x0, exp(−k (x − x0)), y).
    fn decay(&self, k: f64) -> impl Iterator<Item = (f64, f64, f64)> + Clone {
        let origin = self.origin;
        self.points.clone().map(move |(x, y)| {
            let t = x - origin;
            (t, Real::exp(-k * t), y)
        })
    }

    fn profile(&self, k: f64) -> Profile {
        let (a, b) = match (self.known.equilibrium, self.known.initial) {
            (Some(a), Some(b)) => (a, b),
            (Some(a), None) => {
                let line = Line::through_origin(self.decay(k).map(|(_, e, y)| (e, y - a)));
                (a, a + line.gradient)
            }
            (None, Some(b)) => {
                let line = Line::through_origin(self.decay(k).map(|(_, e, y)| (1.0 - e, y - b)));
                (b + line.gradient, b)
            }
            (None, None) => {
                let line = Line::new(self.decay(k).map(|(_, e, y)| (e, y)));
                (line.intercept, line.intercept + line.gradient)
            }
        };
        let (sum_of_squares, along) = self.decay(k).fold((0.0, 0.0), |(ss, along), (t, e, y)| {
            let residual = y - a + (a - b) * e;
            (ss + residual * residual, along + residual * t * e)
        });
        Profile {
            equilibrium: a,
            initial: b,
            sum_of_squares,
            // A and B are at their optimum, so only k counts (envelope theorem).
            slope: -2.0 * (a - b) * along,
        }
    }

    fn sum_of_squares(&self, ln_k: f64) -> f64 {
        self.profile(Real::exp(ln_k)).sum_of_squares
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
        // A minimum is known from its values to the root of the rounding error
        // only; from the sign of the slope it is known to the rounding error.
        let near = (coarse - 1e-4, coarse + 1e-4);
        let rising = |ln_k: f64| self.profile(Real::exp(ln_k)).slope > 0.0;
        if rising(near.0) || !rising(near.1) {
            return Ok(coarse);
        }
        Ok(bisect(near.0, near.1, rising))
    }

    fn describe(&self, ln_k: f64) -> Result<Fit, Failure> {
        let k = Real::exp(ln_k);
        let Profile {
            equilibrium: a,
            initial: b,
            sum_of_squares,
            ..
        } = self.profile(k);
        let unknowns = 1
            + usize::from(self.known.equilibrium.is_none())
            + usize::from(self.known.initial.is_none());
        let degrees_of_freedom = self.count.saturating_sub(unknowns);
        let variance = sum_of_squares / degrees_of_freedom as f64;

        // The derivative of the curve to k, and the part of it that A and B
        // cannot take up; what they do take up correlates them with k.
        let derivative = |t: f64, e: f64| (a - b) * t * e;
        let (line, var_a, var_b) = match (self.known.equilibrium, self.known.initial) {
            (Some(_), Some(_)) => (None, 0.0, 0.0),
            (Some(_), None) => {
                let line =
                    Line::through_origin(self.decay(k).map(|(t, e, _)| (e, derivative(t, e))));
                let var_b = variance / line.spread;
                (Some((line, false)), 0.0, var_b)
            }
            (None, Some(_)) => {
                let line = Line::through_origin(
                    self.decay(k).map(|(t, e, _)| (1.0 - e, derivative(t, e))),
                );
                let var_a = variance / line.spread;
                (Some((line, true)), var_a, 0.0)
            }
            (None, None) => {
                let line = Line::new(self.decay(k).map(|(t, e, _)| (e, derivative(t, e))));
                let n = self.count as f64;
                let at = |x: f64| {
                    let distance = x - line.mean;
                    variance * (1.0 / n + distance * distance / line.spread)
                };
                let (var_a, var_b) = (at(0.0), at(1.0));
                (Some((line, false)), var_a, var_b)
            }
        };
        let information = self.decay(k).fold(0.0, |sum, (t, e, _)| {
            let taken_up = match &line {
                None => 0.0,
                Some((line, complement)) => {
                    line.intercept + line.gradient * if *complement { 1.0 - e } else { e }
                }
            };
            let own = derivative(t, e) - taken_up;
            sum + own * own
        });
        let var_k = variance / information;
        let (shift_a, shift_b) = match (&line, self.known.equilibrium, self.known.initial) {
            (Some((line, _)), Some(_), None) => (0.0, line.gradient),
            (Some((line, _)), None, Some(_)) => (line.gradient, 0.0),
            (Some((line, _)), None, None) => (line.intercept, line.intercept + line.gradient),
            _ => (0.0, 0.0),
        };

        let t = t_975(degrees_of_freedom);
        let threshold = sum_of_squares * (1.0 + t * t / degrees_of_freedom as f64);
        let outside = |x: f64| self.sum_of_squares(x) > threshold;
        let low = self
            .edge(ln_k, self.lowest, outside)
            .ok_or(Failure::TooShort)?;
        let high = self
            .edge(ln_k, self.highest, outside)
            .ok_or(Failure::TooCoarse)?;

        let estimate = |value: f64, variance: f64| Estimate {
            value,
            standard_error: Real::sqrt(variance),
        };
        Ok(Fit {
            rate: estimate(k, var_k),
            rate_interval: (Real::exp(low), Real::exp(high)),
            equilibrium: estimate(a, var_a + shift_a * shift_a * var_k),
            initial: estimate(b, var_b + shift_b * shift_b * var_k),
            residual_sd: Real::sqrt(variance),
            degrees_of_freedom,
        })
    }

    /// Where ln k leaves the interval on its way from the optimum to the limit,
    /// if it does.
    fn edge(&self, optimum: f64, limit: f64, outside: impl Fn(f64) -> bool) -> Option<f64> {
        let toward = if limit < optimum { -1.0 } else { 1.0 };
        let mut inside = optimum;
        let mut step = 1e-9;
        loop {
            let mut next = optimum + toward * step;
            let last = (next - limit) * toward >= 0.0;
            if last {
                next = limit;
            }
            if outside(next) {
                return Some(bisect(inside, next, outside));
            }
            if last {
                return None;
            }
            inside = next;
            step *= 2.0;
        }
    }
}

/// Golden-section search of the minimum between two values of a function that
/// has one there, to about 10⁻⁶.
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

/// Where a condition that fails at `from` and holds at `to` begins to hold.
fn bisect(mut from: f64, mut to: f64, holds: impl Fn(f64) -> bool) -> f64 {
    // From the width of the scan to the rounding error of ln k in 60 halvings.
    for _ in 0..60 {
        let middle = 0.5 * (from + to);
        if holds(middle) {
            to = middle;
        } else {
            from = middle;
        }
    }
    0.5 * (from + to)
}
