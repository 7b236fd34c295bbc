//! Errors of the crates as exceptions of the package.
//!
//! The classes are written in Python, where a class with two bases is one line;
//! here they are looked up once and filled.

use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyDict, PyType};

const MODULE: &str = "halimeda._errors";

/// Something that becomes an exception of the package. A trait of our own, for
/// neither the errors nor `PyErr` are this crate's.
pub(crate) trait IntoPyErr {
    fn into_py_err(self, py: Python<'_>) -> PyErr;
}

/// `result.or_raise(py)?`
pub(crate) trait OrRaise<T> {
    fn or_raise(self, py: Python<'_>) -> PyResult<T>;
}

impl<T, E: IntoPyErr> OrRaise<T> for Result<T, E> {
    fn or_raise(self, py: Python<'_>) -> PyResult<T> {
        self.map_err(|error| error.into_py_err(py))
    }
}

/// What a `HalimedaError` holds beside its message.
#[derive(Default)]
pub(crate) struct Blame<'a> {
    pub(crate) input: Option<&'a str>,
    pub(crate) value: Option<f64>,
    pub(crate) limits: Option<(f64, f64)>,
    pub(crate) kind: &'a str,
}

impl IntoPyErr for halimeda::Error {
    fn into_py_err(self, py: Python<'_>) -> PyErr {
        let kind = match () {
            () if self.is_non_finite() => "non_finite",
            () if self.is_extrapolation() => "extrapolation",
            () if self.is_out_of_range() => "out_of_range",
            () if self.is_contradictory() => "contradictory",
            () if self.is_ambiguous() => "ambiguous",
            () => "uninformative",
        };
        let blame = Blame {
            input: Some(self.input()),
            value: self.value(),
            limits: self.limits(),
            kind,
        };
        value_error(py, &self.to_string(), &blame)
    }
}

impl IntoPyErr for halimeda_tank::Error {
    fn into_py_err(self, py: Python<'_>) -> PyErr {
        let message = self.to_string();
        match self {
            Self::Chemistry(error) => error.into_py_err(py),
            Self::OutOfRange {
                input,
                value,
                min,
                max,
            } => {
                let blame = Blame {
                    input: Some(input),
                    value: Some(value),
                    limits: Some((min, max)),
                    kind: "out_of_range",
                };
                value_error(py, &message, &blame)
            }
            Self::Exhausted { stock, .. } => {
                let blame = Blame {
                    input: Some(stock),
                    kind: "exhausted",
                    ..Blame::default()
                };
                value_error(py, &message, &blame)
            }
            Self::UnknownParameter(name) => {
                let blame = Blame {
                    input: Some(&name),
                    kind: "unknown_parameter",
                    ..Blame::default()
                };
                value_error(py, &message, &blame)
            }
            Self::TooFewTests { measured, .. } | Self::NoNetRate(measured) => {
                let blame = Blame {
                    input: Some(measured),
                    kind: "uninformative",
                    ..Blame::default()
                };
                value_error(py, &message, &blame)
            }
            Self::Uninformative(_) => {
                let blame = Blame {
                    input: Some("log"),
                    kind: "uninformative",
                    ..Blame::default()
                };
                value_error(py, &message, &blame)
            }
            Self::AllFailed(first) => {
                let error = first.into_py_err(py);
                let _ = error.value(py).setattr("args", (message,));
                error
            }
            _ => {
                let blame = Blame {
                    kind: "stuck",
                    ..Blame::default()
                };
                value_error(py, &message, &blame)
            }
        }
    }
}

/// A `HalimedaValueError`.
pub(crate) fn value_error(py: Python<'_>, message: &str, blame: &Blame<'_>) -> PyErr {
    static CLASS: PyOnceLock<Py<PyType>> = PyOnceLock::new();
    raised(
        CLASS.import(py, MODULE, "HalimedaValueError"),
        message,
        blame,
    )
}

/// A `HalimedaTypeError`.
pub(crate) fn type_error(py: Python<'_>, message: &str, blame: &Blame<'_>) -> PyErr {
    static CLASS: PyOnceLock<Py<PyType>> = PyOnceLock::new();
    raised(
        CLASS.import(py, MODULE, "HalimedaTypeError"),
        message,
        blame,
    )
}

fn raised(class: PyResult<&Bound<'_, PyType>>, message: &str, blame: &Blame<'_>) -> PyErr {
    let build = || {
        let class = class?;
        let keywords = PyDict::new(class.py());
        keywords.set_item("input", blame.input)?;
        keywords.set_item("value", blame.value)?;
        keywords.set_item("limits", blame.limits)?;
        keywords.set_item("kind", blame.kind)?;
        class.call((message,), Some(&keywords))
    };
    build().map_or_else(|error| error, PyErr::from_value)
}
