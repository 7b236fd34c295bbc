//! Settings that serve the goals best, on the nominal tank.

use bobyqa::{Bobyqa, Config};
use serde::{Deserialize, Serialize};

use super::case::Case;
use super::goals::GoalCheck;
use super::levers::{Bounds, Lever, Levers, Move, Setting};
use crate::error::Result;
use crate::outcome::Outcome;
use crate::tank::Setup;
use crate::work::Work;

/// The best settings found.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Proposal {
    /// Every free lever, from where it stands to where it should.
    pub moves: Vec<Move>,
    /// The tank and its schedule with the levers there.
    pub setup: Setup,
    /// What it comes to on the nominal tank.
    pub outcome: Outcome,
    /// How that stands to the goals.
    pub checks: Vec<GoalCheck>,
    /// Whether all goals are met, and if not, which are missed and by how much.
    pub verdict: String,
}

impl Proposal {
    /// Whether the nominal tank meets every goal.
    #[must_use]
    pub fn is_reachable(&self) -> bool {
        self.checks.iter().all(GoalCheck::is_met)
    }
}

/// Score of a setting under which the tank cannot be followed: worse than any other.
const FAILED: f64 = 1e6;

/// Local searches, from the best points of the screening: several settings serve
/// the goals almost alike, and the phase of the harvests makes the score uneven.
const STARTS: usize = 4;

/// First and last step of a local search, of a lever's bounds.
const FIRST_STEP: f64 = 0.1;
const LAST_STEP: f64 = 0.02;

/// Weight of moving a lever from one bound to the other: what changes nothing
/// stays where it is.
const MOVING: f64 = 0.05;

/// The free levers of a case.
struct Space<'a> {
    case: Case<'a>,
    levers: Vec<(Lever, Bounds)>,
    /// Where they stand.
    present: Vec<f64>,
}

impl Space<'_> {
    /// Values of the levers at a point of the unit cube.
    fn values(&self, point: &[f64]) -> Vec<f64> {
        let place = |((_, b), x): (&(Lever, Bounds), &f64)| b.low + x * (b.high - b.low);
        self.levers.iter().zip(point).map(place).collect()
    }

    /// The point of the unit cube nearest to where the levers stand.
    fn point(&self, values: &[f64]) -> Vec<f64> {
        let place = |((_, b), x): (&(Lever, Bounds), &f64)| {
            ((x - b.low) / (b.high - b.low)).clamp(0.0, 1.0)
        };
        self.levers.iter().zip(values).map(place).collect()
    }

    fn settings(&self, values: &[f64]) -> Vec<Setting> {
        let setting = |(&(lever, _), &value)| Setting { lever, value };
        self.levers.iter().zip(values).map(setting).collect()
    }

    fn score(&self, values: &[f64], work: &Work<'_>) -> f64 {
        if work.check().is_err() {
            return FAILED;
        }
        let setup = self.case.setup.with(&self.settings(values));
        let moved: f64 = values
            .iter()
            .zip(&self.present)
            .zip(&self.levers)
            .map(|((a, b), (_, bounds))| (a - b).abs() / (bounds.high - bounds.low))
            .sum();
        match self.case.outcome(&setup, self.case.nominal, work) {
            Ok(outcome) => self.case.score(&setup, &outcome) + MOVING * moved,
            Err(_) => FAILED,
        }
    }

    /// A local search by a quadratic model within the bounds (Powell 2009, BOBYQA,
    /// DAMTP 2009/NA06): few evaluations, no derivatives, never outside.
    fn descend(&self, start: &[f64], runs: usize, work: &Work<'_>) -> (f64, Vec<f64>) {
        let n = start.len();
        let mut best = (FAILED, start.to_vec());
        let mut config = Config::new(n);
        config.rho_begin = FIRST_STEP;
        config.rho_end = LAST_STEP;
        config.max_fun = local_runs(runs, n);
        if let Ok(mut solver) = Bobyqa::new(n, config) {
            let mut x = self.point(start);
            let score = |x: &[f64]| {
                let values = self.values(x);
                let score = self.score(&values, work);
                if score < best.0 {
                    best = (score, values);
                }
                score
            };
            solver.minimize(score, &mut x, &vec![0.0; n], &vec![1.0; n]);
        }
        best
    }

    /// The nearest values that a keeper would set.
    fn rounded(&self, values: &[f64]) -> Vec<f64> {
        let all = self.levers.iter().zip(values).zip(&self.present);
        all.map(|((&(lever, bounds), &value), &present)| {
            // What does not move keeps the keeper's own number.
            if value.total_cmp(&present).is_eq() {
                present
            } else {
                lever.rounded(value, bounds)
            }
        })
        .collect()
    }

    /// From values that a keeper would set, one lever at a time to the best of the
    /// neighbours, if one is better.
    fn settle(&self, values: &[f64], work: &Work<'_>) -> Result<Vec<f64>> {
        let mut best = self.rounded(values);
        let mut least = self.score(&best, work);
        for steps in SETTLING_STEPS {
            let mut neighbours: Vec<Vec<f64>> = Vec::new();
            for (i, &(lever, bounds)) in self.levers.iter().enumerate() {
                for step in [-steps * lever.step(), steps * lever.step()] {
                    let mut neighbour = best.clone();
                    if let Some(value) = neighbour.get_mut(i) {
                        *value = lever.rounded(*value + step, bounds);
                    }
                    neighbours.push(neighbour);
                }
            }
            let scores = work.map(&neighbours, |n| Ok(self.score(n, work)))?;
            let scored = scores.into_iter().flatten().zip(neighbours);
            match scored.min_by(|a, b| a.0.total_cmp(&b.0)) {
                Some((score, neighbour)) if score < least => (least, best) = (score, neighbour),
                _ => {}
            }
        }
        Ok(best)
    }
}

/// Lengths of the moves of [`Space::settle`], in steps of the lever.
const SETTLING_STEPS: [f64; 5] = [4.0, 4.0, 2.0, 1.0, 1.0];

/// A local search cannot begin with fewer runs than its first model needs.
fn local_runs(runs: usize, levers: usize) -> usize {
    runs.max(2 * levers + 2)
}

/// Most runs that a search makes.
pub(super) fn search_runs(levers: &Levers, case: &Case<'_>) -> f64 {
    let n = levers.of(case.setup).len();
    let runs = case.options.search_runs;
    let local = STARTS * local_runs(runs / 8, n);
    (1 + runs / 2 + local + 1 + SETTLING_STEPS.len() * 2 * n) as f64
}

/// The settings of all free levers that serve the goals best: half of the runs
/// spread evenly over the bounds, the others in local searches from the best.
pub(super) fn search(case: &Case<'_>, levers: &Levers, work: &Work<'_>) -> Result<Vec<Setting>> {
    let levers = levers.of(case.setup);
    let (free, held): (Vec<_>, Vec<_>) = levers.into_iter().partition(|(_, b)| b.high > b.low);
    // A lever without room stands where its bounds put it.
    let held: Vec<Setting> = held
        .into_iter()
        .map(|(lever, bounds)| Setting {
            lever,
            value: bounds.low,
        })
        .collect();
    let base = case.setup.with(&held);
    let space = Space {
        case: case.about(&base),
        present: free
            .iter()
            .filter_map(|(lever, _)| lever.value(case.setup))
            .collect(),
        levers: free,
    };
    let n = space.levers.len();
    let runs = case.options.search_runs;

    let present = space.levers.iter().zip(&space.present);
    let mut points = vec![present.map(|((_, b), x)| x.clamp(b.low, b.high)).collect()];
    points.extend((0u32..).take(runs / 2).map(|i| {
        let point = (0u32..).take(n);
        let point = point.map(|d| f64::from(sobol_burley::sample(i, d, case.options.seed)));
        space.values(&point.collect::<Vec<f64>>())
    }));
    let scores = work.map(&points, |p| Ok(space.score(p, work)))?;
    let mut ranked: Vec<(f64, Vec<f64>)> = scores.into_iter().flatten().zip(points).collect();
    // Stable: of equals the first, and the present setting before all.
    ranked.sort_by(|a, b| a.0.total_cmp(&b.0));
    ranked.truncate(STARTS);
    if n > 0 {
        let found = work.map(&ranked, |(_, start)| {
            Ok(space.descend(start, runs / 8, work))
        })?;
        ranked.extend(found.into_iter().flatten());
        ranked.sort_by(|a, b| a.0.total_cmp(&b.0));
    }
    let best = ranked
        .into_iter()
        .next()
        .map_or_else(Vec::new, |(_, values)| values);
    let mut settings = space.settings(&space.settle(&best, work)?);
    settings.extend(held);
    settings.sort_by_key(|s| s.lever);
    Ok(settings)
}

/// What the nominal tank comes to in a setup that was reached from the case's by
/// settings.
pub(super) fn propose(
    case: &Case<'_>,
    settings: &[Setting],
    setup: Setup,
    work: &Work<'_>,
) -> Result<Proposal> {
    let outcome = case.outcome(&setup, case.nominal, work)?;
    let checks = case.goals.checks(&outcome).to_vec();
    Ok(Proposal {
        moves: settings
            .iter()
            .filter_map(|s| {
                Some(Move {
                    lever: s.lever,
                    from: s.lever.value(case.setup)?,
                    to: s.value,
                    unit: s.lever.unit().to_owned(),
                })
            })
            .collect(),
        setup,
        outcome,
        verdict: verdict(&checks),
        checks,
    })
}

fn verdict(checks: &[GoalCheck]) -> String {
    let missed: Vec<String> = checks.iter().filter_map(GoalCheck::complaint).collect();
    if missed.is_empty() {
        "The nominal tank meets every goal with these settings.".to_owned()
    } else {
        format!(
            "No setting found within the bounds meets every goal. At the best one {}.",
            super::words::list(&missed)
        )
    }
}
