//! One body of water: temperature, salinity, pressure and what it is made of.

mod composition;
mod density;

pub use composition::Composition;

use crate::Result;
use crate::quantity::{AirPressure, Density, PracticalSalinity, Temperature, WaterPressure};
use crate::relation::{Extrapolation, Relation, RelationSet};

/// A body of seawater, as everything else needs it described.
///
/// ```
/// use halimeda::{PracticalSalinity, Temperature, Water};
/// let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
/// assert!((water.density()?.kg_per_m3() - 1023.343).abs() < 0.01);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Water {
    temperature: Temperature,
    salinity: PracticalSalinity,
    air_pressure: AirPressure,
    water_pressure: WaterPressure,
    composition: Composition,
    extrapolation: Extrapolation,
}

impl Water {
    /// Water of reference composition at the surface under one standard
    /// atmosphere, extrapolation refused.
    #[must_use]
    pub const fn new(temperature: Temperature, salinity: PracticalSalinity) -> Self {
        Self {
            temperature,
            salinity,
            air_pressure: AirPressure::STANDARD,
            water_pressure: WaterPressure::SURFACE,
            composition: Composition::REFERENCE,
            extrapolation: Extrapolation::Refuse,
        }
    }

    /// This water under another air pressure.
    #[must_use]
    pub const fn with_air_pressure(mut self, air_pressure: AirPressure) -> Self {
        self.air_pressure = air_pressure;
        self
    }

    /// This water at depth.
    #[must_use]
    pub const fn with_water_pressure(mut self, water_pressure: WaterPressure) -> Self {
        self.water_pressure = water_pressure;
        self
    }

    /// This water with measured ions.
    #[must_use]
    pub const fn with_composition(mut self, composition: Composition) -> Self {
        self.composition = composition;
        self
    }

    /// This water, with relations evaluated outside their published range if
    /// `extrapolation` allows.
    #[must_use]
    pub const fn with_extrapolation(mut self, extrapolation: Extrapolation) -> Self {
        self.extrapolation = extrapolation;
        self
    }

    /// Temperature (ITS-90).
    #[must_use]
    pub const fn temperature(&self) -> Temperature {
        self.temperature
    }

    /// Practical salinity.
    #[must_use]
    pub const fn salinity(&self) -> PracticalSalinity {
        self.salinity
    }

    /// Pressure of the air above.
    #[must_use]
    pub const fn air_pressure(&self) -> AirPressure {
        self.air_pressure
    }

    /// Pressure of the water column above, in excess of the air's.
    #[must_use]
    pub const fn water_pressure(&self) -> WaterPressure {
        self.water_pressure
    }

    /// Major ions: reference values or what was measured.
    #[must_use]
    pub const fn composition(&self) -> Composition {
        self.composition
    }

    /// Whether relations may be evaluated outside their published range.
    #[must_use]
    pub const fn extrapolation(&self) -> Extrapolation {
        self.extrapolation
    }

    /// Which relations of the whole register this water lies outside of.
    #[must_use]
    pub fn extrapolations(&self) -> RelationSet {
        let mut outside = RelationSet::EMPTY;
        for &relation in Relation::ALL {
            if let Ok(true) = relation.check(self.temperature, self.salinity, Extrapolation::Allow)
            {
                outside.insert(relation);
            }
        }
        outside
    }

    /// Checks this water against a relation's range under its own policy;
    /// `Ok(true)` when it is outside and extrapolation is allowed.
    pub(crate) fn check(&self, relation: Relation) -> Result<bool> {
        relation.check(self.temperature, self.salinity, self.extrapolation)
    }

    /// Density at one atmosphere (EOS-80), kg/m³.
    ///
    /// Millero & Poisson (1981), eqs. 5-8 and table 3, with the temperature
    /// converted to IPTS-68. Standard error of the fit 0.0036 kg/m³.
    ///
    /// # Errors
    /// Temperature or salinity outside [`Relation::DensityEos80`] and
    /// extrapolation not allowed.
    pub fn density(&self) -> Result<Density> {
        self.check(Relation::DensityEos80)?;
        Density::from_kg_per_m3(density::eos80_kg_per_m3(
            self.temperature.celsius_ipts68(),
            self.salinity.value(),
        ))
    }
}
