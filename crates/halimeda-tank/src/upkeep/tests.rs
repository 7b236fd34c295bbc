use std::ops::ControlFlow;

use jiff::Timestamp;
use jiff::civil::date;
use jiff::tz::TimeZone;

use super::*;
use crate::error::Result;
use crate::fit::Member;
use crate::log::{Entry, Interval, Log, Measured, ProbeSeries, Reading, Record};
use crate::logged::LoggedTank;
use crate::parameters::Parameters;
use crate::plan::Goals;
use crate::ranges::Ranges;
use crate::simulate::simulate;
use crate::tank::{Event, Setup, WaterChangePlan};
use crate::testing::setup;

fn of(setup: &Setup, log: &Log, members: &[Member]) -> Result<Vec<Upkeep>> {
    let tank = LoggedTank {
        setup,
        log,
        members,
        goals: &Goals::default(),
        today: 26.0,
    };
    let options = UpkeepOptions {
        days: 60.0,
        ..UpkeepOptions::default()
    };
    due(&tank, &options, &mut |_, _| ControlFlow::Continue(()))
}

fn entry(day: f64, record: Record) -> Entry {
    Entry { day, record }
}

/// A sawtooth in time: the day of the best mean gain by brute force on a run without
/// harvests after the last.
#[test]
fn a_harvest_is_due_where_the_mean_gain_is_best() {
    let setup = setup();
    let log = Log {
        entries: [6.0, 15.0, 24.0]
            .map(|day| entry(day, Record::Harvest { weight: None }))
            .to_vec(),
        ..Log::default()
    };
    let members = [Member {
        setup: setup.clone(),
        parameters: Parameters::default(),
    }];
    let due = of(&setup, &log, &members).unwrap();
    let harvests: Vec<&Upkeep> = due.iter().filter(|u| u.task == Task::Harvest).collect();
    assert_eq!(harvests[0].number, 4);
    assert_eq!(harvests[1].number, 5);

    let mut unharvested = setup.clone();
    unharvested.schedule.harvest.as_mut().unwrap().every_days = 9.0;
    unharvested.schedule.events.push(crate::tank::DatedEvent {
        day: 25.0,
        event: Event::HarvestsStop,
    });
    let run = simulate(
        &unharvested.tank,
        &unharvested.schedule,
        &Parameters::default(),
        &LoggedTank::run_options(56.0),
    )
    .unwrap();
    let turf = |day: f64| {
        let at = run.samples.iter().find(|s| s.day >= day).unwrap();
        at.turf_g_dry_per_m2
    };
    let mean_gain = |day: f64| (turf(day) - turf(24.1)) / (day - 24.0);
    let best = mean_gain(harvests[0].day);
    for later in 26..56 {
        assert!(mean_gain(f64::from(later)) <= 1.001 * best, "{later}");
    }
    assert!((26.0..50.0).contains(&harvests[0].day), "{harvests:?}");
}

#[test]
fn parts_tests_and_changes_follow_model_and_log() {
    let mut setup = setup();
    setup.schedule.water_change = Some(WaterChangePlan {
        every_days: 14.0,
        first_day: 7.0,
        share: 0.1,
        water: crate::tank::NewWater {
            practical_salinity: 35.0,
            alkalinity_umol_per_kg: 2800.0,
            calcium_umol_per_kg: 10400.0,
            magnesium_umol_per_kg: 53000.0,
            strontium_umol_per_kg: 90.0,
            nitrate_umol_per_kg: 0.0,
            phosphate_umol_per_kg: 0.0,
        },
    });
    setup.tank.iron_oxide_grams = 20.0;
    setup.tank.screen.lamp_hours = 49_000.0;
    let reading = |day, measured| Reading {
        day,
        measured,
        interval: Interval::new(2.0, 2.0, 0.1).unwrap(),
    };
    let log = Log {
        readings: [1.0, 5.0, 9.0, 13.0, 17.0, 21.0, 25.0]
            .map(|day| reading(day, Measured::Nitrate))
            .to_vec(),
        entries: vec![
            entry(6.0, Record::Harvest { weight: None }),
            entry(15.0, Record::Harvest { weight: None }),
            entry(21.0, Record::WaterChange { litres: 20.0 }),
        ],
        probes: vec![],
    };
    let members: Vec<Member> = Ranges::default()
        .draw(6, 1)
        .unwrap()
        .into_iter()
        .map(|parameters| Member {
            setup: setup.clone(),
            parameters,
        })
        .collect();
    let due = of(&setup, &log, &members).unwrap();
    let days = |task| -> Vec<f64> {
        due.iter()
            .filter(|u| u.task == task)
            .map(|u| u.day)
            .collect()
    };
    // Every four days, as the log has it, from the one on day 25.
    assert_eq!(days(Task::Test(Measured::Nitrate))[..2], [29.0, 33.0]);
    // Never tested: due at once, then weekly.
    assert_eq!(days(Task::Test(Measured::Phosphate))[..2], [26.0, 33.0]);
    assert_eq!(days(Task::WaterChange), [35.0, 49.0, 63.0, 77.0]);
    // 49 000 h and 26 days of 14 h: 636 h to 50 000 h are 45.4 more days; other lamps
    // lost their 30 % long ago.
    let lamps = days(Task::NewLamps)[0];
    assert!((26.0..=72.0).contains(&lamps), "{lamps}");
    // 20 g of medium hold at most 200 mg of phosphorus: weeks.
    let medium = due.iter().find(|u| u.task == Task::NewIronOxide).unwrap();
    assert!(medium.day < 56.0 && medium.range.is_some());
    assert!(due.windows(2).all(|w| w[0].day <= w[1].day));
    assert!(due.iter().all(|u| u.day >= 26.0 && !u.reason.is_empty()));
}

#[test]
fn a_probe_that_drifts_is_calibrated_early() {
    let setup = setup();
    let days: Vec<f64> = (0..260).map(|h| f64::from(h) * 0.1).collect();
    let with_drift = |per_day: f64| {
        let log = Log {
            readings: (0..6)
                .map(|i| Reading {
                    day: f64::from(i) * 5.0,
                    measured: Measured::Ph,
                    interval: Interval::new(8.1, 8.1, 0.02).unwrap(),
                })
                .collect(),
            probes: vec![ProbeSeries {
                measured: Measured::Ph,
                values: days.iter().map(|d| 8.1 + per_day * d).collect(),
                days: days.clone(),
            }],
            entries: vec![],
        };
        let members = [Member {
            setup: setup.clone(),
            parameters: Parameters::default(),
        }];
        let due = of(&setup, &log, &members).unwrap();
        due.into_iter()
            .find(|u| u.task == Task::CalibrateProbe(Measured::Ph))
            .unwrap()
    };
    // A tenth of a pH in 20 days is overdue on day 26; in a year it is not before 30.
    assert_eq!(with_drift(0.005).day, 26.0);
    assert!(with_drift(0.005).reason.contains("0.15 a month"));
    assert_eq!(with_drift(0.1 / 365.0).day, 30.0);
}

fn options() -> CalendarOptions {
    CalendarOptions::new(
        "Reef, \"left\"; room\\2 – Überraschung",
        date(2026, 3, 1),
        Some(TimeZone::get("Europe/Berlin").unwrap()),
        "2026-03-20T10:00:00Z".parse::<Timestamp>().unwrap(),
    )
}

fn entries() -> Vec<Upkeep> {
    // The clock in Berlin goes forward on 29 March 2026: days 27 and 28 lie on either side.
    [(27.2, Task::Harvest), (28.9, Task::Test(Measured::Nitrate))]
        .map(|(day, task)| Upkeep {
            day,
            range: Some([day - 2.0, day + 3.0]),
            task,
            number: 4,
            reason: "Because; and, so on \\ as long as it must be to be folded: äöü äöü äöü äöü äöü äöü äöü.".into(),
        })
        .to_vec()
}

/// Lines of a content unfolded by hand (RFC 5545, 3.1).
fn unfolded(text: &str) -> Vec<String> {
    text.replace("\r\n ", "")
        .split("\r\n")
        .map(str::to_owned)
        .collect()
}

#[test]
fn calendars_keep_to_the_letter() {
    let text = calendar(&entries(), &options()).unwrap();
    assert!(text.ends_with("END:VCALENDAR\r\n"));
    assert!(!text.replace("\r\n", "").contains(['\r', '\n']));
    assert!(text.split("\r\n").all(|line| line.len() <= 75), "{text}");
    let lines = unfolded(&text);
    let starts: Vec<&String> = lines.iter().filter(|l| l.starts_with("DTSTART")).collect();
    // 18:00 is 17:00 UTC in winter, 16:00 in summer.
    assert_eq!(
        starts,
        ["DTSTART:20260328T170000Z", "DTSTART:20260329T160000Z"]
    );
    assert_eq!(
        lines
            .iter()
            .filter(|l| *l == "DTSTAMP:20260320T100000Z")
            .count(),
        2
    );
    let summary = "SUMMARY:Reef\\, \"left\"\\; room\\\\2 – Überraschung: Harvest";
    assert!(lines.iter().any(|l| l == summary), "{text}");
    assert!(
        lines
            .iter()
            .any(|l| l.starts_with("DESCRIPTION:Because\\; and\\, so on \\\\"))
    );
    // The same again is the same text.
    assert_eq!(text, calendar(&entries(), &options()).unwrap());
}

#[test]
fn an_entry_stays_itself_when_it_moves() {
    let uids = |entries: &[Upkeep], options: &CalendarOptions| -> Vec<String> {
        unfolded(&calendar(entries, options).unwrap())
            .into_iter()
            .filter(|l| l.starts_with("UID:"))
            .collect()
    };
    let before = uids(&entries(), &options());
    assert_eq!(before.len(), 2);
    assert_ne!(before[0], before[1]);
    let mut moved = entries();
    moved[0].day += 3.0;
    let mut later = options();
    later.made = "2026-03-22T10:00:00Z".parse().unwrap();
    assert_eq!(uids(&moved, &later), before);
    moved[0].number += 1;
    assert_ne!(uids(&moved, &later)[0], before[0]);
    later.name = "another".into();
    assert_ne!(uids(&entries(), &later)[1], before[1]);
}

#[test]
fn reminders_and_floating_times() {
    let mut options = options();
    options.time_zone = None;
    options.reminder_minutes = Some(90);
    let text = calendar(&entries(), &options).unwrap();
    let lines = unfolded(&text);
    assert!(lines.contains(&"DTSTART:20260328T180000".to_owned()));
    assert_eq!(lines.iter().filter(|l| *l == "BEGIN:VALARM").count(), 2);
    assert!(
        lines
            .iter()
            .any(|l| l.starts_with("TRIGGER") && l.ends_with("-PT5400S")),
        "{text}"
    );
    assert_eq!(text, calendar(&entries(), &options).unwrap());
}

#[test]
fn days_beyond_the_calendar_are_refused() {
    let mut far = entries();
    far[0].day = 1e9;
    assert!(calendar(&far, &options()).is_err());
    let mut late = options();
    late.start = date(9999, 12, 30);
    assert!(calendar(&entries(), &late).is_err());
    late = options();
    late.hour = f64::NAN;
    assert!(calendar(&entries(), &late).is_err());
    late.hour = 24.5;
    assert!(calendar(&entries(), &late).is_err());
}
