//! From the numbers of a column to those of [`Measured`].

use halimeda::Extrapolation;
use halimeda::water::{SpecificGravity, SpecificGravityReference};

use super::Measured;
use crate::description::short;

/// From the numbers of a column to those of [`Measured`].
#[derive(Debug, Clone, Copy)]
pub(super) struct Scale {
    pub(super) measured: Measured,
    /// In the unit of [`Measured`].
    pub(super) limits: (f64, f64),
    pub(super) turn: Turn,
}

#[derive(Debug, Clone, Copy)]
pub(super) enum Turn {
    /// (number + shift) · factor
    Linear {
        shift: f64,
        factor: f64,
    },
    Gravity(SpecificGravityReference),
}

impl Scale {
    pub(super) fn value(&self, number: f64) -> Option<f64> {
        match self.turn {
            Turn::Linear { shift, factor } => Some((number + shift) * factor),
            Turn::Gravity(reference) => {
                let gravity = SpecificGravity::new(number, reference).ok()?;
                let reading = gravity.practical_salinity(Extrapolation::Refuse).ok()?;
                Some(reading.salinity().value())
            }
        }
    }

    /// Size of a small difference of the column's numbers at one of them.
    pub(super) fn difference(&self, number: f64, difference: f64) -> Option<f64> {
        match self.turn {
            Turn::Linear { factor, .. } => Some(difference * factor),
            Turn::Gravity(_) => {
                let half = 0.5 * difference;
                Some((self.value(number + half)? - self.value(number - half)?).abs())
            }
        }
    }

    /// The number of the column that a limit is, for messages.
    pub(super) fn number_of(&self, value: f64) -> Option<f64> {
        match self.turn {
            Turn::Linear { shift, factor } => Some(value / factor - shift),
            Turn::Gravity(_) => None,
        }
    }

    pub(super) fn is_within(&self, value: f64) -> bool {
        // What is exactly a limit in one unit may miss it by rounding in another.
        let slack = 1e-9 * self.limits.1;
        value >= self.limits.0 - slack && value <= self.limits.1 + slack
    }
}

/// A limit of a column in its own unit, for messages.
pub(super) fn limits_shown(scale: &Scale, unit: &str) -> String {
    let (low, high) = scale.limits;
    match (scale.number_of(low), scale.number_of(high)) {
        (Some(low), Some(high)) => format!("{} to {} {unit}", short(low), short(high)),
        _ => format!("a salinity of {} to {}", short(low), short(high)),
    }
}
