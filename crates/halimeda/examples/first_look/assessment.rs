//! What the readings say, as numbers: the machine-readable result.

use halimeda::nutrient::AmmoniaVerdict;
use halimeda::probe::ProbeHealth;
use serde::{Serialize, Serializer};

use crate::estimate::Estimate;

/// Everything the readings say.
#[derive(Debug, Serialize)]
pub(crate) struct Assessment {
    pub(crate) halimeda_version: &'static str,
    pub(crate) tank: String,
    pub(crate) note: Option<String>,
    pub(crate) water: WaterPart,
    pub(crate) ph: PhPart,
    pub(crate) alkalinity: AlkalinityPart,
    pub(crate) carbon: CarbonPart,
    pub(crate) buffering: BufferingPart,
    pub(crate) room_air: Option<AirPart>,
    pub(crate) outdoor_air: AirPart,
    pub(crate) skeleton: Option<SkeletonPart>,
    pub(crate) magnesium: Option<IonPart>,
    pub(crate) oxygen: Option<OxygenPart>,
    pub(crate) ammonia: Option<AmmoniaPart>,
    pub(crate) nitrate: Option<NutrientPart>,
    pub(crate) nitrite: Option<KitPart>,
    pub(crate) phosphate: Option<NutrientPart>,
    pub(crate) nitrogen_to_phosphorus: Option<RatioPart>,
    pub(crate) what_limits: Vec<Limits>,
}

#[derive(Debug, Serialize)]
pub(crate) struct WaterPart {
    pub(crate) temperature_celsius: Estimate,
    pub(crate) practical_salinity: Estimate,
    pub(crate) density_kg_per_m3: Estimate,
    pub(crate) air_pressure_hpa: Estimate,
    pub(crate) volume: Option<VolumePart>,
}

#[derive(Debug, Serialize)]
pub(crate) struct VolumePart {
    pub(crate) gross_litres: f64,
    pub(crate) net_litres: Estimate,
    pub(crate) net_kilograms: Estimate,
}

#[derive(Debug, Serialize)]
pub(crate) struct PhPart {
    pub(crate) nbs: Estimate,
    pub(crate) total: Estimate,
    pub(crate) seawater: Estimate,
    pub(crate) free: Estimate,
    pub(crate) probe: Option<ProbePart>,
}

#[derive(Debug, Serialize)]
pub(crate) struct ProbePart {
    pub(crate) slope_percent: f64,
    pub(crate) offset_mv: f64,
    pub(crate) is_bracketed: bool,
    #[serde(serialize_with = "name_of_health")]
    pub(crate) health: ProbeHealth,
}

#[derive(Debug, Serialize)]
pub(crate) struct AlkalinityPart {
    pub(crate) dkh: Estimate,
    pub(crate) meq_per_l: Estimate,
    pub(crate) ppm_caco3: Estimate,
    pub(crate) umol_per_kg: Estimate,
    pub(crate) from_bicarbonate_umol_per_kg: f64,
    pub(crate) from_carbonate_umol_per_kg: f64,
    pub(crate) from_borate_umol_per_kg: f64,
    pub(crate) from_the_rest_umol_per_kg: f64,
}

#[derive(Debug, Serialize)]
pub(crate) struct CarbonPart {
    pub(crate) inorganic_carbon_umol_per_kg: Estimate,
    pub(crate) dissolved_co2_umol_per_kg: Estimate,
    pub(crate) bicarbonate_umol_per_kg: Estimate,
    pub(crate) carbonate_umol_per_kg: Estimate,
    pub(crate) pco2_uatm: Estimate,
    /// Room air, as a CO2 meter shows it, that the water would neither take up
    /// CO2 from nor give it to.
    pub(crate) balanced_air_ppm: Estimate,
}

/// How total-scale pH moves, before any CO2 is exchanged with the air.
#[derive(Debug, Serialize)]
pub(crate) struct BufferingPart {
    pub(crate) revelle_factor: f64,
    pub(crate) ph_change_with_1_mg_per_l_of_co2: f64,
    pub(crate) ph_change_with_half_a_dkh_as_carbonate: f64,
    pub(crate) ph_change_with_half_a_dkh_as_bicarbonate: f64,
}

#[derive(Debug, Serialize)]
pub(crate) struct AirPart {
    pub(crate) carbon_dioxide_ppm: Estimate,
    pub(crate) pco2_uatm: Estimate,
    pub(crate) ph_total_it_tends_to: Estimate,
    pub(crate) ph_nbs_it_tends_to: Estimate,
    /// The tank's pH now less the one it tends to.
    pub(crate) ph_now_is_higher_by: Estimate,
    pub(crate) carbon_dioxide_goes: Direction,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Direction {
    IntoTheWater,
    OutOfTheWater,
    CannotBeTold,
}

#[derive(Debug, Serialize)]
pub(crate) struct SkeletonPart {
    pub(crate) aragonite_saturation: Estimate,
    pub(crate) calcite_saturation: Estimate,
    pub(crate) calcium: IonPart,
}

#[derive(Debug, Serialize)]
pub(crate) struct IonPart {
    pub(crate) mg_per_l: Estimate,
    /// What ocean water of this salinity holds.
    pub(crate) ocean_mg_per_l: f64,
}

#[derive(Debug, Serialize)]
pub(crate) struct OxygenPart {
    pub(crate) mg_per_l: Estimate,
    pub(crate) saturation_percent: Estimate,
    pub(crate) saturated_mg_per_l: f64,
    pub(crate) verdict: OxygenVerdict,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum OxygenVerdict {
    Hypoxic,
    Low,
    NearBalance,
    Supersaturated,
}

#[derive(Debug, Serialize)]
pub(crate) struct AmmoniaPart {
    pub(crate) total_mg_n_per_l: Estimate,
    pub(crate) total_at_most_mg_n_per_l: f64,
    pub(crate) unionised_percent: f64,
    pub(crate) unionised_mg_nh3_per_l: Estimate,
    /// Upper end of what the readings leave possible, about 95 %.
    pub(crate) unionised_at_most_mg_nh3_per_l: f64,
    pub(crate) is_detected: bool,
    #[serde(serialize_with = "name_of_ammonia_verdict")]
    pub(crate) verdict: AmmoniaVerdict,
    #[serde(serialize_with = "name_of_ammonia_verdict")]
    pub(crate) verdict_at_most: AmmoniaVerdict,
}

#[derive(Debug, Serialize)]
pub(crate) struct NutrientPart {
    pub(crate) read: KitPart,
    pub(crate) verdict: NutrientVerdict,
}

/// A kit's reading, with the ion and with its nitrogen or phosphorus weighed.
#[derive(Debug, Serialize)]
pub(crate) struct KitPart {
    pub(crate) mg_ion_per_l: Estimate,
    pub(crate) mg_element_per_l: Estimate,
    pub(crate) umol_per_l: Estimate,
    /// Upper end of what the reading leaves possible, about 95 %.
    pub(crate) at_most_mg_ion_per_l: f64,
    pub(crate) is_detected: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum NutrientVerdict {
    CannotBeToldFromZero,
    AsOnReefs,
    AboveReefs,
    Harmful,
}

#[derive(Debug, Serialize)]
pub(crate) struct RatioPart {
    pub(crate) moles_of_nitrogen_per_phosphorus: f64,
    pub(crate) at_least: f64,
    pub(crate) at_most: Option<f64>,
    pub(crate) against_plankton_16: &'static str,
    pub(crate) against_seaweeds_30: &'static str,
}

/// Where the uncertainty of one result comes from, largest share first.
#[derive(Debug, Serialize)]
pub(crate) struct Limits {
    pub(crate) result: &'static str,
    pub(crate) shares: Vec<Share>,
}

#[derive(Debug, Clone, Copy, Serialize)]
pub(crate) struct Share {
    pub(crate) from: &'static str,
    pub(crate) percent_of_variance: f64,
}

fn name_of_health<S: Serializer>(health: &ProbeHealth, s: S) -> Result<S::Ok, S::Error> {
    s.serialize_str(match health {
        ProbeHealth::Good => "good",
        ProbeHealth::Ageing => "ageing",
        _ => "replace",
    })
}

fn name_of_ammonia_verdict<S: Serializer>(
    verdict: &AmmoniaVerdict,
    s: S,
) -> Result<S::Ok, S::Error> {
    s.serialize_str(match verdict {
        AmmoniaVerdict::WithinLimits => "within_limits",
        AmmoniaVerdict::AboveChronic => "above_chronic_limit",
        _ => "above_acute_limit",
    })
}
