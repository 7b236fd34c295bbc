//! The keeper's log: probes as numpy arrays, all else as JSON.

use halimeda_tank::log::{
    Cells, Entry, Log, LogError, LogReader, LogReading, Measured, ProbeSeries, Reading, Times,
};
use numpy::{PyArray1, PyArrayMethods as _, PyReadonlyArray1};
use pyo3::prelude::*;
use serde::{Deserialize, Serialize};

use super::description::Description;
use super::plan::read;
use super::{json, snake_case};
use crate::error::{Blame, IntoPyErr, OrRaise as _, value_error};

/// A log that was read.
#[pyclass(frozen, module = "halimeda._native")]
pub(crate) struct KeeperLog {
    pub(super) log: Log,
}

/// What a log holds besides what probes recorded.
#[derive(Serialize, Deserialize)]
struct Written {
    readings: Vec<Reading>,
    entries: Vec<Entry>,
}

/// Times and values of a probe.
type Probe<'py> = (String, Bound<'py, PyArray1<f64>>, Bound<'py, PyArray1<f64>>);

#[pymethods]
impl KeeperLog {
    /// From what `written` and `probes` gave.
    #[new]
    fn new(py: Python<'_>, written: &str, probes: Vec<Probe<'_>>) -> PyResult<Self> {
        let Written { readings, entries } = read(py, written)?;
        let series = |(measured, days, values): Probe<'_>| {
            let measured = read(py, &format!("\"{measured}\""))?;
            let (days, values) = (days.to_vec()?, values.to_vec()?);
            Ok(ProbeSeries {
                measured,
                days,
                values,
            })
        };
        let log = Log {
            readings,
            probes: probes.into_iter().map(series).collect::<PyResult<_>>()?,
            entries,
        };
        Ok(Self { log })
    }

    /// JSON of readings and entries.
    fn written(&self, py: Python<'_>) -> PyResult<String> {
        let written = Written {
            readings: self.log.readings.clone(),
            entries: self.log.entries.clone(),
        };
        json(py, &written)
    }

    fn probes<'py>(&self, py: Python<'py>) -> Vec<Probe<'py>> {
        let series = |p: &ProbeSeries| {
            (
                snake_case(&p.measured),
                PyArray1::from_slice(py, &p.days),
                PyArray1::from_slice(py, &p.values),
            )
        };
        self.log.probes.iter().map(series).collect()
    }

    fn last_day(&self) -> Option<f64> {
        self.log.last_day()
    }

    fn until(&self, day: f64) -> Self {
        let log = self.log.until(day);
        Self { log }
    }

    /// This log and another of the same tank as one.
    fn join(&self, py: Python<'_>, other: &Self) -> Self {
        let log = py.detach(|| self.log.clone().join(other.log.clone()));
        Self { log }
    }

    fn to_csv(&self, py: Python<'_>, description: &Description) -> String {
        py.detach(|| self.log.to_csv(&description.file))
    }
}

/// Name, words and unit of everything that a test or a probe measures.
#[pyfunction]
pub(crate) fn measured() -> Vec<(String, &'static str, &'static str)> {
    let all = Measured::ALL.iter();
    all.map(|m| (snake_case(m), m.words(), m.unit())).collect()
}

/// A log with the JSON of what was rejected and of notes.
type Read = (KeeperLog, String, String);

#[pyfunction]
pub(crate) fn read_log(
    py: Python<'_>,
    file: &[u8],
    description: &Description,
    all_probes: bool,
) -> PyResult<Read> {
    let reading = py.detach(|| reader(description, all_probes).read(file));
    told(py, reading.or_raise(py)?)
}

/// Reads columns: times as nanoseconds (`"utc"` or `"clock"`) or days (`"days"`), and
/// by heading numbers or texts.
#[pyfunction]
pub(crate) fn read_log_columns(
    py: Python<'_>,
    kind: &str,
    times: &Bound<'_, PyAny>,
    columns: Vec<(String, Bound<'_, PyAny>)>,
    description: &Description,
    all_probes: bool,
) -> PyResult<Read> {
    let (days, nanoseconds) = match kind {
        "days" => (floats(times)?, Vec::new()),
        _ => (
            Vec::new(),
            times.extract::<PyReadonlyArray1<'_, i64>>()?.to_vec()?,
        ),
    };
    let times = match kind {
        "days" => Times::Days(&days),
        "utc" => Times::UtcNanoseconds(&nanoseconds),
        _ => Times::ClockNanoseconds(&nanoseconds),
    };
    let mut held = Vec::with_capacity(columns.len());
    for (heading, column) in &columns {
        held.push(match column.extract::<Vec<Option<String>>>() {
            Ok(texts) => (heading.as_str(), Vec::new(), texts),
            Err(_) => (heading.as_str(), floats(column)?, Vec::new()),
        });
    }
    let reading = py.detach(|| {
        let texts: Vec<Vec<Option<&str>>> = held
            .iter()
            .map(|(_, _, texts)| texts.iter().map(Option::as_deref).collect())
            .collect();
        let columns: Vec<(&str, Cells<'_>)> = held
            .iter()
            .zip(&texts)
            .map(|((heading, numbers, _), texts)| {
                let cells = if numbers.is_empty() {
                    Cells::Text(texts)
                } else {
                    Cells::Numbers(numbers)
                };
                (*heading, cells)
            })
            .collect();
        reader(description, all_probes).read_columns(times, &columns)
    });
    told(py, reading.or_raise(py)?)
}

fn reader(description: &Description, all_probes: bool) -> LogReader<'_> {
    let reader = LogReader::new(&description.file);
    if all_probes {
        reader.all_probes()
    } else {
        reader
    }
}

fn told(py: Python<'_>, reading: LogReading) -> PyResult<Read> {
    let (rejected, notes) = (json(py, &reading.rejected)?, json(py, &reading.notes)?);
    let log = KeeperLog { log: reading.log };
    Ok((log, rejected, notes))
}

fn floats(column: &Bound<'_, PyAny>) -> PyResult<Vec<f64>> {
    Ok(column.extract::<PyReadonlyArray1<'_, f64>>()?.to_vec()?)
}

impl IntoPyErr for LogError {
    fn into_py_err(self, py: Python<'_>) -> PyErr {
        let problem = self.problem();
        let kind = snake_case(&problem.kind());
        let blame = Blame {
            input: Some("log"),
            kind: &kind,
            ..Blame::default()
        };
        value_error(py, &self.to_string(), &blame)
    }
}
