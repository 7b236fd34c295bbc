//! The native half of the Python package `halimeda`: it converts arguments, calls
//! the crates, and converts what comes back. No chemistry lives here.

mod argument;
mod carbonate;
mod choice;
mod column;
mod dosing;
mod elementwise;
mod error;
mod gas;
mod knowns;
mod nutrient;
mod probe;
mod process;
mod record;
mod relations;
mod rows;
mod salinity;
mod state;
mod states;
mod tank;
mod turf;
mod uncertainty;
mod water;
mod waters;

/// The native half of halimeda; import `halimeda` instead.
#[pyo3::pymodule(gil_used = false)]
mod _native {
    #[pymodule_export]
    use crate::argument::{_Measure, _split_quantity};
    #[pymodule_export]
    use crate::carbonate::carbonate;
    #[pymodule_export]
    use crate::dosing::{
        Addition, BalancedDose, Consumption, Correction, Dose, DoseEffect, DoseLimits, DosePlan,
        DoseVerdict, DosedSystem, DosedWater, Excess, Limit, ReactorEffluent, Salt, Supplement,
        alkalinity_fall_umol_per_kg_per_day, balanced_dose, carbonate_dissolved_by_co2,
        content_fall_umol_per_kg_per_day, limewater_mol_per_l,
    };
    #[pymodule_export]
    use crate::gas::{
        Exchange, ExchangePath, FilmFlow, ReaerationFit, TotalGasPressure,
        carbon_dioxide_solubility_umol_per_kg, co2_dry_mole_fraction_ppm, co2_fugacity_uatm,
        co2_partial_pressure_from_fugacity_uatm, co2_partial_pressure_uatm,
        content_at_saturation_umol_per_kg, diffusivity_m2_per_s, exchange, film_flow,
        partial_pressure_atm, percent_saturation, percent_saturation_at_depth, reaeration,
        schmidt_number, solubility_umol_per_kg, total_gas_pressure, transfer_factor,
    };
    #[pymodule_export]
    use crate::nutrient::{
        ContentEstimate, KitReading, NitrogenToPhosphorus, Stoichiometry, UnionisedAmmonia,
        concentration_mg_per_l, content_umol_per_kg, dissolved_inorganic_nitrogen, stoichiometry,
        unionised_ammonia, unionised_ammonia_fraction,
    };
    #[pymodule_export]
    use crate::probe::{
        BufferReading, ProbeCalibration, ProbeDrift, ProbeReading, compensated_ph_nbs,
        compensated_ph_total, nernst_slope_mv_per_ph, reference_buffer_ph_nbs,
        seawater_buffer_ph_total,
    };
    #[pymodule_export]
    use crate::process::{
        LivestockRates, OrganicMatter, Parameter, air_vapour_pressure_kpa,
        coral_calcification_mol_per_day, coralline_calcification_mol_per_day,
        denitrification_mol_per_day, display_photosynthesis_mol_per_day,
        display_respiration_mol_per_day, evaporation_kg_per_day, feed,
        iron_oxide_uptake_mol_per_day, livestock, mineralisation_mol_per_day,
        nitrification_mol_per_day, parameters, top_off_kg_per_day,
    };
    #[pymodule_export]
    use crate::relations::{Relation, relations};
    #[pymodule_export]
    use crate::salinity::{
        air_pressure_from_sea_level, conductivity_from_specific_conductance,
        practical_salinity_from_conductivity, practical_salinity_from_density,
        practical_salinity_from_hydrometer, practical_salinity_from_refractive_index,
        practical_salinity_from_refractometer, practical_salinity_from_specific_gravity,
        specific_gravity,
    };
    #[pymodule_export]
    use crate::state::{
        _restore_state, AlkalinityParts, BufferFactors, CarbonateState, EquilibriumConstants,
    };
    #[pymodule_export]
    use crate::states::{_outputs, _statuses};
    #[pymodule_export]
    use crate::tank::{
        Description, KeeperLog, Members, ask, ask_log, changed_toml, dosed_salts, example_tanks,
        failure_words, fit_log, follow_ensemble, forecast_skill, invented_log, lever_values,
        levers, log_rates, measured, outcomes, parameter_infos, plan_defaults, read_log,
        read_log_columns, stocks, unfitted, upkeep_calendar, upkeep_words, variables, written_toml,
    };
    #[pymodule_export]
    use crate::turf::{
        Harvest, TissueMetals, TurfRates, TurfStock, film_velocity_m_per_s,
        irradiance_umol_per_m2_per_s, lamp_remaining, temperature_response, tissue_metals,
        transfer_m_per_day, turf_rates,
    };
    #[pymodule_export]
    use crate::uncertainty::{Sensitivities, Uncertainties};
    #[pymodule_export]
    use crate::water::{_restore_water, Water};

    /// The version of the package.
    #[pymodule_export]
    #[allow(non_upper_case_globals)] // as Python writes it
    const __version__: &str = env!("CARGO_PKG_VERSION");
}
