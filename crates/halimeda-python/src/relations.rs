//! The register of published relations.

use pyo3::prelude::*;

/// A published relation: its source, and the range it was fitted over.
#[pyclass(module = "halimeda", frozen, get_all, eq)]
#[derive(PartialEq)]
pub(crate) struct Relation {
    /// Quantity and author, as in messages and in `extrapolations`.
    name: &'static str,
    /// Authors, year, journal, and the equation or table.
    source: &'static str,
    /// Digital object identifier of the source, where it has one.
    doi: Option<&'static str>,
    /// Lowest and highest temperature it was fitted over, °C.
    temperature_celsius: (f64, f64),
    /// Lowest and highest practical salinity it was fitted over.
    practical_salinity: (f64, f64),
}

#[pymethods]
impl Relation {
    fn __repr__(&self) -> String {
        format!("Relation({})", self.name)
    }
}

/// Give every published relation of the chemistry.
///
/// Returns
/// -------
/// list of Relation
///     In the order of the register.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> hm.relations()[0].name
/// 'K0 (Weiss 1974)'
#[pyfunction]
pub(crate) fn relations() -> Vec<Relation> {
    let relation = |relation: &halimeda::Relation| Relation {
        name: relation.name(),
        source: relation.source(),
        doi: relation.doi(),
        temperature_celsius: relation.range().temperature_celsius,
        practical_salinity: relation.range().practical_salinity,
    };
    halimeda::Relation::ALL.iter().map(relation).collect()
}
