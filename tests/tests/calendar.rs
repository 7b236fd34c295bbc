//! Upkeep as an iCalendar file, read back by another implementation: the icalendar of
//! Python, through `tests/python/read_calendar.py`.
//!
//! `cargo xtask test calendar` runs this; it starts the Python that `HALIMEDA_PYTHON`
//! names.

use std::error::Error;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Stdio};

use halimeda_tank::log::Measured;
use halimeda_tank::upkeep::{CalendarOptions, Task, Upkeep, calendar};
use jiff::civil::date;
use jiff::tz::TimeZone;
use serde::Deserialize;

#[derive(Debug, Deserialize)]
struct Read {
    name: String,
    version: String,
    errors: Vec<String>,
    events: Vec<ReadEvent>,
}

#[derive(Debug, Deserialize)]
struct ReadEvent {
    uid: String,
    start: String,
    end: String,
    stamp: String,
    summary: String,
    description: String,
    transparent: bool,
    reminders_minutes: Vec<f64>,
    errors: Vec<String>,
}

fn read(text: &str) -> Result<Read, Box<dyn Error>> {
    let python = std::env::var("HALIMEDA_PYTHON")?;
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("python/read_calendar.py");
    let mut child = Command::new(python)
        .arg(script)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()?;
    let mut input = child.stdin.take().ok_or("no standard input")?;
    input.write_all(text.as_bytes())?;
    drop(input);
    Ok(serde_json::from_slice(&child.wait_with_output()?.stdout)?)
}

const NAME: &str = "Reef, \"left\"; room\\2 – Überraschung";

/// As long as lines are folded at, with everything that is escaped, in letters of two
/// and three bytes.
fn reason(length: usize) -> String {
    let piece = "ß–a, b; c\\d\n\"e\" ";
    piece.repeat(length).trim().to_owned()
}

fn upkeep() -> Vec<Upkeep> {
    let of = |(i, (day, task)): (usize, (f64, Task))| Upkeep {
        day,
        range: None,
        task,
        number: i as u32 + 1,
        reason: reason(i + 1),
    };
    // Berlin's clock goes forward on 29 March 2026 and back on 25 October.
    [
        (27.2, Task::Harvest),
        (28.0, Task::WaterChange),
        (237.9, Task::NewLamps),
        (238.0, Task::Test(Measured::Nitrate)),
        (400.0, Task::CalibrateProbe(Measured::Ph)),
    ]
    .into_iter()
    .enumerate()
    .map(of)
    .collect()
}

#[test]
fn another_implementation_reads_what_was_meant() -> Result<(), Box<dyn Error>> {
    let mut options = CalendarOptions::new(
        NAME,
        date(2026, 3, 1),
        Some(TimeZone::get("Europe/Berlin")?),
        "2026-03-20T10:00:00Z".parse()?,
    );
    options.reminder_minutes = Some(90);
    let upkeep = upkeep();
    let text = calendar(&upkeep, &options)?;
    let read = read(&text)?;
    assert_eq!((read.name.as_str(), read.version.as_str()), (NAME, "2.0"));
    assert!(read.errors.is_empty(), "{:?}", read.errors);
    assert_eq!(read.events.len(), upkeep.len());
    // 18:00 in Berlin by the rule of the zone.
    let starts = [
        "2026-03-28T17:00:00+00:00",
        "2026-03-29T16:00:00+00:00",
        "2026-10-24T16:00:00+00:00",
        "2026-10-25T17:00:00+00:00",
        "2027-04-05T16:00:00+00:00",
    ];
    for ((event, due), start) in read.events.iter().zip(&upkeep).zip(starts) {
        assert!(event.errors.is_empty(), "{:?}", event.errors);
        assert_eq!(event.start, start);
        assert_eq!(event.end, start.replace(":00:00+", ":30:00+"));
        assert_eq!(event.stamp, "2026-03-20T10:00:00+00:00");
        assert!(event.summary.starts_with(NAME), "{}", event.summary);
        let (reason, caution) = (&due.reason, due.task.caution());
        assert_eq!(event.description, format!("{reason}\n{caution}"));
        assert!(event.transparent);
        assert_eq!(event.reminders_minutes, [90.0]);
    }
    let mut uids: Vec<&str> = read.events.iter().map(|e| e.uid.as_str()).collect();
    uids.sort_unstable();
    uids.dedup();
    assert_eq!(uids.len(), upkeep.len());
    Ok(())
}

#[test]
fn without_a_zone_times_are_the_clock_on_the_wall() -> Result<(), Box<dyn Error>> {
    let options = CalendarOptions::new(
        "reef",
        date(2026, 3, 1),
        None,
        "2026-03-20T10:00:00Z".parse()?,
    );
    let read = read(&calendar(&upkeep(), &options)?)?;
    assert_eq!(read.events[0].start, "2026-03-28T18:00:00");
    assert!(read.events[0].reminders_minutes.is_empty());
    Ok(())
}
