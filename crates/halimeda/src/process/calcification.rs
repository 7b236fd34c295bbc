use super::MOL_PER_MMOL;
use crate::parameter::parameters;
use crate::real::powf;

/// Saturation state of aragonite the rates are stated at, near that of a tropical
/// surface ocean.
const REFERENCE_SATURATION: f64 = 4.0;

parameters! {
    /// Calcification of stony corals.
    CoralCalcification {
        /// Carbonate laid down per area of living tissue and day in the light, at an
        /// aragonite saturation state of 4.
        light_rate_mmol_per_m2_per_d = 150.0 in 30.0..400.0, "mmol m⁻² d⁻¹",
            "net 1.9 to 9.9 g CaCO3 m⁻² d⁻¹ of corals and calcifying algae, McLaughlin et al. \
             2023, doi 10.5194/bg-20-1011-2023; reef fronts 4 kg m⁻² a year, Smith & Kinsey 1976, \
             doi 10.1126/science.194.4268.937";
        /// Rate in the light over rate in the dark.
        light_to_dark = 3.0 in 2.0..4.0, "1",
            "Gattuso et al. 1999, doi 10.1093/icb/39.1.160, from memory; 2.6 in Stylophora \
             pistillata, Moya et al. 2006, J. Exp. Biol. 209, 3413";
        /// Order n of the rate in the supersaturation.
        order = 1.0 in 0.8..1.7, "1",
            "linear in corals, Langdon & Atkinson 2005, doi 10.1029/2004JC002576, from memory";
        /// Magnesium among the cations of the skeleton.
        magnesium_fraction = 0.004 in 0.003..0.006 max 0.5, "mol/mol",
            "coral aragonite, from memory";
        /// Strontium among the cations of the skeleton.
        strontium_fraction = 0.009 in 0.0085..0.0095 max 0.5, "mol/mol",
            "Sr/Ca of corals near 25 °C, Swart et al. 2002, doi 10.1029/2002GC000306";
    }
}

parameters! {
    /// Calcification of crustose coralline algae.
    CorallineCalcification {
        /// Carbonate laid down per area of crust and day in the light, at an aragonite
        /// saturation state of 4.
        light_rate_mmol_per_m2_per_d = 80.0 in 20.0..300.0, "mmol m⁻² d⁻¹",
            "order of magnitude from memory";
        /// Rate in the light over rate in the dark.
        light_to_dark = 4.0 in 2.0..8.0, "1", "order of magnitude from memory";
        /// Order n of the rate in the supersaturation.
        order = 1.0 in 0.8..1.7, "1", "order of magnitude from memory";
        /// Magnesium among the cations of the skeleton.
        magnesium_fraction = 0.15 in 0.12..0.18 max 0.5, "mol/mol",
            "high-magnesium calcite of tropical corallines, from memory";
        /// Strontium among the cations of the skeleton.
        strontium_fraction = 0.003 in 0.002..0.004 max 0.5, "mol/mol",
            "calcite of corallines, from memory";
    }
}

/// Carbonate laid down and the cations it holds, mol/d.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct CalcificationRates {
    /// Carbonate, the extent of
    /// [`Process::Calcification`](crate::nutrient::Process::Calcification).
    pub carbonate: f64,
    /// Calcium.
    pub calcium: f64,
    /// Magnesium.
    pub magnesium: f64,
    /// Strontium.
    pub strontium: f64,
}

/// Calcification of corals, mol/d.
///
/// G = G_light A ((Ω - 1)/3)ⁿ (d + (1 - d) l), with the aragonite saturation state
/// Ω, the lit fraction l and d one over the ratio of light to dark (Gattuso et al.
/// 1999, Am. Zool. 39, 160-183, doi 10.1093/icb/39.1.160). Zero at and below
/// saturation: the dissolution of bare skeleton and rock is not counted.
/// Temperature is not either; the rates are those of 24 to 28 °C.
#[inline]
#[must_use]
pub fn coral_calcification(
    tissue_m2: f64,
    aragonite_saturation: f64,
    lit_fraction: f64,
    parameters: &CoralCalcification,
) -> CalcificationRates {
    let p = parameters;
    let carbonate = carbonate_rate(
        tissue_m2 * p.light_rate_mmol_per_m2_per_d * MOL_PER_MMOL,
        p.light_to_dark,
        p.order,
        aragonite_saturation,
        lit_fraction,
    );
    with_cations(carbonate, p.magnesium_fraction, p.strontium_fraction)
}

/// Calcification of coralline algae, mol/d: as [`coral_calcification`], with the
/// magnesium of calcite. The saturation state is that of aragonite all the same;
/// calcite of that much magnesium is about as soluble (Morse, Andersson & Mackenzie
/// 2006, Geochim. Cosmochim. Acta 70, 5814-5830, from memory).
#[inline]
#[must_use]
pub fn coralline_calcification(
    crust_m2: f64,
    aragonite_saturation: f64,
    lit_fraction: f64,
    parameters: &CorallineCalcification,
) -> CalcificationRates {
    let p = parameters;
    let carbonate = carbonate_rate(
        crust_m2 * p.light_rate_mmol_per_m2_per_d * MOL_PER_MMOL,
        p.light_to_dark,
        p.order,
        aragonite_saturation,
        lit_fraction,
    );
    with_cations(carbonate, p.magnesium_fraction, p.strontium_fraction)
}

#[inline]
fn carbonate_rate(light_rate: f64, light_to_dark: f64, order: f64, omega: f64, lit: f64) -> f64 {
    let supersaturation = (omega - 1.0) / (REFERENCE_SATURATION - 1.0);
    if supersaturation <= 0.0 {
        return 0.0;
    }
    // The common order costs no power.
    #[allow(clippy::float_cmp)]
    let drive = if order == 1.0 {
        supersaturation
    } else {
        powf(supersaturation, order)
    };
    let dark = 1.0 / light_to_dark;
    light_rate * drive * (dark + (1.0 - dark) * lit)
}

#[inline]
fn with_cations(
    carbonate: f64,
    magnesium_fraction: f64,
    strontium_fraction: f64,
) -> CalcificationRates {
    let magnesium = carbonate * magnesium_fraction;
    let strontium = carbonate * strontium_fraction;
    CalcificationRates {
        carbonate,
        calcium: carbonate - magnesium - strontium,
        magnesium,
        strontium,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stated_rate_at_the_reference_and_a_third_of_it_in_the_dark() {
        let p = CoralCalcification::default();
        let light = coral_calcification(0.5, 4.0, 1.0, &p).carbonate;
        let dark = coral_calcification(0.5, 4.0, 0.0, &p).carbonate;
        assert!((light - 0.075).abs() < 1e-15);
        assert!((light / dark - 3.0).abs() < 1e-14);
        let dusk = coral_calcification(0.5, 4.0, 0.5, &p).carbonate;
        assert!((dusk - 0.5 * (light + dark)).abs() < 1e-15);
    }

    #[test]
    fn zero_at_and_below_saturation_and_rising_above() {
        for order in [0.8, 1.0, 1.7] {
            let p = CoralCalcification {
                order,
                ..CoralCalcification::default()
            };
            let rate = |omega| coral_calcification(0.5, omega, 1.0, &p).carbonate;
            assert_eq!(rate(0.2), 0.0);
            assert_eq!(rate(1.0), 0.0);
            let mut last = 0.0;
            for i in 1..60 {
                let now = rate(1.0 + 0.1 * f64::from(i));
                assert!(now > last);
                last = now;
            }
            assert!((rate(4.0) - 0.075).abs() < 1e-15);
        }
    }

    #[test]
    fn an_order_of_one_meets_its_neighbours() {
        let rate = |order| {
            let p = CoralCalcification {
                order,
                ..CoralCalcification::default()
            };
            coral_calcification(0.5, 2.7, 1.0, &p).carbonate
        };
        assert!((rate(1.0) / rate(1.0 + 1e-12) - 1.0).abs() < 1e-11);
    }

    #[test]
    fn cations_sum_to_the_carbonate() {
        let coral = coral_calcification(0.5, 3.5, 1.0, &CoralCalcification::default());
        let crust = coralline_calcification(0.5, 3.5, 1.0, &CorallineCalcification::default());
        for r in [coral, crust] {
            let cations = r.calcium + r.magnesium + r.strontium;
            assert!((cations / r.carbonate - 1.0).abs() < 1e-15);
        }
        assert!((crust.magnesium / crust.carbonate - 0.15).abs() < 1e-15);
        assert!((coral.strontium / coral.carbonate - 0.009).abs() < 1e-15);
    }
}
