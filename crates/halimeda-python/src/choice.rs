//! Names of variants, as the crates' serde has them, and named parameters.

use std::collections::BTreeMap;

use halimeda::parameter::ParameterSet;
use pyo3::prelude::*;
use serde::de::value::{Error as Unreadable, StrDeserializer};
use serde::{Serialize, de::DeserializeOwned};

use crate::error::{Blame, OrRaise, value_error};

/// The variant of a name, or a refusal with the names there are.
pub(crate) fn choice<T: DeserializeOwned>(
    py: Python<'_>,
    keyword: &str,
    name: &str,
) -> PyResult<T> {
    T::deserialize(StrDeserializer::<Unreadable>::new(name)).map_err(|error| {
        let blame = Blame {
            input: Some(keyword),
            kind: "unknown_choice",
            ..Blame::default()
        };
        value_error(py, &format!("{keyword}: {error}"), &blame)
    })
}

/// The name of a variant.
pub(crate) fn name_of<T: Serialize>(variant: &T) -> String {
    match serde_json::to_value(variant) {
        Ok(serde_json::Value::String(name)) => name,
        _ => String::new(),
    }
}

/// Parameters by name.
pub(crate) type Parameters = BTreeMap<String, f64>;

/// What an argument stands for once the call is read.
pub(crate) trait Chosen<Given>: Sized {
    fn chosen(py: Python<'_>, keyword: &str, given: Given) -> PyResult<Self>;
}

impl<T: DeserializeOwned> Chosen<&str> for T {
    fn chosen(py: Python<'_>, keyword: &str, given: &str) -> PyResult<Self> {
        choice(py, keyword, given)
    }
}

impl<P: ParameterSet> Chosen<Option<Parameters>> for P {
    fn chosen(py: Python<'_>, keyword: &str, given: Option<Parameters>) -> PyResult<Self> {
        let mut set = P::default();
        for (name, value) in given.unwrap_or_default() {
            let known = || P::PARAMETERS.iter().map(|info| info.name);
            let Some(index) = known().position(|known| known == name) else {
                let known: Vec<_> = known().collect();
                let message = format!(
                    "{keyword}: there is no \"{name}\"; there are {}",
                    known.join(", ")
                );
                let blame = Blame {
                    input: Some(&name),
                    kind: "unknown_parameter",
                    ..Blame::default()
                };
                return Err(value_error(py, &message, &blame));
            };
            set = set.with_value(index, value);
        }
        set.check().or_raise(py)?;
        Ok(set)
    }
}

/// That an argument is none of its choices.
pub(crate) fn unknown(py: Python<'_>, input: &str, given: &str, choices: &str) -> PyErr {
    let blame = Blame {
        input: Some(input),
        kind: "unknown_choice",
        ..Blame::default()
    };
    let message = format!("{input} is \"{given}\"; it must be one of {choices}");
    value_error(py, &message, &blame)
}
