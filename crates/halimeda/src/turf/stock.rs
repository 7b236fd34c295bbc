use super::TurfTraits;

/// What grows on a whole screen.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct TurfStock {
    /// Carbon of the biomass, mol.
    pub carbon_mol: f64,
    /// Nitrogen of the biomass, mol.
    pub nitrogen_mol: f64,
    /// Phosphorus of the biomass, mol.
    pub phosphorus_mol: f64,
    /// Share of the screen that carries turf, 0 to 1.
    pub cover: f64,
    /// Reserve of the holdfast layer, 0 (spent) to 1 (full).
    pub reserve: f64,
}

/// What a harvest takes off.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Harvest {
    /// Carbon, mol.
    pub carbon_mol: f64,
    /// Nitrogen, mol.
    pub nitrogen_mol: f64,
    /// Phosphorus, mol.
    pub phosphorus_mol: f64,
    /// Dry mass, g.
    pub dry_grams: f64,
    /// Mass after draining, g.
    pub drained_grams: f64,
}

impl TurfStock {
    /// A screen newly wetted and seeded on a share of its lit area, with tissue
    /// of middling nutrient content.
    #[must_use]
    pub fn seeded(
        traits: &TurfTraits,
        settled_g_dry_per_m2: f64,
        lit_area_m2: f64,
        cover: f64,
    ) -> Self {
        let dry_grams = settled_g_dry_per_m2 * lit_area_m2 * cover;
        let carbon_mol = dry_grams / traits.dry_grams_per_mol_carbon();
        let middle = |least: f64, most: f64| 0.5 * (least + most) * carbon_mol;
        Self {
            carbon_mol,
            nitrogen_mol: middle(
                traits.least_nitrogen_per_carbon,
                traits.most_nitrogen_per_carbon,
            ),
            phosphorus_mol: middle(
                traits.least_phosphorus_per_carbon,
                traits.most_phosphorus_per_carbon,
            ),
            cover,
            reserve: 1.0,
        }
    }

    /// Dry mass, g.
    #[must_use]
    pub fn dry_grams(&self, traits: &TurfTraits) -> f64 {
        self.carbon_mol * traits.dry_grams_per_mol_carbon()
    }

    /// Cuts the turf back to a share of its mass. Cover and holdfast stay.
    #[must_use]
    pub fn harvest(&mut self, traits: &TurfTraits, kept_share: f64) -> Harvest {
        let taken = 1.0 - kept_share.clamp(0.0, 1.0);
        let carbon_mol = self.carbon_mol * taken;
        let harvest = Harvest {
            carbon_mol,
            nitrogen_mol: self.nitrogen_mol * taken,
            phosphorus_mol: self.phosphorus_mol * taken,
            dry_grams: carbon_mol * traits.dry_grams_per_mol_carbon(),
            drained_grams: carbon_mol * traits.dry_grams_per_mol_carbon()
                / traits.dry_per_drained_mass,
        };
        self.carbon_mol -= harvest.carbon_mol;
        self.nitrogen_mol -= harvest.nitrogen_mol;
        self.phosphorus_mol -= harvest.phosphorus_mol;
        harvest
    }
}
