use super::{Air, AirGas, carbon_dioxide, check, vapour_atm};
use crate::quantity::{AirPressure, Content, Species, species};
use crate::real::{Real, polynomial};
use crate::relation::{Relation, RelationSet};
use crate::{Flagged, Result, Water};

/// Content of oxygen in equilibrium with clean moist air at the water's own
/// air pressure.
///
/// Garcia & Gordon (1992) eq. 8 with the coefficients fitted to Benson &
/// Krause (1984), at one atmosphere; scaled to another air pressure by
/// (P − pH2O)/(1 atm − pH2O), pH2O after Weiss & Price (1980). The data are on
/// the IPTS-68 temperature scale, to which the temperature is converted.
/// Benson & Krause put the error at 0.1 %; leaving out that the gas is not
/// ideal adds 0.03 % at 0.7 atm.
///
/// ```
/// use halimeda::gas::oxygen_solubility;
/// use halimeda::{PracticalSalinity, Temperature, Water};
/// let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
/// assert!((oxygen_solubility(&water)?.value().umol_per_kg() - 206.77).abs() < 0.01);
/// # Ok::<(), halimeda::Error>(())
/// ```
///
/// # Errors
/// Temperature or salinity outside [`Relation::OxygenGarciaGordon1992`] or, at
/// another air pressure than one atmosphere, outside
/// [`Relation::VapourPressureWeissPrice1980`], and extrapolation not allowed.
pub fn oxygen_solubility(water: &Water) -> Result<Flagged<Content<species::Oxygen>>> {
    solubility(water)
}

/// Content of nitrogen in equilibrium with clean moist air at the water's own
/// air pressure.
///
/// Hamme & Emerson (2004) eq. 1 and table 4, error 0.14 %; air pressure as in
/// [`oxygen_solubility`].
///
/// # Errors
/// Temperature or salinity outside [`Relation::NitrogenHammeEmerson2004`] or, at
/// another air pressure than one atmosphere, outside
/// [`Relation::VapourPressureWeissPrice1980`], and extrapolation not allowed.
pub fn nitrogen_solubility(water: &Water) -> Result<Flagged<Content<species::Nitrogen>>> {
    solubility(water)
}

/// Content of argon in equilibrium with clean moist air at the water's own air
/// pressure.
///
/// Hamme & Emerson (2004) eq. 1 and table 4, error 0.13 %; air pressure as in
/// [`oxygen_solubility`].
///
/// # Errors
/// Temperature or salinity outside [`Relation::ArgonHammeEmerson2004`] or, at
/// another air pressure than one atmosphere, outside
/// [`Relation::VapourPressureWeissPrice1980`], and extrapolation not allowed.
pub fn argon_solubility(water: &Water) -> Result<Flagged<Content<species::Argon>>> {
    solubility(water)
}

/// [`oxygen_solubility`], [`nitrogen_solubility`] or [`argon_solubility`], for
/// code that is generic over the gas.
///
/// # Errors
/// As the function of the gas.
pub fn solubility<G: AirGas>(water: &Water) -> Result<Flagged<Content<G>>> {
    let mut extrapolated = check(water, &[G::RELATION])?;
    let mut umol_per_kg = at_one_atm::<G>(water);
    if water.air_pressure() != AirPressure::STANDARD {
        extrapolated = extrapolated.union(check(water, &[Relation::VapourPressureWeissPrice1980])?);
        let vapour = vapour_atm(water);
        umol_per_kg *= (water.air_pressure().atm() - vapour) / (1.0 - vapour);
    }
    Ok(Flagged::new(
        Content::from_umol_per_kg(umol_per_kg)?,
        extrapolated,
    ))
}

fn at_one_atm<G: AirGas>(water: &Water) -> f64 {
    G::umol_per_kg(water.temperature().celsius(), water.salinity().value())
}

/// Content per partial pressure, mol kg⁻¹ atm⁻¹ (Henry's law); unchecked.
pub(super) fn henry_mol_per_kg_atm<G: AirGas>(water: &Water) -> f64 {
    at_one_atm::<G>(water) * 1e-6 / (G::DRY_AIR_MOLE_FRACTION * (1.0 - vapour_atm(water)))
}

/// Relations that [`henry_mol_per_kg_atm`] and moist air need.
pub(super) const fn henry_relations<G: AirGas>() -> [Relation; 2] {
    [G::RELATION, Relation::VapourPressureWeissPrice1980]
}

/// Equilibrium with vapour-saturated clean air at one atmosphere. Seals
/// [`AirGas`].
pub trait AtOneAtm {
    #[doc(hidden)]
    const RELATION: Relation;
    #[doc(hidden)]
    fn umol_per_kg<R: Real>(celsius: R, practical_salinity: R) -> R;
}

/// ln((298.15 − t)/(273.15 + t)), the scaled temperature of Garcia & Gordon.
fn scaled_temperature<R: Real>(celsius: R) -> R {
    ((-celsius + 298.15) / (celsius + 273.15)).ln()
}

impl AtOneAtm for species::Oxygen {
    const RELATION: Relation = Relation::OxygenGarciaGordon1992;

    // Known misprint: eq. 8 of the paper shows a second term in Ts^2, with A3,
    // which does not reproduce its own check value and is left out here.
    fn umol_per_kg<R: Real>(celsius: R, practical_salinity: R) -> R {
        let t = scaled_temperature(celsius * 1.00024);
        let s = practical_salinity;
        let fresh = polynomial(
            t,
            [5.80871, 3.20291, 4.17887, 5.10006, -9.86643e-2, 3.80369],
        );
        let salt = polynomial(t, [-7.01577e-3, -7.70028e-3, -1.13864e-2, -9.51519e-3]);
        (fresh + s * salt - s.square() * 2.75915e-7).exp()
    }
}

impl AtOneAtm for species::Nitrogen {
    const RELATION: Relation = Relation::NitrogenHammeEmerson2004;

    fn umol_per_kg<R: Real>(celsius: R, practical_salinity: R) -> R {
        let t = scaled_temperature(celsius);
        let fresh = polynomial(t, [6.42931, 2.92704, 4.32531, 4.69149]);
        let salt = polynomial(t, [-7.44129e-3, -8.02566e-3, -1.46775e-2]);
        (fresh + practical_salinity * salt).exp()
    }
}

impl AtOneAtm for species::Argon {
    const RELATION: Relation = Relation::ArgonHammeEmerson2004;

    fn umol_per_kg<R: Real>(celsius: R, practical_salinity: R) -> R {
        let t = scaled_temperature(celsius);
        let fresh = polynomial(t, [2.79150, 3.17609, 4.13116, 4.90379]);
        let salt = polynomial(t, [-6.96233e-3, -7.66670e-3, -1.16888e-2]);
        (fresh + practical_salinity * salt).exp()
    }
}

/// Equilibrium with any air. Seals [`Gas`](super::Gas).
pub trait Equilibrium: Species + Sized {
    #[doc(hidden)]
    fn under(air: &Air, water: &Water) -> Result<Flagged<Content<Self>>>;
}

fn air_gas_under<G: AirGas>(mole_fraction: f64, water: &Water) -> Result<Flagged<Content<G>>> {
    let clean = solubility::<G>(water)?;
    Ok(Flagged::new(
        Content::from_mol_per_kg(
            clean.value().mol_per_kg() * mole_fraction / G::DRY_AIR_MOLE_FRACTION,
        )?,
        clean.extrapolated(),
    ))
}

impl Equilibrium for species::Oxygen {
    fn under(air: &Air, water: &Water) -> Result<Flagged<Content<Self>>> {
        air_gas_under(air.oxygen_mole_fraction(), water)
    }
}

impl Equilibrium for species::Nitrogen {
    fn under(air: &Air, water: &Water) -> Result<Flagged<Content<Self>>> {
        air_gas_under(air.nitrogen_mole_fraction(), water)
    }
}

impl Equilibrium for species::Argon {
    fn under(air: &Air, water: &Water) -> Result<Flagged<Content<Self>>> {
        air_gas_under(air.argon_mole_fraction(), water)
    }
}

impl Equilibrium for species::CarbonDioxide {
    fn under(air: &Air, water: &Water) -> Result<Flagged<Content<Self>>> {
        let pressure = carbon_dioxide::co2_partial_pressure(air.carbon_dioxide(), water)?;
        let fugacity = carbon_dioxide::co2_fugacity(pressure.value(), water)?;
        let content = carbon_dioxide::carbon_dioxide_solubility(fugacity.value(), water)?;
        let extrapolated: RelationSet = pressure
            .extrapolated()
            .union(fugacity.extrapolated())
            .union(content.extrapolated());
        Ok(Flagged::new(content.value(), extrapolated))
    }
}
