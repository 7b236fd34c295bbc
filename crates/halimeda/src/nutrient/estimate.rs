use crate::Result;
use crate::quantity::{Content, Species, species};
use crate::real::{Real as _, sqrt};

/// An amount per kilogram of seawater with its standard uncertainty (one
/// standard deviation, JCGM 100:2008).
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(bound = ""))]
pub struct ContentEstimate<S: Species> {
    content: Content<S>,
    standard_uncertainty: Content<S>,
}

impl<S: Species> ContentEstimate<S> {
    /// From a best value and its standard uncertainty.
    #[must_use]
    pub const fn new(content: Content<S>, standard_uncertainty: Content<S>) -> Self {
        Self {
            content,
            standard_uncertainty,
        }
    }

    /// The best value.
    #[must_use]
    pub const fn content(&self) -> Content<S> {
        self.content
    }

    /// Its standard uncertainty.
    #[must_use]
    pub const fn standard_uncertainty(&self) -> Content<S> {
        self.standard_uncertainty
    }
}

/// The amounts per kilogram of seawater that a reading leaves possible.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(bound = ""))]
#[non_exhaustive]
pub struct ContentInterval<S: Species> {
    /// Lower end.
    pub lower: Content<S>,
    /// Upper end; `None` where nothing bounds it.
    pub upper: Option<Content<S>>,
}

/// Dissolved inorganic nitrogen: nitrate, nitrite and total ammonia, mole for
/// mole, their uncertainties taken as independent.
///
/// A form that was not measured still counts: give it as a reading
/// [`below`](super::KitReading::below) what it may plausibly be.
///
/// # Errors
/// The sum exceeds [`Content::MAX_MOL_PER_KG`].
pub fn dissolved_inorganic_nitrogen(
    nitrate: ContentEstimate<species::Nitrate>,
    nitrite: ContentEstimate<species::Nitrite>,
    ammonia: ContentEstimate<species::TotalAmmonia>,
) -> Result<ContentEstimate<species::InorganicNitrogen>> {
    let content =
        nitrate.content.mol_per_kg() + nitrite.content.mol_per_kg() + ammonia.content.mol_per_kg();
    let variance = nitrate.standard_uncertainty.mol_per_kg().square()
        + nitrite.standard_uncertainty.mol_per_kg().square()
        + ammonia.standard_uncertainty.mol_per_kg().square();
    Ok(ContentEstimate {
        content: Content::from_mol_per_kg(content)?,
        standard_uncertainty: Content::unchecked(sqrt(variance)),
    })
}
