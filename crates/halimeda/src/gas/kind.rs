use super::solubility::{AtOneAtm, Equilibrium};
use crate::quantity::{Species, species};

/// A gas this module knows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum GasKind {
    /// O2.
    Oxygen,
    /// N2.
    Nitrogen,
    /// Ar.
    Argon,
    /// CO2.
    CarbonDioxide,
}

/// A species that is exchanged with the air. Sealed.
pub trait Gas: Species + Equilibrium {
    /// The gas at run time.
    const KIND: GasKind;
}

/// A gas with a constant share in clean dry air. Sealed.
pub trait AirGas: Gas + AtOneAtm {
    /// Mole fraction in clean dry air (Glueckauf 1951, Compendium of
    /// Meteorology, 3-10).
    const DRY_AIR_MOLE_FRACTION: f64;
}

impl Gas for species::Oxygen {
    const KIND: GasKind = GasKind::Oxygen;
}

impl Gas for species::Nitrogen {
    const KIND: GasKind = GasKind::Nitrogen;
}

impl Gas for species::Argon {
    const KIND: GasKind = GasKind::Argon;
}

impl Gas for species::CarbonDioxide {
    const KIND: GasKind = GasKind::CarbonDioxide;
}

impl AirGas for species::Oxygen {
    const DRY_AIR_MOLE_FRACTION: f64 = 0.20946;
}

impl AirGas for species::Nitrogen {
    const DRY_AIR_MOLE_FRACTION: f64 = 0.78084;
}

impl AirGas for species::Argon {
    const DRY_AIR_MOLE_FRACTION: f64 = 0.00934;
}
