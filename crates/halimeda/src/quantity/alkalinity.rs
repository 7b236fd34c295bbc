use super::{Density, scalar_quantity};
use crate::Result;

scalar_quantity! {
    /// Total alkalinity: equivalents of bases over the zero level of proton
    /// (Dickson 1981, Deep-Sea Res. 28A, 609-623, doi 10.1016/0198-0149(81)90121-7),
    /// per kilogram of seawater. May be negative in strongly acidified water.
    ///
    /// ```
    /// use halimeda::{Alkalinity, Density};
    /// let density = Density::from_kg_per_m3(1023.34)?;
    /// let reef = Alkalinity::from_dkh(8.0, density)?;
    /// assert!((reef.umol_per_kg() - 2788.2).abs() < 0.1);
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    Alkalinity, "total alkalinity", "µmol/kg", umol_per_kg, from_umol_per_kg, -1e5, 1e6
}

/// Milliequivalents per litre in one German degree of (carbonate) hardness.
///
/// 1 °dH is 10 mg/L CaO (DIN 38409-6), two equivalents per mole of CaO at
/// 56.077 g/mol (IUPAC 2021). The trade's "2.8 dKH = 1 meq/L" rounds this by 0.14 %.
const MEQ_PER_L_PER_DKH: f64 = 2.0 * 10.0 / 56.077;

/// Milligrams of CaCO3 in one milliequivalent: half of 100.086 g/mol (IUPAC 2021).
const MG_CACO3_PER_MEQ: f64 = 100.086 / 2.0;

impl Alkalinity {
    /// From mol of equivalents per kg, as in the oceanographic literature.
    ///
    /// # Errors
    /// As [`Alkalinity::from_umol_per_kg`], with the value converted to µmol/kg.
    pub const fn from_mol_per_kg(mol_per_kg: f64) -> Result<Self> {
        Self::from_umol_per_kg(mol_per_kg * 1e6)
    }

    /// From milliequivalents per litre.
    ///
    /// # Errors
    /// As [`Alkalinity::from_umol_per_kg`], with the value converted to µmol/kg.
    pub const fn from_meq_per_l(meq_per_l: f64, density: Density) -> Result<Self> {
        Self::from_umol_per_kg(meq_per_l * 1e3 / density.kg_per_l())
    }

    /// From German degrees of carbonate hardness (dKH).
    ///
    /// # Errors
    /// As [`Alkalinity::from_umol_per_kg`], with the value converted to µmol/kg.
    pub const fn from_dkh(dkh: f64, density: Density) -> Result<Self> {
        Self::from_meq_per_l(dkh * MEQ_PER_L_PER_DKH, density)
    }

    /// From mg/L as CaCO3 ("ppm" of hobby kits).
    ///
    /// # Errors
    /// As [`Alkalinity::from_umol_per_kg`], with the value converted to µmol/kg.
    pub const fn from_ppm_caco3(ppm_caco3: f64, density: Density) -> Result<Self> {
        Self::from_meq_per_l(ppm_caco3 / MG_CACO3_PER_MEQ, density)
    }

    /// In mol of equivalents per kg.
    #[must_use]
    pub const fn mol_per_kg(self) -> f64 {
        self.umol_per_kg * 1e-6
    }

    /// In milliequivalents per litre.
    #[must_use]
    pub const fn meq_per_l(self, density: Density) -> f64 {
        self.umol_per_kg * density.kg_per_l() * 1e-3
    }

    /// In German degrees of carbonate hardness (dKH).
    #[must_use]
    pub const fn dkh(self, density: Density) -> f64 {
        self.meq_per_l(density) / MEQ_PER_L_PER_DKH
    }

    /// In mg/L as CaCO3 ("ppm" of hobby kits).
    #[must_use]
    pub const fn ppm_caco3(self, density: Density) -> f64 {
        self.meq_per_l(density) * MG_CACO3_PER_MEQ
    }
}
