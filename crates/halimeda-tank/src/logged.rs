//! What is known of a tank with a log.

use crate::error::{Result, within};
use crate::fit::Member;
use crate::log::{Log, ProbeSeries, Record};
use crate::plan::Goals;
use crate::simulate::{Run, RunOptions};
use crate::tank::{Event, Setup};
use crate::work::{SharedProgress, Work};

/// A tank with what its keeper wrote down and what the log makes of its parameters.
#[derive(Debug, Clone, Copy)]
pub struct LoggedTank<'a> {
    /// The tank as described.
    pub setup: &'a Setup,
    /// The log.
    pub log: &'a Log,
    /// Tanks that the log leaves possible, equally likely: those of a
    /// [`Fit`](crate::fit::Fit), or draws of [`Ranges`](crate::Ranges) with the
    /// [`logged_setup`](crate::log::logged_setup) where nothing was fitted.
    pub members: &'a [Member],
    /// What the keeper wants.
    pub goals: &'a Goals,
    /// The day up to which the tank is known, d: the end of the log. Questions about
    /// the future begin here.
    pub today: f64,
}

/// Longest log that is followed, d.
const LONGEST_LOG_DAYS: f64 = 3660.0;

impl<'a> LoggedTank<'a> {
    /// # Errors
    /// A number of the tank, a member, the goals or the day lies outside its
    /// limits, or there are no members.
    pub(crate) fn check(&self) -> Result<()> {
        self.setup.check()?;
        self.goals.check()?;
        within("today", self.today, 0.0, LONGEST_LOG_DAYS)?;
        within("members", self.members.len() as f64, 1.0, f64::MAX)?;
        for member in self.members {
            member.setup.check()?;
            member.parameters.check()?;
        }
        Ok(())
    }

    /// Checks the tank and answers a question that follows every member for so many
    /// days.
    pub(crate) fn ask<T>(
        &self,
        progress: SharedProgress<'_>,
        days_per_member: f64,
        answer: impl FnOnce(&Work<'_>) -> Result<T>,
    ) -> Result<T> {
        self.check()?;
        let work = Work::new(progress, days_per_member * self.members.len() as f64);
        let answer = answer(&work)?;
        work.finish();
        Ok(answer)
    }

    /// How members are followed: as loosely as an ensemble, for parameters are
    /// uncertain by far more.
    pub(crate) fn run_options(days: f64) -> RunOptions {
        RunOptions {
            relative_tolerance: 1e-4,
            ..RunOptions::days(days).sampled_every_days(1.0 / 12.0)
        }
    }

    /// Every member from the start for some days.
    pub(crate) fn follow(&self, options: &RunOptions, work: &Work<'_>) -> Result<Vec<Result<Run>>> {
        let runs = work.map(self.members, |m| work.run(&m.setup, &m.parameters, options))?;
        crate::error::require_one(&runs)?;
        Ok(runs)
    }

    /// Days on which something was done, up to today.
    pub(crate) fn days_of<'b>(
        &'b self,
        what: impl Fn(&Record) -> bool + 'b,
    ) -> impl Iterator<Item = f64> + 'b {
        self.log
            .entries
            .iter()
            .filter(move |e| e.day <= self.today && what(&e.record))
            .map(|e| e.day)
    }

    /// Days of logged harvests.
    pub(crate) fn harvests(&self) -> impl Iterator<Item = f64> + '_ {
        self.days_of(|r| {
            matches!(
                r,
                Record::Harvest { .. } | Record::Event(Event::Harvest { .. })
            )
        })
    }
}

impl Log {
    /// What was written down no later than a day.
    #[must_use]
    pub fn until(&self, day: f64) -> Self {
        Self {
            readings: self
                .readings
                .iter()
                .filter(|r| r.day <= day)
                .copied()
                .collect(),
            probes: self
                .probes
                .iter()
                .map(|p| {
                    let count = p.days.partition_point(|&d| d <= day);
                    ProbeSeries {
                        measured: p.measured,
                        days: p.days.iter().take(count).copied().collect(),
                        values: p.values.iter().take(count).copied().collect(),
                    }
                })
                .collect(),
            entries: self
                .entries
                .iter()
                .filter(|e| e.day <= day)
                .cloned()
                .collect(),
        }
    }
}
