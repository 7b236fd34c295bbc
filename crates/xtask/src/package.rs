//! The Python package: built, tested, typed, documented, and installed as others
//! will install it.

use std::env;
use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::command::{output_of, program, root, run, target_dir};
use crate::python::{BASE, PACKAGE, WHEELS, bare_environment, pip};
use crate::step::Outcome;

/// The stubs of the native module, in the repository.
const STUBS: &str = "python/halimeda/_native.pyi";

/// Interpreters the wheel is tried on, those of them that are here.
const INTERPRETERS: [&str; 4] = ["python3.11", "python3.12", "python3.13", "python3.14"];

/// Interpreters without a global lock, which need a wheel each.
const FREE_THREADED: [&str; 2] = ["python3.13t", "python3.14t"];

/// What `pyproject.toml` promises to work with.
const OLDEST_NUMPY: &str = "numpy==2.0.*";

/// Checks an installation beside which there is only numpy.
const BARE_INSTALL: &str = "python/tests/bare_install.py";

/// Uses the package as a program with types does.
const TYPED_USE: &str = "python/tests/test_types.py";

/// The tests of the package that need nothing but Python.
pub(crate) fn tests() -> Result<(), String> {
    pytest(&["-m", "not notebook and not browser", "python/tests"])
}

/// Runs the notebooks.
pub(crate) fn notebooks() -> Result<(), String> {
    pytest(&["-m", "notebook", "python/tests"])
}

/// Opens the report page in a browser.
pub(crate) fn browser() -> Result<Outcome, String> {
    if output_of(program("chromium").arg("--version")).is_err() {
        return Ok(Outcome::Skipped(
            "`chromium` is missing (Debian: apt-get install chromium)".to_owned(),
        ));
    }
    pytest(&["-m", "browser", "python/tests"])?;
    Ok(Outcome::Passed)
}

/// The stubs are those of the native module, and every public name has a type.
pub(crate) fn types() -> Result<(), String> {
    let python = installed()?;
    if stubs(&python)? != fs::read_to_string(root().join(STUBS)).unwrap_or_default() {
        return Err(format!(
            "{STUBS} is not what the native module has; `cargo xtask stubs` writes it anew"
        ));
    }
    let module = |name: &str| {
        let mut command = program(&python);
        command.args(["-m", name]);
        command
    };
    let config = "python/pyproject.toml";
    run(module("mypy.stubtest").args(["halimeda._native", "--mypy-config-file", config]))?;
    run(module("mypy").args(["--config-file", config, "--package", "halimeda"]))?;
    run(module("mypy").args(["--config-file", config, TYPED_USE]))?;
    run(module("pyright")
        .args(["--project", "python", "--pythonpath"])
        .arg(&python))?;
    // Asked for the types of an installed package, it takes the first interpreter of the
    // path and no other.
    let mut path = vec![python.parent().map(Path::to_path_buf).unwrap_or_default()];
    path.extend(env::split_paths(&env::var_os("PATH").unwrap_or_default()));
    let path = env::join_paths(path).map_err(|e| format!("cannot extend PATH: {e}"))?;
    run(module("pyright")
        .args(["--verifytypes", "halimeda", "--ignoreexternal"])
        .env("PATH", path))
}

/// Writes the stubs of the native module into the repository.
pub(crate) fn write_stubs() -> Result<(), String> {
    let stubs = stubs(&PACKAGE.python()?)?;
    fs::write(root().join(STUBS), stubs).map_err(|e| format!("cannot write {STUBS}: {e}"))
}

/// Builds the reference from the docstrings and runs their examples.
pub(crate) fn docs() -> Result<(), String> {
    let python = installed()?;
    let pages = target_dir().join("python-docs");
    run(program(&python)
        .args(["-m", "sphinx", "--quiet", "--fresh-env", "--nitpicky"])
        .args(["--fail-on-warning", "--keep-going", "python/docs"])
        .arg(&pages))?;
    println!("    {}", pages.join("index.html").display());
    // Not by pytest, which does not see the docstrings of the native half.
    run(program(&python)
        .args(["-m", "sphinx", "--builder", "doctest", "python/docs"])
        .arg(target_dir().join("python-doctest")))
}

/// Installs the package as others will: from source with the Rust toolchain and
/// nothing else, and the wheel without it, on every interpreter that is here.
pub(crate) fn install() -> Result<(), String> {
    let python = PACKAGE.python()?;
    let sources = folder("python/sdist")?;
    run(maturin(&python, "sdist").arg("--out").arg(&sources))?;
    let clean = target_dir().join("python/clean-venv");
    let built = folder("python/wheel-from-source")?;
    run(
        pip(&bare_environment(BASE, &clean)?, &["wheel", "--no-deps"])
            .arg(only_file(&sources, "tar.gz")?)
            .arg("--wheel-dir")
            .arg(&built)
            .env("CARGO_TARGET_DIR", target_dir())
            // What is released is optimised as a whole, which takes minutes and
            // changes nothing about what this looks for.
            .env("MATURIN_PEP517_ARGS", "--profile checked"),
    )?;

    let wheel = only_file(&built, "whl")?;
    let mut numpy = OLDEST_NUMPY;
    for interpreter in INTERPRETERS.into_iter().filter(is_here) {
        without_rust(interpreter, &clean, &[wheel.as_os_str(), numpy.as_ref()])?;
        numpy = "numpy";
    }
    for interpreter in FREE_THREADED.into_iter().filter(is_here) {
        let wheels = folder("python/free-threaded")?;
        run(maturin(&python, "build")
            .args(["--release", "--locked", "--no-default-features"])
            .args(["--interpreter", interpreter, "--out"])
            .arg(&wheels))?;
        let wheel = only_file(&wheels, "whl")?;
        without_rust(interpreter, &clean, &[wheel.as_os_str()])?;
    }
    Ok(())
}

// Installs into an environment from which nothing of Rust can be found.
fn without_rust(interpreter: &str, clean: &Path, packages: &[&OsStr]) -> Result<(), String> {
    let python = bare_environment(interpreter, clean)?;
    run(pip(&python, &["install"]).args(packages).env("PATH", ""))?;
    run(program(&python).arg(BARE_INSTALL).env("PATH", ""))
}

fn is_here(interpreter: &&str) -> bool {
    let here = output_of(program(interpreter).arg("--version")).is_ok();
    if !here {
        println!("    `{interpreter}` is not here: the wheel is not tried on it");
    }
    here
}

/// Builds what is published, into the folder `python/dist` of the target
/// directory: the source distribution, one wheel for all interpreters with a
/// global lock, one for each without.
pub(crate) fn wheels() -> Result<(), String> {
    let python = WHEELS.python()?;
    let out = folder("python/dist")?;
    let build = |arguments: &[&str]| {
        run(maturin(&python, "build")
            .args(["--release", "--locked", "--zig", "--out"])
            .arg(&out)
            .args(arguments))
    };
    run(maturin(&python, "sdist").arg("--out").arg(&out))?;
    build(&[])?;
    for interpreter in FREE_THREADED {
        build(&["--no-default-features", "--interpreter", interpreter])?;
    }
    println!("{}", out.display());
    Ok(())
}

/// Runs the benchmarks in `python/benches` whose name contains `filter`, on the
/// package as it is released.
pub(crate) fn bench(filter: &str) -> Result<(), String> {
    let python = PACKAGE.python()?;
    let out = folder("python/release")?;
    run(maturin(&python, "build")
        .args(["--release", "--locked", "--interpreter"])
        .arg(&python)
        .arg("--out")
        .arg(&out))?;
    install_wheel(&python, &only_file(&out, "whl")?)?;
    let folder = root().join("python/benches");
    let mut benches: Vec<PathBuf> = fs::read_dir(&folder)
        .map_err(|e| format!("cannot read {}: {e}", folder.display()))?
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.extension() == Some("py".as_ref()))
        .filter(|path| {
            path.file_stem()
                .is_some_and(|name| name.to_string_lossy().contains(filter))
        })
        .collect();
    benches.sort();
    for bench in benches {
        run(program(&python).arg(bench))?;
    }
    Ok(())
}

/// Leaves the report of a tank's plan in a folder, and says where: what `python -m
/// halimeda plan` writes, dated as the description.
pub(crate) fn report_page(description: &str, folder: &str) -> Result<(), String> {
    let page = root().join(folder).join("report.html");
    run(program(installed()?)
        .args(["-m", "halimeda", "plan", description])
        .args(["--date", "2026-01-15", "--force", "--page"])
        .arg(&page))
}

/// Runs pytest on the installed package.
fn pytest(arguments: &[&str]) -> Result<(), String> {
    run(program(installed()?)
        .args(["-m", "pytest", "-c", "python/pyproject.toml"])
        .args(arguments))
}

/// The interpreter of the environment of the package, in which the wheel of the
/// sources as they stand is installed.
pub(crate) fn installed() -> Result<PathBuf, String> {
    let python = PACKAGE.python()?;
    let wheel = wheel(&python)?;
    install_wheel(&python, &wheel)?;
    Ok(python)
}

fn install_wheel(python: &Path, wheel: &Path) -> Result<(), String> {
    run(pip(python, &["install", "--force-reinstall", "--no-deps"]).arg(wheel))
}

fn wheel(python: &Path) -> Result<PathBuf, String> {
    let out = folder("python/wheel")?;
    run(maturin(python, "build")
        .args(AS_TESTED)
        .arg("--interpreter")
        .arg(python)
        .arg("--out")
        .arg(&out))?;
    only_file(&out, "whl")
}

fn stubs(python: &Path) -> Result<String, String> {
    let out = folder("python/stubs")?;
    run(maturin(python, "generate-stubs")
        .args(AS_TESTED)
        .arg("--interpreter")
        .arg(python)
        .arg("--out")
        .arg(&out))?;
    output_of(
        program(python)
            .arg("python/write_stubs.py")
            .arg(out.join("halimeda/_native.pyi")),
    )
}

/// One build serves both: the wheel that is tested, and the stubs, which are read
/// from the library in it. Like the other tests it is optimised and checks for
/// overflow. The profile has a name of its own, for `cargo rustc --profile test`
/// makes a program of tests, not a library.
const AS_TESTED: [&str; 5] = ["--profile", "checked", "--locked", "--features", "stubs"];

fn maturin(python: &Path, subcommand: &str) -> Command {
    let mut command = program(python);
    command
        .args(["-m", "maturin", subcommand])
        .current_dir(root().join("python"))
        .env("CARGO_TARGET_DIR", target_dir());
    command
}

/// An empty folder under the target directory.
fn folder(name: &str) -> Result<PathBuf, String> {
    let folder = target_dir().join(name);
    if folder.exists() {
        fs::remove_dir_all(&folder)
            .map_err(|e| format!("cannot empty {}: {e}", folder.display()))?;
    }
    fs::create_dir_all(&folder).map_err(|e| format!("cannot make {}: {e}", folder.display()))?;
    Ok(folder)
}

fn only_file(folder: &Path, ending: &str) -> Result<PathBuf, String> {
    fs::read_dir(folder)
        .map_err(|e| format!("cannot read {}: {e}", folder.display()))?
        .filter_map(|entry| Some(entry.ok()?.path()))
        .find(|path| path.to_string_lossy().ends_with(ending))
        .ok_or_else(|| format!("no *.{ending} in {}", folder.display()))
}
