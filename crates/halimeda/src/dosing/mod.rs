//! Dosing: what a supplement brings, what it does to the water, how much is
//! needed, and when it must not be given.
//!
//! A [`Supplement`] is a [`Salt`] as a solid or in solution; a [`Dose`] of it
//! is an [`Addition`] of moles. [`DosedSystem::effect`] says what a
//! [`DosePlan`] does to pH, alkalinity, calcium, saturation and salinity at
//! once and after the CO2 of the room has come to equilibrium;
//! [`DosedSystem::judge`] holds it against [`DoseLimits`].
//!
//! The other way round, [`Supplement::dose_for`] finds the dose for a
//! [`Target`], [`BalancedDose`] the daily doses that replace a
//! [`Consumption`], [`DosedSystem::fewest_doses`] how often a day and
//! [`DosedSystem::correction`] over how many days.
//!
//! Each supplement carries its [`Caution`]s. Hydroxides burn and blind, and a
//! wrong dose kills animals: weigh, label, add slowly, measure again. Numbers
//! here do not replace the product's label.
//!
//! ```
//! use halimeda::carbonate::EquilibriumOptions;
//! use halimeda::dosing::{
//!     Amount, BalancedDose, Consumption, DoseLimits, DosedSystem, Salt, Supplement,
//!     alkalinity_fall_per_day,
//! };
//! use halimeda::nutrient::CarbonateComposition;
//! use halimeda::*;
//!
//! let water = Water::new(Temperature::from_celsius(25.5)?, PracticalSalinity::new(35.0)?);
//! let density = water.density()?;
//! // 8.2 dKH on Monday and 7.6 dKH on Wednesday, without dosing.
//! let monday = Alkalinity::from_dkh(8.2, density)?;
//! let wednesday = Alkalinity::from_dkh(7.6, density)?;
//! let consumption = Consumption::by_calcification(
//!     alkalinity_fall_per_day(monday, wednesday, 2.0)?,
//!     CarbonateComposition::new(0.02, 0.009)?,
//! )?;
//! let mass = Volume::from_litres(180.0)?.to_mass(density)?;
//! let daily = BalancedDose::new(
//!     &consumption,
//!     mass,
//!     &Supplement::solution(Salt::SodiumBicarbonate, 80.0)?,
//!     &Supplement::solution(Salt::CalciumChlorideDihydrate, 70.0)?,
//!     &Supplement::magnesium_blend(),
//! )?;
//! assert!(matches!(daily.alkalinity().amount(), Amount::Millilitres(ml) if (ml - 20.2).abs() < 0.1));
//!
//! let state = water
//!     .equilibria(&EquilibriumOptions::default())?
//!     .solve(wednesday, Ph::<NbsScale>::new(8.15)?)?;
//! let system = DosedSystem::new(state, mass, PartialPressureCo2::from_uatm(550.0)?)?;
//! let plan = system.fewest_doses(&daily.doses(), consumption, &DoseLimits::default())?;
//! assert_eq!(plan.doses_per_day(), 1);
//! # Ok::<(), halimeda::Error>(())
//! ```

mod addition;
mod amount;
mod balanced;
mod caution;
mod consumption;
mod correction;
mod dose;
mod effect;
mod limewater;
mod limits;
mod plan;
mod reactor;
mod salt;
mod supplement;
mod system;
mod target;
mod verdict;

pub use addition::Addition;
pub use amount::{Amount, Measure};
pub use balanced::BalancedDose;
pub use caution::{Caution, CautionSet};
pub use consumption::{Consumption, alkalinity_fall_per_day, content_fall_per_day};
pub use correction::Correction;
pub use dose::Dose;
pub use effect::{DoseEffect, DosedWater};
pub use limewater::limewater_mol_per_l;
pub use limits::{DoseLimits, Limit};
pub use plan::DosePlan;
pub use reactor::{ReactorEffluent, carbonate_dissolved_by_co2};
pub use salt::Salt;
pub use supplement::Supplement;
pub use system::DosedSystem;
pub use target::Target;
pub use verdict::{DoseVerdict, Excess};
