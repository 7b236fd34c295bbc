use super::environment::light_response;
use super::{TurfEnvironment, TurfStock, TurfTraits};
use crate::process::{michaelis_menten, rounded_excess, uptake_through_boundary_layer};
use crate::real::{exp, ln, sqrt};

/// What the turf of a whole screen does, per day.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct TurfRates {
    /// Gross carbon fixation, mol/d.
    pub fixation_c: f64,
    /// Carbon exuded as dissolved organic carbon, mol/d.
    pub exudation_c: f64,
    /// Carbon respired, mol/d.
    pub respiration_c: f64,
    /// Nitrate taken up, mol/d.
    pub nitrate_uptake: f64,
    /// Ammonium taken up, mol/d.
    pub ammonium_uptake: f64,
    /// Phosphate taken up, mol/d.
    pub phosphate_uptake: f64,
    /// Share of the biomass let go, 1/d.
    pub loss_per_day: f64,
    /// Change of the covered share, 1/d.
    pub cover_per_day: f64,
    /// Change of the reserve of the holdfast layer, 1/d.
    pub reserve_per_day: f64,
}

/// The most that the holdfast layer stores per unit of its respiration.
const MOST_STORED_PER_RESPIRATION: f64 = 5.0;

/// Within this of the most, part of the layer stores no more (chosen, no source).
const SURPLUS_SPREAD: f64 = 1.0;

/// Rates of the turf in water of the given contents, mol/kg, and density, kg/m³.
///
/// Inputs are taken as they are: check traits and description once beforehand.
/// Biomass and contents below zero, as trial steps of an integrator may hold, count as none.
#[must_use]
#[inline]
pub fn turf_rates(
    traits: &TurfTraits,
    environment: &TurfEnvironment,
    stock: &TurfStock,
    water: &TurfWater,
) -> TurfRates {
    let env = environment;
    let carbon = stock.carbon_mol.max(0.0);
    let cover = stock.cover.clamp(MIN_COVER, 1.0);
    let area = env.lit_area_m2 * cover;
    let respiration_c = env.respiration_per_day
        * carbon
        * michaelis_menten(
            water.oxygen,
            traits.oxygen_half_saturation_umol_per_kg * 1e-6,
        );
    if !env.wet {
        return TurfRates {
            respiration_c,
            loss_per_day: traits.desiccation_per_day,
            reserve_per_day: -traits.desiccation_per_day * stock.reserve,
            ..TurfRates::default()
        };
    }

    // Light at the base of the mat, and Smith's curve integrated through it: with
    // u = u0 exp(-K b), the integral of u/√(1+u²) over b is (asinh u0 - asinh u_base)/K.
    let mat = carbon / area;
    let base_irradiance = env.relative_irradiance * exp(-env.attenuation_m2_per_mol * mat);
    let through_mat = if env.relative_irradiance > 0.0 {
        area / env.attenuation_m2_per_mol
            * asinh_difference(env.relative_irradiance, base_irradiance)
    } else {
        0.0
    };

    // Quotas: growth needs what is stored (Droop 1973, J. Phycol. 9, 264-272).
    let nitrogen = quota(
        stock.nitrogen_mol,
        carbon,
        traits.least_nitrogen_per_carbon,
        traits.most_nitrogen_per_carbon,
    );
    let phosphorus = quota(
        stock.phosphorus_mol,
        carbon,
        traits.least_phosphorus_per_carbon,
        traits.most_phosphorus_per_carbon,
    );
    let dic = water.inorganic_carbon.max(0.0);
    let carbon_supply = dic / (dic + traits.carbon_half_saturation_umol_per_kg * 1e-6);
    let capacity =
        env.photosynthesis_per_day * nitrogen.growth.min(phosphorus.growth) * carbon_supply;
    let fixation_c = capacity * through_mat;

    // Uptake of starved tissue is full, of replete tissue none.
    let per_area = env.uptake_factor * mat;
    let uptake = |content: f64, max_per_day: f64, half_umol_per_kg: f64, room: f64| {
        area * uptake_through_boundary_layer(
            content,
            env.transfer_m_per_day * water.density_kg_per_m3,
            per_area * max_per_day * room,
            half_umol_per_kg * 1e-6,
        )
    };
    let ammonium = water.ammonium.max(0.0);
    let inhibition = traits.ammonium_inhibition_umol_per_kg * 1e-6;
    let ammonium_uptake = uptake(
        ammonium,
        traits.max_ammonium_uptake_per_day,
        traits.ammonium_half_saturation_umol_per_kg,
        nitrogen.room,
    );
    let nitrate_uptake = uptake(
        water.nitrate,
        traits.max_nitrate_uptake_per_day * inhibition / (inhibition + ammonium),
        traits.nitrate_half_saturation_umol_per_kg,
        nitrogen.room,
    );
    let phosphate_uptake = uptake(
        water.phosphate,
        traits.max_phosphate_uptake_per_day,
        traits.phosphate_half_saturation_umol_per_kg,
        phosphorus.room,
    );

    // The holdfast layer lives on the light at the base.
    let reserve = stock.reserve.clamp(0.0, 1.0);
    let earned = capacity * light_response(base_irradiance) / env.respiration_per_day;
    let surplus = rounded_excess(earned - MOST_STORED_PER_RESPIRATION, SURPLUS_SPREAD);
    let balance = earned - surplus - 1.0;
    let stored = rounded_excess(balance, BALANCE_SPREAD);
    let drawn = stored - balance;
    let reserve_per_day = (stored * (1.0 - reserve) - drawn * (reserve / (reserve + RESERVE_END)))
        / traits.reserve_days;
    // The mat holds on until the reserve is nearly spent: its eighth power.
    let spent = (1.0 - reserve) * (1.0 - reserve);
    let spent = spent * spent;

    TurfRates {
        fixation_c,
        exudation_c: traits.exuded_share * fixation_c,
        respiration_c,
        nitrate_uptake,
        ammonium_uptake,
        phosphate_uptake,
        loss_per_day: traits.fragmentation_per_day + traits.release_per_day * spent * spent,
        cover_per_day: (traits.spreading_per_day * env.uptake_factor * cover
            + env.settlement_per_day)
            * (env.holding - cover).max(0.0),
        reserve_per_day,
    }
}

/// The water around the turf.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TurfWater {
    /// Ammonium and ammonia, mol/kg.
    pub ammonium: f64,
    /// Nitrate, mol/kg.
    pub nitrate: f64,
    /// Phosphate, mol/kg.
    pub phosphate: f64,
    /// Dissolved inorganic carbon, mol/kg.
    pub inorganic_carbon: f64,
    /// Dissolved oxygen, mol/kg.
    pub oxygen: f64,
    /// Density, kg/m³.
    pub density_kg_per_m3: f64,
}

/// Cover below which the mat would be no mat; keeps its thickness finite.
const MIN_COVER: f64 = 1e-4;

/// Reserve below which what is left is given up ever more slowly, so that it
/// ends at zero and not below.
const RESERVE_END: f64 = 0.02;

/// Balance per respiration within which part of the holdfast layer stores while the
/// rest draws on its reserve (chosen, no source).
const BALANCE_SPREAD: f64 = 0.1;

struct Quota {
    /// Growth relative to that of replete tissue.
    growth: f64,
    /// Room left for uptake relative to that of starved tissue.
    room: f64,
}

#[inline]
fn quota(stored: f64, carbon: f64, least: f64, most: f64) -> Quota {
    let q = if carbon > 0.0 {
        (stored / carbon).max(least).min(most)
    } else {
        most
    };
    Quota {
        growth: (1.0 - least / q) / (1.0 - least / most),
        room: (most - q) / (most - least),
    }
}

/// asinh(a) - asinh(b) for a >= b >= 0 as one logarithm.
#[inline]
fn asinh_difference(a: f64, b: f64) -> f64 {
    ln((a + sqrt(1.0 + a * a)) / (b + sqrt(1.0 + b * b)))
}
