//! Nitrogen beside phosphorus, and which of them turf runs short of.

use halimeda::nutrient::{ContentEstimate, ElementalRatio, NitrogenToPhosphorus, NutrientBalance};
use halimeda::quantity::{Form, species};
use halimeda::{Content, form};
use serde::Serialize;

use super::stall::quotas;
use crate::error::Result;
use crate::fit::Member;
use crate::log::{Log, Measured, Reading};
use crate::logged::LoggedTank;
use crate::model::water_of;
use crate::simulate::Run;

/// Nitrogen beside phosphorus.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Balance {
    /// Nitrate per phosphate of the last readings, mol/mol; none without both, or where
    /// phosphate shows nothing.
    pub water_mol_per_mol: Option<f64>,
    /// Interval of about 95 %; open above where phosphate cannot be told from nothing.
    pub water_interval: Option<(f64, Option<f64>)>,
    /// Which of them the water holds in excess of what marine benthic plants are made
    /// of, 30 to 1 (Atkinson & Smith 1983).
    pub water: Option<NutrientBalance>,
    /// Share of the members in which stored nitrogen holds the turf back more than
    /// stored phosphorus.
    pub nitrogen_limits: f64,
    /// Growth that the scarcer of the two allows, of that of replete turf, median over
    /// the members.
    pub growth_allowed: f64,
}

pub(super) fn balance(tank: &LoggedTank<'_>, members: &[(&Member, &Run)]) -> Result<Balance> {
    let stored: Vec<[f64; 2]> = members
        .iter()
        .filter_map(|(m, run)| Some(quotas(&m.parameters, run.samples.last()?)))
        .collect();
    let limited = stored.iter().filter(|[n, p]| n < p).count();
    let allowed = crate::quantiles::sorted(stored.iter().map(|[n, p]| n.min(*p)));
    let ratio = ratio(tank)?;
    Ok(Balance {
        water_mol_per_mol: ratio.map(|r| r.value()),
        water_interval: ratio.map(|r| r.interval()),
        water: ratio.map(|r| r.balance(ElementalRatio::BENTHIC_PLANTS)),
        nitrogen_limits: limited as f64 / stored.len().max(1) as f64,
        growth_allowed: crate::quantiles::quantile(&allowed, 0.5).unwrap_or(f64::NAN),
    })
}

fn last(log: &Log, measured: Measured, until: f64) -> Option<&Reading> {
    log.readings
        .iter()
        .filter(|r| r.measured == measured && r.day <= until)
        .max_by(|a, b| a.day.total_cmp(&b.day))
}

fn ratio(tank: &LoggedTank<'_>) -> Result<Option<NitrogenToPhosphorus>> {
    let last = |measured| last(tank.log, measured, tank.today);
    let (Some(nitrate), Some(phosphate)) = (last(Measured::Nitrate), last(Measured::Phosphate))
    else {
        return Ok(None);
    };
    let kg_per_l = water_of(&tank.setup.tank, tank.setup.tank.practical_salinity)?
        .density()?
        .kg_per_l();
    let umol_per_kg = |mg_per_l: f64, grams_per_mol: f64| mg_per_l / grams_per_mol / kg_per_l * 1e3;
    let of = |reading: &Reading, grams_per_mol: f64| {
        [
            umol_per_kg(reading.interval.middle(), grams_per_mol),
            umol_per_kg(reading.interval.standard_deviation(), grams_per_mol),
        ]
    };
    let [n, u_n] = of(nitrate, form::NitrateAsNo3::GRAMS_PER_MOL);
    let [p, u_p] = of(phosphate, form::PhosphateAsPo4::GRAMS_PER_MOL);
    if p <= 0.0 {
        return Ok(None);
    }
    let nitrogen = ContentEstimate::<species::InorganicNitrogen>::new(
        Content::from_umol_per_kg(n)?,
        Content::from_umol_per_kg(u_n)?,
    );
    let phosphorus = ContentEstimate::<species::Phosphate>::new(
        Content::from_umol_per_kg(p)?,
        Content::from_umol_per_kg(u_p)?,
    );
    Ok(Some(NitrogenToPhosphorus::new(nitrogen, phosphorus)?))
}
