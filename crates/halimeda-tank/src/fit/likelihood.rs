//! How likely a reading is of a value in the water.

use std::f64::consts::{LN_2, PI};

use statrs::function::erf::erfc;

/// Logarithm of a likelihood, with its derivatives by the value in the water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct LogLikelihood {
    pub(super) value: f64,
    pub(super) slope: f64,
    /// The second derivative with its sign turned: never below zero, for the
    /// likelihood is logarithmically concave.
    pub(super) curvature: f64,
}

/// Of a value `x` in the water the probability that it and a normal error of the
/// test with the standard deviation `sd` fall between two ends; where the ends
/// lie closer together than the error could ever tell, the density times their
/// distance, which for ends that coincide is taken as one. A lower end of negative
/// infinity takes in all below.
pub(super) fn interval(low: f64, high: f64, sd: f64, x: f64) -> LogLikelihood {
    let (from, to) = ((low - x) / sd, (high - x) / sd);
    if to - from < NARROW {
        let middle = 0.5 * (from + to);
        let width = if high > low { to - from } else { 1.0 / sd };
        return LogLikelihood {
            value: log_density(middle) + width.ln(),
            slope: middle / sd,
            curvature: 1.0 / (sd * sd),
        };
    }
    let value = log_probability(from, to);
    let relative_density = |u: f64| {
        if u.is_finite() {
            (log_density(u) - value).exp()
        } else {
            0.0
        }
    };
    let weighted = |u: f64| {
        if u.is_finite() {
            u * relative_density(u)
        } else {
            0.0
        }
    };
    let slope = relative_density(from) - relative_density(to);
    let curvature = weighted(to) - weighted(from) + slope * slope;
    LogLikelihood {
        value,
        slope: slope / sd,
        // Between 0 and that of a normal density but for rounding.
        curvature: curvature.clamp(0.0, 1.0) / (sd * sd),
    }
}

/// Widths below this, in standard deviations, are lost in rounding.
const NARROW: f64 = 1e-5;

fn log_density(u: f64) -> f64 {
    -0.5 * u * u - 0.5 * (2.0 * PI).ln()
}

/// Logarithm of the probability that a standard normal number falls between two ends.
fn log_probability(from: f64, to: f64) -> f64 {
    // In the upper half the two tails above are small and so is their difference.
    let (lower, upper) = if from > 0.0 { (-to, -from) } else { (from, to) };
    let below_upper = log_below(upper);
    let below_lower = log_below(lower);
    below_upper + (-(below_lower - below_upper).exp()).ln_1p()
}

/// Logarithm of the probability that a standard normal number falls below `u`.
fn log_below(u: f64) -> f64 {
    if u > FAR {
        return (erfc(-u / 2.0f64.sqrt())).ln() - LN_2;
    }
    // Abramowitz & Stegun (1964) 26.2.12; four terms err by less than 2e-9 here.
    let squared = 1.0 / (u * u);
    let series = 1.0 - squared * (1.0 - squared * (3.0 - 15.0 * squared));
    log_density(u) - (-u).ln() + series.ln()
}

/// Where the asymptotic series takes over: erfc is still far from underflowing.
const FAR: f64 = -20.0;

#[cfg(test)]
mod tests {
    use super::*;

    /// Abramowitz & Stegun (1964), table 26.1: P(1) = 0.841344746068543, P(2) =
    /// 0.977249868051821, and table 26.2: -log10 Q(5) = 6.54265, -log10 Q(30) =
    /// 197.30921, -log10 Q(100) = 2173.87154 (from memory).
    #[test]
    fn probabilities_are_those_of_the_tables() {
        let p = |u: f64| log_below(u).exp();
        assert!((p(1.0) - 0.841344746068543).abs() < 1e-10);
        assert!((p(2.0) - 0.977249868051821).abs() < 1e-10);
        for (u, tabulated) in [(5.0, 6.54265), (30.0, 197.30921), (100.0, 2173.87154)] {
            let log10 = -log_below(-u) / std::f64::consts::LN_10;
            assert!((log10 - tabulated).abs() < 6e-6, "{u} {log10}");
        }
    }

    #[test]
    fn the_series_goes_on_where_erfc_ends() {
        let (above, below) = (log_below(FAR + 1e-9), log_below(FAR - 1e-9));
        assert!(((above - below) / above).abs() < 1e-9);
    }

    /// By differences, near and very far from the interval, on both sides.
    #[test]
    fn derivatives_are_those_of_the_value() {
        for (low, high, sd) in [
            (1.0, 2.0, 0.3),
            (f64::NEG_INFINITY, 0.5, 0.1),
            (3.0, 3.0, 0.7),
        ] {
            for x in [-20.0, 0.0, 1.0, 1.4, 3.0, 25.0] {
                let at = |x| interval(low, high, sd, x);
                let h = 1e-4;
                let slope = (at(x + h).value - at(x - h).value) / (2.0 * h);
                let here = at(x);
                assert!(
                    (here.slope - slope).abs() < 1e-4 * slope.abs().max(0.1),
                    "{low} {high} {x}: {} {slope}",
                    here.slope
                );
                let curvature = (at(x - h).slope - at(x + h).slope) / (2.0 * h);
                assert!(
                    (here.curvature - curvature).abs() < 1e-3 * curvature.abs().max(0.1),
                    "{low} {high} {x}: {} {curvature}",
                    here.curvature
                );
                assert!(here.value.is_finite());
            }
        }
    }

    /// Probabilities of all that a kit can show add up to one.
    #[test]
    fn all_that_can_be_shown_is_certain() {
        for x in [0.03, 0.4, 4.0] {
            let mut all = interval(f64::NEG_INFINITY, 0.05, 0.1, x).value.exp();
            for step in 0..100 {
                let low = 0.05 + 0.1 * f64::from(step);
                all += interval(low, low + 0.1, 0.1, x).value.exp();
            }
            assert!((all - 1.0).abs() < 1e-9, "{x} {all}");
        }
    }

    /// A width that is lost in rounding weighs as the same density.
    #[test]
    fn narrow_intervals_join_wider_ones() {
        let (x, sd) = (0.3, 1.0);
        let wide = interval(1.0, 1.0 + 1.1e-5, sd, x).value - (1.1e-5f64).ln();
        let narrow = interval(1.0, 1.0 + 0.9e-5, sd, x).value - (0.9e-5f64).ln();
        assert!((wide - narrow).abs() < 1e-5);
        assert!((narrow - interval(1.0, 1.0, sd, x).value).abs() < 1e-4);
    }
}
