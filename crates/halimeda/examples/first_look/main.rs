//! A first look at a reef tank: from readings as a keeper takes them to what they
//! say, each number with its uncertainty and a sentence.
//!
//! ```text
//! cargo run --example first_look -- crates/halimeda/examples/invented_reef.toml
//! cargo run --example first_look -- my_tank.toml --json my_tank.json
//! ```

// A program of the host, which has its elementary functions from there.
#![allow(clippy::disallowed_methods)]

mod assess;
mod assessment;
mod body;
mod estimate;
mod key;
mod kit;
mod kits;
mod page;
mod problem;
mod readings;
mod refusal;
mod report;
mod solved;
mod source;

#[cfg(test)]
mod tests;

use std::io::{self, Write as _};
use std::process::ExitCode;
use std::{env, fs};

use assess::assess;
use assessment::Assessment;
use problem::Problem;

const USAGE: &str = "usage: first_look READINGS.toml [--json RESULTS.json]";

/// What to read, and where to write the numbers, if anywhere.
#[derive(Debug, PartialEq)]
struct Arguments {
    readings: String,
    json: Option<String>,
}

impl Arguments {
    fn of(mut words: impl Iterator<Item = String>) -> Option<Self> {
        let (mut readings, mut json) = (None, None);
        while let Some(word) = words.next() {
            let slot = if word == "--json" {
                (&mut json, words.next()?)
            } else if word.starts_with('-') {
                return None;
            } else {
                (&mut readings, word)
            };
            // Given twice, one of them would be ignored.
            if slot.0.replace(slot.1).is_some() {
                return None;
            }
        }
        Some(Self {
            readings: readings?,
            json,
        })
    }
}

fn main() -> ExitCode {
    let Some(arguments) = Arguments::of(env::args().skip(1)) else {
        return failed(USAGE);
    };
    match run(&arguments) {
        Ok(report) => match io::stdout().write_all(report.as_bytes()) {
            // A reader that has seen enough, such as a pager, is not a failure.
            Err(error) if error.kind() != io::ErrorKind::BrokenPipe => failed(&error.to_string()),
            _ => ExitCode::SUCCESS,
        },
        Err(problem) => failed(&problem.to_string()),
    }
}

fn failed(message: &str) -> ExitCode {
    // Nothing is left to tell a failure of the last resort to.
    let _ = writeln!(io::stderr(), "{message}");
    ExitCode::FAILURE
}

fn run(arguments: &Arguments) -> Result<String, Problem> {
    let file = &arguments.readings;
    let text = fs::read_to_string(file).map_err(|error| Problem::with_file(file, &error))?;
    let assessment = look(file, &text)?;
    if let Some(json) = &arguments.json {
        write_json(json, &assessment).map_err(|error| Problem::with_file(json, &error))?;
    }
    Ok(report::report(&assessment))
}

/// What the text of a readings file says.
fn look(file: &str, text: &str) -> Result<Assessment, Problem> {
    let readings = problem::parse(file, text)?;
    assess(&readings).map_err(|refusal| Problem::refused(file, text, refusal))
}

fn write_json(path: &str, assessment: &Assessment) -> io::Result<()> {
    let mut json = serde_json::to_string_pretty(assessment)?;
    json.push('\n');
    fs::write(path, json)
}
