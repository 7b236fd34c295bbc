//! From a header to a sheet: which columns there are and where the time stands.

use jiff::Timestamp;

use super::ProbeSeries;
use super::cell::Marks;
use super::clock::{Clock, TimeForm};
use super::column::{Column, Headings, Holds};
use super::problem::{Finding, Findings, LogError, LogProblemKind};
use super::sheet::{Sheet, TIME, TimeCells};
use crate::description::{TankFile, quoted};

impl<'f> Sheet<'f> {
    pub(super) fn new<'h>(
        file: &'f TankFile,
        headings: impl Iterator<Item = &'h str>,
        line: usize,
        options: (bool, Option<Timestamp>, bool),
    ) -> Result<Self, LogError> {
        let (all_probes, now, times_given) = options;
        let mut reader = Headings::new(file, all_probes);
        let mut columns: Vec<Column> = Vec::new();
        let (mut times, mut form) = (
            times_given.then_some(TimeCells::Given),
            TimeForm::Written(None),
        );
        for (index, heading) in headings.enumerate() {
            let (mut column, found) = reader.read(heading);
            match (&column.holds, found, times) {
                (Holds::Time, Some(found), None) => {
                    (times, form) = (Some(TimeCells::One(index)), found);
                }
                (Holds::Date, Some(found), None) => {
                    (times, form) = (Some(TimeCells::DateAndClock(index, None)), found);
                }
                (Holds::Time | Holds::Date, ..) => {
                    let expected = "expected one column of times";
                    let found = format!("a second column of times, {}", quoted(heading));
                    let finding = Finding::new(LogProblemKind::Contradictory, found, expected);
                    column.holds = Holds::Unread(Some(finding));
                }
                (Holds::Unread(Some(finding)), ..) if is_time(heading) && times.is_none() => {
                    let (found, expected) = (finding.found.clone(), finding.expected.clone());
                    let meant = finding.suggestion.clone();
                    let mut error = LogError::new(finding.kind, line, found, expected, meant);
                    error.problem.column = column.heading.replace(char::is_control, " ");
                    return Err(error);
                }
                _ => {}
            }
            columns.push(column);
        }
        let clock_column = columns
            .iter()
            .position(|c| matches!(c.holds, Holds::ClockTime));
        let times = match times {
            Some(TimeCells::DateAndClock(date, _)) => TimeCells::DateAndClock(date, clock_column),
            Some(times) => times,
            None => return Err(no_time(&columns, line)),
        };
        needs_calendar(&form, file, line, times_given)?;
        let probes = reader.probes.iter().map(|&measured| ProbeSeries {
            measured,
            days: Vec::new(),
            values: Vec::new(),
        });
        let mut clock = Clock::new(form, file);
        Ok(Self {
            file,
            times,
            now: now.and_then(|now| clock.day_of(now)),
            clock,
            marks: Marks::default(),
            header_line: line,
            previous_line: line,
            last_day: f64::NEG_INFINITY,
            readings: Vec::new(),
            entries: Vec::new(),
            probes: probes.collect(),
            findings: Findings::default(),
            unread: vec![0; columns.len()],
            columns,
        })
    }
}

fn is_time(heading: &str) -> bool {
    let name = heading.split('[').next().unwrap_or_default().trim();
    name.eq_ignore_ascii_case(TIME) || name.eq_ignore_ascii_case("date")
}

fn no_time(columns: &[Column], line: usize) -> LogError {
    let found = columns
        .iter()
        .map(|c| quoted(&c.heading))
        .collect::<Vec<_>>()
        .join(", ");
    let meant = columns.iter().find_map(|column| match &column.holds {
        Holds::Unread(Some(finding)) => finding
            .suggestion
            .clone()
            .filter(|s| s.contains("`time`") || s.contains("`date`")),
        _ => None,
    });
    let found = match found.as_str() {
        "" => "no heading".to_owned(),
        found => format!("the headings {found}"),
    };
    let expected =
        "expected a column `time` (ISO 8601), `time [d]`, or `date` with or without `clock`";
    LogError::new(LogProblemKind::Missing, line, found, expected, meant)
}

/// Dates mean nothing beside a description that only counts days.
fn needs_calendar(
    form: &TimeForm,
    file: &TankFile,
    line: usize,
    given: bool,
) -> Result<(), LogError> {
    let needs_zone = matches!(form, TimeForm::Written(Some(_)) | TimeForm::UnixSeconds);
    let missing = match form {
        TimeForm::SinceStart(_) => None,
        _ if given => None,
        _ if file.start.is_none() => Some("`simulation.start`"),
        _ if needs_zone && file.time_zone.is_none() => Some("`simulation.time_zone`"),
        _ => None,
    };
    match missing {
        None => Ok(()),
        Some(key) => {
            let found = "a column of dates";
            let expected = format!(
                "expected {key} in the description, or times since the start in a column `time [d]`"
            );
            Err(LogError::new(
                LogProblemKind::Contradictory,
                line,
                found,
                expected,
                None,
            ))
        }
    }
}
