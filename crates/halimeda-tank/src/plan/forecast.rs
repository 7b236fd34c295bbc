use serde::{Deserialize, Serialize};

use crate::ensemble::Ensemble;
use crate::error::Result;
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
