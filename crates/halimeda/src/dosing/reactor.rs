use super::consumption::{carbonate, carbonate_g_per_mol};
use super::{Addition, Caution, CautionSet};
use crate::Result;
use crate::carbonate::CarbonateState;
use crate::error::{Error, within};
use crate::nutrient::CarbonateComposition;
use crate::quantity::{Alkalinity, AnyPh, Aragonite, SaturationState, Volume};

/// What a calcium reactor brings into the tank: tank water in which CO2
/// dissolved carbonate, CaCO3 + CO2 + H2O → Ca²⁺ + 2 HCO3⁻.
///
/// ```
/// use halimeda::carbonate::EquilibriumOptions;
/// use halimeda::dosing::ReactorEffluent;
/// use halimeda::nutrient::CarbonateComposition;
/// use halimeda::*;
/// let water = Water::new(Temperature::from_celsius(25.5)?, PracticalSalinity::new(35.0)?);
/// let density = water.density()?;
/// let tank = water
///     .equilibria(&EquilibriumOptions::default())?
///     .solve(Alkalinity::from_dkh(8.0, density)?, Ph::<TotalScale>::new(8.0)?)?;
/// let reactor = ReactorEffluent::new(
///     &tank,
///     Alkalinity::from_dkh(30.0, density)?,
///     Ph::<TotalScale>::new(6.5)?,
///     Volume::from_litres(20.0)?,
///     CarbonateComposition::CALCIUM_ONLY,
/// )?;
/// let per_day = reactor.per_day();
/// assert!((per_day.alkalinity_eq / per_day.calcium_mol - 2.0).abs() < 1e-12);
/// // More CO2 went in than the carbonate took: the rest lowers the tank's pH.
/// assert!(reactor.carbon_dioxide_mol_per_day() > per_day.calcium_mol);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReactorEffluent {
    per_day: Addition,
    carbonate_mol: f64,
    carbonate_g: f64,
    saturation: SaturationState<Aragonite>,
}

/// Effluent more supersaturated with aragonite than this did not dissolve it:
/// above one by a pH reading 0.2 too high.
const MAX_EFFLUENT_SATURATION: f64 = 1.5;

impl ReactorEffluent {
    /// From what flows out of the reactor: its alkalinity, its pH (measured
    /// before CO2 escapes), the flow per day, and what the medium is made of.
    /// The reactor is fed from the tank and as warm.
    ///
    /// # Errors
    /// - The effluent's alkalinity is not above the tank's, or above 30 000 µmol/kg.
    /// - The effluent's aragonite saturation is above 1.5: such water dissolves
    ///   no carbonate, so its pH or alkalinity was misread.
    /// - The pH on the NBS scale, or the density, outside the range of its relation.
    pub fn new(
        tank: &CarbonateState,
        alkalinity: Alkalinity,
        ph: impl Into<AnyPh>,
        flow_per_day: Volume,
        medium: CarbonateComposition,
    ) -> Result<Self> {
        let tank_alkalinity = tank.alkalinity().umol_per_kg();
        let rise = 1e-6
            * (within(
                "effluent alkalinity",
                alkalinity.umol_per_kg(),
                tank_alkalinity,
                30_000.0,
                "µmol/kg",
            )? - tank_alkalinity);
        let ph = ph.into();
        let effluent = tank.equilibria().solve(alkalinity, ph)?;
        let dissolved = carbonate(medium) * (0.5 * rise);
        // Calcium does not enter the acid-base balance; it scales the saturation.
        let calcium = tank.equilibria().calcium_mol_per_kg() + dissolved.calcium_mol;
        let saturation =
            calcium * effluent.carbonate().mol_per_kg() / tank.equilibria().ksp_aragonite();
        if saturation > MAX_EFFLUENT_SATURATION {
            return Err(Error::contradictory(
                ("effluent pH", ph.value()),
                ("effluent alkalinity", alkalinity.umol_per_kg()),
                "water this supersaturated dissolves no carbonate; measure the pH before CO2 escapes",
            ));
        }
        let kilograms = flow_per_day
            .to_mass(tank.equilibria().water().density()?)?
            .kilograms();
        let carbon =
            effluent.inorganic_carbon().mol_per_kg() - tank.inorganic_carbon().mol_per_kg();
        let carbonate_mol = 0.5 * rise * kilograms;
        Ok(Self {
            per_day: Addition {
                inorganic_carbon_mol: carbon * kilograms,
                ..dissolved * kilograms
            },
            carbonate_mol,
            carbonate_g: carbonate_mol * carbonate_g_per_mol(medium),
            saturation: SaturationState::unchecked(saturation),
        })
    }

    /// What it brings into the tank per day.
    #[must_use]
    pub const fn per_day(&self) -> Addition {
        self.per_day
    }

    /// Medium dissolved per day, g.
    #[must_use]
    pub const fn medium_dissolved_g_per_day(&self) -> f64 {
        self.carbonate_g
    }

    /// CO2 from the cylinder that reaches the tank per day, mol: one per mole
    /// of carbonate dissolved and the excess that lowers the pH.
    #[must_use]
    pub const fn carbon_dioxide_mol_per_day(&self) -> f64 {
        self.per_day.inorganic_carbon_mol - self.carbonate_mol
    }

    /// Aragonite saturation of the effluent. Below one the medium can still
    /// dissolve; the nearer to one, the less CO2 is wasted.
    #[must_use]
    pub const fn aragonite_saturation(&self) -> SaturationState<Aragonite> {
        self.saturation
    }

    /// What can hurt when it is run.
    #[must_use]
    pub const fn cautions(&self) -> CautionSet {
        CautionSet::of(&[
            Caution::FollowLabel,
            Caution::KeepFromChildren,
            Caution::CarbonDioxideInRooms,
            Caution::PressurisedCylinder,
        ])
    }
}

/// What a mass of carbonate brings that CO2 dissolves without excess: two
/// equivalents of alkalinity and two moles of inorganic carbon per mole.
///
/// # Errors
/// The mass is not finite, negative or above 10⁶ g.
pub fn carbonate_dissolved_by_co2(grams: f64, medium: CarbonateComposition) -> Result<Addition> {
    let grams = within("carbonate dissolved", grams, 0.0, 1e6, "g")?;
    let moles = grams / carbonate_g_per_mol(medium);
    let one = carbonate(medium);
    Ok(Addition {
        inorganic_carbon_mol: 2.0 * one.inorganic_carbon_mol,
        ..one
    } * moles)
}
