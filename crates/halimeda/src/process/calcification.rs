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
        light_rate_mmol_per_m2_per_day = 150.0 in 30.0..400.0, "mmol m⁻² d⁻¹",
            "net 1.9 to 9.9 g CaCO3 m⁻² d⁻¹ of corals and calcifying algae, McLaughlin et al. \
             2023, doi 10.5194/bg-20-1011-2023; reef fronts 4 kg m⁻² a year, Smith & Kinsey 1976, \
             doi 10.1126/science.194.4268.937";
        /// Rate in the light over rate in the dark.
        light_to_dark = 3.0 in 2.0..4.0 min 0.1, "1",
            "Gattuso et al. 1999, doi 10.1093/icb/39.1.160, from memory; 2.6 in Stylophora \
             pistillata, Moya et al. 2006, J. Exp. Biol. 209, 3413";
        /// Order n of the rate in the supersaturation.
        order = 1.0 in 0.8..1.7, "1",
            "linear in corals, Langdon & Atkinson 2005, doi 10.1029/2004JC002576, from memory";
        /// Magnesium among the cations of a skeleton laid down in seawater.
        magnesium_fraction = 0.004 in 0.003..0.006 max 0.5, "mol/mol",
            "coral aragonite, from memory";
        /// Strontium among the cations of a skeleton laid down in seawater.
        strontium_fraction = 0.009 in 0.0085..0.0095 max 0.5, "mol/mol",
            "Sr/Ca of corals near 25 °C, Swart et al. 2002, doi 10.1029/2002GC000306";
    }
}

parameters! {
    /// Calcification of crustose coralline algae.
    CorallineCalcification {
        /// Carbonate laid down per area of crust and day in the light, at an aragonite
        /// saturation state of 4.
        light_rate_mmol_per_m2_per_day = 80.0 in 20.0..300.0, "mmol m⁻² d⁻¹",
            "order of magnitude from memory";
        /// Rate in the light over rate in the dark.
        light_to_dark = 4.0 in 2.0..8.0 min 0.1, "1", "order of magnitude from memory";
        /// Order n of the rate in the supersaturation.
        order = 1.0 in 0.8..1.7, "1", "order of magnitude from memory";
        /// Magnesium among the cations of a crust laid down in seawater.
        magnesium_fraction = 0.15 in 0.12..0.18 max 0.5, "mol/mol",
            "high-magnesium calcite of tropical corallines, from memory";
        /// Strontium among the cations of a crust laid down in seawater.
        strontium_fraction = 0.003 in 0.002..0.004 max 0.5, "mol/mol",
            "calcite of corallines, from memory";
    }
}

/// Magnesium and strontium per calcium of a water, each over that of seawater.
///
/// A skeleton takes them up in constant proportion to the water: in corals both,
/// through the origin (doi 10.3389/feart.2021.657176, 2021), in coralline algae
/// magnesium (Stanley, Ries & Hardie 2002, Proc. Natl. Acad. Sci. 99, 15323-15326).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RelativeCations {
    /// Magnesium per calcium.
    pub magnesium: f64,
    /// Strontium per calcium.
    pub strontium: f64,
}

impl RelativeCations {
    /// Those of seawater.
    pub const SEAWATER: Self = Self {
        magnesium: 1.0,
        strontium: 1.0,
    };

    /// Those of a water of these contents, mol/kg; of seawater where there is no calcium,
    /// in which nothing calcifies.
    ///
    /// Seawater: Millero et al. (2008), table 4, doi 10.1016/j.dsr.2007.10.001.
    #[inline]
    #[must_use]
    pub fn of(calcium: f64, magnesium: f64, strontium: f64) -> Self {
        const MAGNESIUM_PER_CALCIUM: f64 = 0.0547421 / 0.0106568;
        const STRONTIUM_PER_CALCIUM: f64 = 0.0000940 / 0.0106568;
        if calcium <= 0.0 {
            return Self::SEAWATER;
        }
        let per_calcium = 1.0 / calcium;
        Self {
            magnesium: magnesium.max(0.0) * per_calcium / MAGNESIUM_PER_CALCIUM,
            strontium: strontium.max(0.0) * per_calcium / STRONTIUM_PER_CALCIUM,
        }
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
/// 1999, Am. Zool. 39, 160-183, doi 10.1093/icb/39.1.160). The skeleton's cations
/// follow those of the water. Zero at and below
/// saturation: the dissolution of bare skeleton and rock is not counted.
/// Temperature is not either; the rates are those of 24 to 28 °C.
#[inline]
#[must_use]
pub fn coral_calcification(
    tissue_m2: f64,
    aragonite_saturation: f64,
    cations: RelativeCations,
    lit_fraction: f64,
    parameters: &CoralCalcification,
) -> CalcificationRates {
    let p = parameters;
    let carbonate = carbonate_rate(
        tissue_m2 * p.light_rate_mmol_per_m2_per_day * MOL_PER_MMOL,
        p.light_to_dark,
        p.order,
        aragonite_saturation,
        lit_fraction,
    );
    with_cations(
        carbonate,
        p.magnesium_fraction,
        p.strontium_fraction,
        cations,
    )
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
    cations: RelativeCations,
    lit_fraction: f64,
    parameters: &CorallineCalcification,
) -> CalcificationRates {
    let p = parameters;
    let carbonate = carbonate_rate(
        crust_m2 * p.light_rate_mmol_per_m2_per_day * MOL_PER_MMOL,
        p.light_to_dark,
        p.order,
        aragonite_saturation,
        lit_fraction,
    );
    with_cations(
        carbonate,
        p.magnesium_fraction,
        p.strontium_fraction,
        cations,
    )
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
    cations: RelativeCations,
) -> CalcificationRates {
    let calcium = 1.0 - magnesium_fraction - strontium_fraction;
    let magnesium = magnesium_fraction * cations.magnesium;
    let strontium = strontium_fraction * cations.strontium;
    let total = calcium + magnesium + strontium;
    if total <= 0.0 {
        return CalcificationRates::default();
    }
    let share = carbonate / total;
    CalcificationRates {
        carbonate,
        calcium: calcium * share,
        magnesium: magnesium * share,
        strontium: strontium * share,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SEAWATER: RelativeCations = RelativeCations::SEAWATER;

    #[test]
    fn stated_rate_at_the_reference_and_a_third_of_it_in_the_dark() {
        let p = CoralCalcification::default();
        let light = coral_calcification(0.5, 4.0, SEAWATER, 1.0, &p).carbonate;
        let dark = coral_calcification(0.5, 4.0, SEAWATER, 0.0, &p).carbonate;
        assert!((light - 0.075).abs() < 1e-15);
        assert!((light / dark - 3.0).abs() < 1e-14);
        let dusk = coral_calcification(0.5, 4.0, SEAWATER, 0.5, &p).carbonate;
        assert!((dusk - 0.5 * (light + dark)).abs() < 1e-15);
    }

    #[test]
    fn zero_at_and_below_saturation_and_rising_above() {
        for order in [0.8, 1.0, 1.7] {
            let p = CoralCalcification {
                order,
                ..CoralCalcification::default()
            };
            let rate = |omega| coral_calcification(0.5, omega, SEAWATER, 1.0, &p).carbonate;
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
            coral_calcification(0.5, 2.7, SEAWATER, 1.0, &p).carbonate
        };
        assert!((rate(1.0) / rate(1.0 + 1e-12) - 1.0).abs() < 1e-11);
    }

    #[test]
    fn cations_sum_to_the_carbonate() {
        let coral = coral_calcification(0.5, 3.5, SEAWATER, 1.0, &CoralCalcification::default());
        let crust =
            coralline_calcification(0.5, 3.5, SEAWATER, 1.0, &CorallineCalcification::default());
        for r in [coral, crust] {
            let cations = r.calcium + r.magnesium + r.strontium;
            assert!((cations / r.carbonate - 1.0).abs() < 1e-15);
        }
        assert!((crust.magnesium / crust.carbonate - 0.15).abs() < 1e-15);
        assert!((coral.strontium / coral.carbonate - 0.009).abs() < 1e-15);
    }

    #[test]
    fn cations_follow_the_water() {
        let p = CoralCalcification::default();
        let in_water = |cations| coral_calcification(0.5, 3.5, cations, 1.0, &p);
        let seawater = RelativeCations::of(10.28e-3, 52.82e-3, 90.7e-6);
        assert!((seawater.magnesium - 1.0).abs() < 1e-3);
        assert!((seawater.strontium - 1.0).abs() < 1e-3);
        let depleted = in_water(RelativeCations {
            strontium: 0.1,
            ..SEAWATER
        });
        let full = in_water(SEAWATER);
        let per_calcium = |r: CalcificationRates| r.strontium / r.calcium;
        assert!((per_calcium(depleted) / per_calcium(full) - 0.1).abs() < 1e-14);
        assert_eq!(depleted.carbonate, full.carbonate);
        // What is not there is not laid down.
        let without = in_water(RelativeCations::of(10e-3, 0.0, -1e-12));
        assert_eq!((without.magnesium, without.strontium), (0.0, 0.0));
        assert!((without.calcium / without.carbonate - 1.0).abs() < 1e-15);
    }
}
