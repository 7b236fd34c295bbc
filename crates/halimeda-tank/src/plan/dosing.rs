//! Dosing that holds alkalinity, calcium and magnesium where they are.

use serde::{Deserialize, Serialize};

use super::case::Case;
use super::words::{number, range};
use crate::ensemble::Ensemble;
use crate::error::Result;
use crate::outcome::last_days;
use crate::quantiles::Quantiles;
use crate::tank::{Dosing, Setup};
use crate::work::Work;

/// What the tank uses up and what is dosed for it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct DosingAnswer {
    /// Alkalinity used up, µmol/kg per day.
    pub alkalinity_umol_per_kg_per_day: Quantiles,
    /// Calcium used up, mg/L per day.
    pub calcium_mg_per_l_per_day: Quantiles,
    /// Magnesium used up, mg/L per day.
    pub magnesium_mg_per_l_per_day: Quantiles,
    /// The dosing of the plan.
    pub dosing: Dosing,
    /// The answer in words.
    pub reason: String,
}

/// Runs in which the dosing is found.
pub(super) const HOLDING_RUNS: f64 = 1.0;

/// Days between tests for dosing: common practice, no source.
const TESTED_EVERY_DAYS: f64 = 7.0;

/// The setup with weekly tests of alkalinity, calcium and magnesium, after which
/// doses are adjusted, and with the doses that the nominal tank comes to need.
pub(super) fn held_by_dosing(case: &Case<'_>, work: &Work<'_>) -> Result<Setup> {
    let mut setup = case.setup.clone();
    let dosing = &mut setup.schedule.dosing;
    dosing.adjusted_every_days.get_or_insert(TESTED_EVERY_DAYS);
    let options = last_days(
        &case.options.run(case.options.days),
        case.options.window_days,
    )?;
    let run = work.run(&setup, case.nominal, &options)?;
    setup.schedule.dosing = run.dosing;
    Ok(setup)
}

pub(super) fn answer(planned: &Ensemble, dosing: &Dosing) -> Result<DosingAnswer> {
    let alkalinity = super::of(planned, |o| o.alkalinity_consumed_umol_per_kg_per_day)?;
    let calcium = super::of(planned, |o| o.calcium_consumed_mg_per_l_per_day)?;
    let magnesium = super::of(planned, |o| o.magnesium_consumed_mg_per_l_per_day)?;
    Ok(DosingAnswer {
        reason: format!(
            "Corals and coralline algae, less what the turf's uptake of nitrate gives back, use up {} of alkalinity, {} of calcium and {} of magnesium; the plan doses {} mol of bicarbonate, {} mol of calcium chloride and {} mol of magnesium salt a day. Test before dosing, and follow the labels.",
            range(&alkalinity, "µmol/kg/d"),
            range(&calcium, "mg/L/d"),
            range(&magnesium, "mg/L/d"),
            number(dosing.bicarbonate_mol_per_day),
            number(dosing.calcium_mol_per_day),
            number(dosing.magnesium_mol_per_day),
        ),
        alkalinity_umol_per_kg_per_day: alkalinity,
        calcium_mg_per_l_per_day: calcium,
        magnesium_mg_per_l_per_day: magnesium,
        dosing: *dosing,
    })
}
