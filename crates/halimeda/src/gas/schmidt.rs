use super::{GasKind, check};
use crate::real::{Real, polynomial};
use crate::relation::Relation;
use crate::water::{density, viscosity};
use crate::{Flagged, Result, Water};

/// Schmidt number of a gas in seawater: kinematic viscosity over diffusivity,
/// dimensionless. Wanninkhof (2014) table 1, a fit at salinity 35.
///
/// ```
/// use halimeda::gas::{GasKind, schmidt_number};
/// use halimeda::{PracticalSalinity, Temperature, Water};
/// let water = Water::new(Temperature::from_celsius(20.0)?, PracticalSalinity::new(35.0)?);
/// assert_eq!(schmidt_number(GasKind::CarbonDioxide, &water)?.value().round(), 668.0);
/// # Ok::<(), halimeda::Error>(())
/// ```
///
/// # Errors
/// Temperature or salinity outside [`Relation::SchmidtWanninkhof2014`] and
/// extrapolation not allowed.
pub fn schmidt_number(gas: GasKind, water: &Water) -> Result<Flagged<f64>> {
    let extrapolated = check(water, &[Relation::SchmidtWanninkhof2014])?;
    Ok(Flagged::new(
        schmidt(gas, water.temperature().celsius()),
        extrapolated,
    ))
}

/// Molecular diffusivity of a gas in seawater, m²/s: kinematic viscosity
/// (Sharqawy et al. 2010 over the EOS-80 density) over the Schmidt number.
///
/// Uncertain by about 5 %.
///
/// # Errors
/// Temperature or salinity outside [`Relation::SchmidtWanninkhof2014`],
/// [`Relation::ViscositySharqawy2010`] or [`Relation::DensityEos80`] and
/// extrapolation not allowed.
pub fn diffusivity_m2_per_s(gas: GasKind, water: &Water) -> Result<Flagged<f64>> {
    let viscosity = kinematic_viscosity_m2_per_s(water)?;
    let schmidt = schmidt_number(gas, water)?;
    Ok(Flagged::new(
        viscosity.value() / schmidt.value(),
        viscosity.extrapolated().union(schmidt.extrapolated()),
    ))
}

/// Kinematic viscosity of the water, m²/s.
pub(super) fn kinematic_viscosity_m2_per_s(water: &Water) -> Result<Flagged<f64>> {
    let extrapolated = check(
        water,
        &[Relation::ViscositySharqawy2010, Relation::DensityEos80],
    )?;
    let salinity = water.salinity().value();
    let dynamic = viscosity::dynamic_pa_s(water.temperature().celsius(), salinity);
    let density = density::eos80_kg_per_m3(water.temperature().celsius_ipts68(), salinity);
    Ok(Flagged::new(dynamic / density, extrapolated))
}

pub(super) fn schmidt<R: Real>(gas: GasKind, celsius: R) -> R {
    polynomial(
        celsius,
        match gas {
            GasKind::Oxygen => [1920.4, -135.6, 5.2122, -0.10939, 0.00093777],
            GasKind::Nitrogen => [2304.8, -162.75, 6.2557, -0.13129, 0.0011255],
            GasKind::Argon => [2078.1, -146.74, 5.6403, -0.11838, 0.0010148],
            GasKind::CarbonDioxide => [2116.8, -136.25, 4.7353, -0.092307, 0.0007555],
        },
    )
}
