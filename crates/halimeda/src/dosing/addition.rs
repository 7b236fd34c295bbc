use core::ops::{Add, Mul, Sub};

/// What comes into the water with a dose, or leaves it: moles of each
/// constituent, equivalents of alkalinity, grams of salt. Whether of a whole
/// system, per gram of a supplement or per day is said where it is handed out.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(default, deny_unknown_fields))]
pub struct Addition {
    /// Total alkalinity, equivalents.
    pub alkalinity_eq: f64,
    /// Dissolved inorganic carbon, mol.
    pub inorganic_carbon_mol: f64,
    /// Sodium, mol.
    pub sodium_mol: f64,
    /// Potassium, mol.
    pub potassium_mol: f64,
    /// Calcium, mol.
    pub calcium_mol: f64,
    /// Magnesium, mol.
    pub magnesium_mol: f64,
    /// Strontium, mol.
    pub strontium_mol: f64,
    /// Chloride, mol.
    pub chloride_mol: f64,
    /// Sulfate, mol.
    pub sulfate_mol: f64,
    /// Nitrate, mol.
    pub nitrate_mol: f64,
    /// Phosphate, mol.
    pub phosphate_mol: f64,
    /// Mass of anhydrous salt, g: what it adds to absolute salinity.
    pub salt_g: f64,
}

impl Addition {
    /// Nothing.
    pub const NONE: Self = Self {
        alkalinity_eq: 0.0,
        inorganic_carbon_mol: 0.0,
        sodium_mol: 0.0,
        potassium_mol: 0.0,
        calcium_mol: 0.0,
        magnesium_mol: 0.0,
        strontium_mol: 0.0,
        chloride_mol: 0.0,
        sulfate_mol: 0.0,
        nitrate_mol: 0.0,
        phosphate_mol: 0.0,
        salt_g: 0.0,
    };

    /// Charge of the conservative ions, equivalents: Na + K + 2 (Ca + Mg + Sr)
    /// − Cl − 2 SO4 − NO3 − PO4.
    ///
    /// The explicit conservative expression of total alkalinity (Wolf-Gladrow
    /// et al. 2007, Mar. Chem. 106, 287-300, doi 10.1016/j.marchem.2007.01.006).
    /// For an electroneutral addition it equals
    /// [`alkalinity_eq`](Self::alkalinity_eq), which is kept beside it from the
    /// definition of Dickson (1981), so that the one checks the other.
    #[must_use]
    pub const fn conservative_charge_eq(&self) -> f64 {
        self.sodium_mol
            + self.potassium_mol
            + 2.0 * (self.calcium_mol + self.magnesium_mol + self.strontium_mol)
            - self.chloride_mol
            - 2.0 * self.sulfate_mol
            - self.nitrate_mol
            - self.phosphate_mol
    }

    fn combine(self, other: Self, f: impl Fn(f64, f64) -> f64) -> Self {
        Self {
            alkalinity_eq: f(self.alkalinity_eq, other.alkalinity_eq),
            inorganic_carbon_mol: f(self.inorganic_carbon_mol, other.inorganic_carbon_mol),
            sodium_mol: f(self.sodium_mol, other.sodium_mol),
            potassium_mol: f(self.potassium_mol, other.potassium_mol),
            calcium_mol: f(self.calcium_mol, other.calcium_mol),
            magnesium_mol: f(self.magnesium_mol, other.magnesium_mol),
            strontium_mol: f(self.strontium_mol, other.strontium_mol),
            chloride_mol: f(self.chloride_mol, other.chloride_mol),
            sulfate_mol: f(self.sulfate_mol, other.sulfate_mol),
            nitrate_mol: f(self.nitrate_mol, other.nitrate_mol),
            phosphate_mol: f(self.phosphate_mol, other.phosphate_mol),
            salt_g: f(self.salt_g, other.salt_g),
        }
    }
}

impl Add for Addition {
    type Output = Self;
    fn add(self, rhs: Self) -> Self {
        self.combine(rhs, |a, b| a + b)
    }
}

impl Sub for Addition {
    type Output = Self;
    fn sub(self, rhs: Self) -> Self {
        self.combine(rhs, |a, b| a - b)
    }
}

impl Mul<f64> for Addition {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        self.combine(self, |a, _| a * factor)
    }
}
