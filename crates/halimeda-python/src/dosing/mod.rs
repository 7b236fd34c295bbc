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
