use super::Addition;
use crate::Result;
use crate::carbonate::{Bases, CarbonateState};
use crate::quantity::{
    Alkalinity, Aragonite, Content, PartialPressureCo2, Ph, PracticalSalinity, SaturationState,
    Species, TotalScale, species,
};
use crate::water::{Composition, Water};

/// What a [`DosePlan`](super::DosePlan) does to the water of a
/// [`DosedSystem`](super::DosedSystem).
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct DoseEffect {
    /// Before any dose.
    pub before: DosedWater,
    /// Right after one portion is mixed in: no CO2 exchanged, nothing consumed.
    pub at_once: DosedWater,
    /// After a day's portions and consumption, had no CO2 been exchanged: how
    /// far the pH goes where the air brings little, the upper bound of a base.
    pub without_exchange: DosedWater,
    /// After a day's portions and consumption, once the water is in equilibrium
    /// with the room.
    pub equilibrated: DosedWater,
    /// The water before any dose, once in equilibrium with the room: what of
    /// the change is the room's doing.
    pub equilibrated_undosed: DosedWater,
    /// Net change per kilogram of water in a day, dose less consumption.
    pub net_per_kg: Addition,
}

/// One state of the dosed water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DosedWater {
    state: CarbonateState,
}

impl DosedWater {
    pub(super) const fn new(state: CarbonateState) -> Self {
        Self { state }
    }

    /// The full state.
    #[must_use]
    pub const fn state(&self) -> &CarbonateState {
        &self.state
    }

    /// pH on the total scale.
    #[must_use]
    pub fn ph_total(&self) -> Ph<TotalScale> {
        self.state.ph_total()
    }

    /// Total alkalinity.
    #[must_use]
    pub fn alkalinity(&self) -> Alkalinity {
        self.state.alkalinity()
    }

    /// Dissolved inorganic carbon.
    #[must_use]
    pub fn inorganic_carbon(&self) -> Content<species::InorganicCarbon> {
        self.state.inorganic_carbon()
    }

    /// Partial pressure of CO2.
    #[must_use]
    pub fn partial_pressure_co2(&self) -> PartialPressureCo2 {
        self.state.partial_pressure_co2()
    }

    /// Calcium.
    #[must_use]
    pub fn calcium(&self) -> Content<species::Calcium> {
        let water = self.state.equilibria().water();
        water.composition().calcium(water.salinity())
    }

    /// Magnesium.
    #[must_use]
    pub fn magnesium(&self) -> Content<species::Magnesium> {
        let water = self.state.equilibria().water();
        water.composition().magnesium(water.salinity())
    }

    /// Saturation state of aragonite.
    #[must_use]
    pub fn aragonite_saturation(&self) -> SaturationState<Aragonite> {
        self.state.aragonite_saturation()
    }

    /// Practical salinity: the added mass of salt times 35/35.16504 (Millero
    /// et al. 2008, doi 10.1016/j.dsr.2007.10.001). A conductivity meter shows
    /// a little more or less, since the added ions conduct otherwise than sea salt.
    #[must_use]
    pub const fn salinity(&self) -> PracticalSalinity {
        self.state.equilibria().water().salinity()
    }
}

/// Practical salinity per gram of salt in a kilogram: Millero et al. (2008).
const SALINITY_PER_G_PER_KG: f64 = 35.0 / 35.16504;

/// A state with `per_kg` added to each kilogram, closed to the air: alkalinity
/// and inorganic carbon add (Dickson, Sabine & Christian 2007, PICES Special
/// Publication 3, ch. 2), and so do the ions.
///
/// The water that carries a dose replaces evaporated water, so that it does not dilute.
pub(super) fn dosed(state: &CarbonateState, per_kg: &Addition) -> Result<CarbonateState> {
    let equilibria = state.equilibria();
    let before = equilibria.water();
    let salinity =
        PracticalSalinity::new(before.salinity().value() + per_kg.salt_g * SALINITY_PER_G_PER_KG)?;
    let (s, ions) = (before.salinity(), before.composition());
    // Every ion is pinned: the added salt is not sea salt.
    let composition = Composition::REFERENCE
        .with_calcium(raised(ions.calcium(s), per_kg.calcium_mol)?)
        .with_magnesium(raised(ions.magnesium(s), per_kg.magnesium_mol)?)
        .with_potassium(raised(ions.potassium(s), per_kg.potassium_mol)?)
        .with_strontium(raised(ions.strontium(s), per_kg.strontium_mol)?)
        .with_sulfate(raised(ions.sulfate(s), per_kg.sulfate_mol)?)
        .with_fluoride(ions.fluoride(s))
        .with_boron(Content::from_mol_per_kg(equilibria.boron_mol_per_kg())?);
    let water = Water::new(before.temperature(), salinity)
        .with_air_pressure(before.air_pressure())
        .with_water_pressure(before.water_pressure())
        .with_extrapolation(before.extrapolation())
        .with_composition(composition);
    let bases = equilibria.bases();
    let alkalinity =
        Alkalinity::from_mol_per_kg(state.alkalinity().mol_per_kg() + per_kg.alkalinity_eq)?;
    let carbon = raised(state.inorganic_carbon(), per_kg.inorganic_carbon_mol)?;
    water
        .equilibria(equilibria.options())?
        .with_bases(Bases {
            // A balanced dose may fall short of zero by rounding, and phosphate
            // that was not given cannot be consumed.
            phosphate: Content::from_mol_per_kg(
                (bases.phosphate.mol_per_kg() + per_kg.phosphate_mol).max(0.0),
            )?,
            ..*bases
        })?
        .solve(alkalinity, carbon)
}

/// A state in equilibrium with air of the given CO2: alkalinity stays.
pub(super) fn equilibrated(
    state: &CarbonateState,
    room: PartialPressureCo2,
) -> Result<CarbonateState> {
    state.equilibria().solve(state.alkalinity(), room)
}

fn raised<S: Species>(content: Content<S>, by_mol: f64) -> Result<Content<S>> {
    Content::from_mol_per_kg(content.mol_per_kg() + by_mol)
}
