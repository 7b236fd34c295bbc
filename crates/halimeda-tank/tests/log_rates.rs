//! Net rates between tests against sums done by hand and against chance itself.

#![allow(clippy::unwrap_used)]

use halimeda::dosing::Salt;
use halimeda_tank::description::TankFile;
use halimeda_tank::log::rates::{balance, consumption, net_rates, pooled_rate};
use halimeda_tank::log::{Entry, Interval, Log, Measured, Reading, Record};
use halimeda_tank::{DatedEvent, Dosing, Event, NewWater, Setup};

/// 200 L, without planned water changes, dosing or events.
fn setup() -> Setup {
    let text = include_str!("../examples/invented_reef.toml");
    let mut setup = TankFile::from_toml(text).unwrap().setup();
    setup.schedule.water_change = None;
    setup.schedule.dosing = Dosing::default();
    setup
}

fn reading(day: f64, measured: Measured, low: f64, high: f64, u: f64) -> Reading {
    Reading {
        day,
        measured,
        interval: Interval::new(low, high, u).unwrap(),
    }
}

/// A test without any error to speak of.
fn exact(day: f64, measured: Measured, value: f64) -> Reading {
    reading(day, measured, value, value, 1e-6 * value)
}

fn log(readings: &[Reading], entries: &[(f64, Record)]) -> Log {
    let entries = entries.iter().map(|(day, record)| Entry {
        day: *day,
        record: record.clone(),
    });
    Log {
        readings: readings.to_vec(),
        probes: Vec::new(),
        entries: entries.collect(),
    }
}

fn close(value: f64, expected: f64, relative: f64) {
    assert!(
        (value - expected).abs() <= relative * expected.abs(),
        "{value}, not {expected}"
    );
}

/// From 10 to 6 mg/L in 4 d: −1 mg/L/d, in 200 L −200 mg/d of nitrate: of 62.004 g/mol
/// (atomic weights of IUPAC 2021) −3.2256 mmol/d, of nitrogen (14.007) −45.18 mg/d.
#[test]
fn nothing_done_between_two_tests() {
    let tests = [
        exact(1.0, Measured::Nitrate, 10.0),
        exact(5.0, Measured::Nitrate, 6.0),
    ];
    let log = log(&tests, &[]);
    let rates = net_rates(&setup(), &log, Measured::Nitrate).unwrap();
    assert_eq!(rates.len(), 1);
    close(rates[0].per_day.p50, -1.0, 1e-5);
    close(rates[0].mol_per_day.p50, -3.2256e-3, 1e-4);
    assert!(rates[0].doses_are_known);
    let balance = balance(&setup(), &log, 0.0, 10.0).unwrap();
    close(balance.nitrogen_mmol_per_day.unwrap().p50, -3.2256, 1e-4);
    close(balance.nitrogen_grams_per_day.unwrap().p50, -0.04518, 1e-3);
    assert_eq!(balance.phosphorus_mmol_per_day, None);
    assert!(!balance.counts_ammonia);
}

/// 50 of 200 L on the second of four days, for water without nitrate: of 10 mg/L 7.5 are
/// left, and of the first two days' gain three quarters, 2·0.75 + 2 = 3.5 d. From 10 to
/// 6 mg/L: (6 − 7.5)/3.5 = −0.42857 mg/L/d.
#[test]
fn water_changes_are_taken_out() {
    let tests = [
        exact(1.0, Measured::Nitrate, 10.0),
        exact(5.0, Measured::Nitrate, 6.0),
    ];
    let change = Record::WaterChange { litres: 50.0 };
    let logged = log(&tests, &[(3.0, change)]);
    let rates = net_rates(&setup(), &logged, Measured::Nitrate).unwrap();
    close(rates[0].per_day.p50, -0.428571, 1e-5);
    // The same change as an event of the schedule, and with water that itself holds
    // 8 mg/L (129.02 µmol/L, 126.0 µmol/kg at 1.0237 kg/L): 0.75 · 10 + 0.25 · 8 = 9.5,
    // and of 4 d the two before the change count three quarters: (6 − 9.5)/3.5.
    let mut water = NewWater {
        practical_salinity: 35.0,
        alkalinity_umol_per_kg: 2300.0,
        calcium_umol_per_kg: 10_280.0,
        magnesium_umol_per_kg: 52_800.0,
        strontium_umol_per_kg: 90.0,
        nitrate_umol_per_kg: 0.0,
        phosphate_umol_per_kg: 0.0,
    };
    for (nitrate, expected, tolerance) in [(0.0, -0.428571, 1e-5), (126.0, -1.0, 2e-3)] {
        water.nitrate_umol_per_kg = nitrate;
        let event = Event::WaterChange { share: 0.25, water };
        let mut happened = setup();
        happened
            .schedule
            .events
            .push(DatedEvent { day: 3.0, event });
        let rates = net_rates(&happened, &log(&tests, &[]), Measured::Nitrate).unwrap();
        close(rates[0].per_day.p50, expected, tolerance);
    }
    // The same change planned; none of it while nobody is there.
    let file = TankFile::from_toml(include_str!("../examples/invented_reef.toml")).unwrap();
    let mut planned = file.setup();
    let mut plan = planned.schedule.water_change.unwrap();
    plan.share = 0.25;
    plan.first_day = 3.0;
    plan.every_days = 50.0;
    planned.schedule.water_change = Some(plan);
    let rates = net_rates(&planned, &log(&tests, &[]), Measured::Nitrate).unwrap();
    close(rates[0].per_day.p50, -0.428571, 1e-5);
    let away = log(&tests, &[(2.0, Record::Event(Event::KeeperLeaves))]);
    let rates = net_rates(&planned, &away, Measured::Nitrate).unwrap();
    close(rates[0].per_day.p50, -1.0, 1e-5);
}

/// 1 g of sodium nitrate, 84.994 g/mol: 11.7655 mmol, 729.51 mg of nitrate, in 200 L
/// 3.6476 mg/L. Dosed between two tests of 5 mg/L, 2 d apart: −1.8238 mg/L/d.
#[test]
fn doses_are_taken_out() {
    let tests = [
        exact(1.0, Measured::Nitrate, 5.0),
        exact(3.0, Measured::Nitrate, 5.0),
    ];
    let dose = Record::Dose {
        salt: Salt::SodiumNitrate,
        grams: 1.0,
    };
    for (day, expected) in [(2.0, -1.8238), (1.0, -1.8238)] {
        let rates = net_rates(
            &setup(),
            &log(&tests, &[(day, dose.clone())]),
            Measured::Nitrate,
        );
        close(rates.unwrap()[0].per_day.p50, expected, 1e-4);
    }
    // After the second test, or before the first, it is none of this rate's.
    for day in [0.5, 3.0, 9.0] {
        let rates = net_rates(
            &setup(),
            &log(&tests, &[(day, dose.clone())]),
            Measured::Nitrate,
        );
        assert!(rates.unwrap()[0].per_day.p50.abs() < 1e-4, "{day}");
    }
    // The same dose as an event of the schedule.
    let mut dosed = setup();
    dosed.schedule.events.push(DatedEvent {
        day: 2.0,
        event: Event::Dose {
            salt: Salt::SodiumNitrate,
            grams: 1.0,
        },
    });
    let rate = net_rates(&dosed, &log(&tests, &[]), Measured::Nitrate).unwrap()[0];
    close(rate.per_day.p50, -1.8238, 1e-4);
    let mut dosed = setup();
    dosed.schedule.dosing.nitrate_mol_per_day = 11.7655e-3 / 2.0;
    dosed.schedule.dosing.adjusted_every_days = Some(7.0);
    let rate = net_rates(&dosed, &log(&tests, &[]), Measured::Nitrate).unwrap()[0];
    close(rate.per_day.p50, -1.8238, 1e-4);
    assert!(!rate.doses_are_known);
}

/// Limewater of 0.0162 mol/L in 3 L/d of top-off: 48.6 mmol/d of calcium and 97.2 meq/d,
/// which something takes where alkalinity stays as it is; half of it where the top-off
/// stood half of the time.
#[test]
fn limewater_is_taken_out_while_the_top_off_runs() {
    let tests = [
        exact(1.0, Measured::Alkalinity, 2800.0),
        exact(5.0, Measured::Alkalinity, 2800.0),
        exact(1.0, Measured::Calcium, 420.0),
        exact(5.0, Measured::Calcium, 420.0),
    ];
    let mut setup = setup();
    setup.tank.evaporation_l_per_day = 3.0;
    setup.schedule.dosing.limewater_mol_per_l = 0.0162;
    let taken = consumption(&setup, &log(&tests, &[]), 0.0, 6.0).unwrap();
    close(taken.alkalinity_meq_per_day.p50, 97.2, 1e-4);
    assert_eq!(taken.is_calcification(), Some(true));
    let stops = [
        (0.5, Record::Event(Event::TopOffStops)),
        (3.0, Record::Event(Event::TopOffRestored)),
    ];
    let taken = consumption(&setup, &log(&tests, &stops), 0.0, 6.0).unwrap();
    close(taken.alkalinity_meq_per_day.p50, 48.6, 1e-4);
}

/// 0.5 dKH/d are 0.5·20/56.077 = 0.17833 meq/L/d, with half as much calcium: 0.089165
/// mmol/L/d, 3.5736 mg/L/d (40.078 g/mol); a mole for two equivalents, as `dosing` has it.
#[test]
fn calcium_is_held_against_alkalinity() {
    // Density of salinity 35 at 25 °C, 1023.343 kg/m³ (UNESCO 1983); the tank's, at
    // 25.5 °C, is 0.02 % less.
    let alkalinity_per_day = 178.33 / 1.023343;
    let tests = |calcium_per_day: f64, u: f64| {
        let alkalinity = |day: f64| {
            let value = 2800.0 - alkalinity_per_day * day;
            reading(day, Measured::Alkalinity, value, value, 10.0)
        };
        let calcium = |day: f64| {
            let value = 420.0 - calcium_per_day * day;
            reading(day, Measured::Calcium, value, value, u)
        };
        let days = [0.0, 2.0, 4.0, 6.0];
        let readings: Vec<Reading> = days
            .iter()
            .flat_map(|day| [alkalinity(*day), calcium(*day)])
            .collect();
        log(&readings, &[])
    };
    let taken = consumption(&setup(), &tests(3.5736, 2.0), 0.0, 6.0).unwrap();
    close(taken.alkalinity_dkh_per_day.p50, 0.5, 1e-3);
    close(taken.alkalinity_meq_per_day.p50, 0.17833 * 200.0, 1e-3);
    close(taken.calcium_mg_per_l_per_day.unwrap().p50, 3.5736, 1e-3);
    assert!(taken.calcium_beyond_mmol_per_day.unwrap().p50.abs() < 0.05);
    assert_eq!(taken.is_calcification(), Some(true));
    assert_eq!(taken.magnesium_mg_per_l_per_day, None);
    // Twice the calcium is another thing, if the test can tell.
    let other = consumption(&setup(), &tests(7.1, 2.0), 0.0, 6.0).unwrap();
    assert_eq!(other.is_calcification(), Some(false));
    let unclear = consumption(&setup(), &tests(7.1, 30.0), 0.0, 6.0).unwrap();
    assert_eq!(unclear.is_calcification(), Some(true));
}

/// Contents drawn evenly, kept where a test with its error would have shown what it did:
/// the definition of the range, without any of the formulas.
#[test]
fn ranges_are_those_of_chance() {
    let mut random = fastrand::Rng::with_seed(3);
    let mut normal = move || {
        // Irwin-Hall would do for the middle, not for the tails: Box & Muller (1958).
        let (a, b) = (1.0 - random.f64(), random.f64());
        (-2.0 * a.ln()).sqrt() * (core::f64::consts::TAU * b).cos()
    };
    let mut uniform = fastrand::Rng::with_seed(4);
    let mut draw = |low: f64, high: f64, u: f64| loop {
        let span = high + 8.0 * u;
        let content = span * uniform.f64();
        let shown = content + u * normal();
        if (low..=high).contains(&shown) {
            return content;
        }
    };
    let change = Record::WaterChange { litres: 40.0 };
    for (first, second) in [
        ((4.5, 5.5, 0.7), (3.5, 4.5, 0.6)),
        ((0.0, 0.02, 0.01), (0.02, 0.04, 0.01)),
        ((0.0, 0.5, 0.5), (0.0, 0.5, 0.5)),
        ((2.0, 5.0, 0.1), (0.0, 2.0, 0.5)),
        ((9.0, 11.0, 0.05), (9.95, 10.05, 1.0)),
    ] {
        let tests = [
            reading(1.0, Measured::Nitrate, first.0, first.1, first.2),
            reading(4.0, Measured::Nitrate, second.0, second.1, second.2),
        ];
        let log = log(&tests, &[(2.0, change.clone())]);
        let range = net_rates(&setup(), &log, Measured::Nitrate).unwrap()[0].per_day;
        // Of the first content 0.8 are left; of three days 0.8 + 2.
        let mut rates: Vec<f64> = (0..40_000)
            .map(|_| {
                let (a, b) = (
                    draw(first.0, first.1, first.2),
                    draw(second.0, second.1, second.2),
                );
                (b - 0.8 * a) / 2.8
            })
            .collect();
        rates.sort_by(f64::total_cmp);
        let spread = rates[38_000] - rates[2000];
        for (found, share) in [(range.p5, 2000), (range.p50, 20_000), (range.p95, 38_000)] {
            let drawn = rates[share];
            assert!(
                (found - drawn).abs() < 0.015 * spread,
                "{first:?} {second:?}: {found}, drawn {drawn}"
            );
        }
    }
}

/// Made-up logs of a known rate, read to half a unit with an error of 0.5: the ranges
/// hold the rate nine times in ten. Four standard errors of 2000 tries are 2.7 %.
#[test]
fn pooled_ranges_hold_the_rate_as_often_as_they_say() {
    let mut random = fastrand::Rng::with_seed(11);
    let setup = setup();
    let (rate, start) = (-0.7, 20.0);
    for tests in [2, 3, 6] {
        let mut held = 0;
        for _ in 0..2000 {
            let readings: Vec<Reading> = (0..tests)
                .map(|i| {
                    let day = 12.0 * f64::from(i) / f64::from(tests - 1);
                    let error: f64 = (0..12).map(|_| random.f64()).sum::<f64>() - 6.0;
                    let shown = (2.0 * (start + rate * day + 0.5 * error)).round() / 2.0;
                    reading(day, Measured::Nitrate, shown - 0.25, shown + 0.25, 0.5)
                })
                .collect();
            let pooled =
                pooled_rate(&setup, &log(&readings, &[]), Measured::Nitrate, 0.0, 12.0).unwrap();
            assert_eq!(pooled.tests, tests as usize);
            held += usize::from(pooled.per_day.holds(rate));
        }
        let share = f64::from(held as u32) / 2000.0;
        // A scatter that happens to be large widens ranges; one that is small leaves them.
        let highest = if tests == 2 { 0.927 } else { 0.97 };
        assert!((0.873..highest).contains(&share), "{tests} tests: {share}");
    }
}

#[test]
fn scatter_beyond_the_tests_widens_the_range() {
    let setup = setup();
    let readings = |scatter: f64| {
        [0.0, 2.0, 4.0, 6.0, 8.0].map(|day: f64| {
            let side = if day % 4.0 == 0.0 { 1.0 } else { -1.0 };
            let value = 20.0 - day + scatter * side;
            reading(day, Measured::Nitrate, value, value, 0.3)
        })
    };
    let width = |scatter: f64| {
        let log = log(&readings(scatter), &[]);
        let rate = pooled_rate(&setup, &log, Measured::Nitrate, 0.0, 8.0).unwrap();
        close(rate.per_day.p50, -1.0, 0.01);
        rate.per_day.p95 - rate.per_day.p5
    };
    // 0.3/√(16 + 4 + 0 + 4 + 16) of the line's slope, 1.645 of it to each side.
    close(width(0.0), 2.0 * 1.644854 * 0.3 / 40f64.sqrt(), 0.01);
    assert!(width(2.0) > 5.0 * width(0.0));
}

#[test]
fn what_is_missing_is_said() {
    let one = log(&[exact(1.0, Measured::Nitrate, 10.0)], &[]);
    let error = net_rates(&setup(), &one, Measured::Nitrate).unwrap_err();
    assert_eq!(
        error.to_string(),
        "a rate of nitrate needs two tests at least six hours apart, and there is one in the log"
    );
    let error = balance(&setup(), &Log::default(), 3.0, 10.0).unwrap_err();
    assert!(
        error
            .to_string()
            .ends_with("there is none between day 3.0 and day 10.0"),
        "{error}"
    );
    let close_by = log(
        &[
            exact(1.0, Measured::Nitrate, 10.0),
            exact(1.1, Measured::Nitrate, 9.0),
        ],
        &[],
    );
    let error = net_rates(&setup(), &close_by, Measured::Nitrate).unwrap_err();
    assert!(
        error
            .to_string()
            .contains("the 2 there are lie closer together"),
        "{error}"
    );
    let error = net_rates(&setup(), &one, Measured::Ph).unwrap_err();
    assert!(
        error
            .to_string()
            .starts_with("ph has no rate of gain or loss"),
        "{error}"
    );
    for day in [f64::INFINITY, f64::NAN, -1.0] {
        let log = log(
            &[
                exact(1.0, Measured::Nitrate, 10.0),
                exact(day, Measured::Nitrate, 6.0),
            ],
            &[],
        );
        let error = net_rates(&setup(), &log, Measured::Nitrate).unwrap_err();
        assert!(
            error.to_string().starts_with("day of a reading is"),
            "{error}"
        );
    }
    let tests = [
        exact(1.0, Measured::Nitrate, 10.0),
        exact(5.0, Measured::Nitrate, 6.0),
    ];
    let change = Record::WaterChange { litres: 250.0 };
    let error = net_rates(&setup(), &log(&tests, &[(3.0, change)]), Measured::Nitrate);
    assert!(
        error
            .unwrap_err()
            .to_string()
            .contains("litres of a water change is 250")
    );
}
