//! Results and what calls are made of, as frozen classes of named fields.

use halimeda::dosing::CautionSet;
use halimeda::{ErrorKind, Relation, RelationSet};
use pyo3::prelude::*;
use pyo3::types::PyList;

use crate::argument::{Spelled, gather};
use crate::error::{Blame, OrRaise, type_error};
use crate::water::Water;
use crate::waters::medium_of;

/// A frozen class: documented fields with getters, then its further methods.
///
/// It has equality, `to_dict`, the displays of `halimeda._display`, and goes
/// through pickle by its fields.
macro_rules! record {
    (
        $(#[$doc:meta])*
        $module:literal $name:ident {
            $($(#[$field_doc:meta])* $field:ident: $type:ty,)*
        }
        $($methods:tt)*
    ) => {
        $(#[$doc])*
        #[pyo3::pyclass(module = $module, frozen, get_all, eq, from_py_object)]
        #[derive(Debug, Clone, PartialEq)]
        pub(crate) struct $name {
            $($(#[$field_doc])* pub(crate) $field: $type,)*
        }

        #[pyo3::pymethods]
        impl $name {
            $($methods)*

            /// Give the fields by name.
            #[pyo3(signature = () -> "dict[str, object]")]
            fn to_dict<'py>(
                slf: &pyo3::Bound<'py, Self>,
            ) -> pyo3::PyResult<pyo3::Bound<'py, pyo3::types::PyDict>> {
                use pyo3::types::PyAnyMethods;
                let fields = pyo3::types::PyDict::new(slf.py());
                $(
                    let value = slf.getattr(stringify!($field))?;
                    pyo3::types::PyDictMethods::set_item(
                        &fields, stringify!($field), crate::record::plain(value)?,
                    )?;
                )*
                Ok(fields)
            }

            #[staticmethod]
            #[allow(clippy::too_many_arguments)]
            fn _restored($($field: $type),*) -> Self {
                Self { $($field),* }
            }

            fn __reduce__<'py>(
                slf: &pyo3::Bound<'py, Self>,
            ) -> pyo3::PyResult<(
                pyo3::Bound<'py, pyo3::PyAny>,
                (pyo3::Bound<'py, pyo3::PyAny>, Vec<pyo3::Bound<'py, pyo3::PyAny>>),
            )> {
                use pyo3::types::PyAnyMethods;
                let restore = slf.py().import("halimeda._errors")?.getattr("restore")?;
                let fields = vec![$(slf.getattr(stringify!($field))?),*];
                Ok((restore, (slf.get_type().into_any(), fields)))
            }

            fn __repr__(slf: &pyo3::Bound<'_, Self>) -> pyo3::PyResult<String> {
                use pyo3::types::PyAnyMethods;
                crate::water::display(slf.py(), "record_repr", slf.as_any())?.extract()
            }

            fn _repr_html_(slf: &pyo3::Bound<'_, Self>) -> pyo3::PyResult<String> {
                use pyo3::types::PyAnyMethods;
                crate::water::display(slf.py(), "record_html", slf.as_any())?.extract()
            }
        }
    };
}

pub(crate) use record;

/// A field without classes of ours in it.
pub(crate) fn plain(value: Bound<'_, PyAny>) -> PyResult<Bound<'_, PyAny>> {
    if let Ok(list) = value.cast::<PyList>() {
        let items = list.iter().map(plain).collect::<PyResult<Vec<_>>>()?;
        return Ok(PyList::new(value.py(), items)?.into_any());
    }
    if value.hasattr("to_dict")? {
        return value.call_method0("to_dict");
    }
    Ok(value)
}

/// The names of relations that were used outside their published range.
pub(crate) fn names(relations: RelationSet) -> Vec<String> {
    relations
        .iter()
        .map(Relation::name)
        .map(str::to_owned)
        .collect()
}

/// The cautions in words.
pub(crate) fn texts(cautions: CautionSet) -> Vec<String> {
    cautions
        .iter()
        .map(|caution| caution.text().to_owned())
        .collect()
}

/// The water of a call that takes one.
pub(crate) fn one_water(py: Python<'_>, water: &Water) -> PyResult<halimeda::Water> {
    if water.layout(py).shape.is_some() {
        let blame = Blame {
            input: Some("water"),
            kind: "argument",
            ..Blame::default()
        };
        return Err(type_error(
            py,
            "water: one water is needed, not many",
            &blame,
        ));
    }
    water.row(0).or_raise(py)
}

/// The numbers of a call without arrays, in the units of their measures; a unit
/// that takes the density of the water has it from `water`.
pub(crate) fn scalars<'py, const N: usize>(
    py: Python<'py>,
    spelled: &[Spelled<'_, 'py>; N],
    water: Option<&halimeda::Water>,
) -> PyResult<[Option<f64>; N]> {
    let gathered = gather(py, spelled, None)?;
    if water.is_none() {
        gathered.refuse_media(py)?;
    }
    let mut numbers = [None; N];
    for (index, number) in numbers.iter_mut().enumerate() {
        *number = gathered.one(py, index, || match water {
            Some(water) => medium_of(water).or_raise(py),
            None => Ok(halimeda_tank::units::Medium::default()),
        })?;
    }
    Ok(numbers)
}

/// A number that cannot be left out.
pub(crate) fn needed(
    py: Python<'_>,
    number: Option<f64>,
    spelled: &Spelled<'_, '_>,
) -> PyResult<f64> {
    number.ok_or_else(|| spelled.quantity.missing(py))
}

/// A number that the crate takes as it is, refused outside its limits.
pub(crate) fn within(
    input: &'static str,
    value: f64,
    min: f64,
    max: f64,
    unit: &'static str,
) -> halimeda::Result<f64> {
    if !value.is_finite() {
        return Err(ErrorKind::NonFinite { input, value }.into());
    }
    if !(min..=max).contains(&value) {
        return Err(ErrorKind::OutOfRange {
            input,
            value,
            min,
            max,
            unit,
        }
        .into());
    }
    Ok(value)
}
