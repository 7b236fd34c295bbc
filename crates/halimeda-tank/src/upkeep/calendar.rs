//! Upkeep as an iCalendar file (RFC 5545).

use std::fmt::Write as _;

use chrono::TimeDelta;
use icalendar::{Alarm, Calendar, Component as _, Event, EventLike as _, Property};
use jiff::civil::{Date, DateTime};
use jiff::tz::TimeZone;
use jiff::{Span, Timestamp};
use uuid::Uuid;

use super::Upkeep;
use crate::error::{Error, Result, within};
use crate::plan::words::{capitalised, number};

/// How upkeep is put into a calendar.
#[derive(Debug, Clone, PartialEq)]
pub struct CalendarOptions {
    /// Name of the tank: the same in every file of it, for it is part of what makes
    /// an entry the same entry.
    pub name: String,
    /// Day whose midnight is time 0.
    pub start: Date,
    /// Zone of the tank's clock; without it entries are in the time of whichever
    /// clock shows them ("floating").
    pub time_zone: Option<TimeZone>,
    /// When the file is made. The library asks no clock.
    pub made: Timestamp,
    /// Hour of the day at which entries begin, 0 to 24.
    pub hour: f64,
    /// Minutes before an entry at which the calendar reminds; none for no reminder.
    pub reminder_minutes: Option<u32>,
}

impl CalendarOptions {
    /// Entries at six in the evening, without reminders.
    #[must_use]
    pub fn new(name: &str, start: Date, time_zone: Option<TimeZone>, made: Timestamp) -> Self {
        Self {
            name: name.to_owned(),
            start,
            time_zone,
            made,
            hour: 18.0,
            reminder_minutes: None,
        }
    }
}

/// Length of an entry.
const MINUTES: i64 = 30;

/// Most minutes a reminder comes before its entry: four weeks.
const LONGEST_REMINDER_MINUTES: f64 = 40_320.0;

/// Days ahead that a calendar reaches.
const LAST_DAY: f64 = 36_525.0;

/// Upkeep as the text of an iCalendar file (RFC 5545), CRLF line ends.
///
/// Entries are events (VEVENT), not to-dos: widely used calendars drop a VTODO on
/// import without a word (common practice, no source). They do not block the time
/// (TRANSP). With a zone they are written in UTC, which needs no definition of the
/// zone and shows at the right hour everywhere, summer time included. The UID of an
/// entry is made of the tank's name, its start, the task and the number of the task
/// (UUID version 5, RFC 9562): a file made again moves what has moved instead of adding it
/// twice.
///
/// # Errors
/// A day, the hour or the reminder lies outside its limits.
pub fn calendar(upkeep: &[Upkeep], options: &CalendarOptions) -> Result<String> {
    within("hour", options.hour, 0.0, 24.0)?;
    if let Some(minutes) = options.reminder_minutes {
        within(
            "reminder_minutes",
            f64::from(minutes),
            0.0,
            LONGEST_REMINDER_MINUTES,
        )?;
    }
    let mut calendar = Calendar::empty();
    for (key, value) in [
        ("VERSION", "2.0"),
        ("PRODID", "-//halimeda//upkeep//EN"),
        ("CALSCALE", "GREGORIAN"),
        ("METHOD", "PUBLISH"),
    ] {
        calendar.append_property(Property::new(key, value));
    }
    // Not of RFC 5545, but what calendars show; its value is escaped as the text it is.
    calendar.append_property(
        Property::new("X-WR-CALNAME", one_line(&options.name))
            .add_parameter("VALUE", "TEXT")
            .done(),
    );
    for due in upkeep {
        calendar.push(entry(due, options)?);
    }
    let mut text = String::new();
    // Writing to a string cannot fail.
    let _ = write!(text, "{calendar}");
    Ok(text)
}

fn entry(due: &Upkeep, options: &CalendarOptions) -> Result<Event> {
    let begin = clock(due.day, options)?;
    let end = begin
        .checked_add(Span::new().minutes(MINUTES))
        .map_err(|_| outside_calendar(due.day))?;
    let summary = format!(
        "{}: {}",
        one_line(&options.name),
        capitalised(&due.task.words())
    );
    let mut description = due.reason.clone();
    if let Some([earliest, latest]) = due.range {
        let _ = write!(
            description,
            "\nNine in ten of the tanks that the log leaves possible: between {} days before and {} days after.",
            number((due.day - earliest).max(0.0).round()),
            number((latest - due.day).max(0.0).round())
        );
    }
    let _ = write!(description, "\n{}", due.task.caution());

    let mut event = Event::with_uid(&uid("upkeep", due, options));
    event
        .add_property("DTSTAMP", utc(options.made))
        .add_property("DTSTART", in_zone(begin, options, due.day)?)
        .add_property("DTEND", in_zone(end, options, due.day)?)
        .add_property("TRANSP", "TRANSPARENT");
    event
        .summary(&summary)
        .description(&printable(&description));
    if let Some(minutes) = options.reminder_minutes {
        let before = -TimeDelta::minutes(i64::from(minutes));
        let mut reminder = Alarm::display(&summary, before);
        // Without these two the library would ask the clock and chance.
        reminder
            .add_property("DTSTAMP", utc(options.made))
            .add_property("UID", uid("reminder", due, options));
        event.alarm(reminder);
    }
    Ok(event.done())
}

fn uid(what: &str, due: &Upkeep, options: &CalendarOptions) -> String {
    let name = format!(
        "halimeda {what}\n{}\n{}\n{}\n{}",
        options.name,
        options.start,
        due.task.slug(),
        due.number
    );
    Uuid::new_v5(&Uuid::NAMESPACE_OID, name.as_bytes()).to_string()
}

/// The moment on the wall at which an entry begins.
fn clock(day: f64, options: &CalendarOptions) -> Result<DateTime> {
    let whole = within("day of upkeep", day, 0.0, LAST_DAY)?.floor() as i64;
    let minutes = (options.hour * 60.0).round() as i64;
    options
        .start
        .checked_add(Span::new().days(whole))
        .and_then(|date| {
            date.to_datetime(jiff::civil::Time::midnight())
                .checked_add(Span::new().minutes(minutes))
        })
        .map_err(|_| outside_calendar(day))
}

/// As RFC 5545 writes it: in UTC where the zone is known, else floating.
fn in_zone(clock: DateTime, options: &CalendarOptions, day: f64) -> Result<String> {
    match &options.time_zone {
        None => Ok(clock.strftime("%Y%m%dT%H%M%S").to_string()),
        // A time that the clock leaves out in spring comes an hour later, one that
        // it shows twice in autumn is the first.
        Some(zone) => zone
            .to_timestamp(clock)
            .map(utc)
            .map_err(|_| outside_calendar(day)),
    }
}

fn utc(moment: Timestamp) -> String {
    moment.strftime("%Y%m%dT%H%M%SZ").to_string()
}

const fn outside_calendar(day: f64) -> Error {
    Error::OutOfRange {
        input: "day of upkeep",
        value: day,
        min: 0.0,
        max: LAST_DAY,
    }
}

/// Without what RFC 5545 (3.1) forbids in a text, ends of lines kept.
fn printable(text: &str) -> String {
    text.chars()
        .filter(|&c| c == '\n' || !c.is_control())
        .collect()
}

fn one_line(text: &str) -> String {
    printable(&text.replace(['\n', '\r'], " "))
}
