use core::marker::PhantomData;

use super::scalar_quantity;
use crate::Result;
use crate::error::within;

scalar_quantity! {
    /// Partial pressure of CO2 in moist air at equilibrium with the water.
    PartialPressureCo2, "pCO2", "µatm", uatm, from_uatm, 0.0, 1e6
}

scalar_quantity! {
    /// Fugacity of CO2: the partial pressure corrected for the gas not being ideal.
    FugacityCo2, "fCO2", "µatm", uatm, from_uatm, 0.0, 1e6
}

scalar_quantity! {
    /// Mole fraction of CO2 in dry air, what a room CO2 meter shows.
    ///
    /// Breathing CO2 above 5000 ppm over a working day exceeds common
    /// occupational limits: air a closed room with many tanks or a CO2 supply.
    DryMoleFractionCo2, "dry mole fraction of CO2", "ppm", ppm, from_ppm, 0.0, 1e6
}

/// A calcium carbonate mineral.
pub trait Mineral: Copy + core::fmt::Debug + PartialEq + PartialOrd + 'static {
    /// Name of the saturation state, for messages.
    const NAME: &'static str;
}

/// The form that corals build.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Aragonite;

/// The less soluble form.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Calcite;

impl Mineral for Aragonite {
    const NAME: &'static str = "aragonite saturation state";
}

impl Mineral for Calcite {
    const NAME: &'static str = "calcite saturation state";
}

/// Saturation state Ω = \[Ca²⁺\]\[CO3²⁻\]/Ksp, dimensionless; above one the
/// mineral can form, below one it dissolves. Accepted from 0 to 1000.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct SaturationState<M: Mineral> {
    value: f64,
    mineral: PhantomData<M>,
}

impl<M: Mineral> SaturationState<M> {
    /// Smallest accepted value.
    pub const MIN: f64 = 0.0;
    /// Largest accepted value.
    pub const MAX: f64 = 1000.0;

    /// From its value, dimensionless.
    ///
    /// # Errors
    /// The value is not finite, negative or above 1000.
    pub const fn new(value: f64) -> Result<Self> {
        match within(M::NAME, value, Self::MIN, Self::MAX, "(dimensionless)") {
            Ok(value) => Ok(Self {
                value,
                mineral: PhantomData,
            }),
            Err(e) => Err(e),
        }
    }

    pub(crate) const fn unchecked(value: f64) -> Self {
        Self {
            value,
            mineral: PhantomData,
        }
    }

    /// The value, dimensionless.
    #[must_use]
    pub const fn value(self) -> f64 {
        self.value
    }
}

#[cfg(feature = "serde")]
mod with_serde {
    use super::{Mineral, SaturationState};
    use serde::ser::SerializeStruct as _;
    use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

    impl<M: Mineral> Serialize for SaturationState<M> {
        fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
            let mut record = serializer.serialize_struct("SaturationState", 1)?;
            record.serialize_field("value", &self.value)?;
            record.end()
        }
    }

    impl<'de, M: Mineral> Deserialize<'de> for SaturationState<M> {
        fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
            #[derive(Deserialize)]
            #[serde(deny_unknown_fields)]
            struct Record {
                value: f64,
            }
            Self::new(Record::deserialize(d)?.value).map_err(de::Error::custom)
        }
    }
}
