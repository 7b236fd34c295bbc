use super::pressure::{MMHG_PER_ATM, PASCAL_PER_ATM};
use super::{Content, Density, scalar_quantity, species};
use crate::Result;

scalar_quantity! {
    /// Pressure of one dissolved gas, or of all of them together: the pressure
    /// in a gas bubble that the water would neither feed nor drain.
    ///
    /// ```
    /// use halimeda::GasPressure;
    /// assert!((GasPressure::from_mmhg(157.0)?.hpa() - 209.3).abs() < 0.1);
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    GasPressure, "gas pressure", "atm", atm, from_atm, 0.0, 10.0
}

scalar_quantity! {
    /// Total gas pressure in excess of the air pressure, ΔP; negative in
    /// undersaturated water.
    DeltaP, "delta P", "mmHg", mmhg, from_mmhg, -1e5, 7600.0
}

scalar_quantity! {
    /// Content as a percentage of what the water holds at equilibrium.
    PercentSaturation, "percent saturation", "%", percent, from_percent, 0.0, 1000.0
}

scalar_quantity! {
    /// Dissolved oxygen as millilitres of gas, at 0 °C and 1 atm, per litre of
    /// water.
    ///
    /// Neither mg/L nor µmol/kg; the three meet through a [`Density`]:
    ///
    /// ```
    /// use halimeda::{Concentration, Content, Density, OxygenVolume, form, species};
    /// let density = Density::from_kg_per_m3(1023.34)?;
    /// let reading = OxygenVolume::from_ml_per_l(4.70)?;
    /// let content: Content<species::Oxygen> = reading.to_content(density)?;
    /// let mass: Concentration<form::OxygenAsO2> = content.to_concentration(density);
    /// assert!((mass.mg_per_l() - 6.716).abs() < 0.001);
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    ///
    /// ```compile_fail,E0308
    /// use halimeda::{Concentration, OxygenVolume, form};
    /// let oxygen: Concentration<form::OxygenAsO2> = OxygenVolume::from_ml_per_l(4.7).unwrap();
    /// ```
    OxygenVolume, "dissolved oxygen (mL/L)", "mL/L", ml_per_l, from_ml_per_l, 0.0, 1e4
}

/// Litres of one mole of O2 at 0 °C and 1 atm, a real gas (Benson & Krause
/// 1984; Garcia & Gordon 1992, p. 1308; 44.6596 mol/m³ in the recommendations
/// of SCOR Working Group 142).
const OXYGEN_LITRES_PER_MOL: f64 = 22.3916;

impl GasPressure {
    /// From millimetres of mercury (torr).
    ///
    /// # Errors
    /// As [`GasPressure::from_atm`], with the value converted to atm.
    pub const fn from_mmhg(mmhg: f64) -> Result<Self> {
        Self::from_atm(mmhg / MMHG_PER_ATM)
    }

    /// In millimetres of mercury (torr).
    #[must_use]
    pub const fn mmhg(self) -> f64 {
        self.atm * MMHG_PER_ATM
    }

    /// In hectopascals (millibar).
    #[must_use]
    pub const fn hpa(self) -> f64 {
        self.atm * PASCAL_PER_ATM / 100.0
    }

    /// This pressure less another, which is below 120 atm.
    pub(crate) const fn excess_over(self, atm: f64) -> DeltaP {
        DeltaP {
            mmhg: (self.atm - atm) * MMHG_PER_ATM,
        }
    }
}

impl DeltaP {
    /// From atmospheres.
    ///
    /// # Errors
    /// As [`DeltaP::from_mmhg`], with the value converted to mmHg.
    pub const fn from_atm(atm: f64) -> Result<Self> {
        Self::from_mmhg(atm * MMHG_PER_ATM)
    }

    /// In atmospheres.
    #[must_use]
    pub const fn atm(self) -> f64 {
        self.mmhg / MMHG_PER_ATM
    }

    /// In hectopascals (millibar).
    #[must_use]
    pub const fn hpa(self) -> f64 {
        self.atm() * PASCAL_PER_ATM / 100.0
    }
}

impl OxygenVolume {
    /// Of an oxygen content.
    ///
    /// # Errors
    /// The result exceeds [`OxygenVolume::MAX`].
    pub const fn from_content(content: Content<species::Oxygen>, density: Density) -> Result<Self> {
        Self::from_ml_per_l(content.umol_per_l(density) * 1e-3 * OXYGEN_LITRES_PER_MOL)
    }

    /// As amount per kilogram of seawater.
    ///
    /// # Errors
    /// The result exceeds [`Content::MAX_MOL_PER_KG`].
    pub const fn to_content(self, density: Density) -> Result<Content<species::Oxygen>> {
        Content::from_mol_per_kg(self.ml_per_l * 1e-3 / OXYGEN_LITRES_PER_MOL / density.kg_per_l())
    }
}
