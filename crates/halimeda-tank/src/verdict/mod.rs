//! Is it working? What the log and its members say of the screen, with how sure that
//! is, and what to do next.
//!
//! Two voices are kept apart: what the members say, in whom all readings, weights and
//! the equations speak at once, and what the readings of one nutrient say alone.

mod balance;
mod cause;
mod removal;
mod stall;
mod summary;
mod trend;
mod yields;

#[cfg(test)]
mod tests;

use serde::{Deserialize, Serialize};

pub use balance::Balance;
pub use cause::{Cause, Causes, LoggedCause, Suspect};
pub use removal::Removal;
pub use stall::{Stall, StallLikelihood};
pub use trend::{Bend, NutrientTrend};
pub use yields::HarvestYield;

use crate::error::{Result, within};
use crate::fit::Member;
use crate::log::Measured;
use crate::logged::LoggedTank;
use crate::simulate::{Run, RunOptions};
use crate::work::SharedProgress;

/// What was known before something may have changed.
#[derive(Debug, Clone, Copy)]
pub struct Earlier<'a> {
    /// Members of a fit to the log up to a day ([`Log::until`](crate::log::Log::until)).
    pub members: &'a [Member],
    /// That day, d since the start.
    pub until_day: f64,
}

/// How a verdict is come to.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct VerdictOptions {
    /// Days up to today that removal is held against the load over.
    pub window_days: f64,
    /// Days between those on which something is suspected to have begun.
    pub every_days: f64,
    /// Members, the first of all, that suspicions are followed with.
    pub members: usize,
}

impl Default for VerdictOptions {
    fn default() -> Self {
        Self {
            window_days: 14.0,
            every_days: 6.0,
            members: 32,
        }
    }
}

impl VerdictOptions {
    fn check(&self) -> Result<()> {
        within("window_days", self.window_days, 1.0, 366.0)?;
        within("every_days", self.every_days, 1.0, 90.0)?;
        within("members", self.members as f64, 8.0, 65536.0)?;
        Ok(())
    }
}

/// Whether it is working, and what stands in the way.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Verdict {
    /// The day it is come to, d since the start.
    pub today: f64,
    /// Removal beside the load, by the members; none if the log tells too little.
    pub removal: Option<Removal>,
    /// What the readings of each nutrient say alone.
    pub trends: Vec<NutrientTrend>,
    /// What may have happened; none if there is nothing to tell it from.
    pub causes: Option<Causes>,
    /// Nitrogen beside phosphorus; none if the log tells too little.
    pub balance: Option<Balance>,
    /// Weighed harvests beside what was expected of them.
    pub harvests: Vec<HarvestYield>,
    /// What may keep turf from growing, most likely first.
    pub stalls: Vec<StallLikelihood>,
    /// What the log would need to tell more.
    pub missing: Vec<String>,
    /// The verdict in plain words.
    pub summary: Vec<String>,
    /// What to take care of.
    pub cautions: Vec<String>,
    /// Members that could not be followed.
    pub failed_members: usize,
}

/// Says whether the screen takes out more than comes in, since when and how sure that
/// is; what may have happened and when; which nutrient runs short; how harvests
/// stand beside what was expected; and what may keep turf from growing.
///
/// With an earlier fit, changes after its day are judged by how well members that do
/// not know them yet foretold what came. Without one the members have already bent
/// to whatever happened, and a change shows less than it should.
///
/// A log that tells nothing of nutrients gets a plain answer about what is missing.
///
/// # Errors
/// A number of the tank or the options lies outside its limits; no member can be
/// followed; or [`Error::Cancelled`](crate::Error::Cancelled).
pub fn verdict(
    tank: &LoggedTank<'_>,
    earlier: Option<&Earlier<'_>>,
    options: &VerdictOptions,
    progress: SharedProgress<'_>,
) -> Result<Verdict> {
    options.check()?;
    tank.check()?;
    if let Some(earlier) = earlier {
        within("day of the earlier fit", earlier.until_day, 0.0, tank.today)?;
        let members = earlier.members.len() as f64;
        within("members of the earlier fit", members, 1.0, f64::MAX)?;
    }
    let missing = summary::missing(tank);
    let trends: Vec<NutrientTrend> = [Measured::Nitrate, Measured::Phosphate]
        .into_iter()
        .filter_map(|measured| trend::trend(tank, measured))
        .collect();
    if !summary::is_enough(tank) {
        return Ok(Verdict {
            today: tank.today,
            removal: None,
            trends,
            causes: None,
            balance: None,
            harvests: Vec::new(),
            stalls: Vec::new(),
            summary: summary::not_enough(&missing),
            missing,
            cautions: summary::cautions(),
            failed_members: 0,
        });
    }
    let share = options.members.min(tank.members.len()) as f64 / tank.members.len() as f64;
    let days = tank.today + share * cause::Inquest::days_per_member(tank, earlier, options);
    tank.ask(progress, days, |work| {
        let window_days = options.window_days.min(tank.today);
        let run_options = RunOptions {
            books_from_day: tank.today - window_days,
            ..LoggedTank::run_options(tank.today)
        };
        let runs = tank.follow(&run_options, work)?;
        let followed: Vec<(&Member, &Run)> = tank
            .members
            .iter()
            .zip(&runs)
            .filter_map(|(m, run)| Some((m, run.as_ref().ok()?)))
            .collect();
        let inquest = cause::Inquest::follow(tank, earlier, options, work)?;
        let causes = match inquest {
            Some(inquest) => Some(inquest.weigh(&tank.log.until(tank.today))?),
            None => None,
        };
        let balances: Vec<removal::Balance> = followed
            .iter()
            .map(|(m, run)| removal::balance(run, &m.setup, window_days, tank.today))
            .collect();
        let with_parameters: Vec<_> = followed.iter().map(|&(m, r)| (&m.parameters, r)).collect();
        let suspected = causes.as_ref().map_or(&[][..], |c| &c.suspected);
        let verdict = Verdict {
            today: tank.today,
            removal: removal::removal(&balances, window_days),
            trends,
            balance: Some(balance::balance(tank, &followed)?),
            harvests: yields::yields(tank, &with_parameters),
            stalls: stall::stalls(
                &followed,
                suspected,
                tank.log,
                tank.setup.tank.temperature_celsius,
                tank.today,
            ),
            causes,
            missing,
            summary: Vec::new(),
            cautions: summary::cautions(),
            failed_members: tank.members.len() - followed.len(),
        };
        Ok(Verdict {
            summary: summary::words(&verdict, tank.goals),
            ..verdict
        })
    })
}
