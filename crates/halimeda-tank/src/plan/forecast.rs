use serde::{Deserialize, Serialize};

use crate::ensemble::Ensemble;
use crate::error::{Result, within};
use crate::quantiles::Quantiles;
use crate::simulate::Sample;
use crate::variable::Variable;

/// What is forecast in a plan.
pub(super) const FORECAST: [Variable; 7] = [
    Variable::Nitrate,
    Variable::Phosphate,
    Variable::Ph,
    Variable::Alkalinity,
    Variable::OxygenSaturation,
    Variable::Calcium,
    Variable::Turf,
];

/// Mean of a day in the future.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Forecast {
    /// What is forecast.
    pub variable: Variable,
    /// The day.
    pub day: f64,
    /// With the plan.
    pub planned: Quantiles,
    /// With the present setup kept.
    pub unchanged: Quantiles,
    /// Today's value: the forecast of "nothing changes", against which the others
    /// have to prove themselves.
    pub persistence: f64,
}

/// Forecasts from an ensemble of the plan and one of the present setup.
pub(super) fn forecasts(
    planned: &Ensemble,
    unchanged: &Ensemble,
    today: &Sample,
    days: &[f64],
) -> Result<Vec<Forecast>> {
    let mut forecasts = Vec::new();
    for &day in days {
        for variable in FORECAST {
            let at = (
                planned.daily_mean(variable, day)?,
                unchanged.daily_mean(variable, day)?,
            );
            if let (Some(planned), Some(unchanged)) = at {
                forecasts.push(Forecast {
                    variable,
                    day,
                    planned,
                    unchanged,
                    persistence: variable.of(today),
                });
            }
        }
    }
    Ok(forecasts)
}

/// How forecasts did against what was measured.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct ForecastScore {
    /// Measurements.
    pub count: usize,
    /// Mean absolute error of the forecast medians.
    pub mean_error: f64,
    /// Mean absolute error of "nothing changes".
    pub persistence_mean_error: f64,
    /// Share of the measurements within the 5 to 95 % range; 0.9 if the ranges are honest.
    pub within_range: f64,
}

impl ForecastScore {
    /// Scores forecast ranges against measurements of the same days, beside the
    /// value that persistence would have forecast for all of them.
    ///
    /// # Errors
    /// There are no measurements, fewer or more of them than forecasts, or one is
    /// not finite.
    pub fn of(forecasts: &[Quantiles], measured: &[f64], persistence: f64) -> Result<Self> {
        let count = measured.len();
        let forecast_count = forecasts.len() as f64;
        within(
            "measurements",
            count as f64,
            forecast_count.max(1.0),
            forecast_count,
        )?;
        for &value in measured.iter().chain([&persistence]) {
            within("measured value", value, f64::MIN, f64::MAX)?;
        }
        let mean = |f: &dyn Fn(&Quantiles, f64) -> f64| {
            forecasts
                .iter()
                .zip(measured)
                .map(|(q, &m)| f(q, m))
                .sum::<f64>()
                / count as f64
        };
        Ok(Self {
            count,
            mean_error: mean(&|q, m| (q.p50 - m).abs()),
            persistence_mean_error: mean(&|_, m| (persistence - m).abs()),
            within_range: mean(&|q, m| f64::from(u8::from((q.p5..=q.p95).contains(&m)))),
        })
    }

    /// Error saved against persistence: 1 all of it, 0 none, below 0 the forecast
    /// was worse; none if nothing changed at all.
    #[must_use]
    pub fn skill(&self) -> Option<f64> {
        (self.persistence_mean_error > 0.0)
            .then(|| 1.0 - self.mean_error / self.persistence_mean_error)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scores_count_errors_and_ranges() {
        let q = |x: f64| Quantiles::of([x - 1.0, x, x + 1.0]).unwrap();
        let score = ForecastScore::of(&[q(4.0), q(6.0)], &[4.5, 9.0], 3.0).unwrap();
        assert_eq!((score.count, score.within_range), (2, 0.5));
        assert!((score.mean_error - 1.75).abs() < 1e-12);
        assert!((score.persistence_mean_error - 3.75).abs() < 1e-12);
        assert!((score.skill().unwrap() - (1.0 - 1.75 / 3.75)).abs() < 1e-12);
        let still = ForecastScore::of(&[q(3.0)], &[3.0], 3.0).unwrap();
        assert_eq!(still.skill(), None);
        assert!(ForecastScore::of(&[], &[], 3.0).is_err());
        assert!(ForecastScore::of(&[q(1.0)], &[1.0, 2.0], 3.0).is_err());
        assert!(ForecastScore::of(&[q(1.0)], &[f64::NAN], 3.0).is_err());
    }
}
