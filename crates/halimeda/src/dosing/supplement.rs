use super::caution::{Caution, CautionSet};
use super::{Addition, Amount, Dose, Measure, Salt};
use crate::Result;
use crate::error::{Error, within};

/// A salt, or several, as a solid or in solution.
///
/// ```
/// use halimeda::dosing::{Amount, Salt, Supplement};
/// let soda = Supplement::solution(Salt::SodiumBicarbonate, 80.0)?;
/// let dose = soda.dose(Amount::Millilitres(50.0))?;
/// assert!((dose.addition().alkalinity_eq - 0.0476).abs() < 1e-4);
/// // Stronger than bicarbonate dissolves: the strength is not what it is said to be.
/// assert!(Supplement::solution(Salt::SodiumBicarbonate, 250.0).is_err());
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Supplement {
    measure: Measure,
    per_unit: Addition,
    cautions: CautionSet,
    is_limewater: bool,
}

impl Supplement {
    /// A pure solid.
    #[must_use]
    pub fn solid(salt: Salt) -> Self {
        Self {
            measure: Measure::Gram,
            per_unit: salt.per_gram(),
            cautions: salt.cautions(),
            is_limewater: false,
        }
    }

    /// A solid with inert impurities or more hydrate water than the salt's
    /// formula says: `purity` is the mass fraction of the salt, 0.1 to 1.
    ///
    /// # Errors
    /// The purity is not finite or outside 0.1 to 1.
    pub fn solid_of_purity(salt: Salt, purity: f64) -> Result<Self> {
        let purity = within("purity", purity, 0.1, 1.0, "g/g")?;
        let pure = Self::solid(salt);
        Ok(Self {
            per_unit: pure.per_unit * purity,
            ..pure
        })
    }

    /// A dry blend of salts, from the grams of each.
    ///
    /// # Errors
    /// - No part, or one that is not finite, negative or above 10⁶ g.
    /// - Calcium or magnesium with alkalinity or phosphate, or calcium with
    ///   sulfate: they precipitate where the blend dissolves.
    pub fn solid_blend(grams: &[(Salt, f64)]) -> Result<Self> {
        let (addition, cautions, total) =
            blend(grams, "grams of a salt in the blend", "g", |_| 1e6)?;
        Ok(Self {
            measure: Measure::Gram,
            per_unit: addition * (1.0 / total),
            cautions,
            is_limewater: false,
        })
    }

    /// Magnesium as chloride and sulfate in the ratio of seawater, so that
    /// neither of the two drifts: 8 g of the chloride hexahydrate to 1 g of the
    /// sulfate heptahydrate.
    ///
    /// Chloride and sulfate 0.5657647 and 0.0292643 mol per kg of water, Millero
    /// et al. (2008), table 4, doi 10.1016/j.dsr.2007.10.001.
    #[must_use]
    pub fn magnesium_blend() -> Self {
        const SULFATE_PER_CHLORIDE: f64 = 0.0292643 / 0.5657647;
        let chloride = Salt::MagnesiumChlorideHexahydrate;
        let sulfate = Salt::MagnesiumSulfateHeptahydrate;
        // Moles of the sulfate to one mole of the chloride.
        let ratio = 2.0 * SULFATE_PER_CHLORIDE;
        let grams = chloride.molar_mass_g_per_mol() + ratio * sulfate.molar_mass_g_per_mol();
        Self {
            measure: Measure::Gram,
            per_unit: (chloride.per_mol() + sulfate.per_mol() * ratio) * (1.0 / grams),
            cautions: chloride.cautions().union(sulfate.cautions()),
            is_limewater: false,
        }
    }

    /// A solution of one salt, from grams of it (with the water of its hydrate)
    /// per litre of solution.
    ///
    /// # Errors
    /// The strength is not finite, not positive, or more than dissolves at 40 °C.
    pub fn solution(salt: Salt, g_per_l: f64) -> Result<Self> {
        Self::solution_blend(&[(salt, g_per_l)])
    }

    /// A solution of several salts, from grams of each (with the water of its
    /// hydrate) per litre of solution.
    ///
    /// # Errors
    /// - No part, or one that is not finite, negative or more than dissolves
    ///   alone at 40 °C.
    /// - Calcium or magnesium with alkalinity or phosphate, or calcium with
    ///   sulfate: they precipitate.
    pub fn solution_blend(g_per_l: &[(Salt, f64)]) -> Result<Self> {
        let (addition, cautions, _) = blend(
            g_per_l,
            "strength of the solution",
            "g/L",
            Salt::strongest_g_per_l,
        )?;
        Ok(Self {
            measure: Measure::Millilitre,
            per_unit: addition * 1e-3,
            cautions,
            // However it was made, calcium hydroxide in water is limewater.
            is_limewater: g_per_l
                .iter()
                .any(|&(salt, _)| salt == Salt::CalciumHydroxide),
        })
    }

    /// Grams or millilitres.
    #[must_use]
    pub const fn measure(&self) -> Measure {
        self.measure
    }

    /// What one gram or millilitre brings into the water.
    #[must_use]
    pub const fn per_unit(&self) -> Addition {
        self.per_unit
    }

    /// What can hurt when it is handled.
    #[must_use]
    pub const fn cautions(&self) -> CautionSet {
        if self.is_limewater {
            self.cautions
                .union(CautionSet::of(&[Caution::ClearLimewaterOnly]))
        } else {
            self.cautions
        }
    }

    /// Whether it is calcium hydroxide in water, which goes in with the top-off.
    #[must_use]
    pub const fn is_limewater(&self) -> bool {
        self.is_limewater
    }

    /// An amount of it.
    ///
    /// # Errors
    /// The amount is not finite, negative or above 10¹², or is in grams for a
    /// solution or in millilitres for a solid.
    pub fn dose(&self, amount: Amount) -> Result<Dose> {
        let (value, measure) = match amount {
            Amount::Grams(value) => (value, Measure::Gram),
            Amount::Millilitres(value) => (value, Measure::Millilitre),
        };
        if measure != self.measure {
            let (unit, other) = match self.measure {
                Measure::Gram => (
                    "grams of supplement",
                    "the supplement is a solid and is measured in grams",
                ),
                Measure::Millilitre => (
                    "millilitres of supplement",
                    "the supplement is a solution and is measured in millilitres",
                ),
            };
            return Err(Error::contradictory(("dose", value), (unit, 1.0), other));
        }
        self.dose_of(value)
    }

    /// A dose by its bare number in the supplement's own measure.
    pub(super) fn dose_of(&self, value: f64) -> Result<Dose> {
        let unit = match self.measure {
            Measure::Gram => "g",
            Measure::Millilitre => "mL",
        };
        within("dose", value, 0.0, Measure::MAX_AMOUNT, unit)?;
        Ok(Dose::new(*self, value))
    }
}

/// Sum over the parts of a blend, their cautions, and grams in all.
fn blend(
    parts: &[(Salt, f64)],
    input: &'static str,
    unit: &'static str,
    max: impl Fn(Salt) -> f64,
) -> Result<(Addition, CautionSet, f64)> {
    let mut addition = Addition::NONE;
    let mut cautions = CautionSet::default();
    let mut total = 0.0;
    let mut salts = 0_usize;
    for &(salt, grams) in parts {
        within(input, grams, 0.0, max(salt), unit)?;
        if grams > 0.0 {
            addition = addition + salt.per_gram() * grams;
            cautions = cautions.union(salt.cautions());
            total += grams;
            salts += 1;
        }
    }
    if total <= 0.0 {
        return Err(Error::uninformative(input, "it holds no salt"));
    }
    if salts > 1 {
        compatible(&addition)?;
    }
    Ok((addition, cautions, total))
}

/// Refuses salts that precipitate one another.
fn compatible(addition: &Addition) -> Result<()> {
    let earths = addition.calcium_mol + addition.magnesium_mol;
    for (name, content, partner, reason) in [
        (
            "alkalinity in the blend",
            addition.alkalinity_eq,
            earths,
            "carbonate or hydroxide precipitates with calcium and magnesium; make two supplements",
        ),
        (
            "phosphate in the blend",
            addition.phosphate_mol,
            earths,
            "phosphate precipitates with calcium and magnesium; make two supplements",
        ),
        (
            "sulfate in the blend",
            addition.sulfate_mol,
            addition.calcium_mol,
            "gypsum precipitates from calcium and sulfate; make two supplements",
        ),
    ] {
        if content > 0.0 && partner > 0.0 {
            return Err(Error::contradictory(
                (name, content),
                ("calcium and magnesium in the blend", partner),
                reason,
            ));
        }
    }
    Ok(())
}
