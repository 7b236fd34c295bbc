/// How much of a supplement, in the measure it is handed out in.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Amount {
    /// Grams of a solid.
    Grams(f64),
    /// Millilitres of a solution.
    Millilitres(f64),
}

/// What a supplement is measured by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Measure {
    /// Grams of a solid.
    Gram,
    /// Millilitres of a solution.
    Millilitre,
}

impl Measure {
    /// The largest amount accepted, in the measure: what weighs down the
    /// largest system by as much again.
    pub(super) const MAX_AMOUNT: f64 = 1e12;

    /// An amount in this measure.
    #[must_use]
    pub const fn amount(self, value: f64) -> Amount {
        match self {
            Self::Gram => Amount::Grams(value),
            Self::Millilitre => Amount::Millilitres(value),
        }
    }
}
