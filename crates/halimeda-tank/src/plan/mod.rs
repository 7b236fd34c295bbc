//! Answers to a keeper's questions: how big a screen, how many hours and when,
//! how often to harvest, what if, how long until trouble, and the plan of it all.
//!
//! A question is asked about a [`Case`]. Settings are searched on the nominal tank;
//! every answer then carries the 5 to 95 % range over draws of the parameters, the
//! reason in words, and what matters most. Nothing here decides what the answers
//! are: they come out of the same equations that [`simulate`](crate::simulate) follows.
//!
//! Ranges say what is known of tanks like this one, not what is true of this one:
//! narrow them by measuring ([`Ranges`](crate::Ranges)). Advice is no substitute for
//! testing the water and watching the animals.

mod case;
mod change;
mod dosing;
mod failure;
mod forecast;
mod goals;
mod harvest;
mod influence;
mod levers;
mod light;
mod screen;
mod search;
pub(crate) mod words;

#[cfg(test)]
mod tests;

use std::ops::ControlFlow;
use std::sync::atomic::{AtomicUsize, Ordering};

use serde::{Deserialize, Serialize};

pub use case::{Case, PlanOptions};
pub use change::{Comparison, Difference, what_if};
pub use dosing::DosingAnswer;
pub use failure::{Failure, FailureAnswer, HardLimits, Limit, TimeToLimit, time_to_trouble};
pub use forecast::Forecast;
pub use goals::{Goal, GoalCheck, Goals};
pub use harvest::{DepthPoint, HarvestAnswer, HarvestPoint, harvesting};
pub use influence::{Influence, LeverEffect};
pub use levers::{Bounds, Lever, Levers, Move, Setting};
pub use light::{LightAnswer, LightPoint, lighting};
pub use screen::{AreaPoint, ScreenAnswer, screen_size};
pub use search::Proposal;

use crate::ensemble::{Ensemble, FailedMember, Kept};
use crate::error::Result;
use crate::outcome::{Outcome, last_days};
use crate::quantiles::Quantiles;
use crate::simulate::Sample;
use crate::tank::Setup;
use crate::upkeep::{self, Upkeep};
use crate::work::Work;

/// What a plan is busy with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Stage {
    /// Finding the dosing that holds alkalinity, calcium and magnesium.
    Dosing,
    /// Searching settings.
    Search,
    /// Following the tank as it is, with all its uncertainty.
    Present,
    /// Following the plan and what may go wrong with it.
    Future,
    /// How big a screen.
    Screen,
    /// How many hours and when.
    Light,
    /// How often and how deep to harvest.
    Harvest,
    /// Which levers matter most.
    Levers,
}

impl Stage {
    const ALL: [Self; 8] = [
        Self::Dosing,
        Self::Search,
        Self::Present,
        Self::Future,
        Self::Screen,
        Self::Light,
        Self::Harvest,
        Self::Levers,
    ];

    /// The stage in words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Dosing => "balancing the dosing",
            Self::Search => "searching settings",
            Self::Present => "following the tank as it is",
            Self::Future => "following the plan and its failures",
            Self::Screen => "sizing the screen",
            Self::Light => "timing the light",
            Self::Harvest => "timing the harvests",
            Self::Levers => "moving one lever at a time",
        }
    }
}

/// Called as a plan goes on, with what it is busy with and the share done, 0 to 1;
/// stops it by breaking. Whichever thread is at work calls it, never two at once.
pub type PlanProgress<'a> = &'a mut (dyn FnMut(Stage, f64) -> ControlFlow<()> + Send);

/// A goal over the ensemble.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct GoalShare {
    /// The goal.
    pub goal: Goal,
    /// Share of the members that meet it with the tank as it is.
    pub unchanged: f64,
    /// Share of the members that meet it with the plan.
    pub planned: f64,
}

/// The plan a keeper would act on.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Plan {
    /// The water today, as the description has it.
    pub today: Sample,
    /// How the tank as it is will stand to the goals, on the nominal tank.
    pub unchanged_checks: Vec<GoalCheck>,
    /// What the turf takes out as it is, mmol of nitrogen a day.
    pub nitrogen_removed_unchanged_mmol_per_day: Quantiles,
    /// What the turf takes out with the plan, mmol of nitrogen a day.
    pub nitrogen_removed_mmol_per_day: Quantiles,
    /// What the turf takes out with the plan, mmol of phosphorus a day.
    pub phosphorus_removed_mmol_per_day: Quantiles,
    /// Drained mass of a harvest with the plan, g.
    pub harvest_drained_grams: Quantiles,
    /// The best settings found.
    pub proposal: Proposal,
    /// How sure the goals are.
    pub goals: Vec<GoalShare>,
    /// Share of the members that meet all goals with the plan.
    pub meets_all_goals: f64,
    /// Means of days to come, beside what "nothing changes" would say.
    pub forecasts: Vec<Forecast>,
    /// The plan against the tank as it is.
    pub change: Comparison,
    /// Parameters that decide nitrate with the plan.
    pub influences: Vec<Influence>,
    /// What one step of each lever from the plan does.
    pub levers: Vec<LeverEffect>,
    /// What the tank uses up and what is dosed for it.
    pub dosing: DosingAnswer,
    /// How big a screen, at the plan's light and feeding.
    pub screen: ScreenAnswer,
    /// How many hours and when, on the plan's screen.
    pub light: LightAnswer,
    /// How often and how deep to harvest, with the plan's light.
    pub harvest: HarvestAnswer,
    /// How long until trouble, from the end of the days looked ahead.
    pub failures: Vec<FailureAnswer>,
    /// What is due, and when.
    pub upkeep: Vec<Upkeep>,
    /// Members that could not be followed with the plan.
    pub failed_members: Vec<FailedMember>,
    /// Members in all.
    pub members: usize,
}

/// Days ahead that are forecast, if the plan looks so far.
const FORECAST_DAYS: [f64; 2] = [30.0, 90.0];

/// Makes the plan: balances the dosing, searches the levers, follows the tank as it
/// is and as planned under every member and every failure, and asks the single
/// questions about the planned tank. The same for the same case, whatever the
/// number of cores.
///
/// Goals that no setting meets are no error: the verdict of the proposal names
/// them and says by how much they are missed.
///
/// # Errors
/// A number of the case, the levers or the limits lies outside its limits; the
/// tank cannot be followed under any member; or
/// [`Error::Cancelled`](crate::Error::Cancelled).
pub fn plan(
    case: &Case<'_>,
    levers: &Levers,
    limits: &HardLimits,
    progress: PlanProgress<'_>,
) -> Result<Plan> {
    let stage = AtomicUsize::new(0);
    let mut staged = |done: f64, all: f64| {
        let at = stage.load(Ordering::Relaxed);
        let stage = Stage::ALL.get(at).copied().unwrap_or(Stage::Levers);
        progress(stage, done / all)
    };
    let begin = |next: Stage| stage.store(next as usize, Ordering::Relaxed);

    levers.check()?;
    let watch = failure::Watch::new(case, Failure::ALL, limits)?;
    let looked_ahead = case.options.days;
    let members = case.members.len() as f64;
    let days = looked_ahead
        * (2.0 * dosing::HOLDING_RUNS
            + search::search_runs(levers, case)
            // The proposal, the tank as it is, and both over all members.
            + 2.0 * (1.0 + members)
            + influence::lever_runs(levers, case))
        + members * watch.days(case)
        + screen::screen_days(case)
        + light::light_days(case)
        + harvest::harvest_days(case);

    case.ask(&mut staged, days, |work| {
        let balanced = |setup: Setup| {
            if case.options.hold_by_dosing {
                dosing::held_by_dosing(&case.about(&setup), work)
            } else {
                Ok(setup)
            }
        };
        begin(Stage::Dosing);
        let held = balanced(case.setup.clone())?;
        begin(Stage::Search);
        let settings = search::search(&case.about(&held), levers, work)?;
        let planned_setup = balanced(held.with(&settings))?;
        let proposal = search::propose(case, &settings, planned_setup, work)?;
        let planned_case = case.about(&proposal.setup);

        begin(Stage::Present);
        let present = case.outcome(case.setup, case.nominal, work)?;
        let unchanged = change::follow_case(case, work)?;
        unchanged.require_one()?;
        begin(Stage::Future);
        let (planned, failures) = follow_with_failures(&planned_case, &watch, work)?;

        begin(Stage::Screen);
        let screen = screen::answer(&planned_case, Some(&planned), work)?;
        begin(Stage::Light);
        let light = light::answer(&planned_case, work)?;
        begin(Stage::Harvest);
        let harvest = harvest::answer(&planned_case, Some(&planned), work)?;
        begin(Stage::Levers);
        let levers = influence::lever_effects(&planned_case, levers, &proposal.outcome, work)?;

        let today = today(case, work)?;
        let forecast_days: Vec<f64> = FORECAST_DAYS
            .into_iter()
            .filter(|&d| d <= looked_ahead)
            .collect();
        let schedule = &proposal.setup.schedule;
        Ok(Plan {
            today,
            unchanged_checks: case.goals.checks(&present).to_vec(),
            nitrogen_removed_unchanged_mmol_per_day: of(&unchanged, |o| {
                o.nitrogen_removed_mmol_per_day
            })?,
            nitrogen_removed_mmol_per_day: of(&planned, |o| o.nitrogen_removed_mmol_per_day)?,
            phosphorus_removed_mmol_per_day: of(&planned, |o| o.phosphorus_removed_mmol_per_day)?,
            harvest_drained_grams: of(&planned, |o| o.harvest_drained_grams)?,
            goals: goal_shares(case.goals, &unchanged, &planned),
            meets_all_goals: share(&planned, |o| case.goals.met_by(o)),
            forecasts: forecast::forecasts(&planned, &unchanged, &today, &forecast_days)?,
            change: change::compare(&unchanged, &planned),
            influences: influence::ensemble_influences(case, &planned, |o| o.nitrate_mg_per_l),
            levers,
            dosing: dosing::answer(&planned, &schedule.dosing)?,
            screen,
            light,
            harvest,
            failures,
            upkeep: upkeep::scheduled(&proposal.setup, case.nominal, looked_ahead),
            failed_members: planned.failed(),
            members: case.members.len(),
            proposal,
        })
    })
}

/// The ensemble of a case over the days looked ahead, and what each failure at
/// their end leads to: the common days are followed once.
fn follow_with_failures(
    case: &Case<'_>,
    watch: &failure::Watch<'_>,
    work: &Work<'_>,
) -> Result<(Ensemble, Vec<FailureAnswer>)> {
    let options = change::ensemble_options(case);
    let run_options = last_days(&options.run, options.window_days)?;
    let followed = work.map(case.members, |parameters| {
        let (run, traces) = watch.follow(case, parameters, &run_options, work)?;
        let kept = Kept::of(
            &run,
            case.setup,
            parameters,
            &run_options,
            &options.variables,
        )?;
        Ok((kept, traces))
    })?;
    let mut members = Vec::with_capacity(followed.len());
    let mut traces = Vec::with_capacity(followed.len());
    for member in followed {
        let (kept, trace) = member.map_or_else(|e| (Err(e), None), |(k, t)| (Ok(k), Some(t)));
        members.push(kept);
        traces.push(trace);
    }
    let ensemble = Ensemble::gather(options.variables, members);
    ensemble.require_one()?;
    Ok((ensemble, watch.answers(case, &traces)))
}

/// The water at the very beginning.
fn today(case: &Case<'_>, work: &Work<'_>) -> Result<Sample> {
    let run = work.run(case.setup, case.nominal, &case.options.run(0.0))?;
    run.samples.first().copied().ok_or(NOTHING_FOLLOWED)
}

/// For what a member that was followed always has.
const NOTHING_FOLLOWED: crate::Error = crate::Error::Stuck {
    day: 0.0,
    reason: "the tank could be followed under no setting",
};

fn of(ensemble: &Ensemble, f: fn(&Outcome) -> f64) -> Result<Quantiles> {
    ensemble.outcome(f).ok_or(NOTHING_FOLLOWED)
}

/// Share of the members that were followed for which something holds.
fn share(ensemble: &Ensemble, holds: impl Fn(&Outcome) -> bool) -> f64 {
    let all = ensemble.outcomes().flatten().count();
    ensemble.outcomes().flatten().filter(|o| holds(o)).count() as f64 / all as f64
}

fn goal_shares(goals: &Goals, unchanged: &Ensemble, planned: &Ensemble) -> Vec<GoalShare> {
    let met = |ensemble, goal| {
        share(ensemble, |o| {
            goals.checks(o).iter().any(|c| c.goal == goal && c.is_met())
        })
    };
    Goal::ALL
        .into_iter()
        .map(|goal| GoalShare {
            goal,
            unchanged: met(unchanged, goal),
            planned: met(planned, goal),
        })
        .collect()
}
