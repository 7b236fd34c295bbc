use serde::{Deserialize, Serialize};

use super::goals::{Goals, penalty};
use super::levers::Lever;
use crate::error::{Result, require_one, within};
use crate::outcome::{Outcome, last_days};
use crate::parameters::Parameters;
use crate::simulate::RunOptions;
use crate::tank::Setup;
use crate::work::{SharedProgress, Work};

/// How far ahead a plan looks and how hard it looks.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct PlanOptions {
    /// Days looked ahead.
    pub days: f64,
    /// The last part of them that is held against the goals, d.
    pub window_days: f64,
    /// Days followed after a failure.
    pub failure_days: f64,
    /// Time between samples, d.
    pub sample_every_days: f64,
    /// Relative tolerance of a step.
    pub relative_tolerance: f64,
    /// Runs spent on the search of settings.
    pub search_runs: usize,
    /// Members, the first of all, with which a single lever is varied.
    pub few_members: usize,
    /// Whether the plan may change the dosing so that alkalinity, calcium and
    /// magnesium stay what they are today.
    pub hold_by_dosing: bool,
    /// Seed of the points the search begins with.
    pub seed: u32,
}

impl Default for PlanOptions {
    fn default() -> Self {
        Self {
            days: 90.0,
            window_days: 30.0,
            failure_days: 30.0,
            sample_every_days: 1.0 / 12.0,
            // Parameters are uncertain by tens of percent.
            relative_tolerance: 1e-4,
            search_runs: 192,
            few_members: 16,
            hold_by_dosing: true,
            seed: 1,
        }
    }
}

impl PlanOptions {
    pub(super) fn check(&self) -> Result<()> {
        within("days", self.days, 14.0, 3660.0)?;
        within("window_days", self.window_days, 1.0, self.days)?;
        within("failure_days", self.failure_days, 1.0, 366.0)?;
        within("sample_every_days", self.sample_every_days, 1e-3, 0.25)?;
        within("relative_tolerance", self.relative_tolerance, 1e-13, 1e-3)?;
        within("search_runs", self.search_runs as f64, 1.0, 1e5)?;
        within("few_members", self.few_members as f64, 1.0, 65536.0)?;
        Ok(())
    }

    pub(super) fn run(&self, days: f64) -> RunOptions {
        RunOptions {
            relative_tolerance: self.relative_tolerance,
            ..RunOptions::days(days).sampled_every_days(self.sample_every_days)
        }
    }
}

/// What a question is asked about: a tank with its schedule, what is known of
/// its parameters, and what its keeper wants.
#[derive(Debug, Clone, Copy)]
pub struct Case<'a> {
    /// The tank and what is done with it.
    pub setup: &'a Setup,
    /// The parameters taken for the single most likely tank.
    pub nominal: &'a Parameters,
    /// Draws of the parameters, for the ranges.
    pub members: &'a [Parameters],
    /// What the keeper wants.
    pub goals: &'a Goals,
    /// How far ahead and how hard to look.
    pub options: &'a PlanOptions,
}

/// Outcomes of several setups under several parameters: one row per setup.
pub(super) type Grid = Vec<Vec<Result<Outcome>>>;

impl<'a> Case<'a> {
    /// # Errors
    /// A number of the case lies outside its limits, or there are no members.
    pub(super) fn check(&self) -> Result<()> {
        self.setup.check()?;
        self.goals.check()?;
        self.options.check()?;
        within("members", self.members.len() as f64, 1.0, f64::MAX)?;
        Ok(())
    }

    /// The same about another setup.
    pub(super) fn about<'b>(&self, setup: &'b Setup) -> Case<'b>
    where
        'a: 'b,
    {
        Case { setup, ..*self }
    }

    pub(super) fn few(&self) -> &'a [Parameters] {
        self.members
            .get(..self.options.few_members)
            .unwrap_or(self.members)
    }

    /// Checks the case and answers a question that follows tanks for so many days.
    pub(super) fn ask<T>(
        &self,
        progress: SharedProgress<'_>,
        days: f64,
        answer: impl FnOnce(&Work<'_>) -> Result<T>,
    ) -> Result<T> {
        self.check()?;
        let work = Work::new(progress, days);
        let answer = answer(&work)?;
        work.finish();
        Ok(answer)
    }

    /// Outcome of a setup over the last part of the days looked ahead.
    pub(super) fn outcome(
        &self,
        setup: &Setup,
        parameters: &Parameters,
        work: &Work<'_>,
    ) -> Result<Outcome> {
        self.outcome_of_last(
            setup,
            parameters,
            self.options.days,
            self.options.window_days,
            work,
        )
    }

    pub(super) fn outcome_of_last(
        &self,
        setup: &Setup,
        parameters: &Parameters,
        days: f64,
        window_days: f64,
        work: &Work<'_>,
    ) -> Result<Outcome> {
        let options = last_days(&self.options.run(days), window_days)?;
        let run = work.run(setup, parameters, &options)?;
        Outcome::of(&run, &setup.tank, parameters, &options)
    }

    /// Outcomes of setups over the last part of some days, under each of the parameters.
    pub(super) fn grid(
        &self,
        setups: &[Setup],
        members: &[Parameters],
        days: f64,
        window_days: f64,
        work: &Work<'_>,
    ) -> Result<Grid> {
        let pairs: Vec<(&Setup, &Parameters)> = setups
            .iter()
            .flat_map(|s| members.iter().map(move |p| (s, p)))
            .collect();
        let mut outcomes = work
            .map(&pairs, |(s, p)| {
                self.outcome_of_last(s, p, days, window_days, work)
            })?
            .into_iter();
        let grid: Grid = setups
            .iter()
            .map(|_| outcomes.by_ref().take(members.len()).collect())
            .collect();
        require_one(grid.iter().flatten())?;
        Ok(grid)
    }

    /// What a search makes small: goals missed above all, then the distance from
    /// the middle of the bands, then effort.
    pub(super) fn score(&self, setup: &Setup, outcome: &Outcome) -> f64 {
        penalty(&self.goals.checks(outcome)) + self.effort(setup)
    }

    /// What a setup costs its keeper against the present one: light, harvests,
    /// water and hunger. The weights only decide between settings that serve the
    /// goals alike; they are a choice, no source.
    fn effort(&self, setup: &Setup) -> f64 {
        let ratio =
            |of: &dyn Fn(&Setup) -> f64| (of(setup).max(1e-3) / of(self.setup).max(1e-3)).ln();
        let photons = ratio(&|s: &Setup| {
            s.tank.screen.lit_area_m2()
                * s.tank.screen.irradiance_umol_per_m2_s
                * s.schedule.screen_light.hours
        });
        let area = ratio(&|s: &Setup| s.tank.screen.lit_area_m2());
        let feed = ratio(&|s: &Setup| s.schedule.feedings.iter().map(|f| f.grams).sum());
        let weekly = |every: f64| 7.0 / every;
        let harvests = setup.schedule.harvest.map_or(0.0, |h| weekly(h.every_days));
        let changed = setup
            .schedule
            .water_change
            .map_or(0.0, |c| c.share * weekly(c.every_days));
        0.1 * photons + 0.05 * area + 0.1 * harvests + changed + 0.5 * feed.abs()
    }

    /// The same setup with one lever elsewhere.
    pub(super) fn varied(&self, lever: Lever, value: f64) -> Setup {
        self.setup.with(&[super::levers::Setting { lever, value }])
    }
}
