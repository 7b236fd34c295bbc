use std::collections::BTreeMap;

use crate::tolerance::{self, Tolerance};

/// The largest differences between two implementations, output by output.
#[derive(Debug, Default)]
pub struct Comparison {
    outputs: BTreeMap<&'static str, Differences>,
}

#[derive(Debug, Default)]
struct Differences {
    points: usize,
    outside: usize,
    absolute: f64,
    relative: f64,
    // Where the largest difference in the sense of the tolerance is.
    worst: f64,
    worst_at: String,
}

impl Comparison {
    /// Notes one output at one point; `at` describes the point.
    pub fn add(&mut self, output: &'static str, ours: f64, theirs: f64, at: impl Fn() -> String) {
        let differences = self.outputs.entry(output).or_default();
        differences.points += 1;
        let absolute = (ours - theirs).abs();
        // Equal zeros differ by nothing.
        let relative = if absolute == 0.0 {
            0.0
        } else {
            absolute / theirs.abs()
        };
        let (size, limit) = match tolerance::of(output) {
            Tolerance::Absolute(limit) => (absolute, limit),
            Tolerance::Relative(limit) => (relative, limit),
        };
        // A difference that is not a number is outside and stays the worst.
        let inside = size <= limit;
        differences.outside += usize::from(!inside);
        differences.absolute = differences.absolute.max(absolute);
        differences.relative = differences.relative.max(relative);
        if size.is_nan() || size > differences.worst {
            differences.worst = size;
            differences.worst_at = format!("{ours:e} against {theirs:e} at {}", at());
        }
    }

    /// Prints the table, and fails if an output was outside its tolerance.
    ///
    /// # Panics
    /// An output was outside its tolerance, or nothing was compared.
    pub fn conclude(self, title: &str) {
        assert!(!self.outputs.is_empty(), "{title}: nothing was compared");
        println!(
            "\n{title}\n{:<24}{:>8}{:>14}{:>14}{:>18}  verdict",
            "output", "points", "max absolute", "max relative", "tolerance"
        );
        let mut outside = Vec::new();
        for (output, d) in &self.outputs {
            let limit = match tolerance::of(output) {
                Tolerance::Absolute(limit) => format!("{limit:.0e} absolute"),
                Tolerance::Relative(limit) => format!("{limit:.0e} relative"),
            };
            let verdict = if d.outside == 0 {
                "within".to_owned()
            } else {
                outside.push(*output);
                format!("OUTSIDE at {} points; worst {}", d.outside, d.worst_at)
            };
            println!(
                "{output:<24}{:>8}{:>14.1e}{:>14.1e}{limit:>18}  {verdict}",
                d.points, d.absolute, d.relative
            );
        }
        assert!(
            outside.is_empty(),
            "{title}: outside tolerance: {outside:?}"
        );
    }
}
