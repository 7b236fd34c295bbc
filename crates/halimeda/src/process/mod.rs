//! Rates of the processes that change a tank: feeding, decay, nitrification,
//! media, foam, dosed carbon, calcification, the display and evaporation.
//!
//! Every function gives the extent of one process, in mol/d for the whole system
//! unless said otherwise; what a mole of it does to the water is in
//! [`nutrient::Process`](crate::nutrient::Process). The functions are pure and
//! meant to run inside an integrator, some 10⁵ times for a simulated year:
//!
//! - They check nothing. Call [`ParameterSet::check`](crate::parameter::ParameterSet::check)
//!   once on each set of parameters; then every rate is finite for finite arguments.
//! - Contents are in mol/kg, amounts in mol. A pool that a trial step has pushed
//!   below zero gives no rate out of it: the rates are continuous there.
//! - Temperature enters as a factor, computed once for a stretch of constant
//!   temperature by [`temperature_factor`].
//! - Light enters as the lit fraction, 0 in the dark to 1 under the full lamp.
//!
//! Defaults are typical values with a range, never a measurement of the tank at hand.

mod boundary_layer;
mod calcification;
mod carbon_dosing;
mod display;
mod evaporation;
mod feed;
mod foam;
mod gas_transfer;
mod limitation;
mod livestock;
mod media;
mod nitrogen;
mod organic;

pub use boundary_layer::uptake_through_boundary_layer;
pub use calcification::{
    CalcificationRates, CoralCalcification, CorallineCalcification, coral_calcification,
    coralline_calcification,
};
pub use carbon_dosing::{
    BacteriaOnDosedCarbon, BacterialRates, BacterialSupply, bacterial_death, bacterial_rates,
};
pub use display::{Display, DisplayRates, display_rates};
pub use evaporation::{
    Evaporation, TopOff, air_vapour_pressure_kpa, evaporation_kg_per_d, top_off_kg_per_d,
};
pub use feed::{FeedComposition, FeedKind};
pub use foam::{FoamFractionation, FoamRates, foam_rates};
pub use gas_transfer::GasTransfer;
pub use limitation::{REFERENCE_CELSIUS, michaelis_menten, temperature_factor};
pub use livestock::{FastingRates, Livestock, LivestockRates, fasting_rates, livestock_rates};
pub use media::{IronOxideMedia, iron_oxide_uptake};
pub use nitrogen::{Denitrification, Nitrification, denitrification, nitrification};
pub use organic::{Mineralisation, OrganicMatter, mineralisation_rates};

// Parameters carry the units of the field; rates are computed in mol and kg.
const MOL_PER_MMOL: f64 = 1e-3;
const MOL_PER_UMOL: f64 = 1e-6;
