//! The loop over rows: without the interpreter's lock, interruptible, and with
//! the refusal of a row kept from the others.

use numpy::{PyArray1, PyArrayMethods};
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;

use crate::column::{Label, Layout};
use crate::error::{Blame, IntoPyErr, value_error};

/// What becomes of rows that are refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum OnRefused {
    /// NaN, with a warning that holds the reasons.
    Flag,
    /// The first one raises.
    Raise,
}

impl OnRefused {
    /// From the argument `errors`.
    pub(crate) fn named(py: Python<'_>, name: &str) -> PyResult<Self> {
        match name {
            "flag" => Ok(Self::Flag),
            "raise" => Ok(Self::Raise),
            _ => {
                let blame = Blame {
                    input: Some("errors"),
                    kind: "unknown_choice",
                    ..Blame::default()
                };
                let message = format!("errors is \"{name}\"; it must be \"flag\" or \"raise\"");
                Err(value_error(py, &message, &blame))
            }
        }
    }
}

/// Rows between two looks for an interrupt.
const STRETCH: usize = 1 << 14;

/// No more refusals than this are kept with their reasons.
pub(crate) const MOST_PROBLEMS: usize = 1000;

/// Refused rows and why, the first [`MOST_PROBLEMS`] of them.
pub(crate) struct Problems<E> {
    pub(crate) first: Vec<(usize, E)>,
    pub(crate) count: usize,
}

impl<E> Default for Problems<E> {
    fn default() -> Self {
        Self {
            first: Vec::new(),
            count: 0,
        }
    }
}

impl<E: IntoPyErr> Problems<E> {
    pub(crate) fn push(&mut self, row: usize, error: E) {
        if self.first.len() < MOST_PROBLEMS {
            self.first.push((row, error));
        }
        self.count += 1;
    }

    /// As `(row, exception)` pairs.
    pub(crate) fn into_pairs(self, py: Python<'_>) -> Vec<(usize, PyErr)> {
        self.first
            .into_iter()
            .map(|(row, error)| (row, error.into_py_err(py)))
            .collect()
    }

    /// Warns of them, if there are any.
    pub(crate) fn warn(self, py: Python<'_>, name: &str, rows: usize) -> PyResult<()> {
        static WARN: PyOnceLock<Py<PyAny>> = PyOnceLock::new();
        if self.count == 0 {
            return Ok(());
        }
        let count = self.count;
        let pairs = self.into_pairs(py);
        WARN.import(py, "halimeda._errors", "warn_refused")?
            .call1((name, count, rows, pairs))
            .map(drop)
    }
}

/// Applies a function to every row and dresses what comes of it as the arguments
/// were; a call of scalars alone raises what it is refused for.
pub(crate) fn map<'py, E: IntoPyErr + Send>(
    py: Python<'py>,
    layout: &Layout<'py>,
    label: Label,
    errors: OnRefused,
    f: impl Fn(usize) -> Result<f64, E> + Sync,
) -> PyResult<Bound<'py, PyAny>> {
    if layout.shape.is_none() {
        let number = f(0).map_err(|error| error.into_py_err(py))?;
        return Ok(number.into_pyobject(py)?.into_any());
    }
    let rows = layout.rows();
    let results = PyArray1::<f64>::zeros(py, rows, false);
    let mut problems = Problems::default();
    {
        let mut written = results.readwrite();
        let written = written.as_slice_mut()?;
        for (stretch, part) in written.chunks_mut(STRETCH).enumerate() {
            py.check_signals()?;
            let first = stretch * STRETCH;
            let refused = py.detach(|| {
                let mut refused = Vec::new();
                for (row, place) in (first..).zip(part) {
                    *place = f(row).unwrap_or_else(|error| {
                        refused.push((row, error));
                        f64::NAN
                    });
                }
                refused
            });
            for (row, error) in refused {
                if errors == OnRefused::Raise {
                    return Err(at_row(py, error, row));
                }
                problems.push(row, error);
            }
        }
    }
    problems.warn(py, label.name, rows)?;
    layout.dress(results, label)
}

/// The exception of a row, which says which row.
pub(crate) fn at_row<E: IntoPyErr>(py: Python<'_>, error: E, row: usize) -> PyErr {
    let error = error.into_py_err(py);
    let value = error.value(py);
    let noted = value.call_method1("add_note", (format!("in row {row}"),));
    // A note that cannot be added is no reason to hide the error.
    drop(noted);
    error
}
