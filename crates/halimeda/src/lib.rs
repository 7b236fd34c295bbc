//! Seawater chemistry for reef aquaria.
//!
//! halimeda answers what the readings of a reef tank mean: pH, alkalinity, CO2,
//! oxygen and nutrients of one body of water, from hobby instruments as well
//! as from laboratory ones. The crate is `no_std`, allocates nothing, and
//! refuses a bad question instead of returning a plausible number.
//!
//! # Conventions
//! - Inside: amounts in mol per kg of seawater, temperature in °C (ITS-90),
//!   practical salinity (PSS-78), pressure of the air in atm and of the water
//!   in dbar, hydrogen ion on the total scale.
//! - Quantities are types ([`quantity`]); a bare `f64` carries its unit in the
//!   name of the function that takes or returns it.
//! - Every empirical relation is in the register [`Relation`] with its source
//!   and published range. Outside it the answer is an [`Error`], unless the
//!   water was made [`with_extrapolation`](Water::with_extrapolation); then
//!   the result lists what was extrapolated.

#![no_std]
#![cfg_attr(docsrs, feature(doc_cfg))]
// What the crate promises its users: it does not panic, and it does not talk.
// Tests may: a panic there is the report.
#![cfg_attr(test, allow(clippy::disallowed_methods))]
#![cfg_attr(
    not(test),
    warn(
        clippy::unwrap_used,
        clippy::expect_used,
        clippy::panic,
        clippy::indexing_slicing,
        clippy::float_cmp,
        clippy::print_stdout,
        clippy::print_stderr,
    )
)]

#[cfg(feature = "std")]
extern crate std;

pub mod carbonate;
pub mod dosing;
mod error;
mod flagged;
pub mod gas;
pub mod nutrient;
pub mod parameter;
pub mod probe;
pub mod process;
pub mod quantity;
mod real;
mod relation;
mod root;
pub mod turf;
pub mod water;

pub use error::{Error, ErrorKind, Result};
pub use flagged::Flagged;
pub use quantity::{
    AirPressure, Alkalinity, AnyPh, Aragonite, Area, Calcite, Concentration, Content, DeltaP,
    Density, DryMoleFractionCo2, ElectrodePotential, FlowRate, FreeScale, FugacityCo2, GasPressure,
    Mass, NbsScale, OxygenVolume, PartialPressureCo2, PercentSaturation, Ph, PhScale,
    PracticalSalinity, SaturationState, SeawaterScale, Temperature, TotalScale, TransferRate,
    TransferVelocity, Volume, WaterPressure, form, species,
};
pub use real::{Dual, Real};
pub use relation::{Extrapolation, PublishedRange, Relation, RelationSet};
pub use water::{Composition, Water};
