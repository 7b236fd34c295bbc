use super::{MOL_PER_UMOL, michaelis_menten};
use crate::parameter::parameters;

/// Carbon, nitrogen and phosphorus in organic matter: an amount in mol, or a rate
/// of change in mol/d.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct OrganicMatter {
    /// Carbon.
    pub carbon: f64,
    /// Nitrogen.
    pub nitrogen: f64,
    /// Phosphorus.
    pub phosphorus: f64,
}

impl OrganicMatter {
    /// This matter times a number.
    #[inline]
    #[must_use]
    pub fn scaled(self, factor: f64) -> Self {
        Self {
            carbon: self.carbon * factor,
            nitrogen: self.nitrogen * factor,
            phosphorus: self.phosphorus * factor,
        }
    }
}

parameters! {
    /// Mineralisation of detritus and of labile dissolved organic matter.
    Mineralisation {
        /// Share of the particulate organic matter mineralised per day at 25 °C.
        particulate_per_day = 0.1 in 0.05..0.2, "1/d", "order of magnitude from memory";
        /// Share of the labile dissolved organic matter mineralised per day at 25 °C.
        dissolved_per_day = 0.2 in 0.05..0.5, "1/d", "order of magnitude from memory";
        /// Oxygen content at which oxidation runs at half its rate.
        half_saturation_oxygen_umol_per_kg = 10.0 in 3.0..30.0, "µmol/kg",
            "order of magnitude from memory";
        /// Growth of the rate for 10 °C.
        q10 = 2.0 in 1.5..3.0 min 0.1, "1", "common value for respiration, from memory";
    }
}

/// Mineralisation of one pool of organic matter, mol/d of each element: first
/// order in the pool, slowed where oxygen runs out.
///
/// r = k f(t) O₂/(K + O₂) m, with the daily share k of the pool.
#[inline]
#[must_use]
pub fn mineralisation_rates(
    matter: OrganicMatter,
    share_per_day: f64,
    oxygen_mol_per_kg: f64,
    temperature_factor: f64,
    parameters: &Mineralisation,
) -> OrganicMatter {
    let half = parameters.half_saturation_oxygen_umol_per_kg * MOL_PER_UMOL;
    matter.scaled(share_per_day * temperature_factor * michaelis_menten(oxygen_mol_per_kg, half))
}

#[cfg(test)]
mod tests {
    use super::*;

    const MATTER: OrganicMatter = OrganicMatter {
        carbon: 0.1,
        nitrogen: 0.015,
        phosphorus: 0.001,
    };

    #[test]
    fn first_order_in_the_pool_with_its_own_ratios() {
        let p = Mineralisation::default();
        let rates = mineralisation_rates(MATTER, p.particulate_per_day, 2e-4, 1.0, &p);
        let twice = mineralisation_rates(MATTER.scaled(2.0), p.particulate_per_day, 2e-4, 1.0, &p);
        assert_eq!(twice, rates.scaled(2.0));
        assert!((rates.carbon / rates.nitrogen - 0.1 / 0.015).abs() < 1e-12);
        // Oxygen of air-saturated water hardly limits.
        assert!((rates.carbon / (0.1 * 0.1) - 200.0 / 210.0).abs() < 1e-12);
    }

    #[test]
    fn stops_without_oxygen() {
        let p = Mineralisation::default();
        let rates = mineralisation_rates(MATTER, p.dissolved_per_day, 0.0, 1.0, &p);
        assert_eq!(rates, OrganicMatter::default());
    }

    // A pool below zero in a trial step must be pulled back, element by element,
    // for the books to close: first order does that by itself.
    #[test]
    fn draws_a_pool_below_zero_back() {
        let p = Mineralisation::default();
        let below = MATTER.scaled(-1e-9);
        assert!(mineralisation_rates(below, 0.1, 2e-4, 1.0, &p).carbon < 0.0);
    }
}
