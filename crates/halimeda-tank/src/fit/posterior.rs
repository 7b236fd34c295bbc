//! What the evidence makes of the unknowns: the most likely point, the curvature
//! there.

use nalgebra::{Cholesky, DMatrix, DVector, Dyn};

use super::FitOptions;
use super::draws::normal;
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
    pub(super) log_posterior: f64,
}

impl Point {
    pub(super) fn discrepancy(&self) -> f64 {
        discrepancy(self.q)
    }
}

/// Units of discrepancy: half of one in the median, and likely between a fifth and
/// one and a quarter. A choice, no source.
pub(super) fn discrepancy(q: f64) -> f64 {
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
    pub(super) felt: Vec<usize>,
    /// Change of what is expected per unit of each of them.
    pub(super) jacobian: DMatrix<f64>,
    pub(super) factor: Cholesky<f64, Dyn>,
    /// Standard deviation of the discrepancy's number.
    pub(super) q_sd: f64,
}

impl Posterior<'_, '_> {
    /// What the tank of a point is expected to show; none where it cannot be followed.
    pub(super) fn expected(&self, z: &[f64]) -> Result<Option<Vec<f64>>> {
        let (setup, parameters) = self.unknowns.at(z);
        match self.work.run(&setup, &parameters, &self.run) {
            Ok(run) => Ok(self.evidence.expected(&run, &parameters)),
            Err(cancelled @ Error::Cancelled { .. }) => Err(cancelled),
            Err(_) => Ok(None),
        }
    }

    pub(super) fn log_posterior(&self, z: &[f64], q: f64, expected: &[f64]) -> f64 {
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

    pub(super) fn slopes(&self, at: &Point) -> DVector<f64> {
        let pairs = self.evidence.data.iter().zip(&at.expected);
        let slopes = pairs.map(|(d, &x)| d.log_likelihood(x, at.discrepancy()).slope);
        DVector::from_iterator(at.expected.len(), slopes)
    }

    pub(super) fn weights(&self, at: &Point) -> DVector<f64> {
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

/// By how much wider than the curvature says the reference of the moves is in the
/// directions that the evidence bears upon.
const WIDER: f64 = 1.2;

/// Farthest that a member goes from the middle of a range, in standard deviations.
const FARTHEST_MEMBER: f64 = 5.0;

impl Peak {
    pub(super) fn of_felt(&self, z: &[f64]) -> DVector<f64> {
        let felt = self
            .felt
            .iter()
            .map(|&d| z.get(d).copied().unwrap_or_default());
        DVector::from_iterator(self.felt.len(), felt)
    }

    pub(super) fn set_felt(&self, z: &mut [f64], felt: &DVector<f64>) {
        for (&direction, &value) in self.felt.iter().zip(felt) {
            if let Some(slot) = z.get_mut(direction) {
                *slot = value.clamp(-FARTHEST_MEMBER, FARTHEST_MEMBER);
            }
        }
    }

    /// A move from a point that leaves the normal reference about the peak as it is.
    pub(super) fn moved(
        &self,
        from: &Point,
        reach: f64,
        random: &mut fastrand::Rng,
    ) -> (Vec<f64>, f64) {
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
    pub(super) fn log_weight(&self, at: &Point) -> f64 {
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
