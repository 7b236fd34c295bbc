use core::cell::RefCell;
use std::collections::BTreeSet;

use serde::Serialize;

use super::problem::{Problem, ProblemKind};
use super::source::Source;

/// A value that the description leaves open, and what is taken in its place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Assumption {
    /// Path of the key that is not there.
    pub key: String,
    /// What is assumed.
    pub assumed: &'static str,
}

/// A problem before it is placed in the text.
pub(super) struct Finding {
    pub(super) kind: ProblemKind,
    pub(super) key: String,
    pub(super) found: String,
    pub(super) expected: String,
    pub(super) suggestion: Option<String>,
}

/// What comes to light while reading.
pub(super) struct Log<'s> {
    pub(super) source: Source<'s>,
    problems: RefCell<Vec<Problem>>,
    assumptions: RefCell<Vec<Assumption>>,
}

impl<'s> Log<'s> {
    pub(super) const fn new(source: Source<'s>) -> Self {
        Self {
            source,
            problems: RefCell::new(Vec::new()),
            assumptions: RefCell::new(Vec::new()),
        }
    }

    pub(super) fn report(&self, offset: usize, finding: Finding) {
        let (line, column) = self.source.position(offset);
        self.problems.borrow_mut().push(Problem {
            kind: finding.kind,
            line,
            column,
            key: finding.key,
            found: finding.found,
            expected: finding.expected,
            suggestion: finding.suggestion,
            excerpt: self.source.excerpt(line),
        });
    }

    /// Reports what makes the text no TOML: one thing a line, for one slip of the
    /// pen breaks all that follows it.
    pub(super) fn report_syntax(&self, errors: &[toml::de::Error]) {
        let mut broken = BTreeSet::new();
        for error in errors {
            let offset = error.span().unwrap_or_default().start;
            if broken.insert(self.source.position(offset).0) {
                self.report(offset, self.syntax_finding(offset, error.message()));
            }
        }
    }

    fn syntax_finding(&self, offset: usize, message: &str) -> Finding {
        let key = self.source.key_path_at(offset);
        let (kind, found, expected) = if message == "duplicate key" {
            let first = self.source.first_line_of(offset);
            let first =
                first.map_or_else(String::new, |line| format!("; the first is on line {line}"));
            let found = format!("a second {}", quoted(&key));
            (
                ProblemKind::DuplicateKey,
                found,
                format!("each key and table once{first}"),
            )
        } else {
            let (line, _) = self.source.position(offset);
            let found = quoted(&self.source.excerpt(line));
            (ProblemKind::Syntax, found, format!("valid TOML: {message}"))
        };
        let suggestion = message
            .starts_with("string values must be quoted")
            .then(|| format!("write \"{}\"", self.source.value_at(offset)));
        Finding {
            kind,
            key,
            found,
            expected,
            suggestion,
        }
    }

    pub(super) fn assume(&self, key: String, assumed: &'static str) {
        self.assumptions
            .borrow_mut()
            .push(Assumption { key, assumed });
    }

    pub(super) fn has_problems(&self) -> bool {
        !self.problems.borrow().is_empty()
    }

    /// What was found. Beside broken syntax the rest is reported with care: what is
    /// on a broken line was not read as it was meant, and what is missing may be there.
    pub(super) fn into_parts(self) -> (Vec<Problem>, Vec<Assumption>) {
        let mut problems = self.problems.into_inner();
        let is_syntax =
            |p: &Problem| matches!(p.kind, ProblemKind::Syntax | ProblemKind::DuplicateKey);
        let broken: BTreeSet<usize> = problems
            .iter()
            .filter(|p| is_syntax(p))
            .map(|p| p.line)
            .collect();
        if !broken.is_empty() {
            problems.retain(|p| {
                is_syntax(p) || p.kind != ProblemKind::MissingKey && !broken.contains(&p.line)
            });
        }
        (problems, self.assumptions.into_inner())
    }
}

/// Longest piece of the file that a message repeats, in characters.
const QUOTED_CHARS: usize = 60;

/// A piece of the file as a message shows it.
pub(crate) fn quoted(text: &str) -> String {
    let shown: String = text
        .trim()
        .chars()
        .take(QUOTED_CHARS)
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect();
    let more = if shown.len() < text.trim().len() {
        "…"
    } else {
        ""
    };
    format!("`{shown}{more}`")
}

/// A number as people write it, to four digits.
pub(crate) fn short(number: f64) -> String {
    let rounded = format!("{number:.3e}").parse().unwrap_or(number);
    rounded.to_string()
}

/// Words for a message: `a`, `b`, `c`.
pub(crate) fn listed<'a>(words: impl IntoIterator<Item = &'a str>) -> String {
    let words: Vec<String> = words.into_iter().map(|word| format!("`{word}`")).collect();
    words.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn messages_quote_little_and_nothing_a_terminal_acts_on() {
        assert_eq!(quoted(" 8.2 dKH "), "`8.2 dKH`");
        assert_eq!(quoted("\u{1b}[31m"), "` [31m`");
        assert_eq!(quoted(&"x".repeat(100)).chars().count(), 63);
    }

    #[test]
    fn numbers_are_shown_to_four_digits() {
        assert_eq!(short(28.671_23), "28.67");
        assert_eq!(short(10_000_000.0), "10000000");
        assert_eq!(short(0.000_123_456), "0.0001235");
        assert_eq!(short(0.0), "0");
    }
}
