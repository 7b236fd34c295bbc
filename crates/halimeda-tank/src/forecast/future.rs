use serde::Serialize;

use super::{Correction, Rivals};
use crate::error::{Result, within};
use crate::log::Measured;
use crate::logged::LoggedTank;
use crate::quantiles::Quantiles;
use crate::simulate::{Run, Sample};
use crate::variable::Variable;
use crate::work::SharedProgress;

/// What is forecast and how far.
#[derive(Debug, Clone, PartialEq)]
pub struct ForecastOptions {
    /// Days ahead, each a forecast of its own.
    pub horizons_days: Vec<f64>,
    /// What is forecast.
    pub variables: Vec<Variable>,
}

impl Default for ForecastOptions {
    /// A week, a month and a quarter ahead.
    fn default() -> Self {
        Self {
            horizons_days: vec![7.0, 30.0, 90.0],
            variables: vec![
                Variable::Nitrate,
                Variable::Phosphate,
                Variable::Ammonia,
                Variable::Ph,
                Variable::Alkalinity,
                Variable::Calcium,
                Variable::Magnesium,
                Variable::OxygenSaturation,
                Variable::Turf,
            ],
        }
    }
}

/// Mean of one day, so many days from today.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct HorizonForecast {
    /// What is forecast.
    pub variable: Variable,
    /// Days from today.
    pub horizon_days: f64,
    /// Over the members.
    pub quantiles: Quantiles,
    /// What "nothing changes" says: the last reading; none without one.
    pub persistence: Option<f64>,
    /// What a straight line through the last 30 days' readings says.
    pub trend: Option<f64>,
}

/// Means of every day to come.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DailyBand {
    /// What is forecast.
    pub variable: Variable,
    /// Ends of the days, d since the start.
    pub days: Vec<f64>,
    /// Over the members, one for each day.
    pub quantiles: Vec<Quantiles>,
}

/// A forecast.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Forecast {
    /// The day it is made on, d since the start.
    pub today: f64,
    /// By variable and horizon.
    pub horizons: Vec<HorizonForecast>,
    /// By variable, day by day up to the last horizon.
    pub bands: Vec<DailyBand>,
    /// Members followed to the end.
    pub members: usize,
    /// Members that could not be.
    pub failed_members: usize,
}

/// Most days ahead.
const LONGEST_DAYS: f64 = 366.0;

/// Follows the members on from today by their schedules, each brought near the readings
/// of the last two weeks for a while: see the section "Forecast" of the model.
///
/// What the keeper will do differently is not in it, nor what will break.
///
/// # Errors
/// A number of the tank or the options lies outside its limits; no member can be
/// followed; or [`Error::Cancelled`](crate::Error::Cancelled).
pub fn forecast(
    tank: &LoggedTank<'_>,
    options: &ForecastOptions,
    progress: SharedProgress<'_>,
) -> Result<Forecast> {
    for &horizon in &options.horizons_days {
        within("forecast horizon", horizon, 1.0, LONGEST_DAYS)?;
    }
    let ahead = options.horizons_days.iter().copied().fold(1.0, f64::max);
    let days: Vec<f64> = (1..=ahead.ceil() as u32)
        .map(|d| tank.today + f64::from(d))
        .collect();
    let until = tank.today + ahead.ceil();
    tank.ask(progress, until, |work| {
        let run_options = LoggedTank::run_options(until);
        let followed = work.map(tank.members, |m| {
            let mut run = work.run(&m.setup, &m.parameters, &run_options)?;
            // Only samples are needed.
            run.at_switches = Vec::new();
            Ok(run)
        })?;
        crate::error::require_one(&followed)?;
        let runs: Vec<Run> = followed.into_iter().flatten().collect();
        let corrections: Vec<Option<Correction>> = options
            .variables
            .iter()
            .map(|&v| Correction::of(tank.log, measured_as(v)?, &runs, tank.today))
            .collect();
        let means: Vec<Vec<Vec<f64>>> = runs
            .iter()
            .enumerate()
            .map(|(member, run)| {
                let mut means = daily_means(run, &options.variables, &days);
                let corrected = means.iter_mut().zip(&options.variables).zip(&corrections);
                for ((means, &variable), correction) in corrected {
                    let Some(correction) = correction else {
                        continue;
                    };
                    for (mean, &day) in means.iter_mut().zip(&days) {
                        *mean = nothing_less(variable, *mean + correction.at(member, day));
                    }
                }
                means
            })
            .collect();
        let bands: Vec<DailyBand> = options
            .variables
            .iter()
            .enumerate()
            .map(|(v, &variable)| band(variable, v, &days, &means))
            .collect();
        Ok(Forecast {
            today: tank.today,
            horizons: horizons(tank, options, &bands),
            bands,
            members: means.len(),
            failed_members: tank.members.len() - means.len(),
        })
    })
}

/// The test that shows a variable.
fn measured_as(variable: Variable) -> Option<Measured> {
    let mut all = Measured::ALL.iter().copied();
    all.find(|m| m.variable() == Some(variable))
}

/// A content that a correction took below nothing is nothing.
pub(super) fn nothing_less(variable: Variable, value: f64) -> f64 {
    match variable {
        Variable::Ph => value,
        _ => value.max(0.0),
    }
}

/// Means over the days that end on the given ones, by variable.
fn daily_means(run: &Run, variables: &[Variable], days: &[f64]) -> Vec<Vec<f64>> {
    let of_day = |day: f64| -> &[Sample] {
        let from = run.samples.partition_point(|s| s.day <= day - 1.0);
        let to = run.samples.partition_point(|s| s.day <= day);
        run.samples.get(from..to).unwrap_or_default()
    };
    variables
        .iter()
        .map(|v| {
            days.iter()
                .map(|&day| {
                    let samples = of_day(day);
                    samples.iter().map(|s| v.of(s)).sum::<f64>() / samples.len() as f64
                })
                .collect()
        })
        .collect()
}

fn band(variable: Variable, place: usize, days: &[f64], means: &[Vec<Vec<f64>>]) -> DailyBand {
    let quantiles =
        |day: usize| Quantiles::of(means.iter().filter_map(|m| m.get(place)?.get(day).copied()));
    let (days, quantiles) = days
        .iter()
        .enumerate()
        .filter_map(|(i, &day)| Some((day, quantiles(i)?)))
        .unzip();
    DailyBand {
        variable,
        days,
        quantiles,
    }
}

fn horizons(
    tank: &LoggedTank<'_>,
    options: &ForecastOptions,
    bands: &[DailyBand],
) -> Vec<HorizonForecast> {
    let mut forecasts = Vec::new();
    for band in bands {
        let measured = measured_as(band.variable);
        let rivals = measured.and_then(|m| Rivals::of(tank.log, m, tank.today));
        for &horizon_days in &options.horizons_days {
            let day = tank.today + horizon_days;
            let place = band.days.partition_point(|&d| d < day);
            if let Some(&quantiles) = band.quantiles.get(place) {
                forecasts.push(HorizonForecast {
                    variable: band.variable,
                    horizon_days,
                    quantiles,
                    persistence: rivals.map(|r| r.persistence()),
                    trend: rivals.map(|r| r.trend(day)),
                });
            }
        }
    }
    forecasts
}
