//! What the last readings say beside the members.

use crate::log::{Log, Measured};
use crate::simulate::Run;

/// Days of readings that members are held against.
const RECENT_DAYS: f64 = 14.0;

/// Days after which a third of what a member was off is left (chosen): contents move with
/// feeding and growth over weeks.
const FORGOTTEN_AFTER_DAYS: f64 = 20.0;

/// What each member is off at the last readings, to be carried into its forecast and
/// forgotten by and by.
///
/// A member is off because the model is, or because something happened that nobody
/// wrote down; or because the test is. The share that is carried on is that of the
/// first in the variance of both: what members are off in the mean beyond what the
/// tests' errors explain.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Correction {
    today: f64,
    offsets: Vec<f64>,
}

impl Correction {
    /// From the readings of the last two weeks; none without them.
    pub(crate) fn of(log: &Log, measured: Measured, runs: &[Run], today: f64) -> Option<Self> {
        let variable = measured.variable()?;
        let recent: Vec<_> = log
            .readings
            .iter()
            .filter(|r| r.measured == measured)
            .filter(|r| (today - RECENT_DAYS..=today).contains(&r.day))
            .collect();
        let weights: f64 = recent
            .iter()
            .map(|r| r.interval.standard_deviation().powi(-2))
            .sum();
        if recent.is_empty() {
            return None;
        }
        let offsets: Vec<f64> = runs
            .iter()
            .map(|run| {
                let off = recent.iter().filter_map(|r| {
                    let weight = r.interval.standard_deviation().powi(-2);
                    Some(weight * (r.interval.middle() - run.value_at(variable, r.day)?))
                });
                off.sum::<f64>() / weights
            })
            .collect();
        let squares = offsets.iter().map(|o| o * o).sum::<f64>() / offsets.len() as f64;
        let of_tests = 1.0 / weights;
        let of_members = (squares - of_tests).max(0.0);
        let share = of_members / (of_members + of_tests);
        Some(Self {
            today,
            offsets: offsets.iter().map(|o| share * o).collect(),
        })
    }

    /// What to add to a member on a day.
    pub(crate) fn at(&self, member: usize, day: f64) -> f64 {
        let offset = self.offsets.get(member).copied().unwrap_or_default();
        offset * (-(day - self.today).max(0.0) / FORGOTTEN_AFTER_DAYS).exp()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::log::{Interval, Reading};
    use crate::parameters::Parameters;
    use crate::simulate::simulate;
    use crate::testing::setup;
    use crate::{RunOptions, Variable};

    /// Nitrate that is read 4 mg/L above a member, by a good and by a poor test.
    #[test]
    fn a_member_that_is_off_is_brought_near_and_let_go() {
        let setup = setup();
        let run = simulate(
            &setup.tank,
            &setup.schedule,
            &Parameters::default(),
            &RunOptions::days(20.0).sampled_every_days(0.25),
        )
        .unwrap();
        let read = |error: f64| {
            let readings = [12.0, 16.0, 19.0]
                .map(|day| {
                    let value = run.value_at(Variable::Nitrate, day).unwrap() + 4.0;
                    Reading {
                        day,
                        measured: Measured::Nitrate,
                        interval: Interval::new(value, value, error).unwrap(),
                    }
                })
                .to_vec();
            let log = Log {
                readings,
                ..Log::default()
            };
            Correction::of(&log, Measured::Nitrate, std::slice::from_ref(&run), 20.0).unwrap()
        };
        let good = read(0.1);
        assert!((good.at(0, 20.0) - 4.0).abs() < 0.01);
        assert!((good.at(0, 40.0) - 4.0 * (-1.0f64).exp()).abs() < 0.01);
        // Three tests that err by 10 are off by 6 in the mean: nothing is told.
        assert_eq!(read(10.0).at(0, 20.0), 0.0);
        let none = Correction::of(&Log::default(), Measured::Nitrate, &[run], 20.0);
        assert_eq!(none, None);
    }
}
