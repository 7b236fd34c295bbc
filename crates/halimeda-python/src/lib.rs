//! The native half of the Python package `halimeda`: it converts arguments, calls
//! the crates, and converts what comes back. No chemistry lives here.

mod error;

/// The native half of halimeda; import `halimeda` instead.
#[pyo3::pymodule(gil_used = false)]
mod _native {
    /// The version of the package.
    #[pymodule_export]
    #[allow(non_upper_case_globals)] // as Python writes it
    const __version__: &str = env!("CARGO_PKG_VERSION");
}
