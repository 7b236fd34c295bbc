//! What callers give for a quantity, and how it becomes numbers.
//!
//! A quantity has a keyword with its unit in the name, which takes bare numbers
//! (`alkalinity_umol_per_kg=2300.0`), and where there is a choice of units one
//! without (`alkalinity="8.2 dKH"`), which takes what carries its unit. Numbers,
//! quantity strings and arrays of float64 are read here; every other kind of
//! container goes through `halimeda._containers` once, as a whole call, so that
//! what belongs together is aligned together.

use std::borrow::Cow;

use halimeda_tank::units::{self, Measure, Medium, Unit, UnitError};
use numpy::{PyArrayDyn, PyArrayMethods, PyReadonlyArrayDyn, PyUntypedArrayMethods};
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyBool, PyFloat, PyInt, PyString};

use crate::column::{Column, Layout, broadcast};
use crate::error::{Blame, type_error, value_error};

/// An object as it was given, if it was.
pub(crate) type Object<'a, 'py> = Option<&'a Bound<'py, PyAny>>;

/// How a quantity is spelled as keyword arguments.
#[derive(Debug)]
pub(crate) struct Quantity {
    /// The keyword of bare numbers; empty where only a unit makes them mean
    /// something (the scale of a pH, the reference of a specific gravity).
    pub(crate) bare: &'static str,
    /// The keyword of what carries its unit; empty where there is one unit only.
    pub(crate) carrying: &'static str,
    pub(crate) measure: &'static Measure,
}

impl Quantity {
    /// The keyword to name in messages.
    pub(crate) fn keyword(&self) -> &'static str {
        match self.bare {
            "" => self.carrying,
            bare => bare,
        }
    }

    fn keywords(&self) -> String {
        match (self.bare, self.carrying) {
            (bare, "") => format!("{bare}="),
            ("", carrying) => format!("{carrying}="),
            (bare, carrying) => format!("{bare}= or {carrying}="),
        }
    }

    /// That it was not given.
    pub(crate) fn missing(&self, py: Python<'_>) -> PyErr {
        let blame = Blame {
            input: Some(self.keyword()),
            kind: "missing",
            ..Blame::default()
        };
        let message = format!(
            "{} is missing: give {}",
            self.measure.name(),
            self.keywords()
        );
        type_error(py, &message, &blame)
    }

    fn refuse(&self, py: Python<'_>, keyword: &str, what: &str) -> PyErr {
        let blame = Blame {
            input: Some(keyword),
            kind: "argument",
            ..Blame::default()
        };
        type_error(py, &format!("{keyword}: {what}"), &blame)
    }

    /// The unit of numbers under the keyword that carries it (`None`: that of the
    /// measure).
    fn unit(
        &self,
        py: Python<'_>,
        carrying: bool,
        name: Option<&str>,
    ) -> PyResult<Option<&'static Unit>> {
        let keyword = if carrying { self.carrying } else { self.bare };
        match name {
            Some(name) => {
                let unit = units::named(name, self.measure)
                    .map_err(|error| self.refuse(py, keyword, &error.to_string()))?;
                let kept = unit.name() == self.measure.kept_in();
                if carrying || kept {
                    return Ok(Some(unit).filter(|_| !kept || self.bare.is_empty()));
                }
                let what = format!(
                    "it takes numbers in {}, these are in {name}; give them as {}=",
                    described(self.measure.kept_in()),
                    self.carrying,
                );
                Err(self.refuse(py, keyword, &what))
            }
            None if carrying && !self.measure.is_dimensionless() => {
                let mut what = format!("a unit is missing: {}", self.measure.unit_names());
                if !self.bare.is_empty() {
                    what.push_str(&format!("; bare numbers are given as {}=", self.bare));
                }
                Err(self.refuse(py, keyword, &what))
            }
            None => Ok(None),
        }
    }
}

fn described(unit: &str) -> &str {
    if unit.is_empty() { "no unit" } else { unit }
}

/// A quantity with what was given under its two keywords.
#[derive(Clone, Copy)]
pub(crate) struct Spelled<'a, 'py> {
    pub(crate) quantity: &'static Quantity,
    pub(crate) bare: Object<'a, 'py>,
    pub(crate) carrying: Object<'a, 'py>,
}

impl<'a, 'py> Spelled<'a, 'py> {
    /// What was given and whether it carries its unit.
    fn object(&self, py: Python<'py>) -> PyResult<Option<(&'a Bound<'py, PyAny>, bool)>> {
        match (self.bare, self.carrying) {
            (Some(_), Some(_)) => {
                let Quantity { bare, carrying, .. } = self.quantity;
                Err(self.quantity.refuse(
                    py,
                    bare,
                    &format!("it is given a second time as {carrying}="),
                ))
            }
            (Some(object), None) => Ok(Some((object, false))),
            (None, Some(object)) => Ok(Some((object, true))),
            (None, None) => Ok(None),
        }
    }
}

/// Numbers as they came.
pub(crate) enum Numbers<'py> {
    One(f64),
    Many(PyReadonlyArrayDyn<'py, f64>),
}

/// A quantity that was given.
pub(crate) struct Given<'py> {
    quantity: &'static Quantity,
    numbers: Numbers<'py>,
    /// None: the unit the measure is kept in.
    unit: Option<&'static Unit>,
}

impl<'py> Given<'py> {
    pub(crate) fn unit_name(&self) -> &'static str {
        self.unit
            .map_or(self.quantity.measure.kept_in(), Unit::name)
    }

    /// Whether it takes the density of the water to know what was meant.
    pub(crate) fn needs_medium(&self) -> bool {
        self.unit
            .is_some_and(|unit| unit.to_kept(1.0, &Medium::default()).is_none())
    }

    fn kept(&self, number: f64, medium: &Medium) -> f64 {
        match self.unit {
            None => number,
            // Without its density the water is refused for its own reason first.
            Some(unit) => unit.to_kept(number, medium).unwrap_or(f64::NAN),
        }
    }

    /// The number of a call without arrays, in the unit of its measure.
    pub(crate) fn one(
        &self,
        py: Python<'_>,
        medium: impl FnOnce() -> PyResult<Medium>,
    ) -> PyResult<f64> {
        let Numbers::One(number) = self.numbers else {
            return Err(self
                .quantity
                .refuse(py, self.quantity.keyword(), "one number is needed"));
        };
        Ok(match self.unit {
            None => number,
            Some(_) if self.needs_medium() => self.kept(number, &medium()?),
            Some(_) => self.kept(number, &Medium::default()),
        })
    }
}

/// All quantities of one call.
pub(crate) struct Gathered<'py, const N: usize> {
    pub(crate) given: [Option<Given<'py>>; N],
    pub(crate) layout: Layout<'py>,
}

/// Reads the quantities of a call; `base` is the layout of what they join, if
/// anything (a water given before).
pub(crate) fn gather<'py, const N: usize>(
    py: Python<'py>,
    spelled: &[Spelled<'_, 'py>; N],
    base: Option<&Layout<'py>>,
) -> PyResult<Gathered<'py, N>> {
    let mut given = [const { None }; N];
    for (place, one) in given.iter_mut().zip(spelled) {
        if let Some((object, carrying)) = one.object(py)? {
            let Some(read) = read(py, one.quantity, carrying, object, None)? else {
                return gather_adapted(py, spelled, base);
            };
            *place = Some(read);
        }
    }
    laid_out(
        py,
        given,
        base.map(|base| base.wrapper.clone()).unwrap_or_default(),
        base,
    )
}

/// A number, a quantity string or an array of float64; `None` for anything else.
fn read<'py>(
    py: Python<'py>,
    quantity: &'static Quantity,
    carrying: bool,
    object: &Bound<'py, PyAny>,
    unit: Option<&str>,
) -> PyResult<Option<Given<'py>>> {
    let numbers = if let Ok(number) = object.cast::<PyFloat>() {
        Numbers::One(number.value())
    } else if let Ok(text) = object.cast::<PyString>() {
        return quantity_string(py, quantity, carrying, text.to_str()?).map(Some);
    } else if object.is_instance_of::<PyInt>() && !object.is_instance_of::<PyBool>() {
        Numbers::One(object.extract()?)
    } else if let Some(array) = float_array(object) {
        Numbers::Many(array)
    } else {
        return Ok(None);
    };
    let unit = quantity.unit(py, carrying, unit)?;
    Ok(Some(Given {
        quantity,
        numbers,
        unit,
    }))
}

fn float_array<'py>(object: &Bound<'py, PyAny>) -> Option<PyReadonlyArrayDyn<'py, f64>> {
    // Whether it is an array is asked of numpy, which a scalar call need not import.
    let array = object.cast_exact::<PyArrayDyn<f64>>().ok()?;
    // One whose numbers do not lie where the machine wants them, as in a buffer that came
    // from another process, is copied with the other containers.
    array
        .try_readonly()
        .ok()
        .filter(|array| array.ndim() > 0 && array.is_aligned())
}

fn quantity_string<'py>(
    py: Python<'py>,
    quantity: &'static Quantity,
    carrying: bool,
    text: &str,
) -> PyResult<Given<'py>> {
    let keyword = if carrying {
        quantity.carrying
    } else {
        quantity.bare
    };
    if !carrying && !quantity.measure.is_dimensionless() {
        let what = match quantity.carrying {
            "" => "it takes bare numbers".to_owned(),
            carrying => format!("it takes bare numbers; \"{text}\" is given as {carrying}="),
        };
        return Err(quantity.refuse(py, keyword, &what));
    }
    match units::read(text, quantity.measure) {
        Ok((number, unit)) => Ok(Given {
            quantity,
            numbers: Numbers::One(number),
            unit: (unit.name() != quantity.measure.kept_in() || quantity.bare.is_empty())
                .then_some(unit),
        }),
        Err(error) => {
            let message = format!("{keyword}=\"{text}\": {error}");
            let blame = Blame {
                input: Some(keyword),
                kind: if error == UnitError::NonFinite {
                    "non_finite"
                } else {
                    "unreadable"
                },
                ..Blame::default()
            };
            Err(value_error(py, &message, &blame))
        }
    }
}

/// As [`gather`], where a container is among what was given.
#[cold]
fn gather_adapted<'py, const N: usize>(
    py: Python<'py>,
    spelled: &[Spelled<'_, 'py>; N],
    base: Option<&Layout<'py>>,
) -> PyResult<Gathered<'py, N>> {
    static ADAPT: PyOnceLock<Py<PyAny>> = PyOnceLock::new();
    let (mut keywords, mut measures, mut objects) = (Vec::new(), Vec::new(), Vec::new());
    for spelled in spelled {
        if let Some((object, carrying)) = spelled.object(py)? {
            let quantity = spelled.quantity;
            keywords.push(if carrying {
                quantity.carrying
            } else {
                quantity.bare
            });
            measures.push(_Measure(quantity.measure));
            objects.push(object);
        }
    }
    let wrapper = base.and_then(|base| base.wrapper.clone());
    let (adapted, wrapper): (Vec<(Bound<'py, PyAny>, Option<String>)>, _) = ADAPT
        .import(py, "halimeda._containers", "adapt")?
        .call1((keywords, measures, objects, wrapper))?
        .extract()?;
    let mut adapted = adapted.into_iter();
    let mut given = [const { None }; N];
    for (place, spelled) in given.iter_mut().zip(spelled) {
        let Some((_, carrying)) = spelled.object(py)? else {
            continue;
        };
        if let Some((object, unit)) = adapted.next() {
            let read = read(py, spelled.quantity, carrying, &object, unit.as_deref())?;
            // Only an array that is being written to is none of what `read` takes.
            let busy = || {
                spelled
                    .quantity
                    .refuse(py, spelled.quantity.keyword(), "it is in use")
            };
            *place = Some(read.ok_or_else(busy)?);
        }
    }
    laid_out(py, given, wrapper, base)
}

/// Broadcasts what was given to one shape.
fn laid_out<'py, const N: usize>(
    py: Python<'py>,
    given: [Option<Given<'py>>; N],
    wrapper: Option<Bound<'py, PyAny>>,
    base: Option<&Layout<'py>>,
) -> PyResult<Gathered<'py, N>> {
    let mut shape = base.and_then(|base| base.shape.clone());
    for given in given.iter().flatten() {
        let Numbers::Many(array) = &given.numbers else {
            continue;
        };
        let joined = broadcast(shape.as_deref().unwrap_or(&[]), array.shape());
        shape = Some(joined.ok_or_else(|| {
            let keyword = given.quantity.keyword();
            let message = format!(
                "{keyword} has the shape {:?}, which does not broadcast with {:?} of the other arguments",
                array.shape(),
                shape.as_deref().unwrap_or(&[]),
            );
            let blame = Blame { input: Some(keyword), kind: "shape", ..Blame::default() };
            value_error(py, &message, &blame)
        })?);
    }
    Ok(Gathered {
        given,
        layout: Layout { shape, wrapper },
    })
}

impl<'py, const N: usize> Gathered<'py, N> {
    /// The numbers of the row of a call without arrays; `medium` is asked for
    /// what a unit needs to know of the water.
    pub(crate) fn one(
        &self,
        py: Python<'py>,
        index: usize,
        medium: impl FnOnce() -> PyResult<Medium>,
    ) -> PyResult<Option<f64>> {
        self.given[index]
            .as_ref()
            .map(|given| given.one(py, medium))
            .transpose()
    }

    /// The column of one quantity, in the unit of its measure.
    pub(crate) fn column(
        &self,
        index: usize,
        medium: &dyn Fn(usize) -> Medium,
    ) -> Option<Column<'_>> {
        let shape = self.layout.shape.as_deref().unwrap_or(&[]);
        self.given[index]
            .as_ref()
            .map(|given| given.column(shape, medium))
    }

    /// Whether a unit among them depends on the water.
    pub(crate) fn needs_medium(&self) -> bool {
        self.given.iter().flatten().any(Given::needs_medium)
    }

    /// Refuses units that depend on the water, where there is none.
    pub(crate) fn refuse_media(&self, py: Python<'_>) -> PyResult<()> {
        match self
            .given
            .iter()
            .flatten()
            .find(|given| given.needs_medium())
        {
            None => Ok(()),
            Some(Given { quantity, .. }) => {
                let what = format!(
                    "its unit takes the density of the water, which is not known here; \
                     give it in {}",
                    described(quantity.measure.kept_in()),
                );
                Err(quantity.refuse(py, quantity.carrying, &what))
            }
        }
    }
}

impl Given<'_> {
    /// This quantity's column of rows, in the unit of its measure.
    fn column(&self, shape: &[usize], medium: &dyn Fn(usize) -> Medium) -> Column<'_> {
        let numbers = match &self.numbers {
            Numbers::One(number) => Column::Shared(*number),
            Numbers::Many(array) => match array.as_slice() {
                Ok(slice) if array.shape() == shape && array.is_c_contiguous() => {
                    Column::Each(Cow::Borrowed(slice))
                }
                // Shapes were found to broadcast.
                _ => Column::Each(
                    array
                        .as_array()
                        .broadcast(shape)
                        .map_or_else(Vec::new, |view| view.iter().copied().collect())
                        .into(),
                ),
            },
        };
        if self.unit.is_none() {
            return numbers;
        }
        if self.needs_medium() {
            let rows = shape.iter().product();
            return Column::Each(
                (0..rows)
                    .map(|row| self.kept(numbers.at(row), &medium(row)))
                    .collect(),
            );
        }
        match numbers {
            Column::Shared(number) => Column::Shared(self.kept(number, &Medium::default())),
            Column::Each(numbers) => Column::Each(
                numbers
                    .iter()
                    .map(|&number| self.kept(number, &Medium::default()))
                    .collect(),
            ),
        }
    }
}

/// The static [`Quantity`] of `keyword_with_unit / keyword: MEASURE`.
macro_rules! quantity {
    ($bare:ident $(/ $carrying:ident)?: $measure:ident) => {{
        static QUANTITY: crate::argument::Quantity = crate::argument::Quantity {
            bare: stringify!($bare),
            carrying: concat!("" $(, stringify!($carrying))?),
            measure: &halimeda_tank::units::$measure,
        };
        &QUANTITY
    }};
    (/ $carrying:ident: $measure:ident) => {{
        static QUANTITY: crate::argument::Quantity = crate::argument::Quantity {
            bare: "",
            carrying: stringify!($carrying),
            measure: &halimeda_tank::units::$measure,
        };
        &QUANTITY
    }};
}

/// An array of [`Spelled`] from arguments of the same names:
/// `spelled![temperature_celsius / temperature: TEMPERATURE, / ph: PH]`.
macro_rules! spelled {
    (@or_none) => { None };
    (@or_none $object:ident) => { $object };
    ($($($bare:ident)? $(/ $carrying:ident)?: $measure:ident),* $(,)?) => {
        [$(crate::argument::Spelled {
            quantity: crate::argument::quantity!($($bare)? $(/ $carrying)?: $measure),
            bare: crate::argument::spelled!(@or_none $($bare)?),
            carrying: crate::argument::spelled!(@or_none $($carrying)?),
        }),*]
    };
}

pub(crate) use {quantity, spelled};

/// A kind of quantity, for the containers that carry units of their own.
#[pyclass(module = "halimeda._native", frozen)]
pub(crate) struct _Measure(&'static Measure);

#[pymethods]
impl _Measure {
    /// The unit its numbers are kept in.
    #[getter]
    fn kept_in(&self) -> &'static str {
        self.0.kept_in()
    }

    /// Whether a unit of this name is one of its.
    fn knows(&self, unit: &str) -> bool {
        self.0.unit(unit).is_some()
    }
}

/// The number and the unit of a quantity string.
#[pyfunction]
pub(crate) fn _split_quantity<'a>(
    py: Python<'_>,
    keyword: &str,
    text: &'a str,
) -> PyResult<(f64, &'a str)> {
    units::split(text).map_err(|error| {
        let blame = Blame {
            input: Some(keyword),
            kind: "unreadable",
            ..Blame::default()
        };
        value_error(py, &format!("{keyword}=\"{text}\": {error}"), &blame)
    })
}
