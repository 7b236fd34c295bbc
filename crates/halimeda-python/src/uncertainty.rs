//! Sensitivities and uncertainties of a state.

use halimeda::Relation;
use std::collections::BTreeMap;

use halimeda::carbonate::{
    self, CarbonateState, Correlation, Output, Parameter, UncertaintyBudget,
};
use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::error::{Blame, OrRaise, value_error};
use crate::knowns::keyword;

/// The name of an output among the attributes of a state.
const fn output_name(output: Output) -> &'static str {
    match output {
        Output::Alkalinity => "alkalinity_umol_per_kg",
        Output::InorganicCarbon => "inorganic_carbon_umol_per_kg",
        Output::PhTotal => "ph_total",
        Output::PhFree => "ph_free",
        Output::PhSeawater => "ph_seawater",
        Output::PhNbs => "ph_nbs",
        Output::PartialPressure => "partial_pressure_co2_uatm",
        Output::Fugacity => "fugacity_co2_uatm",
        Output::CarbonDioxide => "carbon_dioxide_umol_per_kg",
        Output::Bicarbonate => "bicarbonate_umol_per_kg",
        Output::Carbonate => "carbonate_umol_per_kg",
        Output::Aragonite => "aragonite_saturation",
        Output::Calcite => "calcite_saturation",
        Output::UnionisedAmmonia => "unionised_ammonia_umol_per_kg",
        _ => "",
    }
}

/// The name of a parameter; the two known quantities have that of their keyword.
fn parameter_name(state: &CarbonateState, parameter: Parameter) -> &'static str {
    let [first, second] = state.pair();
    match parameter {
        Parameter::First => keyword(first),
        Parameter::Second => keyword(second),
        Parameter::Temperature => "temperature_celsius",
        Parameter::Salinity => "practical_salinity",
        Parameter::Boron => "boron_umol_per_kg",
        Parameter::Sulfate => "sulfate_umol_per_kg",
        Parameter::Fluoride => "fluoride_umol_per_kg",
        Parameter::Calcium => "calcium_umol_per_kg",
        Parameter::Phosphate => "phosphate_umol_per_kg",
        Parameter::Silicate => "silicate_umol_per_kg",
        Parameter::Ammonia => "ammonia_umol_per_kg",
        Parameter::Sulfide => "sulfide_umol_per_kg",
        Parameter::PK0 => "pk0",
        Parameter::PK1 => "pk1",
        Parameter::PK2 => "pk2",
        Parameter::PKb => "pkb",
        Parameter::PKw => "pkw",
        Parameter::PKs => "pks",
        Parameter::PKf => "pkf",
        Parameter::PKp1 => "pkp1",
        Parameter::PKp2 => "pkp2",
        Parameter::PKp3 => "pkp3",
        Parameter::PKsi => "pksi",
        Parameter::PKnh4 => "pknh4",
        Parameter::PKh2s => "pkh2s",
        Parameter::PKspAragonite => "pksp_aragonite",
        Parameter::PKspCalcite => "pksp_calcite",
        Parameter::PFh => "ph_nbs_activity",
        _ => "",
    }
}

fn unknown(py: Python<'_>, input: &str, name: &str, names: &[&str]) -> PyErr {
    let message = format!("{input}: \"{name}\" is not one of {}", names.join(", "));
    let blame = Blame {
        input: Some(input),
        kind: "unknown_choice",
        ..Blame::default()
    };
    value_error(py, &message, &blame)
}

fn output_named(py: Python<'_>, name: &str) -> PyResult<usize> {
    let names: Vec<_> = Output::ALL
        .iter()
        .map(|&output| output_name(output))
        .collect();
    names
        .iter()
        .position(|known| *known == name)
        .ok_or_else(|| unknown(py, "output", name, &names))
}

fn parameter_named(py: Python<'_>, name: &str, names: &[&'static str]) -> PyResult<usize> {
    names
        .iter()
        .position(|known| *known == name)
        .ok_or_else(|| unknown(py, "parameter", name, names))
}

fn parameter_names(state: &CarbonateState) -> Vec<&'static str> {
    Parameter::ALL
        .iter()
        .map(|&parameter| parameter_name(state, parameter))
        .collect()
}

fn row<'py>(py: Python<'py>, names: &[&'static str], row: &[f64]) -> PyResult<Bound<'py, PyDict>> {
    let record = PyDict::new(py);
    for (name, number) in names.iter().zip(row) {
        record.set_item(name, number)?;
    }
    Ok(record)
}

/// Derivatives of every result of a state to everything it depends on.
///
/// Each in the unit of the result per unit of the input, the others held fixed.
/// Known quantities have the name of their keyword; constants enter as pK.
#[pyclass(module = "halimeda", frozen)]
pub(crate) struct Sensitivities {
    inner: carbonate::Sensitivities,
    parameters: Vec<&'static str>,
}

impl Sensitivities {
    pub(crate) fn of(py: Python<'_>, state: &CarbonateState) -> PyResult<Self> {
        Ok(Self {
            inner: state.sensitivities().or_raise(py)?,
            parameters: parameter_names(state),
        })
    }
}

#[pymethods]
impl Sensitivities {
    /// Names of the results.
    #[getter]
    fn outputs(&self) -> Vec<&'static str> {
        Output::ALL
            .iter()
            .map(|&output| output_name(output))
            .collect()
    }

    /// Names of what they depend on.
    #[getter]
    fn parameters(&self) -> Vec<&'static str> {
        self.parameters.clone()
    }

    /// Give one derivative.
    ///
    /// Parameters
    /// ----------
    /// output : str
    ///     Name of a result, one of `outputs`.
    /// parameter : str
    ///     Name of what it depends on, one of `parameters`.
    ///
    /// Returns
    /// -------
    /// float
    ///     In the unit of the result per unit of the parameter.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     There is no such name.
    #[pyo3(name = "of", signature = (output, parameter, /))]
    fn one(&self, py: Python<'_>, output: &str, parameter: &str) -> PyResult<f64> {
        let output = Output::ALL[output_named(py, output)?];
        let parameter = Parameter::ALL[parameter_named(py, parameter, &self.parameters)?];
        Ok(self.inner.of(output, parameter))
    }

    /// All derivatives of one result, by parameter.
    fn __getitem__(&self, py: Python<'_>, output: &str) -> PyResult<BTreeMap<&'static str, f64>> {
        let derivatives = self.inner.row(Output::ALL[output_named(py, output)?]);
        Ok(self
            .parameters
            .iter()
            .copied()
            .zip(derivatives.iter().copied())
            .collect())
    }

    /// Relations that a derivative uses outside their published range.
    #[getter]
    fn extrapolations(&self) -> Vec<&'static str> {
        self.inner
            .extrapolations()
            .iter()
            .map(Relation::name)
            .collect()
    }

    /// Give all derivatives by result and parameter.
    #[pyo3(signature = () -> "dict[str, dict[str, float]]")]
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let record = PyDict::new(py);
        for &output in Output::ALL {
            record.set_item(
                output_name(output),
                row(py, &self.parameters, self.inner.row(output))?,
            )?;
        }
        Ok(record)
    }

    fn __repr__(&self) -> String {
        format!(
            "Sensitivities({} outputs to {} parameters)",
            Output::COUNT,
            Parameter::COUNT
        )
    }
}

/// Standard uncertainties of the results of a state, to first order.
#[pyclass(module = "halimeda", frozen)]
pub(crate) struct Uncertainties {
    covariance: [[f64; Output::COUNT]; Output::COUNT],
    standard: [f64; Output::COUNT],
    effects: [[f64; Parameter::COUNT]; Output::COUNT],
    parameters: Vec<&'static str>,
}

impl Uncertainties {
    pub(crate) fn of(
        py: Python<'_>,
        state: &CarbonateState,
        standard: Option<&Bound<'_, PyAny>>,
        constants: bool,
        correlations: &[(String, String, f64)],
    ) -> PyResult<Self> {
        let parameters = parameter_names(state);
        let mut budget = UncertaintyBudget::NONE;
        if constants {
            budget = UncertaintyBudget::CONSTANTS
                .with_boron_of(state)
                .or_raise(py)?;
        }
        if let Some(standard) = standard {
            for item in standard.call_method0("items")?.try_iter()? {
                let (name, value): (String, f64) = item?.extract()?;
                let parameter = Parameter::ALL[parameter_named(py, &name, &parameters)?];
                budget = budget.with(parameter, value).or_raise(py)?;
            }
        }
        let mut correlated = Vec::with_capacity(correlations.len());
        for (first, second, coefficient) in correlations {
            correlated.push(Correlation {
                first: Parameter::ALL[parameter_named(py, first, &parameters)?],
                second: Parameter::ALL[parameter_named(py, second, &parameters)?],
                coefficient: *coefficient,
            });
        }
        let budget = budget.with_correlations(&correlated).or_raise(py)?;
        let found = state.uncertainties(&budget).or_raise(py)?;
        let at = |i: usize| Output::ALL[i];
        Ok(Self {
            covariance: std::array::from_fn(|i| {
                std::array::from_fn(|j| found.covariance(at(i), at(j)))
            }),
            standard: std::array::from_fn(|i| found.standard(at(i))),
            effects: std::array::from_fn(|i| {
                std::array::from_fn(|j| found.effect(at(i), Parameter::ALL[j]))
            }),
            parameters,
        })
    }
}

#[pymethods]
impl Uncertainties {
    /// Standard uncertainty of a result, in its unit.
    fn __getitem__(&self, py: Python<'_>, output: &str) -> PyResult<f64> {
        Ok(self.standard[output_named(py, output)?])
    }

    /// Give the covariance of two results.
    ///
    /// Parameters
    /// ----------
    /// first, second : str
    ///     Names of the results.
    ///
    /// Returns
    /// -------
    /// float
    ///     In the product of their units.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     There is no such name.
    #[pyo3(signature = (first, second, /))]
    fn covariance(&self, py: Python<'_>, first: &str, second: &str) -> PyResult<f64> {
        Ok(self.covariance[output_named(py, first)?][output_named(py, second)?])
    }

    /// Give the lines of a result's uncertainty budget.
    ///
    /// Parameters
    /// ----------
    /// output : str
    ///     Name of the result.
    ///
    /// Returns
    /// -------
    /// dict of str to float
    ///     What each parameter's standard uncertainty moves the result by, signed.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     There is no such name.
    #[pyo3(signature = (output, /) -> "dict[str, float]")]
    fn effects<'py>(&self, py: Python<'py>, output: &str) -> PyResult<Bound<'py, PyDict>> {
        row(
            py,
            &self.parameters,
            &self.effects[output_named(py, output)?],
        )
    }

    /// Give the standard uncertainties by result.
    #[pyo3(signature = () -> "dict[str, float]")]
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let names: Vec<_> = Output::ALL
            .iter()
            .map(|&output| output_name(output))
            .collect();
        row(py, &names, &self.standard)
    }

    fn __repr__(&self) -> String {
        let at = |name| {
            self.standard[Output::ALL
                .iter()
                .position(|&o| output_name(o) == name)
                .unwrap_or(0)]
        };
        format!(
            "Uncertainties(ph_total ± {:.3}, partial_pressure_co2_uatm ± {:.0}, aragonite_saturation ± {:.2})",
            at("ph_total"),
            at("partial_pressure_co2_uatm"),
            at("aragonite_saturation"),
        )
    }
}
