//! The native half of the Python package `halimeda`: it converts arguments, calls
//! the crates, and converts what comes back. No chemistry lives here.

mod error;

/// The native half of halimeda; import `halimeda` instead.
#[pyo3::pymodule(gil_used = false)]
mod _native {
    use pyo3::prelude::*;

    #[pymodule_init]
    fn init(module: &Bound<'_, PyModule>) -> PyResult<()> {
        module.add("__version__", env!("CARGO_PKG_VERSION"))
    }
}
