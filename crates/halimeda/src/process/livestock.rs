use super::{MOL_PER_MMOL, MOL_PER_UMOL, OrganicMatter, michaelis_menten, rounded_excess};
use crate::parameter::parameters;

parameters! {
    /// What fish and other fed animals do with their feed.
    ///
    /// Each element in the gut is split twice: into what the body keeps and what
    /// becomes waste, and the waste into dissolved and faecal. Whatever the
    /// fractions, nothing is lost.
    Livestock {
        /// Share of the gut's content that leaves it per day.
        gut_passage_per_day = 2.0 in 1.0..4.0, "1/d",
            "evacuation within about half a day, order of magnitude from memory";
        /// Share of the nitrogen eaten that the body keeps.
        nitrogen_retention = 0.3 in 0.12..0.44 max 1.0, "mol/mol",
            "range over five farmed fishes, Summerfelt & Penne 2007, Int. J. Recirc. Aquac. 8, \
             43-64; grown fish keep least";
        /// Share of the phosphorus eaten that the body keeps.
        phosphorus_retention = 0.35 in 0.15..0.54 max 1.0, "mol/mol",
            "range over five farmed fishes, Summerfelt & Penne 2007, Int. J. Recirc. Aquac. 8, 43-64";
        /// Share of the carbon eaten that the body keeps.
        carbon_retention = 0.25 in 0.15..0.35 max 1.0, "mol/mol", "farmed fish, from memory";
        /// Share of the waste nitrogen excreted as ammonia; the rest is faecal.
        dissolved_share_of_waste_nitrogen = 0.75 in 0.6..0.9 max 1.0, "mol/mol",
            "van Rijn 2013, Aquac. Eng. 53, 49-56";
        /// Share of the waste phosphorus in faeces; the rest is excreted as phosphate.
        faecal_share_of_waste_phosphorus = 0.55 in 0.25..0.85 max 1.0, "mol/mol",
            "van Rijn 2013, Aquac. Eng. 53, 49-56";
        /// Share of the waste carbon in faeces; the rest is respired.
        faecal_share_of_waste_carbon = 0.25 in 0.15..0.4 max 1.0, "mol/mol",
            "digestibility of dry matter near 0.8, from memory";
        /// Oxygen content at which metabolism runs at half its rate.
        half_saturation_oxygen_umol_per_kg = 10.0 in 5.0..25.0, "µmol/kg",
            "a coral goby keeps up its uptake down to 18 % of air saturation, Nilsson et al. 2004, \
             J. Exp. Biol. 207, 33-39";
        /// Carbon respired per gram of livestock and day at 25 °C without feed.
        fasting_respiration_mmol_c_per_g_per_day = 0.1 in 0.03..0.3, "mmol C g⁻¹ d⁻¹",
            "small reef fish, 100 to 200 mg O2 kg⁻¹ h⁻¹, order of magnitude from memory";
        /// Carbon respired per nitrogen excreted without feed.
        fasting_carbon_to_nitrogen = 12.0 in 6.0..20.0 min 0.1, "mol/mol",
            "order of magnitude from memory";
        /// Growth of the respiration without feed for 10 °C.
        q10 = 2.0 in 1.5..3.0 min 0.1, "1", "common value for respiration, from memory";
    }
}

/// Where the content of the gut goes, mol/d.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct LivestockRates {
    /// Nitrogen excreted as ammonia.
    pub excreted_nitrogen: f64,
    /// Phosphorus excreted as phosphate.
    pub excreted_phosphorus: f64,
    /// Carbon respired to dissolved inorganic carbon.
    pub respired_carbon: f64,
    /// Faeces, to particulate organic matter.
    pub faeces: OrganicMatter,
    /// Kept in the body.
    pub retained: OrganicMatter,
}

/// Excretion, respiration, faeces and retention out of the feed in the gut:
/// first order in the gut's content, slowed where oxygen runs out.
///
/// Split as van Rijn (2013), Aquac. Eng. 53, 49-56.
#[inline]
#[must_use]
pub fn livestock_rates(
    gut: OrganicMatter,
    oxygen_mol_per_kg: f64,
    parameters: &Livestock,
) -> LivestockRates {
    let p = parameters;
    let half = p.half_saturation_oxygen_umol_per_kg * MOL_PER_UMOL;
    let out = gut.scaled(p.gut_passage_per_day * michaelis_menten(oxygen_mol_per_kg, half));
    let retained = OrganicMatter {
        carbon: out.carbon * p.carbon_retention,
        nitrogen: out.nitrogen * p.nitrogen_retention,
        phosphorus: out.phosphorus * p.phosphorus_retention,
    };
    let waste = OrganicMatter {
        carbon: out.carbon - retained.carbon,
        nitrogen: out.nitrogen - retained.nitrogen,
        phosphorus: out.phosphorus - retained.phosphorus,
    };
    let excreted_nitrogen = waste.nitrogen * p.dissolved_share_of_waste_nitrogen;
    let faeces = OrganicMatter {
        carbon: waste.carbon * p.faecal_share_of_waste_carbon,
        nitrogen: waste.nitrogen - excreted_nitrogen,
        phosphorus: waste.phosphorus * p.faecal_share_of_waste_phosphorus,
    };
    LivestockRates {
        excreted_nitrogen,
        excreted_phosphorus: waste.phosphorus - faeces.phosphorus,
        respired_carbon: waste.carbon - faeces.carbon,
        faeces,
        retained,
    }
}

/// What livestock draws from its own body, mol/d.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct FastingRates {
    /// Carbon respired to dissolved inorganic carbon.
    pub respired_carbon: f64,
    /// Nitrogen excreted as ammonia.
    pub excreted_nitrogen: f64,
}

/// The first animals draw on their bodies while feed still gives one plus this of the
/// need, the last ones once it gives one minus this (chosen, no source).
const HUNGER_SPREAD: f64 = 0.3;

/// Respiration and excretion at the expense of the body: what the standing need
/// exceeds the carbon respired out of feed by, so that fed animals are not
/// counted twice and unfed ones do not stop breathing.
///
/// Animals go hungry one after the other: with the need n and the respiration r out of
/// feed it is n - r where r is below 0.7 n, nothing where r is above 1.3 n, and
/// 0.3 n x³ (2 - x) with x = (1.3 n - r)/(0.6 n) between.
#[inline]
#[must_use]
pub fn fasting_rates(
    livestock_g: f64,
    respired_from_feed: f64,
    oxygen_mol_per_kg: f64,
    temperature_factor: f64,
    parameters: &Livestock,
) -> FastingRates {
    let p = parameters;
    let half = p.half_saturation_oxygen_umol_per_kg * MOL_PER_UMOL;
    let need = livestock_g
        * p.fasting_respiration_mmol_c_per_g_per_day
        * MOL_PER_MMOL
        * temperature_factor
        * michaelis_menten(oxygen_mol_per_kg, half);
    let respired_carbon = rounded_excess(need - respired_from_feed.max(0.0), HUNGER_SPREAD * need);
    FastingRates {
        respired_carbon,
        excreted_nitrogen: respired_carbon / p.fasting_carbon_to_nitrogen,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parameter::ParameterSet;

    const GUT: OrganicMatter = OrganicMatter {
        carbon: 0.03,
        nitrogen: 0.005,
        phosphorus: 0.0004,
    };
    const OXYGEN: f64 = 2e-4;

    #[test]
    fn nothing_of_the_feed_is_lost_at_any_corner_of_the_ranges() {
        for (i, info) in Livestock::PARAMETERS.iter().enumerate() {
            for value in [info.low, info.high] {
                let p = Livestock::default().with_value(i, value);
                let r = livestock_rates(GUT, OXYGEN, &p);
                let half = p.half_saturation_oxygen_umol_per_kg * 1e-6;
                let passage = p.gut_passage_per_day * OXYGEN / (OXYGEN + half);
                let c = r.respired_carbon + r.faeces.carbon + r.retained.carbon;
                let n = r.excreted_nitrogen + r.faeces.nitrogen + r.retained.nitrogen;
                let ph = r.excreted_phosphorus + r.faeces.phosphorus + r.retained.phosphorus;
                assert!((c / (passage * GUT.carbon) - 1.0).abs() < 1e-14);
                assert!((n / (passage * GUT.nitrogen) - 1.0).abs() < 1e-14);
                assert!((ph / (passage * GUT.phosphorus) - 1.0).abs() < 1e-14);
            }
        }
    }

    #[test]
    fn an_empty_gut_gives_nothing() {
        let r = livestock_rates(OrganicMatter::default(), OXYGEN, &Livestock::default());
        assert_eq!(r, LivestockRates::default());
    }

    #[test]
    fn fasting_takes_over_where_feed_ends_and_never_below() {
        let p = Livestock::default();
        let unfed = fasting_rates(50.0, 0.0, OXYGEN, 1.0, &p);
        assert!((unfed.respired_carbon - 50.0 * 1e-4 * 200.0 / 210.0).abs() < 1e-15);
        assert!((unfed.respired_carbon / unfed.excreted_nitrogen - 12.0).abs() < 1e-12);
        let half_fed = fasting_rates(50.0, 0.5 * unfed.respired_carbon, OXYGEN, 1.0, &p);
        assert!((half_fed.respired_carbon / unfed.respired_carbon - 0.5).abs() < 1e-12);
        let fed = fasting_rates(50.0, 1.0, OXYGEN, 1.0, &p);
        assert_eq!(fed, FastingRates::default());
        let suffocated = fasting_rates(50.0, 0.0, 0.0, 1.0, &p);
        assert_eq!(suffocated, FastingRates::default());
    }

    #[test]
    fn animals_go_hungry_one_after_the_other() {
        let p = Livestock::default();
        let need = fasting_rates(50.0, 0.0, OXYGEN, 1.0, &p).respired_carbon;
        for (fed, expected) in [(0.7, 0.3), (1.0, 0.05625), (1.3, 0.0)] {
            let r = fasting_rates(50.0, fed * need, OXYGEN, 1.0, &p);
            assert!((r.respired_carbon / need - expected).abs() < 1e-12);
        }
    }
}
