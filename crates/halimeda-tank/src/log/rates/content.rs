use statrs::function::erf::erfc;

use crate::log::Interval;

/// What a test leaves possible of a content, of which before it nothing was known but
/// that it is not below zero.
///
/// The density is in proportion to `Φ((high − c)/u) − Φ((low − c)/u)`, whose integral is
/// closed: with `G(z) = z Φ(z) + φ(z)`, that of `Φ((a − c)/u)` from 0 to `c` is
/// `u (G(a/u) − G((a − c)/u))`.
///
/// Kept as a table, for a rate asks for it thousands of times.
#[derive(Debug, Clone)]
pub(super) struct Posterior {
    first: f64,
    step: f64,
    /// Probability that the content lies below `first`, `first + step` and so on.
    shares: Vec<f64>,
}

/// Widths below this many uncertainties are none: the difference of two equal numbers
/// would be noise.
const NO_WIDTH: f64 = 1e-3;
const NO_UNCERTAINTY: f64 = 1e-9;

/// Uncertainties beyond the interval that a table reaches: what lies further is less
/// likely than one in 10¹⁵.
const REACH: f64 = 8.0;
const STEPS: usize = 1024;

/// Points that stand for a content.
const POINTS: usize = 128;

impl Posterior {
    pub(super) fn of(interval: &Interval) -> Self {
        let reach = REACH * interval.standard_uncertainty();
        let first = (interval.low() - reach).max(0.0);
        let step = (interval.high() + reach - first) / STEPS as f64;
        let content = |point: usize| first + step * point as f64;
        let shares = (0..=STEPS).map(|point| share_below(interval, content(point)));
        Self {
            first,
            step,
            shares: shares.collect(),
        }
    }

    /// Probability that the content lies below a value.
    pub(super) fn share_below(&self, content: f64) -> f64 {
        let place = (content - self.first) / self.step;
        if place <= 0.0 {
            return 0.0;
        }
        let below = place.floor() as usize;
        let at = |point: usize| self.shares.get(point).copied().unwrap_or(1.0);
        at(below) + place.fract() * (at(below.saturating_add(1)) - at(below))
    }

    pub(super) fn quantile(&self, share: f64) -> f64 {
        let above = self.shares.partition_point(|s| *s < share).max(1);
        let at = |point: usize| self.shares.get(point).copied().unwrap_or(1.0);
        let (low, high) = (at(above - 1), at(above));
        let between = match high > low {
            true => (share - low) / (high - low),
            false => 0.5,
        };
        self.first + self.step * ((above - 1) as f64 + between)
    }

    /// Contents that stand for equal shares of what is possible.
    pub(super) fn evenly_likely(&self) -> Vec<f64> {
        let share = |point: usize| (point as f64 + 0.5) / POINTS as f64;
        (0..POINTS)
            .map(|point| self.quantile(share(point)))
            .collect()
    }

    /// Mean and standard deviation, from points of equal likelihood.
    pub(super) fn moments(&self) -> (f64, f64) {
        let points = self.evenly_likely();
        let count = points.len() as f64;
        let mean = points.iter().sum::<f64>() / count;
        let variance = points.iter().map(|c| (c - mean) * (c - mean)).sum::<f64>() / count;
        (mean, variance.sqrt())
    }
}

fn share_below(interval: &Interval, content: f64) -> f64 {
    let (low, high, u) = (
        interval.low(),
        interval.high(),
        interval.standard_uncertainty(),
    );
    let width = high - low;
    if u <= NO_UNCERTAINTY * width {
        return ((content - low) / width).clamp(0.0, 1.0);
    }
    let share = if width <= NO_WIDTH * u {
        let middle = 0.5 * (low + high);
        let below_zero = normal(-middle / u);
        (normal((content - middle) / u) - below_zero) / (1.0 - below_zero)
    } else {
        let all = integral(high / u) - integral(low / u);
        let above = integral((high - content) / u) - integral((low - content) / u);
        (all - above) / all
    };
    share.clamp(0.0, 1.0)
}

/// Where a share that rises from 0 to 1 reaches a value.
pub(super) fn bisect(mut low: f64, mut high: f64, share: f64, below: impl Fn(f64) -> f64) -> f64 {
    for _ in 0..45 {
        let middle = 0.5 * (low + high);
        match below(middle) < share {
            true => low = middle,
            false => high = middle,
        }
    }
    0.5 * (low + high)
}

fn normal(z: f64) -> f64 {
    0.5 * erfc(-z / core::f64::consts::SQRT_2)
}

fn integral(z: f64) -> f64 {
    let density = (-0.5 * z * z).exp() / (2.0 * core::f64::consts::PI).sqrt();
    z * normal(z) + density
}

#[cfg(test)]
mod tests {
    use super::*;

    fn posterior(low: f64, high: f64, u: f64) -> Posterior {
        Posterior::of(&Interval::new(low, high, u).unwrap())
    }

    /// Without an error of the test every content of the interval is as likely; with
    /// one that is small beside it nearly so; without a width it is the test's error.
    #[test]
    fn limits_are_the_even_and_the_normal_distribution() {
        for u in [0.0, 1e-4] {
            let even = posterior(2.0, 6.0, u);
            for (share, content) in [(0.05, 2.2), (0.5, 4.0), (0.95, 5.8)] {
                assert!((even.quantile(share) - content).abs() < 1e-3, "{u}");
            }
        }
        // 95 % of a normal distribution lie below 1.644854 standard deviations.
        for width in [0.0, 1e-7, 1e-3] {
            let normal = posterior(10.0 - width, 10.0 + width, 1.0);
            assert!((normal.quantile(0.95) - 11.644854).abs() < 2e-4, "{width}");
        }
        // Half a normal distribution, of a test that shows nothing: its median is
        // 0.674490 standard deviations.
        assert!((posterior(0.0, 0.0, 1.0).quantile(0.5) - 0.674490).abs() < 2e-4);
    }

    #[test]
    fn moments_are_those_of_width_and_error_together() {
        // Far from zero the variances add: 2²/12 + 0.5² = 0.58333.
        let (mean, deviation) = posterior(9.0, 11.0, 0.5).moments();
        assert!((mean - 10.0).abs() < 1e-6);
        assert!((deviation - 0.583333f64.sqrt()).abs() < 1e-2, "{deviation}");
    }
}
