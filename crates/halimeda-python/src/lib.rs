//! The native half of the Python package `halimeda`: it converts arguments, calls
//! the crates, and converts what comes back. No chemistry lives here.

mod argument;
mod carbonate;
mod column;
mod elementwise;
mod error;
mod knowns;
mod relations;
mod rows;
mod salinity;
mod state;
mod states;
mod tank;
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
    use crate::uncertainty::{Sensitivities, Uncertainties};
    #[pymodule_export]
    use crate::water::{_restore_water, Water};

    /// The version of the package.
    #[pymodule_export]
    #[allow(non_upper_case_globals)] // as Python writes it
    const __version__: &str = env!("CARGO_PKG_VERSION");
}
