use jiff::civil::Date;
use jiff::tz::TimeZone;

use super::literal::{Moment, days_since};
use super::log::quoted;
use super::problem::ProblemKind;
use super::section::Section;
use super::suggest::nearest;

/// The day on which the first day begins, and whose clock is meant.
#[derive(Debug, Clone, Default)]
pub(super) struct Calendar {
    pub(super) start: Option<Date>,
    pub(super) time_zone: Option<TimeZone>,
}

impl Calendar {
    pub(super) fn read(simulation: &Section<'_>) -> Self {
        Self {
            start: start(simulation),
            time_zone: time_zone(simulation),
        }
    }

    /// Days from the start to a moment, or what is needed to tell.
    pub(super) fn days(&self, moment: Moment) -> Result<f64, &'static str> {
        let start = self
            .start
            .ok_or("a time since the start such as \"21 d\", or the date of the start in `simulation.start`")?;
        let clock = match (&self.time_zone, moment.offset) {
            (None, Some(_)) => {
                return Err(
                    "a date without an offset, or the zone of the tank in `simulation.time_zone`",
                );
            }
            (None, None) => moment.date_time,
            (Some(zone), _) => moment.in_zone(zone).ok_or("a date within the calendar")?,
        };
        Ok(days_since(start, clock))
    }
}

fn start(simulation: &Section<'_>) -> Option<Date> {
    let text = simulation.date_text("start")?;
    match Moment::parse(text) {
        Some(Moment {
            date_time,
            offset: None,
        }) if date_time.time() == jiff::civil::Time::midnight() => Some(date_time.date()),
        _ => {
            let expected = "a date of the calendar without a time of day, such as 2026-01-15: the \
                            first day begins at midnight";
            simulation.report(
                "start",
                ProblemKind::Unreadable,
                quoted(text),
                expected,
                None,
            );
            None
        }
    }
}

fn time_zone(simulation: &Section<'_>) -> Option<TimeZone> {
    let name = simulation.text("time_zone")?;
    match TimeZone::get(&name) {
        Ok(zone) => Some(zone),
        Err(_) => {
            let names: Vec<String> = jiff::tz::db().available().map(|n| n.to_string()).collect();
            let meant = nearest(&name, names.iter().map(String::as_str));
            let meant = meant.map(|meant| format!("did you mean \"{meant}\"?"));
            let expected = "a name of the IANA time zone database, such as \"Europe/Berlin\"";
            simulation.report(
                "time_zone",
                ProblemKind::UnknownValue,
                quoted(&name),
                expected,
                meant,
            );
            None
        }
    }
}
