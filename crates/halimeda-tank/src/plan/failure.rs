//! How long until trouble.

use halimeda::nutrient::AmmoniaVerdict;
use serde::{Deserialize, Serialize};

use super::case::Case;
use super::influence::{Influence, influence_words, influences};
use super::words::{duration, list, number, percent, range, with_unit};
use crate::error::{Error, Result, require_one, within};
use crate::parameters::Parameters;
use crate::quantiles::{Quantiles, quantile, sorted};
use crate::simulate::{Branch, Run, RunOptions, Sample};
use crate::tank::Event;
use crate::variable::Variable;
use crate::work::{SharedProgress, Work};

/// Something that goes wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Failure {
    /// The supply of the screen's lamps dies.
    ScreenLamp,
    /// Water stops running over the screen.
    ScreenFlow,
    /// The main pump stops: no overflow, no screen, no foam fractionator.
    Pump,
    /// Nobody harvests.
    LateHarvest,
    /// Nobody is there: no harvests, no water changes, no tests.
    Away {
        /// A feeder goes on feeding.
        fed: bool,
        /// The top-off goes on replacing what evaporates.
        topped_off: bool,
    },
}

impl Failure {
    /// Those that a plan answers for.
    pub const ALL: &'static [Self] = &[
        Self::ScreenLamp,
        Self::ScreenFlow,
        Self::Pump,
        Self::LateHarvest,
        Self::Away {
            fed: false,
            topped_off: true,
        },
        Self::Away {
            fed: true,
            topped_off: true,
        },
        Self::Away {
            fed: false,
            topped_off: false,
        },
    ];

    /// What happens to the tank.
    #[must_use]
    pub fn events(self) -> Vec<Event> {
        match self {
            Self::ScreenLamp => vec![Event::ScreenLampFails],
            Self::ScreenFlow => vec![Event::ScreenFlowDrops { share: 0.0 }],
            Self::Pump => vec![Event::PumpStops],
            Self::LateHarvest => vec![Event::HarvestsStop],
            Self::Away { fed, topped_off } => {
                let mut events = vec![Event::KeeperLeaves];
                if !fed {
                    events.push(Event::FeedingStops);
                }
                if !topped_off {
                    events.push(Event::TopOffStops);
                }
                events
            }
        }
    }

    /// What went wrong, as the beginning of a sentence.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::ScreenLamp => "With the screen's lamps dead",
            Self::ScreenFlow => "Without water over the screen",
            Self::Pump => "With the main pump stopped",
            Self::LateHarvest => "Without harvests",
            Self::Away {
                fed: false,
                topped_off: true,
            } => "Away, nobody feeding",
            Self::Away {
                fed: true,
                topped_off: true,
            } => "Away, with a feeder",
            Self::Away {
                fed: false,
                topped_off: false,
            } => "Away, nobody feeding and no top-off",
            Self::Away {
                fed: true,
                topped_off: false,
            } => "Away, with a feeder but no top-off",
        }
    }
}

/// Limits that animals do not bear for long.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct HardLimits {
    /// Most un-ionised ammonia, mg/L as NH3. Default: the limit for days of exposure
    /// of the US EPA; its four-day mean is taken for a limit at once.
    pub unionised_ammonia_mg_per_l: f64,
    /// Least oxygen, share of saturation. Default 0.65: common practice, no source.
    pub oxygen_saturation: f64,
    /// Least pH, total scale. Default 7.6: common practice, no source.
    pub ph_total: f64,
    /// Most salinity. Default 38: common practice, no source.
    pub practical_salinity: f64,
}

impl Default for HardLimits {
    fn default() -> Self {
        Self {
            unionised_ammonia_mg_per_l: AmmoniaVerdict::CHRONIC_MG_PER_L,
            oxygen_saturation: 0.65,
            ph_total: 7.6,
            practical_salinity: 38.0,
        }
    }
}

/// One side of a limit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Limit {
    /// What is limited.
    pub variable: Variable,
    /// The limit, in the variable's unit.
    pub value: f64,
    /// Whether it must not be exceeded; else it must not be fallen below.
    pub upper: bool,
}

impl Limit {
    /// Excess over the limit, negative where it is kept.
    fn excess(&self, sample: &Sample) -> f64 {
        let excess = self.variable.of(sample) - self.value;
        if self.upper { excess } else { -excess }
    }

    /// First day on which it is passed, linear between samples.
    fn passed_on(&self, samples: &[Sample]) -> Option<f64> {
        let place = samples.iter().position(|s| self.excess(s) > 0.0)?;
        let after = samples.get(place)?;
        let Some(before) = place.checked_sub(1).and_then(|p| samples.get(p)) else {
            return Some(after.day);
        };
        let (below, above) = (-self.excess(before), self.excess(after));
        Some(before.day + (after.day - before.day) * below / (below + above))
    }

    fn words(&self) -> String {
        let what = match self.variable {
            Variable::Nitrate => "nitrate",
            Variable::Phosphate => "phosphate",
            Variable::UnionisedAmmonia => "un-ionised ammonia",
            Variable::OxygenSaturation => "oxygen (share of saturation)",
            Variable::Ph => "pH",
            Variable::Salinity => "salinity",
            other => other.name(),
        };
        let unit = match self.variable.unit() {
            "1" | "total scale" => "",
            unit => unit,
        };
        let side = if self.upper { "above" } else { "below" };
        format!("{what} {side} {}", with_unit(self.value, unit))
    }
}

/// Bands and hard limits that are watched.
fn limits(case: &Case<'_>, hard: &HardLimits) -> Result<Vec<Limit>> {
    let g = case.goals;
    let limits: [(_, _, _, _, _); 8] = [
        (
            "limit nitrate",
            Variable::Nitrate,
            g.nitrate_mg_per_l.high,
            true,
            1e4,
        ),
        (
            "limit nitrate",
            Variable::Nitrate,
            g.nitrate_mg_per_l.low,
            false,
            1e4,
        ),
        (
            "limit phosphate",
            Variable::Phosphate,
            g.phosphate_mg_per_l.high,
            true,
            1e3,
        ),
        (
            "limit phosphate",
            Variable::Phosphate,
            g.phosphate_mg_per_l.low,
            false,
            1e3,
        ),
        (
            "limit unionised_ammonia_mg_per_l",
            Variable::UnionisedAmmonia,
            hard.unionised_ammonia_mg_per_l,
            true,
            10.0,
        ),
        (
            "limit oxygen_saturation",
            Variable::OxygenSaturation,
            hard.oxygen_saturation,
            false,
            1.0,
        ),
        ("limit ph_total", Variable::Ph, hard.ph_total, false, 9.0),
        (
            "limit practical_salinity",
            Variable::Salinity,
            hard.practical_salinity,
            true,
            100.0,
        ),
    ];
    limits
        .into_iter()
        .map(|(name, variable, value, upper, most)| {
            within(name, value, 0.0, most)?;
            Ok(Limit {
                variable,
                value,
                upper,
            })
        })
        .collect()
}

/// When a limit is passed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct TimeToLimit {
    /// The limit.
    pub limit: Limit,
    /// Share of the members in which the failure leads past it within the horizon.
    pub passed: f64,
    /// Share of the members that pass it within the horizon with nothing failing;
    /// they count in no other number here.
    pub passed_anyway: f64,
    /// Days until it is passed: earliest 5 %, median, latest 5 % of the members;
    /// none where that member does not pass it within the horizon.
    pub days: [Option<f64>; 3],
}

/// What a failure leads to.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FailureAnswer {
    /// What fails.
    pub failure: Failure,
    /// Days followed after it.
    pub horizon_days: f64,
    /// When each limit is passed, in no more than the horizon.
    pub limits: Vec<TimeToLimit>,
    /// What the failure does to nitrate in a week, mg/L, against nothing failing.
    pub nitrate_after_a_week_mg_per_l: Option<Quantiles>,
    /// What it does to the lowest pH of the first two days.
    pub ph_of_first_nights: Option<Quantiles>,
    /// Parameters that decide when the first limit is passed.
    pub influences: Vec<Influence>,
    /// Members that could not be followed to the horizon, and why the first was not.
    pub broken_off: Option<(usize, String)>,
    /// The answer in words.
    pub reason: String,
}

/// One member after one failure.
pub(super) struct Trace {
    /// Day after the failure on which each limit is passed.
    passed: Vec<Option<f64>>,
    nitrate_after_a_week: Option<f64>,
    lowest_ph: f64,
    broken_off: Option<Error>,
}

impl Trace {
    fn of(branch: Branch, from_day: f64, limits: &[Limit]) -> Self {
        let samples = &branch.samples;
        let within_days = |days: f64| samples.iter().take_while(move |s| s.day <= from_day + days);
        Self {
            passed: limits
                .iter()
                .map(|limit| Some(limit.passed_on(samples)? - from_day))
                .collect(),
            nitrate_after_a_week: samples
                .iter()
                .find(|s| s.day >= from_day + 7.0)
                .map(|s| s.nitrate_mg_per_l),
            lowest_ph: within_days(2.0)
                .map(|s| s.ph_total)
                .fold(f64::INFINITY, f64::min),
            broken_off: branch.broken_off,
        }
    }
}

/// A member with nothing failing, then after each failure.
pub(super) type Traces = Vec<Trace>;

/// Failures of a case with the limits that are watched.
pub(super) struct Watch<'a> {
    failures: &'a [Failure],
    limits: Vec<Limit>,
    strikes: Vec<Vec<Event>>,
}

impl<'a> Watch<'a> {
    pub(super) fn new(case: &Case<'_>, failures: &'a [Failure], hard: &HardLimits) -> Result<Self> {
        let nothing = std::iter::once(Vec::new());
        Ok(Self {
            failures,
            limits: limits(case, hard)?,
            strikes: nothing.chain(failures.iter().map(|f| f.events())).collect(),
        })
    }

    /// Days a member is followed after the fork, all branches together.
    pub(super) fn days(&self, case: &Case<'_>) -> f64 {
        self.strikes.len() as f64 * case.options.failure_days
    }

    /// Follows one member to the end of the options and from there through every
    /// failure.
    pub(super) fn follow(
        &self,
        case: &Case<'_>,
        parameters: &Parameters,
        options: &RunOptions,
        work: &Work<'_>,
    ) -> Result<(Run, Traces)> {
        let further = case.options.failure_days;
        let (run, branches) =
            work.run_branches(case.setup, parameters, options, further, &self.strikes)?;
        let traces = branches
            .into_iter()
            .map(|b| Trace::of(b, options.days, &self.limits));
        Ok((run, traces.collect()))
    }

    pub(super) fn answers(
        &self,
        case: &Case<'_>,
        members: &[Option<Traces>],
    ) -> Vec<FailureAnswer> {
        let answer = |(place, &failure): (usize, &Failure)| {
            // The first branch is the one in which nothing fails.
            let pairs: Vec<Option<(&Trace, &Trace)>> = members
                .iter()
                .map(|traces| {
                    let traces = traces.as_ref()?;
                    Some((traces.first()?, traces.get(place + 1)?))
                })
                .collect();
            self.answer(case, failure, &pairs)
        };
        self.failures.iter().enumerate().map(answer).collect()
    }

    fn answer(
        &self,
        case: &Case<'_>,
        failure: Failure,
        pairs: &[Option<(&Trace, &Trace)>],
    ) -> FailureAnswer {
        let followed = || pairs.iter().flatten();
        let count = followed().count().max(1) as f64;
        let horizon = case.options.failure_days;
        let limits: Vec<TimeToLimit> = self
            .limits
            .iter()
            .enumerate()
            .map(|(i, &limit)| {
                let passed = |t: &Trace| t.passed.get(i).copied().flatten();
                let days = sorted(
                    followed()
                        .filter(|(anyway, _)| passed(anyway).is_none())
                        .map(|(_, failed)| passed(failed).unwrap_or(f64::INFINITY)),
                );
                let finite = days.iter().filter(|d| d.is_finite()).count() as f64;
                let at = |share| quantile(&days, share).filter(|d| d.is_finite());
                TimeToLimit {
                    limit,
                    passed: finite / days.len().max(1) as f64,
                    passed_anyway: 1.0 - days.len() as f64 / count,
                    days: [at(0.05), at(0.5), at(0.95)],
                }
            })
            .collect();
        let nitrate = Quantiles::of(followed().filter_map(|(anyway, failed)| {
            Some(failed.nitrate_after_a_week? - anyway.nitrate_after_a_week?)
        }));
        let ph =
            Quantiles::of(followed().map(|(anyway, failed)| failed.lowest_ph - anyway.lowest_ph));
        let mut broken = followed().filter_map(|(_, failed)| failed.broken_off.as_ref());
        let broken_off = broken.next().map(|e| (1 + broken.count(), e.to_string()));

        let first = limits
            .iter()
            .enumerate()
            .filter_map(|(i, l)| Some((i, l.days[1]?)))
            .min_by(|a, b| a.1.total_cmp(&b.1));
        let influences = match first {
            Some((i, _)) => {
                let days: Vec<f64> = pairs
                    .iter()
                    .map(|pair| match pair {
                        Some((_, failed)) => {
                            failed.passed.get(i).copied().flatten().unwrap_or(horizon)
                        }
                        None => f64::NAN,
                    })
                    .collect();
                influences(case.members, &days)
            }
            None => Vec::new(),
        };
        let mut answer = FailureAnswer {
            failure,
            horizon_days: horizon,
            limits,
            nitrate_after_a_week_mg_per_l: nitrate,
            ph_of_first_nights: ph,
            influences,
            broken_off,
            reason: String::new(),
        };
        answer.reason = answer.words();
        answer
    }
}

impl FailureAnswer {
    /// The limit that is passed first in the median member, if any is.
    #[must_use]
    pub fn first(&self) -> Option<&TimeToLimit> {
        let median = |t: &TimeToLimit| t.days[1].unwrap_or(f64::INFINITY);
        let first = self
            .limits
            .iter()
            .min_by(|a, b| median(a).total_cmp(&median(b)))?;
        first.days[1].map(|_| first)
    }

    fn words(&self) -> String {
        let horizon = number(self.horizon_days);
        let mut passed: Vec<&TimeToLimit> =
            self.limits.iter().filter(|t| t.days[0].is_some()).collect();
        let order = |t: &TimeToLimit| t.days[1].unwrap_or(f64::INFINITY);
        passed.sort_by(|a, b| order(a).total_cmp(&order(b)));
        let times: Vec<String> = passed
            .iter()
            .map(|t| {
                let limit = t.limit.words();
                match t.days {
                    [Some(early), Some(median), Some(late)] => format!(
                        "{limit} after {} ({} to {})",
                        duration(median),
                        duration(early),
                        duration(late)
                    ),
                    [Some(early), Some(median), None] => format!(
                        "{limit} after {} (from {} on, in {} of the ensemble within {horizon} days)",
                        duration(median),
                        duration(early),
                        percent(t.passed)
                    ),
                    [Some(early), ..] => format!(
                        "{limit} in {} of the ensemble, from {} on",
                        percent(t.passed),
                        duration(early)
                    ),
                    // Filtered out above.
                    [None, ..] => limit,
                }
            })
            .collect();
        let mut words = if times.is_empty() {
            format!(
                "{}, no limit is passed within {horizon} days.",
                self.failure.words()
            )
        } else {
            format!("{}: {}.", self.failure.words(), list(&times))
        };
        if let (Some(nitrate), Some(ph)) = (
            &self.nitrate_after_a_week_mg_per_l,
            &self.ph_of_first_nights,
        ) {
            words += &format!(
                " Against nothing failing, nitrate differs by {} after a week and the lowest pH of the first two days by {}.",
                range(nitrate, "mg/L"),
                range(ph, "")
            );
        }
        if self.first().is_some() {
            words += &format!(" {}", influence_words(&self.influences));
        }
        if let Some((count, why)) = &self.broken_off {
            words += &format!(
                " {count} members could not be followed to the end, the first because {why}."
            );
        }
        words
    }
}

/// How long until trouble: each failure strikes the case's setup on a day, and
/// days are counted until a band of the goals or a hard limit is passed that would
/// not be passed without it.
///
/// The ranges say what is known of tanks like this one. They are no promise for
/// animals: test the water when something failed.
///
/// # Errors
/// A number of the case or the limits lies outside its limits; every member
/// failed; or [`Error::Cancelled`].
pub fn time_to_trouble(
    case: &Case<'_>,
    from_day: f64,
    failures: &[Failure],
    limits: &HardLimits,
    progress: SharedProgress<'_>,
) -> Result<Vec<FailureAnswer>> {
    within("from_day", from_day, 0.0, 3660.0)?;
    let watch = Watch::new(case, failures, limits)?;
    let days = case.members.len() as f64 * (from_day + watch.days(case));
    case.ask(progress, days, |work| {
        let options = case.options.run(from_day);
        let followed = work.map(case.members, |p| {
            Ok(watch.follow(case, p, &options, work)?.1)
        })?;
        require_one(&followed)?;
        let members: Vec<Option<Traces>> = followed.into_iter().map(Result::ok).collect();
        Ok(watch.answers(case, &members))
    })
}
