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

/// Units of discrepancy: a third of one in the median, and likely between a twentieth and
/// two. A choice, no source.
fn discrepancy(q: f64) -> f64 {
    0.3 * q.exp()
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
    point: Point,
    /// Directions that the evidence bears upon.
    pub(super) felt: Vec<usize>,
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
                    let change = there.iter().zip(&at.expected);
                    return Ok(change.map(|(b, a)| (b - a) / step).collect());
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
    /// Effective number of the first draws, of as many as there are chains.
    pub(super) first_effective: f64,
    /// Share of the moves that were made.
    pub(super) accepted: f64,
}

/// By how much wider than the curvature says the first draws are spread in the
/// directions that the evidence bears upon: what is missed costs more than what is
/// drawn in vain.
const WIDER: f64 = 1.1;

/// How far each move of a chain goes, in turn: 1 would be a fresh draw.
const REACHES: [f64; 4] = [0.8, 0.5, 0.3, 0.2];

impl Posterior<'_, '_> {
    /// Draws about the peak, weighted and drawn again, then moved by chains that leave
    /// the posterior as it is.
    ///
    /// The moves are those of the preconditioned Crank-Nicolson proposal about a normal
    /// reference (Cotter, Roberts, Stuart & White 2013, Stat. Sci. 28, 424-446, doi
    /// 10.1214/13-STS421, from memory): directions that the evidence does not bear upon
    /// cost no acceptance, however many there are.
    pub(super) fn draw(&self, peak: &Peak) -> Result<Draws> {
        let chains: Vec<u64> = (0..self.options.members as u64).collect();
        let random = |chain: u64, part: u64| {
            let seed = u64::from(self.options.seed) << 32;
            fastrand::Rng::with_seed(seed ^ (chain << 8) ^ part)
        };
        let first = self.work.map(&chains, |&chain| {
            let mut random = random(chain, 0);
            let (z, q) = peak.around(None, 1.0, &mut random);
            self.at(z, q)
        })?;
        let first: Vec<Point> = first
            .into_iter()
            .filter_map(Result::transpose)
            .collect::<Result<_>>()?;
        let weights: Vec<f64> = first.iter().map(|p| peak.log_weight(p)).collect();
        if first.is_empty() {
            return Err(Error::Stuck {
                day: self.run.days,
                reason: "no tank near the most likely one can be followed",
            });
        }
        let (starts, first_effective) = resample(&weights, chains.len(), &mut random(0, 1));
        let starts: Vec<(u64, Point)> = chains
            .iter()
            .zip(starts)
            .filter_map(|(&chain, start)| Some((chain, first.get(start)?.clone())))
            .collect();

        let moved = self.work.map(&starts, |(chain, start)| {
            let mut random = random(*chain, 2);
            let mut here = start.clone();
            let mut weight = peak.log_weight(&here);
            let mut kept = Vec::new();
            let mut accepted = 0u32;
            for (step, reach) in (0..self.options.chain_steps).zip(REACHES.into_iter().cycle()) {
                let (z, q) = peak.around(Some(&here), reach, &mut random);
                let chance = random.f64();
                if let Some(there) = self.at(z, q)? {
                    let there_weight = peak.log_weight(&there);
                    if chance.ln() < there_weight - weight {
                        (here, weight) = (there, there_weight);
                        accepted += 1;
                    }
                }
                if 2 * step >= self.options.chain_steps {
                    kept.push(here.clone());
                }
            }
            Ok((kept, accepted))
        })?;
        let mut pool = Vec::new();
        let mut accepted = 0.0;
        for chain in moved {
            let (kept, moves) = chain?;
            accepted += f64::from(moves);
            pool.push(kept);
        }
        let moves = (pool.len() * self.options.chain_steps) as f64;
        Ok(Draws {
            last: pool.iter().filter_map(|c| c.last().cloned()).collect(),
            pool,
            first_effective,
            accepted: accepted / moves,
        })
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

impl Peak {
    /// A draw from the normal reference about the peak, or a move from a point that
    /// leaves the reference as it is.
    fn around(
        &self,
        from: Option<&Point>,
        reach: f64,
        random: &mut fastrand::Rng,
    ) -> (Vec<f64>, f64) {
        let kept = (1.0 - reach * reach).sqrt();
        let mut normal = || {
            let share = 1e-12 + (1.0 - 2e-12) * random.f64();
            Normal::standard().inverse_cdf(share)
        };
        let from_z = from.map_or(&self.point.z, |p| &p.z);
        let from_q = from.map_or(self.point.q, |p| p.q);
        let mut z: Vec<f64> = from_z
            .iter()
            .zip(&self.point.z)
            .map(|(from, centre)| centre + kept * (from - centre))
            .collect();
        let mut fresh: Vec<f64> = z.iter().map(|_| normal()).collect();
        let correlated = {
            let independent = self
                .felt
                .iter()
                .map(|&d| fresh.get(d).copied().unwrap_or_default());
            let independent = DVector::from_iterator(self.felt.len(), independent);
            // With H = L Lᵀ, L⁻ᵀ ξ has the covariance H⁻¹.
            self.factor
                .l_dirty()
                .tr_solve_lower_triangular(&independent)
        };
        for (&d, x) in self.felt.iter().zip(correlated.iter().flatten()) {
            if let Some(slot) = fresh.get_mut(d) {
                *slot = WIDER * x;
            }
        }
        for (z, fresh) in z.iter_mut().zip(fresh) {
            *z += reach * fresh;
        }
        let q =
            self.point.q + kept * (from_q - self.point.q) + reach * WIDER * self.q_sd * normal();
        (z, q)
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

/// Draws places in proportion to weights, given by their logarithms, tempered so far
/// that at least half of them count; and how many count untempered.
fn resample(log_weights: &[f64], count: usize, random: &mut fastrand::Rng) -> (Vec<usize>, f64) {
    let most = log_weights
        .iter()
        .copied()
        .fold(f64::NEG_INFINITY, f64::max);
    let weights = |temper: f64| -> Vec<f64> {
        let weight = |w: &f64| (temper * (w - most)).exp();
        log_weights.iter().map(weight).collect()
    };
    let effective = |weights: &[f64]| {
        let sum: f64 = weights.iter().sum();
        sum * sum / weights.iter().map(|w| w * w).sum::<f64>()
    };
    let untempered = effective(&weights(1.0));
    let mut temper = 1.0;
    while effective(&weights(temper)) < 0.5 * log_weights.len() as f64 && temper > 1e-6 {
        temper *= 0.8;
    }
    let weights = weights(temper);
    let step = weights.iter().sum::<f64>() / count as f64;
    let mut at = step * random.f64();
    let mut below = 0.0;
    let mut places = Vec::with_capacity(count);
    for (place, weight) in weights.iter().enumerate() {
        below += weight;
        while at < below && places.len() < count {
            places.push(place);
            at += step;
        }
    }
    // The last may be lost to rounding.
    places.resize(count, weights.len().saturating_sub(1));
    (places, untempered)
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
