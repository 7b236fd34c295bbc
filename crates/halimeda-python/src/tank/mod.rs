//! A tank in time: its description, runs, ensembles and plans.
//!
//! Columns of numbers cross as numpy arrays, everything else as JSON by serde: the
//! classes that give it names are written in Python, so that they pickle, compare
//! and are typed as any other.

mod description;
mod document;
mod ensemble;
mod examples;
mod log;
mod logged;
mod parameters;
mod plan;
mod run;
mod watch;

use pyo3::prelude::*;
use serde::Serialize;

use crate::error::{Blame, value_error};

pub(crate) use description::Description;
pub(crate) use document::{changed_toml, written_toml};
pub(crate) use ensemble::{follow_ensemble, outcomes};
pub(crate) use examples::example_tanks;
pub(crate) use log::{KeeperLog, measured, read_log, read_log_columns};
pub(crate) use logged::{
    Members, ask_log, fit_log, forecast_skill, invented_log, log_rates, unfitted, upkeep_calendar,
    upkeep_words,
};
pub(crate) use parameters::parameter_infos;
pub(crate) use plan::{ask, dosed_salts, failure_words, lever_values, levers, plan_defaults};
pub(crate) use run::{stocks, variables};

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
