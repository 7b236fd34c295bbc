use super::ContentEstimate;
use crate::carbonate::Medium;
use crate::carbonate::constants::{PressureEffect, knh4_clegg_whitfield1995};
use crate::error::{Result, within};
use crate::quantity::{Concentration, Content, Ph, TotalScale, form, species};
use crate::real::{Real as _, exp10, sqrt};
use crate::relation::{Relation, RelationSet};
use crate::water::Water;

/// Un-ionised ammonia, NH3, in a body of water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UnionisedAmmonia {
    content: Content<species::UnionisedAmmonia>,
    total: Content<species::TotalAmmonia>,
    fraction: f64,
    extrapolations: RelationSet,
}

/// Half-width within which the dissociation constant is known: "likely to be
/// better than 5 %" (Clegg & Whitfield 1995, abstract).
const CONSTANT_HALF_WIDTH: f64 = 0.05;

/// Un-ionised part of total ammonia, from pH on the total scale and the
/// dissociation constant of ammonium of Clegg & Whitfield (1995), Geochim.
/// Cosmochim. Acta 59, 2403-2421 (doi 10.1016/0016-7037(95)00135-2).
///
/// A reading of an NBS-calibrated probe has to be converted first
/// ([`Equilibria::convert_ph`](crate::carbonate::Equilibria::convert_ph)): taken
/// as it is, it overstates the toxic part by about a third.
///
/// ```
/// use halimeda::nutrient::{AmmoniaVerdict, unionised_ammonia};
/// use halimeda::{Concentration, Ph, PracticalSalinity, Temperature, Water, form};
/// let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
/// let density = water.density()?;
/// let kit = Concentration::<form::AmmoniaAsN>::from_mg_per_l(0.5)?;
/// let ammonia = unionised_ammonia(&water, Ph::new(8.1)?, kit.to_content(density))?;
/// let verdict = AmmoniaVerdict::of(ammonia.content().to_concentration(density));
/// assert_eq!(verdict, AmmoniaVerdict::AboveChronic);
/// # Ok::<(), halimeda::Error>(())
/// ```
///
/// # Errors
/// Temperature or salinity outside [`Relation::Knh4CleggWhitfield1995`] and
/// extrapolation not allowed.
pub fn unionised_ammonia(
    water: &Water,
    ph: Ph<TotalScale>,
    total: Content<species::TotalAmmonia>,
) -> Result<UnionisedAmmonia> {
    let mut extrapolations = RelationSet::EMPTY;
    extrapolations.check(
        Relation::Knh4CleggWhitfield1995,
        water.temperature(),
        water.salinity(),
        water.extrapolation(),
    )?;
    let medium = Medium::new(water.temperature().celsius(), water.salinity().value());
    // The ratio of the scales this correction and the constant are on shifts
    // with pressure by less than 0.1 % to 1000 dbar, and is left out.
    let k = knh4_clegg_whitfield1995(&medium)
        * PressureEffect::KNH4.factor(&medium, water.water_pressure().bar());
    let fraction = k / (k + exp10(-ph.value()));
    Ok(UnionisedAmmonia {
        content: Content::unchecked(total.mol_per_kg() * fraction),
        total,
        fraction,
        extrapolations,
    })
}

impl UnionisedAmmonia {
    /// Amount per kilogram of seawater.
    #[must_use]
    pub const fn content(&self) -> Content<species::UnionisedAmmonia> {
        self.content
    }

    /// Part of total ammonia, 0 to 1.
    #[must_use]
    pub const fn fraction(&self) -> f64 {
        self.fraction
    }

    /// Relations that were evaluated outside their published range.
    #[must_use]
    pub const fn extrapolations(&self) -> RelationSet {
        self.extrapolations
    }

    /// The amount with its standard uncertainty, from that of the pH, that of
    /// total ammonia (both independent) and that of the dissociation constant
    /// (5 % half-width, Clegg & Whitfield 1995, taken as uniform).
    ///
    /// # Errors
    /// `ph_standard_uncertainty` is not finite or outside 0 to 1.
    pub fn estimate(
        &self,
        ph_standard_uncertainty: f64,
        total_standard_uncertainty: Content<species::TotalAmmonia>,
    ) -> Result<ContentEstimate<species::UnionisedAmmonia>> {
        let u_ph = within(
            "standard uncertainty of pH",
            ph_standard_uncertainty,
            0.0,
            1.0,
            "(pH)",
        )?;
        // d ln f / d ln(K/[H+]) = 1 - f for f = K/(K + [H+]).
        let from_total = self.fraction * total_standard_uncertainty.mol_per_kg();
        let per_logarithm = self.total.mol_per_kg() * self.fraction * (1.0 - self.fraction);
        let u_logarithm_squared =
            (core::f64::consts::LN_10 * u_ph).square() + CONSTANT_HALF_WIDTH.square() / 3.0;
        let variance = from_total.square() + per_logarithm.square() * u_logarithm_squared;
        Ok(ContentEstimate::new(
            self.content,
            Content::unchecked(sqrt(variance)),
        ))
    }
}

/// Where un-ionised ammonia stands against the saltwater criteria of the US
/// Environmental Protection Agency.
///
/// Ambient Water Quality Criteria for Ammonia (Saltwater), EPA 440/5-88-004,
/// April 1989: a one-hour average of 0.233 mg/L (acute) and a four-day average
/// of 0.035 mg/L (chronic). Read as milligrams of NH3, as in Washington
/// Administrative Code 173-201A-240 ("un-ionized NH3"); read as nitrogen both
/// would be 22 % laxer.
///
/// The criteria protect most marine species most of the time. They are no
/// promise for one animal: sensitive species, young and stressed animals can be
/// harmed below them, and nothing here replaces the advice of a veterinarian or
/// an experienced aquarist.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum AmmoniaVerdict {
    /// At or below both limits.
    WithinLimits,
    /// Above the chronic limit: harm if it lasts for days.
    AboveChronic,
    /// Above the acute limit: harm within hours.
    AboveAcute,
}

impl AmmoniaVerdict {
    /// Chronic limit, four-day average, mg/L as NH3.
    pub const CHRONIC_MG_PER_L: f64 = 0.035;

    /// Acute limit, one-hour average, mg/L as NH3.
    pub const ACUTE_MG_PER_L: f64 = 0.233;

    /// Compares a concentration with the limits.
    #[must_use]
    pub fn of(ammonia: Concentration<form::UnionisedAmmoniaAsNh3>) -> Self {
        let mg_per_l = ammonia.mg_per_l();
        if mg_per_l > Self::ACUTE_MG_PER_L {
            Self::AboveAcute
        } else if mg_per_l > Self::CHRONIC_MG_PER_L {
            Self::AboveChronic
        } else {
            Self::WithinLimits
        }
    }

    /// What it means for the animals, with the usual caution.
    #[must_use]
    pub const fn caution(self) -> &'static str {
        match self {
            Self::WithinLimits => {
                "Below the saltwater limits. Any measurable ammonia in an established tank still \
                 deserves its cause found; sensitive and young animals can suffer below the limits."
            }
            Self::AboveChronic => {
                "Above the limit for days of exposure. Confirm with a second test, stop feeding, \
                 find the cause and dilute with matched salt water; do not raise pH or temperature, \
                 both make more of the ammonia toxic."
            }
            Self::AboveAcute => {
                "Above the limit for hours of exposure: livestock is in danger now. Confirm with a \
                 second test, change water with matched salt water, aerate, do not raise pH or \
                 temperature, and move animals if clean water is at hand; follow the label of any \
                 ammonia binder."
            }
        }
    }
}
