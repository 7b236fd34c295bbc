//! From readings to what they say.

use halimeda::carbonate::{Output, Parameter};
use halimeda::{Composition, form};

use crate::assessment::{Assessment, SkeletonPart};
use crate::body::Body;
use crate::estimate::Estimate;
use crate::kits::{Kits, kit, nutrient};
use crate::readings::Readings;
use crate::refusal::{InSection as _, Refusal};
use crate::solved::{Solved, buffering};
use crate::source;

/// Carbon dioxide of outdoor air, ppm: see [`source::WMO_2025`]. The seasons and
/// a city move it by more than the years since.
const OUTDOOR_CO2_PPM: Estimate = Estimate::new(424.0, 10.0);

/// Reads everything out of the readings.
pub(crate) fn assess(readings: &Readings) -> Result<Assessment, Refusal> {
    let body = Body::of(readings)?;
    let ph = readings.ph()?;
    let kits = Kits::of(readings, body.density)?;
    let equilibria = body.equilibria(&kits).in_section("temperature")?;
    let alkalinity = readings
        .alkalinity
        .total(body.density)
        .in_section("alkalinity")?;
    let alkalinity_uncertainty = readings.alkalinity.uncertainty_dkh
        * (alkalinity.umol_per_kg() / alkalinity.dkh(body.density));
    let state = equilibria
        .solve(alkalinity, ph.nbs)
        .in_section("alkalinity")?;

    let correlations = body.correlations();
    let budget = body
        .budget(&state, &kits, &correlations)
        .and_then(|budget| budget.with(Parameter::First, alkalinity_uncertainty))
        .in_section("alkalinity")?;
    let with_probe = budget
        .with(Parameter::Second, ph.instrument_uncertainty)
        .in_section(readings.ph_section())?;
    let uncertainties = state.uncertainties(&with_probe).in_section("temperature")?;
    let now = Solved {
        state,
        uncertainties,
    };

    let total_ph = now.ph_total();
    let pco2 = now.pco2();
    let air = |ppm| {
        body.under_air(&equilibria, alkalinity, ppm, &budget)
            .map(|air| air.compared_with(total_ph, pco2))
    };
    Ok(Assessment {
        halimeda_version: env!("CARGO_PKG_VERSION"),
        tank: readings.tank.clone(),
        note: readings.note.clone(),
        water: body.part(readings)?,
        ph: now.ph(&ph).in_section("temperature")?,
        alkalinity: now.alkalinity(body.density),
        carbon: now.carbon(&body.water).in_section("temperature")?,
        buffering: buffering(&state, body.density).in_section("alkalinity")?,
        room_air: match &readings.room_air {
            None => None,
            Some(room) => Some(
                air(Estimate::new(
                    room.carbon_dioxide_ppm.ppm(),
                    room.uncertainty_ppm,
                ))
                .in_section("room_air")?,
            ),
        },
        outdoor_air: air(OUTDOOR_CO2_PPM).in_section("air_pressure")?,
        skeleton: kits.calcium.map(|calcium| SkeletonPart {
            aragonite_saturation: now
                .estimate(Output::Aragonite, now.state.aragonite_saturation().value()),
            calcite_saturation: now
                .estimate(Output::Calcite, now.state.calcite_saturation().value()),
            calcium: body.ion::<form::CalciumAsCa>(
                &calcium,
                Composition::REFERENCE.calcium(body.water.salinity()),
            ),
        }),
        magnesium: kits.magnesium.map(|magnesium| {
            body.ion::<form::MagnesiumAsMg>(
                &magnesium,
                Composition::REFERENCE.magnesium(body.water.salinity()),
            )
        }),
        oxygen: body.oxygen(readings)?,
        ammonia: match kits.ammonia {
            None => None,
            Some(total) => Some(now.ammonia(&total, body.density).in_section("ammonia")?),
        },
        nitrate: kits.nitrate.map(|nitrate| {
            nutrient(
                kit::<form::NitrateAsNo3, form::NitrateAsN>(&nitrate, body.density),
                source::NITRATE_ON_REEFS_UMOL_PER_L,
                Some(source::NITRATE_LIMIT_MG_N_PER_L),
            )
        }),
        nitrite: kits
            .nitrite
            .map(|nitrite| kit::<form::NitriteAsNo2, form::NitriteAsN>(&nitrite, body.density)),
        phosphate: kits.phosphate.map(|phosphate| {
            nutrient(
                kit::<form::PhosphateAsPo4, form::PhosphateAsP>(&phosphate, body.density),
                source::PHOSPHATE_ON_REEFS_UMOL_PER_L,
                None,
            )
        }),
        nitrogen_to_phosphorus: kits.ratio()?,
        what_limits: now.what_limits(&kits, &correlations),
    })
}
