//! Dissolved gases: solubility, saturation, exchange with the air.
//!
//! A reading of oxygen means little without the water's temperature, salinity
//! and air pressure. [`percent_saturation`] puts them together:
//!
//! ```
//! use halimeda::{AirPressure, Concentration, PracticalSalinity, Temperature, Water, form};
//! use halimeda::gas::percent_saturation;
//! let water = Water::new(Temperature::from_celsius(25.5)?, PracticalSalinity::new(35.0)?)
//!     .with_air_pressure(AirPressure::from_hpa(955.0)?);
//! let reading = Concentration::<form::OxygenAsO2>::from_mg_per_l(6.1)?;
//! let saturation = percent_saturation(reading.to_content(water.density()?), &water)?;
//! assert!((saturation.value().percent() - 96.6).abs() < 0.1);
//! # Ok::<(), halimeda::Error>(())
//! ```
//!
//! How fast the water comes to equilibrium is the sum of its [`ExchangePath`]s
//! ([`exchange`]); a user's own kLa comes from a re-aeration record
//! ([`Reaeration`]). Supersaturation that harms animals is judged from the
//! [`TotalGasPressure`], not from oxygen alone.

mod air;
mod carbon_dioxide;
mod exchange;
mod falling_film;
mod kind;
mod reaeration;
mod saturation;
mod schmidt;
mod solubility;
mod total_pressure;
mod transfer;

pub use air::Air;
pub use carbon_dioxide::{
    carbon_dioxide_solubility, co2_dry_mole_fraction, co2_fugacity, co2_partial_pressure,
    co2_partial_pressure_from_fugacity,
};
pub use exchange::{Exchange, ExchangePath, GasFlux, PathKind, exchange};
pub use falling_film::{FallingFilm, FilmFlow};
pub use kind::{AirGas, Gas, GasKind};
pub use reaeration::{Estimate, Reading, Reaeration, ReaerationFit};
pub use saturation::{
    content_at_saturation, partial_pressure, percent_saturation, percent_saturation_at_depth,
};
pub use schmidt::{diffusivity_m2_per_s, schmidt_number};
pub use solubility::{argon_solubility, nitrogen_solubility, oxygen_solubility, solubility};
pub use total_pressure::{
    FISH_DELTA_P_FIDLER_MILLER1994, LARVAE_DELTA_P_CORNACCHIA_COLT1984, TotalGasPressure,
};
pub use transfer::{Surface, TemperatureLaw, TransferBasis};

use crate::relation::{Relation, RelationSet};
use crate::water::vapour::vapour_pressure_atm;
use crate::{Result, Water};

/// Checks the relations a result needs and notes those it extrapolates.
fn check(water: &Water, relations: &[Relation]) -> Result<RelationSet> {
    let mut extrapolated = RelationSet::EMPTY;
    for &relation in relations {
        if water.check(relation)? {
            extrapolated.insert(relation);
        }
    }
    Ok(extrapolated)
}

/// Vapour pressure over the water, atm; unchecked.
fn vapour_atm(water: &Water) -> f64 {
    vapour_pressure_atm(water.temperature().kelvin(), water.salinity().value())
}

/// Pressure of the water column above, atm.
fn hydrostatic_atm(water: &Water) -> f64 {
    water.water_pressure().bar() / 1.01325
}
