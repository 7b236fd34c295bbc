//! Python environments with pinned packages, and the comparisons with references.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::command::{cargo, output_of, program, root, run, target_dir};

/// The interpreter that environments are made with.
pub(crate) const BASE: &str = if cfg!(windows) { "python" } else { "python3" };

/// An environment of pinned packages under the target directory.
pub(crate) struct Environment {
    /// Its folder.
    name: &'static str,
    /// The files of its pins.
    pins: &'static [&'static str],
}

/// The reference implementations.
pub(crate) const REFERENCE: Environment = Environment {
    name: "venv",
    pins: &["tests/python/requirements.txt"],
};

/// The package: its tests, types and documentation, and what its benchmark
/// compares it with.
pub(crate) const PACKAGE: Environment = Environment {
    name: "venv-package",
    pins: &[
        "python/tests/requirements.txt",
        "tests/python/requirements.txt",
    ],
};

/// What builds the wheels to publish, for systems older than this one.
pub(crate) const WHEELS: Environment = Environment {
    name: "venv-wheels",
    pins: &["python/wheels-requirements.txt"],
};

impl Environment {
    /// Its interpreter; it is made when it is not there or when the pins changed.
    pub(crate) fn python(&self) -> Result<PathBuf, String> {
        let directory = target_dir().join(self.name);
        let python = interpreter_in(&directory);
        let mut wanted = String::new();
        for pins in self.pins {
            wanted += &fs::read_to_string(root().join(pins))
                .map_err(|e| format!("cannot read {pins}: {e}"))?;
        }
        // A copy of the pins, written once everything is installed.
        let stamp = directory.join("installed-requirements.txt");
        let ready = fs::read_to_string(&stamp).is_ok_and(|installed| installed == wanted)
            && output_of(program(&python).arg("--version")).is_ok();
        if ready {
            return Ok(python);
        }
        bare_environment(BASE, &directory)?;
        let mut install = pip(&python, &["install"]);
        for pins in self.pins {
            install.args(["-r", pins]);
        }
        run(&mut install)?;
        fs::write(&stamp, wanted).map_err(|e| format!("cannot write {}: {e}", stamp.display()))?;
        Ok(python)
    }
}

/// Makes an environment of the interpreter `base` without packages, in place of
/// what was there; gives its interpreter.
pub(crate) fn bare_environment(base: &str, directory: &Path) -> Result<PathBuf, String> {
    output_of(program(base).arg("--version"))?;
    if output_of(program(base).args(["-c", "import ensurepip"])).is_err() {
        return Err(format!(
            "`{base}` cannot make virtual environments (Debian: apt-get install python3-venv)"
        ));
    }
    run(program(base).args(["-m", "venv", "--clear"]).arg(directory))?;
    Ok(interpreter_in(directory))
}

/// A command of pip; what it has not kept from before it downloads.
pub(crate) fn pip(python: &Path, arguments: &[&str]) -> Command {
    let mut command = program(python);
    command
        .args(["-m", "pip", "--quiet", "--disable-pip-version-check"])
        .args(arguments);
    command
}

fn interpreter_in(directory: &Path) -> PathBuf {
    directory.join(if cfg!(windows) {
        "Scripts/python.exe"
    } else {
        "bin/python"
    })
}

/// Draws random points, has the reference implementations compute them, and
/// compares this library with what they say.
pub(crate) fn compare_with_reference() -> Result<(), String> {
    let python = REFERENCE.python()?;
    let points = target_dir().join("reference");
    run(program(python)
        .arg("tests/python/reference_points.py")
        .arg(&points))?;
    run(test("reference").env("HALIMEDA_REFERENCE", points))
}

/// Follows tanks with an independent solver and compares this library with it.
pub(crate) fn compare_tanks_with_reference() -> Result<(), String> {
    run(test("tank_reference").env("HALIMEDA_PYTHON", REFERENCE.python()?))
}

/// Has another implementation read a calendar of upkeep.
pub(crate) fn compare_calendar() -> Result<(), String> {
    run(test("calendar").env("HALIMEDA_PYTHON", REFERENCE.python()?))
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
