//! Due dates from the model and the log.

use halimeda::process::iron_oxide_uptake;
use serde::{Deserialize, Serialize};

use super::rhythm::{in_order, recurring, scrapings_until_worn};
use super::{Task, Upkeep};
use crate::error::{Result, within};
use crate::fit::Member;
use crate::flow::Stock;
use crate::log::{Log, Measured, ProbeSeries, Record};
use crate::logged::LoggedTank;
use crate::parameters::Parameters;
use crate::plan::words::{number, percent};
use crate::quantiles::{Quantiles, quantile, sorted};
use crate::simulate::{Run, Sample};
use crate::tank::{Event, Setup};
use crate::work::{SharedProgress, Work};

/// A calibration of a probe that took place.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Calibration {
    /// What the probe measures.
    pub measured: Measured,
    /// Time since the start, d.
    pub day: f64,
}

/// How far ahead upkeep is looked for, and what the log does not tell.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct UpkeepOptions {
    /// Days ahead that recurring tasks are listed for.
    pub days: f64,
    /// Days ahead within which parts that wear are named.
    pub parts_days: f64,
    /// Calibrations of probes; of a probe that is not named the log's first day counts.
    pub calibrations: Vec<Calibration>,
}

impl Default for UpkeepOptions {
    fn default() -> Self {
        Self {
            days: 30.0,
            parts_days: 730.0,
            calibrations: Vec::new(),
        }
    }
}

/// Days followed to find the next harvest. A mat that has not passed its best by then
/// hardly grows.
const HARVEST_DAYS: f64 = 30.0;

/// Reserve of the holdfast layer below which a harvest is not put off (chosen: half).
const LEAST_RESERVE: f64 = 0.5;

/// Share of its first uptake at which an iron-oxide medium counts as loaded: common
/// practice, no source.
const LOADED: f64 = 0.2;

/// What is due after today, soonest first, each with its reason and, where the model
/// places it, the days between which nine members in ten do.
///
/// # Errors
/// A number of the tank or the options lies outside its limits; no member can be
/// followed; or [`Error::Cancelled`](crate::Error::Cancelled).
pub fn due(
    tank: &LoggedTank<'_>,
    options: &UpkeepOptions,
    progress: SharedProgress<'_>,
) -> Result<Vec<Upkeep>> {
    within("upkeep days", options.days, 1.0, 366.0)?;
    within("parts_days", options.parts_days, options.days, 3660.0)?;
    for calibration in &options.calibrations {
        within("day of a calibration", calibration.day, 0.0, tank.today)?;
    }
    let days = 2.0 * tank.today + HARVEST_DAYS + options.days;
    tank.ask(progress, days, |work| {
        let futures = follow(tank, options, work)?;
        let mut upkeep = harvests(tank, &futures, options);
        upkeep.extend(water_changes(tank, options));
        upkeep.extend(screen(tank, &futures, options));
        upkeep.extend(lamps(tank, options));
        upkeep.extend(medium(tank, &futures));
        upkeep.extend(probes(tank, options));
        upkeep.extend(tests(tank, options));
        Ok(in_order(upkeep, tank.today))
    })
}

/// What is due of one member.
struct Future {
    /// Day of the last harvest and of the next.
    last_harvest: f64,
    harvest: Option<f64>,
    /// Day on which the iron-oxide medium is loaded.
    loaded: Option<f64>,
}

fn follow(tank: &LoggedTank<'_>, options: &UpkeepOptions, work: &Work<'_>) -> Result<Vec<Future>> {
    let futures = work.map(tank.members, |member| {
        let Member { setup, parameters } = member;
        let until = LoggedTank::run_options(tank.today);
        let unharvested = [vec![Event::HarvestsStop]];
        let (past, branches) =
            work.run_branches(setup, parameters, &until, HARVEST_DAYS, &unharvested)?;
        let after = branches.into_iter().next().map(|b| b.samples);
        let last_harvest = past.harvests.last().map_or(0.0, |h| h.day);
        let course: Vec<Sample> = past
            .samples
            .into_iter()
            .filter(|s| s.day > last_harvest && s.day < tank.today)
            .chain(after.unwrap_or_default())
            .collect();
        let future = LoggedTank::run_options(tank.today + options.days);
        let run = work.run(setup, parameters, &future)?;
        Ok(Future {
            last_harvest,
            harvest: best_yield(&course, last_harvest),
            loaded: loaded(setup, parameters, &run, tank.today),
        })
    })?;
    crate::error::require_one(&futures)?;
    Ok(futures.into_iter().flatten().collect())
}

/// The day at which the turf's mean gain per day since the last harvest is at its
/// best, or the holdfast layer has spent half its reserve; none if nothing grows.
fn best_yield(course: &[Sample], last_harvest: f64) -> Option<f64> {
    let first = course.first()?;
    let gain = |s: &Sample| {
        (s.turf_g_dry_per_m2 - first.turf_g_dry_per_m2) / (s.day - last_harvest).max(1.0)
    };
    let best = course
        .iter()
        .max_by(|a, b| gain(a).total_cmp(&gain(b)))
        .filter(|s| gain(s) > 0.0)?;
    let starves = course
        .iter()
        .find(|s| s.turf_reserve < LEAST_RESERVE.min(first.turf_reserve));
    Some(starves.map_or(best.day, |s| best.day.min(s.day)))
}

fn of_days(days: impl Iterator<Item = f64>) -> Option<(f64, Option<[f64; 2]>)> {
    Quantiles::of(days).map(|q| (q.p50, Some([q.p5, q.p95])))
}

fn harvests(tank: &LoggedTank<'_>, futures: &[Future], options: &UpkeepOptions) -> Vec<Upkeep> {
    let done = tank.harvests().count() as u32;
    let growing = || futures.iter().filter(|f| f.harvest.is_some()).count();
    let Some((day, range)) = of_days(futures.iter().filter_map(|f| f.harvest)) else {
        return Vec::new();
    };
    // Turf that grows in few of the tanks that are possible is not waited for.
    if 2 * growing() < futures.len() {
        return Vec::new();
    }
    let intervals = sorted(
        futures
            .iter()
            .filter_map(|f| Some(f.harvest? - f.last_harvest)),
    );
    let every = quantile(&intervals, 0.5).unwrap_or(HARVEST_DAYS).max(3.0);
    let next = Upkeep {
        day,
        range,
        task: Task::Harvest,
        number: done + 1,
        reason: "The turf's mean gain per day since the last harvest is then at its best; later \
                 it shades its own base."
            .to_owned(),
    };
    let first = day.max(tank.today);
    let later = recurring(
        Task::Harvest,
        first + every,
        every,
        tank.today + options.days,
        done + 2,
        "At the interval of the last one; forecast anew after each harvest.",
    );
    std::iter::once(next).chain(later).collect()
}

fn water_changes(tank: &LoggedTank<'_>, options: &UpkeepOptions) -> Vec<Upkeep> {
    let Some(plan) = &tank.setup.schedule.water_change else {
        return Vec::new();
    };
    let done: Vec<f64> = tank
        .days_of(|r| {
            matches!(
                r,
                Record::WaterChange { .. } | Record::Event(Event::WaterChange { .. })
            )
        })
        .collect();
    let next = match done.last() {
        Some(last) => last + plan.every_days,
        None => next_in_rhythm(plan.first_day, plan.every_days, tank.today),
    };
    recurring(
        Task::WaterChange,
        next,
        plan.every_days,
        tank.today + options.days,
        done.len() as u32 + 1,
        "By the rhythm of the schedule since the last one.",
    )
}

/// First day of a rhythm that is not before another.
fn next_in_rhythm(first: f64, every: f64, from: f64) -> f64 {
    first + every * ((from - first) / every).ceil().max(0.0)
}

/// Last day on which a part was new.
fn last_change(tank: &LoggedTank<'_>, part: impl Fn(&Event) -> bool) -> Option<f64> {
    tank.days_of(|r| matches!(r, Record::Event(e) if part(e)))
        .last()
}

fn screen(tank: &LoggedTank<'_>, futures: &[Future], options: &UpkeepOptions) -> Option<Upkeep> {
    let renewed = last_change(tank, |e| matches!(e, Event::NewScreen));
    let interval = {
        let days: Vec<f64> = tank.harvests().collect();
        let gaps = sorted(days.windows(2).filter_map(|w| Some(w.last()? - w.first()?)));
        quantile(&gaps, 0.5)
            .or(tank.setup.schedule.harvest.map(|h| h.every_days))
            .or_else(|| {
                futures
                    .first()
                    .and_then(|f| Some(f.harvest? - f.last_harvest))
            })
            .filter(|&days| days > 0.0)?
    };
    let since = renewed.unwrap_or(0.0);
    let logged = tank.harvests().filter(|&day| day > since).count() as f64;
    let before = match (renewed, &tank.setup.schedule.harvest) {
        (None, Some(plan)) => (tank.setup.tank.screen.age_days / plan.every_days).floor(),
        _ => 0.0,
    };
    let left = tank
        .members
        .iter()
        .map(|m| tank.today + (scrapings_until_worn(&m.parameters) - logged - before) * interval);
    let (day, range) = of_days(left)?;
    (day <= tank.today + options.parts_days).then(|| Upkeep {
        day,
        range,
        task: Task::NewScreen,
        number: tank
            .days_of(|r| matches!(r, Record::Event(Event::NewScreen)))
            .count() as u32
            + 1,
        reason: format!(
            "After {} scrapings, one every {} days, it will hold a third less.",
            number(logged + before),
            number(interval)
        ),
    })
}

fn lamps(tank: &LoggedTank<'_>, options: &UpkeepOptions) -> Option<Upkeep> {
    let renewed = last_change(tank, |e| matches!(e, Event::NewScreenLamp));
    let per_day = tank.setup.schedule.screen_light.hours;
    let burnt = match renewed {
        Some(day) => (tank.today - day) * per_day,
        None => tank.setup.tank.screen.lamp_hours + tank.today * per_day,
    };
    let left = tank
        .members
        .iter()
        .map(|m| tank.today + (m.parameters.lamp.hours_to_70_percent - burnt) / per_day);
    let (day, range) = of_days(left)?;
    (day <= tank.today + options.parts_days).then(|| Upkeep {
        day,
        range,
        task: Task::NewLamps,
        number: tank
            .days_of(|r| matches!(r, Record::Event(Event::NewScreenLamp)))
            .count() as u32
            + 1,
        reason: format!(
            "After {} h of light they will have lost 30 % of it.",
            number((burnt / 100.0).round() * 100.0)
        ),
    })
}

/// The day on which the medium takes up less than a share of what it took up fresh,
/// at the phosphate that there is.
fn loaded(setup: &Setup, parameters: &Parameters, run: &Run, today: f64) -> Option<f64> {
    let renewed = run
        .events
        .iter()
        .rev()
        .find_map(|&(day, event)| match event {
            Event::NewIronOxide { grams } => Some((day, grams)),
            _ => None,
        });
    let (since, grams) = renewed.unwrap_or((0.0, setup.tank.iron_oxide_grams));
    if grams <= 0.0 {
        return None;
    }
    let amount = |stocks: &[f64; Stock::COUNT], s: Stock| {
        stocks.get(s as usize).copied().unwrap_or_default()
    };
    run.at_switches
        .iter()
        .filter(|(day, _)| *day > since && *day >= today)
        .find(|(_, stocks)| {
            let phosphate = amount(stocks, Stock::Phosphate) / amount(stocks, Stock::Water);
            let bound = amount(stocks, Stock::MediumP);
            let uptake = |bound| iron_oxide_uptake(phosphate, bound, grams, &parameters.iron_oxide);
            uptake(bound) < LOADED * uptake(0.0)
        })
        .map(|&(day, _)| day)
}

fn medium(tank: &LoggedTank<'_>, futures: &[Future]) -> Option<Upkeep> {
    let days = || futures.iter().filter_map(|f| f.loaded);
    let share = days().count() as f64 / futures.len() as f64;
    let (day, range) = of_days(days())?;
    (share >= 0.5).then(|| Upkeep {
        day,
        range,
        task: Task::NewIronOxide,
        number: tank
            .days_of(|r| matches!(r, Record::Event(Event::NewIronOxide { .. })))
            .count() as u32
            + 1,
        reason: format!(
            "In {} of the tanks that the log leaves possible it then takes up less than a fifth \
             of what it took up fresh at the same phosphate.",
            percent(share)
        ),
    })
}

/// Days between calibrations where no drift is known, and the error that is put up
/// with, in the probe's unit: common practice, no source.
const fn calibration_rhythm(measured: Measured) -> (f64, f64) {
    match measured {
        Measured::Ph => (30.0, 0.1),
        Measured::Salinity => (90.0, 0.5),
        Measured::OxygenSaturation => (30.0, 0.05),
        Measured::Temperature => (180.0, 0.5),
        _ => (30.0, f64::INFINITY),
    }
}

/// Tests that a drift is told from, at least.
const LEAST_COMPARISONS: usize = 4;

fn probes(tank: &LoggedTank<'_>, options: &UpkeepOptions) -> Vec<Upkeep> {
    let mut upkeep = Vec::new();
    for probe in &tank.log.probes {
        let calibrations = || {
            options
                .calibrations
                .iter()
                .filter(|c| c.measured == probe.measured)
        };
        let Some(first) = probe.days.first().copied() else {
            continue;
        };
        let last = calibrations().map(|c| c.day).fold(first, f64::max);
        let (every, tolerance) = calibration_rhythm(probe.measured);
        let drift = drift_per_day(tank.log, probe, last);
        let by_drift = drift.map(|d| tolerance / d.abs()).filter(|&d| d < every);
        let reason = match by_drift {
            Some(_) => format!(
                "Against the tests it drifts by {} a month; {} is put up with.",
                number(drift.unwrap_or_default() * 30.0),
                number(tolerance)
            ),
            None => format!(
                "Every {} days is common practice; the tests show no faster drift.",
                number(every)
            ),
        };
        upkeep.push(Upkeep {
            day: last + by_drift.unwrap_or(every),
            range: None,
            task: Task::CalibrateProbe(probe.measured),
            number: calibrations().count() as u32 + 1,
            reason,
        });
    }
    upkeep.retain(|u| u.day <= tank.today + options.parts_days);
    upkeep
}

/// How a probe drifts against tests of the same since a day, per day: the slope of
/// their differences, if it is more than chance (two standard errors) would make it.
fn drift_per_day(log: &Log, probe: &ProbeSeries, since: f64) -> Option<f64> {
    let differences: Vec<(f64, f64)> = log
        .readings
        .iter()
        .filter(|r| r.measured == probe.measured && r.day >= since)
        .filter_map(|r| {
            let after = probe.days.partition_point(|&d| d < r.day);
            let day = probe.days.get(after)?;
            let value = probe.values.get(after)?;
            // A record of another day says nothing of this test.
            ((day - r.day).abs() < 0.1).then(|| (r.day, value - r.interval.middle()))
        })
        .collect();
    if differences.len() < LEAST_COMPARISONS {
        return None;
    }
    let n = differences.len() as f64;
    let mean = |f: &dyn Fn(&(f64, f64)) -> f64| differences.iter().map(f).sum::<f64>() / n;
    let (day, difference) = (mean(&|d| d.0), mean(&|d| d.1));
    let spread = mean(&|d| (d.0 - day).powi(2));
    let slope = mean(&|d| (d.0 - day) * (d.1 - difference)) / spread;
    let residual = mean(&|d| (d.1 - difference - slope * (d.0 - day)).powi(2)) * n / (n - 2.0);
    let error = (residual / (n * spread)).sqrt();
    (slope.is_finite() && slope.abs() > 2.0 * error).then_some(slope)
}

/// Days between tests where the log shows no rhythm: common practice, no source.
const fn test_rhythm(measured: Measured) -> Option<f64> {
    match measured {
        Measured::Nitrate | Measured::Phosphate | Measured::Alkalinity => Some(7.0),
        Measured::Calcium | Measured::Magnesium => Some(14.0),
        _ => None,
    }
}

/// Longest pause between tests that counts as a rhythm, d.
const LONGEST_RHYTHM_DAYS: f64 = 60.0;

fn tests(tank: &LoggedTank<'_>, options: &UpkeepOptions) -> Vec<Upkeep> {
    let mut upkeep = Vec::new();
    for &measured in Measured::ALL {
        let mut days: Vec<f64> = tank
            .log
            .readings
            .iter()
            .filter(|r| r.measured == measured && r.day <= tank.today)
            .map(|r| r.day)
            .collect();
        days.sort_by(f64::total_cmp);
        let gaps = sorted(days.windows(2).filter_map(|w| Some(w.last()? - w.first()?)));
        let kept = quantile(&gaps, 0.5).filter(|&d| (0.5..LONGEST_RHYTHM_DAYS).contains(&d));
        // By whole days: a rhythm in the mean.
        let kept = kept.map(|days| days.round().max(1.0));
        let Some(every) = kept.or(test_rhythm(measured)) else {
            continue;
        };
        let next = days.last().map_or(tank.today, |last| last + every);
        upkeep.extend(recurring(
            Task::Test(measured),
            next.max(tank.today),
            every,
            tank.today + options.days,
            days.len() as u32 + 1,
            &match kept {
                Some(_) => format!("About every {} days, as the log has it.", number(every)),
                None => format!("Every {} days: common practice.", number(every)),
            },
        ));
    }
    upkeep
}
