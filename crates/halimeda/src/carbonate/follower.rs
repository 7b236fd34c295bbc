use super::Equilibria;
use super::constant_set::{ConstantSet, MinorSet};
use super::solve::alkalinity_dic_near;
use super::speciation::{AcidBase, CarbonFractions, base_form};
use crate::real::log10;

/// Follows the carbonate system of one water through many small changes of what
/// is dissolved in it, each solve starting from the last.
///
/// For integrators and controllers: it holds no more than the constants, checks
/// nothing, and takes a content below zero, as a trial step may hold, for zero.
/// Each result is that of [`Equilibria::solve`] to rounding, wherever the last one lay.
///
/// ```
/// use halimeda::carbonate::EquilibriumOptions;
/// use halimeda::{Alkalinity, Content, PracticalSalinity, Temperature, Water, species};
///
/// let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
/// let equilibria = water.equilibria(&EquilibriumOptions::default())?;
/// let mut follower = equilibria.follower();
/// let followed = follower.update(2500e-6, 2200e-6, 0.0, 0.0);
/// let solved = equilibria.solve(
///     Alkalinity::from_umol_per_kg(2500.0)?,
///     Content::<species::InorganicCarbon>::from_umol_per_kg(2200.0)?,
/// )?;
/// assert!((followed.ph_total - solved.ph_total().value()).abs() < 1e-12);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CarbonateFollower {
    set: ConstantSet<f64>,
    minor: MinorSet<f64>,
    h: f64,
}

/// The carbonate system at one moment, in mol/kg.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub struct Followed {
    /// pH on the total scale.
    pub ph_total: f64,
    /// Dissolved CO2, mol/kg.
    pub carbon_dioxide_mol_per_kg: f64,
    /// Carbonate, mol/kg.
    pub carbonate_mol_per_kg: f64,
    /// Un-ionised ammonia, mol/kg.
    pub unionised_ammonia_mol_per_kg: f64,
}

impl Equilibria {
    /// Follows this water through time; silicate and sulfide stay as given to
    /// [`Equilibria::with_bases`].
    ///
    /// The ranges of the constants of ammonium and phosphoric acid, wider than
    /// those of the default options, are not checked here.
    #[must_use]
    pub fn follower(&self) -> CarbonateFollower {
        CarbonateFollower {
            set: self.set,
            minor: self.minor_or_evaluate(),
            h: 1e-8,
        }
    }
}

impl CarbonateFollower {
    /// The state at these contents, all in mol/kg.
    #[inline]
    pub fn update(
        &mut self,
        alkalinity: f64,
        inorganic_carbon: f64,
        total_ammonia: f64,
        phosphate: f64,
    ) -> Followed {
        let (carbon_dioxide_mol_per_kg, carbonate_mol_per_kg) =
            self.co2_and_carbonate(alkalinity, inorganic_carbon, total_ammonia, phosphate);
        Followed {
            ph_total: -log10(self.h),
            carbon_dioxide_mol_per_kg,
            carbonate_mol_per_kg,
            unionised_ammonia_mol_per_kg: base_form(self.minor.ammonia, self.minor.knh4, self.h)
                .value,
        }
    }

    /// Dissolved CO2 and carbonate at these contents, all in mol/kg: what rates
    /// need, without the logarithm of a pH.
    #[inline]
    pub fn co2_and_carbonate(
        &mut self,
        alkalinity: f64,
        inorganic_carbon: f64,
        total_ammonia: f64,
        phosphate: f64,
    ) -> (f64, f64) {
        self.minor.ammonia = total_ammonia.max(0.0);
        self.minor.phosphate = phosphate.max(0.0);
        let dic = inorganic_carbon.max(0.0);
        let water = AcidBase {
            set: &self.set,
            minor: Some(&self.minor),
        };
        self.h = alkalinity_dic_near(water, alkalinity, dic, self.h);
        let fractions = CarbonFractions::new(self.set.k1, self.set.k2, self.h);
        (dic * fractions.co2, dic * fractions.carbonate)
    }

    /// CO2 solubility K0, mol kg⁻¹ atm⁻¹.
    #[must_use]
    pub const fn k0_mol_per_kg_atm(&self) -> f64 {
        self.set.k0
    }

    /// Aragonite saturation state per mol/kg of carbonate and of calcium.
    #[must_use]
    pub fn aragonite_saturation(&self, carbonate_mol_per_kg: f64, calcium_mol_per_kg: f64) -> f64 {
        carbonate_mol_per_kg * calcium_mol_per_kg / self.set.ksp_aragonite
    }
}
