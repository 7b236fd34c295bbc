//! Net rates: what the water gains or loses per day between tests, with water changes
//! and dosing taken out.
//!
//! Between two tests a content goes from `c₁` to `c₂ = P c₁ + B + r T`: `P` is what water
//! changes left of the old water, `B` what they and doses brought, `T` the days less what
//! water changes took of them. The rate `r` is all the rest: animals, food, turf,
//! bacteria, corals. It is the mean over the time between, and follows exactly where it
//! is constant.
//!
//! What a test showed is an [`Interval`](super::Interval): every content from nothing
//! upwards is equally likely before, and after it as likely as the interval says. The
//! range of a rate holds nine in ten of what the two tests leave possible, whether they
//! show a number, a range or "less than".
//!
//! Taken out are the water changes of the log, or those of the schedule if none is
//! logged; the doses of the log; the dosing, calcium reactor and limewater of the
//! schedule, the latter while the top-off runs. Water changes bring the schedule's new
//! water, or without one water like the tank's at the start but free of nutrients.

mod balance;
mod content;
mod course;
mod pooled;

pub use balance::{Balance, ConsumptionEstimate, balance, consumption};
pub use pooled::pooled_rate;

use serde::{Deserialize, Serialize};

use self::content::Posterior;
use self::course::{Between, Course, Units};
use super::{Log, Measured, Reading};
use crate::error::{Error, Result};
use crate::tank::Setup;

/// A number and the range that holds nine in ten of what is possible.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Estimate {
    /// One in twenty lies below.
    pub p5: f64,
    /// The median.
    pub p50: f64,
    /// One in twenty lies above.
    pub p95: f64,
}

impl Estimate {
    /// In another unit, or with the other sign.
    #[must_use]
    pub fn scaled(self, factor: f64) -> Self {
        let [a, b] = [self.p5 * factor, self.p95 * factor];
        Self {
            p5: a.min(b),
            p50: self.p50 * factor,
            p95: a.max(b),
        }
    }

    /// Whether the range holds a value.
    #[must_use]
    pub fn holds(&self, value: f64) -> bool {
        self.p5 <= value && value <= self.p95
    }
}

/// What the water gains per day; a loss is below zero.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct NetRate {
    /// What was measured.
    pub measured: Measured,
    /// Day of the first test.
    pub from_day: f64,
    /// Day of the last test.
    pub to_day: f64,
    /// Tests it rests on.
    pub tests: usize,
    /// In the unit of [`Measured`] per day.
    pub per_day: Estimate,
    /// Of the whole system, mol/d; of alkalinity, eq/d.
    pub mol_per_day: Estimate,
    /// Whether what is dosed is known: not where the schedule lets doses follow tests,
    /// for then those of the description are taken as they stand.
    pub doses_are_known: bool,
}

/// Shortest time between two tests that a rate is made of, d: as
/// [`alkalinity_fall_per_day`](halimeda::dosing::alkalinity_fall_per_day).
const SHORTEST_DAYS: f64 = 0.25;

/// Rates between each test and the next, in the order of time. A test less than six
/// hours after the one before it is passed over.
///
/// # Errors
/// - Something that is not dissolved in proportion to what goes in and out: pH, oxygen,
///   salinity, temperature.
/// - Fewer than two tests.
/// - A water change of more than the net volume, a day before the start, or as
///   [`Setup::check`].
pub fn net_rates(setup: &Setup, log: &Log, measured: Measured) -> Result<Vec<NetRate>> {
    let units = Units::new(setup, measured)?;
    let course = Course::new(setup, log)?;
    let tests = tests(log, measured, (f64::NEG_INFINITY, f64::INFINITY));
    let mut rates = Vec::new();
    let mut first: Option<&Reading> = None;
    for second in &tests {
        match first {
            Some(first) if second.day - first.day < SHORTEST_DAYS => continue,
            Some(first) => rates.push(rate_between(&course, &units, first, second)),
            None => {}
        }
        first = Some(second);
    }
    match rates.is_empty() {
        true => Err(too_few(
            measured,
            tests.len(),
            (f64::NEG_INFINITY, f64::INFINITY),
        )),
        false => Ok(rates),
    }
}

/// Tests of a stretch of days, in the order of time.
fn tests(log: &Log, measured: Measured, (from, to): (f64, f64)) -> Vec<Reading> {
    let is_meant = |r: &&Reading| r.measured == measured && (from..=to).contains(&r.day);
    let mut tests: Vec<Reading> = log.readings.iter().filter(is_meant).copied().collect();
    tests.sort_by(|a, b| a.day.total_cmp(&b.day));
    tests
}

fn too_few(measured: Measured, found: usize, (from_day, to_day): (f64, f64)) -> Error {
    Error::TooFewTests {
        measured: super::names::test_name(measured),
        found,
        from_day,
        to_day,
    }
}

fn rate_between(course: &Course, units: &Units, first: &Reading, second: &Reading) -> NetRate {
    let between = course.between(first.day, second.day, units);
    let per_day = difference(&between, first, second);
    units.rate(course, (first.day, second.day), 2, per_day)
}

/// Range of `(c₂ − P c₁ − B)/T`.
fn difference(between: &Between, first: &Reading, second: &Reading) -> Estimate {
    let (first, second) = (
        Posterior::of(&first.interval),
        Posterior::of(&second.interval),
    );
    let starts = first.evenly_likely();
    let share_below = |rate: f64| {
        let ends = starts.iter().map(|start| between.end(*start, rate));
        ends.map(|end| second.share_below(end)).sum::<f64>() / starts.len() as f64
    };
    let [low, high] = [1e-4, 1.0 - 1e-4].map(|share| {
        let (near, far) = (first.quantile(1.0 - share), second.quantile(share));
        between.rate(near, far)
    });
    // No rate outside the ends' extremes is possible but for a trace at each side.
    let margin = (high - low).max(f64::MIN_POSITIVE);
    let at = |share| content::bisect(low - margin, high + margin, share, share_below);
    Estimate {
        p5: at(0.05),
        p50: at(0.5),
        p95: at(0.95),
    }
}
