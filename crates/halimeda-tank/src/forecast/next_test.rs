use serde::{Deserialize, Serialize};

use super::Members;
use crate::error::{Result, within};
use crate::log::{Log, Measured};
use crate::logged::LoggedTank;
use crate::plan::words::percent;
use crate::quantiles::{quantile, sorted};
use crate::variable::Variable;
use crate::work::SharedProgress;

/// What is looked for in the next tests.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct NextTestOptions {
    /// Days ahead at which nitrate and phosphate are wanted to be known.
    pub horizon_days: f64,
    /// Days within which to test.
    pub within_days: f64,
    /// Number of tests, each after the ones before.
    pub count: usize,
    /// Tests that can be done.
    pub tests: Vec<Measured>,
}

impl Default for NextTestOptions {
    fn default() -> Self {
        Self {
            horizon_days: 30.0,
            within_days: 14.0,
            count: 3,
            tests: vec![
                Measured::Nitrate,
                Measured::Phosphate,
                Measured::Ammonia,
                Measured::Alkalinity,
            ],
        }
    }
}

/// A test worth doing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct NextTest {
    /// What to test.
    pub measured: Measured,
    /// When, d since the start.
    pub day: f64,
    /// Share of the uncertainty about the goals that it is expected to take away: of
    /// the variance of nitrate and phosphate at the horizon, each against its band.
    pub expected_reduction: f64,
    /// Why, in a sentence.
    pub reason: String,
}

/// A test is done on the first day on which it tells this share of what it tells on
/// its best day.
const NEARLY_BEST: f64 = 0.9;

/// Tests that tell less are not worth their reagents (chosen).
const LEAST_REDUCTION: f64 = 0.02;

/// Standard uncertainty of a kit that the log does not tell: common practice, no
/// source.
const fn usual_uncertainty(measured: Measured) -> f64 {
    match measured {
        Measured::Nitrate => 1.0,
        Measured::Phosphate => 0.02,
        Measured::Ammonia => 0.03,
        Measured::Alkalinity => 50.0,
        Measured::Calcium => 8.0,
        Measured::Magnesium => 25.0,
        Measured::Ph => 0.1,
        Measured::OxygenSaturation => 0.05,
        Measured::Salinity | Measured::Temperature => 0.5,
    }
}

/// The tests that would tell most about nitrate and phosphate at the horizon, each
/// given those before it, and the first day worth doing them on.
///
/// Over the members, what a test narrows is its covariance with what is wanted: each
/// candidate is weighed by the variance it would leave, its own error and step
/// included, as if all were jointly normal.
///
/// # Errors
/// A number of the tank or the options lies outside its limits; no member can be
/// followed; or [`Error::Cancelled`](crate::Error::Cancelled).
pub fn next_tests(
    tank: &LoggedTank<'_>,
    options: &NextTestOptions,
    progress: SharedProgress<'_>,
) -> Result<Vec<NextTest>> {
    within("horizon_days", options.horizon_days, 1.0, 366.0)?;
    within(
        "within_days",
        options.within_days,
        1.0,
        options.horizon_days,
    )?;
    let tests: Vec<(Measured, Variable, f64)> = options
        .tests
        .iter()
        .filter_map(|&m| Some((m, m.variable()?, usual_of(tank.log, m).powi(2))))
        .collect();
    let days: Vec<f64> = (1..=options.within_days.floor() as u32)
        .map(|d| tank.today + f64::from(d))
        .collect();
    let until = tank.today + options.horizon_days;
    tank.ask(progress, until, |work| {
        let runs = tank.follow(&LoggedTank::run_options(until), work)?;
        let runs: Vec<_> = runs.into_iter().flatten().collect();
        let row = |variable: Variable, day: f64| -> Vec<f64> {
            let value = |run: &crate::Run| run.value_at(variable, day).unwrap_or(f64::NAN);
            runs.iter().map(value).collect()
        };
        let wanted = [
            (Variable::Nitrate, tank.goals.nitrate_mg_per_l),
            (Variable::Phosphate, tank.goals.phosphate_mg_per_l),
        ];
        let mut rows: Vec<Vec<f64>> = wanted.iter().map(|(v, _)| row(*v, until)).collect();
        let mut candidates = Vec::new();
        for &(measured, variable, error_variance) in &tests {
            for &day in &days {
                candidates.push(Candidate {
                    measured,
                    day,
                    row: rows.len(),
                    error_variance,
                });
                rows.push(row(variable, day));
            }
        }
        let weights = wanted.map(|(_, band)| (band.high - band.low).powi(-2));
        Ok(choose(Members::new(rows), &candidates, weights, options))
    })
}

struct Candidate {
    measured: Measured,
    day: f64,
    row: usize,
    error_variance: f64,
}

fn choose(
    mut members: Members,
    candidates: &[Candidate],
    weights: [f64; 2],
    options: &NextTestOptions,
) -> Vec<NextTest> {
    let uncertainty = |members: &Members| -> f64 {
        let of = |(row, w): (usize, f64)| w * members.moments(row).1;
        weights.into_iter().enumerate().map(of).sum()
    };
    let all = uncertainty(&members);
    let mut chosen: Vec<NextTest> = Vec::new();
    while chosen.len() < options.count && members.count() > 1 && all > 0.0 {
        let reduction = |c: &Candidate| -> f64 {
            let total = members.moments(c.row).1 + c.error_variance;
            let of = |(row, w): (usize, f64)| w * members.covariance(row, c.row).powi(2) / total;
            weights.into_iter().enumerate().map(of).sum::<f64>() / all
        };
        let told: Vec<(&Candidate, f64)> = candidates.iter().map(|c| (c, reduction(c))).collect();
        let Some((best, most)) = told.iter().max_by(|a, b| a.1.total_cmp(&b.1)) else {
            break;
        };
        if *most < LEAST_REDUCTION {
            break;
        }
        let first = told
            .iter()
            .find(|(c, r)| c.measured == best.measured && *r >= NEARLY_BEST * most);
        let &(candidate, expected_reduction) = first.unwrap_or(&(best, *most));
        members.learn(candidate.row, None, candidate.error_variance);
        chosen.push(NextTest {
            measured: candidate.measured,
            day: candidate.day,
            expected_reduction,
            reason: format!(
                "It is expected to take away {} of the uncertainty about nitrate and phosphate \
                 in {} days{}.",
                percent(expected_reduction),
                options.horizon_days,
                if chosen.is_empty() {
                    ""
                } else {
                    ", after the tests before it"
                },
            ),
        });
    }
    chosen
}

/// Standard uncertainty of a test: the middle one of the log's, or the usual.
fn usual_of(log: &Log, measured: Measured) -> f64 {
    let readings = log.readings.iter().filter(|r| r.measured == measured);
    let deviations = sorted(readings.map(|r| r.interval.standard_deviation()));
    quantile(&deviations, 0.5).unwrap_or(usual_uncertainty(measured))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn candidates() -> Vec<Candidate> {
        [
            (Measured::Nitrate, 1.0, 2),
            (Measured::Nitrate, 5.0, 3),
            (Measured::Alkalinity, 1.0, 4),
        ]
        .map(|(measured, day, row)| Candidate {
            measured,
            day,
            row,
            error_variance: 0.01,
        })
        .into()
    }

    /// Nitrate on day 5 is the wanted number itself, on day 1 next to nothing of it,
    /// and alkalinity chance.
    #[test]
    fn the_test_that_tells_most_is_chosen() {
        let x: Vec<f64> = (0..64).map(|i| f64::from(i * 37 % 64)).collect();
        let noise: Vec<f64> = (0..64).map(|i| f64::from(i * 11 % 23)).collect();
        let faint = x.iter().zip(&noise).map(|(a, b)| 0.05 * a + b).collect();
        let rows = vec![x.clone(), vec![0.1; 64], faint, x, noise];
        let options = NextTestOptions::default();
        let chosen = choose(Members::new(rows), &candidates(), [1.0, 1.0], &options);
        assert_eq!(
            (chosen[0].measured, chosen[0].day),
            (Measured::Nitrate, 5.0)
        );
        assert!(chosen[0].expected_reduction > 0.99);
        // Nothing is left to learn.
        assert_eq!(chosen.len(), 1);
    }

    /// A test that tells as much at once is not put off.
    #[test]
    fn what_can_be_known_today_is_not_put_off() {
        let x: Vec<f64> = (0..64).map(|i| f64::from(i * 37 % 64)).collect();
        let rows = vec![x.clone(), x.clone(), x.clone(), x, vec![1.0; 64]];
        let options = NextTestOptions::default();
        let chosen = choose(Members::new(rows), &candidates(), [1.0, 1.0], &options);
        assert_eq!(chosen[0].day, 1.0);
    }
}
