//! The invented log that lies beside the examples.

// A test file may print and panic.
#![allow(missing_docs)]

#[path = "../examples/keepers_log/invented.rs"]
mod invented;

use halimeda_tank::description::TankFile;
use halimeda_tank::log::{LogReader, Measured, Record};

const CSV: &str = include_str!("../examples/invented_log.csv");

fn reef() -> TankFile {
    TankFile::from_toml(include_str!("../examples/invented_reef.toml")).unwrap()
}

/// Made again it is the same.
#[test]
fn the_file_is_what_its_head_says() {
    let made = invented::csv(&reef()).unwrap();
    let difference = made.lines().zip(CSV.lines()).find(|(a, b)| a != b);
    assert_eq!(difference, None);
    assert_eq!(made.len(), CSV.len());
}

/// It reads back whole, with a gap, a noted and an unnoted incident.
#[test]
fn it_reads_back_whole() {
    let file = reef();
    let reading = LogReader::new(&file).now(None).read(CSV).unwrap();
    assert!(reading.rejected.is_empty(), "{:?}", reading.rejected);
    let log = reading.log;
    let tests: Vec<f64> = log
        .readings
        .iter()
        .filter(|r| r.measured == Measured::Nitrate)
        .map(|r| r.day)
        .collect();
    assert!(tests.len() >= 20);
    assert!(tests.windows(2).any(|w| w[1] - w[0] >= 10.0));
    let events = log
        .entries
        .iter()
        .filter(|e| matches!(e.record, Record::Event(_)));
    assert_eq!(events.count(), 2);
    assert!(log.last_day().unwrap() < invented::DAYS);
    assert!(CSV.starts_with("# An invented log"));
}
