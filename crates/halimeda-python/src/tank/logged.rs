//! What a log makes of a tank: fit, verdict, forecast, what to test and what is due.

use halimeda_tank::description::TankFile;
use halimeda_tank::diary::{DiaryOptions, diary};
use halimeda_tank::fit::{Fit, FitOptions, Member, fit};
use halimeda_tank::forecast::{
    ForecastOptions, Horizon, NextTestOptions, forecast, next_tests, rolling_origin,
};
use halimeda_tank::log::{Log, logged_setup, rates};
use halimeda_tank::plan::Goals;
use halimeda_tank::upkeep::{CalendarOptions, Upkeep, UpkeepOptions, calendar, due};
use halimeda_tank::verdict::{Causes, Earlier, VerdictOptions, verdict};
use halimeda_tank::{LoggedTank, Parameters, Setup};
use jiff::Timestamp;
use pyo3::prelude::*;
use serde::Deserialize;
use serde::de::DeserializeOwned;
use serde_json::{Value, json};

use super::description::Description;
use super::ensemble::variable;
use super::log::KeeperLog;
use super::parameters::{ranges_of, triples_of, values_of};
use super::plan::{read, unknown};
use super::{json, watch};
use crate::error::{Blame, OrRaise as _, value_error};

/// Tanks that a log leaves possible.
#[pyclass(frozen, module = "halimeda._native")]
pub(crate) struct Members {
    pub(super) members: Vec<Member>,
}

#[pymethods]
impl Members {
    /// From what `told` gave.
    #[new]
    fn new(py: Python<'_>, told: &str) -> PyResult<Self> {
        let members = read(py, told)?;
        Ok(Self { members })
    }

    /// JSON of them.
    fn told(&self, py: Python<'_>) -> PyResult<String> {
        json(py, &self.members)
    }

    /// Values of all parameters, by member.
    fn parameters(&self) -> Vec<Vec<f64>> {
        let members = self.members.iter();
        members.map(|m| values_of(&m.parameters)).collect()
    }

    /// JSON of the setup as the first of them stands on a later day.
    fn at(&self, py: Python<'_>, day: f64) -> PyResult<String> {
        let first = self
            .members
            .first()
            .ok_or_else(|| unknown(py, "there are no members"))?;
        let setup = py.detach(|| first.at(day)).or_raise(py)?;
        json(py, &setup)
    }

    fn __len__(&self) -> usize {
        self.members.len()
    }
}

type Triples = Vec<(f64, f64, f64)>;

/// Fits a tank to its log: what is known, as JSON; the members; the most likely of all;
/// and the ranges that are left.
#[pyfunction]
#[pyo3(signature = (description, log, ranges, options, progress))]
pub(crate) fn fit_log(
    py: Python<'_>,
    description: &Description,
    log: &KeeperLog,
    ranges: Triples,
    options: &str,
    progress: Option<&Bound<'_, PyAny>>,
) -> PyResult<(String, Members, Members, Triples)> {
    let options: FitOptions = read(py, options)?;
    let ranges = ranges_of(py, &ranges)?;
    let fit: Fit = watch::shared(py, progress, |w| {
        let mut tell = |done: f64, all: f64| w.tell("", done, all);
        fit(&description.setup, &log.log, &ranges, &options, &mut tell)
    })?
    .or_raise(py)?;
    let told = json!({
        "fitted": fit.fitted,
        "quality": fit.quality,
        "effective_draws": fit.effective_draws,
        "runs": fit.runs,
        "notes": fit.notes,
    });
    let left = triples_of(&fit.ranges());
    let members = fit.members;
    let most_likely = Members {
        members: vec![fit.most_likely],
    };
    Ok((json(py, &told)?, Members { members }, most_likely, left))
}

/// Draws from ranges, each with what the log says was done: where nothing was fitted.
#[pyfunction]
pub(crate) fn unfitted(
    py: Python<'_>,
    description: &Description,
    log: &KeeperLog,
    ranges: Triples,
    members: usize,
    seed: u32,
) -> PyResult<Members> {
    let setup: Setup = logged_setup(&description.setup, &log.log).or_raise(py)?;
    let draws: Vec<Parameters> = ranges_of(py, &ranges)?.draw(members, seed).or_raise(py)?;
    let member = |parameters| Member {
        setup: setup.clone(),
        parameters,
    };
    let members = draws.into_iter().map(member).collect();
    Ok(Members { members })
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct About {
    goals: Goals,
    today: f64,
    #[serde(default)]
    earlier_until_day: f64,
    options: Value,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Ahead {
    horizons_days: Option<Vec<f64>>,
    variables: Option<Vec<String>>,
}

/// Net rates between tests, or over stretches of days.
#[pyfunction]
pub(crate) fn log_rates(
    py: Python<'_>,
    question: &str,
    description: &Description,
    log: &KeeperLog,
    measured: &str,
    from_day: f64,
    to_day: f64,
) -> PyResult<String> {
    let (setup, log) = (&description.setup, &log.log);
    let measured = || read(py, &format!("\"{measured}\""));
    match question {
        "net_rates" => json(py, &rates::net_rates(setup, log, measured()?).or_raise(py)?),
        "rate" => {
            let rate = rates::pooled_rate(setup, log, measured()?, from_day, to_day);
            json(py, &rate.or_raise(py)?)
        }
        "balance" => {
            let balance = rates::balance(setup, log, from_day, to_day);
            json(py, &balance.or_raise(py)?)
        }
        "consumption" => {
            let consumption = rates::consumption(setup, log, from_day, to_day);
            json(py, &consumption.or_raise(py)?)
        }
        _ => Err(unknown(py, &format!("there is no question {question:?}"))),
    }
}

/// Asks a question about a tank with a log.
#[pyfunction]
#[pyo3(signature = (question, description, log, members, earlier, about, progress))]
#[allow(clippy::too_many_arguments)]
pub(crate) fn ask_log(
    py: Python<'_>,
    question: &str,
    description: &Description,
    log: &KeeperLog,
    members: &Members,
    earlier: Option<&Members>,
    about: &str,
    progress: Option<&Bound<'_, PyAny>>,
) -> PyResult<String> {
    let about: About = read(py, about)?;
    let tank = LoggedTank {
        setup: &description.setup,
        log: &log.log,
        members: &members.members,
        goals: &about.goals,
        today: about.today,
    };
    macro_rules! answered {
        ($ask:ident, $($argument:expr),*) => {{
            let answer = watch::shared(py, progress, |w| {
                $ask(&tank, $($argument,)* &mut |done: f64, all: f64| w.tell("", done, all))
            })?;
            json(py, &answer.or_raise(py)?)
        }};
    }
    match question {
        "verdict" => {
            let options: VerdictOptions = options(py, about.options)?;
            let earlier = earlier.map(|earlier| Earlier {
                members: &earlier.members,
                until_day: about.earlier_until_day,
            });
            let verdict = watch::shared(py, progress, |w| {
                let mut tell = |done: f64, all: f64| w.tell("", done, all);
                verdict(&tank, earlier.as_ref(), &options, &mut tell)
            })?
            .or_raise(py)?;
            let causes = verdict.causes.as_ref();
            let standing_out = json!({
                "verdict": verdict,
                "named": causes.and_then(Causes::named),
                "worth_a_look": causes.and_then(Causes::worth_a_look),
            });
            json(py, &standing_out)
        }
        "forecast" => {
            let ahead: Ahead = options(py, about.options)?;
            let mut options = ForecastOptions::default();
            if let Some(horizons) = ahead.horizons_days {
                options.horizons_days = horizons;
            }
            if let Some(names) = ahead.variables {
                let variables = names.iter().map(|name| variable(py, name));
                options.variables = variables.collect::<PyResult<_>>()?;
            }
            answered!(forecast, &options)
        }
        "next_tests" => {
            let options: NextTestOptions = options(py, about.options)?;
            answered!(next_tests, &options)
        }
        "upkeep" => {
            let options: UpkeepOptions = options(py, about.options)?;
            answered!(due, &options)
        }
        "diary" => {
            let options: DiaryOptions = options(py, about.options)?;
            answered!(diary, &options)
        }
        _ => Err(unknown(py, &format!("there is no question {question:?}"))),
    }
}

/// Scores forecasts from earlier days, each from a fit to the log up to it, against the
/// readings that came after.
#[pyfunction]
#[pyo3(signature = (description, log, ranges, origins, options, progress))]
pub(crate) fn forecast_skill(
    py: Python<'_>,
    description: &Description,
    log: &KeeperLog,
    ranges: Triples,
    origins: Vec<f64>,
    options: &str,
    progress: Option<&Bound<'_, PyAny>>,
) -> PyResult<String> {
    let options: FitOptions = read(py, options)?;
    let ranges = ranges_of(py, &ranges)?;
    let setup = &description.setup;
    let rows = watch::shared(py, progress, |w| {
        let members_at = |past: &Log, _: f64| {
            let fit = fit(setup, past, &ranges, &options, &mut |_, _| w.go_on())?;
            Ok(fit.members)
        };
        rolling_origin(
            &log.log,
            &origins,
            &Horizon::DEFAULT,
            members_at,
            &mut |done: f64, all: f64| w.tell("", done, all),
        )
    })?
    .or_raise(py)?;
    let scored: Vec<Value> = rows
        .iter()
        .filter_map(|row| Some((row, row.score()?)))
        .map(|(row, score)| {
            json!({
                "measured": row.measured,
                "horizon_days": row.horizon.days,
                "count": score.count,
                "mean_error": score.mean_error,
                "mean_crps": score.mean_crps,
                "persistence_mean_error": score.persistence_mean_error,
                "trend_mean_error": score.trend_mean_error,
                "within_range": score.within_range,
                "skill": score.skill(),
                "skill_against_trend": score.skill_against_trend(),
            })
        })
        .collect();
    json(py, &scored)
}

/// The text of an iCalendar file.
#[pyfunction]
pub(crate) fn upkeep_calendar(
    py: Python<'_>,
    description: &Description,
    upkeep: &str,
    made_milliseconds: i64,
    hour: f64,
    reminder_minutes: Option<u32>,
) -> PyResult<String> {
    let upkeep: Vec<Upkeep> = read(py, upkeep)?;
    let file: &TankFile = &description.file;
    let (Some(start), Ok(made)) = (file.start, Timestamp::from_millisecond(made_milliseconds))
    else {
        let blame = Blame {
            input: Some("simulation.start"),
            kind: "missing",
            ..Blame::default()
        };
        let message = "a calendar needs the day on which the tank's time begins: give \
                       `simulation.start` in its description";
        return Err(value_error(py, message, &blame));
    };
    let options = CalendarOptions {
        hour,
        reminder_minutes,
        ..CalendarOptions::new(&file.tank.name, start, file.time_zone.clone(), made)
    };
    calendar(&upkeep, &options).or_raise(py)
}

/// What to do about each task, in words, and what to take care of.
#[pyfunction]
pub(crate) fn upkeep_words(py: Python<'_>, upkeep: &str) -> PyResult<Vec<(String, &'static str)>> {
    let upkeep: Vec<Upkeep> = read(py, upkeep)?;
    let upkeep = upkeep.iter();
    Ok(upkeep.map(|u| (u.task.words(), u.task.caution())).collect())
}

fn options<T: DeserializeOwned>(py: Python<'_>, options: Value) -> PyResult<T> {
    serde_json::from_value(options).map_err(|error| unknown(py, &error.to_string()))
}

/// A log that such a keeper would have written of the tank, by chance: for tests and
/// demonstrations.
#[pyfunction]
pub(crate) fn invented_log(
    py: Python<'_>,
    description: &Description,
    days: f64,
    seed: u64,
    incidents: bool,
) -> PyResult<KeeperLog> {
    use halimeda_tank::log::invented::{Keeper, invent};
    let mut keeper = Keeper::of_days(days, seed);
    if !incidents {
        keeper = keeper.without_incidents();
    }
    let parameters = description.file.parameters();
    let log: Log = py
        .detach(|| invent(&description.setup, &parameters, &keeper))
        .or_raise(py)?
        .log;
    Ok(KeeperLog { log })
}
