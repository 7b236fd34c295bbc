use super::effect::{DosedWater, dosed, equilibrated};
use super::{Addition, Consumption, Dose, DoseEffect, DoseLimits, DosePlan, DoseVerdict, Limit};
use crate::Result;
use crate::carbonate::CarbonateState;
use crate::error::{Error, within};
use crate::quantity::{Form, Mass, PartialPressureCo2, form};

/// The water that is dosed: its state, its mass and the CO2 of the room.
///
/// Give the measured calcium and magnesium in the water's
/// [`Composition`](crate::Composition), and phosphate among the
/// [`Bases`](crate::carbonate::Bases); they enter the limits.
///
/// ```
/// use halimeda::carbonate::EquilibriumOptions;
/// use halimeda::dosing::{DosePlan, DosedSystem, Salt, Supplement, Target};
/// use halimeda::*;
/// let water = Water::new(Temperature::from_celsius(25.5)?, PracticalSalinity::new(35.0)?);
/// let density = water.density()?;
/// let tank = water
///     .equilibria(&EquilibriumOptions::default())?
///     .solve(Alkalinity::from_dkh(7.0, density)?, Ph::<TotalScale>::new(8.0)?)?;
/// let mass = Volume::from_litres(200.0)?.to_mass(density)?;
/// let system = DosedSystem::new(tank, mass, PartialPressureCo2::from_uatm(500.0)?)?;
/// let dose = Supplement::solid(Salt::SodiumCarbonate)
///     .dose_for(Target::Alkalinity(Alkalinity::from_dkh(0.5, density)?), mass)?;
/// let effect = system.effect(&DosePlan::new(&[dose], 1)?)?;
/// // Soda ash raises pH at once; the CO2 of the room takes most of it back.
/// assert!(effect.at_once.ph_total() > effect.before.ph_total());
/// assert!(effect.equilibrated.ph_total() < effect.at_once.ph_total());
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DosedSystem {
    state: CarbonateState,
    water: Mass,
    room: PartialPressureCo2,
}

/// Below this a dose did not move the pH as far as anyone can read; calcium and
/// magnesium salts move it by thousandths, through salinity.
const READABLE_PH: f64 = 0.01;

/// Above what the solver's rounding moves µmol/kg, mg/L and saturation by.
const ROUNDING: f64 = 1e-6;

/// Numbers of portions a day that a keeper or a pump keeps up.
const PORTIONS: [u32; 13] = [1, 2, 3, 4, 6, 8, 12, 24, 48, 96, 144, 288, 1440];

impl DosedSystem {
    /// From the state of the water, its mass, and the partial pressure of CO2
    /// in moist air of the room, which the water comes to equilibrium with.
    ///
    /// # Errors
    /// The mass is below 0.1 kg.
    pub fn new(state: CarbonateState, water: Mass, room: PartialPressureCo2) -> Result<Self> {
        within("mass of water", water.kilograms(), 0.1, Mass::MAX, "kg")?;
        Ok(Self { state, water, room })
    }

    /// The state of the water before dosing.
    #[must_use]
    pub const fn state(&self) -> &CarbonateState {
        &self.state
    }

    /// The mass of water.
    #[must_use]
    pub const fn water(&self) -> Mass {
        self.water
    }

    /// The CO2 of the room.
    #[must_use]
    pub const fn room(&self) -> PartialPressureCo2 {
        self.room
    }

    fn per_kg(&self, amount: Addition) -> Addition {
        amount * (1.0 / self.water.kilograms())
    }

    /// What a plan does to the water in its first day.
    ///
    /// The water that carries the doses takes the place of evaporated water:
    /// it does not dilute.
    ///
    /// # Errors
    /// - The dosed water leaves the published range of a relation, and its
    ///   water does not allow extrapolation.
    /// - More of an ion is consumed than there is, or no state has the dosed
    ///   alkalinity and inorganic carbon.
    pub fn effect(&self, plan: &DosePlan) -> Result<DoseEffect> {
        let net_per_kg = self.per_kg(plan.per_day()) - plan.consumption().per_kg();
        let at_once = dosed(&self.state, &self.per_kg(plan.per_dose()))?;
        let without_exchange = dosed(&self.state, &net_per_kg)?;
        Ok(DoseEffect {
            before: DosedWater::new(self.state),
            at_once: DosedWater::new(at_once),
            without_exchange: DosedWater::new(without_exchange),
            equilibrated: DosedWater::new(equilibrated(&without_exchange, self.room)?),
            equilibrated_undosed: DosedWater::new(equilibrated(&self.state, self.room)?),
            net_per_kg,
        })
    }

    /// Judges a plan by limits.
    ///
    /// Rises are judged net of the consumption; a ceiling (or floor) only where
    /// the dose itself moves the water past it.
    ///
    /// # Errors
    /// - As [`DosedSystem::effect`], or the density of the water lies outside
    ///   the range of its relation.
    /// - Limewater is dosed and the limits do not say how much evaporates.
    pub fn judge(&self, plan: &DosePlan, limits: &DoseLimits) -> Result<DoseVerdict> {
        if plan.has_limewater() && limits.evaporation_per_day().is_none() {
            return Err(Error::uninformative(
                "evaporation per day",
                "limewater goes in with the top-off water; say how much evaporates",
            ));
        }
        let effect = self.effect(plan)?;
        let density = self.state.equilibria().water().density()?;
        let mg_per_l =
            |mol_per_kg: f64, g_per_mol: f64| mol_per_kg * g_per_mol * density.kg_per_l() * 1e3;
        let net = effect.net_per_kg;
        // Each state with the one it would be without the dose.
        let exchanged = [
            (effect.at_once, effect.before),
            (effect.equilibrated, effect.equilibrated_undosed),
        ];
        let all = [
            (effect.at_once, effect.before),
            (effect.without_exchange, effect.before),
            (effect.equilibrated, effect.equilibrated_undosed),
        ];
        let ph = |w: DosedWater| w.ph_total().value();
        let saturation = |w: DosedWater| w.aragonite_saturation().value();
        let before = effect.before;
        let after = effect.equilibrated;
        Ok(DoseVerdict::new(effect, limits, |limit| match limit {
            Limit::AlkalinityPerDay => Some(net.alkalinity_eq * 1e6),
            Limit::CalciumPerDay => {
                Some(mg_per_l(net.calcium_mol, form::CalciumAsCa::GRAMS_PER_MOL))
            }
            Limit::MagnesiumPerDay => Some(mg_per_l(
                net.magnesium_mol,
                form::MagnesiumAsMg::GRAMS_PER_MOL,
            )),
            Limit::NitratePerDay => {
                Some(mg_per_l(net.nitrate_mol, form::NitrateAsNo3::GRAMS_PER_MOL))
            }
            Limit::PhosphatePerDay => Some(mg_per_l(
                net.phosphate_mol,
                form::PhosphateAsPo4::GRAMS_PER_MOL,
            )),
            Limit::SalinityPerDay => Some(after.salinity().value() - before.salinity().value()),
            Limit::PhStep => Some((ph(effect.at_once) - ph(before)).abs()),
            Limit::PhCeiling => highest(&exchanged, READABLE_PH, ph),
            Limit::PhFloor => highest(&exchanged, READABLE_PH, |w| -ph(w)).map(|x| -x),
            Limit::PhWithoutExchange => {
                highest(&[(effect.without_exchange, before)], READABLE_PH, ph)
            }
            Limit::AragoniteSaturation => highest(&all, ROUNDING, saturation),
            Limit::AlkalinityCeiling => highest(&[(after, before)], ROUNDING, |w| {
                w.alkalinity().umol_per_kg()
            }),
            Limit::CalciumCeiling => highest(&[(after, before)], ROUNDING, |w| {
                mg_per_l(w.calcium().mol_per_kg(), form::CalciumAsCa::GRAMS_PER_MOL)
            }),
            Limit::MagnesiumCeiling => highest(&[(after, before)], ROUNDING, |w| {
                mg_per_l(
                    w.magnesium().mol_per_kg(),
                    form::MagnesiumAsMg::GRAMS_PER_MOL,
                )
            }),
            Limit::SolutionPerDay => Some(plan.solution_litres_per_day()),
        }))
    }

    /// The plan with the fewest portions a day, up to one a minute, in which a
    /// day's doses against a consumption stay within the limits.
    ///
    /// # Errors
    /// As [`DosedSystem::judge`], and as [`DoseVerdict::accepted`] where no
    /// number of portions helps.
    pub fn fewest_doses(
        &self,
        per_day: &[Dose],
        consumption: Consumption,
        limits: &DoseLimits,
    ) -> Result<DosePlan> {
        fewest_doses(&[*self], per_day, consumption, limits)
    }

    /// This system after so much has been added and CO2 has equilibrated.
    pub(super) fn after(&self, addition: Addition) -> Result<Self> {
        let state = equilibrated(&dosed(&self.state, &self.per_kg(addition))?, self.room)?;
        Ok(Self { state, ..*self })
    }
}

/// The fewest portions with which a plan is accepted in every one of the systems.
pub(super) fn fewest_doses(
    systems: &[DosedSystem],
    per_day: &[Dose],
    consumption: Consumption,
    limits: &DoseLimits,
) -> Result<DosePlan> {
    let mut refused = Error::too_few("systems", 0, 1);
    for portions in PORTIONS {
        let plan = DosePlan::new(per_day, portions)?.with_consumption(consumption);
        let mut accepted = true;
        for system in systems {
            if let Err(error) = system.judge(&plan, limits)?.accepted() {
                refused = error;
                accepted = false;
                break;
            }
        }
        if accepted {
            return Ok(plan);
        }
    }
    Err(refused)
}

/// The largest value among states in which the dose raised it by more than `least`.
fn highest(
    pairs: &[(DosedWater, DosedWater)],
    least: f64,
    value: impl Fn(DosedWater) -> f64,
) -> Option<f64> {
    pairs
        .iter()
        .filter(|&&(with, without)| value(with) - value(without) > least)
        .map(|&(with, _)| value(with))
        .reduce(f64::max)
}
