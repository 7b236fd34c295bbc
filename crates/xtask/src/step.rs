//! Steps of a check: each says what it does and why, all run, and a table at
//! the end says how each ended.

use std::process::ExitCode;
use std::time::Instant;

/// One step.
pub(crate) struct Step {
    /// The word to ask for it by.
    pub(crate) name: &'static str,
    /// What it does and why, one sentence.
    pub(crate) why: &'static str,
    /// Does it.
    pub(crate) run: fn() -> Result<Outcome, String>,
}

/// How a step that did not fail ended.
pub(crate) enum Outcome {
    /// It ran and found nothing wrong.
    Passed,
    /// It could not run here, and says what is missing.
    Skipped(String),
}

/// Prints the names of the steps.
pub(crate) fn list(steps: &[Step]) {
    for Step { name, why, .. } in steps {
        println!("{name:<14} {why}");
    }
}

/// Runs the steps called `names`, or all of them when there are no names.
///
/// A failing step does not keep the next ones from running: whoever mends
/// things wants the whole list at once.
pub(crate) fn run(steps: &[Step], names: &[&str]) -> ExitCode {
    if let Some(unknown) = names
        .iter()
        .find(|name| steps.iter().all(|step| step.name != **name))
    {
        eprintln!("No step is called `{unknown}`. The steps:");
        list(steps);
        return ExitCode::FAILURE;
    }
    let chosen: Vec<&Step> = steps
        .iter()
        .filter(|step| names.is_empty() || names.contains(&step.name))
        .collect();

    let mut rows = Vec::new();
    let (mut passed, mut failed, mut skipped) = (0, 0, 0);
    for (i, step) in chosen.iter().enumerate() {
        println!("\n==> [{}/{}] {}", i + 1, chosen.len(), step.name);
        println!("    {}", step.why);
        let start = Instant::now();
        let result = (step.run)();
        let seconds = start.elapsed().as_secs_f64();
        let (verdict, note) = match result {
            Ok(Outcome::Passed) => {
                passed += 1;
                ("passed", String::new())
            }
            Ok(Outcome::Skipped(reason)) => {
                skipped += 1;
                println!("    Not run: {reason}");
                ("skipped", reason)
            }
            Err(reason) => {
                failed += 1;
                println!("    Failed: {reason}");
                ("FAILED", reason)
            }
        };
        rows.push(format!(
            "{:<14} {verdict:<8} {seconds:>7.1} s  {note}",
            step.name
        ));
    }

    println!("\n{:<14} {:<8} {:>9}", "step", "outcome", "time");
    for row in rows {
        println!("{}", row.trim_end());
    }
    println!("\n{passed} passed, {failed} failed, {skipped} skipped");
    if failed == 0 {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    }
}
