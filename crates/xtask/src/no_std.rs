//! Proof that the core runs where there is no operating system, with the
//! toolchains that happen to be installed. Nothing is downloaded.

use std::path::Path;
use std::process::Command;

use crate::command::{cargo, output_of, program, root, run, target_dir};
use crate::step::Outcome;

/// A target without operating system, and without the standard library.
const BARE_TARGET: &str = "x86_64-unknown-none";

/// The Rust of Debian, beside which its package of sources puts `core`.
const DEBIAN_RUSTC: &str = "/usr/bin/rustc";

const DEBIAN_PACKAGES: &str = "Debian 12: apt-get install 'rustc-web=1.85*' 'libstd-rust-web-dev=1.85*' \
     'rust-web-src=1.85*'; Debian 13: apt-get install rustc rust-src";

/// The features of the core on a device.
const DEVICE_FEATURES: [&str; 5] = [
    "--package",
    "halimeda",
    "--no-default-features",
    "--features",
    "libm",
];

/// Links `tests/freestanding`, looks at its symbols and runs it.
pub(crate) fn freestanding() -> Result<Outcome, String> {
    if !cfg!(target_os = "linux") {
        return Ok(Outcome::Skipped(
            "the program leaves through a system call of Linux".to_owned(),
        ));
    }
    let directory = target_dir().join("freestanding");
    run(cargo(&["build", "--release", "--locked"])
        .current_dir(root().join("tests/freestanding"))
        .env("CARGO_TARGET_DIR", &directory))?;
    let binary = directory.join("release/halimeda-freestanding");

    let undefined = output_of(program("nm").arg("--undefined-only").arg(&binary))?;
    if !undefined.trim().is_empty() {
        return Err(format!("symbols left undefined:\n{undefined}"));
    }
    let symbols = output_of(program("nm").arg("--demangle").arg(&binary))?;
    for unwanted in ["alloc", "core::panicking"] {
        if let Some(symbol) = symbols.lines().find(|line| line.contains(unwanted)) {
            return Err(format!("the program contains `{symbol}`"));
        }
    }
    println!(
        "    {} symbols, none undefined, no allocator, no panic",
        symbols.lines().count()
    );
    if !cfg!(any(target_arch = "x86_64", target_arch = "aarch64")) {
        return Ok(Outcome::Skipped(
            "linked, but its entry point is written for x86_64 and aarch64 only".to_owned(),
        ));
    }
    // Its exit code is the number of the computation that came out wrong.
    run(&mut program(&binary))?;
    Ok(Outcome::Passed)
}

/// Checks the core for [`BARE_TARGET`].
pub(crate) fn bare_target() -> Result<Outcome, String> {
    let rustc = std::env::var("RUSTC").unwrap_or_else(|_| "rustc".to_owned());
    let installed =
        output_of(program(rustc).args(["--print", "target-libdir", "--target", BARE_TARGET]))
            .is_ok_and(|directory| Path::new(directory.trim()).is_dir());
    let mut check = cargo(&["check", "--target", BARE_TARGET]);
    check.args(DEVICE_FEATURES);
    if !installed {
        if debian_release().is_none() || !debian_has_sources() {
            return Ok(Outcome::Skipped(format!(
                "neither the running toolchain has {BARE_TARGET} nor are Debian's Rust and its \
                 sources installed ({DEBIAN_PACKAGES}); the step `freestanding` stands in"
            )));
        }
        println!("    `core` is compiled from Debian's sources first");
        with_debian(&mut check)
            .arg("-Zbuild-std=core")
            // Debian's compiler is a release, which refuses `-Z` without this.
            .env("RUSTC_BOOTSTRAP", "1");
    }
    run(&mut check)?;
    Ok(Outcome::Passed)
}

/// All features but `avx512`, which needs Rust 1.89.
const OLDEST_FEATURES: &str = "halimeda/std,halimeda/libm,halimeda/serde,halimeda/batch";

/// Checks the crates with the Rust that the manifest promises.
pub(crate) fn oldest_rust() -> Result<Outcome, String> {
    let promised = env!("CARGO_PKG_RUST_VERSION");
    match debian_release() {
        Some(release) if release.starts_with(&format!("{promised}.")) => {
            for features in [&["check"][..], &["check", "--features", OLDEST_FEATURES]] {
                run(with_debian(&mut cargo(features)))?;
            }
            let mut check = cargo(&["check"]);
            run(with_debian(check.args(DEVICE_FEATURES)))?;
            Ok(Outcome::Passed)
        }
        found => Ok(Outcome::Skipped(format!(
            "Rust {promised} is needed at {DEBIAN_RUSTC}, found {} ({DEBIAN_PACKAGES})",
            found.as_deref().unwrap_or("none")
        ))),
    }
}

// Builds with Debian's compiler, in a directory of its own: two compilers
// sharing one would rebuild everything at each change of hands.
fn with_debian(command: &mut Command) -> &mut Command {
    command
        .env("RUSTC", DEBIAN_RUSTC)
        .env("CARGO_TARGET_DIR", target_dir().join("debian"))
}

fn debian_release() -> Option<String> {
    let version = output_of(program(DEBIAN_RUSTC).arg("--version")).ok()?;
    version.split_whitespace().nth(1).map(str::to_owned)
}

fn debian_has_sources() -> bool {
    output_of(program(DEBIAN_RUSTC).args(["--print", "sysroot"])).is_ok_and(|sysroot| {
        Path::new(sysroot.trim())
            .join("lib/rustlib/src/rust/library/core")
            .is_dir()
    })
}
