//! The Python environment of the comparisons with references, and the comparisons.

use std::fs;
use std::path::PathBuf;
use std::process::Command;

use crate::command::{cargo, output_of, program, root, run, target_dir};

/// The interpreter of an environment with the pinned packages of
/// `tests/python/requirements.txt`, made when it is not there or when the pins
/// changed.
pub(crate) fn environment() -> Result<PathBuf, String> {
    let directory = target_dir().join("venv");
    let python = directory.join(if cfg!(windows) {
        "Scripts/python.exe"
    } else {
        "bin/python"
    });
    let pins = root().join("tests/python/requirements.txt");
    let wanted =
        fs::read_to_string(&pins).map_err(|e| format!("cannot read {}: {e}", pins.display()))?;
    // A copy of the pins, written once everything is installed.
    let stamp = directory.join("installed-requirements.txt");
    let ready = fs::read_to_string(&stamp).is_ok_and(|installed| installed == wanted)
        && output_of(program(&python).arg("--version")).is_ok();
    if ready {
        return Ok(python);
    }

    let base = if cfg!(windows) { "python" } else { "python3" };
    output_of(program(base).arg("--version"))?;
    if output_of(program(base).args(["-c", "import ensurepip"])).is_err() {
        return Err(format!(
            "`{base}` cannot make virtual environments (Debian: apt-get install python3-venv)"
        ));
    }
    run(program(base)
        .args(["-m", "venv", "--clear"])
        .arg(&directory))?;
    run(program(&python)
        .args([
            "-m",
            "pip",
            "install",
            "--quiet",
            "--disable-pip-version-check",
            "-r",
        ])
        .arg(&pins))
    .map_err(|reason| {
        format!("{reason}; the packages are downloaded once, which needs a network connection")
    })?;
    fs::write(&stamp, wanted).map_err(|e| format!("cannot write {}: {e}", stamp.display()))?;
    Ok(python)
}

/// Draws random points, has the reference implementations compute them, and
/// compares this library with what they say.
pub(crate) fn compare_with_reference() -> Result<(), String> {
    let python = environment()?;
    let points = target_dir().join("reference");
    run(program(python)
        .arg("tests/python/reference_points.py")
        .arg(&points))?;
    run(test("reference").env("HALIMEDA_REFERENCE", points))
}

/// Follows tanks with an independent solver and compares this library with it.
pub(crate) fn compare_tanks_with_reference() -> Result<(), String> {
    run(test("tank_reference").env("HALIMEDA_PYTHON", environment()?))
}

/// Has another implementation read a calendar of upkeep.
pub(crate) fn compare_calendar() -> Result<(), String> {
    run(test("calendar").env("HALIMEDA_PYTHON", environment()?))
}

/// A test that needs Python.
fn test(name: &str) -> Command {
    cargo(&[
        "test",
        "--package",
        "halimeda-tests",
        "--features",
        "reference",
        "--test",
        name,
        "--",
        "--nocapture",
    ])
}
