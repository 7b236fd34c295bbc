//! Numbers, clock times and dates as people write them.

use jiff::civil;
use jiff::tz::{Offset, TimeZone};
use toml::value::Datetime;

/// Why a text is no number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum NumberError {
    /// It does not begin with one.
    NotANumber,
    /// It is not a number, or more than a number can hold.
    NonFinite,
    /// A comma or another sign among the digits.
    Separator,
}

/// The number that a text begins with, and the rest: its unit.
pub(crate) fn number_and_unit(text: &str) -> Result<(f64, &str), NumberError> {
    let text = text.trim();
    let (sign, unsigned) = match text.strip_prefix(['-', '−']) {
        Some(rest) => (-1.0, rest),
        None => (1.0, text.strip_prefix('+').unwrap_or(text)),
    };
    let lower: String = unsigned.chars().take(3).collect::<String>().to_lowercase();
    if matches!(lower.as_str(), "nan" | "inf" | "∞") {
        return Err(NumberError::NonFinite);
    }
    let (digits, rest) = unsigned.split_at(number_length(unsigned.as_bytes()));
    let magnitude: f64 = digits.parse().map_err(|_| NumberError::NotANumber)?;
    if !magnitude.is_finite() {
        return Err(NumberError::NonFinite);
    }
    let mut after = rest.chars();
    match (after.next(), after.next()) {
        (Some(',' | '_' | '\'' | '’'), Some('0'..='9')) => Err(NumberError::Separator),
        (Some('.' | '0'..='9'), _) => Err(NumberError::NotANumber),
        _ => Ok((sign * magnitude, rest.trim_start())),
    }
}

/// Bytes of the longest decimal number, with or without an exponent, at the
/// beginning.
fn number_length(bytes: &[u8]) -> usize {
    let digits_from = |from: usize| {
        let rest = bytes.get(from..).unwrap_or_default();
        from + rest.iter().take_while(|b| b.is_ascii_digit()).count()
    };
    let mut end = digits_from(0);
    if bytes.get(end) == Some(&b'.') && bytes.get(end + 1).is_some_and(u8::is_ascii_digit) {
        end = digits_from(end + 1);
    }
    if end > 0 && matches!(bytes.get(end), Some(b'e' | b'E')) {
        let signed = matches!(bytes.get(end + 1), Some(b'+' | b'-'));
        let exponent = end + 1 + usize::from(signed);
        if bytes.get(exponent).is_some_and(u8::is_ascii_digit) {
            end = digits_from(exponent);
        }
    }
    end
}

/// Hour of the day, 0 up to 24, of `10:30` or `10:30:00`.
pub(super) fn clock_hour(text: &str) -> Option<f64> {
    let mut parts = text.trim().split(':').map(|part| match part.len() {
        1 | 2 if part.bytes().all(|b| b.is_ascii_digit()) => part.parse::<u8>().ok(),
        _ => None,
    });
    let (hour, minute) = (parts.next()??, parts.next()??);
    let second = parts.next().unwrap_or(Some(0))?;
    if parts.next().is_some() || hour > 23 || minute > 59 || second > 59 {
        return None;
    }
    Some(f64::from(hour) + f64::from(minute) / 60.0 + f64::from(second) / 3600.0)
}

/// The clock time that was probably meant.
pub(super) fn clock_meant(text: &str) -> Option<String> {
    let text = text.trim().to_lowercase();
    let (time, hours_later) = match (text.strip_suffix("pm"), text.strip_suffix("am")) {
        (Some(time), _) => (time, 12),
        (_, Some(time)) => (time, 0),
        _ => (text.strip_suffix('h').unwrap_or(&text), 0),
    };
    let time = time.trim().replace(['.', 'h'], ":");
    let (hour, minute) = time.split_once(':').unwrap_or((&time, "00"));
    let hour: u8 = hour.parse().ok()?;
    let hour = match (hour, hours_later) {
        (24, 0) if minute == "00" => 0,
        (12, 12) => 12,
        (12, 0) if text.ends_with("am") => 0,
        (hour, later) => hour.checked_add(later)?,
    };
    let meant = format!("{hour:02}:{minute}");
    clock_hour(&meant).map(|_| meant)
}

/// A day of the calendar, or a moment of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Moment {
    pub(super) date_time: civil::DateTime,
    pub(super) offset: Option<Offset>,
}

impl Moment {
    /// Reads ISO 8601, with or without a time of day. None where it is not of
    /// that form, or not a date of the calendar.
    pub(super) fn parse(text: &str) -> Option<Self> {
        let written: Datetime = text.trim().parse().ok()?;
        let small = |n: u8| i8::try_from(n).ok();
        let date = written.date?;
        let year = i16::try_from(date.year).ok()?;
        let date = civil::Date::new(year, small(date.month)?, small(date.day)?).ok()?;
        let time = match written.time {
            None => civil::Time::midnight(),
            Some(t) => {
                let second = small(t.second.unwrap_or(0))?;
                civil::Time::new(small(t.hour)?, small(t.minute)?, second, 0).ok()?
            }
        };
        let offset = match written.offset {
            None => None,
            Some(toml::value::Offset::Z) => Some(Offset::UTC),
            Some(toml::value::Offset::Custom { minutes }) => {
                Some(Offset::from_seconds(i32::from(minutes) * 60).ok()?)
            }
        };
        Some(Self {
            date_time: date.to_datetime(time),
            offset,
        })
    }

    /// The clock of a zone at this moment. None beyond the calendar's ends.
    pub(super) fn in_zone(self, zone: &TimeZone) -> Option<civil::DateTime> {
        match self.offset {
            None => Some(self.date_time),
            Some(offset) => {
                let moment = offset.to_timestamp(self.date_time).ok()?;
                Some(zone.to_datetime(moment))
            }
        }
    }
}

/// Days, of 24 hours, from the beginning of a date to a moment by the same clock.
pub(super) fn days_since(start: civil::Date, moment: civil::DateTime) -> f64 {
    let start = start.to_datetime(civil::Time::midnight());
    moment.duration_since(start).as_secs_f64() / 86_400.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_end_where_their_unit_begins() {
        for (text, number, unit) in [
            ("180 L", 180.0, "L"),
            ("47.5gal (US)", 47.5, "gal (US)"),
            (" -2.5e-3 mol/d ", -2.5e-3, "mol/d"),
            ("−5 °C", -5.0, "°C"),
            ("+1", 1.0, ""),
            ("1e3", 1000.0, ""),
            ("3 eq", 3.0, "eq"),
            ("3eq", 3.0, "eq"),
            ("5e", 5.0, "e"),
            ("0x1F", 0.0, "x1F"),
        ] {
            assert_eq!(number_and_unit(text), Ok((number, unit)), "{text}");
        }
        for (text, error) in [
            ("", NumberError::NotANumber),
            ("about 5 L", NumberError::NotANumber),
            (".", NumberError::NotANumber),
            ("-", NumberError::NotANumber),
            ("1.2.3", NumberError::NotANumber),
            ("5. L", NumberError::NotANumber),
            ("8,2 dKH", NumberError::Separator),
            ("1_000 L", NumberError::Separator),
            ("nan", NumberError::NonFinite),
            ("-Infinity L", NumberError::NonFinite),
            ("1e999 L", NumberError::NonFinite),
        ] {
            assert_eq!(number_and_unit(text), Err(error), "{text}");
        }
    }

    #[test]
    fn clock_times_are_of_the_day() {
        assert_eq!(clock_hour("00:00"), Some(0.0));
        assert_eq!(clock_hour("10:30"), Some(10.5));
        assert_eq!(clock_hour("9:45"), Some(9.75));
        assert_eq!(
            clock_hour("23:59:59"),
            Some(23.0 + 59.0 / 60.0 + 59.0 / 3600.0)
        );
        for wrong in [
            "24:00",
            "10",
            "10:60",
            "10:30:60",
            "10:30:00:00",
            "-1:00",
            "1 0:00",
            ":",
            "+1:00",
            "010:00",
        ] {
            assert_eq!(clock_hour(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn other_clocks_are_understood_as_a_hint() {
        for (text, meant) in [
            ("10:30 pm", Some("22:30")),
            ("12 am", Some("00:00")),
            ("12:15 PM", Some("12:15")),
            ("10.30", Some("10:30")),
            ("18 h", Some("18:00")),
            ("24:00", Some("00:00")),
            ("noon", None),
            ("255 pm", None),
        ] {
            assert_eq!(clock_meant(text).as_deref(), meant, "{text}");
        }
    }

    #[test]
    fn dates_are_of_the_calendar() {
        let start = civil::date(2026, 2, 27);
        let days = |text| days_since(start, Moment::parse(text).unwrap().date_time);
        assert_eq!(days("2026-03-01"), 2.0);
        assert_eq!(days("2026-03-01T06:00"), 2.25);
        assert_eq!(days("2026-03-01 18:00:00"), 2.75);
        assert_eq!(days("2026-02-26"), -1.0);
        for wrong in [
            "2026-02-29",
            "2026-13-01",
            "10:30",
            "01.03.2026",
            "2026-3-1",
            "soon",
        ] {
            assert_eq!(Moment::parse(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn an_offset_is_turned_into_the_zones_clock() {
        let zone = TimeZone::fixed(jiff::tz::offset(2));
        let moment = Moment::parse("2026-06-01T22:30:00Z").unwrap();
        let clock = moment.in_zone(&zone).unwrap();
        assert_eq!(clock, civil::date(2026, 6, 2).at(0, 30, 0, 0));
    }
}
