//! Running other programs, and saying which one is missing.

use std::ffi::OsStr;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Where Debian keeps the programs that may be missing on a fresh machine.
const DEBIAN_PACKAGES: &[(&str, &str)] = &[("python3", "python3 python3-venv"), ("nm", "binutils")];

/// The root of the repository.
pub(crate) fn root() -> &'static Path {
    let manifest = Path::new(env!("CARGO_MANIFEST_DIR"));
    manifest.ancestors().nth(2).unwrap_or(manifest)
}

/// Where cargo builds; everything these tasks make goes there too.
pub(crate) fn target_dir() -> PathBuf {
    root().join(std::env::var_os("CARGO_TARGET_DIR").unwrap_or_else(|| "target".into()))
}

/// A program, started at the root of the repository.
pub(crate) fn program(name: impl AsRef<OsStr>) -> Command {
    let mut command = Command::new(name);
    command.current_dir(root());
    command
}

/// The cargo that runs this program, with `arguments`.
pub(crate) fn cargo(arguments: &[&str]) -> Command {
    let mut command = program(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.args(arguments);
    command
}

/// Shows a command and runs it; an error when it does not end well.
pub(crate) fn run(command: &mut Command) -> Result<(), String> {
    let shown = shown(command);
    println!("    $ {shown}");
    let status = command.status().map_err(|e| not_started(command, &e))?;
    if status.success() {
        Ok(())
    } else {
        Err(format!("`{shown}` ended with {status}"))
    }
}

/// Runs a command and gives what it printed on its standard output.
pub(crate) fn output_of(command: &mut Command) -> Result<String, String> {
    let output = command.output().map_err(|e| not_started(command, &e))?;
    if output.status.success() {
        Ok(String::from_utf8_lossy(&output.stdout).into_owned())
    } else {
        Err(format!(
            "`{}` ended with {}: {}",
            shown(command),
            output.status,
            String::from_utf8_lossy(&output.stderr).trim()
        ))
    }
}

/// Runs cargo with a subcommand that not every installation of Rust carries.
pub(crate) fn cargo_with(component: &str, arguments: &[&str]) -> Result<(), String> {
    let subcommand = arguments.first().copied().unwrap_or(component);
    if output_of(&mut cargo(&[subcommand, "--version"])).is_err() {
        return Err(format!(
            "`cargo {subcommand}` is missing: it comes with the `{component}` component of the \
             Rust toolchain (Debian 13: apt-get install {component})"
        ));
    }
    run(&mut cargo(arguments))
}

// The command as one would type it, with the environment it adds.
fn shown(command: &Command) -> String {
    let environment = command.get_envs().filter_map(|(key, value)| {
        value.map(|value| format!("{}={:?}", key.to_string_lossy(), value))
    });
    let name = Path::new(command.get_program());
    let name = name.file_name().unwrap_or(command.get_program());
    let words = std::iter::once(name).chain(command.get_args());
    let words = words.map(|word| word.to_string_lossy().into_owned());
    environment.chain(words).collect::<Vec<_>>().join(" ")
}

fn not_started(command: &Command, error: &std::io::Error) -> String {
    let name = command.get_program().to_string_lossy();
    if error.kind() != ErrorKind::NotFound {
        return format!("`{name}` could not be started: {error}");
    }
    match DEBIAN_PACKAGES.iter().find(|(program, _)| *program == name) {
        Some((_, packages)) => {
            format!("`{name}` is missing (Debian: apt-get install {packages})")
        }
        None => format!("`{name}` is missing"),
    }
}
