use super::OrganicMatter;
use crate::parameter::parameters;

parameters! {
    /// Foam fractionation: what rising bubbles carry into the cup.
    FoamFractionation {
        /// Share of the labile dissolved organic matter removed per day.
        dissolved_per_day = 0.3 in 0.05..1.0, "1/d", "common practice, no source";
        /// Share of the particulate organic matter removed per day.
        particulate_per_day = 0.2 in 0.05..0.5, "1/d", "common practice, no source";
        /// Share of the bacteria in the water removed per day.
        bacteria_per_day = 0.3 in 0.05..1.0, "1/d", "common practice, no source";
    }
}

/// What foam fractionation removes, mol/d.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct FoamRates {
    /// Dissolved organic matter.
    pub dissolved: OrganicMatter,
    /// Particulate organic matter.
    pub particulate: OrganicMatter,
    /// Carbon of bacteria.
    pub bacterial_carbon: f64,
}

/// Removal of organic matter by foam: first order in each pool.
///
/// `duty` is the fraction of the full effect, 0 switched off to 1. Surface-active
/// matter collects at the bubbles, inorganic nutrients stay in the water.
#[inline]
#[must_use]
pub fn foam_rates(
    dissolved: OrganicMatter,
    particulate: OrganicMatter,
    bacterial_carbon: f64,
    duty: f64,
    parameters: &FoamFractionation,
) -> FoamRates {
    FoamRates {
        dissolved: dissolved.scaled(parameters.dissolved_per_day * duty),
        particulate: particulate.scaled(parameters.particulate_per_day * duty),
        bacterial_carbon: bacterial_carbon * parameters.bacteria_per_day * duty,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const DISSOLVED: OrganicMatter = OrganicMatter {
        carbon: 0.01,
        nitrogen: 0.001,
        phosphorus: 0.0001,
    };

    #[test]
    fn removes_in_proportion_to_the_pools_and_the_duty() {
        let p = FoamFractionation::default();
        let full = foam_rates(DISSOLVED, DISSOLVED.scaled(3.0), 0.002, 1.0, &p);
        assert_eq!(full.dissolved, DISSOLVED.scaled(0.3));
        assert!((full.particulate.nitrogen - 0.2 * 0.003).abs() < 1e-18);
        assert!((full.bacterial_carbon - 6e-4).abs() < 1e-18);
        let half = foam_rates(DISSOLVED, DISSOLVED.scaled(3.0), 0.002, 0.5, &p);
        assert_eq!(half.dissolved, full.dissolved.scaled(0.5));
        let off = foam_rates(DISSOLVED, DISSOLVED, 0.002, 0.0, &p);
        assert_eq!(off, FoamRates::default());
    }
}
