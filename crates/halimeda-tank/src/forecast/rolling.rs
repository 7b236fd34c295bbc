use serde::{Deserialize, Serialize};

use super::future::nothing_less;
use super::{Correction, ForecastScore, Rivals, Verification};
use crate::error::{Result, within};
use crate::fit::Member;
use crate::log::{Log, Measured};
use crate::logged::LoggedTank;
use crate::simulate::Run;
use crate::work::{SharedProgress, Work};

/// Days ahead that count as one horizon.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Horizon {
    /// Its name, d.
    pub days: f64,
    /// Readings from so many days ahead on.
    pub from_days: f64,
    /// Readings up to so many days ahead.
    pub to_days: f64,
}

impl Horizon {
    /// A week, a month and a quarter.
    pub const DEFAULT: [Self; 3] = [
        Self {
            days: 7.0,
            from_days: 3.0,
            to_days: 11.0,
        },
        Self {
            days: 30.0,
            from_days: 23.0,
            to_days: 37.0,
        },
        Self {
            days: 90.0,
            from_days: 80.0,
            to_days: 100.0,
        },
    ];

    fn check(&self) -> Result<()> {
        within("from_days", self.from_days, 0.0, 366.0)?;
        within("to_days", self.to_days, self.from_days, 366.0)?;
        Ok(())
    }
}

/// How forecasts of one number did at one horizon.
#[derive(Debug, Clone, PartialEq)]
pub struct SkillRow {
    /// What was measured.
    pub measured: Measured,
    /// How far ahead.
    pub horizon: Horizon,
    /// Every forecast and what came, so that rows of several tanks can be put together.
    pub verifications: Vec<Verification>,
}

impl SkillRow {
    /// Score of the row; none if nothing was measured at the horizon.
    #[must_use]
    pub fn score(&self) -> Option<ForecastScore> {
        ForecastScore::of(&self.verifications).ok()
    }
}

/// Forecasts from each origin, made of the log up to it, held against the readings
/// that came after.
///
/// `members_at` gives the members that a log up to an origin leaves possible: a fit to
/// it. It sees no reading and no entry from after the origin, and the forecast goes
/// on by the schedule as if nothing was known of what the keeper did later.
///
/// # Errors
/// An origin or a horizon lies outside its limits; `members_at` fails; no member can
/// be followed; or [`Error::Cancelled`](crate::Error::Cancelled).
pub fn rolling_origin(
    log: &Log,
    origins: &[f64],
    horizons: &[Horizon],
    mut members_at: impl FnMut(&Log, f64) -> Result<Vec<Member>>,
    progress: SharedProgress<'_>,
) -> Result<Vec<SkillRow>> {
    for &origin in origins {
        within("origin", origin, 0.0, 3660.0)?;
    }
    horizons.iter().try_for_each(Horizon::check)?;
    let mut rows: Vec<SkillRow> = Vec::new();
    let ahead = horizons.iter().map(|h| h.to_days).fold(1.0, f64::max);
    let work = Work::new(progress, origins.iter().map(|o| o + ahead).sum());
    for &origin in origins {
        let past = log.until(origin);
        let members = members_at(&past, origin)?;
        let options = LoggedTank::run_options(origin + ahead);
        let runs = work.map(&members, |m| work.run(&m.setup, &m.parameters, &options))?;
        crate::error::require_one(&runs)?;
        let runs: Vec<Run> = runs.into_iter().flatten().collect();
        for &measured in Measured::ALL {
            let Some(rivals) = Rivals::of(&past, measured, origin) else {
                continue;
            };
            let correction = Correction::of(&past, measured, &runs, origin);
            for &horizon in horizons {
                let came = verify(
                    log,
                    measured,
                    origin,
                    horizon,
                    &rivals,
                    &runs,
                    correction.as_ref(),
                );
                let known = rows
                    .iter_mut()
                    .find(|r| r.measured == measured && r.horizon == horizon);
                match known {
                    Some(row) => row.verifications.extend(came),
                    None => rows.push(SkillRow {
                        measured,
                        horizon,
                        verifications: came,
                    }),
                }
            }
        }
    }
    work.finish();
    rows.retain(|r| !r.verifications.is_empty());
    Ok(rows)
}

fn verify(
    log: &Log,
    measured: Measured,
    origin: f64,
    horizon: Horizon,
    rivals: &Rivals,
    runs: &[Run],
    correction: Option<&Correction>,
) -> Vec<Verification> {
    let Some(variable) = measured.variable() else {
        return Vec::new();
    };
    let ahead = origin + horizon.from_days..=origin + horizon.to_days;
    log.readings
        .iter()
        .filter(|r| r.measured == measured && ahead.contains(&r.day))
        .map(|r| Verification {
            members: runs
                .iter()
                .enumerate()
                .filter_map(|(i, run)| {
                    let off = correction.map_or(0.0, |c| c.at(i, r.day));
                    Some(nothing_less(variable, run.value_at(variable, r.day)? + off))
                })
                .collect(),
            reading: r.interval.middle(),
            standard_uncertainty: r.interval.standard_deviation(),
            persistence: rivals.persistence(),
            trend: rivals.trend(r.day),
        })
        .collect()
}
