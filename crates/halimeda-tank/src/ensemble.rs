use serde::Serialize;

use crate::error::{Error, Result, require_one, within};
use crate::fit::Member;
use crate::outcome::{Outcome, last_days};
use crate::parameters::Parameters;
use crate::quantiles::Quantiles;
use crate::simulate::{Run, RunOptions};
use crate::tank::Setup;
use crate::variable::Variable;
use crate::work::{SharedProgress, Work};

/// What an ensemble keeps of its runs.
#[derive(Debug, Clone, PartialEq)]
pub struct EnsembleOptions {
    /// How each member is followed.
    pub run: RunOptions,
    /// The last part of the run that outcomes are taken from, d.
    pub window_days: f64,
    /// What is kept of every sample. Each takes eight bytes per member and sample.
    pub variables: Vec<Variable>,
}

impl EnsembleOptions {
    /// Runs of some days with their last 30 (or all, if fewer) for the outcomes,
    /// sampled every two hours at a relative tolerance of 1e-4: parameters are
    /// uncertain by far more.
    #[must_use]
    pub fn days(days: f64) -> Self {
        Self {
            run: RunOptions {
                relative_tolerance: 1e-4,
                ..RunOptions::days(days).sampled_every_days(1.0 / 12.0)
            },
            window_days: days.min(30.0),
            variables: Vec::new(),
        }
    }

    /// Keeping variables over time.
    #[must_use]
    pub fn keeping(mut self, variables: &[Variable]) -> Self {
        self.variables = variables.to_vec();
        self
    }
}

/// The same tank under many parameters.
#[derive(Debug, Clone, PartialEq)]
pub struct Ensemble {
    days: Vec<f64>,
    variables: Vec<Variable>,
    /// One per member.
    members: Vec<Result<KeptMember>>,
}

/// What is kept of a member that was followed to the end.
#[derive(Debug, Clone, PartialEq)]
struct KeptMember {
    outcome: Outcome,
    /// Samples of each kept variable.
    series: Vec<Vec<f64>>,
}

/// A member that could not be followed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FailedMember {
    /// Its place among the members.
    pub member: usize,
    /// Why.
    pub reason: String,
}

/// Follows a tank under each of many parameters, on all cores. The result does
/// not depend on how many there are.
///
/// A member that fails is kept with its error, and the others go on.
///
/// # Errors
/// A number of the tank, the schedule or the options lies outside its limits; or
/// [`Error::Cancelled`], with the days followed in all.
pub fn ensemble(
    setup: &Setup,
    members: &[Parameters],
    options: &EnsembleOptions,
    progress: SharedProgress<'_>,
) -> Result<Ensemble> {
    let work = Work::new(progress, members.len() as f64 * options.run.days);
    let ensemble = follow_ensemble(setup, members, options, &work)?;
    work.finish();
    Ok(ensemble)
}

pub(crate) fn follow_ensemble(
    setup: &Setup,
    members: &[Parameters],
    options: &EnsembleOptions,
    work: &Work<'_>,
) -> Result<Ensemble> {
    setup.check()?;
    let members: Vec<(&Setup, &Parameters)> = members.iter().map(|p| (setup, p)).collect();
    follow_each(&members, options, work)
}

/// Follows tanks that agree with a log, each as it began, as [`ensemble`] does one tank
/// under many parameters.
///
/// # Errors
/// A number of the options lies outside its limits; or [`Error::Cancelled`], with
/// the days followed in all.
pub fn ensemble_of(
    members: &[Member],
    options: &EnsembleOptions,
    progress: SharedProgress<'_>,
) -> Result<Ensemble> {
    let work = Work::new(progress, members.len() as f64 * options.run.days);
    let members: Vec<_> = members.iter().map(|m| (&m.setup, &m.parameters)).collect();
    let ensemble = follow_each(&members, options, &work)?;
    work.finish();
    Ok(ensemble)
}

fn follow_each(
    members: &[(&Setup, &Parameters)],
    options: &EnsembleOptions,
    work: &Work<'_>,
) -> Result<Ensemble> {
    let run = last_days(&options.run, options.window_days)?;
    let followed = work.map(members, |&(setup, parameters)| {
        let result = work.run(setup, parameters, &run)?;
        Kept::of(&result, setup, parameters, &run, &options.variables)
    })?;
    Ok(Ensemble::gather(options.variables.clone(), followed))
}

/// What is kept of a run, with the days it was sampled on.
pub(crate) struct Kept {
    days: Vec<f64>,
    member: KeptMember,
}

impl Kept {
    pub(crate) fn of(
        run: &Run,
        setup: &Setup,
        parameters: &Parameters,
        options: &RunOptions,
        variables: &[Variable],
    ) -> Result<Self> {
        Ok(Self {
            days: run.samples.iter().map(|s| s.day).collect(),
            member: KeptMember {
                outcome: Outcome::of(run, &setup.tank, parameters, options)?,
                series: variables
                    .iter()
                    .map(|v| run.samples.iter().map(|s| v.of(s)).collect())
                    .collect(),
            },
        })
    }
}

impl Ensemble {
    pub(crate) fn gather(variables: Vec<Variable>, followed: Vec<Result<Kept>>) -> Self {
        let days = followed
            .iter()
            .flatten()
            .map(|kept| kept.days.clone())
            .next();
        Self {
            days: days.unwrap_or_default(),
            variables,
            members: followed.into_iter().map(|kept| Ok(kept?.member)).collect(),
        }
    }

    /// Number of members, failed ones among them.
    #[must_use]
    pub fn len(&self) -> usize {
        self.members.len()
    }

    /// Whether there are no members.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.members.is_empty()
    }

    /// Outcome or error of every member, in the order of the parameters.
    pub fn outcomes(&self) -> impl ExactSizeIterator<Item = Result<&Outcome, &Error>> {
        self.members.iter().map(|m| m.as_ref().map(|m| &m.outcome))
    }

    /// The members that failed.
    #[must_use]
    pub fn failed(&self) -> Vec<FailedMember> {
        let failed = |(member, result): (usize, Result<&Outcome, &Error>)| {
            let reason = result.err()?.to_string();
            Some(FailedMember { member, reason })
        };
        self.outcomes().enumerate().filter_map(failed).collect()
    }

    /// An error if no member was followed to the end.
    pub(crate) fn require_one(&self) -> Result<()> {
        require_one(&self.members)
    }

    /// Quantiles of a number of the outcome over the members that did not fail;
    /// none if all did.
    #[must_use]
    pub fn outcome(&self, of: impl Fn(&Outcome) -> f64) -> Option<Quantiles> {
        Quantiles::of(self.outcomes().flatten().map(of))
    }

    /// The days of the samples.
    #[must_use]
    pub fn days(&self) -> &[f64] {
        &self.days
    }

    /// Quantiles of a kept variable at each of [`Ensemble::days`]; none if it was
    /// not kept or all members failed.
    #[must_use]
    pub fn over_time(&self, variable: Variable) -> Option<Vec<Quantiles>> {
        let series = self.series(variable)?;
        (0..self.days.len())
            .map(|i| Quantiles::of(series.iter().filter_map(|s| s.get(i).copied())))
            .collect()
    }

    /// Quantiles of the mean of a kept variable over the day that ends at `day`:
    /// what does not depend on the hour.
    ///
    /// # Errors
    /// The day lies outside the run.
    pub fn daily_mean(&self, variable: Variable, day: f64) -> Result<Option<Quantiles>> {
        let last = self.days.last().copied().unwrap_or_default();
        within("day", day, 0.0, last)?;
        let from = self.days.partition_point(|&d| d <= day - 1.0);
        let to = self.days.partition_point(|&d| d <= day);
        let mean = |s: &[f64]| {
            let of_day = s.get(from..to)?;
            Some(of_day.iter().sum::<f64>() / of_day.len() as f64)
        };
        let series = self.series(variable);
        Ok(series.and_then(|series| Quantiles::of(series.into_iter().filter_map(mean))))
    }

    fn series(&self, variable: Variable) -> Option<Vec<&[f64]>> {
        let place = self.variables.iter().position(|&v| v == variable)?;
        let members = self.members.iter().flatten();
        members
            .map(|m| m.series.get(place).map(Vec::as_slice))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use std::ops::ControlFlow;

    use super::*;
    use crate::ranges::Ranges;
    use crate::simulate::simulate;
    use crate::testing::setup;

    fn go(_: f64, _: f64) -> ControlFlow<()> {
        ControlFlow::Continue(())
    }

    fn options() -> EnsembleOptions {
        EnsembleOptions::days(20.0).keeping(&[Variable::Nitrate, Variable::Ph])
    }

    #[test]
    fn the_number_of_threads_changes_nothing() {
        let members = Ranges::default().draw(12, 1).unwrap();
        let on = |threads| {
            let pool = rayon::ThreadPoolBuilder::new()
                .num_threads(threads)
                .build()
                .unwrap();
            pool.install(|| ensemble(&setup(), &members, &options(), &mut go))
                .unwrap()
        };
        assert_eq!(on(1), on(5));
    }

    /// Against each member simulated alone.
    #[test]
    fn quantiles_over_time_are_those_of_the_members() {
        let members = Ranges::default().draw(7, 1).unwrap();
        let options = options();
        let ensemble = ensemble(&setup(), &members, &options, &mut go).unwrap();
        let setup = setup();
        let runs: Vec<Run> = members
            .iter()
            .map(|p| {
                simulate(
                    &setup.tank,
                    &setup.schedule,
                    p,
                    &last_days(&options.run, 20.0).unwrap(),
                )
                .unwrap()
            })
            .collect();
        for variable in [Variable::Nitrate, Variable::Ph] {
            let over_time = ensemble.over_time(variable).unwrap();
            assert_eq!(over_time.len(), runs[0].samples.len());
            for (i, quantiles) in over_time.iter().enumerate() {
                assert_eq!(ensemble.days()[i], runs[0].samples[i].day);
                let mut values: Vec<f64> =
                    runs.iter().map(|r| variable.of(&r.samples[i])).collect();
                values.sort_by(f64::total_cmp);
                // Seven values: the median is the fourth, a quarter lies halfway
                // between the second and the third.
                assert_eq!(quantiles.p50, values[3]);
                assert!((quantiles.p25 - 0.5 * (values[1] + values[2])).abs() < 1e-12);
                assert!(quantiles.p5 >= values[0] && quantiles.p95 <= values[6]);
            }
        }
        assert_eq!(ensemble.over_time(Variable::Calcium), None);
        let day = ensemble
            .daily_mean(Variable::Nitrate, 20.0)
            .unwrap()
            .unwrap();
        let of_day = |r: &Run| {
            let day: Vec<f64> = r
                .samples
                .iter()
                .filter(|s| s.day > 19.0)
                .map(|s| s.nitrate_mg_per_l)
                .collect();
            day.iter().sum::<f64>() / day.len() as f64
        };
        assert_eq!(day, Quantiles::of(runs.iter().map(of_day)).unwrap());
        assert!(ensemble.daily_mean(Variable::Nitrate, 21.0).is_err());
    }

    #[test]
    fn a_member_that_fails_is_flagged_and_the_others_stay() {
        let mut members = Ranges::default().draw(5, 1).unwrap();
        let sound = ensemble(&setup(), &members, &options(), &mut go).unwrap();
        members[2].livestock.nitrogen_retention = 1.5;
        let flagged = ensemble(&setup(), &members, &options(), &mut go).unwrap();
        let failed = flagged.failed();
        assert_eq!(failed.len(), 1);
        assert_eq!(failed[0].member, 2);
        assert!(
            failed[0].reason.contains("nitrogen_retention"),
            "{failed:?}"
        );
        for (i, (a, b)) in sound.outcomes().zip(flagged.outcomes()).enumerate() {
            assert_eq!(b.is_err(), i == 2);
            assert!(i == 2 || a == b);
        }
        flagged.require_one().unwrap();
        for p in &mut members {
            p.livestock.nitrogen_retention = 1.5;
        }
        let none = ensemble(&setup(), &members, &options(), &mut go).unwrap();
        assert_eq!(none.outcome(|o| o.nitrate_mg_per_l), None);
        assert_eq!(none.over_time(Variable::Ph), Some(vec![]));
        assert!(matches!(none.require_one(), Err(Error::AllFailed(_))));
    }

    #[test]
    fn an_ensemble_stops_when_asked_and_tells_how_far_it_is() {
        let members = Ranges::default().draw(8, 1).unwrap();
        let mut calls = 0;
        let mut stop = |done: f64, all: f64| {
            calls += 1;
            assert!(done <= all && all == 160.0);
            if calls == 3 {
                ControlFlow::Break(())
            } else {
                ControlFlow::Continue(())
            }
        };
        let stopped = ensemble(&setup(), &members, &options(), &mut stop);
        let Err(Error::Cancelled { day }) = stopped else {
            panic!("{stopped:?}");
        };
        assert!(day < 100.0);
        let mut last = 0.0;
        let mut watch = |done: f64, _: f64| {
            assert!(done >= last);
            last = done;
            ControlFlow::Continue(())
        };
        ensemble(&setup(), &members, &options(), &mut watch).unwrap();
        assert_eq!(last, 160.0);
    }

    #[test]
    fn bad_options_are_refused_at_once() {
        let members = Ranges::default().draw(2, 1).unwrap();
        let mut options = options();
        options.window_days = 30.0;
        assert!(ensemble(&setup(), &members, &options, &mut go).is_err());
        let mut bad = setup();
        bad.tank.net_volume_l = -1.0;
        assert!(ensemble(&bad, &members, &EnsembleOptions::days(5.0), &mut go).is_err());
    }
}
