//! What may have happened that the log does not mention, and whether what it mentions
//! shows.

use serde::{Deserialize, Serialize};

use super::{Earlier, VerdictOptions};
use crate::error::Result;
use crate::fit::Member;
use crate::fit::evidence::Evidence;
use crate::forecast::Members;
use crate::log::{Log, logged_setup};
use crate::logged::LoggedTank;
use crate::simulate::Run;
use crate::tank::{Event, Setup};
use crate::work::Work;

/// What may have happened on a day and gone on since.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Suspect {
    /// The lamps of the screen failed.
    LampFailed,
    /// The water over the screen dropped to a quarter.
    FlowDropped,
    /// Feeding went up by half.
    FeedingUp,
    /// Feeding went down by a third.
    FeedingDown,
    /// Planned harvests were missed.
    HarvestsMissed,
}

impl Suspect {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::LampFailed,
        Self::FlowDropped,
        Self::FeedingUp,
        Self::FeedingDown,
        Self::HarvestsMissed,
    ];

    /// It in words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::LampFailed => "the screen's lamps failed",
            Self::FlowDropped => "the flow over the screen dropped",
            Self::FeedingUp => "more food went in than was planned or written down",
            Self::FeedingDown => "less food went in than was planned or written down",
            Self::HarvestsMissed => "planned harvests were missed",
        }
    }

    const fn event(self) -> Event {
        match self {
            Self::LampFailed => Event::ScreenLampFails,
            Self::FlowDropped => Event::ScreenFlowDrops { share: 0.25 },
            Self::FeedingUp => Event::FeedingScaled { factor: 1.5 },
            Self::FeedingDown => Event::FeedingScaled { factor: 2.0 / 3.0 },
            Self::HarvestsMissed => Event::HarvestsStop,
        }
    }
}

/// How likely one of them is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Cause {
    /// What is suspected.
    pub suspect: Suspect,
    /// Its probability against all others and against nothing.
    pub probability: f64,
    /// The day on which it began, if it did: half of its probability lies before.
    pub day: f64,
    /// Days between which it began with nine tenths of its probability.
    pub range: [f64; 2],
}

/// Something that the log mentions, and whether its readings show it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct LoggedCause {
    /// Time since the start, d.
    pub day: f64,
    /// What was written down.
    pub event: Event,
    /// Probability that it happened as written, against that it did not, even odds
    /// beforehand: one half where the readings cannot tell.
    pub shows: f64,
}

/// What the log says of causes.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Causes {
    /// Day from which on changes are looked for, d since the start.
    pub from_day: f64,
    /// Probability that nothing happened but what is written down.
    pub nothing: f64,
    /// What else may have, most likely first.
    pub suspected: Vec<Cause>,
    /// What is written down within these days.
    pub logged: Vec<LoggedCause>,
}

/// Probability beforehand that nothing happened that the log does not mention; the rest
/// is shared alike by the suspects and, of each, by its days. A choice, no source.
const NOTHING_BEFOREHAND: f64 = 0.8;

/// Discrepancy of the model, in the units of the fit, that readings are weighed with: the
/// upper half of what a fit expects.
const DISCREPANCY: f64 = 0.5;

/// Last days in which a change would not show yet.
const TOO_LATE_DAYS: f64 = 2.0;

/// Most logged events that are weighed.
const MOST_LOGGED: usize = 8;

/// One way things may have gone.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Scenario {
    AsWritten,
    Suspected { suspect: Suspect, day: f64 },
    WithoutLogged { day: f64, event: Event },
}

/// What members that know the log up to a day say of the readings that came later, if
/// one thing or another happened: see the section "Verdict" of the model.
pub(super) struct Inquest {
    from_day: f64,
    scenarios: Vec<Scenario>,
    /// By scenario and reading, what every member expects.
    expected: Vec<Vec<Vec<f64>>>,
}

impl Inquest {
    /// Days each member is followed.
    pub(super) fn days_per_member(
        tank: &LoggedTank<'_>,
        earlier: Option<&Earlier<'_>>,
        options: &VerdictOptions,
    ) -> f64 {
        let from_day = from_day(tank, earlier);
        let suspects = suspects(tank).len() as f64;
        let branches: f64 = days(from_day, tank.today, options)
            .iter()
            .map(|day| day + suspects * (tank.today - day))
            .sum();
        branches + tank.today * (1.0 + logged_events(tank, from_day).len() as f64)
    }

    /// Follows members of what was known earlier through every scenario; none if there is
    /// nothing to hold them against.
    pub(super) fn follow(
        tank: &LoggedTank<'_>,
        earlier: Option<&Earlier<'_>>,
        options: &VerdictOptions,
        work: &Work<'_>,
    ) -> Result<Option<Self>> {
        let from_day = from_day(tank, earlier);
        let later = after(&tank.log.until(tank.today), from_day);
        let evidence = Evidence::of(&later)?;
        if evidence.data.is_empty() {
            return Ok(None);
        }
        let members: Vec<Member> = match earlier {
            Some(earlier) => earlier
                .members
                .iter()
                .map(|m| {
                    Ok(Member {
                        setup: logged_setup(&m.setup, &later)?,
                        parameters: m.parameters,
                    })
                })
                .collect::<Result<_>>()?,
            None => tank.members.to_vec(),
        };
        let few = members.get(..options.members).unwrap_or(&members);
        let suspects = suspects(tank);
        let days = days(from_day, tank.today, options);
        let logged = logged_events(tank, from_day);
        let mut scenarios = vec![Scenario::AsWritten];
        scenarios.extend(
            logged
                .iter()
                .map(|&(day, event)| Scenario::WithoutLogged { day, event }),
        );
        for &day in &days {
            let of_day = suspects.iter();
            scenarios.extend(of_day.map(|&suspect| Scenario::Suspected { suspect, day }));
        }
        let followed = work.map(few, |member| {
            follow_member(
                member, &evidence, &logged, &suspects, &days, tank.today, work,
            )
        })?;
        crate::error::require_one(&followed)?;
        let by_member: Vec<Vec<Vec<f64>>> = followed.into_iter().flatten().collect();
        let expected = (0..scenarios.len())
            .map(|scenario| {
                (0..evidence.data.len())
                    .map(|datum| {
                        by_member
                            .iter()
                            .map(|m| {
                                let of = m.get(scenario).and_then(|s| s.get(datum));
                                of.copied().unwrap_or(f64::NAN)
                            })
                            .collect()
                    })
                    .collect()
            })
            .collect();
        Ok(Some(Self {
            from_day,
            scenarios,
            expected,
        }))
    }

    /// Holds the scenarios against the readings of a log after the day.
    pub(super) fn weigh(&self, log: &Log) -> Result<Causes> {
        let evidence = Evidence::of(&after(log, self.from_day))?;
        // Members' own spread stands in for a tank unlike all of them.
        let weighed: Vec<f64> = self
            .expected
            .iter()
            .map(|rows| {
                let mut members = Members::new(rows.clone());
                if members.count() < 2 {
                    return f64::NEG_INFINITY;
                }
                evidence
                    .data
                    .iter()
                    .enumerate()
                    .map(|(row, datum)| {
                        let (observed, variance) = datum.as_normal(DISCREPANCY);
                        members.learn(row, Some(observed), variance)
                    })
                    .sum()
            })
            .collect();
        let evidence_of = |wanted: Scenario| -> f64 {
            let place = self.scenarios.iter().position(|&s| s == wanted);
            let of = place.and_then(|i| weighed.get(i).copied());
            of.unwrap_or(f64::NEG_INFINITY)
        };
        let as_written = evidence_of(Scenario::AsWritten);
        let suspected: Vec<(Suspect, f64, f64)> = self
            .scenarios
            .iter()
            .zip(&weighed)
            .filter_map(|(scenario, &evidence)| match *scenario {
                Scenario::Suspected { suspect, day } => Some((suspect, day, evidence)),
                _ => None,
            })
            .collect();
        let beforehand = (1.0 - NOTHING_BEFOREHAND) / suspected.len().max(1) as f64;
        let most = suspected.iter().map(|s| s.2).fold(as_written, f64::max);
        let nothing = NOTHING_BEFOREHAND * (as_written - most).exp();
        let weight = |evidence: f64| beforehand * (evidence - most).exp();
        let all = nothing + suspected.iter().map(|s| weight(s.2)).sum::<f64>();
        let mut causes: Vec<Cause> = Suspect::ALL
            .into_iter()
            .filter_map(|suspect| {
                let mut of: Vec<(f64, f64)> = suspected
                    .iter()
                    .filter(|s| s.0 == suspect)
                    .map(|&(_, day, evidence)| (day, weight(evidence) / all))
                    .collect();
                of.sort_by(|a, b| a.0.total_cmp(&b.0));
                let probability: f64 = of.iter().map(|d| d.1).sum();
                let at = |share: f64| weighted_quantile(&of, share * probability);
                Some(Cause {
                    suspect,
                    probability,
                    day: at(0.5)?,
                    range: [at(0.05)?, at(0.95)?],
                })
            })
            .collect();
        causes.sort_by(|a, b| b.probability.total_cmp(&a.probability));
        let logged = self
            .scenarios
            .iter()
            .filter_map(|&scenario| match scenario {
                Scenario::WithoutLogged { day, event } => Some(LoggedCause {
                    day,
                    event,
                    shows: 1.0 / (1.0 + (evidence_of(scenario) - as_written).exp()),
                }),
                _ => None,
            })
            .collect();
        Ok(Causes {
            from_day: self.from_day,
            nothing: nothing / all,
            suspected: causes,
            logged,
        })
    }
}

/// The first day up to which the weights reach a sum.
fn weighted_quantile(days: &[(f64, f64)], sum: f64) -> Option<f64> {
    let mut reached = 0.0;
    let day = days.iter().find(|d| {
        reached += d.1;
        reached >= sum
    });
    day.or(days.last()).map(|d| d.0)
}

/// Without an earlier fit changes are looked for after the first third of the log.
fn from_day(tank: &LoggedTank<'_>, earlier: Option<&Earlier<'_>>) -> f64 {
    earlier.map_or(tank.today / 3.0, |e| e.until_day)
}

/// What was written down after a day.
fn after(log: &Log, day: f64) -> Log {
    let mut later = log.clone();
    later.readings.retain(|r| r.day > day);
    later.entries.retain(|e| e.day > day);
    for probe in &mut later.probes {
        let from = probe.days.partition_point(|&d| d <= day);
        probe.days.drain(..from);
        probe.values.drain(..from.min(probe.values.len()));
    }
    later
}

/// Days on which something may have begun.
fn days(from_day: f64, today: f64, options: &VerdictOptions) -> Vec<f64> {
    let last = today - TOO_LATE_DAYS;
    if last <= from_day {
        return Vec::new();
    }
    let count = ((last - from_day) / options.every_days).floor() as u32 + 1;
    let step = (last - from_day) / f64::from(count);
    (0..count)
        .map(|i| from_day + step * (f64::from(i) + 0.5))
        .collect()
}

fn suspects(tank: &LoggedTank<'_>) -> Vec<Suspect> {
    // Harvests that were written down took place; only planned ones can be missed.
    let planned = tank.setup.schedule.harvest.is_some() && tank.harvests().next().is_none();
    let fed = !tank.setup.schedule.feedings.is_empty();
    Suspect::ALL
        .into_iter()
        .filter(|s| match s {
            Suspect::HarvestsMissed => planned,
            Suspect::FeedingUp | Suspect::FeedingDown => fed,
            Suspect::LampFailed | Suspect::FlowDropped => true,
        })
        .collect()
}

/// Logged changes after a day that the readings might show.
fn logged_events(tank: &LoggedTank<'_>, from_day: f64) -> Vec<(f64, Event)> {
    let entries = tank.log.entries.iter();
    entries
        .filter(|e| e.day > from_day && e.day < tank.today - TOO_LATE_DAYS)
        .filter_map(|e| match e.record {
            crate::log::Record::Event(event) if is_change(&event) => Some((e.day, event)),
            _ => None,
        })
        .take(MOST_LOGGED)
        .collect()
}

/// Whether an event changes what follows for longer than it takes, rather than ending
/// such a change. A top-off that stands shows in salinity, not in nutrients.
const fn is_change(event: &Event) -> bool {
    match event {
        Event::NewScreen
        | Event::NewScreenLamp
        | Event::NewIronOxide { .. }
        | Event::RoomCo2 { .. } => true,
        Event::TopOffStops => false,
        _ => event.begins(),
    }
}

/// What a member expects of every reading, by scenario.
fn follow_member(
    member: &Member,
    evidence: &Evidence,
    logged: &[(f64, Event)],
    suspects: &[Suspect],
    days: &[f64],
    today: f64,
    work: &Work<'_>,
) -> Result<Vec<Vec<f64>>> {
    let Member { setup, parameters } = member;
    // What happens at the very end of a run is not part of it.
    let until = LoggedTank::run_options(today + 1e-3);
    let count = evidence.data.len();
    let unknown = || vec![f64::NAN; count];
    let of = |run: &Run| evidence.expected(run, parameters).unwrap_or_else(unknown);
    let mut expected = vec![of(&work.run(setup, parameters, &until)?)];
    for &(day, event) in logged {
        let without = without(setup, day, &event);
        let run = work.run(&without, parameters, &until);
        expected.push(run.map_or_else(|_| unknown(), |run| of(&run)));
    }
    let strikes: Vec<Vec<Event>> = suspects.iter().map(|s| vec![s.event()]).collect();
    for &day in days {
        let fork = LoggedTank::run_options(day);
        let further = until.days - day;
        let (mut trunk, branches) =
            work.run_branches(setup, parameters, &fork, further, &strikes)?;
        // Only samples and harvests are held against readings.
        trunk.at_switches.clear();
        for branch in branches {
            expected.push(match branch.broken_off {
                Some(_) => unknown(),
                None => {
                    let mut run = trunk.clone();
                    run.samples.extend(branch.samples);
                    run.harvests.extend(branch.harvests);
                    of(&run)
                }
            });
        }
    }
    Ok(expected)
}

fn without(setup: &Setup, day: f64, event: &Event) -> Setup {
    let mut setup = setup.clone();
    setup
        .schedule
        .events
        .retain(|e| e.day.total_cmp(&day).is_ne() || e.event != *event);
    setup
}

/// Probability from which on a cause is named, and from which on it is worth a look.
/// On simulated logs without incidents (below, in the tests) no cause is named by
/// the first.
const NAMED: f64 = 0.8;
const WORTH_A_LOOK: f64 = 0.3;

impl Causes {
    /// The cause that stands out; none if none does.
    #[must_use]
    pub fn named(&self) -> Option<&Cause> {
        self.suspected.first().filter(|c| c.probability >= NAMED)
    }

    /// A cause that does not stand out but is worth a look.
    #[must_use]
    pub fn worth_a_look(&self) -> Option<&Cause> {
        self.suspected
            .first()
            .filter(|c| (WORTH_A_LOOK..NAMED).contains(&c.probability))
    }
}
