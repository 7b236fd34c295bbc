//! Tanks that nobody would keep, within the limits that descriptions have: a run
//! ends with numbers or with an error that names what is wrong.

use std::collections::BTreeMap;
use std::thread;

use halimeda::process::{FeedComposition, FeedKind};
use halimeda_tank::{
    DatedEvent, Dosing, Error, Event, Feeding, FoamFractionatorSetup, HarvestPlan, InitialWater,
    NewWater, Parameters, Photoperiod, RoomAir, Run, RunOptions, Sample, Schedule, ScreenSetup,
    Stock, Tank, WaterChangePlan, simulate,
};
use halimeda_tests::states::uniform;
use halimeda_tests::tanks::mixed_reef;

const TANKS: usize = 2_000;

/// A number over some decades, now and then one of its ends or zero.
fn wild(rng: &mut fastrand::Rng, min: f64, max: f64) -> f64 {
    match rng.u32(0..20) {
        0 => min,
        1 => max,
        _ => {
            let floor = min.max(max * 1e-6);
            (floor.ln() + (max / floor).ln() * rng.f64())
                .exp()
                .clamp(min, max)
        }
    }
}

/// An ordinary value in most tanks, else anything within the limits.
fn odd(rng: &mut fastrand::Rng, usual: (f64, f64), limits: (f64, f64)) -> f64 {
    if rng.u32(0..25) == 0 {
        wild(rng, limits.0, limits.1)
    } else {
        uniform(rng, usual.0, usual.1)
    }
}

fn tank(rng: &mut fastrand::Rng) -> Tank {
    let rng = &mut *rng;
    Tank {
        name: "wild".into(),
        net_volume_l: odd(rng, (20.0, 2000.0), (1.0, 1e7)),
        temperature_celsius: odd(rng, (22.0, 30.0), (0.0, 45.0)),
        practical_salinity: odd(rng, (30.0, 40.0), (0.0, 50.0)),
        water: InitialWater {
            alkalinity_umol_per_kg: odd(rng, (1500.0, 4500.0), (0.0, 20_000.0)),
            inorganic_carbon_umol_per_kg: rng
                .bool()
                .then(|| odd(rng, (1300.0, 4500.0), (1.0, 20_000.0))),
            oxygen_saturation: odd(rng, (0.3, 1.5), (0.0, 3.0)),
            ammonia_umol_per_kg: odd(rng, (0.0, 50.0), (0.0, 1000.0)),
            nitrate_umol_per_kg: odd(rng, (0.0, 1000.0), (0.0, 10_000.0)),
            phosphate_umol_per_kg: odd(rng, (0.0, 20.0), (0.0, 1000.0)),
            calcium_umol_per_kg: odd(rng, (8000.0, 12_000.0), (1.0, 50_000.0)),
            magnesium_umol_per_kg: odd(rng, (40_000.0, 60_000.0), (1.0, 200_000.0)),
            strontium_umol_per_kg: odd(rng, (50.0, 150.0), (0.0, 10_000.0)),
            detritus_dry_grams: odd(rng, (0.0, 50.0), (0.0, 1e6)),
        },
        air: RoomAir {
            co2_ppm: odd(rng, (300.0, 3000.0), (0.0, 1e5)),
            pressure_atm: odd(rng, (0.8, 1.05), (0.3, 2.0)),
        },
        surface_area_m2: odd(rng, (0.1, 3.0), (0.0, 1e5)),
        overflow_l_per_h: odd(rng, (0.0, 5000.0), (0.0, 1e7)),
        rock_area_m2: odd(rng, (0.0, 50.0), (0.0, 1e6)),
        living_area_m2: odd(rng, (0.0, 5.0), (0.0, 1e5)),
        coral_area_m2: odd(rng, (0.0, 2.0), (0.0, 1e5)),
        coralline_area_m2: odd(rng, (0.0, 2.0), (0.0, 1e5)),
        livestock_grams: odd(rng, (0.0, 1000.0), (0.0, 1e7)),
        iron_oxide_grams: odd(rng, (0.0, 200.0), (0.0, 1e6)),
        foam_fractionator: rng.bool().then(|| FoamFractionatorSetup {
            water_l_per_h: odd(rng, (0.0, 2000.0), (0.0, 1e6)),
            air_co2_ppm: odd(rng, (0.0, 3000.0), (0.0, 1e5)),
        }),
        evaporation_l_per_day: odd(rng, (0.0, 10.0), (0.0, 1e5)),
        screen: ScreenSetup {
            width_cm: odd(rng, (5.0, 100.0), (1.0, 1e4)),
            height_cm: odd(rng, (5.0, 100.0), (1.0, 1e4)),
            lit_faces: rng.u8(1..=2),
            irradiance_umol_per_m2_s: odd(rng, (20.0, 800.0), (0.0, 3000.0)),
            flow_l_per_h_per_cm: odd(rng, (0.0, 100.0), (0.0, 1000.0)),
            age_days: odd(rng, (0.0, 600.0), (0.0, 36_525.0)),
            lamp_hours: odd(rng, (0.0, 50_000.0), (0.0, 1e6)),
            turf_g_dry_per_m2: odd(rng, (0.0, 300.0), (0.0, 2000.0)),
        },
    }
}

fn light(rng: &mut fastrand::Rng) -> Photoperiod {
    Photoperiod {
        start_hour: uniform(rng, 0.0, 24.0),
        hours: wild(rng, 0.0, 24.0),
    }
}

fn dose(rng: &mut fastrand::Rng, usual: f64, most: f64) -> f64 {
    if rng.bool() {
        0.0
    } else {
        odd(rng, (0.0, usual), (0.0, most))
    }
}

fn event(rng: &mut fastrand::Rng) -> Event {
    match rng.u32(0..20) {
        0 => Event::ScreenLampFails,
        1 => Event::ScreenLampRepaired,
        2 => Event::ScreenFlowDrops {
            share: wild(rng, 0.0, 1.0),
        },
        3 => Event::ScreenFlowRestored,
        4 => Event::PumpStops,
        5 => Event::PumpRestored,
        6 => Event::FeedingStops,
        7 => Event::FeedingResumes,
        8 => Event::FeedingScaled {
            factor: wild(rng, 0.0, 100.0),
        },
        9 => Event::HarvestsStop,
        10 => Event::HarvestsResume,
        11 => Event::Harvest {
            kept_share: wild(rng, 0.0, 1.0),
            fed_back_share: wild(rng, 0.0, 1.0),
        },
        12 => Event::NewScreen,
        13 => Event::NewScreenLamp,
        14 => Event::NewIronOxide {
            grams: wild(rng, 0.0, 1e6),
        },
        15 => Event::KeeperLeaves,
        16 => Event::KeeperReturns,
        17 => Event::TopOffStops,
        18 => Event::TopOffRestored,
        _ => Event::RoomCo2 {
            ppm: wild(rng, 0.0, 1e5),
        },
    }
}

fn schedule(rng: &mut fastrand::Rng, days: f64) -> Schedule {
    let rng = &mut *rng;
    Schedule {
        display_light: light(rng),
        screen_light: light(rng),
        feedings: (0..rng.usize(0..4))
            .map(|_| Feeding {
                hour: uniform(rng, 0.0, 24.0),
                grams: odd(rng, (0.0, 20.0), (0.0, 1e6)),
                kind: match rng.u32(0..4) {
                    0 => FeedKind::Pellet,
                    1 => FeedKind::Frozen,
                    2 => FeedKind::DriedMacroalgae,
                    _ => FeedKind::Custom(FeedComposition {
                        water_fraction: rng.f64(),
                        protein_fraction_of_dry: rng.f64(),
                        phosphorus_fraction_of_dry: 0.03 * rng.f64(),
                        carbon_fraction_of_dry: 0.3 + 0.5 * rng.f64(),
                    }),
                },
            })
            .collect(),
        harvest: rng.bool().then(|| HarvestPlan {
            every_days: wild(rng, 0.5, 30.0),
            first_day: uniform(rng, 0.0, days),
            kept_share: wild(rng, 0.0, 1.0),
            fed_back_share: wild(rng, 0.0, 1.0),
        }),
        water_change: rng.bool().then(|| WaterChangePlan {
            every_days: wild(rng, 0.01, 30.0),
            first_day: uniform(rng, 0.0, days),
            share: wild(rng, 0.0, 1.0),
            water: NewWater {
                practical_salinity: odd(rng, (30.0, 40.0), (0.0, 50.0)),
                alkalinity_umol_per_kg: odd(rng, (1500.0, 4500.0), (0.0, 20_000.0)),
                calcium_umol_per_kg: odd(rng, (8000.0, 12_000.0), (0.0, 50_000.0)),
                magnesium_umol_per_kg: odd(rng, (40_000.0, 60_000.0), (0.0, 200_000.0)),
                strontium_umol_per_kg: odd(rng, (50.0, 150.0), (0.0, 10_000.0)),
                nitrate_umol_per_kg: odd(rng, (0.0, 100.0), (0.0, 10_000.0)),
                phosphate_umol_per_kg: odd(rng, (0.0, 5.0), (0.0, 1000.0)),
            },
        }),
        salinity_check_every_days: rng.bool().then(|| wild(rng, 0.01, 30.0)),
        dosing: Dosing {
            bicarbonate_mol_per_day: dose(rng, 0.1, 1e3),
            carbonate_mol_per_day: dose(rng, 0.1, 1e3),
            hydroxide_mol_per_day: dose(rng, 0.05, 1e3),
            calcium_mol_per_day: dose(rng, 0.1, 1e3),
            magnesium_mol_per_day: dose(rng, 0.05, 1e3),
            nitrate_mol_per_day: dose(rng, 0.02, 1e3),
            phosphate_mol_per_day: dose(rng, 0.001, 1e3),
            organic_carbon_mol_per_day: dose(rng, 0.1, 1e3),
            limewater_mol_per_l: dose(rng, 0.02, 0.03),
            reactor_mol_per_day: dose(rng, 0.1, 1e3),
            reactor_excess_co2_per_mol: dose(rng, 1.0, 10.0),
            adjusted_every_days: rng.bool().then(|| wild(rng, 0.25, 30.0)),
        },
        events: (0..rng.usize(0..5))
            .map(|_| DatedEvent {
                day: uniform(rng, 0.0, days),
                event: event(rng),
            })
            .collect(),
    }
}

/// Parameters anywhere in their ranges, a few far outside of them, some zero.
fn parameters(rng: &mut fastrand::Rng) -> Parameters {
    let mut p = Parameters::default();
    for (i, (_, info)) in Parameters::infos().enumerate() {
        let value = match rng.u32(0..2000) {
            0 => 0.0,
            1 => info.high * 1e3,
            2 => info.low * 1e-3,
            _ => uniform(rng, info.low, info.high),
        };
        p = p.with_value(i, value);
    }
    p
}

/// Every number of a sample with its name.
fn numbers(sample: &Sample) -> Vec<(String, f64)> {
    let serde_json::Value::Object(fields) = serde_json::to_value(sample).unwrap() else {
        panic!("a sample is a map")
    };
    fields
        .into_iter()
        .filter(|(_, value)| !value.is_boolean())
        // What is not finite has no number in JSON.
        .map(|(name, value)| (name, value.as_f64().unwrap_or(f64::NAN)))
        .collect()
}

/// Limits of the library's integrator: what a stretch between two switches may take.
const MOST_STEPS_PER_STRETCH: f64 = 2_000.0;
const MOST_STEPS_PER_DAY: f64 = 5_000.0;

fn check(run: &Run, days: f64, seed: u64) {
    assert!(run.samples.len() >= 2);
    assert_eq!(run.samples.last().unwrap().day, days);
    for sample in &run.samples {
        for (name, value) in numbers(sample) {
            let what = || format!("seed {seed}: {name} is {value} on day {}", sample.day);
            assert!(value.is_finite(), "{}", what());
            match name.as_str() {
                "ph_total" => assert!((0.0..14.0).contains(&value), "{}", what()),
                // Acid water has less than no alkalinity.
                "alkalinity_umol_per_kg" => {}
                // A few tolerances of 1e-4 below zero.
                "inorganic_carbon_umol_per_kg" | "oxygen_umol_per_kg" => {
                    assert!(value > -2.0, "{}", what());
                }
                "turf_cover" | "turf_reserve" => {
                    assert!((-1e-3..1.001).contains(&value), "{}", what());
                }
                _ => assert!(value > -1e-2, "{}", what()),
            }
        }
        assert!(sample.practical_salinity > 0.0, "seed {seed}");
    }
    for &stock in Stock::ALL {
        let closure = run.ledger.closure(stock);
        let (before, after) = run.ledger.stock(stock);
        let size = closure.throughput + before.abs() + after.abs();
        assert!(
            closure.unexplained.abs() <= 1e-9 * size,
            "seed {seed}: {stock:?} {closure:?}"
        );
    }
    let steps = (run.effort.steps + run.effort.rejected) as f64;
    let stretches = run.at_switches.len() as f64;
    assert!(steps <= MOST_STEPS_PER_STRETCH * stretches + MOST_STEPS_PER_DAY * days);
}

/// What a run ended with, for the table of outcomes.
fn outcome(seed: u64) -> &'static str {
    let mut rng = fastrand::Rng::with_seed(seed);
    let days = uniform(&mut rng, 0.5, 3.0);
    let (tank, schedule, parameters) = (
        tank(&mut rng),
        schedule(&mut rng, days),
        parameters(&mut rng),
    );
    let options = RunOptions {
        days,
        sample_every_days: 0.25,
        relative_tolerance: 1e-4,
        books_from_day: 0.0,
    };
    match simulate(&tank, &schedule, &parameters, &options) {
        Ok(run) => {
            check(&run, days, seed);
            FOLLOWED
        }
        Err(Error::Stuck { reason, day }) => {
            assert!((0.0..days).contains(&day), "seed {seed}: {day}");
            reason
        }
        Err(Error::Exhausted { stock, day }) => {
            assert!((0.0..days).contains(&day), "seed {seed}: {day}");
            stock
        }
        Err(Error::OutOfRange { input, .. }) => {
            panic!("seed {seed}: {input} was drawn within its limits")
        }
        Err(Error::Chemistry(error)) => {
            // Values of what was refused, with their units or their contradiction.
            let text = error.to_string();
            assert!(
                text.contains(" is ") || text.contains(" = "),
                "seed {seed}: {text}"
            );
            "outside what the chemistry, a feed or a parameter allows"
        }
        Err(other) => panic!("seed {seed}: {other}"),
    }
}

const FOLLOWED: &str = "followed to the end";

#[test]
fn wild_tanks_end_in_numbers_or_in_named_errors() {
    let threads = thread::available_parallelism()
        .map_or(1, usize::from)
        .min(4);
    let outcomes: Vec<&str> = thread::scope(|scope| {
        let running: Vec<_> = (0..threads)
            .map(|first| {
                scope.spawn(move || {
                    (first..TANKS)
                        .step_by(threads)
                        .map(|seed| outcome(seed as u64))
                        .collect::<Vec<_>>()
                })
            })
            .collect();
        running
            .into_iter()
            .flat_map(|t| t.join().unwrap())
            .collect()
    });
    let mut table = BTreeMap::new();
    for outcome in &outcomes {
        *table.entry(outcome).or_insert(0) += 1;
    }
    for (outcome, count) in &table {
        println!("{count:>5}  {outcome}");
    }
    assert_eq!(outcomes.len(), TANKS);
    // Wild enough to fail, and not so wild that nothing runs.
    let followed = table[&FOLLOWED];
    assert!(followed > TANKS / 2 && followed < TANKS - 100, "{followed}");
}

/// A description that cannot be followed names what is out of proportion.
#[test]
fn what_cannot_be_followed_says_why() {
    let options = RunOptions::days(30.0);
    let run = |change: fn(&mut Tank)| {
        let (mut tank, schedule) = mixed_reef();
        change(&mut tank);
        match simulate(&tank, &schedule, &Parameters::default(), &options) {
            Ok(_) => panic!("followed to the end"),
            Err(error) => error,
        }
    };
    // Above what the top-off delivers by default, 100 kg a day.
    let dry = run(|tank| tank.evaporation_l_per_day = 400.0);
    assert!(
        matches!(dry, Error::Exhausted { stock: "water", .. })
            || dry.to_string().contains("salinity"),
        "{dry}"
    );
    let rushed = run(|tank| tank.overflow_l_per_h = 1e7);
    assert!(matches!(rushed, Error::Stuck { .. }), "{rushed}");
    assert!(rushed.to_string().contains("too fast"), "{rushed}");
    let swallowed = run(|tank| {
        tank.net_volume_l = 20.0;
        tank.iron_oxide_grams = 1e6;
    });
    assert!(swallowed.to_string().contains("medium"), "{swallowed}");

    let (tank, schedule) = mixed_reef();
    let mut parameters = Parameters::default();
    parameters.turf.least_nitrogen_per_carbon = 0.2;
    let reversed = simulate(&tank, &schedule, &parameters, &options).unwrap_err();
    assert!(
        reversed.to_string().contains("least_nitrogen_per_carbon"),
        "{reversed}"
    );
    parameters = Parameters::default();
    parameters.turf.carbon_per_dry_mass = 0.0;
    let nothing = simulate(&tank, &schedule, &parameters, &options).unwrap_err();
    assert!(
        nothing.to_string().contains("carbon_per_dry_mass"),
        "{nothing}"
    );
}
