use halimeda_tank::description::{Assumption, DescriptionError, TankFile};
use halimeda_tank::plan::Goals;
use halimeda_tank::{Parameters, Ranges, RunOptions, Schedule, Setup, Tank};
use jiff::tz::{AmbiguousOffset, TimeZone};
use jiff::{SignedDuration, Span, Timestamp, civil};
use numpy::PyArray1;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use serde::Serialize;

use super::plan::read;
use super::{json, parameters, run};
use crate::error::{IntoPyErr, OrRaise as _};

/// A tank description that was read.
#[pyclass(frozen, module = "halimeda._native")]
pub(crate) struct Description {
    pub(super) file: TankFile,
    pub(super) setup: Setup,
}

/// All that a description says, for the classes in Python.
#[derive(Serialize)]
struct Facts<'a> {
    tank: &'a Tank,
    schedule: &'a Schedule,
    goals: Goals,
    start: Option<String>,
    time_zone: Option<&'a str>,
    horizon_days: f64,
    lit_area_m2: f64,
    assumptions: &'a [Assumption],
}

#[pymethods]
impl Description {
    #[new]
    fn new(py: Python<'_>, toml: &[u8]) -> PyResult<Self> {
        let file = TankFile::from_toml(toml).or_raise(py)?;
        let setup = file.setup();
        Ok(Self { file, setup })
    }

    /// The same tank under another setup, from its JSON, which no file holds: a plan's, or
    /// that of a later day from which days are counted then.
    fn with_setup(&self, py: Python<'_>, setup: &str, from_day: f64) -> PyResult<Self> {
        let setup: Setup = read(py, setup)?;
        setup.check().or_raise(py)?;
        let mut file = self.file.clone();
        let later = Span::new().try_days(from_day as i64);
        file.start = match (file.start, later) {
            (Some(start), Ok(later)) => start.checked_add(later).ok(),
            _ => None,
        };
        Ok(Self { file, setup })
    }

    /// JSON of all it says.
    fn facts(&self, py: Python<'_>) -> PyResult<String> {
        let facts = Facts {
            tank: &self.setup.tank,
            schedule: &self.setup.schedule,
            goals: self.goals(py)?,
            start: self.file.start.map(|date| date.to_string()),
            time_zone: self.file.time_zone.as_ref().and_then(TimeZone::iana_name),
            horizon_days: self.file.horizon_days,
            lit_area_m2: self.setup.tank.screen.lit_area_m2(),
            assumptions: &self.file.assumptions,
        };
        json(py, &facts)
    }

    /// Values of all parameters.
    fn parameters(&self) -> Vec<f64> {
        parameters::values_of(&self.file.parameters())
    }

    /// Low, centre and high of all parameters.
    fn ranges(&self, py: Python<'_>) -> PyResult<Vec<(f64, f64, f64)>> {
        Ok(parameters::triples_of(&self.uncertain(py)?))
    }

    /// Moments as milliseconds since 1970, of universal time if the tank has a zone,
    /// else of its own clock; None if it has no start.
    fn instants<'py>(&self, py: Python<'py>, days: Vec<f64>) -> Option<Bound<'py, PyArray1<i64>>> {
        let start = self.file.start?;
        let zone = self.file.time_zone.as_ref();
        let instants = days.into_iter().map(|day| instant(start, day, zone));
        Some(PyArray1::from_vec(py, instants.collect::<Option<_>>()?))
    }

    /// Follows the tank.
    // As many as its keyword arguments in Python.
    #[allow(clippy::too_many_arguments)]
    #[pyo3(signature = (days, sample_every_days, relative_tolerance, books_from_day, values, progress))]
    fn simulate<'py>(
        &self,
        py: Python<'py>,
        days: f64,
        sample_every_days: f64,
        relative_tolerance: f64,
        books_from_day: f64,
        values: Option<Vec<f64>>,
        progress: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyDict>> {
        let options = RunOptions {
            days,
            sample_every_days,
            relative_tolerance,
            books_from_day,
        };
        let parameters = self.nominal(py, values)?;
        run::simulate(py, &self.setup, &parameters, &options, progress)
    }
}

impl Description {
    pub(super) fn goals(&self, py: Python<'_>) -> PyResult<Goals> {
        Goals::described(&self.file.goals, &self.file.tank).or_raise(py)
    }

    pub(super) fn uncertain(&self, py: Python<'_>) -> PyResult<Ranges> {
        Ranges::default()
            .overridden(&self.file.parameter_overrides)
            .or_raise(py)
    }

    /// Other parameters, or those of the description.
    pub(super) fn nominal(&self, py: Python<'_>, values: Option<Vec<f64>>) -> PyResult<Parameters> {
        values.map_or_else(
            || Ok(self.file.parameters()),
            |values| parameters::parameters_of(py, &values),
        )
    }
}

/// The clock of a simulated tank has no summer time: an hour that the zone's skips
/// is the moment of the skip, and of an hour that comes twice the first is meant.
fn instant(start: civil::Date, day: f64, zone: Option<&TimeZone>) -> Option<i64> {
    let milliseconds = (day * 86_400e3).round() as i64;
    let clock = start
        .to_datetime(civil::Time::midnight())
        .checked_add(SignedDuration::from_millis(milliseconds))
        .ok()?;
    let Some(zone) = zone else {
        return Some(timestamp(clock, &TimeZone::UTC)?.as_millisecond());
    };
    let stamp = match zone.to_ambiguous_timestamp(clock).offset() {
        AmbiguousOffset::Gap { after, .. } => {
            let before = after.to_timestamp(clock).ok()?;
            zone.following(before).next()?.timestamp()
        }
        _ => timestamp(clock, zone)?,
    };
    Some(stamp.as_millisecond())
}

fn timestamp(clock: civil::DateTime, zone: &TimeZone) -> Option<Timestamp> {
    zone.to_timestamp(clock).ok()
}

impl IntoPyErr for DescriptionError {
    fn into_py_err(self, py: Python<'_>) -> PyErr {
        let build = || {
            let problems = json(py, self.problems())?;
            py.import("halimeda._problem")?
                .getattr("description_error")?
                .call1((self.to_string(), problems))
        };
        build().map_or_else(|error| error, PyErr::from_value)
    }
}
