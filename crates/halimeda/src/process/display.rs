use super::{MOL_PER_MMOL, MOL_PER_UMOL, michaelis_menten};
use crate::parameter::parameters;

parameters! {
    /// Photosynthesis and respiration of what lives in the display: corals and the
    /// algae on rock and glass.
    Display {
        /// Carbon fixed per area of living surface and day of full light.
        saturated_photosynthesis_mmol_c_per_m2_per_day = 200.0 in 100.0..500.0, "mmol C m⁻² d⁻¹",
            "corals, gross, near 1 µmol O2 cm⁻² h⁻¹, from memory; coralline crusts up to 13 to 23 \
             mmol O2 m⁻² h⁻¹, Chisholm 2003, doi 10.4319/lo.2003.48.4.1376";
        /// Carbon respired per area of living surface and day at 25 °C, light and dark.
        respiration_mmol_c_per_m2_per_day = 100.0 in 50.0..200.0, "mmol C m⁻² d⁻¹",
            "balances 12 h of light, as reefs do, Gattuso et al. 1995, Mar. Ecol. Prog. Ser. 129, \
             307-312; coralline crusts 2.7 to 4.5 mmol O2 m⁻² h⁻¹, Chisholm 2003";
        /// Inorganic carbon content at which photosynthesis runs at half its rate.
        half_saturation_inorganic_carbon_umol_per_kg = 400.0 in 200.0..800.0, "µmol/kg",
            "order of magnitude from memory";
        /// Oxygen content at which respiration runs at half its rate.
        half_saturation_oxygen_umol_per_kg = 20.0 in 5.0..50.0, "µmol/kg",
            "order of magnitude from memory";
        /// Growth of the respiration for 10 °C.
        q10 = 2.0 in 1.5..3.0 min 0.1, "1", "common value for respiration, from memory";
    }
}

/// Carbon turned over in the display, mol C/d.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct DisplayRates {
    /// Fixed from dissolved inorganic carbon, gross.
    pub photosynthesis: f64,
    /// Respired to dissolved inorganic carbon.
    pub respiration: f64,
}

/// Gross photosynthesis of the display in its lit hours and respiration round the
/// clock, mol C/d.
///
/// Photosynthesis is light-saturated: the lit fraction is that of the surface
/// times that of the ramp. Respiration slows where oxygen runs out,
/// photosynthesis where inorganic carbon does.
#[inline]
#[must_use]
pub fn display_rates(
    living_m2: f64,
    lit_fraction: f64,
    inorganic_carbon_mol_per_kg: f64,
    oxygen_mol_per_kg: f64,
    temperature_factor: f64,
    parameters: &Display,
) -> DisplayRates {
    let p = parameters;
    let half_carbon = p.half_saturation_inorganic_carbon_umol_per_kg * MOL_PER_UMOL;
    let half_oxygen = p.half_saturation_oxygen_umol_per_kg * MOL_PER_UMOL;
    let area = living_m2 * MOL_PER_MMOL;
    DisplayRates {
        photosynthesis: area
            * p.saturated_photosynthesis_mmol_c_per_m2_per_day
            * lit_fraction
            * michaelis_menten(inorganic_carbon_mol_per_kg, half_carbon),
        respiration: area
            * p.respiration_mmol_c_per_m2_per_day
            * temperature_factor
            * michaelis_menten(oxygen_mol_per_kg, half_oxygen),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLENTY: f64 = 1e3;

    #[test]
    fn rates_in_plenty_are_the_parameters() {
        let r = display_rates(2.0, 1.0, PLENTY, PLENTY, 1.0, &Display::default());
        assert!((r.photosynthesis - 0.4).abs() < 1e-6);
        assert!((r.respiration - 0.2).abs() < 1e-6);
    }

    #[test]
    fn darkness_stops_photosynthesis_only() {
        let p = Display::default();
        let dark = display_rates(2.0, 0.0, 2e-3, 2e-4, 1.0, &p);
        let light = display_rates(2.0, 1.0, 2e-3, 2e-4, 1.0, &p);
        assert_eq!(dark.photosynthesis, 0.0);
        assert_eq!(dark.respiration, light.respiration);
        assert!(light.photosynthesis > 0.0);
    }

    #[test]
    fn stops_without_what_it_takes_up() {
        let p = Display::default();
        assert_eq!(
            display_rates(2.0, 1.0, 0.0, 2e-4, 1.0, &p).photosynthesis,
            0.0
        );
        assert_eq!(
            display_rates(2.0, 1.0, 2e-3, -1e-9, 1.0, &p).respiration,
            0.0
        );
    }
}
