use std::ops::ControlFlow;
use std::sync::LazyLock;

use statrs::distribution::{ContinuousCDF as _, Normal};

use super::cause::Inquest;
use super::*;
use crate::log::{Entry, HarvestWeight, Interval, Log, Reading, Record, logged_setup};
use crate::parameters::Parameters;
use crate::plan::Goals;
use crate::ranges::Ranges;
use crate::simulate::simulate;
use crate::tank::{DatedEvent, Event, Setup};
use crate::testing::setup;
use crate::work::Work;

const DAYS: f64 = 66.0;
const FROM_DAY: f64 = 22.0;

/// The day on which something happens that nobody writes down.
const HAPPENS: f64 = 43.0;

/// Truths that are asked about, and how many.
const SEEDS: usize = 24;

fn go(_: f64, _: f64) -> ControlFlow<()> {
    ControlFlow::Continue(())
}

/// Chance with a seed.
struct Noise(fastrand::Rng);

impl Noise {
    fn normal(&mut self, deviation: f64) -> f64 {
        let share = self.0.f64().clamp(1e-9, 1.0 - 1e-9);
        deviation * Normal::standard().inverse_cdf(share)
    }
}

/// Harvests every nine days, as the tank's plan has them, and tests every four days.
fn log_of(truth: &Parameters, event: Option<Event>, seed: u64) -> Log {
    let mut noise = Noise(fastrand::Rng::with_seed(seed));
    let mut setup = logged_setup(&setup(), &harvests(|_| 1.0)).unwrap();
    setup.schedule.events.extend(event.map(|event| DatedEvent {
        day: HAPPENS,
        event,
    }));
    let run = simulate(
        &setup.tank,
        &setup.schedule,
        truth,
        &LoggedTank::run_options(DAYS + 0.1),
    )
    .unwrap();
    let mut readings = Vec::new();
    for i in 0..16 {
        let day = 1.5 + 4.0 * f64::from(i);
        for (measured, step, deviation, share) in [
            (Measured::Nitrate, 1.0, 0.2, 0.08),
            (Measured::Phosphate, 0.01, 0.01, 0.05),
            (Measured::Alkalinity, 36.0, 36.0, 0.0),
        ] {
            let value = run.value_at(measured.variable().unwrap(), day).unwrap();
            let error = f64::hypot(deviation, share * value);
            let shown = ((value + noise.normal(error)).max(0.0) / step).round() * step;
            readings.push(Reading {
                day,
                measured,
                interval: Interval::new((shown - 0.5 * step).max(0.0), shown + 0.5 * step, error)
                    .unwrap(),
            });
        }
    }
    let mut harvested = run.harvests.iter();
    let entries = harvests(|_| {
        let drained = harvested.next().unwrap().harvest.drained_grams;
        (drained * noise.normal(0.12).exp()).max(1.0)
    });
    Log {
        readings,
        ..entries
    }
}

fn harvests(mut grams: impl FnMut(f64) -> f64) -> Log {
    let harvest = |day| Entry {
        day,
        record: Record::Harvest {
            weight: Some(HarvestWeight::WetGrams(grams(day))),
        },
    };
    Log {
        entries: [6.0, 15.0, 24.0, 33.0, 42.0, 51.0, 60.0]
            .map(harvest)
            .to_vec(),
        ..Log::default()
    }
}

fn members(count: usize, seed: u32, setup: &Setup) -> Vec<Member> {
    let draws = Ranges::default().draw(count, seed).unwrap();
    draws
        .into_iter()
        .map(|parameters| Member {
            setup: setup.clone(),
            parameters,
        })
        .collect()
}

/// Tanks as little known as can be, through every suspicion: once for all logs below,
/// which differ in their readings alone.
static INQUEST: LazyLock<Inquest> = LazyLock::new(|| {
    let setup = setup();
    let log = log_of(&Parameters::default(), None, 1);
    let members = members(48, 7, &setup);
    let tank = LoggedTank {
        setup: &setup,
        log: &log,
        members: &members,
        goals: &Goals::default(),
        today: DAYS,
    };
    let earlier = Earlier {
        members: &members,
        until_day: FROM_DAY,
    };
    let options = VerdictOptions {
        members: 48,
        ..VerdictOptions::default()
    };
    let mut progress = go;
    let work = Work::new(&mut progress, 1.0);
    Inquest::follow(&tank, Some(&earlier), &options, &work)
        .unwrap()
        .unwrap()
});

/// What is said of logs of tanks drawn from the ranges to which something happened.
fn judged(event: Option<Event>) -> Vec<Causes> {
    let truths = Ranges::default().draw(SEEDS, 99).unwrap();
    truths
        .iter()
        .enumerate()
        .map(|(seed, truth)| INQUEST.weigh(&log_of(truth, event, seed as u64)).unwrap())
        .collect()
}

fn named_first(judged: &[Causes], suspect: Suspect) -> Vec<Cause> {
    judged
        .iter()
        .filter_map(|causes| causes.named().copied())
        .filter(|c| c.suspect == suspect)
        .collect()
}

/// Every time, and within a week of the day: from the readings of six visits after it.
#[test]
fn lamps_that_failed_are_named() {
    let named = named_first(&judged(Some(Event::ScreenLampFails)), Suspect::LampFailed);
    assert_eq!(named.len(), SEEDS);
    for cause in named {
        assert!((cause.day - HAPPENS).abs() < 7.0, "{cause:?}");
        assert!(cause.range[0] <= HAPPENS + 3.0 && cause.range[1] >= HAPPENS - 3.0);
    }
}

/// In most tanks within three weeks, in the others not yet: half as much again of food
/// shows late where the screen takes it up.
#[test]
fn feeding_that_went_up_is_named() {
    let named = named_first(
        &judged(Some(Event::FeedingScaled { factor: 1.5 })),
        Suspect::FeedingUp,
    );
    assert!(named.len() >= SEEDS / 2, "{}", named.len());
    let near = named.iter().filter(|c| (c.day - HAPPENS).abs() < 9.0);
    assert!(near.count() >= named.len() * 9 / 10);
}

#[test]
fn nothing_is_named_where_all_is_well() {
    let judged = judged(None);
    let named = judged.iter().filter(|c| c.named().is_some()).count();
    assert!(named <= 1, "{named}");
    let sums = judged.iter().map(|c| {
        let suspected: f64 = c.suspected.iter().map(|s| s.probability).sum();
        c.nothing + suspected
    });
    assert!(sums.into_iter().all(|sum| (sum - 1.0).abs() < 1e-9));
}

fn verdict_on(setup: &Setup, log: &Log) -> Verdict {
    let logged = logged_setup(setup, log).unwrap();
    let members = members(16, 3, &logged);
    let tank = LoggedTank {
        setup,
        log,
        members: &members,
        goals: &Goals::default(),
        today: DAYS,
    };
    let options = VerdictOptions {
        every_days: 20.0,
        members: 8,
        ..VerdictOptions::default()
    };
    verdict(&tank, None, &options, &mut go).unwrap()
}

/// A screen a tenth as large under the same food takes out a small part of the load,
/// by the books of every member; the large one keeps pace.
#[test]
fn a_screen_too_small_falls_behind() {
    let log = log_of(&Parameters::default(), None, 5);
    let mut small = setup();
    small.tank.screen.width_cm *= 0.1;
    let behind = verdict_on(&small, &log).removal.unwrap();
    assert_eq!(behind.nitrogen_keeps_pace, 0.0);
    assert!(behind.nitrogen_per_load.p50 < 0.5, "{behind:?}");
    let whole = verdict_on(&setup(), &log).removal.unwrap();
    assert!(whole.nitrogen_per_load.p50 > 2.0 * behind.nitrogen_per_load.p50);
}

#[test]
fn a_log_without_tests_says_what_is_missing() {
    let verdict = verdict_on(&setup(), &harvests(|_| 100.0));
    assert!(verdict.removal.is_none() && verdict.causes.is_none());
    assert!(verdict.summary[0].contains("does not tell"));
    assert!(
        verdict
            .missing
            .iter()
            .any(|m| m.contains("No test of nitrate"))
    );
    assert!(
        verdict
            .cautions
            .iter()
            .any(|c| c.contains("Never chase zero"))
    );
    let empty = verdict_on(&setup(), &Log::default());
    assert!(empty.missing.iter().any(|m| m.contains("No harvest")));
}

#[test]
fn a_verdict_can_be_written() {
    let log = log_of(&Parameters::default(), None, 5);
    let verdict = verdict_on(&setup(), &log);
    let json = serde_json::to_value(&verdict).unwrap();
    assert_eq!(json["harvests"].as_array().unwrap().len(), 7);
    assert_eq!(json["stalls"].as_array().unwrap().len(), Stall::ALL.len());
    for sentence in &verdict.summary {
        assert!(
            sentence.ends_with('.') && !sentence.contains("NaN"),
            "{sentence}"
        );
    }
}

/// Nitrate that falls by 0.1 mg/L a day and from day 30 on rises by 0.2: read with
/// errors, over many seeds.
#[test]
fn a_bend_is_found_where_it_is() {
    let mut found = 0;
    let mut straight = 0;
    for seed in 0..40 {
        let bend = |bends: bool| {
            let mut noise = Noise(fastrand::Rng::with_seed(seed));
            let readings = (0..20)
                .map(|i| {
                    let day = 3.0 * f64::from(i);
                    let after = if bends { (day - 30.0).max(0.0) } else { 0.0 };
                    let value = 12.0 - 0.1 * day + 0.3 * after + noise.normal(0.4);
                    Reading {
                        day,
                        measured: Measured::Nitrate,
                        interval: Interval::new(value, value, 0.4).unwrap(),
                    }
                })
                .collect();
            let setup = setup();
            let log = Log {
                readings,
                ..Log::default()
            };
            let members = members(1, 1, &setup);
            let tank = LoggedTank {
                setup: &setup,
                log: &log,
                members: &members,
                goals: &Goals::default(),
                today: 60.0,
            };
            trend::trend(&tank, Measured::Nitrate).unwrap()
        };
        let with = bend(true);
        assert!(with.falling < 0.01);
        if let Some(bend) = with.bend {
            found += usize::from((bend.range[0] - 2.0..=bend.range[1] + 2.0).contains(&30.0));
        }
        let without = bend(false);
        assert!(without.falling > 0.99);
        straight += usize::from(without.bend.is_none());
    }
    assert!(found >= 36 && straight >= 36, "{found} {straight}");
}

/// A water change that takes a fifth out of the water is no fall of its own.
#[test]
fn water_changes_are_taken_out_of_a_trend() {
    let setup = setup();
    let reading = |day: f64, value: f64| Reading {
        day,
        measured: Measured::Nitrate,
        interval: Interval::new(value, value, 0.2).unwrap(),
    };
    let log = Log {
        readings: (0..10)
            .map(|i| {
                let day = 2.0 * f64::from(i);
                reading(day, if day < 9.0 { 10.0 } else { 8.0 })
            })
            .collect(),
        entries: vec![Entry {
            day: 9.0,
            record: Record::WaterChange { litres: 40.0 },
        }],
        ..Log::default()
    };
    let members = members(1, 1, &setup);
    let tank = LoggedTank {
        setup: &setup,
        log: &log,
        members: &members,
        goals: &Goals::default(),
        today: 20.0,
    };
    let trend = trend::trend(&tank, Measured::Nitrate).unwrap();
    assert!(trend.slope_mg_per_l_per_day.abs() < 1e-9 && trend.bend.is_none());
}
