use super::density::{EOS80_STANDARD_ERROR_KG_PER_M3, eos80_kg_per_m3};
use super::salinity_reading::{Instrument, SalinityReading};
use super::{SpecificGravityReference, Water};
use crate::Result;
use crate::error::within;
use crate::quantity::{Density, Temperature};
use crate::relation::{Extrapolation, Relation};

/// A hydrometer: floats deeper in lighter water, and is itself a little larger
/// in warm water.
///
/// Its scale is true at the sample temperature of its reference. At another
/// temperature two things differ: the water's density, and the volume of the
/// body by its cubic expansion β, so that a reading `h` at temperature `t` means
/// the density ρ(t) = h ρw / (1 + β (t − t_reference)), ρw being pure water's at
/// the reference. Surface tension and the air's buoyancy on the stem are left out.
///
/// Plastic swing-arm instruments are read the same way but keep no known
/// expansion, hold bubbles and salt on the arm, and are commonly off by several
/// units of salinity (common practice, no source): check one against a standard
/// before trusting it with animals.
///
/// ```
/// use halimeda::{Extrapolation, Temperature};
/// use halimeda::water::{Hydrometer, SpecificGravityReference};
/// let hydrometer = Hydrometer::glass(SpecificGravityReference::AT_60F_60F);
/// let tank = Temperature::from_celsius(26.0)?;
/// let reading = hydrometer.practical_salinity(1.0235, tank, Extrapolation::Refuse)?;
/// assert!((reading.salinity().value() - 33.93).abs() < 0.01);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hydrometer {
    reference: SpecificGravityReference,
    cubic_expansion_per_celsius: f64,
}

/// Conventional cubic expansion of hydrometer glass, 1/°C: ISO 1768:1975, clause 3.
const GLASS_PER_CELSIUS: f64 = 25e-6;

impl Hydrometer {
    /// A glass hydrometer, cubic expansion 25·10⁻⁶ /°C (the conventional value
    /// of ISO 1768:1975).
    #[must_use]
    pub const fn glass(reference: SpecificGravityReference) -> Self {
        Self {
            reference,
            cubic_expansion_per_celsius: GLASS_PER_CELSIUS,
        }
    }

    /// A hydrometer of another material, with its cubic expansion in 1/°C.
    ///
    /// # Errors
    /// The expansion is not finite or outside 0 to 0.001 /°C.
    pub const fn with_cubic_expansion_per_celsius(
        reference: SpecificGravityReference,
        cubic_expansion_per_celsius: f64,
    ) -> Result<Self> {
        match within(
            "cubic expansion of the hydrometer",
            cubic_expansion_per_celsius,
            0.0,
            1e-3,
            "/°C",
        ) {
            Ok(cubic_expansion_per_celsius) => Ok(Self {
                reference,
                cubic_expansion_per_celsius,
            }),
            Err(e) => Err(e),
        }
    }

    /// Density in kg/m³ per unit of reading.
    fn density_per_reading(self, sample: Temperature) -> f64 {
        let warmer = sample.celsius() - self.reference.sample().celsius();
        self.reference.pure_water_kg_per_m3() / (1.0 + self.cubic_expansion_per_celsius * warmer)
    }

    /// Density of the water in which the hydrometer reads `reading`, the
    /// specific gravity on its scale, at the water's own temperature `sample`.
    ///
    /// # Errors
    /// The reading is not finite or outside 0.9 to 1.2.
    pub fn density(self, reading: f64, sample: Temperature) -> Result<Density> {
        let reading = hydrometer_reading(reading)?;
        Density::from_kg_per_m3(reading * self.density_per_reading(sample))
    }

    /// Practical salinity of the water in which the hydrometer reads `reading`,
    /// the specific gravity on its scale, at the water's own temperature
    /// `sample`; by EOS-80 and a bracketed root search. Sensitivity per unit of
    /// specific gravity.
    ///
    /// # Errors
    /// The reading is not finite or outside 0.9 to 1.2; `sample` outside
    /// [`Relation::DensityEos80`], or a reading that none of its salinities
    /// gives, and extrapolation not allowed.
    pub fn practical_salinity(
        self,
        reading: f64,
        sample: Temperature,
        extrapolation: Extrapolation,
    ) -> Result<SalinityReading> {
        let reading = hydrometer_reading(reading)?;
        let per_reading = self.density_per_reading(sample);
        let t68 = sample.celsius_ipts68();
        Instrument {
            input: "hydrometer reading",
            unit: "(specific gravity)",
            relation: Relation::DensityEos80,
            temperature: sample,
            extrapolation,
            relation_uncertainty: EOS80_STANDARD_ERROR_KG_PER_M3 / per_reading,
            reading_at: |s| eos80_kg_per_m3(t68, s) / per_reading,
        }
        .salinity(reading)
    }

    /// What the hydrometer reads in this water, as a specific gravity on its scale.
    ///
    /// # Errors
    /// As [`Water::density`].
    pub fn reading(self, water: &Water) -> Result<f64> {
        Ok(water.density()?.kg_per_m3() / self.density_per_reading(water.temperature()))
    }
}

fn hydrometer_reading(reading: f64) -> Result<f64> {
    within(
        "hydrometer reading",
        reading,
        0.9,
        1.2,
        "(specific gravity)",
    )
}
