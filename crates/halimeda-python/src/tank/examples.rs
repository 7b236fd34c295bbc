//! The tanks that come with the package: the examples of the crate, not a copy.

use pyo3::prelude::*;

/// Name and text of every example. They are invented.
#[pyfunction]
pub(crate) fn example_tanks() -> [(&'static str, &'static str); 2] {
    [
        (
            "invented_reef",
            include_str!("../../../halimeda-tank/examples/invented_reef.toml"),
        ),
        (
            "invented_young_tank",
            include_str!("../../../halimeda-tank/examples/invented_young_tank.toml"),
        ),
    ]
}
