use super::ContentEstimate;
use crate::Result;
use crate::error::within;
use crate::quantity::{Content, species};
use crate::real::{Real as _, sqrt};

/// Carbon, nitrogen and phosphorus of a kind of organic matter, in moles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ElementalRatio {
    carbon: f64,
    nitrogen: f64,
    phosphorus: f64,
}

impl ElementalRatio {
    /// Marine plankton, C:N:P 106:16:1 (Redfield 1958, Am. Sci. 46, 205-221).
    pub const REDFIELD: Self = Self {
        carbon: 106.0,
        nitrogen: 16.0,
        phosphorus: 1.0,
    };

    /// Benthic marine plants, macroalgae and seagrasses, median C:N:P 550:30:1
    /// (Atkinson & Smith 1983, Limnol. Oceanogr. 28, 568-574, doi
    /// 10.4319/lo.1983.28.3.0568).
    pub const BENTHIC_PLANTS: Self = Self {
        carbon: 550.0,
        nitrogen: 30.0,
        phosphorus: 1.0,
    };

    /// Moles of carbon per mole of nitrogen.
    #[must_use]
    pub const fn carbon_to_nitrogen(self) -> f64 {
        self.carbon / self.nitrogen
    }

    /// Moles of carbon per mole of phosphorus.
    #[must_use]
    pub const fn carbon_to_phosphorus(self) -> f64 {
        self.carbon / self.phosphorus
    }

    /// Moles of nitrogen per mole of phosphorus.
    #[must_use]
    pub const fn nitrogen_to_phosphorus(self) -> f64 {
        self.nitrogen / self.phosphorus
    }
}

/// Molar ratio of dissolved inorganic nitrogen to phosphate.
///
/// The ratio of milligrams on two kits is not this ratio: 5 mg/L NO3 over
/// 0.1 mg/L PO4 is 50 by mass and 77 by moles.
///
/// ```
/// use halimeda::nutrient::{ContentEstimate, ElementalRatio, NitrogenToPhosphorus, NutrientBalance};
/// use halimeda::Content;
/// let nitrogen = ContentEstimate::new(
///     Content::from_umol_per_kg(80.0)?,
///     Content::from_umol_per_kg(8.0)?,
/// );
/// let phosphate = ContentEstimate::new(
///     Content::from_umol_per_kg(1.0)?,
///     Content::from_umol_per_kg(0.1)?,
/// );
/// let ratio = NitrogenToPhosphorus::new(nitrogen, phosphate)?;
/// assert!((ratio.value() - 80.0).abs() < 1e-9);
/// assert_eq!(ratio.balance(ElementalRatio::REDFIELD), NutrientBalance::NitrogenRich);
///
/// // A kit near its detection limit leaves the ratio open above.
/// let vague = ContentEstimate::new(
///     Content::from_umol_per_kg(0.3)?,
///     Content::from_umol_per_kg(0.2)?,
/// );
/// assert_eq!(NitrogenToPhosphorus::new(nitrogen, vague)?.interval().1, None);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NitrogenToPhosphorus {
    value: f64,
    standard_uncertainty: f64,
    lower: f64,
    upper: Option<f64>,
}

/// Which of the two nutrients the water holds in excess of a reference ratio.
///
/// A ratio says which would run out first, not that either is short: at
/// 100 µmol/kg nitrate and 5 µmol/kg phosphate neither limits growth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum NutrientBalance {
    /// More nitrogen than the reference, beyond the readings' uncertainty.
    NitrogenRich,
    /// Within the readings' uncertainty of the reference.
    Undecided,
    /// More phosphorus than the reference, beyond the readings' uncertainty.
    PhosphorusRich,
}

/// Smallest phosphate, mol/kg, a ratio is formed with: a picomole, far below
/// what any method detects.
const LEAST_PHOSPHATE_MOL_PER_KG: f64 = 1e-12;

/// Coverage factor of the interval: about 95 % of a normal distribution.
const COVERAGE: f64 = 2.0;

impl NitrogenToPhosphorus {
    /// From dissolved inorganic nitrogen and phosphate, their uncertainties
    /// taken as independent and normal.
    ///
    /// # Errors
    /// Phosphate is zero: the ratio has no value. Give the kit's reading
    /// [`below`](super::KitReading::below) its detection limit instead.
    pub fn new(
        nitrogen: ContentEstimate<species::InorganicNitrogen>,
        phosphate: ContentEstimate<species::Phosphate>,
    ) -> Result<Self> {
        let n = nitrogen.content().mol_per_kg();
        let p = within(
            "phosphate",
            phosphate.content().mol_per_kg(),
            LEAST_PHOSPHATE_MOL_PER_KG,
            Content::<species::Phosphate>::MAX_MOL_PER_KG,
            "mol/kg",
        )?;
        let u_n = nitrogen.standard_uncertainty().mol_per_kg();
        let u_p = phosphate.standard_uncertainty().mol_per_kg();
        let value = n / p;
        let variance = (u_n / p).square() + (value * u_p / p).square();
        let (lower, upper) = fieller(n, COVERAGE * u_n, p, COVERAGE * u_p);
        Ok(Self {
            value,
            standard_uncertainty: sqrt(variance),
            lower,
            upper,
        })
    }

    /// Moles of nitrogen per mole of phosphorus.
    #[must_use]
    pub const fn value(&self) -> f64 {
        self.value
    }

    /// Its standard uncertainty to first order. Where phosphate is known to
    /// worse than a fifth, use [`interval`](Self::interval).
    #[must_use]
    pub const fn standard_uncertainty(&self) -> f64 {
        self.standard_uncertainty
    }

    /// Interval of about 95 %, by Fieller's theorem (Fieller 1954, J. R. Stat.
    /// Soc. B 16, 175-185). `None` above where phosphate cannot be told from zero.
    #[must_use]
    pub const fn interval(&self) -> (f64, Option<f64>) {
        (self.lower, self.upper)
    }

    /// Compares the interval with a reference.
    #[must_use]
    pub fn balance(&self, reference: ElementalRatio) -> NutrientBalance {
        let reference = reference.nitrogen_to_phosphorus();
        if self.lower > reference {
            NutrientBalance::NitrogenRich
        } else if self.upper.is_some_and(|upper| upper < reference) {
            NutrientBalance::PhosphorusRich
        } else {
            NutrientBalance::Undecided
        }
    }
}

/// The ratios r ≥ 0 for which n − r p lies within its own expanded uncertainty
/// of zero: (n − r p)² ≤ e_n² + r² e_p², a quadratic a r² − 2 n p r + c ≤ 0.
fn fieller(n: f64, e_n: f64, p: f64, e_p: f64) -> (f64, Option<f64>) {
    let a = p.square() - e_p.square();
    let c = n.square() - e_n.square();
    let discriminant = (n * p).square() - a * c;
    if discriminant < 0.0 {
        return (0.0, None);
    }
    let q = n * p + sqrt(discriminant);
    // The smaller positive root, written so that nothing cancels; with c ≤ 0
    // zero itself is among the ratios.
    let lower = if c > 0.0 { c / q } else { 0.0 };
    let upper = if a > 0.0 { Some(q / a) } else { None };
    (lower, upper)
}
