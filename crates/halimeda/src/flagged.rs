use crate::relation::RelationSet;

/// An answer, with the relations that were used outside their published range
/// to reach it.
///
/// The set is empty unless the water allows extrapolation.
///
/// ```
/// use halimeda::gas::oxygen_solubility;
/// use halimeda::{Extrapolation, PracticalSalinity, Relation, Temperature, Water};
/// let brine = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(44.0)?);
/// assert!(oxygen_solubility(&brine).is_err());
/// let answer = oxygen_solubility(&brine.with_extrapolation(Extrapolation::Allow))?;
/// assert!(answer.extrapolated().contains(Relation::OxygenGarciaGordon1992));
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Flagged<T> {
    value: T,
    extrapolated: RelationSet,
}

impl<T: Copy> Flagged<T> {
    pub(crate) const fn new(value: T, extrapolated: RelationSet) -> Self {
        Self {
            value,
            extrapolated,
        }
    }

    /// The answer.
    #[must_use]
    pub const fn value(&self) -> T {
        self.value
    }

    /// The relations it extrapolates.
    #[must_use]
    pub const fn extrapolated(&self) -> RelationSet {
        self.extrapolated
    }
}
