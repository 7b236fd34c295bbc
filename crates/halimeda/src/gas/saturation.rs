use super::solubility::{henry_mol_per_kg_atm, henry_relations};
use super::{AirGas, check, hydrostatic_atm, solubility, vapour_atm};
use crate::quantity::{Content, GasPressure, PercentSaturation};
use crate::{Flagged, Result, Water};

/// Content as a percentage of the equilibrium with clean moist air at the
/// water's own air pressure.
///
/// The water's air pressure must be the local one
/// ([`Water::with_air_pressure`]), not one reduced to sea level as weather
/// reports are: at 1500 m it is 0.83 atm, and a content that is 100 % there would
/// be 83 % at sea level.
///
/// # Errors
/// As [`solubility`], or the result exceeds [`PercentSaturation::MAX`].
pub fn percent_saturation<G: AirGas>(
    content: Content<G>,
    water: &Water,
) -> Result<Flagged<PercentSaturation>> {
    let equilibrium = solubility::<G>(water)?;
    let percent = 100.0 * content.mol_per_kg() / equilibrium.value().mol_per_kg();
    Ok(Flagged::new(
        PercentSaturation::from_percent(percent)?,
        equilibrium.extrapolated(),
    ))
}

/// Content as a percentage of the equilibrium with a bubble of clean air at the
/// water's depth ([`Water::with_water_pressure`]): the gas leaves solution only
/// above 100 %.
///
/// # Errors
/// As [`percent_saturation`]; the vapour pressure is always needed.
pub fn percent_saturation_at_depth<G: AirGas>(
    content: Content<G>,
    water: &Water,
) -> Result<Flagged<PercentSaturation>> {
    let extrapolated = check(water, &henry_relations::<G>())?;
    let dry = water.air_pressure().atm() + hydrostatic_atm(water) - vapour_atm(water);
    let equilibrium = henry_mol_per_kg_atm::<G>(water) * G::DRY_AIR_MOLE_FRACTION * dry;
    Ok(Flagged::new(
        PercentSaturation::from_percent(100.0 * content.mol_per_kg() / equilibrium)?,
        extrapolated,
    ))
}

/// Content at a percentage of the equilibrium with clean moist air at the
/// water's own air pressure; the inverse of [`percent_saturation`].
///
/// Percent saturation does not depend on salinity, mg/L does. So a mg/L reading
/// of a meter that was told the wrong salinity is put right by way of percent:
///
/// ```
/// use halimeda::gas::{content_at_saturation, percent_saturation};
/// use halimeda::{Concentration, Content, PracticalSalinity, Temperature, Water, form, species};
/// let temperature = Temperature::from_celsius(25.0)?;
/// let tank = Water::new(temperature, PracticalSalinity::new(35.0)?);
/// let assumed = Water::new(temperature, PracticalSalinity::new(0.0)?);
/// let reading = Concentration::<form::OxygenAsO2>::from_mg_per_l(7.85)?;
/// let percent = percent_saturation(reading.to_content(assumed.density()?), &assumed)?.value();
/// let oxygen: Content<species::Oxygen> = content_at_saturation(percent, &tank)?.value();
/// let corrected: Concentration<form::OxygenAsO2> = oxygen.to_concentration(tank.density()?);
/// assert!((corrected.mg_per_l() - 6.43).abs() < 0.01);
/// # Ok::<(), halimeda::Error>(())
/// ```
///
/// # Errors
/// As [`solubility`].
pub fn content_at_saturation<G: AirGas>(
    saturation: PercentSaturation,
    water: &Water,
) -> Result<Flagged<Content<G>>> {
    let equilibrium = solubility::<G>(water)?;
    let content = equilibrium.value().mol_per_kg() * saturation.percent() / 100.0;
    Ok(Flagged::new(
        Content::from_mol_per_kg(content)?,
        equilibrium.extrapolated(),
    ))
}

/// Partial pressure of the dissolved gas: content over the Henry coefficient
/// that [`solubility`] implies.
///
/// Hydrostatic pressure raises it by 0.013 % per metre of depth (Enns et al.
/// 1965, J. Phys. Chem. 69, 389-391, partial molar volume of O2), which is left
/// out.
///
/// # Errors
/// Temperature or salinity outside the relation of the gas or
/// [`Relation::VapourPressureWeissPrice1980`](crate::Relation::VapourPressureWeissPrice1980)
/// and extrapolation not allowed, or the result exceeds [`GasPressure::MAX`].
pub fn partial_pressure<G: AirGas>(
    content: Content<G>,
    water: &Water,
) -> Result<Flagged<GasPressure>> {
    let extrapolated = check(water, &henry_relations::<G>())?;
    let atm = content.mol_per_kg() / henry_mol_per_kg_atm::<G>(water);
    Ok(Flagged::new(GasPressure::from_atm(atm)?, extrapolated))
}
