use serde::{Deserialize, Serialize};

use super::case::Case;
use super::change::Comparison;
use super::levers::{Lever, Setting};
use super::words::{clock, number, range};
use crate::error::Result;
use crate::outcome::Outcome;
use crate::tank::Setup;
use crate::work::{SharedProgress, Work};

/// One photoperiod of the screen on the nominal tank.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct LightPoint {
    /// Lit hours a day.
    pub hours: f64,
    /// Hour of the day at which the light comes on.
    pub start_hour: f64,
    /// Nitrate, median over time, mg/L.
    pub nitrate_mg_per_l: f64,
    /// Phosphate, median over time, mg/L.
    pub phosphate_mg_per_l: f64,
    /// Daily pH swing.
    pub daily_ph_swing: f64,
    /// Lowest pH at night, total scale.
    pub night_ph: f64,
    /// Lowest oxygen at night, share of saturation.
    pub night_oxygen_saturation: f64,
    /// What a search would make small.
    pub score: f64,
}

/// How many hours and when.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LightAnswer {
    /// Every photoperiod followed.
    pub points: Vec<LightPoint>,
    /// The best of them.
    pub best: LightPoint,
    /// The screen lit around the middle of the display's night against lit around
    /// the middle of its day, both for the case's hours.
    pub against_instead_of_with_display: Comparison,
    /// The screen lit around the middle of the display's night against never lit.
    pub against_display_instead_of_dark: Comparison,
    /// The answer in words.
    pub reason: String,
}

const HOURS: [f64; 8] = [6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 18.0, 21.0];
const STARTS: [f64; 6] = [0.0, 4.0, 8.0, 12.0, 16.0, 20.0];

/// Lit against the display's day, with it, and never.
const MODES: f64 = 3.0;

pub(super) fn light_days(case: &Case<'_>) -> f64 {
    let runs = HOURS.len() * STARTS.len();
    (runs as f64 + MODES * case.few().len() as f64) * case.options.days
}

/// How many hours to light the screen, and when.
///
/// # Errors
/// A number of the case lies outside its limits; every member failed; or
/// [`Error::Cancelled`](crate::Error::Cancelled).
pub fn lighting(case: &Case<'_>, progress: SharedProgress<'_>) -> Result<LightAnswer> {
    case.ask(progress, light_days(case), |work| answer(case, work))
}

fn lit(case: &Case<'_>, hours: f64, start_hour: f64) -> Setup {
    case.setup.with(&[
        Setting {
            lever: Lever::LitHours,
            value: hours,
        },
        Setting {
            lever: Lever::StartHour,
            value: start_hour.rem_euclid(24.0),
        },
    ])
}

pub(super) fn answer(case: &Case<'_>, work: &Work<'_>) -> Result<LightAnswer> {
    let (days, window) = (case.options.days, case.options.window_days);
    let photoperiods: Vec<(f64, f64)> = HOURS
        .iter()
        .flat_map(|&hours| STARTS.iter().map(move |&start| (hours, start)))
        .collect();
    let setups: Vec<Setup> = photoperiods.iter().map(|&(h, s)| lit(case, h, s)).collect();
    let nominal = case.grid(&setups, &[*case.nominal], days, window, work)?;
    let points: Vec<LightPoint> = photoperiods
        .iter()
        .zip(&setups)
        .zip(&nominal)
        .filter_map(|((&(hours, start_hour), setup), row)| {
            let o = row.first()?.as_ref().ok()?;
            Some(LightPoint {
                hours,
                start_hour,
                nitrate_mg_per_l: o.nitrate_mg_per_l,
                phosphate_mg_per_l: o.phosphate_mg_per_l,
                daily_ph_swing: o.daily_ph_swing,
                night_ph: o.night_ph,
                night_oxygen_saturation: o.night_oxygen_saturation,
                score: case.score(setup, o),
            })
        })
        .collect();
    let best = points.iter().min_by(|a, b| a.score.total_cmp(&b.score));
    let best = *best.ok_or(super::NOTHING_FOLLOWED)?;

    let hours = case.setup.schedule.screen_light.hours;
    let display = case.setup.schedule.display_light;
    let noon = display.start_hour + 0.5 * display.hours;
    let around = |middle: f64| lit(case, hours, middle - 0.5 * hours);
    let mode = |setup| -> Result<Vec<Result<Outcome>>> {
        let grid = case.grid(&[setup], case.few(), days, window, work)?;
        Ok(grid.into_iter().flatten().collect())
    };
    let against = mode(around(noon + 12.0))?;
    let instead_of = |before: Vec<Result<Outcome>>| {
        let pairs = before.iter().zip(&against);
        Comparison::of(pairs.filter_map(|(b, a)| Some((b.as_ref().ok()?, a.as_ref().ok()?))))
    };
    let against_with = instead_of(mode(around(noon))?);
    let against_dark = instead_of(mode(lit(case, 0.0, 0.0))?);
    Ok(LightAnswer {
        reason: words(case, &best, hours, &against_with, &against_dark),
        points,
        best,
        against_instead_of_with_display: against_with,
        against_display_instead_of_dark: against_dark,
    })
}

fn words(
    case: &Case<'_>,
    best: &LightPoint,
    hours: f64,
    against_with: &Comparison,
    against_dark: &Comparison,
) -> String {
    let goals = case.goals;
    let mut words = format!(
        "On the nominal tank {} h of light from {} on serve the goals best: nitrate {} mg/L (band {} to {}), phosphate {} mg/L (band {} to {}), a daily pH swing of {} and at night a lowest pH of {}.",
        number(best.hours),
        clock(best.start_hour),
        number(best.nitrate_mg_per_l),
        number(goals.nitrate_mg_per_l.low),
        number(goals.nitrate_mg_per_l.high),
        number(best.phosphate_mg_per_l),
        number(goals.phosphate_mg_per_l.low),
        number(goals.phosphate_mg_per_l.high),
        number(best.daily_ph_swing),
        number(best.night_ph),
    );
    let change = |comparison: &Comparison, name: &str| {
        comparison
            .difference(name)
            .map_or_else(String::new, |d| range(&d.difference, ""))
    };
    for (comparison, than) in [(against_with, "with it"), (against_dark, "not at all")] {
        words += &format!(
            " Lit for {} h against the display's day instead of {than}, the daily pH swing changes by {}, the lowest pH at night by {} and the lowest oxygen at night by {} of saturation.",
            number(hours),
            change(comparison, "daily_ph_swing"),
            change(comparison, "night_ph"),
            change(comparison, "night_oxygen_saturation"),
        );
    }
    words
}
