//! The tank that the tests of this crate are about.

use halimeda::process::FeedKind;

use crate::tank::*;

/// The invented tank: 200 L, well fed, with a turf screen that has been running.
pub(crate) fn setup() -> Setup {
    let tank = Tank {
        name: "invented".into(),
        net_volume_l: 200.0,
        temperature_celsius: 25.5,
        practical_salinity: 35.0,
        water: InitialWater {
            alkalinity_umol_per_kg: 2800.0,
            inorganic_carbon_umol_per_kg: None,
            oxygen_saturation: 1.0,
            ammonia_umol_per_kg: 1.0,
            nitrate_umol_per_kg: 80.0,
            phosphate_umol_per_kg: 1.0,
            calcium_umol_per_kg: 10400.0,
            magnesium_umol_per_kg: 53000.0,
            strontium_umol_per_kg: 90.0,
            detritus_dry_grams: 10.0,
        },
        air: RoomAir {
            co2_ppm: 600.0,
            pressure_atm: 1.0,
        },
        surface_area_m2: 0.6,
        overflow_l_per_h: 1500.0,
        rock_area_m2: 12.0,
        living_area_m2: 0.5,
        coral_area_m2: 0.1,
        coralline_area_m2: 0.1,
        livestock_grams: 120.0,
        iron_oxide_grams: 0.0,
        foam_fractionator: None,
        evaporation_l_per_day: 3.0,
        screen: ScreenSetup {
            width_cm: 30.0,
            height_cm: 40.0,
            lit_faces: 2,
            irradiance_umol_per_m2_s: 250.0,
            flow_l_per_h_per_cm: 50.0,
            age_days: 60.0,
            lamp_hours: 1000.0,
            turf_g_dry_per_m2: 60.0,
        },
    };
    let feeding = |hour, grams, kind| Feeding { hour, grams, kind };
    let schedule = Schedule {
        display_light: Photoperiod {
            start_hour: 10.0,
            hours: 10.0,
        },
        screen_light: Photoperiod {
            start_hour: 16.0,
            hours: 14.0,
        },
        feedings: vec![
            feeding(9.0, 1.0, FeedKind::Pellet),
            feeding(13.0, 1.0, FeedKind::Pellet),
            feeding(18.0, 6.0, FeedKind::Frozen),
        ],
        harvest: Some(HarvestPlan {
            every_days: 9.0,
            first_day: 6.0,
            kept_share: 0.25,
            fed_back_share: 0.0,
        }),
        water_change: None,
        salinity_check_every_days: Some(7.0),
        dosing: Dosing {
            bicarbonate_mol_per_day: 0.03,
            calcium_mol_per_day: 0.02,
            magnesium_mol_per_day: 0.002,
            ..Dosing::default()
        },
        events: vec![],
    };
    Setup { tank, schedule }
}
