//! A run: samples as columns, books as tables.

use halimeda_tank::{
    Closure, Element, Ledger, Parameters, Process, Run, RunOptions, Sample, Setup, Stock, Variable,
    simulate_with_progress,
};
use numpy::{PyArray1, PyArray2, PyArrayMethods as _};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use serde_json::json;

use super::{json, snake_case, watch};
use crate::error::OrRaise as _;

/// Name and unit of every number of a sample, and what answers call it.
#[pyfunction]
pub(crate) fn variables() -> Vec<(&'static str, &'static str, String)> {
    let variables = Variable::ALL.iter();
    variables
        .map(|v| (v.name(), v.unit(), snake_case(v)))
        .collect()
}

/// Name and unit of every stock of the books, then the names of the processes and
/// of the elements.
#[pyfunction]
pub(crate) fn stocks() -> (
    Vec<(&'static str, &'static str)>,
    Vec<&'static str>,
    Vec<&'static str>,
) {
    let stocks = Stock::ALL.iter().map(|s| (s.name(), s.unit()));
    let processes = Process::ALL.iter().map(|p| p.name());
    let elements = Element::ALL.iter().map(|e| e.name());
    (stocks.collect(), processes.collect(), elements.collect())
}

pub(super) fn simulate<'py>(
    py: Python<'py>,
    setup: &Setup,
    parameters: &Parameters,
    options: &RunOptions,
    progress: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyDict>> {
    let run = watch::watched(py, progress, |watched| {
        let mut tell = |day: f64, days: f64| watched.tell("", day, days);
        let run =
            simulate_with_progress(&setup.tank, &setup.schedule, parameters, options, &mut tell)?;
        // It is told at its switches, of which the last comes before the end.
        let _ = tell(options.days, options.days);
        Ok::<Run, halimeda_tank::Error>(run)
    })?
    .or_raise(py)?;
    columns(py, &run)
}

fn columns<'py>(py: Python<'py>, run: &Run) -> PyResult<Bound<'py, PyDict>> {
    let samples = PyDict::new(py);
    for &variable in Variable::ALL {
        let column = run.samples.iter().map(|s| variable.of(s)).collect();
        samples.set_item(variable.name(), PyArray1::from_vec(py, column))?;
    }
    let lit = |of: fn(&Sample) -> bool| {
        PyArray1::from_vec(py, run.samples.iter().map(of).collect::<Vec<bool>>())
    };
    samples.set_item("screen_lit", lit(|s| s.screen_lit))?;
    samples.set_item("display_lit", lit(|s| s.display_lit))?;

    let events: Vec<_> = run
        .events
        .iter()
        .map(|(day, event)| json!({ "day": day, "event": event }))
        .collect();
    let records = json!({
        "harvests": run.harvests,
        "events": events,
        "dosing": run.dosing,
        "effort": {
            "steps": run.effort.steps,
            "rejected": run.effort.rejected,
            "evaluations": run.effort.evaluations,
        },
    });
    let out = PyDict::new(py);
    let days = run.samples.iter().map(|s| s.day).collect();
    out.set_item("days", PyArray1::from_vec(py, days))?;
    out.set_item("samples", samples)?;
    out.set_item("records", json(py, &records)?)?;
    out.set_item("ledger", books(py, &run.ledger)?)?;
    Ok(out)
}

fn books<'py>(py: Python<'py>, ledger: &Ledger) -> PyResult<Bound<'py, PyDict>> {
    let out = PyDict::new(py);
    let column = |values: Vec<f64>| PyArray1::from_vec(py, values);
    let of_stocks = |of: &dyn Fn(Stock) -> f64| column(Stock::ALL.iter().map(|&s| of(s)).collect());
    out.set_item("before", of_stocks(&|s| ledger.stock(s).0))?;
    out.set_item("after", of_stocks(&|s| ledger.stock(s).1))?;
    let rows = |columns: usize,
                of: &dyn Fn(Process, usize) -> f64|
     -> PyResult<Bound<'py, PyArray2<f64>>> {
        let processes = Process::ALL.iter();
        let values = processes.flat_map(|&p| (0..columns).map(move |i| of(p, i)));
        column(values.collect()).reshape([Process::COUNT, columns])
    };
    let entry = |p, i: usize| Stock::ALL.get(i).map_or(f64::NAN, |&s| ledger.entry(p, s));
    let crossed = |p, i: usize| {
        Element::ALL
            .get(i)
            .map_or(f64::NAN, |&e| ledger.crossed(p, e))
    };
    out.set_item("entries", rows(Stock::COUNT, &entry)?)?;
    out.set_item("crossed", rows(Element::ALL.len(), &crossed)?)?;
    let of_stocks: Vec<Closure> = Stock::ALL.iter().map(|&s| ledger.closure(s)).collect();
    let of_elements: Vec<Closure> = Element::ALL.map(|e| ledger.element_closure(e)).to_vec();
    for (of, closures) in [("stock", of_stocks), ("element", of_elements)] {
        let unexplained = closures.iter().map(|c| c.unexplained).collect();
        let throughput = closures.iter().map(|c| c.throughput).collect();
        out.set_item(format!("{of}_unexplained"), column(unexplained))?;
        out.set_item(format!("{of}_throughput"), column(throughput))?;
    }
    Ok(out)
}
