use super::{Addition, Consumption, Dose, Supplement};
use crate::Result;
use crate::error::Error;
use crate::quantity::Mass;

/// Daily doses of alkalinity, calcium and magnesium in the proportion in which
/// calcification takes them: two equivalents to one mole of cations.
///
/// What calcification leaves behind of the supplements, mostly sodium and
/// chloride, stays in the water: see [`left_behind`](Self::left_behind). Water
/// changes take it out, and salinity has to be watched.
///
/// ```
/// use halimeda::dosing::{Amount, BalancedDose, Consumption, Salt, Supplement};
/// use halimeda::nutrient::CarbonateComposition;
/// use halimeda::{Alkalinity, Mass};
/// let water = Mass::from_kilograms(200.0)?;
/// let corals = CarbonateComposition::new(0.004, 0.009)?;
/// let consumption =
///     Consumption::by_calcification(Alkalinity::from_umol_per_kg(300.0)?, corals)?;
/// let dose = BalancedDose::new(
///     &consumption,
///     water,
///     &Supplement::solution(Salt::SodiumBicarbonate, 80.0)?,
///     &Supplement::solution(Salt::CalciumChlorideDihydrate, 70.0)?,
///     &Supplement::magnesium_blend(),
/// )?;
/// assert!(matches!(dose.alkalinity().amount(), Amount::Millilitres(ml) if (ml - 63.0).abs() < 0.1));
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BalancedDose {
    alkalinity: Dose,
    calcium: Dose,
    magnesium: Dose,
    consumed: Addition,
}

impl BalancedDose {
    /// The doses per day that replace a consumption in a system of the given
    /// mass of water.
    ///
    /// Calcium that the alkalinity supplement brings (limewater) and magnesium
    /// that either brings is not dosed again.
    ///
    /// # Errors
    /// - The calcium or the magnesium supplement brings alkalinity, or one of the
    ///   three nothing of what it is for.
    /// - A dose exceeds what [`Supplement::dose`] accepts.
    pub fn new(
        consumption: &Consumption,
        water: Mass,
        alkalinity: &Supplement,
        calcium: &Supplement,
        magnesium: &Supplement,
    ) -> Result<Self> {
        let consumed = consumption.per_day(water);
        for (name, supplement) in [
            ("calcium supplement", calcium),
            ("magnesium supplement", magnesium),
        ] {
            let brings = supplement.per_unit().alkalinity_eq;
            if brings > 0.0 {
                return Err(Error::contradictory(
                    (name, brings),
                    ("alkalinity consumption", consumed.alkalinity_eq),
                    "it brings alkalinity, which the alkalinity supplement already replaces",
                ));
            }
        }
        let alkalinity = replacing(
            "alkalinity supplement",
            alkalinity,
            consumed.alkalinity_eq,
            |a| a.alkalinity_eq,
        )?;
        let calcium = replacing(
            "calcium supplement",
            calcium,
            consumed.calcium_mol - alkalinity.addition().calcium_mol,
            |a| a.calcium_mol,
        )?;
        let magnesium = replacing(
            "magnesium supplement",
            magnesium,
            consumed.magnesium_mol
                - alkalinity.addition().magnesium_mol
                - calcium.addition().magnesium_mol,
            |a| a.magnesium_mol,
        )?;
        Ok(Self {
            alkalinity,
            calcium,
            magnesium,
            consumed,
        })
    }

    /// Dose of the alkalinity supplement per day.
    #[must_use]
    pub const fn alkalinity(&self) -> &Dose {
        &self.alkalinity
    }

    /// Dose of the calcium supplement per day.
    #[must_use]
    pub const fn calcium(&self) -> &Dose {
        &self.calcium
    }

    /// Dose of the magnesium supplement per day.
    #[must_use]
    pub const fn magnesium(&self) -> &Dose {
        &self.magnesium
    }

    /// The three doses.
    #[must_use]
    pub const fn doses(&self) -> [Dose; 3] {
        [self.alkalinity, self.calcium, self.magnesium]
    }

    /// What a day's doses and calcification together leave in the water: salt
    /// that builds up, and inorganic carbon short (negative) or in excess.
    #[must_use]
    pub fn left_behind(&self) -> Addition {
        self.doses()
            .iter()
            .fold(Addition::NONE, |sum, dose| sum + dose.addition())
            - self.consumed
    }
}

/// The dose of a supplement that brings `needed` moles, or none where others
/// have brought them.
fn replacing(
    name: &'static str,
    supplement: &Supplement,
    needed: f64,
    part: impl Fn(Addition) -> f64,
) -> Result<Dose> {
    let per_unit = part(supplement.per_unit());
    if per_unit <= 0.0 {
        return Err(Error::contradictory(
            (name, per_unit),
            ("amount to replace", needed),
            "the supplement brings nothing of what it is for",
        ));
    }
    supplement.dose_of((needed / per_unit).max(0.0))
}
