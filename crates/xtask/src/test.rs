//! The checks of this repository, quick ones first.

use crate::command::{cargo, cargo_with, run};
use crate::step::{Outcome, Step};
use crate::{no_std, package, python};

/// Every check. A new one is a new entry here.
pub(crate) const STEPS: &[Step] = &[
    Step {
        name: "format",
        why: "One layout everywhere, so that a difference shows what changed and nothing else.",
        run: format,
    },
    Step {
        name: "lint",
        why: "Clippy on every target and feature set: among its lints, no panic, no unchecked index.",
        run: lint,
    },
    Step {
        name: "test",
        why: "Unit tests, published values, properties, and the examples of the documentation and README.",
        run: || passed(run(&mut cargo(&["test", "--workspace"]))),
    },
    Step {
        name: "libm",
        why: "The same without the standard library: pure-Rust elementary functions, as on a device.",
        run: libm,
    },
    Step {
        name: "features",
        why: "All features at once: none may take something away from another.",
        run: || {
            passed(run(&mut cargo(&[
                "test",
                "-p",
                "halimeda",
                "--all-features",
            ])))
        },
    },
    Step {
        name: "freestanding",
        why: "Links and runs a program without standard library, allocator or start-up code: the crate needs none.",
        run: no_std::freestanding,
    },
    Step {
        name: "bare-target",
        why: "Compiles the crate for a machine without an operating system.",
        run: no_std::bare_target,
    },
    Step {
        name: "oldest-rust",
        why: "Compiles the crates with the oldest Rust they promise to support.",
        run: no_std::oldest_rust,
    },
    Step {
        name: "reference",
        why: "Compares every output with independent reference implementations at random points.",
        run: || passed(python::compare_with_reference()),
    },
    Step {
        name: "tank-reference",
        why: "Follows tanks with equations written a second time and SciPy's solver, and compares every stock at every switch.",
        run: || passed(python::compare_tanks_with_reference()),
    },
    Step {
        name: "calendar",
        why: "Has another implementation of iCalendar read what upkeep is due.",
        run: || passed(python::compare_calendar()),
    },
    Step {
        name: "python",
        why: "Builds the wheel of the Python package, installs it beside pinned packages, and runs its tests.",
        run: || passed(package::tests()),
    },
    Step {
        name: "notebooks",
        why: "The notebooks run, and show what is kept of them.",
        run: || passed(package::notebooks()),
    },
    Step {
        name: "browser",
        why: "A real browser opens the report page: no error, no request, readable on a phone and on paper.",
        run: package::browser,
    },
    Step {
        name: "python-types",
        why: "The stubs are those of the native module; mypy and pyright find every public name typed, and no mistake.",
        run: || passed(package::types()),
    },
    Step {
        name: "python-docs",
        why: "The reference of the Python package without a warning, and the examples in it.",
        run: || passed(package::docs()),
    },
    Step {
        name: "python-install",
        why: "The package as others install it: from source with Rust alone, the wheel without Rust and with numpy alone.",
        run: || passed(package::install()),
    },
    Step {
        name: "demo",
        why: "The demonstration of the README runs to its end.",
        run: || passed(demo()),
    },
    Step {
        name: "doc",
        why: "Documentation without a warning: every link leads somewhere, every item is described.",
        run: || {
            passed(run(
                cargo(&["doc", "--workspace", "--no-deps"]).env("RUSTDOCFLAGS", "-D warnings")
            ))
        },
    },
];

/// Where the demonstration leaves its files.
const DEMO_FOLDER: &str = "target/demo";

/// The invented tank of the demonstration, and its log.
const INVENTED_TANK: &str = "crates/halimeda-tank/examples/invented_reef.toml";
const INVENTED_LOG: &str = "crates/halimeda-tank/examples/invented_log.csv";

/// What the readings of an invented tank mean, the plan for one, what its log says,
/// and the plan again as a page to look at.
pub(crate) fn demo() -> Result<(), String> {
    let example = |package: &str, example: &str, rest: &[&str]| {
        let arguments = [
            "run",
            "--quiet",
            "--release",
            "--package",
            package,
            "--example",
            example,
            "--",
        ];
        run(cargo(&arguments).args(rest))
    };
    example(
        "halimeda",
        "first_look",
        &["crates/halimeda/examples/invented_reef.toml"],
    )?;
    example(
        "halimeda-tank",
        "tank_plan",
        &[INVENTED_TANK, "--out", DEMO_FOLDER],
    )?;
    example(
        "halimeda-tank",
        "keepers_log",
        &[INVENTED_TANK, INVENTED_LOG, "--out", DEMO_FOLDER],
    )?;
    if let Err(reason) = package::report_page(INVENTED_TANK, DEMO_FOLDER) {
        println!("The report page was not made, which needs Python: {reason}");
    }
    Ok(())
}

/// The benchmarks, those that match `filter`.
pub(crate) fn bench(filter: &[&str]) -> Result<(), String> {
    run(cargo(&["bench", "--package", "halimeda-benches", "--"]).args(filter))
}

/// The program of the step `freestanding`, which is a workspace of its own.
const FREESTANDING: [&str; 2] = ["--manifest-path", "tests/freestanding/Cargo.toml"];

fn format() -> Result<Outcome, String> {
    let [manifest_path, manifest] = FREESTANDING;
    cargo_with("rustfmt", &["fmt", "--all", "--check"])?;
    cargo_with("rustfmt", &["fmt", "--check", manifest_path, manifest])?;
    Ok(Outcome::Passed)
}

fn lint() -> Result<Outcome, String> {
    let [manifest_path, manifest] = FREESTANDING;
    let targets: [&[&str]; 4] = [
        &[
            "--workspace",
            "--all-targets",
            "--features",
            "halimeda-tests/reference",
        ],
        &[
            "--package",
            "halimeda",
            "--no-default-features",
            "--features",
            "libm",
        ],
        &["--all-features"],
        &[manifest_path, manifest],
    ];
    for target in targets {
        let arguments = [&["clippy"], target, &["--", "-D", "warnings"]].concat();
        cargo_with("clippy", &arguments)?;
    }
    Ok(Outcome::Passed)
}

fn libm() -> Result<Outcome, String> {
    for package in ["halimeda", "halimeda-tests"] {
        run(&mut cargo(&[
            "test",
            "--package",
            package,
            "--no-default-features",
            "--features",
            "libm",
        ]))?;
    }
    Ok(Outcome::Passed)
}

fn passed(result: Result<(), String>) -> Result<Outcome, String> {
    result.map(|()| Outcome::Passed)
}
