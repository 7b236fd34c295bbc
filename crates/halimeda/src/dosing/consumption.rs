use super::Addition;
use crate::Result;
use crate::error::{Error, within};
use crate::nutrient::{CarbonateComposition, Process};
use crate::quantity::atomic_weight::{C, CA, MG, O, SR};
use crate::quantity::{Alkalinity, Content, Mass, Species, species};

/// What the animals and algae of a tank take out of its water in a day.
///
/// Limits judge the dose less what is consumed, so an overstated consumption
/// lets an overdose pass: measure it, without dosing, over two days or more.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Consumption {
    /// Per kilogram of water and day.
    per_kg: Addition,
}

/// Largest accepted fall of alkalinity, 2000 µmol/kg (5.7 dKH) in a day: twice
/// what crowded systems of stony corals take up (common practice, no source).
const MAX_ALKALINITY_UMOL_PER_KG: f64 = 2000.0;
/// Largest accepted fall of nitrate and phosphate in a day, µmol/kg: some
/// 20 mg/L NO3 and 1 mg/L PO4 (common practice, no source).
const MAX_NITRATE_UMOL_PER_KG: f64 = 300.0;
const MAX_PHOSPHATE_UMOL_PER_KG: f64 = 10.0;

impl Consumption {
    /// Nothing is taken out.
    pub const NONE: Self = Self {
        per_kg: Addition::NONE,
    };

    /// Calcification that takes the given alkalinity per day, with half a mole
    /// of carbonate, and as much of its cations, per equivalent.
    ///
    /// # Errors
    /// The alkalinity is negative or above 2000 µmol/kg (5.7 dKH) per day.
    pub fn by_calcification(
        alkalinity_per_day: Alkalinity,
        composition: CarbonateComposition,
    ) -> Result<Self> {
        let alkalinity = within(
            "consumption of alkalinity per day",
            alkalinity_per_day.umol_per_kg(),
            0.0,
            MAX_ALKALINITY_UMOL_PER_KG,
            "µmol/kg",
        )?;
        Ok(Self {
            per_kg: carbonate(composition) * (0.5e-6 * alkalinity),
        })
    }

    /// And nitrate per day. The alkalinity its uptake gives back is part of
    /// the alkalinity consumption as it was measured.
    ///
    /// # Errors
    /// More than 300 µmol/kg per day.
    pub fn with_nitrate(mut self, per_day: Content<species::Nitrate>) -> Result<Self> {
        self.per_kg.nitrate_mol = 1e-6
            * within(
                "consumption of nitrate per day",
                per_day.umol_per_kg(),
                0.0,
                MAX_NITRATE_UMOL_PER_KG,
                "µmol/kg",
            )?;
        Ok(self)
    }

    /// And phosphate per day; its alkalinity as with nitrate.
    ///
    /// # Errors
    /// More than 10 µmol/kg per day.
    pub fn with_phosphate(mut self, per_day: Content<species::Phosphate>) -> Result<Self> {
        self.per_kg.phosphate_mol = 1e-6
            * within(
                "consumption of phosphate per day",
                per_day.umol_per_kg(),
                0.0,
                MAX_PHOSPHATE_UMOL_PER_KG,
                "µmol/kg",
            )?;
        Ok(self)
    }

    /// What a system of the given mass of water loses in a day.
    #[must_use]
    pub fn per_day(&self, water: Mass) -> Addition {
        self.per_kg * water.kilograms()
    }

    pub(super) const fn per_kg(&self) -> Addition {
        self.per_kg
    }
}

/// What the dissolution of a mole of carbonate brings into the water; what its
/// precipitation takes out.
pub(super) fn carbonate(composition: CarbonateComposition) -> Addition {
    let change = Process::Dissolution(composition).stoichiometry();
    Addition {
        alkalinity_eq: change.alkalinity(),
        inorganic_carbon_mol: change.inorganic_carbon,
        calcium_mol: change.calcium,
        magnesium_mol: change.magnesium,
        strontium_mol: change.strontium,
        salt_g: carbonate_g_per_mol(composition),
        ..Addition::NONE
    }
}

/// Grams per mole of a carbonate.
pub(super) const fn carbonate_g_per_mol(composition: CarbonateComposition) -> f64 {
    composition.calcium() * CA
        + composition.magnesium() * MG
        + composition.strontium() * SR
        + C
        + 3.0 * O
}

/// Fall of alkalinity per day between two readings without dosing, `days`
/// apart (0.25 to 60).
///
/// ```
/// use halimeda::Alkalinity;
/// use halimeda::dosing::alkalinity_fall_per_day;
/// let monday = Alkalinity::from_umol_per_kg(2800.0)?;
/// let thursday = Alkalinity::from_umol_per_kg(2500.0)?;
/// let fall = alkalinity_fall_per_day(monday, thursday, 3.0)?;
/// assert!((fall.umol_per_kg() - 100.0).abs() < 1e-9);
/// # Ok::<(), halimeda::Error>(())
/// ```
///
/// # Errors
/// - `days` is not finite or outside 0.25 to 60.
/// - The alkalinity rose.
pub fn alkalinity_fall_per_day(
    first: Alkalinity,
    second: Alkalinity,
    days: f64,
) -> Result<Alkalinity> {
    let names = ("first alkalinity", "second alkalinity");
    let fall = fall(names, first.umol_per_kg(), second.umol_per_kg(), days)?;
    Alkalinity::from_umol_per_kg(fall)
}

/// Fall of a content per day between two readings without dosing, `days`
/// apart (0.25 to 60).
///
/// # Errors
/// - `days` is not finite or outside 0.25 to 60.
/// - The content rose.
pub fn content_fall_per_day<S: Species>(
    first: Content<S>,
    second: Content<S>,
    days: f64,
) -> Result<Content<S>> {
    let names = ("first content", "second content");
    Content::from_umol_per_kg(fall(
        names,
        first.umol_per_kg(),
        second.umol_per_kg(),
        days,
    )?)
}

fn fall(
    (first_name, second_name): (&'static str, &'static str),
    first: f64,
    second: f64,
    days: f64,
) -> Result<f64> {
    let days = within("days between the readings", days, 0.25, 60.0, "d")?;
    if second > first {
        return Err(Error::contradictory(
            (first_name, first),
            (second_name, second),
            "it rose, so something was added or the readings are off",
        ));
    }
    Ok((first - second) / days)
}
