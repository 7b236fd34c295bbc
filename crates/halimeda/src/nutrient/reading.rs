use super::{ContentEstimate, ContentInterval};
use crate::error::{Error, Result, within};
use crate::quantity::{Concentration, Density, Form};
use crate::real::{Real as _, sqrt};

/// How finely and how well a kit, photometer or laboratory reads one form.
///
/// - *resolution*: the step of the display. A rounded number lies anywhere
///   within half a step, standard uncertainty step/√12 (JCGM 100:2008, F.2.2.1).
/// - *absolute* and *relative*: the standard uncertainty that does not and that
///   does grow with the reading. A maker's "± a, ± b %" without a stated
///   confidence is a half-width: divide by √3 (JCGM 100:2008, 4.3.7); one stated
///   for 95 % is two standard uncertainties.
///
/// Laboratories reach 1–2 % (common practice, no source). Low-cost colour kits
/// do worse than their leaflets: of volunteers' readings in fresh water only
/// 62–66 % agreed with a laboratory for the better phosphate and nitrate tests,
/// and 17 % for the worst (von Benzon et al. 2025, Front. Environ. Sci. 13,
/// 1667241, abstract, doi 10.3389/fenvs.2025.1667241). Seawater is a harder
/// matrix.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KitPrecision<F: Form> {
    resolution: Concentration<F>,
    absolute: Concentration<F>,
    relative: f64,
}

impl<F: Form> KitPrecision<F> {
    /// From the display step, the absolute standard uncertainty and the
    /// relative one (0.02 is 2 %).
    ///
    /// # Errors
    /// `relative` is not finite or outside 0 to 1, or all three are zero: no
    /// kit is exact.
    pub fn new(
        resolution: Concentration<F>,
        absolute: Concentration<F>,
        relative: f64,
    ) -> Result<Self> {
        within("relative uncertainty of the kit", relative, 0.0, 1.0, "(1)")?;
        if resolution.mg_per_l() + absolute.mg_per_l() == 0.0 {
            return Err(Error::uninformative(
                F::NAME,
                "give the kit's resolution or its absolute uncertainty: a reading of zero would be exact",
            ));
        }
        Ok(Self {
            resolution,
            absolute,
            relative,
        })
    }

    fn standard_uncertainty_mg_per_l(&self, mg_per_l: f64) -> f64 {
        let variance = self.resolution.mg_per_l().square() / 12.0
            + self.absolute.mg_per_l().square()
            + (self.relative * mg_per_l).square();
        sqrt(variance)
    }
}

/// What a kit can say, by kind.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum KitReadingKind<F: Form> {
    /// A number with a standard uncertainty.
    Measured {
        /// The number shown.
        value: Concentration<F>,
        /// Its standard uncertainty.
        standard_uncertainty: Concentration<F>,
    },
    /// Anywhere between two colours of the card, none more likely.
    Between {
        /// The paler colour.
        lower: Concentration<F>,
        /// The stronger colour.
        upper: Concentration<F>,
    },
    /// Not detected.
    Below {
        /// Detection limit.
        limit: Concentration<F>,
    },
    /// Off the top of the range.
    Above {
        /// Top of the range.
        limit: Concentration<F>,
    },
}

/// One reading of a kit, with what it leaves open.
///
/// "Not detected" is not zero and "off the card" is not the last colour: both
/// are readings of their own.
///
/// ```
/// use halimeda::nutrient::KitReading;
/// use halimeda::{Concentration, Density, form};
/// let density = Density::from_kg_per_m3(1023.34)?;
/// let mg = Concentration::<form::NitrateAsNo3>::from_mg_per_l;
/// // Between the colours of 5 and 10 mg/L.
/// let nitrate = KitReading::between(mg(5.0)?, mg(10.0)?)?.estimate(density)?;
/// assert!((nitrate.content().umol_per_kg() - 118.2).abs() < 0.1);
/// assert!((nitrate.standard_uncertainty().umol_per_kg() - 22.75).abs() < 0.01);
/// // Darker than the darkest colour: no number, whatever one would like to see.
/// assert!(KitReading::above(mg(50.0)?).estimate(density).is_err());
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KitReading<F: Form> {
    kind: KitReadingKind<F>,
}

impl<F: Form> KitReading<F> {
    /// A number read off a display or a laboratory report.
    ///
    /// # Errors
    /// The standard uncertainty exceeds what a [`Concentration`] accepts.
    pub fn measured(value: Concentration<F>, precision: &KitPrecision<F>) -> Result<Self> {
        let u = precision.standard_uncertainty_mg_per_l(value.mg_per_l());
        Ok(Self {
            kind: KitReadingKind::Measured {
                value,
                standard_uncertainty: Concentration::from_mg_per_l(u)?,
            },
        })
    }

    /// A colour between two of the card. A colour that matches one of the card
    /// is between the midpoints to its neighbours.
    ///
    /// # Errors
    /// `lower` is not below `upper`.
    pub fn between(lower: Concentration<F>, upper: Concentration<F>) -> Result<Self> {
        if lower.mg_per_l() >= upper.mg_per_l() {
            return Err(Error::contradictory(
                ("lower colour step", lower.mg_per_l()),
                ("upper colour step", upper.mg_per_l()),
                "the lower step must be below the upper",
            ));
        }
        Ok(Self {
            kind: KitReadingKind::Between { lower, upper },
        })
    }

    /// Not detected with a kit of this detection limit.
    ///
    /// # Errors
    /// The limit is zero: it would claim an exact zero.
    pub fn below(limit: Concentration<F>) -> Result<Self> {
        if limit.mg_per_l() == 0.0 {
            return Err(Error::uninformative(
                F::NAME,
                "a detection limit of zero; give the smallest amount the kit can show",
            ));
        }
        Ok(Self {
            kind: KitReadingKind::Below { limit },
        })
    }

    /// Off the top of the kit's range.
    #[must_use]
    pub const fn above(limit: Concentration<F>) -> Self {
        Self {
            kind: KitReadingKind::Above { limit },
        }
    }

    /// What the kit said, for a likelihood.
    #[must_use]
    pub const fn kind(&self) -> KitReadingKind<F> {
        self.kind
    }

    /// Best value and standard uncertainty as amount per kilogram.
    ///
    /// An interval is taken as uniform, its midpoint and width/√12 (JCGM
    /// 100:2008, 4.3.7); "not detected" as uniform from zero to the limit.
    ///
    /// # Errors
    /// The reading was off the top of the range: nothing bounds it from above.
    pub fn estimate(&self, density: Density) -> Result<ContentEstimate<F::Species>> {
        let uniform = |lower: f64, upper: f64| -> Result<_> {
            Ok((
                Concentration::from_mg_per_l(0.5 * (lower + upper))?,
                Concentration::from_mg_per_l((upper - lower) / sqrt(12.0))?,
            ))
        };
        let (value, u): (Concentration<F>, Concentration<F>) = match self.kind {
            KitReadingKind::Measured {
                value,
                standard_uncertainty,
            } => (value, standard_uncertainty),
            KitReadingKind::Between { lower, upper } => {
                uniform(lower.mg_per_l(), upper.mg_per_l())?
            }
            KitReadingKind::Below { limit } => uniform(0.0, limit.mg_per_l())?,
            KitReadingKind::Above { .. } => {
                return Err(Error::uninformative(
                    F::NAME,
                    "the reading is above the kit's range; dilute the sample and measure again",
                ));
            }
        };
        Ok(ContentEstimate::new(
            value.to_content(density),
            u.to_content(density),
        ))
    }

    /// What the reading is compatible with: two standard uncertainties (about
    /// 95 %) around a number, cut at zero, and the interval itself otherwise.
    ///
    /// # Errors
    /// The upper end exceeds what a [`Concentration`] accepts.
    pub fn interval(&self, density: Density) -> Result<ContentInterval<F::Species>> {
        let (lower, upper) = match self.kind {
            KitReadingKind::Measured {
                value,
                standard_uncertainty,
            } => {
                let half = 2.0 * standard_uncertainty.mg_per_l();
                let lower = (value.mg_per_l() - half).max(0.0);
                (
                    Concentration::<F>::from_mg_per_l(lower)?,
                    Some(Concentration::from_mg_per_l(value.mg_per_l() + half)?),
                )
            }
            KitReadingKind::Between { lower, upper } => (lower, Some(upper)),
            KitReadingKind::Below { limit } => (Concentration::from_mg_per_l(0.0)?, Some(limit)),
            KitReadingKind::Above { limit } => (limit, None),
        };
        Ok(ContentInterval {
            lower: lower.to_content(density),
            upper: upper.map(|upper| upper.to_content(density)),
        })
    }
}
