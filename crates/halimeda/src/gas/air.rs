use super::AirGas;
use crate::Result;
use crate::error::within;
use crate::quantity::{DryMoleFractionCo2, species};

/// Dry composition of the air that an exchange path meets.
///
/// Paths may differ: a foam fractionator can draw air from outside, or through
/// a CO2 absorbent, while the surface meets the air of the room.
///
/// Room air holds more CO2 than outside air, and its CO2 sets the tank's pH. A
/// CO2 meter that shows several thousand ppm is first of all a reason to
/// ventilate: 5000 ppm is the usual limit for a working day (US OSHA, 8 h
/// average), 40 000 ppm is immediately dangerous (US NIOSH). Keep CO2 cylinders
/// out of closed rooms, and used absorbent, which is caustic, off skin and eyes.
///
/// ```
/// use halimeda::DryMoleFractionCo2;
/// use halimeda::gas::Air;
/// let bedroom = Air::new(DryMoleFractionCo2::from_ppm(1400.0)?);
/// assert_eq!(bedroom.oxygen_mole_fraction(), 0.20946);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    carbon_dioxide: DryMoleFractionCo2,
    oxygen_mole_fraction: f64,
}

impl Air {
    /// Air with this much CO2 and the oxygen of clean air, 0.20946 mol/mol; with
    /// less where the CO2 leaves no room for that, above 79 %.
    #[must_use]
    pub const fn new(carbon_dioxide: DryMoleFractionCo2) -> Self {
        let clean = <species::Oxygen as AirGas>::DRY_AIR_MOLE_FRACTION;
        let room = 1.0 - carbon_dioxide.ppm() * 1e-6;
        Self {
            carbon_dioxide,
            oxygen_mole_fraction: if clean < room { clean } else { room },
        }
    }

    /// This air with another dry mole fraction of oxygen, as behind an oxygen
    /// concentrator or over a long-closed water.
    ///
    /// # Errors
    /// The fraction is not finite, negative, or leaves no room for the CO2.
    pub const fn with_oxygen_mole_fraction(mut self, mol_per_mol: f64) -> Result<Self> {
        let room = 1.0 - self.carbon_dioxide.ppm() * 1e-6;
        match within("oxygen mole fraction", mol_per_mol, 0.0, room, "mol/mol") {
            Ok(fraction) => {
                self.oxygen_mole_fraction = fraction;
                Ok(self)
            }
            Err(e) => Err(e),
        }
    }

    /// Dry mole fraction of CO2.
    #[must_use]
    pub const fn carbon_dioxide(&self) -> DryMoleFractionCo2 {
        self.carbon_dioxide
    }

    /// Dry mole fraction of oxygen, mol/mol.
    #[must_use]
    pub const fn oxygen_mole_fraction(&self) -> f64 {
        self.oxygen_mole_fraction
    }

    /// Dry mole fraction of nitrogen, mol/mol: its share, as in clean air, of
    /// what is neither oxygen nor CO2.
    #[must_use]
    pub const fn nitrogen_mole_fraction(&self) -> f64 {
        self.inert() * <species::Nitrogen as AirGas>::DRY_AIR_MOLE_FRACTION / CLEAN_INERT
    }

    /// Dry mole fraction of argon, mol/mol; as for nitrogen.
    #[must_use]
    pub const fn argon_mole_fraction(&self) -> f64 {
        self.inert() * <species::Argon as AirGas>::DRY_AIR_MOLE_FRACTION / CLEAN_INERT
    }

    const fn inert(&self) -> f64 {
        1.0 - self.oxygen_mole_fraction - self.carbon_dioxide.ppm() * 1e-6
    }
}

/// What is neither oxygen nor CO2 in the clean air of 1951, when the fractions
/// were set down with 330 ppm of CO2.
const CLEAN_INERT: f64 = 1.0 - <species::Oxygen as AirGas>::DRY_AIR_MOLE_FRACTION - 330e-6;
