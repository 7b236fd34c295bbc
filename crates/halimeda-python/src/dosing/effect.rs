//! What a plan does to the water, and whether it may.

use halimeda::dosing::{
    DoseEffect as InnerEffect, DoseVerdict as InnerVerdict, DosedWater as InnerWater,
    Excess as InnerExcess,
};
use pyo3::prelude::*;

use super::Addition;
use crate::choice::name_of;
use crate::error::{Blame, value_error};
use crate::record::record;

record! {
    /// One state of the dosed water.
    "halimeda.dosing" DosedWater {
        /// The pH on the total scale.
        ph_total: f64,
        /// Total alkalinity, µmol/kg.
        alkalinity_umol_per_kg: f64,
        /// Dissolved inorganic carbon, µmol/kg.
        inorganic_carbon_umol_per_kg: f64,
        /// Partial pressure of CO2, µatm.
        partial_pressure_co2_uatm: f64,
        /// Calcium, µmol/kg.
        calcium_umol_per_kg: f64,
        /// Magnesium, µmol/kg.
        magnesium_umol_per_kg: f64,
        /// Saturation state of aragonite, dimensionless.
        aragonite_saturation: f64,
        /// Practical salinity, by the added mass of salt.
        practical_salinity: f64,
    }
}

impl From<InnerWater> for DosedWater {
    fn from(water: InnerWater) -> Self {
        Self {
            ph_total: water.ph_total().value(),
            alkalinity_umol_per_kg: water.alkalinity().umol_per_kg(),
            inorganic_carbon_umol_per_kg: water.inorganic_carbon().umol_per_kg(),
            partial_pressure_co2_uatm: water.partial_pressure_co2().uatm(),
            calcium_umol_per_kg: water.calcium().umol_per_kg(),
            magnesium_umol_per_kg: water.magnesium().umol_per_kg(),
            aragonite_saturation: water.aragonite_saturation().value(),
            practical_salinity: water.salinity().value(),
        }
    }
}

record! {
    /// What a plan does to the water in its first day. Made by `DosedSystem.effect`.
    "halimeda.dosing" DoseEffect {
        /// Before any dose.
        before: DosedWater,
        /// Right after one portion: no CO2 exchanged, nothing consumed.
        at_once: DosedWater,
        /// After a day's portions and consumption, had no CO2 been exchanged.
        without_exchange: DosedWater,
        /// After a day, once in equilibrium with the CO2 of the room.
        equilibrated: DosedWater,
        /// Before any dose, once in equilibrium with the room.
        equilibrated_undosed: DosedWater,
        /// Net change per kilogram of water in a day, dose less consumption.
        net_per_kg: Addition,
        /// What can hurt when the supplements are handled.
        cautions: Vec<String>,
    }
}

impl DoseEffect {
    pub(super) fn of(effect: &InnerEffect, cautions: Vec<String>) -> Self {
        Self {
            before: effect.before.into(),
            at_once: effect.at_once.into(),
            without_exchange: effect.without_exchange.into(),
            equilibrated: effect.equilibrated.into(),
            equilibrated_undosed: effect.equilibrated_undosed.into(),
            net_per_kg: effect.net_per_kg.into(),
            cautions,
        }
    }
}

record! {
    /// A limit that a plan exceeds.
    "halimeda.dosing" Excess {
        /// Name of the limit in code.
        limit: String,
        /// What it holds.
        name: String,
        /// What the plan reaches, in `unit`.
        value: f64,
        /// What it may reach, in `unit`.
        allowed: f64,
        /// Unit of the numbers.
        unit: String,
        /// Whether values below the limit, instead of above, exceed it.
        is_floor: bool,
        /// That no setting of the limits lets this pass.
        is_past_hard_value: bool,
        /// The refusal in words, with the source of the limit.
        text: String,
    }
}

impl From<InnerExcess> for Excess {
    fn from(excess: InnerExcess) -> Self {
        let limit = excess.limit();
        Self {
            limit: name_of(&limit),
            name: limit.name().to_owned(),
            value: excess.value(),
            allowed: excess.allowed(),
            unit: limit.unit().to_owned(),
            is_floor: limit.is_floor(),
            is_past_hard_value: excess.is_past_hard_value(),
            text: excess.to_string(),
        }
    }
}

record! {
    /// Whether a plan stays within its limits, and every limit it does not.
    ///
    /// Made by `DosedSystem.judge`.
    "halimeda.dosing" DoseVerdict {
        /// Whether every limit holds.
        is_accepted: bool,
        /// The limits that do not hold.
        excesses: Vec<Excess>,
        /// What the plan does to the water, accepted or not.
        effect: DoseEffect,
        /// What can hurt when the supplements are handled.
        cautions: Vec<String>,
    }

    /// Give the effect of a plan that stays within every limit.
    ///
    /// Returns
    /// -------
    /// DoseEffect
    ///     The effect.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A limit does not hold: its name, what the plan reaches and what is allowed.
    fn accepted(&self, py: Python<'_>) -> PyResult<DoseEffect> {
        let Some(excess) = self.excesses.first() else {
            return Ok(self.effect.clone());
        };
        let limits = match excess.is_floor {
            true => (excess.allowed, 14.0),
            false => (0.0, excess.allowed),
        };
        let blame = Blame {
            input: Some(&excess.name),
            value: Some(excess.value),
            limits: Some(limits),
            kind: "out_of_range",
        };
        Err(value_error(py, &excess.text, &blame))
    }
}

impl DoseVerdict {
    pub(super) fn of(verdict: &InnerVerdict, cautions: Vec<String>) -> Self {
        Self {
            is_accepted: verdict.is_accepted(),
            excesses: verdict.excesses().map(Excess::from).collect(),
            effect: DoseEffect::of(verdict.effect(), cautions.clone()),
            cautions,
        }
    }
}
