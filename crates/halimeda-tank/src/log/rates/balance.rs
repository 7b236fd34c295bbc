use halimeda::dosing::Consumption;
use halimeda::nutrient::CarbonateComposition;
use halimeda::quantity::{Form as _, form};
use halimeda::{Alkalinity, Mass};
use serde::{Deserialize, Serialize};

use super::{Estimate, pooled_rate};
use crate::description::{Medium, medium, unit, water};
use crate::error::{Error, Result};
use crate::log::{Log, Measured};
use crate::tank::Setup;

/// Nitrogen and phosphorus that the water gains per day over a stretch, water changes
/// and dosing taken out; below zero where more is taken up than comes in.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Balance {
    /// Nitrogen of nitrate, and of ammonia where it was tested; mmol/d.
    pub nitrogen_mmol_per_day: Option<Estimate>,
    /// The same, g/d.
    pub nitrogen_grams_per_day: Option<Estimate>,
    /// Phosphorus of phosphate, mmol/d.
    pub phosphorus_mmol_per_day: Option<Estimate>,
    /// The same, g/d.
    pub phosphorus_grams_per_day: Option<Estimate>,
    /// Whether ammonia is in the nitrogen.
    pub counts_ammonia: bool,
}

/// The balance of nitrogen and phosphorus over a stretch of days.
///
/// # Errors
/// Neither nitrate nor phosphate has two tests in it; or as
/// [`net_rates`](super::net_rates).
pub fn balance(setup: &Setup, log: &Log, from_day: f64, to_day: f64) -> Result<Balance> {
    let pooled = |measured| match pooled_rate(setup, log, measured, from_day, to_day) {
        Ok(rate) => Ok(Some(rate.mol_per_day.scaled(1e3))),
        Err(Error::TooFewTests { .. }) => Ok(None),
        Err(error) => Err(error),
    };
    let (nitrate, ammonia) = (pooled(Measured::Nitrate)?, pooled(Measured::Ammonia)?);
    let phosphorus = pooled(Measured::Phosphate)?;
    if nitrate.is_none() && phosphorus.is_none() {
        let tests = super::tests(log, Measured::Nitrate, (from_day, to_day));
        return Err(super::too_few(
            Measured::Nitrate,
            tests.len(),
            (from_day, to_day),
        ));
    }
    let nitrogen = nitrate.map(|nitrate| match ammonia {
        Some(ammonia) => sum(nitrate, ammonia),
        None => nitrate,
    });
    let grams =
        |mmol: Option<Estimate>, grams_per_mol: f64| mmol.map(|m| m.scaled(1e-3 * grams_per_mol));
    Ok(Balance {
        nitrogen_mmol_per_day: nitrogen,
        nitrogen_grams_per_day: grams(nitrogen, form::NitrateAsN::GRAMS_PER_MOL),
        phosphorus_mmol_per_day: phosphorus,
        phosphorus_grams_per_day: grams(phosphorus, form::PhosphateAsP::GRAMS_PER_MOL),
        counts_ammonia: nitrate.is_some() && ammonia.is_some(),
    })
}

/// Sum of two independent numbers: deviations from the medians add as squares, each side
/// for itself.
fn sum(a: Estimate, b: Estimate) -> Estimate {
    let p50 = a.p50 + b.p50;
    Estimate {
        p5: p50 - (a.p50 - a.p5).hypot(b.p50 - b.p5),
        p50,
        p95: p50 + (a.p95 - a.p50).hypot(b.p95 - b.p50),
    }
}

/// What corals and all else take of alkalinity, calcium and magnesium per day.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct ConsumptionEstimate {
    /// Alkalinity, dKH/d.
    pub alkalinity_dkh_per_day: Estimate,
    /// Alkalinity of the whole system, meq/d.
    pub alkalinity_meq_per_day: Estimate,
    /// Calcium, mg/L/d; none with fewer than two tests.
    pub calcium_mg_per_l_per_day: Option<Estimate>,
    /// Magnesium, mg/L/d; none with fewer than two tests.
    pub magnesium_mg_per_l_per_day: Option<Estimate>,
    /// Calcium beyond what the alkalinity would take as calcium carbonate, one mole for
    /// two equivalents, mmol/d of the whole system; a range that holds zero is what
    /// calcification alone does.
    pub calcium_beyond_mmol_per_day: Option<Estimate>,
}

impl ConsumptionEstimate {
    /// Whether calcium and alkalinity fall as calcification takes them. None without
    /// tests of calcium.
    ///
    /// Alkalinity also falls as nitrate gathers, and rises as turf or bacteria take
    /// nitrate up, each by one equivalent per mole; test kits read old or dosed water
    /// wrongly; and calcium is read too coarsely to tell within a few days.
    #[must_use]
    pub fn is_calcification(&self) -> Option<bool> {
        Some(self.calcium_beyond_mmol_per_day?.holds(0.0))
    }
}

/// Consumption of alkalinity, calcium and magnesium over a stretch of days.
///
/// # Errors
/// As [`net_rates`](super::net_rates), for alkalinity.
pub fn consumption(
    setup: &Setup,
    log: &Log,
    from_day: f64,
    to_day: f64,
) -> Result<ConsumptionEstimate> {
    let taken = |measured| {
        let rate = pooled_rate(setup, log, measured, from_day, to_day)?;
        Ok((rate.per_day.scaled(-1.0), rate.mol_per_day.scaled(-1e3)))
    };
    let optional = |measured| match taken(measured) {
        Ok(taken) => Ok(Some(taken)),
        Err(Error::TooFewTests { .. }) => Ok(None),
        Err(error) => Err(error),
    };
    let (alkalinity, alkalinity_meq) = taken(Measured::Alkalinity)?;
    let (calcium, magnesium) = (optional(Measured::Calcium)?, optional(Measured::Magnesium)?);
    let of_carbonate = calcium_per_equivalent()?;
    let beyond = calcium.map(|(_, calcium)| sum(calcium, alkalinity_meq.scaled(-of_carbonate)));
    Ok(ConsumptionEstimate {
        alkalinity_dkh_per_day: alkalinity.scaled(dkh_per_umol_per_kg(setup)?),
        alkalinity_meq_per_day: alkalinity_meq,
        calcium_mg_per_l_per_day: calcium.map(|(per_litre, _)| per_litre),
        magnesium_mg_per_l_per_day: magnesium.map(|(per_litre, _)| per_litre),
        calcium_beyond_mmol_per_day: beyond,
    })
}

/// Calcium that calcification takes with an equivalent of alkalinity, mol.
fn calcium_per_equivalent() -> Result<f64> {
    let alkalinity = Alkalinity::from_umol_per_kg(1.0)?;
    let taken = Consumption::by_calcification(alkalinity, CarbonateComposition::CALCIUM_ONLY)?;
    let per_day = taken.per_day(Mass::from_kilograms(1.0)?);
    Ok(per_day.calcium_mol / per_day.alkalinity_eq)
}

fn dkh_per_umol_per_kg(setup: &Setup) -> Result<f64> {
    let tank = &setup.tank;
    let water = water(
        tank.temperature_celsius,
        tank.practical_salinity,
        tank.air.pressure_atm,
    );
    let medium: Medium = medium(water.as_ref());
    let dkh = unit::ALKALINITY
        .unit("dKH")
        .and_then(|unit| unit.of_kept(1.0, &medium));
    dkh.ok_or(Error::OutOfRange {
        input: "practical salinity",
        value: tank.practical_salinity,
        min: 0.0,
        max: 42.0,
    })
}
