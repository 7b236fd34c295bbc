//! Draws from the posterior.

use statrs::distribution::{ContinuousCDF, Normal};

use super::posterior::{Peak, Point, Posterior, discrepancy};
use crate::error::{Error, Result};

/// Draws from the posterior.
pub(super) struct Draws {
    /// The last point of each chain: the members.
    pub(super) last: Vec<Point>,
    /// Points of the second half of all chains.
    pub(super) pool: Vec<Vec<Point>>,
    /// Share of the moves that were made.
    pub(super) accepted: f64,
}

/// How far each move of a chain goes, in turn: 1 would be a fresh draw.
const REACHES: [f64; 3] = [0.4, 0.25, 0.15];

/// Draws tried for a member, should one end far from the readings.
const ATTEMPTS: usize = 3;

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
pub(super) fn normal(random: &mut fastrand::Rng) -> f64 {
    // Not quite 0 or 1, where the quantile is infinite.
    let share = 1e-12 + (1.0 - 2e-12) * random.f64();
    Normal::standard().inverse_cdf(share)
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
