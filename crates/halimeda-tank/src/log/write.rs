//! A clean copy of a log, which reads back to the same log.

use halimeda::process::FeedKind;
use jiff::civil::Date;

use super::clock::{Clock, TimeForm, days_since_1970};
use super::kit::kit;
use super::names::{feed_name, test_name};
use super::{HarvestWeight, Interval, Log, Measured, Record, event};
use crate::description::TankFile;
use crate::tank::Event;

impl Log {
    /// The log as a file of [this format](crate::log), in the units of [`Measured`], every
    /// result with its interval and standard uncertainty, in the order of time.
    ///
    /// Times are dates where the description has one for its start and every time of
    /// the log can be written as one, else days since the start. Read back beside the
    /// same description it is the same log.
    #[must_use]
    pub fn to_csv(&self, file: &TankFile) -> String {
        let mut sheet = Sheet::default();
        for series in &self.probes {
            let heading = format!("{} probe", heading(series.measured));
            let column = sheet.new_column(heading);
            for (day, value) in series.days.iter().zip(&series.values) {
                sheet.cells.push((*day, column, value.to_string()));
            }
        }
        for reading in &self.readings {
            let column = sheet.column(&heading(reading.measured));
            sheet
                .cells
                .push((reading.day, column, interval(&reading.interval)));
        }
        let mut entries: Vec<_> = self.entries.iter().collect();
        entries.sort_by(|a, b| a.day.total_cmp(&b.day));
        for entry in entries {
            let (heading, text) = written(&entry.record);
            let column = sheet.column(&heading);
            sheet.entries.push((entry.day, column, text));
        }
        sheet.write(file)
    }
}

/// Cells before they are put in rows.
#[derive(Default)]
struct Sheet {
    headings: Vec<String>,
    /// Of results and records; those of one time in any order.
    cells: Vec<(f64, usize, String)>,
    /// In their order, which they keep.
    entries: Vec<(f64, usize, String)>,
}

/// The cells of one row, by column.
type Cells = Vec<(usize, String)>;

impl Sheet {
    fn new_column(&mut self, heading: String) -> usize {
        self.headings.push(heading);
        self.headings.len() - 1
    }

    fn column(&mut self, heading: &str) -> usize {
        let known = self.headings.iter().position(|h| h == heading);
        known.unwrap_or_else(|| self.new_column(heading.to_owned()))
    }

    /// Rows in the order of time: of each time as many as needed for a cell to have its
    /// own place.
    fn rows(mut self) -> Vec<(f64, Cells)> {
        self.cells
            .sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let mut rows: Vec<(f64, Cells)> = Vec::new();
        let mut first_of_time = 0;
        // The cells of a column at one time follow each other: each takes the next row.
        let mut last: Option<(f64, usize, usize)> = None;
        for (day, column, text) in self.cells {
            if rows
                .get(first_of_time)
                .is_none_or(|(d, _)| d.total_cmp(&day).is_ne())
            {
                first_of_time = rows.len();
            }
            let row = match last {
                Some((d, c, row)) if d.total_cmp(&day).is_eq() && c == column => row + 1,
                _ => first_of_time,
            };
            match rows.get_mut(row) {
                Some((_, cells)) => cells.push((column, text)),
                None => rows.push((day, vec![(column, text)])),
            }
            last = Some((day, column, row));
        }
        let entries = self
            .entries
            .into_iter()
            .map(|(day, column, text)| (day, vec![(column, text)]));
        rows.extend(entries);
        rows.sort_by(|a, b| a.0.total_cmp(&b.0));
        rows
    }

    fn write(mut self, file: &TankFile) -> String {
        let headings = core::mem::take(&mut self.headings);
        let rows = self.rows();
        let dates = dates(rows.iter().map(|(day, _)| *day), file);
        let mut writer = csv::WriterBuilder::new()
            .flexible(false)
            .from_writer(Vec::new());
        let time = if dates.is_some() { "time" } else { "time [d]" };
        let mut record = csv::StringRecord::new();
        record.push_field(time);
        headings
            .iter()
            .for_each(|heading| record.push_field(heading));
        // Into memory, and every row has the header's length: nothing is left to fail.
        let mut written = writer.write_record(&record).is_ok();
        for (number, (day, mut cells)) in rows.into_iter().enumerate() {
            record.clear();
            match dates.as_ref().and_then(|dates| dates.get(number)) {
                Some(date) => record.push_field(date),
                None => record.push_field(&day.to_string()),
            }
            cells.sort_by_key(|(column, _)| *column);
            let mut cells = cells.into_iter().peekable();
            for column in 0..headings.len() {
                let here = cells.next_if(|(at, _)| *at == column);
                record.push_field(here.as_ref().map_or("", |(_, text)| text));
            }
            written &= writer.write_record(&record).is_ok();
        }
        debug_assert!(written);
        let bytes = writer.into_inner().unwrap_or_default();
        String::from_utf8(bytes).unwrap_or_default()
    }
}

/// Every time as a date, if each reads back to the same time.
fn dates(days: impl Iterator<Item = f64>, file: &TankFile) -> Option<Vec<String>> {
    let start = days_since_1970(file.start?);
    let mut clock = Clock::new(TimeForm::Written(None), file);
    days.map(|day| {
        let text = date(start, day)?;
        let back = clock.read(&text).ok()?.day;
        (back.total_cmp(&day).is_eq()).then_some(text)
    })
    .collect()
}

fn date(start: i64, day: f64) -> Option<String> {
    let whole = day.floor();
    let nanos = ((day - whole) * 86_400e9).round();
    let date = Date::constant(1970, 1, 1)
        .checked_add(
            jiff::Span::new()
                .try_days(start.checked_add(whole as i64)?)
                .ok()?,
        )
        .ok()?;
    let time = date.to_datetime(jiff::civil::Time::midnight());
    let time = time
        .checked_add(jiff::SignedDuration::from_nanos(nanos as i64))
        .ok()?;
    let seconds = time.second() != 0 || time.subsec_nanosecond() != 0;
    let text = time.to_string();
    // Most keepers' times have no seconds.
    Some(match text.strip_suffix(":00") {
        Some(minutes) if !seconds => minutes.to_owned(),
        _ => text,
    })
}

fn heading(measured: Measured) -> String {
    let unit = match measured {
        // As the number is kept: a share and a plain number.
        Measured::OxygenSaturation | Measured::Salinity => "1",
        _ => kit(measured).unit,
    };
    format!("{} [{unit}]", test_name(measured))
}

fn interval(interval: &Interval) -> String {
    let (low, high) = (interval.low(), interval.high());
    format!("{low}-{high} u {}", interval.standard_uncertainty())
}

/// The heading and the cell of an entry.
fn written(record: &Record) -> (String, String) {
    match record {
        Record::Harvest { weight: None } => ("event".to_owned(), "harvest".to_owned()),
        Record::Harvest {
            weight: Some(HarvestWeight::WetGrams(grams)),
        } => ("harvest wet [g]".to_owned(), grams.to_string()),
        Record::Harvest {
            weight: Some(HarvestWeight::DryGrams(grams)),
        } => ("harvest dry [g]".to_owned(), grams.to_string()),
        Record::Feeding { grams, kind } | Record::Event(Event::Feeding { grams, kind }) => {
            (feeding(*kind), grams.to_string())
        }
        Record::WaterChange { litres } => ("water change [L]".to_owned(), litres.to_string()),
        Record::Event(Event::WaterChange { share, .. }) => {
            ("water change [%]".to_owned(), (share * 100.0).to_string())
        }
        Record::Dose { salt, grams } | Record::Event(Event::Dose { salt, grams }) => {
            (format!("dose {} [g]", salt.name()), grams.to_string())
        }
        Record::Event(event) => ("event".to_owned(), event::write(event)),
        Record::Note(text) => ("note".to_owned(), text.clone()),
    }
}

fn feeding(kind: FeedKind) -> String {
    match feed_name(kind) {
        Some(name) => format!("feeding {name} [g]"),
        None => {
            let parts = kind.composition();
            format!(
                "feeding custom [g] water_fraction={} protein_fraction_of_dry={} phosphorus_fraction_of_dry={} carbon_fraction_of_dry={}",
                parts.water_fraction,
                parts.protein_fraction_of_dry,
                parts.phosphorus_fraction_of_dry,
                parts.carbon_fraction_of_dry
            )
        }
    }
}
