//! Functions of numbers as functions of numbers, arrays and containers.
//!
//! One entry of [`elementwise!`] is one function of the Python package:
//!
//! ```ignore
//! elementwise! {
//!     /// Slope of an ideal pH electrode.
//!     ///
//!     /// (numpydoc: Parameters with shape, unit and range, Returns, Raises, Source)
//!     fn nernst_slope_mv_per_ph(
//!         temperature_celsius / temperature: TEMPERATURE,
//!     ) -> "mV/pH" {
//!         Ok(probe::nernst_slope_mv_per_ph(Temperature::from_celsius(temperature_celsius)?))
//!     }
//! }
//! ```
//!
//! - `keyword_with_unit / keyword: MEASURE` is a quantity with its two keywords;
//!   where there is one unit only, `/ keyword` is left out. `MEASURE` is a static
//!   of [`halimeda_tank::units`], whose unit `keyword_with_unit` must name.
//!   `= default` after it makes it optional.
//! - In the body each quantity is an `f64` under its keyword with unit, in the
//!   unit of its measure; it gives a `Result<f64, halimeda::Error>` and is
//!   evaluated once per row, without the interpreter's lock.
//! - `fn name(water; ...)` takes a `Water` first: in the body `water` is a
//!   `&halimeda::Water`, and units that need its density ("mg/L") have it.
//! - `with name: Type = default, ...` after the quantities are keyword arguments
//!   that are the same for all rows (`scale: &str = "total"`); `Type` is anything
//!   PyO3 extracts, and `Sync`. `gas: &str = "oxygen" => GasKind` is the variant of
//!   that name once for all rows, or a refusal with the names there are.
//! - Every function also takes `errors="flag"`.
//!
//! A function is reached once it is added to the module in `lib.rs`
//! (`#[pymodule_export] use crate::that_file::that_function;`), imported in
//! `python/halimeda/__init__.py`, and named in `__all__` there.

/// See the module.
macro_rules! elementwise {
    ($(
        $(#[$doc:meta])*
        fn $name:ident($($arguments:tt)*) $(with $($option:ident: $type:ty = $default:tt $(=> $chosen:ident)?),+)? -> $unit:literal $body:block
    )*) => {
        $(elementwise! {
            @one [$(#[$doc])*] $name [$($arguments)*] [$($($option: $type = $default $(=> $chosen)?),+)?] $unit $body
        })*
    };
    (@one [$($doc:tt)*] $name:ident [
        $water:ident; $($bare:ident $(/ $carrying:ident)?: $measure:ident $(= $value:literal)?),* $(,)?
    ] [$($option:ident: $type:ty = $default:tt $(=> $chosen:ident)?),*] $unit:literal $body:block) => {
        $($doc)*
        #[pyo3::pyfunction]
        #[pyo3(signature = ($water, /, *, $($bare = None, $($carrying = None,)?)* $($option = $default,)* errors = "flag"))]
        #[allow(clippy::too_many_arguments)]
        pub(crate) fn $name<'py>(
            py: pyo3::Python<'py>,
            $water: &pyo3::Bound<'py, crate::water::Water>,
            $($bare: Option<&pyo3::Bound<'py, pyo3::PyAny>>,
            $($carrying: Option<&pyo3::Bound<'py, pyo3::PyAny>>,)?)*
            $($option: $type,)*
            errors: &str,
        ) -> pyo3::PyResult<pyo3::Bound<'py, pyo3::PyAny>> {
            let errors = crate::rows::OnRefused::named(py, errors)?;
            $($(let $option = <$chosen as crate::choice::Chosen<_>>::chosen(py, stringify!($option), $option)?;)?)*
            let waters = $water.get();
            let base = waters.layout(py);
            let spelled = crate::argument::spelled![$($bare $(/ $carrying)?: $measure),*];
            let gathered = crate::argument::gather(py, &spelled, Some(&base))?;
            waters.fits(py, &gathered.layout)?;
            let label = crate::column::Label { name: stringify!($name), unit: $unit };
            let needs_density = gathered.needs_medium();
            #[allow(unused_variables)]
            let medium = |row| waters.medium(row);
            #[allow(unused_mut, unused_variables)]
            let mut columns = 0..;
            $(let $bare = elementwise!(@column py, gathered, columns, &medium, $bare $(/ $carrying)?: $measure $(= $value)?);)*
            crate::rows::map(py, &gathered.layout, label, errors, |row| -> halimeda::Result<f64> {
                let $water = &waters.row(row)?;
                if needs_density {
                    // What could not be converted without it is refused for this reason.
                    $water.density()?;
                }
                $(let $bare = $bare.at(row);)*
                $body
            })
        }
    };
    (@one [$($doc:tt)*] $name:ident [
        $($bare:ident $(/ $carrying:ident)?: $measure:ident $(= $value:literal)?),* $(,)?
    ] [$($option:ident: $type:ty = $default:tt $(=> $chosen:ident)?),*] $unit:literal $body:block) => {
        $($doc)*
        #[pyo3::pyfunction]
        #[pyo3(signature = (*, $($bare = None, $($carrying = None,)?)* $($option = $default,)* errors = "flag"))]
        #[allow(clippy::too_many_arguments)]
        pub(crate) fn $name<'py>(
            py: pyo3::Python<'py>,
            $($bare: Option<&pyo3::Bound<'py, pyo3::PyAny>>,
            $($carrying: Option<&pyo3::Bound<'py, pyo3::PyAny>>,)?)*
            $($option: $type,)*
            errors: &str,
        ) -> pyo3::PyResult<pyo3::Bound<'py, pyo3::PyAny>> {
            let spelled = crate::argument::spelled![$($bare $(/ $carrying)?: $measure),*];
            let errors = crate::rows::OnRefused::named(py, errors)?;
            $($(let $option = <$chosen as crate::choice::Chosen<_>>::chosen(py, stringify!($option), $option)?;)?)*
            let gathered = crate::argument::gather(py, &spelled, None)?;
            gathered.refuse_media(py)?;
            let label = crate::column::Label { name: stringify!($name), unit: $unit };
            let medium = |_| halimeda_tank::units::Medium::default();
            let mut columns = 0..;
            $(let $bare = elementwise!(@column py, gathered, columns, &medium, $bare $(/ $carrying)?: $measure $(= $value)?);)*
            crate::rows::map(py, &gathered.layout, label, errors, |row| -> halimeda::Result<f64> {
                $(let $bare = $bare.at(row);)*
                $body
            })
        }
    };
    (@column $py:ident, $gathered:ident, $columns:ident, $medium:expr, $bare:ident $(/ $carrying:ident)?: $measure:ident = $value:literal) => {
        $columns.next().and_then(|index| $gathered.column(index, $medium))
            .unwrap_or(crate::column::Column::Shared($value))
    };
    (@column $py:ident, $gathered:ident, $columns:ident, $medium:expr, $bare:ident $(/ $carrying:ident)?: $measure:ident) => {
        match $columns.next().and_then(|index| $gathered.column(index, $medium)) {
            Some(column) => column,
            None => {
                let quantity = crate::argument::quantity!($bare $(/ $carrying)?: $measure);
                return Err(quantity.missing($py));
            }
        }
    };
}

pub(crate) use elementwise;
