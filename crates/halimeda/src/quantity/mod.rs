//! Typed quantities: what a number means, in which unit, on which scale.
//!
//! A bare `f64` enters the crate through a constructor that names its unit
//! (`Temperature::from_celsius`) and leaves through an accessor that names it
//! too (`.celsius()`). Mixing kinds does not compile.

mod alkalinity;
pub(crate) mod atomic_weight;
mod carbon;
mod content;
mod gas;
mod ph;
mod potential;
mod pressure;
mod salinity;
mod temperature;
mod transfer;
mod volume;

pub use alkalinity::Alkalinity;
pub use carbon::{
    Aragonite, Calcite, DryMoleFractionCo2, FugacityCo2, Mineral, PartialPressureCo2,
    SaturationState,
};
pub use content::{Concentration, Content, Form, Species, form, species};
pub use gas::{DeltaP, GasPressure, OxygenVolume, PercentSaturation};
pub use ph::{AnyPh, FreeScale, NbsScale, Ph, PhScale, Scale, SeawaterScale, TotalScale};
pub use potential::ElectrodePotential;
pub use pressure::{AirPressure, WaterPressure};
pub use salinity::PracticalSalinity;
pub use temperature::Temperature;
pub use transfer::{Area, FlowRate, TransferRate, TransferVelocity};
pub use volume::{Density, Mass, Volume};

/// Defines a quantity held as one finite `f64` between two limits.
///
/// The stored unit names the field, the constructor and the accessor, and is
/// the key under `serde`, so that a number never travels without its unit.
macro_rules! scalar_quantity {
    (
        $(#[$meta:meta])*
        $name:ident, $input:literal, $unit:literal,
        $field:ident, $constructor:ident, $min:expr, $max:expr
    ) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $name {
            $field: f64,
        }

        impl $name {
            #[doc = concat!("Smallest accepted value, ", $unit, ".")]
            pub const MIN: f64 = $min;
            #[doc = concat!("Largest accepted value, ", $unit, ".")]
            pub const MAX: f64 = $max;

            #[doc = concat!("From a value in ", $unit, ".")]
            ///
            /// # Errors
            /// The value is not finite, or lies outside [`Self::MIN`] to [`Self::MAX`].
            pub const fn $constructor($field: f64) -> $crate::Result<Self> {
                match $crate::error::within($input, $field, $min, $max, $unit) {
                    Ok($field) => Ok(Self { $field }),
                    Err(e) => Err(e),
                }
            }

            /// A computed value: results are not held to the limits of inputs.
            #[allow(dead_code)]
            pub(crate) const fn unchecked($field: f64) -> Self {
                Self { $field }
            }

            #[doc = concat!("The value in ", $unit, ".")]
            #[must_use]
            pub const fn $field(self) -> f64 {
                self.$field
            }
        }

        #[cfg(feature = "serde")]
        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                use serde::ser::SerializeStruct as _;
                let mut record = serializer.serialize_struct(stringify!($name), 1)?;
                record.serialize_field(stringify!($field), &self.$field)?;
                record.end()
            }
        }

        #[cfg(feature = "serde")]
        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
                #[derive(serde::Deserialize)]
                #[serde(deny_unknown_fields)]
                struct Record {
                    $field: f64,
                }
                let record = Record::deserialize(d)?;
                Self::$constructor(record.$field).map_err(serde::de::Error::custom)
            }
        }
    };
}
pub(crate) use scalar_quantity;
