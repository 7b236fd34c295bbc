//! Columns of rows, and the shape and container that results go back into.

use std::borrow::Cow;

use halimeda::batch;
use numpy::{PyArray1, PyArrayMethods};
use pyo3::prelude::*;
use pyo3::types::PyFloat;

/// One input of a batch: the same number for every row, or one for each.
#[derive(Debug, Clone)]
pub(crate) enum Column<'a> {
    Shared(f64),
    Each(Cow<'a, [f64]>),
}

impl Column<'_> {
    /// The number of a row; NaN, which every quantity refuses, past the end.
    #[inline]
    pub(crate) fn at(&self, row: usize) -> f64 {
        match self {
            Self::Shared(number) => *number,
            Self::Each(numbers) => numbers.get(row).copied().unwrap_or(f64::NAN),
        }
    }

    /// As the batch solver takes it.
    pub(crate) fn batch(&self) -> batch::Column<'_> {
        match self {
            Self::Shared(number) => batch::Column::Shared(*number),
            Self::Each(numbers) => batch::Column::Each(numbers),
        }
    }

    pub(crate) fn into_owned(self) -> Column<'static> {
        match self {
            Self::Shared(number) => Column::Shared(number),
            Self::Each(numbers) => Column::Each(numbers.into_owned().into()),
        }
    }
}

/// How the rows of a call lie: its common shape, and what its results are put
/// into (an object of `halimeda._containers`, none for arrays).
pub(crate) struct Layout<'py> {
    /// None for a call of scalars alone.
    pub(crate) shape: Option<Vec<usize>>,
    pub(crate) wrapper: Option<Bound<'py, PyAny>>,
}

/// What a result is called in a container.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Label {
    pub(crate) name: &'static str,
    pub(crate) unit: &'static str,
}

impl<'py> Layout<'py> {
    pub(crate) fn rows(&self) -> usize {
        self.shape
            .as_ref()
            .map_or(1, |shape| shape.iter().product())
    }

    /// A column of results in the shape and container of the arguments.
    pub(crate) fn dress(
        &self,
        column: Bound<'py, PyArray1<f64>>,
        label: Label,
    ) -> PyResult<Bound<'py, PyAny>> {
        let Some(shape) = &self.shape else {
            let number = column
                .try_readonly()
                .ok()
                .and_then(|column| column.get(0).copied());
            return Ok(PyFloat::new(column.py(), number.unwrap_or(f64::NAN)).into_any());
        };
        let array = column.reshape(shape.as_slice())?.into_any();
        match &self.wrapper {
            Some(wrapper) => wrapper.call_method1("wrap", (array, label.name, label.unit)),
            None => Ok(array),
        }
    }
}

/// The shape that two shapes broadcast to, by numpy's rule.
pub(crate) fn broadcast(a: &[usize], b: &[usize]) -> Option<Vec<usize>> {
    let length = a.len().max(b.len());
    let padded = |shape: &[usize]| {
        let missing = length - shape.len();
        std::iter::repeat_n(1, missing).chain(shape.to_vec())
    };
    padded(a)
        .zip(padded(b))
        .map(|pair| match pair {
            (x, y) if x == y => Some(x),
            (1, y) => Some(y),
            (x, 1) => Some(x),
            _ => None,
        })
        .collect()
}
