//! Logs as keepers write them: awkward, broken and mangled.

#![allow(clippy::unwrap_used)]

use halimeda_tank::Event;
use halimeda_tank::description::TankFile;
use halimeda_tank::log::{
    Cells, Entry, HarvestWeight, Interval, Log, LogProblem, LogProblemKind, LogReader, LogReading,
    Measured, ProbeSeries, Reading, Record, Times,
};

/// Starts on 2026-01-15 in Europe/Berlin, 200 L.
fn tank() -> TankFile {
    TankFile::from_toml(include_str!("../examples/invented_reef.toml")).unwrap()
}

fn tank_in(zone: &str, start: &str) -> TankFile {
    let text = include_str!("../examples/invented_reef.toml")
        .replace("Europe/Berlin", zone)
        .replace("2026-01-15", start);
    TankFile::from_toml(text).unwrap()
}

fn read(text: impl AsRef<[u8]>) -> LogReading {
    LogReader::new(&tank()).now(None).read(text).unwrap()
}

/// A log in few words: `DAY WHAT LOW..HIGH`, `probe WHAT NUMBER`, `DAY ENTRY`.
fn summary(log: &Log) -> Vec<String> {
    let number = |x: f64| {
        let rounded: f64 = format!("{x:.4e}").parse().unwrap();
        rounded.to_string()
    };
    let readings = log.readings.iter().map(|r| {
        let (low, high) = (number(r.interval.low()), number(r.interval.high()));
        format!("{} {:?} {low}..{high}", number(r.day), r.measured)
    });
    let probes = log.probes.iter().map(|p| {
        let values: Vec<String> = p.values.iter().map(|v| number(*v)).collect();
        format!("probe {:?} {}", p.measured, values.join(" "))
    });
    let entries = log
        .entries
        .iter()
        .map(|e| format!("{} {:?}", number(e.day), e.record));
    readings.chain(probes).chain(entries).collect()
}

fn found(problems: &[LogProblem]) -> Vec<String> {
    problems
        .iter()
        .map(|p| format!("{:?} {}", p.kind(), p))
        .collect()
}

/// A file, what is read of it, and a piece of each rejection and note in their order.
struct Case {
    text: &'static [u8],
    read: &'static [&'static str],
    rejected: &'static [&'static str],
    notes: &'static [&'static str],
}

macro_rules! cases {
    ($($text:expr => read [$($read:expr),*] rejected [$($rejected:expr),*] notes [$($notes:expr),*];)*) => {
        &[$(Case {
            text: $text,
            read: &[$($read),*],
            rejected: &[$($rejected),*],
            notes: &[$($notes),*],
        }),*]
    };
}

// Day 17 is 2026-02-01: 31 - 15 + 1.
const CASES: &[Case] = cases! {
    // Shape of the file.
    b"time,nitrate [mg/L NO3]\n2026-02-01 12:00,5\n" => read ["17.5 Nitrate 4.5..5.5"] rejected [] notes [];
    b"\xef\xbb\xbftime;nitrate [mg/L NO3]\r\n2026-02-01 12:00;5\r\n" => read ["17.5 Nitrate 4.5..5.5"] rejected [] notes [];
    b"time\tnitrate [mg/L NO3]\n2026-02-01 12:00\t5" => read ["17.5 Nitrate 4.5..5.5"] rejected [] notes [];
    b"sep=;\ntime;nitrate [mg/L NO3]\n2026-02-01 12:00;5,5\n" => read ["17.5 Nitrate 5.45..5.55"] rejected [] notes [];
    b"time,nitrate [mg/L NO3]\r2026-02-01 12:00,5\r2026-02-02 12:00,6\r" => read ["17.5 Nitrate 4.5..5.5", "18.5 Nitrate 5.5..6.5"] rejected [] notes [];
    b"# my tank\n\n\n# tests\ntime,nitrate [mg/L NO3]\n\n# a comment, with a comma\n2026-02-01 12:00,5\n\r\n2026-02-02 12:00,x\n" => read ["17.5 Nitrate 4.5..5.5"] rejected ["Unreadable line 10, nitrate [mg/L NO3]: found `x`"] notes [];
    b"time,nitrate [mg/L NO3],,\n2026-02-01 12:00,5,,\n,,,\n" => read ["17.5 Nitrate 4.5..5.5"] rejected [] notes [];
    b"time,nitrate [mg/L NO3]\n2026-02-01 12:00\n2026-02-02 12:00,\n" => read [] rejected [] notes [];
    b"time,nitrate [mg/L NO3]\n2026-02-01 12:00,8,2\n" => read [] rejected ["Syntax line 2: found 3 cells; expected 2, as the header has; the row was not read; a decimal comma"] notes [];
    b"time,nitrate [mg/L NO3]\n2026-02-01 12:00,\"8,2\"\n" => read ["17.5 Nitrate 8.15..8.25"] rejected [] notes [];
    b"time,note,nitrate [mg/L NO3]\n2026-02-01 12:00,\"two\nlines\",5\n2026-02-02 12:00,x,y\n" => read ["17.5 Nitrate 4.5..5.5", "17.5 Note(\"two\\nlines\")", "18.5 Note(\"x\")"] rejected ["Unreadable line 4"] notes [];
    b"time,nitrate [mg/L NO3]\n\"2026-02-01 12:00,5\n2026-02-02 12:00,6\n2026-02-03 12:00,7\n" => read ["18.5 Nitrate 5.5..6.5", "19.5 Nitrate 6.5..7.5"] rejected ["Syntax line 2: found a quote that is not closed"] notes [];
    b"time,note,nitrate [mg/L NO3]\n2026-02-01 12:00,\"never closed,5\n2026-02-02 12:00,ok,6\n" => read ["18.5 Nitrate 5.5..6.5", "18.5 Note(\"ok\")"] rejected ["Syntax line 2: found a quote that is not closed"] notes [];
    b"time,note\n2026-02-01 12:00,a 12\" pipe\n" => read ["17.5 Note(\"a 12\\\" pipe\")"] rejected [] notes [];
    b"time,note\n2026-02-01 12:00,\"said \"\"hello\"\", left\"\n" => read ["17.5 Note(\"said \\\"hello\\\", left\")"] rejected [] notes [];
    b"Time , NITRATE [ mg/l no3-n ]\n2026-02-01 12:00, 1 \n" => read [] rejected ["UnknownUnit line 1, NITRATE [ mg/l no3-n ]: found `mg/l no3-n`"] notes [];
    b"TIME,Nitrate [ mg/l NO3-N ]\n2026-02-01 12:00, 1 \n" => read ["17.5 Nitrate 2.2133..6.64"] rejected [] notes [];

    // Headings.
    b"time,nitrate\n2026-02-01 12:00,5\n" => read [] rejected ["MissingUnit line 1, nitrate: found no unit; expected the unit of nitrate in the heading"] notes [];
    b"time,nitrate [mg/L]\n2026-02-01 12:00,5\n2026-02-02 12:00,6\n" => read [] rejected ["2 cells of the column were not read; did you mean `nitrate [mg/L NO3]` or `nitrate [mg/L N]`?"] notes [];
    b"time,NO3 [mg/L]\n2026-02-01 12:00,5\n" => read [] rejected ["UnknownName line 1, NO3 [mg/L]"] notes [];
    b"time,KH\n2026-02-01 12:00,8\n" => read [] rejected ["did you mean `alkalinity [dKH]`?"] notes [];
    b"time,nitrat [mg/L NO3]\n2026-02-01 12:00,5\n" => read [] rejected ["did you mean `nitrate [mg/L NO3]`?"] notes [];
    b"time,nitrate [mg/L NO3\n2026-02-01 12:00,5\n" => read [] rejected ["Syntax line 1"] notes [];
    b"time,nitrate [mg/L NO3] stp=2\n2026-02-01 12:00,5\n" => read [] rejected ["UnknownName line 1, nitrate [mg/L NO3] stp=2: found `stp`"] notes [];
    b"time,nitrate [mg/L NO3] step=-1\n2026-02-01 12:00,5\n" => read [] rejected ["found `step=-1`; expected a number above zero"] notes [];
    b"time,nitrate [mg/L NO3] step=2\n2026-02-01 12:00,6\n" => read ["17.5 Nitrate 5..7"] rejected [] notes [];
    b"time,feeding\n2026-02-01 12:00,5\n" => read [] rejected ["did you mean `feeding pellet`?"] notes [];
    b"time,feeding pelet [g]\n2026-02-01 12:00,5\n" => read [] rejected ["did you mean `feeding pellet [g]`?"] notes [];
    b"time,dose baking powder [g]\n2026-02-01 12:00,5\n" => read [] rejected ["UnknownName line 1, dose baking powder [g]: found `baking powder`"] notes [];
    b"time,event [g]\n2026-02-01 12:00,new_screen\n" => read [] rejected ["Contradictory line 1, event [g]"] notes [];
    b"time,time,ph [total]\n2026-02-01 12:00,2026-02-02 12:00,8.10\n" => read ["17.5 Ph 8.095..8.105"] rejected ["Contradictory line 1, time: found a second column of times"] notes [];

    // Times.
    b"time,ph [total]\n2026-02-01,8.1\n2026-02-02,8.2\n" => read ["17.5 Ph 8.05..8.15", "18.5 Ph 8.15..8.25"] rejected [] notes ["DateOnly line 2 to 3, 2 rows, time: found a date without a time of day; taken for noon"];
    b"date,clock,ph [total]\n2026-02-01,06:00,8.1\n2026-02-02,,8.2\n" => read ["17.25 Ph 8.05..8.15", "18.5 Ph 8.15..8.25"] rejected [] notes ["DateOnly line 3, date"];
    b"time,ph [total]\n2026-02-01T11:00Z,8.1\n2026-02-01T11:00:00.000+00:00,8.2\n2026-02-01 06:00-0500,8.3\n" => read ["17.5 Ph 8.05..8.15", "17.5 Ph 8.15..8.25", "17.5 Ph 8.25..8.35"] rejected [] notes ["Duplicate line 3", "Duplicate line 4, ph [total]: found another result of the same time; both kept"];
    b"time,ph [total]\n2026-02-01T12:00[Europe/Berlin],8.1\n2026-02-01T11:00[Europe/London],8.2\n20260202T1200,8.3\n" => read ["17.5 Ph 8.05..8.15", "17.5 Ph 8.15..8.25", "18.5 Ph 8.25..8.35"] rejected [] notes ["Duplicate line 3"];
    b"time [UTC],ph [total]\n2026-02-01 11:00,8.1\n2026-07-01 10:00,8.2\n" => read ["17.5 Ph 8.05..8.15", "167.5 Ph 8.15..8.25"] rejected [] notes [];
    b"time [+02:00],ph [total]\n2026-02-01 13:00,8.1\n" => read ["17.5 Ph 8.05..8.15"] rejected [] notes [];
    b"time [unix],ph [total]\n1769943600,8.1\n" => read ["17.5 Ph 8.05..8.15"] rejected [] notes [];
    b"time [d],ph [total]\n17.5,8.1\n-1,8.1\n4000,8.1\nsoon,8.1\n" => read ["17.5 Ph 8.05..8.15"] rejected ["OutOfRange line 3, time [d]: found `-1`, day -1 of the description", "OutOfRange line 4", "Unreadable line 5"] notes [];
    b"time,ph [total]\n01.02.2026 12:00,8.1\n" => read [] rejected ["did you mean `2026-02-01 12:00`?"] notes [];
    b"time,ph [total]\n02/01/2026,8.1\n" => read [] rejected ["did you mean `2026-01-02` or `2026-02-01`?"] notes [];
    b"time,ph [total]\n2026-02-30 12:00,8.1\n2026-02-01 25:00,8.1\nyesterday,8.1\n,8.1\n" => read [] rejected ["Unreadable line 2", "Unreadable line 3", "Unreadable line 4", "Missing line 5, time: found no time"] notes [];
    b"time,ph [total]\n2026-01-14 23:59,8.1\n" => read [] rejected ["let `simulation.start` be the first day of the log"] notes [];
    b"time,ph [total]\n2026-02-02 12:00,8.2\n2026-02-01 12:00,8.1\n" => read ["17.5 Ph 8.05..8.15", "18.5 Ph 8.15..8.25"] rejected [] notes ["OutOfOrder line 3, time"];
    b"time,ph [total]\n2026-02-01T12:00[Mars/Base],8.1\n" => read [] rejected ["UnknownName line 2, time"] notes [];

    // Numbers.
    b"time,phosphate [mg/L PO4]\n2026-02-01 12:00,<0.02\n2026-02-02 12:00,\xe2\x89\xa40.02 mg/L PO4\n" => read ["17.5 Phosphate 0..0.02", "18.5 Phosphate 0..0.02"] rejected [] notes [];
    b"time,nitrate [mg/L NO3]\n2026-02-01 12:00,>50\n" => read ["17.5 Nitrate 50..634.43"] rejected [] notes ["OpenEnded line 2, nitrate [mg/L NO3]: found `>50`; taken to lie between it and the limit"];
    b"time,nitrate [mg/L NO3]\n2026-02-01 12:00,2-5\n2026-02-02 12:00,2 \xe2\x80\x93 5\n2026-02-03 12:00,2..5\n2026-02-04 12:00,2 to 5\n" => read ["17.5 Nitrate 2..5", "18.5 Nitrate 2..5", "19.5 Nitrate 2..5", "20.5 Nitrate 2..5"] rejected [] notes [];
    b"time,nitrate [mg/L NO3]\n2026-02-01 12:00,5-2\n" => read [] rejected ["Contradictory line 2, nitrate [mg/L NO3]: found `5-2`; expected a range from its lower end to its upper; did you mean `2-5`?"] notes [];
    b"time;nitrate [mg/L NO3];ph [total]\n2026-02-01 12:00;1,234;8,1\n" => read ["17.5 Nitrate 1.2335..1.2345", "17.5 Ph 8.05..8.15"] rejected [] notes [];
    b"time;magnesium [mg/L]\n2026-02-01 12:00;1,234\n" => read [] rejected ["Ambiguous line 2, magnesium [mg/L]: found `1,234`"] notes [];
    b"time;magnesium [mg/L];ph [total]\n2026-02-01 12:00;1,234;8.1\n" => read ["17.5 Ph 8.05..8.15"] rejected ["Ambiguous line 2"] notes [];
    b"time;magnesium [mg/L];ph [total]\n2026-02-01 12:00;1.234;8,1\n" => read ["17.5 Ph 8.05..8.15"] rejected ["Ambiguous line 2"] notes [];
    b"time;magnesium [mg/L]\n2026-02-01 12:00;1.234,5\n2026-02-02 12:00;1 234\n2026-02-03 12:00;1'234\n" => read [] rejected ["did you mean `1234.5`?", "Unreadable line 3", "Unreadable line 4"] notes [];
    b"time;phosphate [mg/L PO4]\n2026-02-01 12:00;0,025\n" => read ["17.5 Phosphate 0.0245..0.0255"] rejected [] notes [];
    b"time,nitrate [mg/L NO3]\n2026-02-01 12:00,5e0\n2026-02-02 12:00,.5\n2026-02-03 12:00,+5.0\n" => read ["17.5 Nitrate 4.5..5.5", "18.5 Nitrate 0.45..0.55", "19.5 Nitrate 4.95..5.05"] rejected [] notes [];
    b"time,nitrate [mg/L NO3]\n2026-02-01 12:00,nan\n2026-02-02 12:00,inf\n2026-02-03 12:00,1e999\n2026-02-04 12:00,-5\n2026-02-05 12:00,9999\n" => read [] rejected ["NonFinite line 2", "NonFinite line 3", "NonFinite line 4", "OutOfRange line 5", "OutOfRange line 6, nitrate [mg/L NO3]: found `9999`; expected 0 to 634.4 mg/L NO3"] notes [];
    b"time,nitrate [mg/L NO3]\n2026-02-01 12:00,~5\n2026-02-02 12:00,5 mg/L\n2026-02-03 12:00,n/a\n2026-02-04 12:00,1.2.3\n2026-02-05 12:00,-\n" => read [] rejected ["write `5 \u{b1} 1`", "Unreadable line 3", "Unreadable line 4", "Unreadable line 5", "Unreadable line 6"] notes [];
    b"time,nitrate [mg/L NO3]\n2026-02-01 12:00,0\n" => read ["17.5 Nitrate 0..0.5"] rejected [] notes [];
    b"time,temperature [\xc2\xb0F]\n2026-02-01 12:00,77.0\n2026-02-02 12:00,25.0\n2026-02-03 12:00,120\n" => read ["17.5 Temperature 24.972..25.028"] rejected ["OutOfRange line 3", "OutOfRange line 4, temperature [\u{b0}F]: found `120`; expected 32 to 113 \u{b0}F"] notes [];
    b"time,oxygen [%],salinity [1]\n2026-02-01 12:00,98,35.0\n2026-02-02 12:00,98,1.026\n" => read ["17.5 OxygenSaturation 0.975..0.985", "17.5 Salinity 34.95..35.05", "18.5 OxygenSaturation 0.975..0.985"] rejected ["OutOfRange line 3, salinity [1]: found `1.026`"] notes [];
    b"time,nitrate [mg/L NO3]\n2026-02-01 12:00,5\n2026-02-01 12:00,5\n" => read ["17.5 Nitrate 4.5..5.5"] rejected [] notes ["Duplicate line 3, nitrate [mg/L NO3]: found the same result of the same time a second time; kept once"];

    // Entries.
    b"time,harvest wet [g],harvest dry [oz]\n2026-02-01 12:00,312,\n2026-02-02 12:00,,1\n" => read ["17.5 Harvest { weight: Some(WetGrams(312.0)) }", "18.5 Harvest { weight: Some(DryGrams(28.349523125)) }"] rejected [] notes [];
    b"time,harvest wet [g],harvest dry [g]\n2026-02-01 12:00,312,31\n" => read ["17.5 Harvest { weight: Some(DryGrams(31.0)) }"] rejected ["Contradictory line 2, harvest wet [g]: found the harvest of `harvest dry [g]` a second time"] notes [];
    b"time,harvest wet [g],event\n2026-02-01 12:00,312,harvest\n2026-02-02 12:00,,harvest\n2026-02-03 12:00,300,harvest kept_share=20 %\n" => read ["17.5 Harvest { weight: Some(WetGrams(312.0)) }", "18.5 Harvest { weight: None }", "19.5 Harvest { weight: Some(WetGrams(300.0)) }"] rejected ["Contradictory line 4, event"] notes [];
    b"time,water change [%],water change [L]\n2026-02-01 12:00,10,\n2026-02-02 12:00,,20\n2026-02-03 12:00,120,\n" => read ["17.5 WaterChange { litres: 20.0 }", "18.5 WaterChange { litres: 20.0 }"] rejected ["OutOfRange line 4, water change [%]: found `120`, 240 L; expected 0 to 200 L"] notes [];
    b"time,feeding frozen [g],feeding dried_macroalgae [mg]\n2026-02-01 12:00,6.8,500\n2026-02-02 12:00,-1,\n2026-02-03 12:00,<1,\n" => read ["17.5 Feeding { grams: 6.8, kind: Frozen }", "17.5 Feeding { grams: 0.5, kind: DriedMacroalgae }"] rejected ["OutOfRange line 3", "Unreadable line 4"] notes [];
    b"time,feeding custom [g] water_fraction=8 % protein_fraction_of_dry=48 % phosphorus_fraction_of_dry=1.3 %\n2026-02-01 12:00,2\n" => read [] rejected ["found no share for `carbon_fraction_of_dry`"] notes [];
    b"time,dose sodium bicarbonate [g],dose calcium_chloride_dihydrate [mmol]\n2026-02-01 12:00,10,10\n" => read ["17.5 Dose { salt: SodiumBicarbonate, grams: 10.0 }", "17.5 Dose { salt: CalciumChlorideDihydrate, grams: 1.47008 }"] rejected [] notes [];
    b"time,event\n2026-02-01 12:00,room_co2 co2=1200 ppm\n2026-02-02 12:00,screen_flow_drops | pump_stops\n2026-02-03 12:00,new_iron_oxide mass=0.05 kg\n" => read ["17.5 Event(RoomCo2 { ppm: 1200.0 })", "18.5 Event(ScreenFlowDrops { share: 0.0 })", "18.5 Event(PumpStops)", "19.5 Event(NewIronOxide { grams: 50.0 })"] rejected [] notes [];
    b"time,event\n2026-02-01 12:00,pump_stop\n2026-02-02 12:00,room_co2\n2026-02-03 12:00,pump_stops mass=5 g\n2026-02-04 12:00,feeding_scaled factor=200\n2026-02-05 12:00,room_co2 co2=lots\n2026-02-06 12:00,|\n" => read [] rejected ["did you mean `pump_stops`?", "found `room_co2` without `co2`", "expected `pump_stops` alone", "OutOfRange line 5, event: found `factor=200`", "Unreadable line 6"] notes [];
    b"time,feeding pellet [g]\n2026-02-01 12:00,1\n2026-02-01 12:00,1\n" => read ["17.5 Feeding { grams: 1.0, kind: Pellet }", "17.5 Feeding { grams: 1.0, kind: Pellet }"] rejected [] notes ["Duplicate line 3, feeding pellet [g]: found the same of the same time a second time; both kept"];

    // Probes.
    b"time,temperature [\xc2\xb0C] probe\n2026-02-01 12:00:00,25.1\n2026-02-01 12:00:10,25.2\n2026-02-01 12:00:20,\n2026-02-01 12:00:30,ERR\n2026-02-01 12:00:40,ERR\n2026-02-01 12:00:50,85\n2026-02-01 12:01:00,25.3\n" => read ["probe Temperature 25.1 25.2 25.3"] rejected ["Unreadable line 5 to 6, 2 rows", "OutOfRange line 7, temperature [\u{b0}C] probe: found `85`; expected 0 to 45 \u{b0}C"] notes [];
    b"time,ph [total] probe\n2026-02-01 12:00:10,8.1\n2026-02-01 12:00:00,8.2\n2026-02-01 12:00:10,8.1\n" => read ["probe Ph 8.2 8.1"] rejected [] notes ["Duplicate line 1, ph [total] probe: found 1 records of the same time a second time", "OutOfOrder line 3"];
    b"time;temperature [\xc2\xb0C] probe\n2026-02-01 12:00;25,1\n2026-02-01 12:00;25,1\n" => read ["probe Temperature 25.1"] rejected [] notes ["Duplicate line 3"];
};

#[test]
fn awkward_files_are_read_as_far_as_they_can_be() {
    assert!(CASES.len() >= 60, "only {} files", CASES.len());
    let mut wrong = Vec::new();
    for case in CASES {
        let reading = read(case.text);
        let (rejected, notes) = (found(&reading.rejected), found(&reading.notes));
        let told = |found: &[String], expected: &[&str]| {
            found.len() == expected.len() && found.iter().zip(expected).all(|(f, e)| f.contains(e))
        };
        let right = summary(&reading.log) == case.read
            && told(&rejected, case.rejected)
            && told(&notes, case.notes);
        if !right {
            wrong.push(format!(
                "{}\nread {:#?}\nrejected {rejected:#?}\nnotes {notes:#?}",
                String::from_utf8_lossy(case.text),
                summary(&reading.log),
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

/// The example of the format is one.
#[test]
fn the_documented_example_is_read() {
    let document = include_str!("../src/log/LOG.md");
    let example = document.split("```csv\n").nth(1).unwrap();
    let example = example.split("```").next().unwrap();
    let reading = read(example);
    assert!(
        reading.rejected.is_empty(),
        "{:?}",
        found(&reading.rejected)
    );
    assert_eq!(reading.log.readings.len(), 9);
    assert_eq!(reading.log.entries.len(), 5);
}

/// As spreadsheets write it, with a byte order mark of either kind.
#[test]
fn text_in_utf_16_is_read() {
    let text = "\u{feff}time;temperature [°C]\r\n2026-02-01 12:00;25,1\r\n";
    let units: Vec<u16> = text.encode_utf16().collect();
    for bytes in [u16::to_le_bytes, u16::to_be_bytes] {
        let file: Vec<u8> = units.iter().flat_map(|u| bytes(*u)).collect();
        assert_eq!(summary(&read(&file).log), ["17.5 Temperature 25.05..25.15"]);
        assert!(Log::read(&file[..file.len() - 1], &tank()).is_err());
    }
}

#[test]
fn files_that_give_nothing_say_why() {
    let undated = include_str!("../examples/invented_reef.toml")
        .replace("start = 2026-01-15", "")
        .replace("time_zone = \"Europe/Berlin\"", "");
    let undated = TankFile::from_toml(undated).unwrap();
    let without_zone =
        include_str!("../examples/invented_reef.toml").replace("time_zone = \"Europe/Berlin\"", "");
    let without_zone = TankFile::from_toml(without_zone).unwrap();
    for (text, tank, message) in [
        (&b""[..], tank(), "an empty file"),
        (b"\n# only a comment\n", tank(), "an empty file"),
        (
            b"nitrate [mg/L NO3]\n5\n",
            tank(),
            "expected a column `time`",
        ),
        (
            b"timestamp,ph [total]\n2026-02-01,8\n",
            tank(),
            "did you mean `time`?",
        ),
        (
            b"time [Europe/Berln],ph [total]\n",
            tank(),
            "did you mean `Europe/Berlin`?",
        ),
        (
            b"time,\"ph [total]\n2026-02-01,8\n",
            tank(),
            "every quote closed",
        ),
        (
            b"time,note\n2026-02-01,K\xe4lte\n",
            tank(),
            "line 2: found the byte 0xE4",
        ),
        (b"t\0i\0m\0e\0", tank(), "found a byte of zero"),
        (b"\xff\xfet\0i", tank(), "UTF-16"),
        (b"PK\x03\x04\x14\0\x06\0", tank(), "found a byte of zero"),
        (
            b"time,ph [total]\n2026-02-01,8\n",
            undated,
            "expected `simulation.start`",
        ),
        (
            b"time [UTC],ph [total]\n2026-02-01,8\n",
            without_zone,
            "expected `simulation.time_zone`",
        ),
    ] {
        let error = Log::read(text, &tank).unwrap_err();
        let shown = error.to_string();
        assert!(
            shown.contains(message),
            "{shown}\n{}",
            String::from_utf8_lossy(text)
        );
    }
}

#[test]
fn an_offset_beside_a_tank_without_a_zone_costs_the_row() {
    let text =
        include_str!("../examples/invented_reef.toml").replace("time_zone = \"Europe/Berlin\"", "");
    let tank = TankFile::from_toml(text).unwrap();
    let reading = Log::read(
        "time,ph [total]\n2026-02-01T12:00Z,8.1\n2026-02-01T12:00,8.1\n",
        &tank,
    )
    .unwrap();
    assert_eq!(reading.rejected.len(), 1);
    assert!(
        reading.rejected[0]
            .expected()
            .contains("simulation.time_zone")
    );
    assert_eq!(reading.log.readings[0].day, 17.5);
}

fn only(text: &str) -> Interval {
    let reading = read(text);
    assert!(
        reading.rejected.is_empty(),
        "{:?}",
        found(&reading.rejected)
    );
    assert_eq!(reading.log.readings.len(), 1);
    reading.log.readings[0].interval
}

fn close(value: f64, expected: f64, relative: f64) {
    assert!(
        (value - expected).abs() <= relative * expected.abs(),
        "{value}, not {expected}"
    );
}

/// Molar masses of the conventional atomic weights (IUPAC 2021); density of seawater of
/// salinity 35 at 25 °C, 1023.343 kg/m³ (UNESCO 1983, Tech. Pap. Mar. Sci. 44), which the
/// tank's own, at 25.5 °C, has to 0.03 %.
#[test]
fn units_are_turned() {
    let rho = 1.023343;
    for (heading, cell, expected, tolerance) in [
        // 1 mg/L N · 62.004/14.007
        ("nitrate [mg/L N]", "1.0", 62.004 / 14.007, 1e-5),
        ("nitrate [ppm NO3-N]", "1.0", 62.004 / 14.007, 1e-5),
        // 100 µg/L P · 94.970/30.974 / 1000
        ("phosphate [ppb P]", "100", 0.1 * 94.970 / 30.974, 1e-5),
        // 1 mg/L NH3 · 14.007/17.031
        ("ammonia [mg/L NH3]", "1.0", 14.007 / 17.031, 1e-5),
        // 8 dKH: 1 dKH is 10 mg/L CaO, 20 meq/56.077
        (
            "alkalinity [dKH]",
            "8.0",
            8.0 * 20.0 / 56.077 * 1e3 / rho,
            3e-4,
        ),
        ("alkalinity [meq/L]", "2.80", 2800.0 / rho, 3e-4),
        (
            "alkalinity [ppm CaCO3]",
            "140",
            140.0 * 2.0 / 100.086 * 1e3 / rho,
            3e-4,
        ),
        ("alkalinity [µmol/kg]", "2800", 2800.0, 1e-12),
        // 1000 mg/L as CaCO3 hold 1000 · 40.078/100.086 mg/L calcium
        ("calcium [mg/L CaCO3]", "1000", 400.436, 1e-4),
        ("magnesium [ppm]", "1320", 1320.0, 1e-12),
        ("temperature [°F]", "77.0", 25.0, 1e-12),
        ("temperature [K]", "298.15", 25.0, 1e-12),
        ("oxygen [%]", "95.0", 0.95, 1e-12),
        ("oxygen [1]", "0.95", 0.95, 1e-12),
    ] {
        let interval = only(&format!("time;{heading}\n2026-02-01 12:00;{cell}\n"));
        close(interval.middle(), expected, tolerance);
    }
    // The hydrometer's 1.0264 at 25/25 °C is a salinity of 35 (EOS-80: 1023.343/997.047).
    let salinity = only("time,specific gravity [25/25 °C]\n2026-02-01 12:00,1.0264\n");
    close(salinity.middle(), 35.0, 2e-3);
    // A step of 0.0001 is 0.13 of salinity: d(density)/dS is 0.75 kg/m³.
    close(
        salinity.high() - salinity.low(),
        0.0001 * 997.047 / 0.756,
        0.02,
    );
}

/// The NBS scale lies above the total one in warm seawater, by 0.1 to 0.2 (Dickson 1984,
/// doi 10.1016/0198-0149(84)90045-4, from memory: about 0.13 to 0.15).
#[test]
fn a_ph_is_turned_to_the_total_scale() {
    let total = only("time,ph [NBS]\n2026-02-01 12:00,8.20\n").middle();
    assert!((8.0..8.1).contains(&total), "{total}");
    let free = only("time,ph [free]\n2026-02-01 12:00,8.20\n").middle();
    assert!((8.05..8.2).contains(&free), "{free}");
}

#[test]
fn uncertainties_are_stated_or_those_of_the_quantity() {
    let uncertainty = |heading: &str, cell: &str| {
        only(&format!("time,{heading}\n2026-02-01 12:00,{cell}\n")).standard_uncertainty()
    };
    // √(0.5² + (0.1·5)²)
    close(uncertainty("nitrate [mg/L NO3]", "5"), 0.5f64.sqrt(), 1e-12);
    close(
        uncertainty("nitrate [mg/L NO3]", "5 ± 1"),
        1.0 / 3f64.sqrt(),
        1e-12,
    );
    close(
        uncertainty("nitrate [mg/L NO3]", "5 +/- 1"),
        1.0 / 3f64.sqrt(),
        1e-12,
    );
    close(uncertainty("nitrate [mg/L NO3]", "2-5 u 0.3"), 0.3, 1e-12);
    close(
        uncertainty("nitrate [mg/L NO3] uncertainty=0.2", "5"),
        0.2,
        1e-12,
    );
    close(
        uncertainty("nitrate [mg/L NO3] uncertainty=4 %", "5"),
        0.2,
        1e-12,
    );
    // 1 mg/L N of nitrate is 4.4267 mg/L NO3.
    close(
        uncertainty("nitrate [mg/L N] uncertainty=0.2", "1"),
        0.88533,
        1e-4,
    );
    close(
        uncertainty("temperature [°F] uncertainty=1.8", "77"),
        1.0,
        1e-12,
    );
    let both = only("time,nitrate [mg/L NO3] step=5 uncertainty=1\n2026-02-01 12:00,10\n");
    assert_eq!(
        (both.low(), both.high(), both.standard_uncertainty()),
        (7.5, 12.5, 1.0)
    );
}

/// Changes of clocks as the IANA time zone database has them: Europe/Berlin on
/// 2026-03-29 from 02:00 to 03:00 and on 2026-10-25 from 03:00 to 02:00, each at 01:00
/// UTC; America/New_York on 2026-03-08 from 02:00 to 03:00 (07:00 UTC) and on 2026-11-01
/// from 02:00 to 01:00 (06:00 UTC).
#[test]
fn clocks_change() {
    let day = |zone: &str, time: &str| {
        let tank = tank_in(zone, "2026-01-01");
        let text = format!("time,ph [total]\n{time},8.1\n");
        let reading = LogReader::new(&tank).now(None).read(text).unwrap();
        assert!(
            reading.rejected.is_empty(),
            "{:?}",
            found(&reading.rejected)
        );
        let kinds: Vec<_> = reading.notes.iter().map(LogProblem::kind).collect();
        (reading.log.readings[0].day, kinds)
    };
    let clock = |day: f64, hour: f64, minute: f64| day + hour / 24.0 + minute / 1440.0;
    use LogProblemKind::{RepeatedHour, SkippedHour};
    // Days of 2026 from 0: 29 March is 87, 25 October 297, 8 March 66, 1 November 304.
    for (zone, time, expected, notes) in [
        (
            "Europe/Berlin",
            "2026-03-29T00:59Z",
            clock(87.0, 1.0, 59.0),
            &[][..],
        ),
        (
            "Europe/Berlin",
            "2026-03-29T01:00Z",
            clock(87.0, 3.0, 0.0),
            &[],
        ),
        (
            "Europe/Berlin",
            "2026-03-29 01:59",
            clock(87.0, 1.0, 59.0),
            &[],
        ),
        (
            "Europe/Berlin",
            "2026-03-29 02:30",
            clock(87.0, 3.0, 30.0),
            &[SkippedHour],
        ),
        (
            "Europe/Berlin",
            "2026-03-29 03:00",
            clock(87.0, 3.0, 0.0),
            &[],
        ),
        (
            "Europe/Berlin",
            "2026-10-25T00:30Z",
            clock(297.0, 2.0, 30.0),
            &[],
        ),
        (
            "Europe/Berlin",
            "2026-10-25T01:30Z",
            clock(297.0, 2.0, 30.0),
            &[],
        ),
        (
            "Europe/Berlin",
            "2026-10-25 02:30",
            clock(297.0, 2.0, 30.0),
            &[RepeatedHour],
        ),
        (
            "Europe/Berlin",
            "2026-10-25T02:30+02:00",
            clock(297.0, 2.0, 30.0),
            &[],
        ),
        (
            "Europe/Berlin",
            "2026-10-25 03:00",
            clock(297.0, 3.0, 0.0),
            &[],
        ),
        (
            "America/New_York",
            "2026-03-08T06:59Z",
            clock(66.0, 1.0, 59.0),
            &[],
        ),
        (
            "America/New_York",
            "2026-03-08T07:00Z",
            clock(66.0, 3.0, 0.0),
            &[],
        ),
        (
            "America/New_York",
            "2026-03-08 02:15",
            clock(66.0, 3.0, 15.0),
            &[SkippedHour],
        ),
        (
            "America/New_York",
            "2026-11-01 01:15",
            clock(304.0, 1.0, 15.0),
            &[RepeatedHour],
        ),
        (
            "America/New_York",
            "2026-11-01T06:15Z",
            clock(304.0, 1.0, 15.0),
            &[],
        ),
        (
            "America/New_York",
            "2026-11-01T05:15Z",
            clock(304.0, 1.0, 15.0),
            &[],
        ),
        // 01:15 in New York, which comes twice there, by the first: 05:15 UTC.
        (
            "Europe/Berlin",
            "2026-11-01T01:15[America/New_York]",
            clock(304.0, 6.0, 15.0),
            &[RepeatedHour],
        ),
    ] {
        let (found, noted) = day(zone, time);
        assert!(
            (found - expected).abs() < 1e-9,
            "{zone} {time}: {found}, not {expected}"
        );
        assert_eq!(noted, notes, "{zone} {time}");
    }
}

#[test]
fn times_later_than_now_are_noted() {
    let text =
        "time,ph [total]\n2026-02-01 12:00,8.1\n2062-02-01 12:00,8.1\n2027-02-01 12:00,8.1\n";
    let now = "2026-03-01T12:00Z".parse().unwrap();
    let reading = LogReader::new(&tank()).now(Some(now)).read(text).unwrap();
    assert_eq!(found(&reading.rejected).len(), 1);
    assert!(found(&reading.rejected)[0].contains("line 3"));
    assert_eq!(reading.notes[0].kind(), LogProblemKind::Future);
    assert_eq!(reading.notes[0].line(), 4);
    assert_eq!(reading.log.readings.len(), 2);
}

/// Every way of writing one moment is the same day, whichever way it is read.
#[test]
fn the_short_way_of_reading_times_is_the_long_one() {
    let mut random = fastrand::Rng::with_seed(5);
    for zone in [
        "Europe/Berlin",
        "America/New_York",
        "Australia/Lord_Howe",
        "Asia/Kathmandu",
    ] {
        let tank = tank_in(zone, "2026-01-01");
        for _ in 0..500 {
            let (month, date) = (random.u8(1..=12), random.u8(1..=28));
            let (hour, minute, second) = (random.u8(0..24), random.u8(0..60), random.u8(0..60));
            let fraction = random.u32(0..1_000_000_000);
            let civil = format!(
                "2027-{month:02}-{date:02}T{hour:02}:{minute:02}:{second:02}.{fraction:09}"
            );
            let short = format!("time,ph [total] probe\n{civil}Z,8.1\n{civil},8.1\n");
            let long = format!("time,ph [total] probe\n{civil}Z[UTC],8.1\n{civil}[{zone}],8.1\n");
            let read = |text: String| LogReader::new(&tank).now(None).read(text).unwrap().log;
            assert_eq!(read(short), read(long), "{civil} {zone}");
        }
    }
}

fn random_log(random: &mut fastrand::Rng) -> Log {
    let mut log = Log::default();
    let whole_days = random.bool();
    let day = |random: &mut fastrand::Rng| {
        let minutes = f64::from(random.u32(0..200 * 1440));
        if whole_days {
            minutes / 1440.0
        } else {
            200.0 * random.f64()
        }
    };
    for _ in 0..random.usize(0..20) {
        let (measured, typical) = [
            (Measured::Nitrate, 10.0),
            (Measured::Alkalinity, 2800.0),
            (Measured::Ph, 8.0),
            (Measured::OxygenSaturation, 0.95),
            (Measured::Salinity, 35.0),
            (Measured::Temperature, 25.0),
        ][random.usize(0..6)];
        let middle = typical * (0.95 + 0.1 * random.f64());
        let half = 0.05 * typical * random.f64();
        let interval =
            Interval::new(middle - half, middle + half, 0.1 * random.f64() + 1e-6).unwrap();
        let day = day(random);
        for _ in 0..random.usize(1..3) {
            log.readings.push(Reading {
                day,
                measured,
                interval,
            });
        }
    }
    log.readings
        .sort_by(|a, b| a.day.total_cmp(&b.day).then(a.measured.cmp(&b.measured)));
    log.readings.dedup();
    for _ in 0..random.usize(0..20) {
        let grams = 100.0 * random.f64();
        let record = match random.u8(0..12) {
            0 => Record::Harvest { weight: None },
            1 => Record::Harvest {
                weight: Some(HarvestWeight::WetGrams(grams)),
            },
            2 => Record::Harvest {
                weight: Some(HarvestWeight::DryGrams(grams)),
            },
            3 => Record::Feeding {
                grams,
                kind: halimeda::process::FeedKind::DriedMacroalgae,
            },
            4 => Record::Feeding {
                grams,
                kind: halimeda::process::FeedKind::Custom(halimeda::process::FeedComposition {
                    water_fraction: 0.1 * random.f64(),
                    ..halimeda::process::FeedComposition::default()
                }),
            },
            5 => Record::WaterChange { litres: grams },
            6 => Record::Dose {
                salt: halimeda::dosing::Salt::CalciumHydroxide,
                grams,
            },
            7 => Record::Event(Event::RoomCo2 { ppm: 400.0 + grams }),
            8 => Record::Event(Event::Harvest {
                kept_share: random.f64(),
                fed_back_share: random.f64(),
            }),
            9 => Record::Event(Event::FeedingScaled {
                factor: 3.0 * random.f64(),
            }),
            10 => Record::Event(Event::ScreenFlowDrops {
                share: random.f64(),
            }),
            _ => Record::Note(
                ["a, \"b\";\nc", " x ", "# no comment", "=1+1", "täglich ±"][random.usize(0..5)]
                    .to_owned(),
            ),
        };
        log.entries.push(Entry {
            day: day(random),
            record,
        });
    }
    log.entries.sort_by(|a, b| a.day.total_cmp(&b.day));
    for _ in 0..random.usize(0..4) {
        let mut days: Vec<f64> = (0..random.usize(1..30)).map(|_| day(random)).collect();
        days.sort_by(f64::total_cmp);
        let values = days.iter().map(|_| 20.0 + 10.0 * random.f64()).collect();
        log.probes.push(ProbeSeries {
            measured: Measured::Temperature,
            days,
            values,
        });
    }
    log
}

#[test]
fn a_clean_copy_reads_back_to_the_same_log() {
    let tank = tank();
    let mut random = fastrand::Rng::with_seed(1);
    for round in 0..2000 {
        let log = random_log(&mut random);
        let text = log.to_csv(&tank);
        let reading = LogReader::new(&tank).now(None).read(&text).unwrap();
        assert!(
            reading.rejected.is_empty(),
            "{:?}\n{text}",
            found(&reading.rejected)
        );
        assert_eq!(reading.log, log, "round {round}\n{text}");
    }
}

#[test]
fn a_clean_copy_has_dates_where_it_can() {
    let tank = tank();
    let text = "time,nitrate [mg/L NO3],note\n2026-02-01 18:30,5 u 0.5,\n2026-02-02 07:00:05,,x\n";
    let log = Log::read(text, &tank).unwrap().log;
    assert_eq!(
        log.to_csv(&tank),
        "time,nitrate [mg/L NO3],note\n\
         2026-02-01T18:30,4.5-5.5 u 0.5,\n\
         2026-02-02T07:00:05,,x\n"
    );
    assert!(Log::default().to_csv(&tank).starts_with("time\n"));
    // A time that no calendar has is counted in days.
    for day in [-1e300, 1e300, 0.1 + 0.2] {
        let note = Record::Note("x".to_owned());
        let log = Log {
            entries: vec![Entry { day, record: note }],
            ..Log::default()
        };
        assert!(log.to_csv(&tank).starts_with("time [d],note\n"), "{day}");
    }
}

/// Whatever the bytes are, there is a log or a reason, and the clean copy of the log
/// reads back to it.
#[test]
fn mangled_files_are_read_or_refused() {
    let tank = tank();
    let mut random = fastrand::Rng::with_seed(7);
    let pieces: [&[u8]; 24] = [
        b"\"",
        b",",
        b";",
        b"\t",
        b"\n",
        b"\r",
        b"\r\n",
        b"#",
        b"[",
        b"]",
        b"=",
        b"-",
        b"\0",
        b"\xff",
        b"\xef\xbb\xbf",
        b"nan",
        b"1e308",
        b"-0",
        b"9999-12-31T23:59:59Z",
        b"-009999-01-01",
        b"u 0",
        b"\xc2\xb1 0",
        b"9223372036854775807",
        b"0.0000000000000000001",
    ];
    let mut read = 0;
    for _ in 0..20_000 {
        let mut bytes = CASES[random.usize(0..CASES.len())].text.to_vec();
        for _ in 0..random.usize(1..6) {
            let at = random.usize(0..=bytes.len());
            match random.u8(0..4) {
                0 => drop(bytes.splice(
                    at..at,
                    pieces[random.usize(0..pieces.len())].iter().copied(),
                )),
                1 => bytes.truncate(at),
                2 if at < bytes.len() => bytes[at] = random.u8(..),
                _ => {
                    let from = random.usize(0..=at);
                    let copy = bytes[from..at].to_vec();
                    bytes.splice(at..at, copy);
                }
            }
        }
        let reader = LogReader::new(&tank).now(None);
        let Ok(reading) = reader.read(&bytes) else {
            continue;
        };
        read += 1;
        for problem in reading.rejected.iter().chain(&reading.notes) {
            assert!(problem.line() >= 1 && problem.last_line() >= problem.line());
            assert!(!problem.to_string().contains('\u{1b}'));
        }
        let text = reading.log.to_csv(&tank);
        let back = reader.read(&text).unwrap();
        assert!(
            back.rejected.is_empty(),
            "{:?}\n{text}\n{:?}",
            found(&back.rejected),
            String::from_utf8_lossy(&bytes)
        );
        assert_eq!(
            back.log,
            reading.log,
            "{text}\n{:?}",
            String::from_utf8_lossy(&bytes)
        );
    }
    assert!(read > 5000, "only {read} could be read");
    for _ in 0..5000 {
        let bytes: Vec<u8> = (0..random.usize(0..200)).map(|_| random.u8(..)).collect();
        let _ = Log::read(&bytes, &tank);
        let _ = Log::read_probes([&b"time,ph [total]\n"[..], &bytes].concat(), &tank);
    }
}

#[test]
fn files_are_joined() {
    let tests = read(
        "time,nitrate [mg/L NO3],feeding pellet [g]\n2026-02-01 12:00,5,1\n2026-02-03 12:00,6,1\n",
    )
    .log;
    let more = read(
        "time,nitrate [mg/L NO3],feeding pellet [g]\n2026-02-02 12:00,5,1\n2026-02-03 12:00,6,1\n",
    )
    .log;
    let probe = |text: &str| read(format!("time,temperature [°C] probe\n{text}")).log;
    let first = probe("2026-02-01 12:00,25.1\n2026-02-02 12:00,25.2\n");
    let next = probe("2026-02-02 12:00,25.2\n2026-02-03 12:00,25.3\n");
    let other = probe("2026-02-02 12:00,24.0\n2026-02-02 13:00,24.1\n");
    let joined = tests.clone().join(more).join(next).join(first).join(other);
    assert_eq!(joined.readings.len(), 3);
    assert_eq!(joined.entries.len(), 3);
    assert!(joined.readings.is_sorted_by(|a, b| a.day <= b.day));
    assert_eq!(joined.probes.len(), 2);
    assert_eq!(joined.probes[0].values, [25.1, 25.2, 25.3]);
    assert_eq!(joined.clone().join(joined.clone()), joined);
    assert_eq!(tests.clone().join(Log::default()), tests);
}

#[test]
fn columns_are_read_as_files_are() {
    let tank = tank();
    // 2026-02-01 11:00 UTC, 12:00 in Berlin, and a day and two later.
    let utc =
        [1769943600, 1769943600 + 86400, 1769943600 + 2 * 86400].map(|s: i64| s * 1_000_000_000);
    let clock = utc.map(|t| t + 3_600_000_000_000);
    let days = [17.5, 18.5, 19.5];
    let nitrate = [5.0, f64::NAN, 12.25];
    let notes = [Some("x"), None, Some("")];
    let columns = [
        ("nitrate [mg/L NO3]", Cells::Numbers(&nitrate)),
        ("note", Cells::Text(&notes)),
        (
            "temperature [°F] probe",
            Cells::Numbers(&[77.0, 400.0, 78.8]),
        ),
    ];
    let reader = LogReader::new(&tank).now(None);
    let text = "time,nitrate [mg/L NO3] step=0.01,note,temperature [°F] probe\n\
                2026-02-01 12:00,5,x,77\n2026-02-02 12:00,,,\n2026-02-03 12:00,12.25,,78.8\n";
    let expected = reader.read(text).unwrap().log;
    for times in [
        Times::UtcNanoseconds(&utc),
        Times::ClockNanoseconds(&clock),
        Times::Days(&days),
    ] {
        let reading = reader.read_columns(times, &columns).unwrap();
        assert_eq!(reading.log, expected);
        assert_eq!(reading.rejected.len(), 1);
        assert_eq!(reading.rejected[0].line(), 2);
    }
    let missing = [utc[0], i64::MIN, utc[2]];
    let reading = reader
        .read_columns(Times::UtcNanoseconds(&missing), &columns)
        .unwrap();
    assert_eq!(reading.rejected[0].kind(), LogProblemKind::Missing);
    assert_eq!(reading.log.readings.len(), 2);
    let short = [("nitrate [mg/L NO3]", Cells::Numbers(&nitrate[..2]))];
    assert!(reader.read_columns(Times::Days(&days), &short).is_err());
}
