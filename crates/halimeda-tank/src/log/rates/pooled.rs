use statrs::distribution::{ContinuousCDF as _, StudentsT};

use super::content::Posterior;
use super::course::{Course, Units};
use super::{Estimate, NetRate, SHORTEST_DAYS, difference, tests, too_few};
use crate::error::Result;
use crate::log::{Log, Measured};
use crate::tank::Setup;

/// One in twenty of a normal distribution lies above so many standard deviations.
const P95: f64 = 1.644_854;

/// The rate over a stretch of days, both included, from all tests of it.
///
/// Two tests give what [`net_rates`](super::net_rates) gives. More are one line through
/// the contents they leave possible, each with the weight of its own spread. Where they
/// lie further from it than their uncertainties explain, for rates are not constant, the
/// range widens with the scatter (Birge 1932, doi 10.1103/PhysRev.40.207, from memory)
/// and takes the quantile of Student's distribution.
///
/// # Errors
/// As [`net_rates`](super::net_rates), for the tests of the stretch.
pub fn pooled_rate(
    setup: &Setup,
    log: &Log,
    measured: Measured,
    from_day: f64,
    to_day: f64,
) -> Result<NetRate> {
    let units = Units::new(setup, measured)?;
    let course = Course::new(setup, log)?;
    let tests = tests(log, measured, (from_day, to_day));
    let (Some(first), Some(last)) = (tests.first(), tests.last()) else {
        return Err(too_few(measured, tests.len(), (from_day, to_day)));
    };
    if last.day - first.day < SHORTEST_DAYS {
        return Err(too_few(measured, tests.len().min(1), (from_day, to_day)));
    }
    let per_day = if tests.len() == 2 {
        difference(&course.between(first.day, last.day, &units), first, last)
    } else {
        // Each test is of a content kept · c₀ + brought + rate · days.
        let rows = tests.iter().map(|test| {
            let between = course.between(first.day, test.day, &units);
            let (mean, deviation) = Posterior::of(&test.interval).moments();
            Row {
                start: between.kept,
                rate: between.days,
                content: mean - between.brought,
                weight: 1.0 / (deviation * deviation).max(f64::MIN_POSITIVE),
            }
        });
        line(&rows.collect::<Vec<_>>())
    };
    Ok(units.rate(&course, (first.day, last.day), tests.len(), per_day))
}

/// One test: `content = start · c₀ + rate · r`.
struct Row {
    start: f64,
    rate: f64,
    content: f64,
    weight: f64,
}

/// Weighted least squares for the starting content and the rate.
fn line(rows: &[Row]) -> Estimate {
    let sum = |of: fn(&Row) -> f64| rows.iter().map(|row| row.weight * of(row)).sum::<f64>();
    let (ss, sr, rr) = (
        sum(|x| x.start * x.start),
        sum(|x| x.start * x.rate),
        sum(|x| x.rate * x.rate),
    );
    let (sc, rc) = (sum(|x| x.start * x.content), sum(|x| x.rate * x.content));
    let determinant = ss * rr - sr * sr;
    let rate = (ss * rc - sr * sc) / determinant;
    let start = (rr * sc - sr * rc) / determinant;
    let mut deviation = (ss / determinant).sqrt();
    let scatter: f64 = rows
        .iter()
        .map(|x| x.weight * (x.content - start * x.start - rate * x.rate).powi(2))
        .sum();
    let freedom = rows.len().saturating_sub(2) as f64;
    let mut quantile = P95;
    if scatter > freedom && freedom > 0.0 {
        deviation *= (scatter / freedom).sqrt();
        quantile = StudentsT::new(0.0, 1.0, freedom).map_or(P95, |t| t.inverse_cdf(0.95));
    }
    Estimate {
        p5: rate - quantile * deviation,
        p50: rate,
        p95: rate + quantile * deviation,
    }
}
