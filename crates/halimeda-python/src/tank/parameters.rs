//! Parameters and their ranges: to Python and back as lists in the order of
//! [`Parameters::infos`].

use halimeda_tank::{ParameterRange, Parameters, Ranges};
use pyo3::prelude::*;

use crate::error::{Blame, OrRaise as _, value_error};

/// Name, unit, default, low, high and source of every parameter.
#[pyfunction]
pub(crate) fn parameter_infos() -> Vec<(String, &'static str, f64, f64, f64, &'static str)> {
    Parameters::infos()
        .map(|(group, i)| {
            (
                format!("{group}.{}", i.name),
                i.unit,
                i.default,
                i.low,
                i.high,
                i.source,
            )
        })
        .collect()
}

pub(super) fn values_of(parameters: &Parameters) -> Vec<f64> {
    (0..Parameters::COUNT)
        .filter_map(|i| parameters.value(i))
        .collect()
}

pub(super) fn parameters_of(py: Python<'_>, values: &[f64]) -> PyResult<Parameters> {
    counted(py, values.len())?;
    let places = values.iter().enumerate();
    let parameters = places.fold(Parameters::default(), |p, (i, &x)| p.with_value(i, x));
    parameters.check().or_raise(py)?;
    Ok(parameters)
}

pub(super) fn triples_of(ranges: &Ranges) -> Vec<(f64, f64, f64)> {
    Parameters::infos()
        .filter_map(|(group, info)| ranges.range(&format!("{group}.{}", info.name)))
        .map(|r| (r.low, r.centre, r.high))
        .collect()
}

pub(super) fn ranges_of(py: Python<'_>, triples: &[(f64, f64, f64)]) -> PyResult<Ranges> {
    counted(py, triples.len())?;
    let mut ranges = Ranges::default();
    for ((group, info), &(low, centre, high)) in Parameters::infos().zip(triples) {
        let range = ParameterRange { low, centre, high };
        ranges = ranges
            .narrow(&format!("{group}.{}", info.name), range)
            .or_raise(py)?;
    }
    Ok(ranges)
}

fn counted(py: Python<'_>, count: usize) -> PyResult<()> {
    if count == Parameters::COUNT {
        return Ok(());
    }
    let wanted = Parameters::COUNT as f64;
    let blame = Blame {
        input: Some("parameters"),
        value: Some(count as f64),
        limits: Some((wanted, wanted)),
        kind: "out_of_range",
    };
    let message = format!("there are {count} parameters; the model has {wanted}");
    Err(value_error(py, &message, &blame))
}
