//! A tank in time: its description, runs, ensembles and plans.
//!
//! Columns of numbers cross as numpy arrays, everything else as JSON by serde: the
//! classes that give it names are written in Python, so that they pickle, compare
//! and are typed as any other.

mod description;
mod document;
mod ensemble;
mod examples;
mod parameters;
mod plan;
mod run;
mod watch;

use pyo3::prelude::*;
use serde::Serialize;

use crate::error::{Blame, value_error};

pub(crate) fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<description::Description>()?;
    module.add_function(wrap_pyfunction!(document::written_toml, module)?)?;
    module.add_function(wrap_pyfunction!(document::changed_toml, module)?)?;
    module.add_function(wrap_pyfunction!(parameters::parameter_infos, module)?)?;
    module.add_function(wrap_pyfunction!(examples::example_tanks, module)?)?;
    module.add_function(wrap_pyfunction!(ensemble::outcomes, module)?)?;
    module.add_function(wrap_pyfunction!(ensemble::follow_ensemble, module)?)?;
    module.add_function(wrap_pyfunction!(plan::levers, module)?)?;
    module.add_function(wrap_pyfunction!(plan::lever_values, module)?)?;
    module.add_function(wrap_pyfunction!(plan::plan_defaults, module)?)?;
    module.add_function(wrap_pyfunction!(plan::failure_words, module)?)?;
    module.add_function(wrap_pyfunction!(plan::dosed_salts, module)?)?;
    module.add_function(wrap_pyfunction!(plan::ask, module)?)?;
    module.add_function(wrap_pyfunction!(run::variables, module)?)?;
    module.add_function(wrap_pyfunction!(run::stocks, module)?)
}

/// A value as JSON. What is not finite becomes null.
fn json<T: Serialize + ?Sized>(py: Python<'_>, value: &T) -> PyResult<String> {
    serde_json::to_string(value)
        .map_err(|error| value_error(py, &error.to_string(), &Blame::default()))
}

/// Name of a unit variant as serde writes it.
fn snake_case(value: &impl Serialize) -> String {
    match serde_json::to_value(value) {
        Ok(serde_json::Value::String(name)) => name,
        _ => String::new(),
    }
}
