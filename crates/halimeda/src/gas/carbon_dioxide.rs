use super::{check, vapour_atm};
use crate::carbonate::Medium;
use crate::carbonate::constants::{co2_fugacity_coefficient_weiss1974, k0_weiss1974};
use crate::quantity::{Content, DryMoleFractionCo2, FugacityCo2, PartialPressureCo2, species};
use crate::relation::Relation;
use crate::{Flagged, Result, Water};

/// Partial pressure of CO2 in air of this dry mole fraction once it is
/// saturated with water vapour, at the water's air pressure: x (P − pH2O).
///
/// It is the pCO2 that the water tends to, and with its alkalinity gives the pH
/// it tends to. Dickson, Sabine & Christian (2007) SOP 5, vapour pressure after
/// Weiss & Price (1980).
///
/// ```
/// use halimeda::carbonate::EquilibriumOptions;
/// use halimeda::gas::co2_partial_pressure;
/// use halimeda::{Alkalinity, DryMoleFractionCo2, PracticalSalinity, Temperature, Water};
/// let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
/// let alkalinity = Alkalinity::from_umol_per_kg(2800.0)?;
/// let equilibria = water.equilibria(&EquilibriumOptions::default())?;
/// let ph = |ppm| -> halimeda::Result<f64> {
///     let room = DryMoleFractionCo2::from_ppm(ppm)?;
///     let pressure = co2_partial_pressure(room, &water)?.value();
///     Ok(equilibria.solve(alkalinity, pressure)?.ph_total().value())
/// };
/// assert!((ph(420.0)? - 8.108).abs() < 0.001);
/// // The same water in a stuffy room.
/// assert!((ph(1500.0)? - 7.634).abs() < 0.001);
/// # Ok::<(), halimeda::Error>(())
/// ```
///
/// # Errors
/// Temperature or salinity outside [`Relation::VapourPressureWeissPrice1980`]
/// and extrapolation not allowed.
pub fn co2_partial_pressure(
    dry: DryMoleFractionCo2,
    water: &Water,
) -> Result<Flagged<PartialPressureCo2>> {
    let extrapolated = check(water, &[Relation::VapourPressureWeissPrice1980])?;
    let pressure = PartialPressureCo2::from_uatm(dry.ppm() * dry_atm(water))?;
    Ok(Flagged::new(pressure, extrapolated))
}

/// Dry mole fraction of CO2 in air in equilibrium with water of this partial
/// pressure; the inverse of [`co2_partial_pressure`].
///
/// # Errors
/// As [`co2_partial_pressure`], or the partial pressure exceeds that of the air.
pub fn co2_dry_mole_fraction(
    pressure: PartialPressureCo2,
    water: &Water,
) -> Result<Flagged<DryMoleFractionCo2>> {
    let extrapolated = check(water, &[Relation::VapourPressureWeissPrice1980])?;
    let dry = DryMoleFractionCo2::from_ppm(pressure.uatm() / dry_atm(water))?;
    Ok(Flagged::new(dry, extrapolated))
}

/// Fugacity of CO2 at this partial pressure in air at the water's temperature.
///
/// Weiss (1974), as in Dickson, Sabine & Christian (2007) SOP 24, for a trace of
/// CO2 in air at one atmosphere, as everywhere in the carbonate system: at
/// 0.8 atm that leaves out 6 parts in 10 000.
///
/// # Errors
/// Temperature or salinity outside [`Relation::K0Weiss1974`] and extrapolation
/// not allowed.
pub fn co2_fugacity(pressure: PartialPressureCo2, water: &Water) -> Result<Flagged<FugacityCo2>> {
    let extrapolated = check(water, &[Relation::K0Weiss1974])?;
    let fugacity = FugacityCo2::from_uatm(
        pressure.uatm() * co2_fugacity_coefficient_weiss1974(&medium(water)),
    )?;
    Ok(Flagged::new(fugacity, extrapolated))
}

/// Partial pressure of CO2 at this fugacity; the inverse of [`co2_fugacity`].
///
/// # Errors
/// As [`co2_fugacity`], or the partial pressure exceeds
/// [`PartialPressureCo2::MAX`].
pub fn co2_partial_pressure_from_fugacity(
    fugacity: FugacityCo2,
    water: &Water,
) -> Result<Flagged<PartialPressureCo2>> {
    let extrapolated = check(water, &[Relation::K0Weiss1974])?;
    let pressure = PartialPressureCo2::from_uatm(
        fugacity.uatm() / co2_fugacity_coefficient_weiss1974(&medium(water)),
    )?;
    Ok(Flagged::new(pressure, extrapolated))
}

/// Dissolved CO2 in equilibrium with this fugacity: K0 f (Weiss 1974, eq. 12,
/// error 0.2 %).
///
/// # Errors
/// Temperature or salinity outside [`Relation::K0Weiss1974`] and extrapolation
/// not allowed.
pub fn carbon_dioxide_solubility(
    fugacity: FugacityCo2,
    water: &Water,
) -> Result<Flagged<Content<species::CarbonDioxide>>> {
    let extrapolated = check(water, &[Relation::K0Weiss1974])?;
    let content = Content::from_mol_per_kg(k0_weiss1974(&medium(water)) * fugacity.uatm() * 1e-6)?;
    Ok(Flagged::new(content, extrapolated))
}

fn dry_atm(water: &Water) -> f64 {
    water.air_pressure().atm() - vapour_atm(water)
}

fn medium(water: &Water) -> Medium<f64> {
    Medium::new(water.temperature().celsius(), water.salinity().value())
}
