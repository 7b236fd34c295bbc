//! A number with its standard uncertainty.

use halimeda::nutrient::ContentEstimate;
use halimeda::quantity::Species;
use serde::Serialize;

/// A value and its standard uncertainty, in the unit its name gives.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub(crate) struct Estimate {
    pub(crate) value: f64,
    pub(crate) standard_uncertainty: f64,
}

impl Estimate {
    pub(crate) const fn new(value: f64, standard_uncertainty: f64) -> Self {
        Self {
            value,
            standard_uncertainty,
        }
    }

    /// In a unit `factor` times smaller.
    pub(crate) fn times(self, factor: f64) -> Self {
        Self::new(self.value * factor, self.standard_uncertainty * factor)
    }

    /// The difference of two independent estimates.
    pub(crate) fn less(self, other: Self) -> Self {
        Self::new(
            self.value - other.value,
            self.standard_uncertainty.hypot(other.standard_uncertainty),
        )
    }

    /// Whether zero lies outside two standard uncertainties, about 95 %.
    pub(crate) fn differs_from_zero(self) -> bool {
        self.value.abs() > 2.0 * self.standard_uncertainty
    }
}

impl<S: Species> From<ContentEstimate<S>> for Estimate {
    /// In µmol/kg.
    fn from(estimate: ContentEstimate<S>) -> Self {
        Self::new(
            estimate.content().umol_per_kg(),
            estimate.standard_uncertainty().umol_per_kg(),
        )
    }
}

/// A function of independent inputs with its uncertainty, each input moved by
/// its own standard uncertainty both ways (JCGM 100:2008, note to 5.1.3).
pub(crate) fn propagate<const N: usize>(
    inputs: [Estimate; N],
    function: impl Fn([f64; N]) -> halimeda::Result<f64>,
) -> halimeda::Result<Estimate> {
    let best = inputs.map(|input| input.value);
    let mut variance = 0.0;
    for moved in 0..N {
        let at = |steps: f64| {
            let mut index = 0;
            function(inputs.map(|input| {
                let step = if index == moved { steps } else { 0.0 };
                index += 1;
                input.value + step * input.standard_uncertainty
            }))
        };
        let effect = 0.5 * (at(1.0)? - at(-1.0)?);
        variance += effect * effect;
    }
    Ok(Estimate::new(function(best)?, variance.sqrt()))
}
