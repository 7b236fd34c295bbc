use super::{Addition, Amount, CautionSet, Measure, Supplement};
use crate::Result;
use crate::error::within;

/// An amount of a [`Supplement`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dose {
    supplement: Supplement,
    value: f64,
}

impl Dose {
    /// `value` is finite and not negative.
    pub(super) const fn new(supplement: Supplement, value: f64) -> Self {
        Self { supplement, value }
    }

    /// The supplement.
    #[must_use]
    pub const fn supplement(&self) -> &Supplement {
        &self.supplement
    }

    /// How much of it.
    #[must_use]
    pub const fn amount(&self) -> Amount {
        self.supplement.measure().amount(self.value)
    }

    /// What the dose brings into the water.
    #[must_use]
    pub fn addition(&self) -> Addition {
        self.supplement.per_unit() * self.value
    }

    /// Litres of solution the dose is; zero for a solid.
    #[must_use]
    pub const fn solution_litres(&self) -> f64 {
        match self.supplement.measure() {
            Measure::Gram => 0.0,
            Measure::Millilitre => self.value * 1e-3,
        }
    }

    /// What can hurt when it is handled.
    #[must_use]
    pub const fn cautions(&self) -> CautionSet {
        self.supplement.cautions()
    }

    /// A share of this dose, from 0 to 1.
    ///
    /// # Errors
    /// The share is not finite or outside 0 to 1.
    pub fn share(&self, share: f64) -> Result<Self> {
        let share = within("share of a dose", share, 0.0, 1.0, "(dimensionless)")?;
        Ok(Self::new(self.supplement, self.value * share))
    }
}
