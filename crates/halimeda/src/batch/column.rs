use crate::error::{ErrorKind, Result};
use core::ops::Range;

/// One input of a batch: the same value for every row, or one for each.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Column<'a> {
    /// One value for all rows.
    Shared(f64),
    /// One value for each row.
    Each(&'a [f64]),
}

impl Column<'_> {
    /// The value of a row; NaN, which every row refuses, past the end.
    #[inline]
    pub(super) fn at(&self, row: usize) -> f64 {
        match self {
            Self::Shared(value) => *value,
            Self::Each(values) => values.get(row).copied().unwrap_or(f64::NAN),
        }
    }

    /// The same column for some of the rows.
    pub(super) fn part(&self, rows: Range<usize>) -> Self {
        match self {
            Self::Shared(value) => Self::Shared(*value),
            Self::Each(values) => Self::Each(values.get(rows).unwrap_or(&[])),
        }
    }

    pub(super) const fn is_shared(&self) -> bool {
        matches!(self, Self::Shared(_))
    }

    /// That there is a value for each of `rows` rows.
    pub(super) fn covers(&self, name: &'static str, rows: usize) -> Result<()> {
        match self {
            Self::Each(values) => same_length(name, values.len(), rows),
            Self::Shared(_) => Ok(()),
        }
    }
}

impl From<f64> for Column<'_> {
    fn from(value: f64) -> Self {
        Self::Shared(value)
    }
}

impl<'a> From<&'a [f64]> for Column<'a> {
    fn from(values: &'a [f64]) -> Self {
        Self::Each(values)
    }
}

impl<'a> From<&'a std::vec::Vec<f64>> for Column<'a> {
    fn from(values: &'a std::vec::Vec<f64>) -> Self {
        Self::Each(values)
    }
}

pub(super) fn same_length(input: &'static str, got: usize, need: usize) -> Result<()> {
    if got == need {
        return Ok(());
    }
    Err(ErrorKind::WrongLength { input, got, need }.into())
}
