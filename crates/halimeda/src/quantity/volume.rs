use super::scalar_quantity;
use crate::Result;

scalar_quantity! {
    /// Volume of water.
    ///
    /// A kilogram is not a litre: seawater of a reef tank weighs 1.02 kg/L.
    /// The two meet only through a [`Density`]:
    ///
    /// ```compile_fail,E0308
    /// use halimeda::{Density, Mass, Volume};
    /// let net: Mass = Volume::from_litres(180.0).unwrap(); // litres are not kilograms
    /// ```
    ///
    /// ```
    /// use halimeda::{Density, Volume};
    /// let density = Density::from_kg_per_m3(1023.34)?;
    /// let mass = Volume::from_litres(180.0)?.to_mass(density)?;
    /// assert!((mass.kilograms() - 184.2012).abs() < 1e-9);
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    Volume, "volume", "L", litres, from_litres, 0.0, 1e9
}

scalar_quantity! {
    /// Mass of water.
    Mass, "mass", "kg", kilograms, from_kilograms, 0.0, 1e9
}

scalar_quantity! {
    /// Density of water.
    Density, "density", "kg/m³", kg_per_m3, from_kg_per_m3, 900.0, 1200.0
}

/// Litres in a US liquid gallon, exact (231 in³, NIST Handbook 44 app. C).
const LITRES_PER_US_GALLON: f64 = 3.785_411_784;

impl Volume {
    /// From US liquid gallons.
    ///
    /// # Errors
    /// As [`Volume::from_litres`], with the value converted to litres.
    pub const fn from_us_gallons(gallons: f64) -> Result<Self> {
        Self::from_litres(gallons * LITRES_PER_US_GALLON)
    }

    /// Mass of this volume of water.
    ///
    /// # Errors
    /// The mass exceeds [`Mass::MAX`].
    pub const fn to_mass(self, density: Density) -> Result<Mass> {
        Mass::from_kilograms(self.litres * density.kg_per_l())
    }
}

impl Mass {
    /// Volume of this mass of water.
    ///
    /// # Errors
    /// The volume exceeds [`Volume::MAX`].
    pub const fn to_volume(self, density: Density) -> Result<Volume> {
        Volume::from_litres(self.kilograms / density.kg_per_l())
    }
}

impl Density {
    /// The density in kg/L.
    #[must_use]
    pub const fn kg_per_l(self) -> f64 {
        self.kg_per_m3 * 1e-3
    }
}
