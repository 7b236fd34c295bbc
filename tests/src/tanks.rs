//! Tanks that were made up for the tests, and how their runs are read.

use halimeda::process::FeedKind;
use halimeda_tank::{
    Dosing, Feeding, HarvestPlan, InitialWater, Photoperiod, RoomAir, Run, Sample, Schedule,
    ScreenSetup, Tank,
};

/// What is dissolved at the start in tanks of corals.
const REEF_WATER: InitialWater = InitialWater {
    alkalinity_umol_per_kg: 2700.0,
    inorganic_carbon_umol_per_kg: None,
    oxygen_saturation: 1.0,
    ammonia_umol_per_kg: 0.5,
    nitrate_umol_per_kg: 50.0,
    phosphate_umol_per_kg: 1.0,
    calcium_umol_per_kg: 10_400.0,
    magnesium_umol_per_kg: 53_000.0,
    strontium_umol_per_kg: 90.0,
    detritus_dry_grams: 10.0,
};

/// A well-fed tank of 200 L with fishes and corals, three years old, over a
/// screen of 30 cm by 40 cm that is lit on both faces for 18 hours from the
/// display's dusk on and cut back every nine days.
#[must_use]
pub fn mixed_reef() -> (Tank, Schedule) {
    let tank = Tank {
        name: "mixed reef".into(),
        net_volume_l: 200.0,
        temperature_celsius: 25.5,
        practical_salinity: 35.0,
        water: REEF_WATER,
        air: RoomAir {
            co2_ppm: 600.0,
            pressure_atm: 1.0,
        },
        surface_area_m2: 0.6,
        overflow_l_per_h: 1500.0,
        rock_area_m2: 12.0,
        living_area_m2: 1.5,
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
            age_days: 0.0,
            lamp_hours: 0.0,
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
            start_hour: 20.0,
            hours: 18.0,
        },
        feedings: vec![
            feeding(9.0, 1.2, FeedKind::Pellet),
            feeding(13.0, 1.2, FeedKind::Pellet),
            feeding(18.0, 6.8, FeedKind::Frozen),
        ],
        harvest: Some(HarvestPlan {
            every_days: 9.0,
            first_day: 9.0,
            kept_share: 0.26,
            fed_back_share: 0.0,
        }),
        water_change: None,
        salinity_check_every_days: Some(7.0),
        dosing: Dosing {
            bicarbonate_mol_per_day: 0.022,
            calcium_mol_per_day: 0.010,
            magnesium_mol_per_day: 0.0005,
            ..Dosing::default()
        },
        events: Vec::new(),
    };
    (tank, schedule)
}

/// The same tank in its first months: two small fishes, hardly any detritus, and
/// little in the water to grow on. Its screen is new.
#[must_use]
pub fn young_reef() -> (Tank, Schedule) {
    let (mut tank, mut schedule) = mixed_reef();
    tank.name = "young reef".into();
    tank.livestock_grams = 15.0;
    tank.living_area_m2 = 0.5;
    tank.coral_area_m2 = 0.02;
    tank.coralline_area_m2 = 0.02;
    tank.water = InitialWater {
        nitrate_umol_per_kg: 8.0,
        phosphate_umol_per_kg: 0.15,
        detritus_dry_grams: 1.0,
        ..REEF_WATER
    };
    tank.screen.turf_g_dry_per_m2 = 0.0;
    schedule.feedings = vec![Feeding {
        hour: 18.0,
        grams: 0.4,
        kind: FeedKind::Pellet,
    }];
    (tank, schedule)
}

/// Seawater in a glass: nothing lives in it, nothing runs, nothing is fed, and it
/// meets the air at no surface.
#[must_use]
pub fn lifeless(net_volume_l: f64) -> (Tank, Schedule) {
    let (mut tank, mut schedule) = mixed_reef();
    tank = Tank {
        name: "seawater".into(),
        net_volume_l,
        water: InitialWater {
            detritus_dry_grams: 0.0,
            ..tank.water
        },
        surface_area_m2: 0.0,
        overflow_l_per_h: 0.0,
        rock_area_m2: 0.0,
        living_area_m2: 0.0,
        coral_area_m2: 0.0,
        coralline_area_m2: 0.0,
        livestock_grams: 0.0,
        evaporation_l_per_day: 0.0,
        ..tank
    };
    tank.screen.flow_l_per_h_per_cm = 0.0;
    tank.screen.turf_g_dry_per_m2 = 0.0;
    schedule = Schedule {
        screen_light: Photoperiod {
            start_hour: 0.0,
            hours: 0.0,
        },
        feedings: Vec::new(),
        harvest: None,
        salinity_check_every_days: None,
        dosing: Dosing::default(),
        ..schedule
    };
    (tank, schedule)
}

/// The values of one measured quantity over the samples between two days.
#[must_use]
pub fn between(run: &Run, from: f64, to: f64, of: impl Fn(&Sample) -> f64) -> Vec<f64> {
    run.samples
        .iter()
        .filter(|s| s.day >= from && s.day < to)
        .map(of)
        .collect()
}

/// The mean of some values.
#[must_use]
pub fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// The value below which a share of the values lies.
///
/// # Panics
/// There are no values.
#[must_use]
pub fn quantile(values: &[f64], share: f64) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted[(share * (sorted.len() - 1) as f64).round() as usize]
}
