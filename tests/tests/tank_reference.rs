//! A tank through time against an independent solver: the equations written a
//! second time in `tests/python/tank_equations.py`, integrated by SciPy's DOP853
//! at a relative tolerance of 1e-11.
//!
//! `cargo xtask test tank-reference` runs this; it starts the Python that
//! `HALIMEDA_PYTHON` names.

use std::error::Error;
use std::path::PathBuf;
use std::process::Command;

use halimeda::process::{FeedComposition, FeedKind};
use halimeda_tank::{
    DatedEvent, Dosing, Event, Feeding, FoamFractionatorSetup, HarvestPlan, InitialWater, NewWater,
    Parameters, Photoperiod, RoomAir, RunOptions, Schedule, ScreenSetup, Stock, Tank,
    WaterChangePlan, simulate,
};
use serde::{Deserialize, Serialize};

type Stocks = [f64; Stock::COUNT];
type Outcome = Result<(), Box<dyn Error>>;

/// Largest error of a stock at any switch, of itself, at the tolerance a run has
/// by default.
const AT_DEFAULT_TOLERANCE: f64 = 1e-5;
/// The same at a relative tolerance of 1e-11: what is left is the difference of
/// two sets of equations that should be one.
const AT_TIGHT_TOLERANCE: f64 = 1e-8;

/// What both sides are given.
#[derive(Debug, Clone, Serialize)]
struct Case {
    tank: Tank,
    schedule: Schedule,
    parameters: Parameters,
    days: f64,
    /// Whether one plain adaptive call is tried as well.
    plain: bool,
}

/// What Python gives back.
#[derive(Debug, Deserialize)]
struct Reference {
    stocks: Vec<String>,
    /// A day and the stocks on it.
    at_switches: Vec<Vec<f64>>,
    evaluations: usize,
    plain: Option<Plain>,
}

/// The end of a run by one plain adaptive call.
#[derive(Debug, Deserialize)]
struct Plain {
    success: bool,
    end: Stocks,
    steps: usize,
}

impl Case {
    fn reference(&self, name: &str) -> Result<Reference, Box<dyn Error>> {
        let python = std::env::var_os("HALIMEDA_PYTHON")
            .ok_or("HALIMEDA_PYTHON names no Python, run `cargo xtask test tank-reference`")?;
        let root = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
        let directory = PathBuf::from(env!("CARGO_TARGET_TMPDIR"));
        let file = |kind: &str| directory.join(format!("tank-{name}-{kind}.json"));
        std::fs::write(file("case"), serde_json::to_string_pretty(self)?)?;
        let status = Command::new(python)
            // Leaves no compiled modules beside the sources.
            .arg("-B")
            .arg(root.join("python/tank_reference.py"))
            .args([file("case"), file("result")])
            .status()?;
        assert!(status.success(), "tank_reference.py ended with {status}");
        let reference: Reference = serde_json::from_str(&std::fs::read_to_string(file("result"))?)?;
        let names: Vec<String> = Stock::ALL.iter().map(|s| format!("{s:?}")).collect();
        assert_eq!(reference.stocks, names, "stocks");
        Ok(reference)
    }

    fn at_switches(&self, relative_tolerance: f64) -> Result<Vec<(f64, Stocks)>, Box<dyn Error>> {
        let mut options = RunOptions::days(self.days).sampled_every_days(self.days);
        options.relative_tolerance = relative_tolerance;
        let run = simulate(&self.tank, &self.schedule, &self.parameters, &options)?;
        Ok(run.at_switches)
    }

    /// Prints the largest error of each stock, and fails if one is too large.
    fn compare(&self, name: &str) -> Result<Reference, Box<dyn Error>> {
        let reference = self.reference(name)?;
        let default = RunOptions::days(self.days).relative_tolerance;
        let runs = [(default, AT_DEFAULT_TOLERANCE), (1e-11, AT_TIGHT_TOLERANCE)]
            .map(|(tolerance, limit)| (tolerance, limit, self.at_switches(tolerance)));
        let mut title = String::new();
        let mut table = vec![String::new(); Stock::COUNT];
        let mut outside = Vec::new();
        for (tolerance, limit, run) in runs {
            let run = run?;
            title += &format!("{:>25}", format!("tolerance {tolerance:e}"));
            assert_eq!(run.len(), reference.at_switches.len(), "switches");
            for (&stock, line) in Stock::ALL.iter().zip(&mut table) {
                let mut worst = (0.0, 0.0);
                for ((day, ours), theirs) in run.iter().zip(&reference.at_switches) {
                    assert!(
                        (day - theirs[0]).abs() < 1e-9,
                        "{day} against {}",
                        theirs[0]
                    );
                    let i = stock as usize;
                    let error = relative(ours[i], theirs[i + 1]);
                    if error.is_nan() || error > worst.0 {
                        worst = (error, *day);
                    }
                }
                *line += &format!("{:>12.1e} on day{:>6.2}", worst.0, worst.1);
                // Not a number is outside.
                let inside = worst.0 <= limit;
                if !inside {
                    outside.push(format!(
                        "{stock:?} {:.1e} at tolerance {tolerance:e}",
                        worst.0
                    ));
                }
            }
        }
        let mut report = format!(
            "\n{name}: {} days, {} switches; reference {} evaluations\n{:<20}{title}\n",
            self.days,
            reference.at_switches.len(),
            reference.evaluations,
            "stock"
        );
        for (stock, line) in Stock::ALL.iter().zip(table) {
            report += &format!("{:<20}{line}\n", format!("{stock:?}"));
        }
        // At once, for the cases run side by side.
        println!("{report}");
        assert!(outside.is_empty(), "{name}: {outside:#?}");
        Ok(reference)
    }
}

/// How far a number is off, of itself; equal zeros are not.
fn relative(ours: f64, theirs: f64) -> f64 {
    if ours == theirs {
        0.0
    } else {
        (ours / theirs - 1.0).abs()
    }
}

/// 300 L with corals, fish and a ripe screen lit against the display's day.
fn nominal() -> Case {
    Case {
        tank: Tank {
            name: "invented".to_owned(),
            net_volume_l: 300.0,
            temperature_celsius: 25.5,
            practical_salinity: 35.0,
            water: InitialWater {
                alkalinity_umol_per_kg: 2900.0,
                inorganic_carbon_umol_per_kg: None,
                oxygen_saturation: 0.95,
                ammonia_umol_per_kg: 0.5,
                nitrate_umol_per_kg: 100.0,
                phosphate_umol_per_kg: 0.8,
                calcium_umol_per_kg: 10_500.0,
                magnesium_umol_per_kg: 53_000.0,
                strontium_umol_per_kg: 90.0,
                detritus_dry_grams: 20.0,
            },
            air: RoomAir {
                co2_ppm: 700.0,
                pressure_atm: 1.0,
            },
            surface_area_m2: 0.8,
            overflow_l_per_h: 1500.0,
            rock_area_m2: 4.0,
            living_area_m2: 0.6,
            coral_area_m2: 0.25,
            coralline_area_m2: 0.2,
            livestock_grams: 120.0,
            iron_oxide_grams: 0.0,
            foam_fractionator: None,
            evaporation_l_per_day: 4.0,
            screen: ScreenSetup {
                width_cm: 25.0,
                height_cm: 25.0,
                lit_faces: 2,
                irradiance_umol_per_m2_s: 350.0,
                flow_l_per_h_per_cm: 52.0,
                age_days: 100.0,
                lamp_hours: 2000.0,
                turf_g_dry_per_m2: 60.0,
            },
        },
        schedule: Schedule {
            display_light: Photoperiod {
                start_hour: 10.0,
                hours: 11.0,
            },
            screen_light: Photoperiod {
                start_hour: 18.5,
                hours: 17.5,
            },
            feedings: vec![
                Feeding {
                    hour: 8.0,
                    grams: 1.5,
                    kind: FeedKind::Pellet,
                },
                Feeding {
                    hour: 19.0,
                    grams: 6.0,
                    kind: FeedKind::Frozen,
                },
            ],
            harvest: Some(HarvestPlan {
                every_days: 9.0,
                first_day: 4.4,
                kept_share: 0.2,
                fed_back_share: 0.0,
            }),
            water_change: None,
            salinity_check_every_days: None,
            dosing: Dosing {
                bicarbonate_mol_per_day: 0.05,
                calcium_mol_per_day: 0.025,
                ..Dosing::default()
            },
            events: Vec::new(),
        },
        parameters: Parameters::default(),
        days: 30.0,
        plain: false,
    }
}

fn on(day: f64, event: Event) -> DatedEvent {
    DatedEvent { day, event }
}

#[test]
fn nothing_goes_wrong() -> Outcome {
    nominal().compare("nominal").map(|_| ())
}

#[test]
fn everything_fails() -> Outcome {
    let mut case = nominal();
    case.schedule.events = vec![
        on(3.3, Event::ScreenLampFails),
        on(6.6, Event::RoomCo2 { ppm: 1800.0 }),
        on(8.1, Event::ScreenLampRepaired),
        on(9.0, Event::RoomCo2 { ppm: 450.0 }),
        on(10.2, Event::ScreenFlowDrops { share: 0.3 }),
        on(13.0, Event::ScreenFlowDrops { share: 0.0 }),
        on(13.3, Event::ScreenFlowRestored),
        on(16.7, Event::PumpStops),
        on(17.05, Event::PumpRestored),
        on(18.0, Event::FeedingStops),
        on(18.0, Event::HarvestsStop),
        on(24.0, Event::FeedingResumes),
        on(24.5, Event::TopOffStops),
        on(26.1, Event::TopOffRestored),
    ];
    case.compare("failures").map(|_| ())
}

#[test]
fn everything_is_dosed() -> Outcome {
    let mut case = nominal();
    case.tank.iron_oxide_grams = 150.0;
    case.tank.air.pressure_atm = 0.92;
    case.tank.foam_fractionator = Some(FoamFractionatorSetup {
        water_l_per_h: 500.0,
        air_co2_ppm: 420.0,
    });
    case.schedule.dosing = Dosing {
        bicarbonate_mol_per_day: 0.04,
        carbonate_mol_per_day: 0.01,
        hydroxide_mol_per_day: 0.005,
        calcium_mol_per_day: 0.02,
        magnesium_mol_per_day: 0.004,
        nitrate_mol_per_day: 0.002,
        phosphate_mol_per_day: 0.0002,
        organic_carbon_mol_per_day: 0.06,
        limewater_mol_per_l: 0.018,
        reactor_mol_per_day: 0.02,
        reactor_excess_co2_per_mol: 0.4,
        adjusted_every_days: Some(5.0),
    };
    case.schedule.salinity_check_every_days = Some(5.0);
    case.schedule.water_change = Some(WaterChangePlan {
        every_days: 7.0,
        first_day: 6.75,
        share: 0.12,
        water: NewWater {
            practical_salinity: 35.4,
            alkalinity_umol_per_kg: 3100.0,
            calcium_umol_per_kg: 10_900.0,
            magnesium_umol_per_kg: 54_000.0,
            strontium_umol_per_kg: 95.0,
            nitrate_umol_per_kg: 1.0,
            phosphate_umol_per_kg: 0.05,
        },
    });
    case.schedule.events = vec![
        on(15.0, Event::NewIronOxide { grams: 90.0 }),
        // Nobody there for a water change, a harvest and two tests.
        on(18.0, Event::KeeperLeaves),
        on(26.0, Event::KeeperReturns),
    ];
    case.compare("dosing").map(|_| ())
}

/// No parameter at its default, so that none can stand for another.
#[test]
fn a_new_screen_feeds_the_fish() -> Outcome {
    let mut case = nominal();
    let mut random = fastrand::Rng::with_seed(7);
    for (i, (_, info)) in Parameters::infos().enumerate() {
        let value = info.low + random.f64() * (info.high - info.low);
        case.parameters = case.parameters.with_value(i, value);
    }
    case.tank.temperature_celsius = 27.3;
    case.tank.water.inorganic_carbon_umol_per_kg = Some(2600.0);
    case.tank.foam_fractionator = Some(FoamFractionatorSetup {
        water_l_per_h: 400.0,
        air_co2_ppm: 500.0,
    });
    case.tank.iron_oxide_grams = 30.0;
    case.tank.screen.turf_g_dry_per_m2 = 0.0;
    case.tank.screen.lit_faces = 1;
    case.schedule.dosing.organic_carbon_mol_per_day = 0.02;
    case.schedule.display_light.start_hour = 0.0;
    case.schedule.screen_light.hours = 24.0;
    case.schedule.feedings[0].kind = FeedKind::DriedMacroalgae;
    case.schedule.feedings[1].kind = FeedKind::Custom(FeedComposition {
        water_fraction: 0.7,
        protein_fraction_of_dry: 0.5,
        phosphorus_fraction_of_dry: 0.011,
        carbon_fraction_of_dry: 0.44,
    });
    case.schedule.harvest = Some(HarvestPlan {
        every_days: 8.0,
        first_day: 14.0,
        kept_share: 0.3,
        fed_back_share: 0.6,
    });
    case.schedule.events = vec![
        on(12.3, Event::FeedingScaled { factor: 1.7 }),
        on(
            17.2,
            Event::Harvest {
                kept_share: 0.5,
                fed_back_share: 1.0,
            },
        ),
        on(20.0, Event::NewScreenLamp),
        on(26.1, Event::HarvestsStop),
        on(31.0, Event::NewScreen),
        on(33.0, Event::HarvestsResume),
    ];
    case.days = 40.0;
    case.compare("fed-back").map(|_| ())
}

/// One adaptive call over lamps that switch, with the settings a solver has by
/// default, steps over whole photoperiods and reports success. Restarted at each
/// switch, the solution is right.
#[test]
fn a_plain_adaptive_call_is_wrong_and_reports_success() -> Outcome {
    let mut case = nominal();
    // Lamps and nothing else; without an overflow the water follows slowly, and the
    // solver takes long steps.
    case.tank.overflow_l_per_h = 0.0;
    case.schedule.feedings.clear();
    case.schedule.harvest = None;
    case.schedule.display_light.hours = 8.0;
    case.schedule.screen_light = Photoperiod {
        start_hour: 20.0,
        hours: 8.0,
    };
    case.days = 20.0;
    case.plain = true;
    // Ours is within its tolerance at every switch.
    let reference = case.compare("lamps")?;
    let plain = reference.plain.ok_or("no plain call")?;
    let truth = reference.at_switches.last().ok_or("no end")?;
    let mut errors: Vec<(f64, Stock)> = Stock::ALL
        .iter()
        .map(|&s| (relative(plain.end[s as usize], truth[1 + s as usize]), s))
        .collect();
    errors.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut report = format!(
        "one plain call: {} steps, success {}\n",
        plain.steps, plain.success
    );
    for (error, stock) in &errors[..6] {
        report += &format!("{:<20}{:>9.1} %\n", format!("{stock:?}"), 100.0 * error);
    }
    println!("{report}");
    assert!(plain.success);
    assert!(errors[0].0 > 0.2, "{errors:?}");
    Ok(())
}
