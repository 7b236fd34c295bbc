//! When it was: times as people and loggers write them, to days since the start by
//! the clock on the tank's wall.

use jiff::Timestamp;
use jiff::civil::{Date, DateTime, Time};
use jiff::fmt::temporal::Pieces;
use jiff::tz::{AmbiguousOffset, Offset, TimeZone};

use super::problem::{Finding, LogProblemKind};
use crate::description::{TankFile, listed, quoted};

const NANOS_PER_SECOND: i64 = 1_000_000_000;
const SECONDS_PER_DAY: i64 = 86_400;
const NANOS_PER_DAY: f64 = 86_400e9;

/// What a column of times holds.
#[derive(Debug, Clone)]
pub(super) enum TimeForm {
    /// ISO 8601; without an offset by the clock of a zone, else of the tank.
    Written(Option<TimeZone>),
    /// Number of this many days since the start.
    SinceStart(f64),
    /// Seconds since 1970-01-01 00:00 UTC.
    UnixSeconds,
}

/// A time, and what is worth knowing of it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Placed {
    pub(super) day: f64,
    pub(super) date_only: bool,
    pub(super) skipped: bool,
    pub(super) repeated: bool,
}

/// A date with its time of day and whose clock showed it.
struct Written {
    /// Days since 1970-01-01.
    date: i64,
    /// None for a date alone.
    nanos: Option<i64>,
    offset_seconds: Option<i64>,
    /// Named in the text.
    zone: Option<TimeZone>,
}

/// The offset of a zone over a day and its neighbours, if there is one: most days
/// have no change of clocks near, and a probe writes thousands of times a day.
#[derive(Debug, Clone, Copy)]
struct Steady {
    date: i64,
    offset_seconds: Option<i64>,
}

/// Reads times. Remembers the last date, for the next row mostly has the same.
#[derive(Debug)]
pub(super) struct Clock<'f> {
    form: TimeForm,
    /// Date of day 0, days since 1970-01-01.
    start: Option<i64>,
    tank_zone: Option<&'f TimeZone>,
    date: Option<([u8; 10], i64)>,
    steady: Option<Steady>,
    column_steady: Option<Steady>,
}

impl<'f> Clock<'f> {
    pub(super) fn new(form: TimeForm, file: &'f TankFile) -> Self {
        Self {
            form,
            start: file.start.map(days_since_1970),
            tank_zone: file.time_zone.as_ref(),
            date: None,
            steady: None,
            column_steady: None,
        }
    }

    /// A time as it is written.
    pub(super) fn read(&mut self, text: &str) -> Result<Placed, Finding> {
        let text = text.trim();
        match self.form {
            TimeForm::SinceStart(days) => Ok(Placed {
                day: number(text)? * days,
                ..Placed::default()
            }),
            TimeForm::UnixSeconds => {
                let seconds = number(text)?;
                let whole = seconds.floor();
                if whole.abs() > 1e11 {
                    return Err(unreadable(text, None));
                }
                let nanos = ((seconds - whole) * 1e9) as i64;
                self.instant(whole as i64, nanos)
                    .map_err(|needs| contradictory(text, needs))
            }
            TimeForm::Written(_) => self.written(text),
        }
    }

    fn written(&mut self, text: &str) -> Result<Placed, Finding> {
        let written = match self.fixed(text.as_bytes()) {
            Some(written) => written,
            None => free(text)?,
        };
        self.place(&written)
            .map_err(|needs| contradictory(text, needs))
    }

    /// `2026-01-15T18:30`, with or without seconds, their fraction and an offset:
    /// what loggers write, read without more ado.
    fn fixed(&mut self, text: &[u8]) -> Option<Written> {
        let (date, rest) = text.split_first_chunk::<10>()?;
        let [b'T' | b't' | b' ', h, hh, b':', m, mm, rest @ ..] = rest else {
            return None;
        };
        let (hour, minute) = (two([*h, *hh])?, two([*m, *mm])?);
        let (second, rest) = match rest {
            [b':', s, ss, rest @ ..] => (two([*s, *ss])?, rest),
            rest => (0, rest),
        };
        if hour > 23 || minute > 59 || second > 59 {
            return None;
        }
        let (fraction, rest) = match rest {
            [b'.', rest @ ..] => fraction(rest)?,
            rest => (0, rest),
        };
        let offset_seconds = match rest {
            [] => None,
            [b'Z' | b'z'] => Some(0),
            [sign @ (b'+' | b'-'), h, hh, b':', m, mm] | [sign @ (b'+' | b'-'), h, hh, m, mm] => {
                let (hours, minutes) = (two([*h, *hh])?, two([*m, *mm])?);
                if hours > 23 || minutes > 59 {
                    return None;
                }
                let seconds = hours * 3600 + minutes * 60;
                Some(if *sign == b'-' { -seconds } else { seconds })
            }
            _ => return None,
        };
        let date = match self.date {
            Some((last, days)) if last == *date => days,
            _ => {
                let [y, yy, yyy, yyyy, b'-', m, mm, b'-', d, dd] = *date else {
                    return None;
                };
                let year = 100 * two([y, yy])? + two([yyy, yyyy])?;
                let small = |n: i64| i8::try_from(n).ok();
                let civil = Date::new(
                    i16::try_from(year).ok()?,
                    small(two([m, mm])?)?,
                    small(two([d, dd])?)?,
                );
                let days = days_since_1970(civil.ok()?);
                self.date = Some((*date, days));
                days
            }
        };
        let seconds = hour * 3600 + minute * 60 + second;
        Some(Written {
            date,
            nanos: Some(seconds * NANOS_PER_SECOND + fraction),
            offset_seconds,
            zone: None,
        })
    }

    fn place(&mut self, written: &Written) -> Result<Placed, &'static str> {
        let nanos = written
            .nanos
            .unwrap_or(SECONDS_PER_DAY / 2 * NANOS_PER_SECOND);
        let (second, fraction) = (nanos / NANOS_PER_SECOND, nanos % NANOS_PER_SECOND);
        let clock_seconds = written.date * SECONDS_PER_DAY + second;
        let mut placed = match (written.offset_seconds, &written.zone) {
            (Some(offset), _) => self.instant(clock_seconds - offset, fraction)?,
            (None, Some(zone)) => {
                let (offset, marks) = offset_at(zone, written.date, clock_seconds, &mut None)?;
                Placed {
                    day: self.instant(clock_seconds - offset, fraction)?.day,
                    ..marks
                }
            }
            (None, None) => self.by_the_clock(written.date, clock_seconds, fraction)?,
        };
        placed.date_only = written.nanos.is_none();
        Ok(placed)
    }

    /// A time on the tank's wall, which may be one that the clocks skipped.
    pub(super) fn by_tank_clock(
        &mut self,
        clock_seconds: i64,
        fraction: i64,
    ) -> Result<Placed, &'static str> {
        self.by_the_clock(
            clock_seconds.div_euclid(SECONDS_PER_DAY),
            clock_seconds,
            fraction,
        )
    }

    /// A time without an offset.
    fn by_the_clock(
        &mut self,
        date: i64,
        clock_seconds: i64,
        fraction: i64,
    ) -> Result<Placed, &'static str> {
        if let TimeForm::Written(Some(zone)) = &self.form {
            let zone = zone.clone();
            let (offset, marks) = offset_at(&zone, date, clock_seconds, &mut self.column_steady)?;
            let day = self.instant(clock_seconds - offset, fraction)?.day;
            return Ok(Placed { day, ..marks });
        }
        let Some(zone) = self.tank_zone else {
            return self.day(clock_seconds, fraction);
        };
        let (offset, marks) = offset_at(zone, date, clock_seconds, &mut self.steady)?;
        if !marks.skipped {
            return Ok(Placed {
                day: self.day(clock_seconds, fraction)?.day,
                ..marks
            });
        }
        let day = self.instant(clock_seconds - offset, fraction)?.day;
        Ok(Placed { day, ..marks })
    }

    /// A moment, given in seconds since 1970 UTC, on the tank's wall.
    pub(super) fn instant(&mut self, seconds: i64, fraction: i64) -> Result<Placed, &'static str> {
        let zone = self.tank_zone.ok_or(
            "a time with an offset or a zone needs the zone of the tank in `simulation.time_zone` \
             of the description",
        )?;
        let date = seconds.div_euclid(SECONDS_PER_DAY);
        let offset = match steady_offset(zone, date, &mut self.steady) {
            Some(offset) => offset,
            None => {
                let moment = Timestamp::from_second(seconds).map_err(|_| BEYOND)?;
                i64::from(zone.to_offset(moment).seconds())
            }
        };
        self.day(seconds + offset, fraction)
    }

    /// A time on the tank's wall, in seconds of that clock since 1970.
    pub(super) fn day(&self, clock_seconds: i64, fraction: i64) -> Result<Placed, &'static str> {
        let start = self.start.ok_or(
            "dates need the date of the start in `simulation.start` of the description, or write \
             times since the start in a column `time [d]`",
        )?;
        let whole = clock_seconds.div_euclid(SECONDS_PER_DAY) - start;
        let nanos = clock_seconds.rem_euclid(SECONDS_PER_DAY) * NANOS_PER_SECOND + fraction;
        Ok(Placed {
            day: whole as f64 + nanos as f64 / NANOS_PER_DAY,
            ..Placed::default()
        })
    }

    /// The day of a moment, to tell what lies in the future; none without a calendar.
    pub(super) fn day_of(&mut self, moment: Timestamp) -> Option<f64> {
        Some(self.instant(moment.as_second(), 0).ok()?.day)
    }
}

const BEYOND: &str = "expected a date within the calendar";

/// The offset of a zone's clock at a time it shows. A time that was skipped is read by
/// the offset before the change, which moves it on by the gap, and one that was shown
/// twice is the first of the two (RFC 5545, 3.3.5).
fn offset_at(
    zone: &TimeZone,
    date: i64,
    clock_seconds: i64,
    steady: &mut Option<Steady>,
) -> Result<(i64, Placed), &'static str> {
    if let Some(offset) = steady_offset(zone, date, steady) {
        return Ok((offset, Placed::default()));
    }
    let clock = Timestamp::from_second(clock_seconds).map_err(|_| BEYOND)?;
    let shown: DateTime = Offset::UTC.to_datetime(clock);
    let (offset, skipped, repeated) = match zone.to_ambiguous_timestamp(shown).offset() {
        AmbiguousOffset::Unambiguous { offset } => (offset, false, false),
        AmbiguousOffset::Gap { before, .. } => (before, true, false),
        AmbiguousOffset::Fold { before, .. } => (before, false, true),
    };
    let marks = Placed {
        skipped,
        repeated,
        ..Placed::default()
    };
    Ok((i64::from(offset.seconds()), marks))
}

/// The offset throughout a date and its neighbours; none if clocks change near it.
fn steady_offset(zone: &TimeZone, date: i64, known: &mut Option<Steady>) -> Option<i64> {
    match known {
        Some(known) if known.date == date => known.offset_seconds,
        _ => {
            let at = |day: i64| Timestamp::from_second(day.checked_mul(SECONDS_PER_DAY)?).ok();
            let (from, to) = (at(date - 2)?, at(date + 3)?);
            let change = zone.following(from).next();
            let offset_seconds = match change {
                Some(change) if change.timestamp() <= to => None,
                _ => Some(i64::from(zone.to_offset(from).seconds())),
            };
            *known = Some(Steady {
                date,
                offset_seconds,
            });
            offset_seconds
        }
    }
}

/// Any other form of ISO 8601.
fn free(text: &str) -> Result<Written, Finding> {
    let pieces = Pieces::parse(text).map_err(|_| unreadable(text, meant(text)))?;
    let zone = match pieces.to_time_zone() {
        Ok(zone) => zone,
        Err(_) => {
            let expected = "expected a name of the IANA time zone database, such as Europe/Berlin";
            return Err(Finding::new(
                LogProblemKind::UnknownName,
                quoted(text),
                expected,
            ));
        }
    };
    let nanos = pieces.time().map(nanos_of_day);
    let offset = pieces.to_numeric_offset().map(|o| i64::from(o.seconds()));
    Ok(Written {
        date: days_since_1970(pieces.date()),
        nanos,
        offset_seconds: offset,
        zone,
    })
}

fn nanos_of_day(time: Time) -> i64 {
    let seconds =
        i64::from(time.hour()) * 3600 + i64::from(time.minute()) * 60 + i64::from(time.second());
    seconds * NANOS_PER_SECOND + i64::from(time.subsec_nanosecond())
}

pub(super) fn days_since_1970(date: Date) -> i64 {
    date.duration_since(Date::constant(1970, 1, 1)).as_hours() / 24
}

fn two(digits: [u8; 2]) -> Option<i64> {
    match digits {
        [a @ b'0'..=b'9', b @ b'0'..=b'9'] => Some(i64::from(a - b'0') * 10 + i64::from(b - b'0')),
        _ => None,
    }
}

/// Nanoseconds of the digits after the point, and what follows them.
fn fraction(text: &[u8]) -> Option<(i64, &[u8])> {
    let digits = text.iter().take_while(|b| b.is_ascii_digit()).count();
    if !(1..=9).contains(&digits) {
        return None;
    }
    let (digits, rest) = text.split_at_checked(digits)?;
    let padded = digits
        .iter()
        .map(|b| i64::from(b - b'0'))
        .chain(core::iter::repeat(0));
    Some((padded.take(9).fold(0, |sum, digit| sum * 10 + digit), rest))
}

fn number(text: &str) -> Result<f64, Finding> {
    let number = super::cell::plain_number(text).map_err(|_| {
        let expected = "expected a number in the unit of the heading";
        Finding::new(LogProblemKind::Unreadable, quoted(text), expected)
    })?;
    Ok(number)
}

fn contradictory(text: &str, needs: &str) -> Finding {
    Finding::new(LogProblemKind::Contradictory, quoted(text), needs)
}

fn unreadable(text: &str, meant: Option<String>) -> Finding {
    let expected = format!(
        "expected a time as in ISO 8601: {}",
        listed(["2026-01-15T18:30", "2026-01-15 18:30", "2026-01-15T17:30Z"])
    );
    Finding::new(LogProblemKind::Unreadable, quoted(text), expected).meant(meant)
}

/// What a date in another order probably means. With slashes day and month can be told
/// apart only where one of them is above twelve.
fn meant(text: &str) -> Option<String> {
    let (date, time) = match text.split_once([' ', 'T']) {
        Some((date, time)) => (date, time.trim()),
        None => (text, ""),
    };
    let mark = date.chars().find(|c| !c.is_ascii_digit())?;
    let mut parts = date.split(mark).map(|part| part.parse::<i16>().ok());
    let (a, b, c) = (parts.next()??, parts.next()??, parts.next()??);
    if parts.next().is_some() {
        return None;
    }
    let dates: Vec<String> = match (mark, a) {
        ('-' | '/' | '.', 1000..) => vec![(a, b, c)],
        ('.', _) => vec![(c, b, a)],
        ('/' | '-', _) => vec![(c, b, a), (c, a, b)],
        _ => return None,
    }
    .into_iter()
    .filter_map(|(y, m, d)| {
        let small = |n: i16| i8::try_from(n).ok();
        let year = if (0..100).contains(&y) { 2000 + y } else { y };
        Date::new(year, small(m)?, small(d)?).ok()
    })
    .map(|date| format!("`{date} {time}`").replace(" `", "`"))
    .collect();
    let mut dates = dates;
    dates.dedup();
    (!dates.is_empty()).then(|| format!("did you mean {}?", dates.join(" or ")))
}
