//! What matters most: parameters by rank correlation over an ensemble, levers
//! moved one at a time.

use serde::{Deserialize, Serialize};

use super::case::Case;
use super::levers::{Lever, Levers};
use super::words::number;
use crate::ensemble::Ensemble;
use crate::error::Result;
use crate::outcome::Outcome;
use crate::parameters::Parameters;
use crate::work::Work;

/// How much a parameter decides an answer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Influence {
    /// Group and name of the parameter.
    pub parameter: String,
    /// Rank correlation (Spearman) between parameter and answer over the members:
    /// 1 and -1 decide it alone, 0 not at all.
    pub rank_correlation: f64,
}

/// Correlations below so many standard errors may be chance. Draws that fill their
/// ranges evenly scatter a quarter more against each other than random ones; of a
/// hundred parameters without influence, two in three lists show none.
const STANDARD_ERRORS: f64 = 3.5;

/// No more than a keeper would read.
const MOST_LISTED: usize = 5;

/// Parameters that turn a lamp's watts into irradiance while a description is read.
/// A tank is described by the irradiance itself, so they move nothing here, and a
/// correlation with them is chance.
const OF_THE_DESCRIPTION: [&str; 2] = ["efficacy_umol_per_joule", "share_on_screen"];

/// The parameters that matter most for an answer, strongest first. Members draw
/// their parameters independently of each other, so that rank correlations stand
/// for standardised rank regression coefficients, of which there would be too many
/// for the members.
pub(super) fn influences(members: &[Parameters], answers: &[f64]) -> Vec<Influence> {
    let pairs: Vec<(&Parameters, f64)> = members
        .iter()
        .zip(answers.iter().copied())
        .filter(|(_, a)| !a.is_nan())
        .collect();
    let least = STANDARD_ERRORS / (pairs.len() as f64).sqrt();
    let answer_ranks = ranks(pairs.iter().map(|&(_, a)| a));
    let mut found: Vec<Influence> = Parameters::infos()
        .enumerate()
        .filter(|(_, (_, info))| !OF_THE_DESCRIPTION.contains(&info.name))
        .filter_map(|(i, (group, info))| {
            let values = pairs.iter().map(|(p, _)| p.value(i).unwrap_or_default());
            let rank_correlation = correlation(&ranks(values), &answer_ranks)?;
            (rank_correlation.abs() >= least).then(|| Influence {
                parameter: format!("{group}.{}", info.name),
                rank_correlation,
            })
        })
        .collect();
    found.sort_by(|a, b| {
        b.rank_correlation
            .abs()
            .total_cmp(&a.rank_correlation.abs())
    });
    found.truncate(MOST_LISTED);
    found
}

/// The parameters that matter most for a number of the outcome of a case.
pub(super) fn ensemble_influences(
    case: &Case<'_>,
    ensemble: &Ensemble,
    of: impl Fn(&Outcome) -> f64,
) -> Vec<Influence> {
    let answers = ensemble.outcomes().map(|o| o.map_or(f64::NAN, &of));
    influences(case.members, &answers.collect::<Vec<f64>>())
}

/// "turf.reserve_days (+0.61) and ..." after a lead, or nothing.
pub(super) fn influence_words(influences: &[Influence]) -> String {
    if influences.is_empty() {
        return "No single parameter stands out in its range.".to_owned();
    }
    let list: Vec<String> = influences
        .iter()
        .take(3)
        .map(|i| format!("{} ({:+.2})", i.parameter, i.rank_correlation))
        .collect();
    format!("Least certain because of {}.", super::words::list(&list))
}

/// Ranks, equals sharing the mean of theirs.
fn ranks(values: impl Iterator<Item = f64>) -> Vec<f64> {
    let values: Vec<f64> = values.collect();
    let mut order: Vec<(usize, f64)> = values.iter().copied().enumerate().collect();
    order.sort_by(|a, b| a.1.total_cmp(&b.1));
    let mut ranks = vec![0.0; values.len()];
    let mut before = 0;
    for equals in order.chunk_by(|a, b| a.1.total_cmp(&b.1).is_eq()) {
        let mean = before as f64 + 0.5 * (equals.len() as f64 - 1.0);
        for (place, _) in equals {
            if let Some(rank) = ranks.get_mut(*place) {
                *rank = mean;
            }
        }
        before += equals.len();
    }
    ranks
}

/// Pearson's; none if either does not vary.
fn correlation(a: &[f64], b: &[f64]) -> Option<f64> {
    let mean = |x: &[f64]| x.iter().sum::<f64>() / x.len() as f64;
    let (mean_a, mean_b) = (mean(a), mean(b));
    let sum = |f: &dyn Fn(f64, f64) -> f64| -> f64 {
        a.iter()
            .zip(b)
            .map(|(&x, &y)| f(x - mean_a, y - mean_b))
            .sum()
    };
    let spread = (sum(&|x, _| x * x) * sum(&|_, y| y * y)).sqrt();
    (spread > 0.0).then(|| sum(&|x, y| x * y) / spread)
}

/// What one step of a lever does on the nominal tank.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LeverEffect {
    /// The lever.
    pub lever: Lever,
    /// Where it was and where it was moved to.
    pub from: f64,
    /// Where it was moved to.
    pub to: f64,
    /// Nitrate before and after, mg/L.
    pub nitrate_mg_per_l: [f64; 2],
    /// Phosphate before and after, mg/L.
    pub phosphate_mg_per_l: [f64; 2],
    /// Daily pH swing before and after.
    pub daily_ph_swing: [f64; 2],
    /// Lowest oxygen at night before and after, share of saturation.
    pub night_oxygen_saturation: [f64; 2],
    /// Sum over the goals of how far the step moves the outcome against their bands.
    pub strength: f64,
    /// The effect in a sentence.
    pub reason: String,
}

/// A step of a lever, of its bounds.
const STEP: f64 = 0.15;

pub(super) fn lever_runs(levers: &Levers, case: &Case<'_>) -> f64 {
    levers.of(case.setup).len() as f64
}

/// Moves every free lever of a setup by a step, each alone; strongest first.
pub(super) fn lever_effects(
    case: &Case<'_>,
    levers: &Levers,
    before: &Outcome,
    work: &Work<'_>,
) -> Result<Vec<LeverEffect>> {
    let steps: Vec<(Lever, f64, f64)> = levers
        .of(case.setup)
        .into_iter()
        .filter_map(|(lever, b)| {
            let from = lever.value(case.setup)?;
            let step = STEP * (b.high - b.low);
            let to = if from + step <= b.high {
                from + step
            } else {
                from - step
            };
            let to = lever.rounded(to, b);
            ((to - from).abs() > 0.5 * lever.step()).then_some((lever, from, to))
        })
        .collect();
    let outcomes = work.map(&steps, |&(lever, _, to)| {
        case.outcome(&case.varied(lever, to), case.nominal, work)
    })?;
    let strains = |o: &Outcome| case.goals.checks(o).map(|c| c.strain);
    let mut effects: Vec<LeverEffect> = steps
        .iter()
        .zip(outcomes)
        .filter_map(|(&(lever, from, to), after)| {
            let after = after.ok()?;
            let strength = strains(before)
                .iter()
                .zip(strains(&after))
                .map(|(a, b)| (a - b).abs())
                .sum();
            Some(LeverEffect {
                lever,
                from,
                to,
                nitrate_mg_per_l: [before.nitrate_mg_per_l, after.nitrate_mg_per_l],
                phosphate_mg_per_l: [before.phosphate_mg_per_l, after.phosphate_mg_per_l],
                daily_ph_swing: [before.daily_ph_swing, after.daily_ph_swing],
                night_oxygen_saturation: [
                    before.night_oxygen_saturation,
                    after.night_oxygen_saturation,
                ],
                strength,
                reason: format!(
                    "Moving the {} from {} to {} takes nitrate from {} to {} mg/L, phosphate from {} to {} mg/L and the daily pH swing from {} to {}.",
                    lever.words(),
                    lever.worded(from),
                    lever.worded(to),
                    number(before.nitrate_mg_per_l),
                    number(after.nitrate_mg_per_l),
                    number(before.phosphate_mg_per_l),
                    number(after.phosphate_mg_per_l),
                    number(before.daily_ph_swing),
                    number(after.daily_ph_swing),
                ),
            })
        })
        .collect();
    effects.sort_by(|a, b| b.strength.total_cmp(&a.strength));
    Ok(effects)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ranges::Ranges;

    #[test]
    fn ranks_share_ties() {
        assert_eq!(
            ranks([3.0, 1.0, 2.0, 1.0].into_iter()),
            [3.0, 0.5, 2.0, 0.5]
        );
    }

    /// An answer made of two parameters names them, with their signs, and not more
    /// of the other ninety-seven than chance allows.
    #[test]
    fn the_parameters_that_make_an_answer_are_found() {
        let members = Ranges::default().draw(128, 5).unwrap();
        let answers: Vec<f64> = members
            .iter()
            .map(|p| p.turf.reserve_days.ln() - 8.0 * p.livestock.nitrogen_retention)
            .collect();
        let found = influences(&members, &answers);
        let of = |name: &str| {
            let hit = found.iter().position(|i| i.parameter == name).unwrap();
            assert!(hit < 2, "{found:?}");
            found[hit].rank_correlation
        };
        assert!(of("turf.reserve_days") > 0.3);
        assert!(of("livestock.nitrogen_retention") < -0.3);
        assert!(found.len() <= 4, "{found:?}");
    }

    #[test]
    fn a_constant_answer_has_no_influences() {
        let members = Ranges::default().draw(16, 5).unwrap();
        assert_eq!(influences(&members, &[1.0; 16]), []);
        assert_eq!(influences(&members, &[f64::NAN; 16]), []);
    }
}
