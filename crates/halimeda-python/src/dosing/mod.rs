//! Dosing: supplements, doses, plans, and what they do to the water.

mod consumption;
mod effect;
mod limits;
mod plan;
mod reactor;
mod supplement;
mod system;

pub(crate) use consumption::*;
pub(crate) use effect::*;
pub(crate) use limits::*;
pub(crate) use plan::*;
pub(crate) use reactor::*;
pub(crate) use supplement::*;
pub(crate) use system::*;

use halimeda::{Mass, Volume};
use pyo3::prelude::*;

use crate::argument::{Object, spelled};
use crate::error::OrRaise;
use crate::record::{needed, scalars};

/// Mass of a volume of water that must be given.
fn mass_of<'py>(
    py: Python<'py>,
    water: &halimeda::Water,
    volume_l: Object<'_, 'py>,
    volume: Object<'_, 'py>,
) -> PyResult<Mass> {
    let spelled = spelled![volume_l / volume: VOLUME];
    let [volume] = scalars(py, &spelled, Some(water))?;
    Volume::from_litres(needed(py, volume, &spelled[0])?)
        .and_then(|volume| volume.to_mass(water.density()?))
        .or_raise(py)
}
