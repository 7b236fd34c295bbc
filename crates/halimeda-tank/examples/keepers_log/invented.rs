//! How `invented_log.csv` is made.

use std::error::Error;

use halimeda_tank::description::TankFile;
use halimeda_tank::log::invented::{Keeper, invent};
use halimeda_tank::log::{Log, Record};
use halimeda_tank::{Event, Ranges};
use jiff::Span;
use jiff::civil::Time;
use jiff::tz::AmbiguousOffset;

/// Head of the file.
const HEAD: &str = "\
# An invented log of the invented tank in invented_reef.toml: nobody's tank, no measurement.
#
# Made by `cargo run -p halimeda-tank --example keepers_log -- --invent`: the tank was
# followed for 120 days under parameters drawn from their ranges, and written down is
# what a keeper with home kits and a pH probe would have read (see
# halimeda_tank::log::invented): errors of the kits, their steps, ten days away without
# a test. The screen's lamps failed for six days from day 42 and the keeper noticed;
# from day 78 on two fifths more was fed, and nobody wrote it down.
";

/// Days of the log.
pub(crate) const DAYS: f64 = 120.0;

/// The log, as [`Log::to_csv`] writes it, under its head.
pub(crate) fn csv(file: &TankFile) -> Result<String, Box<dyn Error>> {
    let drawn = Ranges::default()
        .overridden(&file.parameter_overrides)?
        .draw(16, 20)?;
    let truth = drawn.get(5).ok_or("too few draws")?;
    let mut log = invent(&file.setup(), truth, &Keeper::of_days(DAYS, 11))?.log;
    // What the keeper does not know.
    log.entries
        .retain(|e| !matches!(e.record, Record::Event(Event::FeedingScaled { .. })));
    by_the_minute(&mut log);
    without_the_skipped_hour(&mut log, file);
    Ok(format!("{HEAD}{}", log.to_csv(file)))
}

/// Times as a keeper writes them down: to the minute.
fn by_the_minute(log: &mut Log) {
    let to_minute = |day: &mut f64| {
        let minutes = (day.fract() * 1440.0).round();
        *day = day.floor() + minutes * 60e9 / 86_400e9;
    };
    log.readings.iter_mut().for_each(|r| to_minute(&mut r.day));
    log.entries.iter_mut().for_each(|e| to_minute(&mut e.day));
    for probe in &mut log.probes {
        probe.days.iter_mut().for_each(to_minute);
    }
}

/// No record bears a time that the clock on the wall skipped in spring.
fn without_the_skipped_hour(log: &mut Log, file: &TankFile) {
    let (Some(start), Some(zone)) = (file.start, &file.time_zone) else {
        return;
    };
    let skipped = |day: f64| {
        let minutes = Span::new().minutes((day * 1440.0).round() as i64);
        let clock = start.to_datetime(Time::midnight()).checked_add(minutes);
        clock.is_ok_and(|clock| {
            let offset = zone.to_ambiguous_timestamp(clock).offset();
            matches!(offset, AmbiguousOffset::Gap { .. })
        })
    };
    for probe in &mut log.probes {
        let (days, values) = probe
            .days
            .iter()
            .zip(&probe.values)
            .filter(|(day, _)| !skipped(**day))
            .unzip();
        (probe.days, probe.values) = (days, values);
    }
}
