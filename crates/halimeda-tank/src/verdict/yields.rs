//! Harvests beside what the model expected of them.

use serde::Serialize;
use statrs::distribution::{ContinuousCDF as _, Normal};

use crate::log::{HarvestWeight, Record};
use crate::logged::LoggedTank;
use crate::parameters::Parameters;
use crate::quantiles::Quantiles;
use crate::simulate::Run;

/// A weighed harvest beside what was expected.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct HarvestYield {
    /// Time since the start, d.
    pub day: f64,
    /// What was weighed.
    pub weight: HarvestWeight,
    /// What the members gave, as it was weighed, g.
    pub expected_grams: Quantiles,
    /// Share of what members and scales make likely that lies below the weight.
    pub share_below: f64,
    /// The same as standard deviations from the middle.
    pub z_score: f64,
}

/// Standard uncertainty of the logarithm of a wet and of a dry weight: how well it is
/// drained and how much comes off. Common practice, no source.
const WET: f64 = 0.15;
const DRY: f64 = 0.1;

/// Shares are held within this of 0 and 1, as far as members can tell.
const LEAST_SHARE: f64 = 1e-4;

/// A logged harvest lies no farther than this from the simulated one it belongs to, d.
const SAME_HARVEST_DAYS: f64 = 0.01;

pub(super) fn yields(tank: &LoggedTank<'_>, followed: &[(&Parameters, &Run)]) -> Vec<HarvestYield> {
    let normal = Normal::standard();
    tank.log
        .entries
        .iter()
        .filter(|e| e.day <= tank.today)
        .filter_map(|e| match e.record {
            Record::Harvest { weight } => Some((e.day, weight?)),
            _ => None,
        })
        .filter_map(|(day, weight)| {
            let expected: Vec<f64> = followed
                .iter()
                .filter_map(|(parameters, run)| {
                    let harvest = run
                        .harvests
                        .iter()
                        .find(|h| (h.day - day).abs() < SAME_HARVEST_DAYS)?;
                    Some(match weight {
                        HarvestWeight::DryGrams(_) => harvest.harvest.dry_grams,
                        HarvestWeight::WetGrams(_) => {
                            harvest.harvest.dry_grams / parameters.turf.dry_per_drained_mass
                        }
                    })
                })
                .collect();
            let (grams, error) = match weight {
                HarvestWeight::WetGrams(grams) => (grams, WET),
                HarvestWeight::DryGrams(grams) => (grams, DRY),
            };
            let expected_grams = Quantiles::of(expected.iter().copied())?;
            let below = |x: &f64| normal.cdf((grams.max(1e-3) / x.max(1e-3)).ln() / error);
            let share_below = expected.iter().map(below).sum::<f64>() / expected.len() as f64;
            Some(HarvestYield {
                day,
                weight,
                expected_grams,
                share_below,
                z_score: normal.inverse_cdf(share_below.clamp(LEAST_SHARE, 1.0 - LEAST_SHARE)),
            })
        })
        .collect()
}
