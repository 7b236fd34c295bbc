use halimeda::parameter::ParameterSet as _;
use halimeda::turf::TurfTraits;
use serde::{Deserialize, Serialize};

use super::case::{Case, Grid};
use super::influence::{Influence, ensemble_influences, influence_words, influences};
use super::levers::{Lever, Setting};
use super::words::{number, percent, range};
use crate::ensemble::Ensemble;
use crate::error::Result;
use crate::outcome::Outcome;
use crate::parameters::Parameters;
use crate::quantiles::Quantiles;
use crate::tank::Setup;
use crate::work::{SharedProgress, Work};

/// The water under a screen of one size.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct AreaPoint {
    /// Lit area over all faces, m².
    pub lit_area_m2: f64,
    /// Nitrate, median over time, mg/L.
    pub nitrate_mg_per_l: Quantiles,
    /// Phosphate, median over time, mg/L.
    pub phosphate_mg_per_l: Quantiles,
    /// Nitrogen that the turf takes out, mmol/d.
    pub nitrogen_removed_mmol_per_day: Quantiles,
    /// Share of the members that meet every goal.
    pub meets_goals: f64,
}

/// How big a screen.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ScreenAnswer {
    /// The water under screens of several sizes, smallest first.
    pub by_area: Vec<AreaPoint>,
    /// Smallest lit area that keeps nitrate and phosphate below the upper ends of
    /// their bands, over the members in which one of the areas followed does. Where
    /// the smallest followed already does, it counts.
    pub least_lit_area_m2: Option<Quantiles>,
    /// Share of the members in which no area followed does.
    pub too_small: f64,
    /// Area on which a rigid, strongly self-shading macroalga, half of it left every two
    /// weeks, removes the nitrogen that turf removes on the case's screen, per area
    /// of that screen; over the members in which one of the areas followed does.
    pub rigid_macroalga_ratio: Option<Quantiles>,
    /// Share of the members in which none does.
    pub rigid_macroalga_too_small: f64,
    /// Parameters that decide the area: by the least areas, or in a plan by how far
    /// nutrients stay below the upper ends of their bands on the plan's screen.
    pub influences: Vec<Influence>,
    /// The answer in words.
    pub reason: String,
}

/// Areas followed, multiples of the case's.
const AREAS: [f64; 6] = [0.25, 0.5, 1.0, 2.0, 4.0, 8.0];

/// How a macroalga is trimmed: common practice, no source.
const MACROALGA_EVERY_DAYS: f64 = 14.0;
const MACROALGA_KEPT_SHARE: f64 = 0.5;

/// Both kinds of algae.
const KINDS: f64 = 2.0;

pub(super) fn screen_days(case: &Case<'_>) -> f64 {
    KINDS * AREAS.len() as f64 * case.few().len() as f64 * case.options.days
}

/// How big a screen for the goals at the case's feeding, light and hours.
///
/// # Errors
/// A number of the case lies outside its limits; every member failed; or
/// [`Error::Cancelled`](crate::Error::Cancelled).
pub fn screen_size(case: &Case<'_>, progress: SharedProgress<'_>) -> Result<ScreenAnswer> {
    case.ask(progress, screen_days(case), |work| answer(case, None, work))
}

/// With the ensemble of the case over all members, if it was followed.
pub(super) fn answer(
    case: &Case<'_>,
    followed: Option<&Ensemble>,
    work: &Work<'_>,
) -> Result<ScreenAnswer> {
    let setups: Vec<Setup> = AREAS
        .iter()
        .map(|&a| case.varied(Lever::ScreenArea, a))
        .collect();
    let (days, window) = (case.options.days, case.options.window_days);
    let turf = case.grid(&setups, case.few(), days, window, work)?;
    let rigid: Vec<Parameters> = case.few().iter().map(as_rigid_macroalga).collect();
    let trimmed = [
        Setting {
            lever: Lever::HarvestInterval,
            value: MACROALGA_EVERY_DAYS,
        },
        Setting {
            lever: Lever::KeptShare,
            value: MACROALGA_KEPT_SHARE,
        },
    ];
    let trimmed: Vec<Setup> = setups.iter().map(|s| s.with(&trimmed)).collect();
    let macroalga = case.grid(&trimmed, &rigid, days, window, work)?;

    let areas: Vec<f64> = setups.iter().map(|s| s.tank.screen.lit_area_m2()).collect();
    let nutrients_in_bands = |o: &Outcome, _: usize| {
        let nitrate = o.nitrate_p95_mg_per_l / case.goals.nitrate_mg_per_l.high;
        let phosphate = o.phosphate_p95_mg_per_l / case.goals.phosphate_mg_per_l.high;
        -nitrate.max(phosphate).ln()
    };
    let least = least_areas(&areas, &turf, nutrients_in_bands);
    let present = AREAS
        .iter()
        .position(|a| a.total_cmp(&1.0).is_eq())
        .and_then(|place| turf.get(place));
    let present: Vec<f64> = present
        .iter()
        .flat_map(|row| row.iter())
        .map(|o| {
            o.as_ref()
                .map_or(f64::NAN, |o| o.nitrogen_removed_mmol_per_day)
        })
        .collect();
    let as_much = |o: &Outcome, member: usize| {
        let turf = present.get(member).copied().unwrap_or(f64::NAN);
        // Nothing to compare with where turf removes nothing.
        if turf > 0.0 {
            o.nitrogen_removed_mmol_per_day - turf
        } else {
            f64::NAN
        }
    };
    let ratios = least_areas(&AREAS, &macroalga, as_much);
    let finite = |areas: &[f64]| Quantiles::of(areas.iter().copied().filter(|a| a.is_finite()));
    let none = |areas: &[f64]| {
        let known = areas.iter().filter(|a| !a.is_nan()).count().max(1) as f64;
        areas.iter().filter(|a| a.is_infinite()).count() as f64 / known
    };
    let mut answer = ScreenAnswer {
        by_area: areas
            .iter()
            .zip(&turf)
            .filter_map(|(&lit_area_m2, outcomes)| {
                let all = || outcomes.iter().flatten();
                let of = |f: fn(&Outcome) -> f64| Quantiles::of(all().map(f));
                Some(AreaPoint {
                    lit_area_m2,
                    nitrate_mg_per_l: of(|o| o.nitrate_mg_per_l)?,
                    phosphate_mg_per_l: of(|o| o.phosphate_mg_per_l)?,
                    nitrogen_removed_mmol_per_day: of(|o| o.nitrogen_removed_mmol_per_day)?,
                    meets_goals: all().filter(|o| case.goals.met_by(o)).count() as f64
                        / all().count() as f64,
                })
            })
            .collect(),
        least_lit_area_m2: finite(&least),
        too_small: none(&least),
        rigid_macroalga_ratio: finite(&ratios),
        rigid_macroalga_too_small: none(&ratios),
        influences: match followed {
            Some(ensemble) => ensemble_influences(case, ensemble, |o| -nutrients_in_bands(o, 0)),
            None => influences(case.few(), &least),
        },
        reason: String::new(),
    };
    answer.reason = words(case, &areas, &answer);
    Ok(answer)
}

/// Per member the smallest area, interpolated in the logarithm, on which a margin
/// is not negative; infinite if none is, not a number if the member failed.
fn least_areas(areas: &[f64], grid: &Grid, margin: impl Fn(&Outcome, usize) -> f64) -> Vec<f64> {
    let members = grid.first().map_or(0, Vec::len);
    (0..members)
        .map(|member| {
            let mut before: Option<(f64, f64)> = None;
            for (area, row) in areas.iter().map(|a| a.ln()).zip(grid) {
                let Some(Ok(outcome)) = row.get(member) else {
                    return f64::NAN;
                };
                let here = margin(outcome, member);
                if here.is_nan() {
                    return f64::NAN;
                }
                if here >= 0.0 {
                    return match before {
                        Some((smaller, short)) => {
                            (smaller + (area - smaller) * short / (short - here)).exp()
                        }
                        None => area.exp(),
                    };
                }
                before = Some((area, here));
            }
            f64::INFINITY
        })
        .collect()
}

/// The same member with its turf exchanged for a rigid macroalga: every trait in
/// the proportion in which the two differ by default.
pub(super) fn as_rigid_macroalga(member: &Parameters) -> Parameters {
    let (green, rigid) = (TurfTraits::green_filament(), TurfTraits::rigid_macroalga());
    let mut turf = member.turf;
    for i in 0..TurfTraits::PARAMETERS.len() {
        if let (Some(g), Some(r), Some(drawn)) = (green.value(i), rigid.value(i), turf.value(i)) {
            turf = turf.with_value(i, drawn * (r / g));
        }
    }
    Parameters { turf, ..*member }
}

fn words(case: &Case<'_>, areas: &[f64], answer: &ScreenAnswer) -> String {
    let (first, last) = match (areas.first(), areas.last()) {
        (Some(first), Some(last)) => (number(*first), number(*last)),
        _ => return String::new(),
    };
    let goals = case.goals;
    let aim = format!(
        "nitrate below {} and phosphate below {} mg/L",
        number(goals.nitrate_mg_per_l.high),
        number(goals.phosphate_mg_per_l.high)
    );
    let mut words = match &answer.least_lit_area_m2 {
        Some(area) if area.p95 <= areas.first().copied().unwrap_or_default() * 1.001 => {
            format!("Already the smallest screen followed, {first} m² lit, keeps {aim}.")
        }
        Some(area) => format!(
            "{} lit keep {aim}: the area over all lit faces at which the turf takes up the load that the bands leave over.",
            range(area, "m²")
        ),
        None => format!(
            "No screen from {first} to {last} m² lit keeps {aim} within {} days.",
            number(case.options.days)
        ),
    };
    if answer.too_small > 0.0 && answer.least_lit_area_m2.is_some() {
        words += &format!(
            " In {} of the ensemble even {last} m² do not.",
            percent(answer.too_small)
        );
    }
    if let Some(ratio) = &answer.rigid_macroalga_ratio {
        words += &format!(
            " A rigid, self-shading macroalga needs {} times the area to remove the same nitrogen.",
            range(ratio, "")
        );
    }
    if answer.rigid_macroalga_too_small > 0.0 {
        words += &format!(
            " In {} of the ensemble it does not on any area up to {last} m².",
            percent(answer.rigid_macroalga_too_small)
        );
    }
    format!("{words} {}", influence_words(&answer.influences))
}
