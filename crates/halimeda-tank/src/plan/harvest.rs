use serde::{Deserialize, Serialize};

use super::case::Case;
use super::influence::{Influence, ensemble_influences, influence_words, influences};
use super::levers::{Lever, Setting};
use super::words::{number, percent, range};
use crate::ensemble::Ensemble;
use crate::error::Result;
use crate::outcome::Outcome;
use crate::quantiles::Quantiles;
use crate::tank::Setup;
use crate::work::{SharedProgress, Work};

/// Harvests at one interval.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct HarvestPoint {
    /// Days between harvests.
    pub every_days: f64,
    /// Nitrogen the turf takes out and keeps, mmol/d.
    pub nitrogen_removed_mmol_per_day: Quantiles,
    /// Phosphorus the turf takes out and keeps, mmol/d.
    pub phosphorus_removed_mmol_per_day: Quantiles,
    /// Dry mass of a harvest, g.
    pub harvest_dry_grams: Quantiles,
    /// Lowest reserve of the holdfast layer, 0 to 1.
    pub turf_reserve: Quantiles,
    /// Nitrate, median over time, mg/L.
    pub nitrate_mg_per_l: Quantiles,
}

/// One interval and depth on the nominal tank.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct DepthPoint {
    /// Days between harvests.
    pub every_days: f64,
    /// Share of the turf left.
    pub kept_share: f64,
    /// Nitrogen the turf takes out and keeps, mmol/d.
    pub nitrogen_removed_mmol_per_day: f64,
    /// Nitrate, median over time, mg/L.
    pub nitrate_mg_per_l: f64,
    /// What a search would make small.
    pub score: f64,
}

/// How often and how deep to harvest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct HarvestAnswer {
    /// Intervals at the case's depth over the ensemble, shortest first.
    pub by_interval: Vec<HarvestPoint>,
    /// Intervals and depths on the nominal tank.
    pub by_depth: Vec<DepthPoint>,
    /// The best of those.
    pub best: DepthPoint,
    /// Shortest and longest interval whose median removal of nitrogen is within 5 %
    /// of the largest.
    pub broad_days: [f64; 2],
    /// Parameters that decide the removal of nitrogen at the longest interval, or in a
    /// plan at the plan's.
    pub influences: Vec<Influence>,
    /// The answer in words.
    pub reason: String,
}

const INTERVALS: [f64; 8] = [3.0, 5.0, 7.0, 10.0, 14.0, 17.0, 21.0, 30.0];
const KEPT_SHARES: [f64; 3] = [0.1, 0.25, 0.5];

/// Followed so long beyond the days looked ahead, and held against the goals over
/// so much more, that even the longest interval shows two harvests.
const FURTHER_DAYS: f64 = 30.0;

/// Removal within this share of the largest is as good.
const BROAD: f64 = 0.95;

fn days(case: &Case<'_>) -> f64 {
    case.options.days + FURTHER_DAYS
}

pub(super) fn harvest_days(case: &Case<'_>) -> f64 {
    (INTERVALS.len() * (KEPT_SHARES.len() + case.few().len())) as f64 * days(case)
}

/// How often and how deep to harvest.
///
/// # Errors
/// A number of the case lies outside its limits; every member failed; or
/// [`Error::Cancelled`](crate::Error::Cancelled).
pub fn harvesting(case: &Case<'_>, progress: SharedProgress<'_>) -> Result<HarvestAnswer> {
    case.ask(progress, harvest_days(case), |work| {
        answer(case, None, work)
    })
}

/// With the ensemble of the case over all members, if it was followed.
pub(super) fn answer(
    case: &Case<'_>,
    followed: Option<&Ensemble>,
    work: &Work<'_>,
) -> Result<HarvestAnswer> {
    let window = case.options.window_days + FURTHER_DAYS;
    let setups: Vec<Setup> = INTERVALS
        .iter()
        .map(|&every| case.varied(Lever::HarvestInterval, every))
        .collect();
    let grid = case.grid(&setups, case.few(), days(case), window, work)?;
    let by_interval: Vec<HarvestPoint> = INTERVALS
        .iter()
        .zip(&grid)
        .filter_map(|(&every_days, row)| {
            let of = |f: fn(&Outcome) -> f64| Quantiles::of(row.iter().flatten().map(f));
            Some(HarvestPoint {
                every_days,
                nitrogen_removed_mmol_per_day: of(|o| o.nitrogen_removed_mmol_per_day)?,
                phosphorus_removed_mmol_per_day: of(|o| o.phosphorus_removed_mmol_per_day)?,
                harvest_dry_grams: of(|o| o.harvest_dry_grams)?,
                turf_reserve: of(|o| o.turf_reserve)?,
                nitrate_mg_per_l: of(|o| o.nitrate_mg_per_l)?,
            })
        })
        .collect();

    let plans: Vec<(f64, f64)> = INTERVALS
        .iter()
        .flat_map(|&every| KEPT_SHARES.iter().map(move |&kept| (every, kept)))
        .collect();
    let setups: Vec<Setup> = plans
        .iter()
        .map(|&(every, kept)| {
            case.setup.with(&[
                Setting {
                    lever: Lever::HarvestInterval,
                    value: every,
                },
                Setting {
                    lever: Lever::KeptShare,
                    value: kept,
                },
            ])
        })
        .collect();
    let nominal = case.grid(&setups, &[*case.nominal], days(case), window, work)?;
    let by_depth: Vec<DepthPoint> = plans
        .iter()
        .zip(&setups)
        .zip(&nominal)
        .filter_map(|((&(every_days, kept_share), setup), row)| {
            let o = row.first()?.as_ref().ok()?;
            Some(DepthPoint {
                every_days,
                kept_share,
                nitrogen_removed_mmol_per_day: o.nitrogen_removed_mmol_per_day,
                nitrate_mg_per_l: o.nitrate_mg_per_l,
                score: case.score(setup, o),
            })
        })
        .collect();
    let best = by_depth.iter().min_by(|a, b| a.score.total_cmp(&b.score));
    let best = *best.ok_or(super::NOTHING_FOLLOWED)?;

    let median = |p: &HarvestPoint| p.nitrogen_removed_mmol_per_day.p50;
    let most = by_interval
        .iter()
        .map(median)
        .fold(f64::NEG_INFINITY, f64::max);
    let mut broad = by_interval
        .iter()
        .filter(|p| median(p) >= BROAD * most)
        .map(|p| p.every_days);
    let shortest = broad.next().unwrap_or(best.every_days);
    let broad_days = [shortest, broad.next_back().unwrap_or(shortest)];
    let removed = |o: &Outcome| o.nitrogen_removed_mmol_per_day;
    let influences = match followed {
        Some(ensemble) => ensemble_influences(case, ensemble, removed),
        None => {
            let longest = grid.last().map_or(&[][..], Vec::as_slice);
            let removed = longest.iter().map(|o| o.as_ref().map_or(f64::NAN, removed));
            influences(case.few(), &removed.collect::<Vec<f64>>())
        }
    };
    Ok(HarvestAnswer {
        reason: words(&by_interval, &best, broad_days, most, &influences),
        by_interval,
        by_depth,
        best,
        broad_days,
        influences,
    })
}

fn words(
    points: &[HarvestPoint],
    best: &DepthPoint,
    [shortest, longest]: [f64; 2],
    most: f64,
    influences: &[Influence],
) -> String {
    let mut words = format!(
        "Every {} days, leaving {} of the turf, serves the goals best on the nominal tank. ",
        number(best.every_days),
        percent(best.kept_share)
    );
    words += &if shortest < longest {
        format!(
            "Between {} and {} days the removal of nitrogen is within 5 % of its best, {} mmol a day.",
            number(shortest),
            number(longest),
            number(most)
        )
    } else {
        format!(
            "The removal of nitrogen is best at {} days, {} mmol a day.",
            number(shortest),
            number(most)
        )
    };
    if let Some(last) = points.last() {
        if last.every_days > longest {
            let removed = &last.nitrogen_removed_mmol_per_day;
            words += &format!(
                " Every {} days it is {} mmol a day, with the holdfast layer's reserve down to {}: a mat left too long starves at its base and lets go.",
                number(last.every_days),
                range(removed, ""),
                range(&last.turf_reserve, ""),
            );
        }
    }
    format!("{words} {}", influence_words(influences))
}
