//! Seawater chemistry for reef aquaria.
//!
//! halimeda answers what the readings of a reef tank mean: pH, alkalinity, CO2,
//! oxygen and nutrients of one body of water, from hobby instruments as well
//! as from laboratory ones. The crate is `no_std`, allocates nothing, and
//! refuses a bad question instead of returning a plausible number.
//!
//! # Rooms
//! | module | answers |
//! |---|---|
//! | [`water`] | salinity from any instrument, density, composition, net volume |
//! | [`carbonate`] | pH, alkalinity, CO2 and saturation from any two of them, with uncertainties |
//! | [`probe`] | what a pH probe's millivolts are worth |
//! | [`gas`] | oxygen saturation, total gas pressure, exchange with the air |
//! | [`nutrient`] | nitrogen and phosphorus in every unit, un-ionised ammonia, the alkalinity book |
//! | [`dosing`] | how much of a supplement, what it does, when not |
//! | [`process`] | rates of what lives and decays in a tank |
//! | [`turf`] | algae on a lit screen |
#![cfg_attr(
    feature = "batch",
    doc = "| [`batch`] | the carbonate system of a million waters at once |"
)]
//! | [`quantity`] | the types of all readings and results |
//!
//! # From readings to answers
//! ```
//! use halimeda::carbonate::{EquilibriumOptions, Output, Parameter, UncertaintyBudget};
//! use halimeda::gas::percent_saturation;
//! use halimeda::nutrient::{AmmoniaVerdict, unionised_ammonia};
//! use halimeda::water::{Hydrometer, SpecificGravityReference};
//! use halimeda::*;
//!
//! // Water: a glass hydrometer made for 25/25 °C, floating in the tank.
//! let tank = Temperature::from_celsius(25.6)?;
//! let salinity = Hydrometer::glass(SpecificGravityReference::AT_25_25)
//!     .practical_salinity(1.0258, tank, Extrapolation::Refuse)?
//!     .salinity();
//! assert!((salinity.value() - 34.47).abs() < 0.01);
//! let water = Water::new(tank, salinity).with_air_pressure(AirPressure::at_altitude_m(430.0)?);
//! let density = water.density()?;
//!
//! // Carbonate system: 8.2 dKH, and a probe calibrated in NBS buffers.
//! let equilibria = water.equilibria(&EquilibriumOptions::default())?;
//! let state = equilibria.solve(
//!     Alkalinity::from_dkh(8.2, density)?,
//!     Ph::<NbsScale>::new(8.15)?,
//! )?;
//! let uncertainties = state.uncertainties(
//!     &UncertaintyBudget::CONSTANTS
//!         .with(Parameter::First, 100.0)?
//!         .with(Parameter::Second, 0.02)?,
//! )?;
//! let aragonite = state.aragonite_saturation().value();
//! assert!((aragonite - 4.06).abs() < 0.01);
//! assert!((uncertainties.standard(Output::Aragonite) - 0.48).abs() < 0.01);
//!
//! // The same alkalinity under the air of the room.
//! let room = DryMoleFractionCo2::from_ppm(900.0)?;
//! let rest = equilibria.under_air(state.alkalinity(), room)?;
//! assert!(rest.ph_total() < state.ph_total());
//!
//! // Gases: 6.3 mg/L of oxygen, at this altitude.
//! let oxygen = Concentration::<form::OxygenAsO2>::from_mg_per_l(6.3)?;
//! let saturation = percent_saturation(oxygen.to_content(density), &water)?.value();
//! assert!((saturation.percent() - 98.8).abs() < 0.1);
//!
//! // Nutrients: 0.05 mg/L of ammonium, most of it harmless.
//! let ammonia = Concentration::<form::AmmoniaAsNh4>::from_mg_per_l(0.05)?;
//! let toxic = unionised_ammonia(&water, state.ph_total(), ammonia.to_content(density))?;
//! let verdict = AmmoniaVerdict::of(toxic.content().to_concentration(density));
//! assert_eq!(verdict, AmmoniaVerdict::WithinLimits);
//!
//! // A bad question is refused, with the input, its value and the limits.
//! let refused = Temperature::from_celsius(78.0).unwrap_err();
//! assert_eq!(
//!     refused.to_string(),
//!     "temperature is 78 °C; it must lie between -5 and 60 °C"
//! );
//! # Ok::<(), halimeda::Error>(())
//! ```
//!
//! The results are estimates for a keeper's own judgement. Check a surprising
//! value with a second kit before acting, and change one thing at a time.
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

#[cfg(feature = "batch")]
pub mod batch;
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
