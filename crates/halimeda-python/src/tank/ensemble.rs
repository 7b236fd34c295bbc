//! The same tank under many parameters.

use halimeda_tank::{
    EnsembleOptions, Outcome, Quantiles, RunOptions, Variable, ensemble, ensemble_of,
};
use numpy::{PyArray1, PyArrayMethods as _};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use serde::Deserialize;

use super::description::Description;
use super::logged::Members;
use super::parameters::ranges_of;
use super::plan::read;
use super::{json, watch};
use crate::error::{Blame, OrRaise as _, value_error};

/// Name, words and unit of every number of an outcome.
#[pyfunction]
pub(crate) fn outcomes() -> Vec<(&'static str, &'static str, &'static str)> {
    let infos = Outcome::INFOS.iter();
    infos.map(|i| (i.name, i.words, i.unit)).collect()
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct How {
    members: usize,
    seed: u32,
    days: f64,
    window_days: Option<f64>,
    sample_every_days: Option<f64>,
    relative_tolerance: Option<f64>,
    variables: Vec<String>,
}

/// Follows a tank under draws from ranges, or the tanks that a log leaves possible.
#[pyfunction]
#[pyo3(signature = (description, how, ranges, fitted, progress))]
pub(crate) fn follow_ensemble<'py>(
    py: Python<'py>,
    description: &Description,
    how: &str,
    ranges: Vec<(f64, f64, f64)>,
    fitted: Option<&Members>,
    progress: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyDict>> {
    let how: How = read(py, how)?;
    let variables = how
        .variables
        .iter()
        .map(|name| variable(py, name))
        .collect::<PyResult<Vec<Variable>>>()?;
    let defaults = EnsembleOptions::days(how.days);
    let options = EnsembleOptions {
        run: RunOptions {
            sample_every_days: how
                .sample_every_days
                .unwrap_or(defaults.run.sample_every_days),
            relative_tolerance: how
                .relative_tolerance
                .unwrap_or(defaults.run.relative_tolerance),
            ..defaults.run
        },
        window_days: how.window_days.unwrap_or(defaults.window_days),
        variables,
    };
    let followed = match fitted {
        Some(Members { members }) => watch::shared(py, progress, |w| {
            let mut tell = |done: f64, all: f64| w.tell("", done, all);
            ensemble_of(members, &options, &mut tell)
        })?,
        None => {
            let members = ranges_of(py, &ranges)?
                .draw(how.members, how.seed)
                .or_raise(py)?;
            watch::shared(py, progress, |w| {
                let mut tell = |done: f64, all: f64| w.tell("", done, all);
                ensemble(&description.setup, &members, &options, &mut tell)
            })?
        }
    }
    .or_raise(py)?;

    let over_time = PyDict::new(py);
    for &variable in &options.variables {
        let quantiles = followed.over_time(variable).unwrap_or_default();
        let columns: [fn(&Quantiles) -> f64; 5] =
            [|q| q.p5, |q| q.p25, |q| q.p50, |q| q.p75, |q| q.p95];
        let values: Vec<f64> = columns
            .iter()
            .flat_map(|of| quantiles.iter().map(of))
            .collect();
        let rows = PyArray1::from_vec(py, values).reshape([columns.len(), quantiles.len()])?;
        over_time.set_item(variable.name(), rows)?;
    }
    let outcomes = PyDict::new(py);
    for (place, info) in Outcome::INFOS.iter().enumerate() {
        let of = |o: &Outcome| o.values().get(place).copied().unwrap_or(f64::NAN);
        let column = followed.outcomes().map(|o| o.map_or(f64::NAN, of));
        outcomes.set_item(info.name, PyArray1::from_vec(py, column.collect()))?;
    }
    let out = PyDict::new(py);
    out.set_item("days", PyArray1::from_slice(py, followed.days()))?;
    out.set_item("over_time", over_time)?;
    out.set_item("outcomes", outcomes)?;
    out.set_item("failed", json(py, &followed.failed())?)?;
    Ok(out)
}

pub(super) fn variable(py: Python<'_>, name: &str) -> PyResult<Variable> {
    let found = Variable::ALL.iter().find(|v| v.name() == name);
    found.copied().ok_or_else(|| {
        let names: Vec<&str> = Variable::ALL.iter().map(|v| v.name()).collect();
        let blame = Blame {
            input: Some("variables"),
            kind: "unknown_name",
            ..Blame::default()
        };
        let message = format!(
            "there is no variable {name:?}; there are {}",
            names.join(", ")
        );
        value_error(py, &message, &blame)
    })
}
