use serde::{Deserialize, Serialize};
use statrs::distribution::{Continuous as _, ContinuousCDF as _, Normal};

use crate::error::{Result, within};

/// A forecast beside the reading that came.
#[derive(Debug, Clone, PartialEq)]
pub struct Verification {
    /// What the members foretold of the water.
    pub members: Vec<f64>,
    /// What the test showed.
    pub reading: f64,
    /// Standard uncertainty of the test, its step included.
    pub standard_uncertainty: f64,
    /// What "nothing changes" foretold: the last reading before.
    pub persistence: f64,
    /// What a straight line through the last readings foretold.
    pub trend: f64,
}

/// How forecasts did against what was measured.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct ForecastScore {
    /// Measurements.
    pub count: usize,
    /// Mean absolute error of the forecast medians.
    pub mean_error: f64,
    /// Mean continuous ranked probability score of the forecasts, members taken with the
    /// test's error: in the unit of the error, for a forecast without a range the
    /// same as it (Gneiting & Raftery 2007, doi 10.1198/016214506000001437; in closed form
    /// for normal mixtures: Grimit et al. 2006, doi 10.1256/qj.05.235).
    pub mean_crps: f64,
    /// Mean absolute error of "nothing changes".
    pub persistence_mean_error: f64,
    /// Mean absolute error of the straight line.
    pub trend_mean_error: f64,
    /// Share of the readings within the 5 to 95 % range of members and test error; 0.9
    /// if the ranges are honest.
    pub within_range: f64,
}

impl ForecastScore {
    /// Scores forecasts against the readings that came.
    ///
    /// # Errors
    /// There is nothing to score, a forecast has no members, or a number is not finite.
    pub fn of(verifications: &[Verification]) -> Result<Self> {
        let count = verifications.len();
        within("measurements", count as f64, 1.0, f64::MAX)?;
        for v in verifications {
            within(
                "members of a forecast",
                v.members.len() as f64,
                1.0,
                f64::MAX,
            )?;
            for &value in v
                .members
                .iter()
                .chain([&v.reading, &v.persistence, &v.trend])
            {
                within("forecast or measured value", value, f64::MIN, f64::MAX)?;
            }
            within(
                "standard uncertainty",
                v.standard_uncertainty,
                f64::MIN_POSITIVE,
                f64::MAX,
            )?;
        }
        let mean = |f: &dyn Fn(&Verification) -> f64| {
            verifications.iter().map(f).sum::<f64>() / count as f64
        };
        Ok(Self {
            count,
            mean_error: mean(&|v| (median(&v.members) - v.reading).abs()),
            mean_crps: mean(&crps),
            persistence_mean_error: mean(&|v| (v.persistence - v.reading).abs()),
            trend_mean_error: mean(&|v| (v.trend - v.reading).abs()),
            within_range: mean(&|v| f64::from(u8::from((0.05..=0.95).contains(&share_below(v))))),
        })
    }

    /// Error saved against persistence: 1 all of it, 0 none, below 0 the forecast
    /// was worse; none if nothing changed at all.
    #[must_use]
    pub fn skill(&self) -> Option<f64> {
        saved(self.mean_error, self.persistence_mean_error)
    }

    /// The same against the straight line.
    #[must_use]
    pub fn skill_against_trend(&self) -> Option<f64> {
        saved(self.mean_error, self.trend_mean_error)
    }
}

fn saved(error: f64, rival: f64) -> Option<f64> {
    (rival > 0.0).then(|| 1.0 - error / rival)
}

fn median(values: &[f64]) -> f64 {
    let sorted = crate::quantiles::sorted(values.iter().copied());
    crate::quantiles::quantile(&sorted, 0.5).unwrap_or(f64::NAN)
}

/// Share of what the members and the test's error make likely that lies below the
/// reading.
fn share_below(v: &Verification) -> f64 {
    let normal = Normal::standard();
    let below = |x: &f64| normal.cdf((v.reading - x) / v.standard_uncertainty);
    v.members.iter().map(below).sum::<f64>() / v.members.len() as f64
}

/// Of a mixture of normal distributions about the members.
fn crps(v: &Verification) -> f64 {
    let normal = Normal::standard();
    // Mean distance from 0 of a normal variable.
    let distance = |mean: f64, deviation: f64| {
        let z = mean / deviation;
        2.0 * deviation * normal.pdf(z) + mean * (2.0 * normal.cdf(z) - 1.0)
    };
    let n = v.members.len() as f64;
    let s = v.standard_uncertainty;
    let to_reading: f64 = v.members.iter().map(|x| distance(v.reading - x, s)).sum();
    let among: f64 = v
        .members
        .iter()
        .flat_map(|x| v.members.iter().map(move |y| x - y))
        .map(|d| distance(d, s * std::f64::consts::SQRT_2))
        .sum();
    to_reading / n - 0.5 * among / (n * n)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn verification(members: &[f64], reading: f64) -> Verification {
        Verification {
            members: members.to_vec(),
            reading,
            standard_uncertainty: 0.01,
            persistence: 3.0,
            trend: 5.0,
        }
    }

    #[test]
    fn scores_count_errors_and_ranges() {
        let spread = |x: f64| [x - 1.0, x, x + 1.0];
        let score = ForecastScore::of(&[
            verification(&spread(4.0), 4.5),
            verification(&spread(6.0), 9.0),
        ])
        .unwrap();
        assert_eq!((score.count, score.within_range), (2, 0.5));
        assert!((score.mean_error - 1.75).abs() < 1e-12);
        assert!((score.persistence_mean_error - 3.75).abs() < 1e-12);
        assert!((score.trend_mean_error - 2.25).abs() < 1e-12);
        assert!((score.skill().unwrap() - (1.0 - 1.75 / 3.75)).abs() < 1e-12);
        assert!((score.skill_against_trend().unwrap() - (1.0 - 1.75 / 2.25)).abs() < 1e-12);
        let still = ForecastScore::of(&[verification(&[3.0], 3.0)]).unwrap();
        assert_eq!(still.skill(), None);
        assert!(ForecastScore::of(&[]).is_err());
        assert!(ForecastScore::of(&[verification(&[], 1.0)]).is_err());
        assert!(ForecastScore::of(&[verification(&[1.0], f64::NAN)]).is_err());
    }

    /// Of one sharp member the score is its error; of members it is the integral of the
    /// squared difference of the distributions, here by a sum over a fine grid.
    #[test]
    fn the_score_of_a_range_is_the_integral_of_its_definition() {
        let v = Verification {
            standard_uncertainty: 1e-9,
            ..verification(&[2.0], 5.5)
        };
        assert!((crps(&v) - 3.5).abs() < 1e-6);
        let v = Verification {
            standard_uncertainty: 0.4,
            ..verification(&[1.0, 2.5, 4.0], 3.0)
        };
        let normal = Normal::standard();
        let (mut sum, step) = (0.0, 1e-3);
        for i in -5_000..10_000 {
            let x = (f64::from(i) + 0.5) * step;
            let f = v
                .members
                .iter()
                .map(|m| normal.cdf((x - m) / 0.4))
                .sum::<f64>()
                / 3.0;
            let came = if x >= 3.0 { 1.0 } else { 0.0 };
            sum += (f - came).powi(2) * step;
        }
        assert!((crps(&v) - sum).abs() < 1e-5, "{} {sum}", crps(&v));
    }
}
