use crate::parameter::parameters;

parameters! {
    /// Metals bound in turf, per gram of dry mass.
    TissueMetalContents {
        /// Iron.
        iron_ug_per_g_dry = 1000.0 in 300.0..3000.0, "µg/g dry", "about 1 mg/g in published algal turf analyses";
        /// Aluminium.
        aluminium_ug_per_g_dry = 250.0 in 80.0..800.0, "µg/g dry", "about 0.25 mg/g in published algal turf analyses";
        /// Copper.
        copper_ug_per_g_dry = 15.0 in 5.0..50.0, "µg/g dry", "5 to 50 µg/g, from memory";
    }
}

/// Metals that leave with a harvest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TissueMetals {
    /// Iron, mg.
    pub iron_mg: f64,
    /// Aluminium, mg.
    pub aluminium_mg: f64,
    /// Copper, mg.
    pub copper_mg: f64,
}

impl TissueMetalContents {
    /// Metals in a mass of turf.
    #[must_use]
    pub fn in_dry_grams(&self, dry_grams: f64) -> TissueMetals {
        let mg = |ug_per_g: f64| ug_per_g * dry_grams * 1e-3;
        TissueMetals {
            iron_mg: mg(self.iron_ug_per_g_dry),
            aluminium_mg: mg(self.aluminium_ug_per_g_dry),
            copper_mg: mg(self.copper_ug_per_g_dry),
        }
    }
}
