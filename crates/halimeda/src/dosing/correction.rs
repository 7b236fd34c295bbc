use super::system::fewest_doses;
use super::{Consumption, Dose, DoseLimits, DosePlan, DosedSystem, Supplement, Target};
use crate::Result;
use crate::error::Error;

/// A wanted rise, spread over as many days and portions as the limits ask.
///
/// It comes on top of the doses that replace daily consumption. Measure again
/// after half of it: kits and volumes are known to a few percent at best.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Correction {
    days: u32,
    total: Dose,
    plan: DosePlan,
}

/// Longest correction, days; a rise that needs more is not a correction.
const MAX_DAYS: u32 = 60;

impl Correction {
    /// Over how many days.
    #[must_use]
    pub const fn days(&self) -> u32 {
        self.days
    }

    /// The dose in all.
    #[must_use]
    pub const fn total(&self) -> &Dose {
        &self.total
    }

    /// The plan of each day.
    #[must_use]
    pub const fn plan(&self) -> &DosePlan {
        &self.plan
    }
}

impl DosedSystem {
    /// The shortest correction, up to 60 days, that brings a wanted rise within
    /// the limits, on its first day and on its last.
    ///
    /// ```
    /// # use halimeda::carbonate::EquilibriumOptions;
    /// # use halimeda::dosing::*;
    /// # use halimeda::*;
    /// # let water = Water::new(Temperature::from_celsius(25.5)?, PracticalSalinity::new(35.0)?);
    /// # let density = water.density()?;
    /// # let tank = water
    /// #     .equilibria(&EquilibriumOptions::default())?
    /// #     .solve(Alkalinity::from_dkh(6.0, density)?, Ph::<TotalScale>::new(7.95)?)?;
    /// # let mass = Mass::from_kilograms(200.0)?;
    /// # let system = DosedSystem::new(tank, mass, PartialPressureCo2::from_uatm(500.0)?)?;
    /// let wanted = Target::Alkalinity(Alkalinity::from_dkh(2.5, density)?);
    /// let soda = Supplement::solid(Salt::SodiumBicarbonate);
    /// let correction = system.correction(&soda, wanted, &DoseLimits::default())?;
    /// assert_eq!(correction.days(), 3);
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    ///
    /// # Errors
    /// As [`Supplement::dose_for`] and [`DosedSystem::judge`], and as
    /// [`DoseVerdict::accepted`](super::DoseVerdict::accepted) where 60 days
    /// are not enough or the goal itself lies past a limit.
    pub fn correction(
        &self,
        supplement: &Supplement,
        target: Target,
        limits: &DoseLimits,
    ) -> Result<Correction> {
        let total = supplement.dose_for(target, self.water())?;
        let mut refused = Error::too_few("days", 0, 1);
        for days in 1..=MAX_DAYS {
            let share = 1.0 / f64::from(days);
            let daily = total.share(share)?;
            let last_day = self.after(total.addition() * (1.0 - share))?;
            match fewest_doses(&[*self, last_day], &[daily], Consumption::NONE, limits) {
                Ok(plan) => return Ok(Correction { days, total, plan }),
                Err(error) => refused = error,
            }
        }
        Err(refused)
    }
}
