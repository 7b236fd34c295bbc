//! Rows with a time become a log.

use super::cell::{self, Cell, Marks, Shown};
use super::clock::{Clock, Placed};
use super::column::{Column, Holds};
use super::problem::{Finding, Findings, LogProblemKind};
use super::result::{beyond, interval};
use super::scale::Scale;
use super::{Entry, HarvestWeight, Interval, ProbeSeries, Reading, Record, event};
use crate::description::{TankFile, quoted, same_unit, schema, short};

/// More of anything that is weighed than any system holds, g.
const MAX_GRAMS: f64 = 1e6;

/// What a cell holds.
#[derive(Debug, Clone, Copy)]
pub(super) enum Value<'v> {
    Text(&'v str),
    /// Of a number that was never text: the step of its column.
    Number(f64, f64),
}

impl Value<'_> {
    pub(super) fn is_blank(&self) -> bool {
        match self {
            Self::Text(text) => text.trim().is_empty(),
            Self::Number(number, _) => number.is_nan(),
        }
    }

    fn shown(&self) -> String {
        match self {
            Self::Text(text) => quoted(text),
            Self::Number(number, _) => format!("`{number}`"),
        }
    }
}

/// Where the time of a row stands.
#[derive(Debug, Clone, Copy)]
pub(super) enum TimeCells {
    One(usize),
    DateAndClock(usize, Option<usize>),
    /// Times come beside the cells.
    Given,
}

/// A log while it is read.
#[derive(Debug)]
pub(super) struct Sheet<'f> {
    pub(super) file: &'f TankFile,
    pub(super) columns: Vec<Column>,
    pub(super) times: TimeCells,
    pub(super) clock: Clock<'f>,
    pub(super) marks: Marks,
    pub(super) now: Option<f64>,
    pub(super) header_line: usize,
    pub(super) previous_line: usize,
    pub(super) last_day: f64,
    pub(super) readings: Vec<(Reading, usize, usize)>,
    pub(super) entries: Vec<(Entry, usize, usize)>,
    pub(super) probes: Vec<ProbeSeries>,
    pub(super) findings: Findings,
    pub(super) unread: Vec<usize>,
}

/// How times of the columns are given that are handed over without a header for them.
pub(super) const TIME: &str = "time";

impl<'f> Sheet<'f> {
    /// Reads a row of text.
    pub(super) fn row<'c>(
        &mut self,
        line: usize,
        cells: impl Iterator<Item = &'c str> + Clone,
        comma: bool,
    ) {
        let cell = |index: usize| cells.clone().nth(index).unwrap_or_default().trim();
        if cells.clone().all(|cell| cell.trim().is_empty()) {
            return;
        }
        if cells
            .clone()
            .skip(self.columns.len())
            .any(|cell| !cell.trim().is_empty())
        {
            let found = format!("{} cells", cells.clone().count());
            let expected = format!(
                "expected {}, as the header has; the row was not read",
                self.columns.len()
            );
            let meant = comma.then(|| "a decimal comma in a file separated by commas? Put such numbers in quotes, or write decimal points".to_owned());
            self.findings.reject(
                line,
                "",
                Finding::new(LogProblemKind::Syntax, found, expected).meant(meant),
            );
            self.previous_line = line;
            return;
        }
        let placed = match self.times {
            TimeCells::One(index) => self.placed(line, index, cell(index)),
            TimeCells::DateAndClock(date, clock) => match clock.map(cell).unwrap_or_default() {
                "" => self.placed(line, date, cell(date)),
                clock => self.placed(line, date, &format!("{}T{clock}", cell(date))),
            },
            TimeCells::Given => None,
        };
        if let Some(placed) = placed {
            self.at(line, placed, cells.map(Value::Text));
        }
        self.previous_line = line;
    }

    fn placed(&mut self, line: usize, index: usize, text: &str) -> Option<Placed> {
        let heading = self.heading(index);
        let finding = if text.is_empty() {
            let expected = "expected a time; the row was not read";
            Finding::new(LogProblemKind::Missing, "no time", expected)
        } else {
            match self.clock.read(text) {
                Ok(placed) => match self.outside(&placed, text) {
                    Some(finding) => finding,
                    None => return Some(placed),
                },
                Err(finding) => Finding {
                    expected: format!("{}; the row was not read", finding.expected),
                    ..finding
                },
            }
        };
        self.reject_row(line, &heading, finding);
        None
    }

    /// Refuses a time outside the description's.
    pub(super) fn outside(&self, placed: &Placed, text: &str) -> Option<Finding> {
        let day = placed.day;
        if (0.0..=schema::MAX_DAYS).contains(&day) {
            return None;
        }
        let found = format!("{}, day {} of the description", quoted(text), short(day));
        let expected = format!(
            "expected a time between its start and {} days later; the row was not read",
            schema::MAX_DAYS
        );
        let meant =
            (day < 0.0).then(|| "let `simulation.start` be the first day of the log".to_owned());
        Some(Finding::new(LogProblemKind::OutOfRange, found, expected).meant(meant))
    }

    /// Reads the cells of a row whose time is known.
    pub(super) fn at<'v>(
        &mut self,
        line: usize,
        placed: Placed,
        cells: impl Iterator<Item = Value<'v>>,
    ) {
        self.note_time(line, &placed);
        let day = placed.day;
        let first_of_row = self.entries.len();
        for (index, value) in cells.enumerate() {
            let Some(column) = self.columns.get(index) else {
                break;
            };
            if value.is_blank() {
                continue;
            }
            match &column.holds {
                Holds::Time | Holds::Date | Holds::ClockTime => {}
                Holds::Probe(scale, place) => {
                    let (scale, place) = (*scale, *place);
                    self.probe((line, index), day, scale, place, value);
                }
                Holds::Test(scale, precision) => {
                    let (scale, precision) = (*scale, *precision);
                    let read = match value {
                        Value::Text(text) => {
                            let unit = column.unit.as_str();
                            cell::read(text, self.marks, |u| same_unit(u, unit))
                        }
                        Value::Number(value, step) => Ok(Cell {
                            shown: Shown::Value(cell::Number { value, step }, None),
                            standard_uncertainty: None,
                        }),
                    };
                    match read.and_then(|cell| {
                        interval(&scale, &precision, &cell, &value.shown(), &column.unit)
                    }) {
                        Ok((interval, open_ended)) => {
                            let measured = scale.measured;
                            let reading = Reading {
                                day,
                                measured,
                                interval,
                            };
                            self.readings.push((reading, line, index));
                            if open_ended {
                                self.note_open(line, index, value, &interval);
                            }
                        }
                        Err(finding) => self.reject(line, index, finding),
                    }
                }
                Holds::Note => {
                    let text = match value {
                        Value::Text(text) => text.to_owned(),
                        Value::Number(number, _) => number.to_string(),
                    };
                    self.enter(day, Record::Note(text), line, index);
                }
                Holds::Event => {
                    let text = match value {
                        Value::Text(text) => text,
                        Value::Number(..) => "a number",
                    };
                    for read in event::read(text, self.file.tank.air.co2_ppm) {
                        match read {
                            Ok(record) => self.enter(day, record, line, index),
                            Err(finding) => self.reject(line, index, finding),
                        }
                    }
                }
                Holds::Unread(_) => {
                    if let Some(count) = self.unread.get_mut(index) {
                        *count += 1;
                    }
                }
                Holds::HarvestWet(..)
                | Holds::HarvestDry(..)
                | Holds::Feeding(..)
                | Holds::WaterChange(..)
                | Holds::Dose(..) => match self.amount(index, value) {
                    Ok(Some(record)) => self.enter(day, record, line, index),
                    Ok(None) => {}
                    Err(finding) => self.reject(line, index, finding),
                },
            }
        }
        self.one_harvest(line, first_of_row);
    }

    /// What was done, by how much of it.
    fn amount(&self, index: usize, value: Value<'_>) -> Result<Option<Record>, Finding> {
        let Some(column) = self.columns.get(index) else {
            return Ok(None);
        };
        let (unit, limit, shown_in) = match column.holds {
            Holds::HarvestWet(unit)
            | Holds::HarvestDry(unit)
            | Holds::Feeding(_, unit)
            | Holds::Dose(_, unit) => (unit, MAX_GRAMS, "g"),
            Holds::WaterChange(unit) => (unit, self.file.tank.net_volume_l, "L"),
            _ => return Ok(None),
        };
        let number = match value {
            Value::Text(text) => {
                cell::read_number(text, self.marks, |u| same_unit(u, &column.unit))?
            }
            Value::Number(number, _) => number,
        };
        let amount = number * unit;
        if !(0.0..=limit).contains(&amount) {
            let found = format!("{}, {} {shown_in}", value.shown(), short(amount));
            let expected = format!("expected 0 to {} {shown_in}", short(limit));
            return Err(Finding::new(LogProblemKind::OutOfRange, found, expected));
        }
        Ok(match column.holds {
            Holds::HarvestWet(_) => Some(harvest(HarvestWeight::WetGrams(amount))),
            Holds::HarvestDry(_) => Some(harvest(HarvestWeight::DryGrams(amount))),
            Holds::Feeding(kind, _) => Some(Record::Feeding {
                grams: amount,
                kind,
            }),
            Holds::Dose(salt, _) => Some(Record::Dose {
                salt,
                grams: amount,
            }),
            Holds::WaterChange(_) => Some(Record::WaterChange { litres: amount }),
            _ => None,
        })
    }

    fn probe(
        &mut self,
        (line, index): (usize, usize),
        day: f64,
        scale: Scale,
        place: usize,
        value: Value<'_>,
    ) {
        let number = match value {
            Value::Number(number, _) => Ok(number),
            Value::Text(text) => match fast_number(text, self.marks) {
                Some(number) => Ok(number),
                None => {
                    let unit = self.columns.get(index).map_or("", |c| c.unit.as_str());
                    cell::read_number(text, self.marks, |u| same_unit(u, unit))
                }
            },
        };
        let read = number.and_then(|number| match scale.value(number) {
            Some(value) if scale.is_within(value) => Ok(value),
            _ => {
                let unit = self.columns.get(index).map_or("", |c| c.unit.as_str());
                Err(beyond(&scale, value.shown(), unit))
            }
        });
        match read {
            Ok(number) => {
                let Some(series) = self.probes.get_mut(place) else {
                    return;
                };
                if series.days.last() == Some(&day) && series.values.last() == Some(&number) {
                    let heading = self.heading(index);
                    let found = || {
                        Finding::new(
                            LogProblemKind::Duplicate,
                            format!("{} a second time", value.shown()),
                            "kept once",
                        )
                    };
                    self.findings
                        .note_once(line, &heading, found, LogProblemKind::Duplicate);
                    return;
                }
                series.days.push(day);
                series.values.push(number);
            }
            Err(finding) => {
                let heading = self.heading(index);
                self.findings
                    .reject_in_series((self.previous_line, line), &heading, finding);
            }
        }
    }

    fn enter(&mut self, day: f64, record: Record, line: usize, index: usize) {
        self.entries.push((Entry { day, record }, line, index));
    }

    fn reject(&mut self, line: usize, index: usize, finding: Finding) {
        let heading = self.heading(index);
        self.findings.reject(line, &heading, finding);
    }

    /// A file of probes may have ten thousand rows with the same wrong.
    pub(super) fn reject_row(&mut self, line: usize, heading: &str, finding: Finding) {
        match self.probes.is_empty() {
            true => self.findings.reject(line, heading, finding),
            false => {
                let lines = (self.previous_line, line);
                self.findings.reject_in_series(lines, heading, finding);
            }
        }
    }

    pub(super) const fn row_done(&mut self, line: usize) {
        self.previous_line = line;
    }

    pub(super) fn heading(&self, index: usize) -> String {
        self.columns
            .get(index)
            .map_or_else(|| TIME.to_owned(), |c| c.heading.clone())
    }

    fn note_open(&mut self, line: usize, index: usize, value: Value<'_>, interval: &Interval) {
        let heading = self.heading(index);
        let expected = format!(
            "taken to lie between it and the limit of the quantity, {}",
            short(interval.high())
        );
        self.findings.note(
            line,
            &heading,
            Finding::new(LogProblemKind::OpenEnded, value.shown(), expected),
        );
    }

    fn note_time(&mut self, line: usize, placed: &Placed) {
        let heading = match self.times {
            TimeCells::One(index) | TimeCells::DateAndClock(index, _) => index,
            TimeCells::Given => usize::MAX,
        };
        let is_late = self.now.is_some_and(|now| placed.day > now);
        let is_early = placed.day < self.last_day;
        self.last_day = placed.day;
        for (is_so, kind, found, done) in [
            (
                placed.date_only,
                LogProblemKind::DateOnly,
                "a date without a time of day",
                "taken for noon",
            ),
            (
                placed.skipped,
                LogProblemKind::SkippedHour,
                "a time that the clocks skipped",
                "moved on by as much as the clocks were",
            ),
            (
                placed.repeated,
                LogProblemKind::RepeatedHour,
                "a time that the clocks showed twice",
                "taken for the first of the two",
            ),
            (
                is_late,
                LogProblemKind::Future,
                "a time later than now",
                "kept; is the date right?",
            ),
            (
                is_early,
                LogProblemKind::OutOfOrder,
                "a time before that of the row above",
                "put in the order of time",
            ),
        ] {
            if is_so {
                let heading = self.heading(heading);
                self.findings
                    .note_once(line, &heading, || Finding::new(kind, found, done), kind);
            }
        }
    }

    /// A harvest is weighed once, and its weight says that it took place.
    fn one_harvest(&mut self, line: usize, first: usize) {
        let is_weighed =
            |e: &(Entry, usize, usize)| matches!(e.0.record, Record::Harvest { weight: Some(_) });
        let row = self.entries.get(first..).unwrap_or_default();
        let Some(kept) = row.iter().rfind(|e| is_weighed(e)).map(|e| e.2) else {
            return;
        };
        let is_other = |record: &Record| {
            matches!(
                record,
                Record::Harvest { .. } | Record::Event(crate::Event::Harvest { .. })
            )
        };
        let mut others = Vec::new();
        let mut at = 0;
        self.entries.retain(|(entry, _, index)| {
            let in_row = at >= first;
            at += 1;
            let goes = in_row && *index != kept && is_other(&entry.record);
            if goes && !matches!(entry.record, Record::Harvest { weight: None }) {
                others.push(*index);
            }
            !goes
        });
        for index in others {
            let found = format!("the harvest of `{}` a second time", self.heading(kept));
            let expected = "expected one weight for a harvest, and no kept share beside it; the other was kept";
            self.reject(
                line,
                index,
                Finding::new(LogProblemKind::Contradictory, found, expected),
            );
        }
    }
}

fn harvest(weight: HarvestWeight) -> Record {
    Record::Harvest {
        weight: Some(weight),
    }
}

/// A number in the form that loggers write, which has one meaning.
fn fast_number(text: &str, marks: Marks) -> Option<f64> {
    let text = text.trim();
    let plain = |b: u8| b.is_ascii_digit() || matches!(b, b'.' | b'-');
    if marks.comma || !text.bytes().all(plain) {
        return None;
    }
    text.parse().ok().filter(|n: &f64| n.is_finite())
}
