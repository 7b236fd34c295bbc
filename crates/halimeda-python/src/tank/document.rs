//! The text of a description, written from a nested dict or changed key by key with
//! its comments and order kept.

use pyo3::exceptions::PyValueError;
use pyo3::prelude::*;
use pyo3::types::{PyBool, PyDict, PyFloat, PyInt, PyList, PyString, PyTuple};
use toml_edit::{Array, ArrayOfTables, Datetime, DocumentMut, InlineTable, Item, Table, Value};

use crate::error::{Blame, type_error, value_error};

/// A description written from tables, as TOML.
#[pyfunction]
pub(crate) fn written_toml(tables: &Bound<'_, PyDict>) -> PyResult<String> {
    let mut document = DocumentMut::new();
    *document.as_table_mut() = table(tables, "")?;
    Ok(document.to_string())
}

/// A description with keys, named by their path as in `feeding[2].mass`, set to
/// other values, or taken out where the value is None.
#[pyfunction]
pub(crate) fn changed_toml(
    text: &str,
    changes: Vec<(String, Bound<'_, PyAny>)>,
) -> PyResult<String> {
    let mut document: DocumentMut = text
        .parse()
        .map_err(|error: toml_edit::TomlError| PyValueError::new_err(error.to_string()))?;
    for (path, value) in &changes {
        let (above, key) = match path.rsplit_once('.') {
            Some((above, key)) => (above.split('.').collect(), key),
            None => (Vec::new(), path.as_str()),
        };
        let mut at = document.as_item_mut();
        for step in above {
            at = go(at, step).ok_or_else(|| no_such(value.py(), path))?;
        }
        let (name, place) = name_and_place(key);
        let gone = value.is_none();
        if let Some(place) = place {
            let tables = at
                .get_mut(name)
                .and_then(Item::as_array_of_tables_mut)
                .filter(|tables| place < tables.len())
                .ok_or_else(|| no_such(value.py(), path))?;
            if gone {
                tables.remove(place);
                continue;
            }
            let wanted = value
                .cast::<PyDict>()
                .map_err(|_| unfit(path, value))
                .and_then(|dict| table(dict, path))?;
            if let Some(found) = tables.get_mut(place) {
                *found = wanted;
            }
            continue;
        }
        let within_value = at.is_value();
        let found = at
            .as_table_like_mut()
            .ok_or_else(|| no_such(value.py(), path))?;
        if gone {
            found.remove(name);
            continue;
        }
        let wanted = if within_value {
            Item::Value(inline(value, path)?)
        } else {
            item(value, path)?
        };
        match (found.get_mut(name), wanted) {
            // A value keeps the comment behind it.
            (Some(Item::Value(old)), Item::Value(mut new)) => {
                *new.decor_mut() = old.decor().clone();
                *old = new;
            }
            (_, wanted) => {
                found.insert(name, wanted);
            }
        }
    }
    Ok(document.to_string())
}

/// One step down a path; a table that is not there is made.
fn go<'a>(at: &'a mut Item, step: &str) -> Option<&'a mut Item> {
    let (name, place) = name_and_place(step);
    let within_value = at.is_value();
    let table = at.as_table_like_mut()?;
    if !table.contains_key(name) && place.is_none() {
        let made = if within_value {
            Item::Value(Value::InlineTable(InlineTable::new()))
        } else {
            Item::Table(Table::new())
        };
        table.insert(name, made);
    }
    let next = table.get_mut(name)?;
    match place {
        Some(place) => next.get_mut(place),
        None => Some(next),
    }
}

/// `feeding[2]` is the second of its name.
fn name_and_place(step: &str) -> (&str, Option<usize>) {
    let numbered = step
        .strip_suffix(']')
        .and_then(|step| step.split_once('['))
        .and_then(|(name, place)| Some((name, place.parse::<usize>().ok()?.checked_sub(1)?)));
    numbered.map_or((step, None), |(name, place)| (name, Some(place)))
}

fn item(value: &Bound<'_, PyAny>, path: &str) -> PyResult<Item> {
    if let Ok(dict) = value.cast::<PyDict>() {
        return Ok(Item::Table(table(dict, path)?));
    }
    if let Some(items) = items(value) {
        let items: Vec<Bound<'_, PyAny>> = items?;
        if !items.is_empty() && items.iter().all(|i| i.is_instance_of::<PyDict>()) {
            let mut tables = ArrayOfTables::new();
            for item in &items {
                tables.push(table(item.cast::<PyDict>()?, path)?);
            }
            return Ok(Item::ArrayOfTables(tables));
        }
    }
    Ok(Item::Value(inline(value, path)?))
}

fn table(dict: &Bound<'_, PyDict>, path: &str) -> PyResult<Table> {
    let mut table = Table::new();
    for (key, value) in dict {
        let key = key.cast_into::<PyString>()?.to_string();
        let path = below(path, &key);
        if !value.is_none() {
            table.insert(&key, item(&value, &path)?);
        }
    }
    Ok(table)
}

fn inline(value: &Bound<'_, PyAny>, path: &str) -> PyResult<Value> {
    // A bool is an int to Python.
    if value.is_instance_of::<PyBool>() {
        Ok(value.extract::<bool>()?.into())
    } else if value.is_instance_of::<PyString>() {
        Ok(value.extract::<String>()?.into())
    } else if value.is_instance_of::<PyInt>() {
        Ok(value
            .extract::<i64>()
            .map_err(|_| unfit(path, value))?
            .into())
    } else if value.is_instance_of::<PyFloat>() {
        Ok(value.extract::<f64>()?.into())
    } else if let Ok(dict) = value.cast::<PyDict>() {
        let mut table = InlineTable::new();
        for (key, value) in dict {
            let key = key.cast_into::<PyString>()?.to_string();
            if !value.is_none() {
                table.insert(&key, inline(&value, &below(path, &key))?);
            }
        }
        Ok(table.into())
    } else if let Some(items) = items(value) {
        let mut array = Array::new();
        for item in items? {
            array.push(inline(&item, path)?);
        }
        Ok(array.into())
    } else {
        // A date, a time or both.
        value
            .call_method0("isoformat")
            .ok()
            .and_then(|text| text.extract::<String>().ok())
            .and_then(|text| text.parse::<Datetime>().ok())
            .map(Value::from)
            .ok_or_else(|| unfit(path, value))
    }
}

fn items<'py>(value: &Bound<'py, PyAny>) -> Option<PyResult<Vec<Bound<'py, PyAny>>>> {
    let listed = value.is_instance_of::<PyList>() || value.is_instance_of::<PyTuple>();
    listed.then(|| value.try_iter()?.collect())
}

fn below(path: &str, key: &str) -> String {
    if path.is_empty() {
        key.to_owned()
    } else {
        format!("{path}.{key}")
    }
}

fn unfit(path: &str, value: &Bound<'_, PyAny>) -> PyErr {
    let kind = value.get_type().to_string();
    let blame = Blame {
        input: Some(path),
        kind: "wrong_type",
        ..Blame::default()
    };
    let message = format!(
        "{path} is a {kind}; a description takes strings with units, numbers, dates, and dicts and lists of them"
    );
    type_error(value.py(), &message, &blame)
}

fn no_such(py: Python<'_>, path: &str) -> PyErr {
    let blame = Blame {
        input: Some(path),
        kind: "unknown_key",
        ..Blame::default()
    };
    let message = format!("{path} is no key that the description has or could be given");
    value_error(py, &message, &blame)
}
