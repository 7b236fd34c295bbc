//! What the evidence makes of the unknowns: the most likely point, the curvature
//! there, and draws.

use nalgebra::{Cholesky, DMatrix, DVector, Dyn};
use statrs::distribution::{ContinuousCDF, Normal};

use super::FitOptions;
use super::evidence::Evidence;
use super::unknowns::Unknowns;
use crate::error::{Error, Result};
use crate::simulate::RunOptions;
use crate::work::Work;

/// A point of the space of unknowns, every one a standard normal number before the
/// log is read, with what follows from it.
#[derive(Debug, Clone)]
pub(super) struct Point {
    pub(super) z: Vec<f64>,
    /// The same for the discrepancy of the model.
    pub(super) q: f64,
    pub(super) expected: Vec<f64>,
    log_posterior: f64,
}

impl Point {
    pub(super) fn discrepancy(&self) -> f64 {
        discrepancy(self.q)
    }
}

/// Units of discrepancy: half of one in the median, and likely between a fifth and
/// one and a quarter. A choice, no source.
fn discrepancy(q: f64) -> f64 {
    0.5 * (0.55 * q).exp()
}

/// Farthest that the search goes from the middle of a range, in standard deviations
/// of the standard normal number: beyond, a range has no more to give.
const FARTHEST: f64 = 3.0;

/// Curvature that the evidence must bring to a direction, beside the 1 of what was
/// known before, for the search to go into it: below, it narrows what is known by
/// less than a hundredth.
const FELT: f64 = 0.02;

/// Gain of logarithmic posterior below which the search ends: much less than the
/// half unit by which it varies within a standard deviation.
const SETTLED: f64 = 0.05;

pub(super) struct Posterior<'a, 'w> {
    pub(super) unknowns: &'a Unknowns,
    pub(super) evidence: &'a Evidence,
    pub(super) run: RunOptions,
    pub(super) options: &'a FitOptions,
    pub(super) work: &'a Work<'w>,
}

/// The most likely point and the curvature there.
pub(super) struct Peak {
    pub(super) point: Point,
    /// Directions that the evidence bears upon.
    felt: Vec<usize>,
    /// Change of what is expected per unit of each of them.
    jacobian: DMatrix<f64>,
    factor: Cholesky<f64, Dyn>,
    /// Standard deviation of the discrepancy's number.
    q_sd: f64,
}

impl Posterior<'_, '_> {
    /// What the tank of a point is expected to show; none where it cannot be followed.
    fn expected(&self, z: &[f64]) -> Result<Option<Vec<f64>>> {
        let (setup, parameters) = self.unknowns.at(z);
        match self.work.run(&setup, &parameters, &self.run) {
            Ok(run) => Ok(self.evidence.expected(&run, &parameters)),
            Err(cancelled @ Error::Cancelled { .. }) => Err(cancelled),
            Err(_) => Ok(None),
        }
    }

    fn log_posterior(&self, z: &[f64], q: f64, expected: &[f64]) -> f64 {
        let prior: f64 = z.iter().chain([&q]).map(|x| -0.5 * x * x).sum();
        prior + self.evidence.log_likelihood(expected, discrepancy(q))
    }

    /// The point with its most likely discrepancy.
    fn point(&self, z: Vec<f64>, expected: Vec<f64>) -> Point {
        let at = |q: f64| self.log_posterior(&z, q, &expected);
        // Over the whole range first, then ever closer: there may be two peaks.
        let mut best = 0.0;
        let mut step = 0.5;
        let mut reach = 8;
        while step > 0.01 {
            let near = (-reach..=reach).map(|i| best + step * f64::from(i));
            best = near
                .max_by(|&a, &b| at(a).total_cmp(&at(b)))
                .unwrap_or(best);
            step /= 4.0;
            reach = 4;
        }
        let log_posterior = at(best);
        Point {
            q: best,
            log_posterior,
            z,
            expected,
        }
    }

    /// Change of what is expected per unit of each of some directions, by one-sided
    /// differences; a column of zeros where neither side can be followed.
    fn jacobian(&self, at: &Point, directions: &[usize], step: f64) -> Result<DMatrix<f64>> {
        let columns = self.work.map(directions, |&direction| {
            let here = at.z.get(direction).copied().unwrap_or_default();
            // Away from the middle of the range, where its two halves meet.
            let outwards = if here < 0.0 { -step } else { step };
            for step in [outwards, -outwards] {
                let mut z = at.z.clone();
                if let Some(slot) = z.get_mut(direction) {
                    *slot += step;
                }
                if let Some(there) = self.expected(&z)? {
                    let steps = self.unknowns.mean_slope(direction, here, step);
                    let change = there.iter().zip(&at.expected);
                    return Ok(change.map(|(b, a)| (b - a) / step * steps).collect());
                }
            }
            Ok(vec![0.0; at.expected.len()])
        })?;
        let columns: Vec<DVector<f64>> = columns
            .into_iter()
            .map(|column| Ok(DVector::from_vec(column?)))
            .collect::<Result<_>>()?;
        Ok(if columns.is_empty() {
            DMatrix::zeros(at.expected.len(), 0)
        } else {
            DMatrix::from_columns(&columns)
        })
    }

    fn slopes(&self, at: &Point) -> DVector<f64> {
        let pairs = self.evidence.data.iter().zip(&at.expected);
        let slopes = pairs.map(|(d, &x)| d.log_likelihood(x, at.discrepancy()).slope);
        DVector::from_iterator(at.expected.len(), slopes)
    }

    fn weights(&self, at: &Point) -> DVector<f64> {
        let pairs = self.evidence.data.iter().zip(&at.expected);
        let weights = pairs.map(|(d, &x)| d.weight(x, at.discrepancy()));
        DVector::from_iterator(at.expected.len(), weights)
    }

    /// Curvature of the negative logarithm of the posterior (Gauss-Newton).
    fn curvature(&self, at: &Point, jacobian: &DMatrix<f64>) -> DMatrix<f64> {
        let mut weighted = jacobian.clone();
        for (mut row, weight) in weighted.row_iter_mut().zip(&self.weights(at)) {
            row *= *weight;
        }
        let n = jacobian.ncols();
        DMatrix::identity(n, n) + jacobian.transpose() * weighted
    }

    /// The most likely point, by Gauss-Newton steps with a search along each.
    pub(super) fn peak(&self) -> Result<Peak> {
        let n = self.unknowns.len();
        let z = vec![0.0; n];
        let Some(expected) = self.expected(&z)? else {
            // The nominal tank cannot be followed: its own words say why.
            let (setup, parameters) = self.unknowns.at(&z);
            self.work.run(&setup, &parameters, &self.run)?;
            return Err(Error::Stuck {
                day: self.run.days,
                reason: "the nominal tank gives no number for a reading of the log",
            });
        };
        let mut here = self.point(z, expected);
        let mut directions: Vec<usize> = (0..n).collect();
        let mut jacobian = self.jacobian(&here, &directions, 0.5)?;
        for _ in 0..self.options.search_steps {
            let curvature = self.curvature(&here, &jacobian);
            (directions, jacobian) = felt(&directions, &jacobian, &curvature);
            let curvature = self.curvature(&here, &jacobian);
            let uphill = {
                let prior = directions.iter().map(|&d| here.z.get(d).copied());
                let prior = prior.map(Option::unwrap_or_default);
                jacobian.transpose() * self.slopes(&here)
                    - DVector::from_iterator(directions.len(), prior)
            };
            let Some(factor) = curvature.cholesky() else {
                break;
            };
            let step = factor.solve(&uphill);
            let before = here.log_posterior;
            if let Some(better) = self.best_along(&here, &directions, &step)? {
                here = better;
            }
            if here.log_posterior - before < SETTLED {
                break;
            }
            jacobian = self.jacobian(&here, &directions, 0.3)?;
        }
        let curvature = self.curvature(&here, &jacobian);
        let factor = curvature.cholesky().ok_or(Error::Stuck {
            day: self.run.days,
            reason: "the log's readings contradict one another beyond any tank",
        })?;
        let q_sd = {
            let at = |q: f64| self.log_posterior(&here.z, q, &here.expected);
            let h = 0.2;
            let curvature = (2.0 * at(here.q) - at(here.q + h) - at(here.q - h)) / (h * h);
            // No wider than before the log was read.
            curvature.max(1.0).sqrt().recip()
        };
        Ok(Peak {
            point: here,
            felt: directions,
            jacobian,
            factor,
            q_sd,
        })
    }

    /// The best of some shares of a step, if one is better than none.
    fn best_along(
        &self,
        here: &Point,
        directions: &[usize],
        step: &DVector<f64>,
    ) -> Result<Option<Point>> {
        let points = self.work.map(&[1.0, 0.6, 0.3, 0.1], |share| {
            let mut z = here.z.clone();
            for (&direction, step) in directions.iter().zip(step) {
                if let Some(slot) = z.get_mut(direction) {
                    *slot = (*slot + share * step).clamp(-FARTHEST, FARTHEST);
                }
            }
            let expected = self.expected(&z)?;
            Ok(expected.map(|expected| self.point(z, expected)))
        })?;
        let mut best: Option<Point> = None;
        for point in points {
            let Some(point) = point? else { continue };
            let bar = best
                .as_ref()
                .map_or(here.log_posterior, |b| b.log_posterior);
            if point.log_posterior > bar {
                best = Some(point);
            }
        }
        Ok(best)
    }
}

/// The directions that the evidence bears upon, and their columns.
fn felt(
    directions: &[usize],
    jacobian: &DMatrix<f64>,
    curvature: &DMatrix<f64>,
) -> (Vec<usize>, DMatrix<f64>) {
    let places: Vec<usize> = curvature
        .diagonal()
        .iter()
        .enumerate()
        .filter(|&(_, c)| c - 1.0 > FELT)
        .map(|(place, _)| place)
        .collect();
    let kept = places.iter().filter_map(|&p| directions.get(p).copied());
    (kept.collect(), jacobian.select_columns(&places))
}

/// Draws from the posterior.
pub(super) struct Draws {
    /// The last point of each chain: the members.
    pub(super) last: Vec<Point>,
    /// Points of the second half of all chains.
    pub(super) pool: Vec<Vec<Point>>,
    /// Share of the moves that were made.
    pub(super) accepted: f64,
}

/// By how much wider than the curvature says the reference of the moves is in the
/// directions that the evidence bears upon.
const WIDER: f64 = 1.2;

/// How far each move of a chain goes, in turn: 1 would be a fresh draw.
const REACHES: [f64; 3] = [0.4, 0.25, 0.15];

/// Draws tried for a member, should one end far from the readings.
const ATTEMPTS: usize = 3;

/// Farthest that a member goes from the middle of a range, in standard deviations.
const FARTHEST_MEMBER: f64 = 5.0;

impl Posterior<'_, '_> {
    /// Draws of two kinds after one another.
    ///
    /// First, each member is the most likely tank for a draw of what was known before
    /// and for readings that err otherwise ("randomised maximum likelihood": Kitanidis
    /// 1995, Water Resour. Res. 31, 2411-2419, doi 10.1029/95WR00945; Oliver, He &
    /// Reynolds 1996; both from memory). Where the tank answers linearly these are draws from the
    /// posterior.
    ///
    /// Then chains move them by the preconditioned Crank-Nicolson proposal about a
    /// normal reference (Cotter, Roberts, Stuart & White 2013, Stat. Sci. 28, 424-446,
    /// doi 10.1214/13-STS421, from memory), which leaves the posterior as it is:
    /// directions that the evidence does not bear upon cost no acceptance, however many
    /// there are.
    pub(super) fn draw(&self, peak: &Peak) -> Result<Draws> {
        let chains: Vec<u64> = (0..self.options.members as u64).collect();
        let followed = self.work.map(&chains, |&chain| {
            let seed = u64::from(self.options.seed) << 32;
            let mut random = fastrand::Rng::with_seed(seed ^ chain);
            for _ in 0..ATTEMPTS {
                let start = self.likely_otherwise(peak, &mut random)?;
                if let Some(start) = start.filter(|s| self.agrees(s, &peak.point)) {
                    return self.chain(peak, start, &mut random).map(Some);
                }
            }
            Ok(None)
        })?;
        let mut pool = Vec::new();
        let mut accepted = 0;
        for chain in followed {
            if let Some((kept, moves)) = chain? {
                accepted += moves;
                pool.push(kept);
            }
        }
        if pool.is_empty() {
            return Err(Error::Stuck {
                day: self.run.days,
                reason: "no tank near the most likely one can be followed",
            });
        }
        let moves = pool.len() * self.options.chain_steps;
        Ok(Draws {
            last: pool.iter().filter_map(|c| c.last().cloned()).collect(),
            pool,
            accepted: f64::from(accepted) / moves as f64,
        })
    }

    /// Whether a point is as likely as draws about the peak are: half a unit of
    /// logarithmic likelihood is lost per reading where all of them are met by chance,
    /// and twice that is beyond chance.
    fn agrees(&self, point: &Point, peak: &Point) -> bool {
        let likelihood = |point: &Point| {
            self.evidence
                .log_likelihood(&point.expected, point.discrepancy())
        };
        likelihood(peak) - likelihood(point) < self.evidence.data.len() as f64
    }

    /// The most likely tank for another draw of what was known and of the errors;
    /// none if none near can be followed.
    fn likely_otherwise(&self, peak: &Peak, random: &mut fastrand::Rng) -> Result<Option<Point>> {
        let known: Vec<f64> = peak.point.z.iter().map(|_| normal(random)).collect();
        let known_felt = peak.of_felt(&known);
        let errors = self
            .weights(&peak.point)
            .map(|weight| weight.sqrt() * normal(random));
        let q = peak.point.q + peak.q_sd * normal(random);

        let pull = &known_felt + peak.jacobian.tr_mul(&errors);
        let away = peak.factor.solve(&pull);
        let mut here = None;
        for share in [1.0, 0.5, 0.2] {
            let mut z = known.clone();
            let felt = peak.of_felt(&peak.point.z) + share * &away;
            peak.set_felt(&mut z, &felt);
            here = self.at(z, q)?;
            if here.is_some() {
                break;
            }
        }
        let Some(mut here) = here else {
            return Ok(None);
        };
        let unlikely = |point: &Point| {
            let off: f64 = point
                .z
                .iter()
                .zip(&known)
                .map(|(z, k)| (z - k).powi(2))
                .sum();
            let pulled: f64 = point.expected.iter().zip(&errors).map(|(x, e)| x * e).sum();
            0.5 * off
                - self
                    .evidence
                    .log_likelihood(&point.expected, discrepancy(q))
                - pulled
        };
        let mut share: f64 = 1.0;
        for _ in 0..self.options.member_steps {
            let felt = peak.of_felt(&here.z);
            let uphill =
                &known_felt - &felt + peak.jacobian.tr_mul(&(self.slopes(&here) + &errors));
            let mut z = here.z.clone();
            peak.set_felt(&mut z, &(felt + share * peak.factor.solve(&uphill)));
            match self.at(z, q)? {
                Some(there) if unlikely(&there) < unlikely(&here) => {
                    here = there;
                    share = (2.0 * share).min(1.0);
                }
                _ => share *= 0.3,
            }
        }
        Ok(Some(here))
    }

    /// The second half of a chain, and how many of its moves were made.
    fn chain(
        &self,
        peak: &Peak,
        start: Point,
        random: &mut fastrand::Rng,
    ) -> Result<(Vec<Point>, u32)> {
        let mut here = start;
        let mut weight = peak.log_weight(&here);
        let mut kept = Vec::new();
        let mut accepted = 0;
        let steps = self.options.chain_steps;
        for (step, reach) in (0..steps).zip(REACHES.into_iter().cycle()) {
            let (z, q) = peak.moved(&here, reach, random);
            let chance = random.f64();
            if let Some(there) = self.at(z, q)? {
                let there_weight = peak.log_weight(&there);
                if chance.ln() < there_weight - weight {
                    (here, weight) = (there, there_weight);
                    accepted += 1;
                }
            }
            if 2 * step >= steps {
                kept.push(here.clone());
            }
        }
        Ok((kept, accepted))
    }

    fn at(&self, z: Vec<f64>, q: f64) -> Result<Option<Point>> {
        let expected = self.expected(&z)?;
        Ok(expected.map(|expected| Point {
            log_posterior: self.log_posterior(&z, q, &expected),
            z,
            q,
            expected,
        }))
    }
}

/// A standard normal number.
fn normal(random: &mut fastrand::Rng) -> f64 {
    // Not quite 0 or 1, where the quantile is infinite.
    let share = 1e-12 + (1.0 - 2e-12) * random.f64();
    Normal::standard().inverse_cdf(share)
}

impl Peak {
    fn of_felt(&self, z: &[f64]) -> DVector<f64> {
        let felt = self
            .felt
            .iter()
            .map(|&d| z.get(d).copied().unwrap_or_default());
        DVector::from_iterator(self.felt.len(), felt)
    }

    fn set_felt(&self, z: &mut [f64], felt: &DVector<f64>) {
        for (&direction, &value) in self.felt.iter().zip(felt) {
            if let Some(slot) = z.get_mut(direction) {
                *slot = value.clamp(-FARTHEST_MEMBER, FARTHEST_MEMBER);
            }
        }
    }

    /// A move from a point that leaves the normal reference about the peak as it is.
    fn moved(&self, from: &Point, reach: f64, random: &mut fastrand::Rng) -> (Vec<f64>, f64) {
        let kept = (1.0 - reach * reach).sqrt();
        let mut fresh: Vec<f64> = from.z.iter().map(|_| normal(random)).collect();
        // With H = L Lᵀ, L⁻ᵀ ξ has the covariance H⁻¹.
        let independent = self.of_felt(&fresh);
        let correlated = self
            .factor
            .l_dirty()
            .tr_solve_lower_triangular(&independent);
        for (&direction, x) in self.felt.iter().zip(correlated.iter().flatten()) {
            if let Some(slot) = fresh.get_mut(direction) {
                *slot = WIDER * x;
            }
        }
        let pairs = from.z.iter().zip(&self.point.z).zip(fresh);
        let z =
            pairs.map(|((from, centre), fresh)| centre + kept * (from - centre) + reach * fresh);
        let q_fresh = WIDER * self.q_sd * normal(random);
        let q = self.point.q + kept * (from.q - self.point.q) + reach * q_fresh;
        (z.collect(), q)
    }

    /// Logarithm of the posterior at a point against the reference.
    fn log_weight(&self, at: &Point) -> f64 {
        let away: Vec<f64> = at.z.iter().zip(&self.point.z).map(|(a, b)| a - b).collect();
        let felt = self
            .felt
            .iter()
            .map(|&d| away.get(d).copied().unwrap_or_default());
        let felt = DVector::from_iterator(self.felt.len(), felt);
        let along = self.factor.l().tr_mul(&felt).norm_squared() / (WIDER * WIDER);
        let all: f64 = away.iter().map(|x| x * x).sum();
        let q = (at.q - self.point.q) / (WIDER * self.q_sd);
        let across = all - felt.norm_squared();
        at.log_posterior + 0.5 * (along + across + q * q)
    }

    /// Share of what was uncertain about an unknown that the curvature takes away.
    pub(super) fn information(&self, unknown: usize) -> f64 {
        let Some(place) = self.felt.iter().position(|&d| d == unknown) else {
            return 0.0;
        };
        let mut unit = DVector::zeros(self.felt.len());
        if let Some(slot) = unit.get_mut(place) {
            *slot = 1.0;
        }
        1.0 - self
            .factor
            .solve(&unit)
            .get(place)
            .copied()
            .unwrap_or(1.0)
            .sqrt()
    }
}

impl Draws {
    /// Independent draws that the pool is worth: chains are independent of one another,
    /// and the less the means of chains differ against all draws, the more each is
    /// worth. By the posterior's logarithm, which hears of every direction.
    pub(super) fn effective(&self) -> f64 {
        let variance = |values: &[f64]| {
            let mean = values.iter().sum::<f64>() / values.len() as f64;
            values.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / values.len() as f64
        };
        let chains = self.pool.iter().filter(|chain| !chain.is_empty());
        let logs: Vec<Vec<f64>> = chains
            .map(|chain| chain.iter().map(|p| p.log_posterior).collect())
            .collect();
        let means: Vec<f64> = logs
            .iter()
            .map(|chain| chain.iter().sum::<f64>() / chain.len() as f64)
            .collect();
        let all = logs.concat();
        let per_chain = variance(&all) / variance(&means);
        let draws = means.len() as f64 * per_chain;
        // Where nothing varies there is nothing to tell draws apart by.
        if draws.is_finite() {
            draws.min(all.len() as f64)
        } else {
            1.0
        }
    }
}
