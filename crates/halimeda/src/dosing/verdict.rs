use core::fmt;

use super::limits::refusal;
use super::{DoseEffect, DoseLimits, Limit};
use crate::Result;

/// Whether a plan stays within its limits, and every limit it does not.
///
/// ```
/// use halimeda::carbonate::EquilibriumOptions;
/// use halimeda::dosing::*;
/// use halimeda::*;
/// # let water = Water::new(Temperature::from_celsius(25.5)?, PracticalSalinity::new(35.0)?);
/// # let tank = water
/// #     .equilibria(&EquilibriumOptions::default())?
/// #     .solve(Alkalinity::from_umol_per_kg(2600.0)?, Ph::<TotalScale>::new(8.0)?)?;
/// let system = DosedSystem::new(
///     tank,
///     Mass::from_kilograms(200.0)?,
///     PartialPressureCo2::from_uatm(500.0)?,
/// )?;
/// let lye = Supplement::solid(Salt::SodiumHydroxide).dose(Amount::Grams(5.0))?;
/// let verdict = system.judge(&DosePlan::new(&[lye], 1)?, &DoseLimits::default())?;
/// assert!(!verdict.is_accepted());
/// assert!(verdict.excesses().any(|e| e.limit() == Limit::PhStep && e.is_past_hard_value()));
/// assert!(verdict.accepted().is_err());
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[must_use]
pub struct DoseVerdict {
    effect: DoseEffect,
    excesses: [Option<Excess>; Limit::COUNT],
}

/// A limit that a plan exceeds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Excess {
    limit: Limit,
    value: f64,
    allowed: f64,
}

impl Excess {
    /// The limit.
    #[must_use]
    pub const fn limit(&self) -> Limit {
        self.limit
    }

    /// What the plan reaches, in [`Limit::unit`].
    #[must_use]
    pub const fn value(&self) -> f64 {
        self.value
    }

    /// What it may reach, in [`Limit::unit`].
    #[must_use]
    pub const fn allowed(&self) -> f64 {
        self.allowed
    }

    /// No setting of the limits lets this pass. More solution than evaporates
    /// never does: evaporation is measured, not chosen.
    #[must_use]
    pub const fn is_past_hard_value(&self) -> bool {
        let hard = self.limit.hard_value();
        match self.limit {
            Limit::SolutionPerDay => true,
            limit if limit.is_floor() => self.value < hard,
            _ => self.value > hard,
        }
    }
}

impl fmt::Display for Excess {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let side = if self.limit.is_floor() {
            "least"
        } else {
            "most"
        };
        write!(
            f,
            "{} would be {:.4} {unit}; at {side} {} {unit} is allowed ({})",
            self.limit.name(),
            self.value,
            self.allowed,
            self.limit.source(),
            unit = self.limit.unit(),
        )
    }
}

impl DoseVerdict {
    /// Judges the values that `reached` gives for the limits; `None` where the
    /// dose has no part in it.
    pub(super) fn new(
        effect: DoseEffect,
        limits: &DoseLimits,
        reached: impl Fn(Limit) -> Option<f64>,
    ) -> Self {
        // Doses computed to meet a limit exactly are not refused for rounding.
        const SLACK: f64 = 1e-9;
        Self {
            effect,
            excesses: Limit::ALL.map(|limit| {
                let value = reached(limit)?;
                let allowed = limits.value(limit);
                let exceeded = if limit.is_floor() {
                    value < allowed * (1.0 - SLACK)
                } else {
                    value > allowed * (1.0 + SLACK)
                };
                exceeded.then_some(Excess {
                    limit,
                    value,
                    allowed,
                })
            }),
        }
    }

    /// What the plan does to the water, accepted or not.
    #[must_use]
    pub const fn effect(&self) -> &DoseEffect {
        &self.effect
    }

    /// Whether every limit holds.
    #[must_use]
    pub fn is_accepted(&self) -> bool {
        self.excesses().next().is_none()
    }

    /// The limits that do not hold, in the order of [`Limit::ALL`].
    pub fn excesses(&self) -> impl Iterator<Item = Excess> {
        self.excesses.iter().copied().flatten()
    }

    /// The effect of a plan that stays within every limit.
    ///
    /// # Errors
    /// [`ErrorKind::OutOfRange`](crate::ErrorKind::OutOfRange) with the first
    /// limit that does not hold, what the plan reaches and what is allowed.
    pub fn accepted(&self) -> Result<DoseEffect> {
        match self.excesses().next() {
            Some(excess) => Err(refusal(excess.limit, excess.value, excess.allowed)),
            None => Ok(self.effect),
        }
    }
}
