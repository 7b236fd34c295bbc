use jiff::Timestamp;

use super::LogReading;
use super::clock::Placed;
use super::problem::{Finding, LogError, LogProblemKind};
use super::sheet::{Sheet, TIME, Value};
use crate::description::TankFile;

/// Times of rows.
#[derive(Debug, Clone, Copy)]
pub enum Times<'a> {
    /// Nanoseconds since 1970-01-01 00:00 UTC; [`i64::MIN`] is a missing time.
    UtcNanoseconds(&'a [i64]),
    /// Nanoseconds since 1970-01-01 00:00 by the clock on the tank's wall; [`i64::MIN`]
    /// is a missing time.
    ClockNanoseconds(&'a [i64]),
    /// Days since the start of the description; NaN is a missing time.
    Days(&'a [f64]),
}

/// Cells of one column.
#[derive(Debug, Clone, Copy)]
pub enum Cells<'a> {
    /// Numbers in the unit of the heading; NaN is a blank cell. How finely a test reads
    /// is not seen from one number, so a column without `step=` is taken to read to the
    /// last decimal that any of its numbers has.
    Numbers(&'a [f64]),
    /// Text as in a file; `None` is a blank cell.
    Text(&'a [Option<&'a str>]),
}

impl Times<'_> {
    const fn len(&self) -> usize {
        match self {
            Self::UtcNanoseconds(times) | Self::ClockNanoseconds(times) => times.len(),
            Self::Days(days) => days.len(),
        }
    }
}

impl Cells<'_> {
    const fn len(&self) -> usize {
        match self {
            Self::Numbers(numbers) => numbers.len(),
            Self::Text(texts) => texts.len(),
        }
    }

    fn step(&self) -> f64 {
        match self {
            Self::Numbers(numbers) => step(numbers),
            Self::Text(_) => 1.0,
        }
    }

    fn value(&self, row: usize, step: f64) -> Value<'_> {
        match self {
            Self::Numbers(numbers) => {
                Value::Number(numbers.get(row).copied().unwrap_or(f64::NAN), step)
            }
            Self::Text(texts) => Value::Text(texts.get(row).copied().flatten().unwrap_or_default()),
        }
    }
}

/// Most decimals that a number is taken to have been read with.
const MOST_DECIMALS: i32 = 6;

/// The last decimal that any of some numbers has.
fn step(numbers: &[f64]) -> f64 {
    let has_more_than = |decimals: i32, number: f64| {
        let scaled = number.abs() * 10f64.powi(decimals);
        (scaled - scaled.round()).abs() > 1e-9 * scaled.max(1.0)
    };
    let mut decimals = 0;
    for &number in numbers.iter().filter(|n| n.is_finite()) {
        while decimals < MOST_DECIMALS && has_more_than(decimals, number) {
            decimals += 1;
        }
    }
    10f64.powi(-decimals)
}

pub(super) fn read(
    file: &TankFile,
    (all_probes, now): (bool, Option<Timestamp>),
    times: Times<'_>,
    columns: &[(&str, Cells<'_>)],
) -> Result<LogReading, LogError> {
    if let Some((heading, cells)) = columns.iter().find(|(_, cells)| cells.len() != times.len()) {
        let found = format!("{} cells under `{heading}`", cells.len());
        let expected = format!("expected as many as there are times, {}", times.len());
        return Err(LogError::new(
            LogProblemKind::Contradictory,
            1,
            found,
            expected,
            None,
        ));
    }
    let needs_start = !matches!(times, Times::Days(_));
    let needs_zone = matches!(times, Times::UtcNanoseconds(_));
    if needs_start && file.start.is_none() || needs_zone && file.time_zone.is_none() {
        let found = "moments of the calendar";
        let expected = "expected `simulation.start` and, for moments in UTC, `simulation.time_zone` in the description, or days since the start";
        return Err(LogError::new(
            LogProblemKind::Contradictory,
            1,
            found,
            expected,
            None,
        ));
    }
    let headings = columns.iter().map(|(heading, _)| *heading);
    let mut sheet = Sheet::new(file, headings, 1, (all_probes, now, true))?;
    // Text is held against the same rules as a file's.
    for (column, (_, cells)) in sheet.columns.iter().zip(columns) {
        if let (true, Cells::Text(texts)) = (column.holds.is_numeric(), cells) {
            for text in texts.iter().flatten() {
                super::cell::marks_of(text, &mut sheet.marks);
            }
        }
    }
    let steps: Vec<f64> = columns.iter().map(|(_, cells)| cells.step()).collect();
    for row in 0..times.len() {
        let line = row + 1;
        let cells = columns
            .iter()
            .zip(&steps)
            .map(|((_, cells), step)| cells.value(row, *step));
        match place(&mut sheet, &times, row) {
            Ok(placed) => sheet.at(line, placed, cells),
            Err(finding) if cells.clone().any(|cell| !cell.is_blank()) => {
                sheet.reject_row(line, TIME, finding)
            }
            Err(_) => {}
        }
        sheet.row_done(line);
    }
    Ok(sheet.finish())
}

const NANOS: i64 = 1_000_000_000;

fn place(sheet: &mut Sheet<'_>, times: &Times<'_>, row: usize) -> Result<Placed, Finding> {
    let missing = || {
        Finding::new(
            LogProblemKind::Missing,
            "no time",
            "expected a time; the row was not read",
        )
    };
    let moment = |times: &[i64]| {
        let nanos = times
            .get(row)
            .copied()
            .filter(|t| *t != i64::MIN)
            .ok_or_else(missing)?;
        Ok((
            nanos.div_euclid(NANOS),
            nanos.rem_euclid(NANOS),
            nanos.to_string(),
        ))
    };
    let (placed, shown) = match times {
        Times::UtcNanoseconds(times) => {
            let (seconds, fraction, shown) = moment(times)?;
            (sheet.clock.instant(seconds, fraction), shown)
        }
        Times::ClockNanoseconds(times) => {
            let (seconds, fraction, shown) = moment(times)?;
            (sheet.clock.by_tank_clock(seconds, fraction), shown)
        }
        Times::Days(days) => {
            let day = days
                .get(row)
                .copied()
                .filter(|d| !d.is_nan())
                .ok_or_else(missing)?;
            let placed = Placed {
                day,
                ..Placed::default()
            };
            (Ok(placed), day.to_string())
        }
    };
    let placed = placed
        .map_err(|needs| Finding::new(LogProblemKind::Contradictory, shown.clone(), needs))?;
    match sheet.outside(&placed, &shown) {
        Some(finding) => Err(finding),
        None => Ok(placed),
    }
}
