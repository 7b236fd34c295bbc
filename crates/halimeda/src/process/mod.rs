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
//! - Contents are in mol/kg, amounts in mol. Where a trial step has pushed a pool
//!   below zero, saturating rates are zero and first-order ones pull it back;
//!   either way they are continuous there.
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
    CalcificationRates, CoralCalcification, CorallineCalcification, RelativeCations,
    coral_calcification, coralline_calcification,
};
pub use carbon_dosing::{
    BacteriaOnDosedCarbon, BacterialRates, BacterialSupply, bacterial_death, bacterial_rates,
};
pub use display::{Display, DisplayRates, display_rates};
pub use evaporation::{
    Evaporation, TopOff, air_vapour_pressure_kpa, evaporation_kg_per_day, top_off_kg_per_day,
};
pub use feed::{FeedComposition, FeedKind};
pub use foam::{FoamFractionation, FoamRates, foam_rates};
pub use gas_transfer::GasTransfer;
pub(crate) use limitation::rounded_excess;
pub use limitation::{REFERENCE_CELSIUS, michaelis_menten, temperature_factor};
pub use livestock::{FastingRates, Livestock, LivestockRates, fasting_rates, livestock_rates};
pub use media::{IronOxideMedia, iron_oxide_uptake};
pub use nitrogen::{Denitrification, Nitrification, denitrification, nitrification};
pub use organic::{Mineralisation, OrganicMatter, mineralisation_rates};

// Parameters carry the units of the field; rates are computed in mol and kg.
const MOL_PER_MMOL: f64 = 1e-3;
const MOL_PER_UMOL: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parameter::ParameterSet;

    fn ranges_hold<P: ParameterSet>() {
        P::default().check().unwrap();
        for (i, info) in P::PARAMETERS.iter().enumerate() {
            assert!(info.low < info.high, "{}", info.name);
            assert!(
                info.low <= info.default && info.default <= info.high,
                "{}",
                info.name
            );
            assert!(info.low > 0.0, "{}", info.name);
            for value in [info.low, info.high] {
                P::default().with_value(i, value).check().unwrap();
            }
            for value in [-1.0, f64::NAN, f64::INFINITY] {
                let e = P::default().with_value(i, value).check().unwrap_err();
                assert_eq!(e.input(), info.name);
            }
        }
    }

    #[test]
    fn every_default_lies_in_its_range_and_every_range_is_accepted() {
        ranges_hold::<BacteriaOnDosedCarbon>();
        ranges_hold::<CoralCalcification>();
        ranges_hold::<CorallineCalcification>();
        ranges_hold::<Denitrification>();
        ranges_hold::<Display>();
        ranges_hold::<Evaporation>();
        ranges_hold::<FeedComposition>();
        ranges_hold::<FoamFractionation>();
        ranges_hold::<IronOxideMedia>();
        ranges_hold::<Livestock>();
        ranges_hold::<Mineralisation>();
        ranges_hold::<Nitrification>();
        ranges_hold::<TopOff>();
    }

    #[test]
    fn a_fraction_above_one_is_refused() {
        let greedy = Livestock {
            nitrogen_retention: 1.01,
            ..Livestock::default()
        };
        let e = greedy.check().unwrap_err();
        assert_eq!(e.input(), "nitrogen_retention");
        assert_eq!(e.limits(), Some((0.0, 1.0)));
    }
}
