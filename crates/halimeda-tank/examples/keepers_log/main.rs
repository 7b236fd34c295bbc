//! What a keeper's log says: is it working, what will happen, what to do next.
//!
//! ```sh
//! cargo run --release -p halimeda-tank --example keepers_log -- \
//!     crates/halimeda-tank/examples/invented_reef.toml \
//!     crates/halimeda-tank/examples/invented_log.csv --out target/demo
//! ```
//!
//! Prints the verdict, the forecast, the diary of the harvests and what is due; writes
//! them into the folder named, as verdict.json, log_forecast.csv and upkeep.ics.

// A program for a terminal speaks on it.
#![allow(clippy::print_stdout, clippy::print_stderr)]

mod invented;
#[path = "../shared/mod.rs"]
mod shared;

use std::error::Error;
use std::fmt::Write as _;
use std::fs;
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use halimeda_tank::description::TankFile;
use halimeda_tank::diary::{Diary, DiaryOptions, diary};
use halimeda_tank::fit::{Fit, FitOptions, fit};
use halimeda_tank::forecast::{
    Forecast, ForecastOptions, NextTest, NextTestOptions, forecast, next_tests,
};
use halimeda_tank::log::{Log, LogReader, LogReading};
use halimeda_tank::plan::Goals;
use halimeda_tank::upkeep::{CalendarOptions, Upkeep, UpkeepOptions, calendar, due};
use halimeda_tank::verdict::{Earlier, Verdict, VerdictOptions, verdict};
use halimeda_tank::{LoggedTank, Ranges, Variable};
use jiff::{Span, Timestamp};
use shared::{Page, clear_progress, show_progress};

/// Share of the log that is fitted for itself, to see what changed after it.
const EARLIER_SHARE: f64 = 0.5;

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(e) => {
            eprintln!("{e}");
            ExitCode::FAILURE
        }
    }
}

const USAGE: &str =
    "usage: keepers_log DESCRIPTION.toml LOG.csv [--out FOLDER], or keepers_log --invent";

fn run() -> Result<(), Box<dyn Error>> {
    let mut files = Vec::new();
    let mut out = None;
    let mut given = std::env::args().skip(1);
    while let Some(argument) = given.next() {
        match argument.as_str() {
            "--invent" => {
                let reef = TankFile::from_toml(include_str!("../invented_reef.toml"))?;
                print!("{}", invented::csv(&reef)?);
                return Ok(());
            }
            "--out" => out = Some(PathBuf::from(given.next().ok_or(USAGE)?)),
            _ if argument.starts_with('-') => {
                return Err(format!("{argument:?} is not understood; {USAGE}").into());
            }
            _ => files.push(PathBuf::from(argument)),
        }
    }
    let [description, log] = files.as_slice() else {
        return Err(USAGE.into());
    };
    let read = |path: &Path| fs::read(path).map_err(|e| format!("{}: {e}", path.display()));
    let file = TankFile::from_toml(read(description)?)
        .map_err(|e| format!("{}:\n{e}", description.display()))?;
    // The invented log lies in days to come.
    let reader = LogReader::new(&file).now(None);
    let reading = reader
        .read(read(log)?)
        .map_err(|e| format!("{}: {e}", log.display()))?;
    let answers = Answers::of(&file, &reading.log)?;
    clear_progress();
    print!("{}", page(&file, &reading, &answers));
    if let Some(folder) = out {
        write_files(&folder, &file, &answers)?;
        println!("\nWritten for other programs: verdict.json, log_forecast.csv and upkeep.ics in");
        println!("{}", folder.display());
    }
    Ok(())
}

/// Everything that is asked.
struct Answers {
    fit: Fit,
    verdict: Verdict,
    forecast: Forecast,
    tests: Vec<NextTest>,
    diary: Diary,
    due: Vec<Upkeep>,
}

impl Answers {
    fn of(file: &TankFile, log: &Log) -> Result<Self, Box<dyn Error>> {
        let setup = file.setup();
        let today = log.last_day().ok_or("the log is empty")?.ceil();
        let ranges = Ranges::default().overridden(&file.parameter_overrides)?;
        let fitted = |log: &Log, words: &'static str| {
            let options = FitOptions::default();
            fit(&setup, log, &ranges, &options, &mut progress(words))
        };
        let fit = fitted(log, "fitting the log")?;
        let until_day = (EARLIER_SHARE * today).floor();
        let before = fitted(&log.until(until_day), "fitting its first half")?;
        let earlier = Earlier {
            members: &before.members,
            until_day,
        };
        let goals = Goals::described(&file.goals, &file.tank)?;
        let tank = LoggedTank {
            setup: &setup,
            log,
            members: &fit.members,
            goals: &goals,
            today,
        };
        Ok(Self {
            verdict: verdict(
                &tank,
                Some(&earlier),
                &VerdictOptions::default(),
                &mut progress("weighing what may have happened"),
            )?,
            forecast: forecast(
                &tank,
                &ForecastOptions::default(),
                &mut progress("looking ahead"),
            )?,
            tests: next_tests(
                &tank,
                &NextTestOptions::default(),
                &mut progress("choosing tests"),
            )?,
            diary: diary(
                &tank,
                &DiaryOptions::default(),
                &mut progress("adding up harvests"),
            )?,
            due: due(
                &tank,
                &UpkeepOptions::default(),
                &mut progress("finding what is due"),
            )?,
            fit,
        })
    }
}

/// Shows how far it is, where somebody is looking.
fn progress(words: &'static str) -> impl FnMut(f64, f64) -> ControlFlow<()> {
    move |done, all| {
        show_progress(done / all, words);
        ControlFlow::Continue(())
    }
}

impl Page {
    fn items<'a>(&mut self, texts: impl IntoIterator<Item = &'a String>) {
        for text in texts {
            self.item(text);
        }
    }
}

fn page(file: &TankFile, reading: &LogReading, answers: &Answers) -> String {
    let mut page = Page::default();
    let _ = writeln!(page.0, "The log of: {}", file.tank.name);
    page.heading("What was read");
    let log = &reading.log;
    page.item(&format!(
        "{} test results, {} probe records, {} entries; {} things could not be read.",
        log.readings.len(),
        log.probes.iter().map(|p| p.days.len()).sum::<usize>(),
        log.entries.len(),
        reading.rejected.len()
    ));
    for problem in &reading.rejected {
        page.item(&problem.to_string());
    }
    let informed: Vec<&str> = answers
        .fit
        .informed()
        .iter()
        .take(6)
        .map(|f| f.path.as_str())
        .collect();
    page.item(&format!(
        "The fit to it is {}. It tells most of {}.",
        answers.fit.quality.words,
        informed.join(", ")
    ));

    page.heading("Is it working?");
    page.items(&answers.verdict.summary);
    page.heading("What will happen (mean of the day)");
    forecasts(&mut page, &answers.forecast);
    page.heading("What the harvests carried out");
    page.items(&answers.diary.summary);
    for metal in &answers.diary.metals {
        page.item(&format!(
            "{}: {} to {} mg.",
            metal.metal,
            number(metal.low_mg),
            number(metal.high_mg)
        ));
    }
    page.heading("What to test next");
    for test in &answers.tests {
        page.item(&format!(
            "{} {}. {}",
            date(file, test.day),
            test.measured.words(),
            test.reason
        ));
    }
    page.heading("What is due (the first of each; all of them are in the calendar)");
    let mut listed = Vec::new();
    for due in &answers.due {
        if listed.contains(&due.task) {
            continue;
        }
        listed.push(due.task);
        page.item(&format!(
            "{} {}. {}",
            date(file, due.day),
            due.task.words(),
            due.reason
        ));
    }
    page.heading("Before you act");
    page.items(&answers.verdict.cautions);
    page.0
}

fn forecasts(page: &mut Page, forecast: &Forecast) {
    let _ = writeln!(
        page.0,
        "  {:<18} {:>5}  {:>9}  {:>21}  {:>9}",
        "", "days", "median", "nine of ten", "as today"
    );
    for h in &forecast.horizons {
        let (name, factor, unit) = worded(h.variable);
        let scaled = |x: f64| number(factor * x);
        let _ = writeln!(
            page.0,
            "  {name:<18} {:>5}  {:>9}  {:>9} to {:>8}  {:>9} {unit}",
            h.horizon_days,
            scaled(h.quantiles.p50),
            scaled(h.quantiles.p5),
            scaled(h.quantiles.p95),
            h.persistence.map_or_else(String::new, scaled),
        );
    }
}

/// A variable as a keeper calls it, with the factor to the unit it is shown in.
fn worded(variable: Variable) -> (&'static str, f64, &'static str) {
    match variable {
        Variable::Nitrate => ("Nitrate", 1.0, "mg/L"),
        Variable::Phosphate => ("Phosphate", 1.0, "mg/L"),
        Variable::Ammonia => ("Ammonia, as N", 1.0, "mg/L"),
        Variable::Ph => ("pH, total scale", 1.0, ""),
        Variable::Alkalinity => ("Alkalinity", 1.0, "µmol/kg"),
        Variable::OxygenSaturation => ("Oxygen", 100.0, "%"),
        Variable::Calcium => ("Calcium", 1.0, "mg/L"),
        Variable::Magnesium => ("Magnesium", 1.0, "mg/L"),
        Variable::Turf => ("Turf", 1.0, "g/m²"),
        other => (other.name(), 1.0, other.unit()),
    }
}

/// Significant digits enough for a keeper.
fn number(x: f64) -> String {
    match x.abs() {
        size if size >= 100.0 => format!("{x:.0}"),
        size if size >= 10.0 => format!("{x:.1}"),
        size if size >= 0.1 => format!("{x:.2}"),
        _ => format!("{x:.3}"),
    }
}

/// A day as a date, if the description has one to start from.
fn date(file: &TankFile, day: f64) -> String {
    let whole = day.floor() as i64;
    let date = file
        .start
        .and_then(|start| start.checked_add(Span::new().try_days(whole).ok()?).ok());
    date.map_or_else(|| format!("day {whole}:"), |date| format!("{date}:"))
}

fn write_files(folder: &Path, file: &TankFile, answers: &Answers) -> Result<(), Box<dyn Error>> {
    fs::create_dir_all(folder)?;
    fs::write(
        folder.join("verdict.json"),
        serde_json::to_string_pretty(&answers.verdict)?,
    )?;
    let mut table = csv::Writer::from_path(folder.join("log_forecast.csv"))?;
    table.write_record(["variable", "unit", "day", "p5", "p25", "p50", "p75", "p95"])?;
    for band in &answers.forecast.bands {
        for (day, q) in band.days.iter().zip(&band.quantiles) {
            let mut record = vec![
                band.variable.name().to_owned(),
                band.variable.unit().to_owned(),
            ];
            record.extend([*day, q.p5, q.p25, q.p50, q.p75, q.p95].map(|x| x.to_string()));
            table.write_record(&record)?;
        }
    }
    table.flush()?;
    let start = file
        .start
        .ok_or("a calendar needs simulation.start in the description")?;
    let options = CalendarOptions::new(
        &file.tank.name,
        start,
        file.time_zone.clone(),
        Timestamp::now(),
    );
    fs::write(folder.join("upkeep.ics"), calendar(&answers.due, &options)?)?;
    Ok(())
}
