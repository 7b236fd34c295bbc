use super::Water;
use super::density::{EOS80_STANDARD_ERROR_KG_PER_M3, eos80_kg_per_m3, pure_water_kg_per_m3};
use super::salinity_reading::{Instrument, SalinityReading};
use crate::Result;
use crate::error::within;
use crate::quantity::Temperature;
use crate::relation::{Extrapolation, Relation};

/// The two temperatures without which a specific gravity means nothing: that
/// of the sample and that of the pure water it is compared with.
///
/// Hydrometers print them as "25/25 °C" or "60/60 °F". Water of salinity 35
/// reads 1.0264 at 25/25 and 1.0269 at 15/15.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpecificGravityReference {
    sample: Temperature,
    pure_water: Temperature,
}

macro_rules! reference {
    ($($(#[$doc:meta])* $name:ident = $sample:expr, $water:expr;)*) => {
        $(
            $(#[$doc])*
            pub const $name: Self = Self {
                sample: celsius!($sample),
                pure_water: celsius!($water),
            };
        )*
    };
}

// Evaluated while compiling: a bad literal is a build error.
macro_rules! celsius {
    ($value:expr) => {
        match Temperature::from_celsius($value) {
            Ok(temperature) => temperature,
            #[allow(clippy::panic)]
            Err(_) => panic!("reference temperature out of range"),
        }
    };
}

const fn reference_celsius(input: &'static str, temperature: Temperature) -> Result<f64> {
    within(input, temperature.celsius(), 0.0, 40.0, "°C")
}

impl SpecificGravityReference {
    reference! {
        /// Sample and pure water at 25 °C.
        AT_25_25 = 25.0, 25.0;
        /// Sample and pure water at 20 °C.
        AT_20_20 = 20.0, 20.0;
        /// Sample and pure water at 15 °C.
        AT_15_15 = 15.0, 15.0;
        /// Sample and pure water at 60 °F (15.56 °C).
        AT_60F_60F = (60.0 - 32.0) / 1.8, (60.0 - 32.0) / 1.8;
        /// Sample at 15 °C, pure water at 4 °C.
        AT_15_4 = 15.0, 4.0;
        /// Sample at 20 °C, pure water at 4 °C.
        AT_20_4 = 20.0, 4.0;
    }

    /// Sample and pure water at the given temperatures.
    ///
    /// # Errors
    /// A temperature outside 0 to 40 °C.
    pub const fn new(sample: Temperature, pure_water: Temperature) -> Result<Self> {
        if let Err(e) = reference_celsius("reference temperature of the sample", sample) {
            return Err(e);
        }
        match reference_celsius("reference temperature of the pure water", pure_water) {
            Ok(_) => Ok(Self { sample, pure_water }),
            Err(e) => Err(e),
        }
    }

    /// Temperature of the sample.
    #[must_use]
    pub const fn sample(self) -> Temperature {
        self.sample
    }

    /// Temperature of the pure water.
    #[must_use]
    pub const fn pure_water(self) -> Temperature {
        self.pure_water
    }

    pub(super) fn pure_water_kg_per_m3(self) -> f64 {
        pure_water_kg_per_m3(self.pure_water.celsius_ipts68())
    }
}

/// Specific gravity (relative density): the density of a sample over that of
/// pure water, each at the temperature the reference names. Dimensionless,
/// accepted from 0.9 to 1.2.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpecificGravity {
    value: f64,
    reference: SpecificGravityReference,
}

impl SpecificGravity {
    /// From its value, dimensionless, and its reference.
    ///
    /// # Errors
    /// The value is not finite, below 0.9 or above 1.2.
    pub const fn new(value: f64, reference: SpecificGravityReference) -> Result<Self> {
        match within("specific gravity", value, 0.9, 1.2, "(dimensionless)") {
            Ok(value) => Ok(Self { value, reference }),
            Err(e) => Err(e),
        }
    }

    /// The value, dimensionless.
    #[must_use]
    pub const fn value(self) -> f64 {
        self.value
    }

    /// The temperatures it refers to.
    #[must_use]
    pub const fn reference(self) -> SpecificGravityReference {
        self.reference
    }

    /// Practical salinity of water of this specific gravity, from EOS-80
    /// (Millero & Poisson 1981) by a bracketed root search. Sensitivity per
    /// unit of specific gravity.
    ///
    /// For a hydrometer in water that is not at the reference temperature, see
    /// [`Hydrometer`](super::Hydrometer).
    ///
    /// # Errors
    /// A value that no salinity of [`Relation::DensityEos80`] has and
    /// extrapolation not allowed; a value outside what salinity 0 to 70 gives.
    pub fn practical_salinity(self, extrapolation: Extrapolation) -> Result<SalinityReading> {
        let pure_water = self.reference.pure_water_kg_per_m3();
        let t68 = self.reference.sample.celsius_ipts68();
        Instrument {
            input: "specific gravity",
            unit: "(dimensionless)",
            relation: Relation::DensityEos80,
            temperature: self.reference.sample,
            extrapolation,
            relation_uncertainty: EOS80_STANDARD_ERROR_KG_PER_M3 / pure_water,
            reading_at: |s| eos80_kg_per_m3(t68, s) / pure_water,
        }
        .salinity(self.value)
    }
}

impl Water {
    /// Specific gravity that this water has at the temperatures the reference
    /// names (not at its own), from EOS-80 (Millero & Poisson 1981).
    ///
    /// ```
    /// use halimeda::{PracticalSalinity, Temperature, Water};
    /// use halimeda::water::SpecificGravityReference;
    /// let water = Water::new(Temperature::from_celsius(27.0)?, PracticalSalinity::new(35.0)?);
    /// let read = water.specific_gravity(SpecificGravityReference::AT_25_25)?;
    /// assert!((read.value() - 1.02637).abs() < 1e-5);
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    ///
    /// # Errors
    /// Salinity outside [`Relation::DensityEos80`] and extrapolation not allowed.
    pub fn specific_gravity(&self, reference: SpecificGravityReference) -> Result<SpecificGravity> {
        Relation::DensityEos80.check(reference.sample, self.salinity(), self.extrapolation())?;
        let sample = eos80_kg_per_m3(reference.sample.celsius_ipts68(), self.salinity().value());
        SpecificGravity::new(sample / reference.pure_water_kg_per_m3(), reference)
    }
}
