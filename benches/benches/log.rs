//! Reading a probe's million rows, beside what splitting the same bytes into cells costs:
//! the first two times in one run are to be read as a ratio.

// A benchmark that cannot be set up has nothing to measure.
#![allow(clippy::expect_used)]

use std::fmt::Write as _;

use divan::Bencher;
use divan::counter::BytesCount;
use halimeda_tank::description::TankFile;
use halimeda_tank::log::rates::net_rates;
use halimeda_tank::log::{Interval, Log, LogReader, Measured, Reading};

fn main() {
    divan::main();
}

fn reef() -> TankFile {
    TankFile::from_toml(include_str!(
        "../../crates/halimeda-tank/examples/invented_reef.toml"
    ))
    .expect("the description is tested")
}

const ROWS: u32 = 1_000_000;

/// Three probes every ten seconds for 116 days, across the change of clocks in March;
/// `ending` is what follows each time.
fn file(ending: &str) -> String {
    let mut text = "time,temperature [°C],ph [NBS],salinity [1]\n".to_owned();
    let days_of_months = [31, 28, 31, 30, 31];
    for row in 0..ROWS {
        let (second, mut day) = (row % 8640 * 10, row / 8640 + 19);
        let month = days_of_months.iter().take_while(|&&days| {
            let is_later = day >= days;
            day -= if is_later { days } else { 0 };
            is_later
        });
        let month = month.count() + 1;
        let (hour, minute, second) = (second / 3600, second / 60 % 60, second % 60);
        writeln!(
            text,
            "2026-{month:02}-{:02}T{hour:02}:{minute:02}:{second:02}{ending},{}.{:02},8.{:02},35.{}",
            day + 1,
            24 + row % 3,
            row % 100,
            row % 30,
            row % 10,
        )
        .expect("text can be written to");
    }
    text
}

/// Only the cells, by the same library.
#[divan::bench(sample_count = 10)]
fn split_a_million_rows(bencher: Bencher<'_, '_>) {
    let text = file("Z");
    bencher.counter(BytesCount::of_str(&text)).bench(|| {
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .from_reader(text.as_bytes());
        let mut record = csv::StringRecord::new();
        let mut cells = 0;
        while reader.read_record(&mut record).unwrap_or(false) {
            cells += record.len();
        }
        cells
    });
}

/// Times in UTC, or by the clock of the tank.
#[divan::bench(args = ["Z", ""], sample_count = 10)]
fn read_a_million_rows(bencher: Bencher<'_, '_>, ending: &str) {
    let (text, tank) = (file(ending), reef());
    let reader = LogReader::new(&tank).all_probes().now(None);
    let read = reader.read(&text).expect("the file is a log");
    assert!(read.rejected.is_empty() && read.log.probes.len() == 3);
    bencher
        .counter(BytesCount::of_str(&text))
        .bench(|| reader.read(&text));
}

/// A year of tests every third day: the rate between each two.
#[divan::bench(sample_count = 10)]
fn net_rates_of_a_year(bencher: Bencher<'_, '_>) {
    let setup = reef().setup();
    let readings = (0..122).map(|i| Reading {
        day: f64::from(3 * i),
        measured: Measured::Nitrate,
        interval: Interval::new(f64::from(i % 7), f64::from(i % 7 + 1), 0.5)
            .expect("an interval of positive width"),
    });
    let log = Log {
        readings: readings.collect(),
        ..Log::default()
    };
    bencher.bench(|| net_rates(&setup, &log, Measured::Nitrate));
}
