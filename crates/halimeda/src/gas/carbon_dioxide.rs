use super::{check, vapour_atm};
use crate::quantity::{Content, DryMoleFractionCo2, FugacityCo2, PartialPressureCo2, species};
use crate::real::{Real, polynomial};
use crate::relation::Relation;
use crate::{Flagged, Result, Water};

/// Partial pressure of CO2 in air of this dry mole fraction once it is
/// saturated with water vapour, at the water's air pressure: x (P − pH2O).
///
/// It is the pCO2 that the water tends to. Dickson, Sabine & Christian (2007)
/// SOP 5, vapour pressure after Weiss & Price (1980).
///
/// ```
/// use halimeda::gas::co2_partial_pressure;
/// use halimeda::{DryMoleFractionCo2, PracticalSalinity, Temperature, Water};
/// let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
/// let room = DryMoleFractionCo2::from_ppm(800.0)?;
/// assert!((co2_partial_pressure(room, &water)?.value().uatm() - 775.4).abs() < 0.1);
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

/// Fugacity of CO2 at this partial pressure in air at the water's temperature
/// and air pressure.
///
/// Weiss (1974) eq. 9, as in Dickson, Sabine & Christian (2007) SOP 24, CO2
/// being a trace of the air: at 5000 ppm that leaves out 2 parts in 100 000.
///
/// # Errors
/// Temperature outside [`Relation::Co2VirialWeiss1974`] and extrapolation not
/// allowed.
pub fn co2_fugacity(pressure: PartialPressureCo2, water: &Water) -> Result<Flagged<FugacityCo2>> {
    let extrapolated = check(water, &[Relation::Co2VirialWeiss1974])?;
    let fugacity = FugacityCo2::from_uatm(pressure.uatm() * coefficient_of(water))?;
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
    let extrapolated = check(water, &[Relation::Co2VirialWeiss1974])?;
    let pressure = PartialPressureCo2::from_uatm(fugacity.uatm() / coefficient_of(water))?;
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
    let k0 = k0_mol_per_kg_atm(water.temperature().kelvin(), water.salinity().value());
    let content = Content::from_mol_per_kg(k0 * fugacity.uatm() * 1e-6)?;
    Ok(Flagged::new(content, extrapolated))
}

fn dry_atm(water: &Water) -> f64 {
    water.air_pressure().atm() - vapour_atm(water)
}

fn coefficient_of(water: &Water) -> f64 {
    fugacity_coefficient(water.temperature().kelvin(), water.air_pressure().atm())
}

/// Gas constant, cm³ atm mol⁻¹ K⁻¹: 8.31446261815324 J mol⁻¹ K⁻¹ (exact, SI
/// 2019) over 0.101325 J cm⁻³ atm⁻¹.
const R_CM3_ATM: f64 = 8.314_462_618_153_24 / 0.101_325;

/// Fugacity of CO2 over its partial pressure, as a trace of air.
pub(crate) fn fugacity_coefficient<R: Real>(kelvin: R, air_atm: f64) -> R {
    // Weiss (1974) eqs. 6 and 11, cm³/mol.
    let b = polynomial(kelvin, [-1636.75, 12.0408, -3.27957e-2, 3.16528e-5]);
    let delta = polynomial(kelvin, [57.7, -0.118]);
    ((b + delta * 2.0) * air_atm / (kelvin * R_CM3_ATM)).exp()
}

fn k0_mol_per_kg_atm(kelvin: f64, s: f64) -> f64 {
    let t = kelvin / 100.0;
    (-60.2409
        + 93.4517 / t
        + 23.3585 * Real::ln(t)
        + s * polynomial(t, [0.023517, -0.023656, 0.0047036]))
    .exp()
}
