//! One body of water: temperature, salinity, pressure and what it is made of;
//! and the ways its salinity and its amount are found.
//!
//! A salinity comes from a conductivity meter
//! ([`practical_salinity_from_conductivity`], [`SpecificConductance`]), a
//! hydrometer ([`Hydrometer`], [`SpecificGravity`]), a refractometer
//! ([`Refractometer`], [`practical_salinity_from_refractive_index`]) or a density
//! ([`practical_salinity_from_density`]), each as a [`SalinityReading`] that says
//! how well the relation behind it is known. [`Water`] gives the readings back.
//! [`NetVolume`] is how much of it there is.

pub(crate) mod atmosphere;
mod composition;
mod conductivity;
pub(crate) mod density;
mod hydrometer;
pub(crate) mod ionic_strength;
mod net_volume;
mod refractive_index;
mod refractometer;
mod salinity_reading;
mod specific_gravity;
pub(crate) mod vapour;
pub(crate) mod viscosity;

pub use composition::Composition;
pub use conductivity::{Conductivity, SpecificConductance, practical_salinity_from_conductivity};
pub use density::practical_salinity_from_density;
pub use hydrometer::Hydrometer;
pub use net_volume::NetVolume;
pub use refractive_index::{RefractiveIndex, Wavelength, practical_salinity_from_refractive_index};
pub use refractometer::{
    CalibrationFluid, Refractometer, RefractometerScale, TemperatureCompensation,
};
pub use salinity_reading::SalinityReading;
pub use specific_gravity::{SpecificGravity, SpecificGravityReference};

use crate::Result;
use crate::quantity::{AirPressure, PracticalSalinity, Temperature, WaterPressure};
use crate::relation::{Extrapolation, Relation, RelationSet};

/// A body of seawater, as everything else needs it described.
///
/// ```
/// use halimeda::{PracticalSalinity, Temperature, Water};
/// let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
/// assert!((water.density()?.kg_per_m3() - 1023.343).abs() < 0.01);
/// # Ok::<(), halimeda::Error>(())
/// ```
///
/// Under the feature `serde` everything but temperature and salinity may be
/// left out and is then as [`Water::new`] has it.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct Water {
    temperature: Temperature,
    salinity: PracticalSalinity,
    #[cfg_attr(feature = "serde", serde(default = "standard_air"))]
    air_pressure: AirPressure,
    #[cfg_attr(feature = "serde", serde(default = "surface"))]
    water_pressure: WaterPressure,
    #[cfg_attr(
        feature = "serde",
        serde(default, skip_serializing_if = "Composition::is_reference")
    )]
    composition: Composition,
    #[cfg_attr(feature = "serde", serde(default))]
    extrapolation: Extrapolation,
}

#[cfg(feature = "serde")]
const fn standard_air() -> AirPressure {
    AirPressure::STANDARD
}

#[cfg(feature = "serde")]
const fn surface() -> WaterPressure {
    WaterPressure::SURFACE
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
}
