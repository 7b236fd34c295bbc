//! Development tasks of halimeda, run as `cargo xtask <command>`.
//!
//! Everything that is done to this repository more than once is a command
//! here, so that a newcomer, a maintainer and continuous integration run the
//! same thing.

mod command;
mod no_std;
mod package;
mod python;
mod step;
mod test;

use std::process::ExitCode;

const HELP: &str = "\
Usage: cargo xtask <command>

Commands
  demo              what the readings of an invented tank mean, its plan, and a report page
  test [STEP...]    run every check, or only the named ones (`test --list` names them)
  lint              formatting and lints
  doc               build the documentation, warnings are errors
  venv              make the Python environments, and say where they are
  stubs             write the type stubs of the Python package anew
  wheels            build the source distribution and the wheels to publish
  bench [FILTER]    run the benchmarks
  bench-python [FILTER]
                    run those of the Python package, as it is released
  help              this text
";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    match arguments.as_slice() {
        [] | ["help" | "--help" | "-h"] => {
            print!("{HELP}");
            ExitCode::SUCCESS
        }
        ["demo"] => report(test::demo()),
        ["test", "--list"] => {
            step::list(test::STEPS);
            ExitCode::SUCCESS
        }
        ["test", names @ ..] => step::run(test::STEPS, names),
        ["lint"] => step::run(test::STEPS, &["format", "lint"]),
        ["doc"] => step::run(test::STEPS, &["doc"]),
        ["venv"] => report(venv()),
        ["stubs"] => report(package::write_stubs()),
        ["wheels"] => report(package::wheels()),
        ["bench-python"] => report(package::bench("")),
        ["bench-python", filter] => report(package::bench(filter)),
        ["bench", filter @ ..] => report(test::bench(filter)),
        _ => {
            eprintln!("Not understood: {}\n\n{HELP}", arguments.join(" "));
            ExitCode::FAILURE
        }
    }
}

fn venv() -> Result<(), String> {
    println!(
        "of the reference comparison: {}",
        python::REFERENCE.python()?.display()
    );
    println!("of the Python package: {}", package::installed()?.display());
    Ok(())
}

fn report(result: Result<(), String>) -> ExitCode {
    match result {
        Ok(()) => ExitCode::SUCCESS,
        Err(reason) => {
            eprintln!("{reason}");
            ExitCode::FAILURE
        }
    }
}
