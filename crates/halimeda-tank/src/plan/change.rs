use serde::{Deserialize, Serialize};

use super::case::Case;
use super::words::{capitalised, percent, range};
use crate::ensemble::{Ensemble, EnsembleOptions, follow_ensemble};
use crate::error::Result;
use crate::outcome::Outcome;
use crate::quantiles::Quantiles;
use crate::tank::Setup;
use crate::work::{SharedProgress, Work};

/// One number of the outcome under two setups.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Difference {
    /// Name of the number, a field of [`Outcome`].
    pub name: String,
    /// Its unit.
    pub unit: String,
    /// Without the change.
    pub before: Quantiles,
    /// With it.
    pub after: Quantiles,
    /// With less without, member by member.
    pub difference: Quantiles,
    /// Share of the members in which it falls.
    pub falls: f64,
}

impl Difference {
    /// Whether nine in ten members agree that it rises or falls.
    #[must_use]
    pub fn is_clear(&self) -> bool {
        self.difference.p5 > 0.0 || self.difference.p95 < 0.0
    }
}

/// Two setups under the same parameters.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Comparison {
    /// Every number of the outcome.
    pub differences: Vec<Difference>,
    /// Members that could be followed under both.
    pub members: usize,
    /// What the change does, in words.
    pub reason: String,
}

impl Comparison {
    /// One number by its name, a field of [`Outcome`].
    #[must_use]
    pub fn difference(&self, name: &str) -> Option<&Difference> {
        self.differences.iter().find(|d| d.name == name)
    }

    pub(super) fn of<'o>(pairs: impl Iterator<Item = (&'o Outcome, &'o Outcome)>) -> Self {
        let pairs: Vec<_> = pairs.map(|(a, b)| (a.values(), b.values())).collect();
        let differences: Vec<Difference> = Outcome::INFOS
            .iter()
            .enumerate()
            .filter_map(|(i, info)| {
                let both = || {
                    pairs
                        .iter()
                        .filter_map(move |(a, b)| Some((*a.get(i)?, *b.get(i)?)))
                };
                Some(Difference {
                    name: info.name.to_owned(),
                    unit: info.unit.to_owned(),
                    before: Quantiles::of(both().map(|(a, _)| a))?,
                    after: Quantiles::of(both().map(|(_, b)| b))?,
                    difference: Quantiles::of(both().map(|(a, b)| b - a))?,
                    falls: both().filter(|(a, b)| b < a).count() as f64 / pairs.len() as f64,
                })
            })
            .collect();
        Self {
            reason: reason(&differences),
            differences,
            members: pairs.len(),
        }
    }
}

/// Numbers a keeper watches, with what their change is called.
const WATCHED: [&str; 6] = [
    "nitrate_mg_per_l",
    "phosphate_mg_per_l",
    "daily_ph_swing",
    "night_ph",
    "night_oxygen_saturation",
    "alkalinity_drift_umol_per_kg_per_day",
];

fn reason(differences: &[Difference]) -> String {
    let sentences: Vec<String> = WATCHED
        .iter()
        .filter_map(|name| {
            let place = Outcome::INFOS.iter().position(|i| i.name == *name)?;
            let (info, d) = (Outcome::INFOS.get(place)?, differences.get(place)?);
            if d.difference.p5 == 0.0 && d.difference.p95 == 0.0 {
                return None;
            }
            let (direction, share) = if d.difference.p50 < 0.0 {
                ("lower", d.falls)
            } else {
                ("higher", 1.0 - d.falls)
            };
            Some(format!(
                "{} goes from {} to {}: {direction} in {} of the ensemble.",
                capitalised(info.words),
                range(&d.before, ""),
                range(&d.after, info.unit),
                percent(share)
            ))
        })
        .collect();
    if sentences.is_empty() {
        return "Nothing a keeper watches changes.".to_owned();
    }
    sentences.join(" ")
}

/// What if I change this: the case's setup against another, member by member.
///
/// # Errors
/// A number of either lies outside its limits; every member failed; or
/// [`Error::Cancelled`](crate::Error::Cancelled).
pub fn what_if(
    case: &Case<'_>,
    changed: &Setup,
    progress: SharedProgress<'_>,
) -> Result<Comparison> {
    changed.check()?;
    let days = 2.0 * case.members.len() as f64 * case.options.days;
    case.ask(progress, days, |work| {
        let before = follow_case(case, work)?;
        let after = follow_case(&case.about(changed), work)?;
        before.require_one()?;
        after.require_one()?;
        Ok(compare(&before, &after))
    })
}

pub(super) fn ensemble_options(case: &Case<'_>) -> EnsembleOptions {
    EnsembleOptions {
        run: case.options.run(case.options.days),
        window_days: case.options.window_days,
        variables: super::forecast::FORECAST.to_vec(),
    }
}

pub(super) fn follow_case(case: &Case<'_>, work: &Work<'_>) -> Result<Ensemble> {
    follow_ensemble(case.setup, case.members, &ensemble_options(case), work)
}

pub(super) fn compare(before: &Ensemble, after: &Ensemble) -> Comparison {
    let both = before.outcomes().zip(after.outcomes());
    Comparison::of(both.filter_map(|(a, b)| Some((a.ok()?, b.ok()?))))
}
