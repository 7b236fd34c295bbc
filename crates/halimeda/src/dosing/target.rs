use super::{Dose, Supplement};
use crate::Result;
use crate::error::{Error, within};
use crate::quantity::{Alkalinity, Content, Mass, Species as _, species};

/// A wanted rise of one content of the water.
///
/// Kits' units convert first: `Alkalinity::from_dkh`, `from_meq_per_l`, or
/// [`Concentration::to_content`](crate::Concentration::to_content).
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Target {
    /// Rise of total alkalinity.
    Alkalinity(Alkalinity),
    /// Rise of calcium.
    Calcium(Content<species::Calcium>),
    /// Rise of magnesium.
    Magnesium(Content<species::Magnesium>),
    /// Rise of nitrate.
    Nitrate(Content<species::Nitrate>),
    /// Rise of phosphate.
    Phosphate(Content<species::Phosphate>),
}

impl Target {
    /// Name, for messages, and rise in mol (eq) per kg.
    fn parts(self) -> (&'static str, f64) {
        match self {
            Self::Alkalinity(x) => ("wanted rise of alkalinity", x.mol_per_kg()),
            Self::Calcium(x) => (species::Calcium::NAME, x.mol_per_kg()),
            Self::Magnesium(x) => (species::Magnesium::NAME, x.mol_per_kg()),
            Self::Nitrate(x) => (species::Nitrate::NAME, x.mol_per_kg()),
            Self::Phosphate(x) => (species::Phosphate::NAME, x.mol_per_kg()),
        }
    }

    /// What one gram or millilitre of a supplement brings of the target, mol or eq.
    const fn per_unit(self, supplement: &Supplement) -> f64 {
        let addition = supplement.per_unit();
        match self {
            Self::Alkalinity(_) => addition.alkalinity_eq,
            Self::Calcium(_) => addition.calcium_mol,
            Self::Magnesium(_) => addition.magnesium_mol,
            Self::Nitrate(_) => addition.nitrate_mol,
            Self::Phosphate(_) => addition.phosphate_mol,
        }
    }
}

impl Supplement {
    /// The dose that brings a wanted rise in a system of the given mass of
    /// water. Whether it may be given at once is for
    /// [`DosedSystem::judge`](super::DosedSystem::judge) to say.
    ///
    /// ```
    /// use halimeda::dosing::{Amount, Salt, Supplement, Target};
    /// use halimeda::{Alkalinity, Density, Volume};
    /// let density = Density::from_kg_per_m3(1023.34)?;
    /// let soda = Supplement::solid(Salt::SodiumBicarbonate);
    /// let dose = soda.dose_for(
    ///     Target::Alkalinity(Alkalinity::from_dkh(1.0, density)?),
    ///     Volume::from_litres(100.0)?.to_mass(density)?,
    /// )?;
    /// // 3 g of baking soda to 100 L and 1 dKH.
    /// assert!(matches!(dose.amount(), Amount::Grams(g) if (g - 2.996).abs() < 1e-3));
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    ///
    /// # Errors
    /// - The wanted rise is negative.
    /// - The supplement brings nothing of what is wanted.
    /// - The dose exceeds what [`Supplement::dose`] accepts.
    pub fn dose_for(&self, target: Target, water: Mass) -> Result<Dose> {
        let (input, wanted) = target.parts();
        within(input, wanted, 0.0, 10.0, "mol/kg")?;
        let per_unit = target.per_unit(self);
        if per_unit <= 0.0 {
            return Err(Error::contradictory(
                (input, wanted),
                ("content of the supplement", per_unit),
                "the supplement brings nothing of what is wanted",
            ));
        }
        self.dose_of(wanted * water.kilograms() / per_unit)
    }
}
