//! The native half of the Python package `halimeda`: it converts arguments, calls
//! the crates, and converts what comes back. No chemistry lives here.

mod argument;
mod column;
mod elementwise;
mod error;
mod rows;
mod water;
mod waters;

/// The native half of halimeda; import `halimeda` instead.
#[pyo3::pymodule(gil_used = false)]
mod _native {
    use pyo3::prelude::*;

    #[pymodule_export]
    use crate::water::{_restore_water, Water};

    #[pymodule_init]
    fn init(module: &Bound<'_, PyModule>) -> PyResult<()> {
        module.add("__version__", env!("CARGO_PKG_VERSION"))
    }
}
