//! Names of variants, as the crates' serde has them.

use pyo3::prelude::*;
use serde::de::value::{Error as Unreadable, StrDeserializer};
use serde::{Serialize, de::DeserializeOwned};

use crate::error::{Blame, value_error};

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
