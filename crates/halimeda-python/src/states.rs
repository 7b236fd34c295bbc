//! The carbonate system of arrays: solved in stretches, handed over as columns.

use halimeda::batch::{BatchInput, Output, RowStatus, solve};
use numpy::{PyArray1, PyArrayMethods};
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::PyDict;

use crate::argument::Object;
use crate::column::Layout;
use crate::error::{Blame, OrRaise, value_error};
use crate::rows::{OnRefused, Problems, at_row};
use crate::waters::Waters;

/// Rows between two looks for an interrupt, for each thread.
const STRETCH: usize = 1 << 16;

/// What is computed of arrays unless told else.
const USUAL: [Output; 13] = [
    Output::PhTotal,
    Output::PhNbs,
    Output::Alkalinity,
    Output::InorganicCarbon,
    Output::CarbonDioxide,
    Output::Bicarbonate,
    Output::Carbonate,
    Output::FugacityCo2,
    Output::PartialPressureCo2,
    Output::DryMoleFractionCo2,
    Output::AragoniteSaturation,
    Output::CalciteSaturation,
    Output::UnionisedAmmonia,
];

/// The outputs that were asked for.
pub(crate) fn wanted(py: Python<'_>, outputs: Object<'_, '_>) -> PyResult<Vec<Output>> {
    let Some(outputs) = outputs else {
        return Ok(USUAL.to_vec());
    };
    let names: Vec<String> = match outputs.extract::<String>() {
        Ok(name) => vec![name],
        Err(_) => outputs.extract()?,
    };
    let mut wanted = Vec::with_capacity(names.len());
    for name in &names {
        let named = |output: &&Output| match name.as_str() {
            "buffer_factors" => is_buffer_factor(**output),
            "alkalinity_parts" => output.name().ends_with("_alkalinity_umol_per_kg"),
            name => output.name() == name,
        };
        let before = wanted.len();
        wanted.extend(Output::ALL.iter().filter(named));
        if wanted.len() == before {
            let known: Vec<_> = Output::ALL.iter().map(|output| output.name()).collect();
            let message = format!(
                "outputs: \"{name}\" is not one of buffer_factors, alkalinity_parts, {}",
                known.join(", ")
            );
            let blame = Blame {
                input: Some("outputs"),
                kind: "unknown_choice",
                ..Blame::default()
            };
            return Err(value_error(py, &message, &blame));
        }
    }
    let mut seen = Vec::new();
    wanted.retain(|output| {
        let new = !seen.contains(output);
        seen.push(*output);
        new
    });
    Ok(wanted)
}

const fn is_buffer_factor(output: Output) -> bool {
    matches!(
        output,
        Output::Revelle
            | Output::GammaDic
            | Output::BetaDic
            | Output::OmegaDic
            | Output::GammaAlkalinity
            | Output::BetaAlkalinity
            | Output::OmegaAlkalinity
    )
}

/// Names and units of all outputs, in order.
#[pyfunction]
pub(crate) fn _outputs() -> Vec<(&'static str, &'static str)> {
    Output::ALL
        .iter()
        .map(|output| (output.name(), output.unit()))
        .collect()
}

/// Names of the statuses of rows by their number.
#[pyfunction]
pub(crate) fn _statuses() -> Vec<&'static str> {
    RowStatus::ALL.iter().map(|status| status.name()).collect()
}

/// Solves every row into a `CarbonateStates`.
pub(crate) fn solve_rows<'py>(
    layout: &Layout<'py>,
    waters: &Waters<'_>,
    input: &BatchInput<'_>,
    outputs: &[Output],
    errors: OnRefused,
    py: Python<'py>,
) -> PyResult<Bound<'py, PyAny>> {
    static STATES: PyOnceLock<Py<PyAny>> = PyOnceLock::new();
    let rows = layout.rows();
    let arrays: Vec<_> = outputs
        .iter()
        .map(|_| PyArray1::<f64>::zeros(py, rows, false))
        .collect();
    let mut statuses = vec![RowStatus::Ok; rows];
    let mut problems = Problems::default();
    {
        let mut written: Vec<_> = arrays.iter().map(|array| array.readwrite()).collect();
        let mut rest = Vec::with_capacity(outputs.len());
        for written in &mut written {
            rest.push(written.as_slice_mut()?);
        }
        let threads = match input.threads {
            0 => std::thread::available_parallelism().map_or(1, usize::from),
            threads => threads,
        };
        for (stretch, status) in statuses.chunks_mut(STRETCH * threads).enumerate() {
            py.check_signals()?;
            let first = stretch * STRETCH * threads;
            let part = input.part(first..first + status.len());
            let mut columns: Vec<(Output, &mut [f64])> = Vec::with_capacity(outputs.len());
            for (output, rest) in outputs.iter().zip(&mut rest) {
                let (now, later) = std::mem::take(rest).split_at_mut(status.len());
                *rest = later;
                columns.push((*output, now));
            }
            py.detach(|| solve(&part, &mut columns, status))
                .or_raise(py)?;
            for (row, status) in (first..).zip(status.iter_mut()) {
                if matches!(status, RowStatus::Ok | RowStatus::Extrapolated) {
                    continue;
                }
                let Some(error) = reason(waters, input, outputs, row) else {
                    continue;
                };
                if status.is_refused() {
                    *status = status_of(&error);
                    if errors == OnRefused::Raise {
                        return Err(at_row(py, error, row));
                    }
                }
                problems.push(row, error);
            }
        }
    }
    let columns = PyDict::new(py);
    for (output, array) in outputs.iter().zip(arrays) {
        let shape = layout.shape.as_deref().unwrap_or(&[]);
        columns.set_item(output.name(), array.reshape(shape)?)?;
    }
    let codes: Vec<u8> = statuses.into_iter().map(|status| status as u8).collect();
    let codes = PyArray1::from_vec(py, codes).reshape(layout.shape.as_deref().unwrap_or(&[]))?;
    let count = problems.count;
    STATES
        .import(py, "halimeda._states", "CarbonateStates")?
        .call1((
            columns,
            codes,
            problems.into_pairs(py),
            count,
            layout.wrapper.as_ref(),
        ))
}

/// Why a row was refused, or answered in part.
fn reason(
    waters: &Waters<'_>,
    input: &BatchInput<'_>,
    outputs: &[Output],
    row: usize,
) -> Option<halimeda::Error> {
    if let Some(error) = waters.refused.get(&row) {
        return Some(*error);
    }
    match input.explain(row) {
        Err(error) => Some(error),
        Ok(state) => outputs.iter().find_map(|output| output.of(&state).err()),
    }
}

fn status_of(error: &halimeda::Error) -> RowStatus {
    match () {
        () if error.is_non_finite() => RowStatus::NonFinite,
        () if error.is_extrapolation() => RowStatus::OutsidePublishedRange,
        () if error.is_contradictory() => RowStatus::Contradictory,
        () if error.is_ambiguous() => RowStatus::Ambiguous,
        () => RowStatus::OutOfRange,
    }
}
