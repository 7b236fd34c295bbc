use super::{MOL_PER_MMOL, MOL_PER_UMOL, michaelis_menten};
use crate::parameter::parameters;

parameters! {
    /// Nitrification on the surfaces of rock, sand and filter.
    Nitrification {
        /// Nitrogen oxidised per area of surface and day at 25 °C, in plenty of
        /// ammonia and oxygen.
        capacity_mmol_per_m2_per_day = 1.5 in 0.5..3.0, "mmol N m⁻² d⁻¹",
            "reef rock and carbonate sand, order of magnitude from memory; reef platforms release \
             2.3 mmol NO3 m⁻² d⁻¹, Gruber et al. 2019, doi 10.5194/bg-16-1921-2019";
        /// Total ammonia content at which nitrification runs at half its capacity.
        half_saturation_ammonia_umol_per_kg = 2.0 in 0.5..10.0, "µmol/kg",
            "marine nitrifiers in films, order of magnitude from memory";
        /// Oxygen content at which nitrification runs at half its capacity.
        half_saturation_oxygen_umol_per_kg = 15.0 in 5.0..60.0, "µmol/kg",
            "order of magnitude from memory";
        /// Growth of the rate for 10 °C.
        q10 = 2.0 in 1.5..3.0 min 0.1, "1", "common value, from memory";
    }
}

parameters! {
    /// Denitrification inside rock and sand.
    Denitrification {
        /// Nitrate reduced per area of surface and day at 25 °C, in plenty of
        /// nitrate and organic carbon.
        capacity_mmol_per_m2_per_day = 0.4 in 0.1..1.0, "mmol N m⁻² d⁻¹",
            "reef rock and carbonate sand, order of magnitude from memory";
        /// Nitrate content at which denitrification runs at half its capacity.
        half_saturation_nitrate_umol_per_kg = 3.0 in 1.0..10.0, "µmol/kg",
            "chosen so that the rate hardly changes above the 18 µM found in carbonate sand by \
             Cook et al. 2017, doi 10.5194/bg-14-4061-2017";
        /// Particulate organic carbon per area at which denitrification runs at
        /// half its capacity.
        half_saturation_organic_carbon_mmol_per_m2 = 2.0 in 0.5..10.0, "mmol C m⁻²",
            "chosen to let about a day's need of carbon limit; no source";
        /// Growth of the rate for 10 °C.
        q10 = 2.0 in 1.5..3.0 min 0.1, "1", "common value, from memory";
    }
}

/// Nitrification, mol N/d: the extent of
/// [`Process::Nitrification`](crate::nutrient::Process::Nitrification).
///
/// r = V A f(t) NH₄/(K + NH₄) O₂/(K + O₂).
#[inline]
#[must_use]
pub fn nitrification(
    ammonia_mol_per_kg: f64,
    oxygen_mol_per_kg: f64,
    surface_m2: f64,
    temperature_factor: f64,
    parameters: &Nitrification,
) -> f64 {
    let half_ammonia = parameters.half_saturation_ammonia_umol_per_kg * MOL_PER_UMOL;
    let half_oxygen = parameters.half_saturation_oxygen_umol_per_kg * MOL_PER_UMOL;
    parameters.capacity_mmol_per_m2_per_day
        * MOL_PER_MMOL
        * surface_m2
        * temperature_factor
        * michaelis_menten(ammonia_mol_per_kg, half_ammonia)
        * michaelis_menten(oxygen_mol_per_kg, half_oxygen)
}

/// Denitrification, mol N/d: the extent of
/// [`Process::Denitrification`](crate::nutrient::Process::Denitrification), which
/// takes its organic carbon, 1.25 over the quotient of it, from the particulate
/// matter.
///
/// r = V A f(t) NO₃/(K + NO₃) C/(K A + C), with the particulate organic carbon C
/// of the system in mol. Anoxic zones inside the rock are taken as always there,
/// whatever the oxygen of the water.
#[inline]
#[must_use]
pub fn denitrification(
    nitrate_mol_per_kg: f64,
    particulate_carbon_mol: f64,
    surface_m2: f64,
    temperature_factor: f64,
    parameters: &Denitrification,
) -> f64 {
    let half_nitrate = parameters.half_saturation_nitrate_umol_per_kg * MOL_PER_UMOL;
    let half_carbon =
        parameters.half_saturation_organic_carbon_mmol_per_m2 * MOL_PER_MMOL * surface_m2;
    parameters.capacity_mmol_per_m2_per_day
        * MOL_PER_MMOL
        * surface_m2
        * temperature_factor
        * michaelis_menten(nitrate_mol_per_kg, half_nitrate)
        * michaelis_menten(particulate_carbon_mol, half_carbon)
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLENTY: f64 = 1.0;

    #[test]
    fn nitrification_reaches_its_capacity_and_half_of_it() {
        let p = Nitrification::default();
        let full = nitrification(PLENTY, PLENTY, 3.0, 1.0, &p);
        assert!((full / 4.5e-3 - 1.0).abs() < 1e-4);
        let half = nitrification(2e-6, PLENTY, 3.0, 1.0, &p);
        assert!((half / 2.25e-3 - 1.0).abs() < 1e-4);
        let half = nitrification(PLENTY, 15e-6, 3.0, 1.0, &p);
        assert!((half / 2.25e-3 - 1.0).abs() < 1e-4);
        assert_eq!(nitrification(PLENTY, PLENTY, 3.0, 2.0, &p), 2.0 * full);
    }

    #[test]
    fn nothing_to_work_on_gives_nothing() {
        let n = Nitrification::default();
        assert_eq!(nitrification(0.0, 2e-4, 3.0, 1.0, &n), 0.0);
        assert_eq!(nitrification(-1e-12, 2e-4, 3.0, 1.0, &n), 0.0);
        assert_eq!(nitrification(1e-6, 0.0, 3.0, 1.0, &n), 0.0);
        assert_eq!(nitrification(1e-6, 2e-4, 0.0, 1.0, &n), 0.0);
        let d = Denitrification::default();
        assert_eq!(denitrification(0.0, 0.1, 3.0, 1.0, &d), 0.0);
        assert_eq!(denitrification(1e-4, 0.0, 3.0, 1.0, &d), 0.0);
        assert_eq!(denitrification(1e-4, -1e-9, 3.0, 1.0, &d), 0.0);
        assert_eq!(denitrification(1e-4, 0.1, 0.0, 1.0, &d), 0.0);
        assert_eq!(denitrification(1e-4, 0.0, 0.0, 1.0, &d), 0.0);
    }

    #[test]
    fn rates_rise_with_every_supply() {
        let n = Nitrification::default();
        let d = Denitrification::default();
        let mut last = (0.0, 0.0, 0.0, 0.0);
        for i in 1..50 {
            let x = f64::from(i) * 1e-6;
            let now = (
                nitrification(x, 2e-4, 3.0, 1.0, &n),
                nitrification(2e-6, x, 3.0, 1.0, &n),
                denitrification(x, 0.1, 3.0, 1.0, &d),
                denitrification(1e-4, 1e3 * x, 3.0, 1.0, &d),
            );
            assert!(now.0 > last.0 && now.1 > last.1 && now.2 > last.2 && now.3 > last.3);
            last = now;
        }
    }
}
