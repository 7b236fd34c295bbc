//! What a keeper's log makes of a tank's parameters.
//!
//! Before the log is read a parameter lies in its range. [`fit`] holds tanks followed
//! through the log against the readings and gives draws of all that is unknown
//! that agree with both: members for [`ensemble_of`](crate::ensemble_of), for a forecast, for a plan. See
//! the section "Fit" of the model.

mod draws;
pub(crate) mod evidence;
mod likelihood;
mod posterior;
#[cfg(test)]
mod tests;
mod today;
mod unknowns;
mod words;

use serde::{Deserialize, Serialize};

pub use self::unknowns::SetupUnknown;
pub use self::words::FitQuality;

use self::draws::Draws;
use self::evidence::Evidence;
use self::posterior::{Peak, Point, Posterior};
use self::unknowns::{Unknown, Unknowns};
use crate::error::{Error, Result, within};
use crate::log::{Log, logged_setup};
use crate::parameters::Parameters;
use crate::quantiles::Quantiles;
use crate::ranges::{ParameterRange, Ranges};
use crate::simulate::RunOptions;
use crate::tank::Setup;
use crate::work::{SharedProgress, Work};

/// How hard a fit tries.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct FitOptions {
    /// Members drawn.
    pub members: usize,
    /// Steps of each member towards the readings.
    pub member_steps: usize,
    /// Moves of each member's chain.
    pub chain_steps: usize,
    /// Most steps of the search for the most likely tank.
    pub search_steps: usize,
    /// Relative tolerance of a step in time.
    pub relative_tolerance: f64,
    /// Seed of the draws.
    pub seed: u32,
}

impl Default for FitOptions {
    fn default() -> Self {
        Self {
            members: 64,
            member_steps: 4,
            chain_steps: 8,
            search_steps: 6,
            // Readings are uncertain by percents.
            relative_tolerance: 1e-4,
            seed: 1,
        }
    }
}

impl FitOptions {
    fn check(&self) -> Result<()> {
        within("members", self.members as f64, 8.0, 65536.0)?;
        within("chain_steps", self.chain_steps as f64, 2.0, 1e4)?;
        within("member_steps", self.member_steps as f64, 0.0, 100.0)?;
        within("search_steps", self.search_steps as f64, 1.0, 100.0)?;
        within("relative_tolerance", self.relative_tolerance, 1e-13, 1e-3)?;
        Ok(())
    }

    /// Runs at the most.
    fn runs(&self, unknowns: usize) -> f64 {
        let search = (self.search_steps + 1) as f64 * (unknowns as f64 + 4.0);
        search + (self.members * (self.member_steps + self.chain_steps + 1)) as f64
    }
}

/// A tank that agrees with its log, ready to be followed through the log and on.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Member {
    /// The tank as it was at the start of the log, what was done with it, and the
    /// plan from the log's end on.
    pub setup: Setup,
    /// Its parameters.
    pub parameters: Parameters,
}

/// What a log says of one unknown.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Fitted {
    /// Group and name, as in "turf.reserve_days", or that of a [`SetupUnknown`].
    pub path: String,
    /// Unit; "1" for a ratio.
    pub unit: String,
    /// Before the log was read.
    pub prior: Quantiles,
    /// After it.
    pub posterior: Quantiles,
    /// Share of the uncertainty that the log takes away: 1 less the standard deviation
    /// after over that before, both on the scale on which the range is normal, by the
    /// draws or by the curvature at the most likely tank, whichever says less; 0 where
    /// nothing is learnt.
    pub information: f64,
    /// Whether the log informs it; otherwise it still rests on its range.
    pub informed: bool,
}

/// What a log makes of a tank.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fit {
    /// Tanks that agree with the log, equally likely.
    pub members: Vec<Member>,
    /// The single most likely tank.
    pub most_likely: Member,
    /// Every unknown: the parameters in their order, then those of the setup.
    pub fitted: Vec<Fitted>,
    /// How well the members agree with the log.
    pub quality: FitQuality,
    /// Independent draws that the quantiles are worth.
    pub effective_draws: f64,
    /// Runs that were followed.
    pub runs: usize,
    /// What to know about the fit, in words: readings that are missing, ranges that
    /// are too narrow, numbers left out.
    pub notes: Vec<String>,
    ranges: Ranges,
}

impl Fit {
    /// What a log says of an unknown, by its path.
    #[must_use]
    pub fn of(&self, path: &str) -> Option<&Fitted> {
        self.fitted.iter().find(|f| f.path == path)
    }

    /// The unknowns that the log informs, best known first.
    #[must_use]
    pub fn informed(&self) -> Vec<&Fitted> {
        let mut informed: Vec<&Fitted> = self.fitted.iter().filter(|f| f.informed).collect();
        informed.sort_by(|a, b| b.information.total_cmp(&a.information));
        informed
    }

    /// The unknowns that still rest on their ranges.
    #[must_use]
    pub fn resting_on_ranges(&self) -> Vec<&Fitted> {
        self.fitted.iter().filter(|f| !f.informed).collect()
    }

    /// Ranges with those of informed parameters narrowed to what the log leaves of
    /// them, each for itself. What the log says of several together is in the members
    /// alone.
    #[must_use]
    pub fn ranges(&self) -> Ranges {
        let informed = self.fitted.iter().filter(|f| f.informed);
        informed.fold(self.ranges.clone(), |ranges, fitted| {
            let Some(before) = ranges.range(&fitted.path) else {
                return ranges;
            };
            let narrowed = narrowed(&before, &fitted.posterior);
            ranges
                .clone()
                .narrow(&fitted.path, narrowed)
                .unwrap_or(ranges)
        })
    }

    /// The parameters of all members, for a plan: with [`Member::at`] of
    /// [`Fit::most_likely`] as its setup it begins where the log ends.
    #[must_use]
    pub fn parameters(&self) -> Vec<Parameters> {
        self.members.iter().map(|m| m.parameters).collect()
    }
}

/// The range, within another, whose median and 5 and 95 % are those of a posterior.
fn narrowed(before: &ParameterRange, posterior: &Quantiles) -> ParameterRange {
    // A twentieth lies below this share of the way from an end to the centre.
    let share = 0.1f64.sqrt();
    let centre = posterior.p50.clamp(before.low, before.high);
    let end = |quantile: f64| (quantile - share * centre) / (1.0 - share);
    ParameterRange {
        low: end(posterior.p5).clamp(before.low, centre),
        centre,
        high: end(posterior.p95).clamp(centre, before.high),
    }
}

/// Information from which on an unknown counts as informed: less is hard to tell from
/// the chance of the draws.
const INFORMED: f64 = 0.2;

/// Fits what is unknown of a tank to its log: the parameters within their ranges, and
/// of the setup what [`SetupUnknown`] names. `setup` is the tank as its description
/// has it; what was done with it is taken from the log ([`logged_setup`]).
///
/// The same for the same seed, whatever the number of cores.
///
/// ```no_run
/// use std::ops::ControlFlow;
/// use halimeda_tank::{Ranges, description::TankFile, fit::{FitOptions, fit}, log::Log};
/// # fn read_log() -> Log { Log::default() }
/// let file = TankFile::from_toml(std::fs::read("reef.toml")?)?;
/// let ranges = Ranges::default().overridden(&file.parameter_overrides)?;
/// let fit = fit(&file.setup(), &read_log(), &ranges, &FitOptions::default(), &mut |_, _| {
///     ControlFlow::Continue(())
/// })?;
/// for known in fit.informed() {
///     println!("{} {} {}", known.path, known.posterior.p50, known.unit);
/// }
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// - A number of the setup, the log or the options lies outside its limits.
/// - [`Error::Uninformative`]: the log holds nothing to fit
///   to; names what is missing.
/// - The nominal tank cannot be followed to the end of the log.
/// - [`Error::Cancelled`].
pub fn fit(
    setup: &Setup,
    log: &Log,
    ranges: &Ranges,
    options: &FitOptions,
    progress: SharedProgress<'_>,
) -> Result<Fit> {
    options.check()?;
    let logged = logged_setup(setup, log)?;
    let evidence = Evidence::of(log)?;
    let missing = words::missing(&evidence);
    if !words::is_informative(&evidence) {
        return Err(Error::Uninformative(missing.join("; ")));
    }
    let unknowns = Unknowns::of(&logged, ranges);
    let days = evidence.last_day() + AFTER_LAST;
    let work = Work::new(progress, options.runs(unknowns.len()) * days);
    let posterior = Posterior {
        unknowns: &unknowns,
        evidence: &evidence,
        run: RunOptions {
            relative_tolerance: options.relative_tolerance,
            ..RunOptions::days(days).sampled_every_days(1.0 / 12.0)
        },
        options,
        work: &work,
    };
    let peak = posterior.peak()?;
    let draws = posterior.draw(&peak)?;
    let runs = work.runs();
    work.finish();
    Ok(gather(
        &unknowns, &evidence, &peak, &draws, ranges, missing, runs,
    ))
}

/// Time followed after the last reading, d: what happens at the very end of a run is
/// not part of it.
const AFTER_LAST: f64 = 1e-3;

fn gather(
    unknowns: &Unknowns,
    evidence: &Evidence,
    peak: &Peak,
    draws: &Draws,
    ranges: &Ranges,
    missing: Vec<String>,
    runs: usize,
) -> Fit {
    let fitted: Vec<Fitted> = unknowns
        .all
        .iter()
        .enumerate()
        .map(|(place, unknown)| fitted(place, unknown, peak, draws))
        .collect();
    let quality = FitQuality::of(evidence, &draws.last);
    let member = |point: &Point| {
        let (setup, parameters) = unknowns.at(&point.z);
        Member { setup, parameters }
    };
    let mut notes = missing;
    notes.extend(words::notes(evidence, &fitted, draws));
    Fit {
        members: draws.last.iter().map(member).collect(),
        most_likely: member(&peak.point),
        fitted,
        quality,
        effective_draws: draws.effective(),
        runs,
        notes,
        ranges: ranges.clone(),
    }
}

fn fitted(place: usize, unknown: &Unknown, peak: &Peak, draws: &Draws) -> Fitted {
    let z = || {
        let points = draws.pool.iter().flatten();
        points.filter_map(|p: &Point| p.z.get(place).copied())
    };
    let n = z().count() as f64;
    let mean = z().sum::<f64>() / n;
    let sd = (z().map(|z| (z - mean).powi(2)).sum::<f64>() / n).sqrt();
    let information = (1.0 - sd).min(peak.information(place)).clamp(0.0, 1.0);
    // Standard normal quantiles at 5, 25, 50, 75 and 95 %.
    let [p5, p25, p50, p75, p95] =
        [-1.644854, -0.67449, 0.0, 0.67449, 1.644854].map(|z| unknown.value(z));
    let prior = Quantiles {
        p5,
        p25,
        p50,
        p75,
        p95,
    };
    Fitted {
        path: unknown.path(),
        unit: unknown.unit().to_owned(),
        prior,
        posterior: Quantiles::of_draws(z().map(|z| unknown.value(z))).unwrap_or(prior),
        information,
        informed: information > INFORMED,
    }
}
