use core::fmt;

use serde::Serialize;

/// What is wrong with, or worth knowing of, a place in a log.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum LogProblemKind {
    /// The file is not text that can be read.
    NotText,
    /// A quote that is not closed, or more cells than the header names.
    Syntax,
    /// What should be a time, a number or an event cannot be read as one.
    Unreadable,
    /// A number that is not finite.
    NonFinite,
    /// A number with two meanings.
    Ambiguous,
    /// A column or a word that the log does not know.
    UnknownName,
    /// A column without the unit it needs.
    MissingUnit,
    /// A unit that the column does not take.
    UnknownUnit,
    /// A value outside its limits.
    OutOfRange,
    /// A row without a time, a file without a column of times, or an event without
    /// what it needs.
    Missing,
    /// Entries that exclude each other, in the log or with the description.
    Contradictory,
    /// Note: a date without a time of day, taken for noon.
    DateOnly,
    /// Note: a time that clocks skipped, moved on as the clocks were.
    SkippedHour,
    /// Note: a time that clocks showed twice.
    RepeatedHour,
    /// Note: a time later than now.
    Future,
    /// Note: a row earlier than the one before it; the log is sorted.
    OutOfOrder,
    /// Note: what stands there twice. An identical result is kept once, all else as
    /// written.
    Duplicate,
    /// Note: "more than", which is taken to end at the limit of the quantity.
    OpenEnded,
}

/// One place of a log: what is there, what should be, what was probably meant.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LogProblem {
    pub(super) kind: LogProblemKind,
    pub(super) line: usize,
    pub(super) last_line: usize,
    pub(super) rows: usize,
    pub(super) column: String,
    pub(super) found: String,
    pub(super) expected: String,
    pub(super) suggestion: Option<String>,
}

impl LogProblem {
    /// What is wrong.
    #[must_use]
    pub const fn kind(&self) -> LogProblemKind {
        self.kind
    }

    /// First line it concerns, from 1. Of columns that were handed over: the row.
    #[must_use]
    pub const fn line(&self) -> usize {
        self.line
    }

    /// Last line it concerns: another one than the first where the same is wrong with
    /// rows that follow each other in a probe's column, or the same is noted again.
    #[must_use]
    pub const fn last_line(&self) -> usize {
        self.last_line
    }

    /// Rows concerned. Of a column that was not read: its cells that are not blank.
    #[must_use]
    pub const fn rows(&self) -> usize {
        self.rows
    }

    /// Heading of the column, as written; empty where the whole row is meant.
    #[must_use]
    pub fn column(&self) -> &str {
        &self.column
    }

    /// What was found, of the first line.
    #[must_use]
    pub fn found(&self) -> &str {
        &self.found
    }

    /// What was expected; of a note what was done.
    #[must_use]
    pub fn expected(&self) -> &str {
        &self.expected
    }

    /// What was probably meant.
    #[must_use]
    pub fn suggestion(&self) -> Option<&str> {
        self.suggestion.as_deref()
    }
}

impl fmt::Display for LogProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}", self.line)?;
        if self.rows > 1 {
            write!(f, " to {}, {} rows", self.last_line, self.rows)?;
        }
        if !self.column.is_empty() {
            write!(f, ", {}", self.column)?;
        }
        write!(f, ": found {}; {}", self.found, self.expected)?;
        if let Some(suggestion) = &self.suggestion {
            write!(f, "; {suggestion}")?;
        }
        Ok(())
    }
}

/// Why nothing of a log could be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LogError {
    pub(super) problem: Box<LogProblem>,
}

impl LogError {
    pub(super) fn new(
        kind: LogProblemKind,
        line: usize,
        found: impl Into<String>,
        expected: impl Into<String>,
        suggestion: Option<String>,
    ) -> Self {
        let finding = Finding::new(kind, found, expected).meant(suggestion);
        Self {
            problem: Box::new(finding.at(line, "")),
        }
    }

    /// What is wrong.
    #[must_use]
    pub fn problem(&self) -> &LogProblem {
        &self.problem
    }
}

impl fmt::Display for LogError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the log cannot be read: {}", self.problem)
    }
}

impl core::error::Error for LogError {}

/// How many rejections back the last one of a column is looked for: more than a row has
/// columns that go wrong together.
const NEAR: usize = 32;

/// Rejections and notes while they are gathered.
#[derive(Debug, Default)]
pub(super) struct Findings {
    pub(super) rejected: Vec<LogProblem>,
    pub(super) notes: Vec<LogProblem>,
}

/// One finding before it is placed.
#[derive(Debug)]
pub(super) struct Finding {
    pub(super) kind: LogProblemKind,
    pub(super) found: String,
    pub(super) expected: String,
    pub(super) suggestion: Option<String>,
}

impl Finding {
    pub(super) fn new(
        kind: LogProblemKind,
        found: impl Into<String>,
        expected: impl Into<String>,
    ) -> Self {
        Self {
            kind,
            found: found.into(),
            expected: expected.into(),
            suggestion: None,
        }
    }

    pub(super) fn meant(mut self, suggestion: Option<String>) -> Self {
        self.suggestion = suggestion;
        self
    }

    fn at(self, line: usize, column: &str) -> LogProblem {
        LogProblem {
            kind: self.kind,
            line,
            last_line: line,
            rows: 1,
            column: shown(column.to_owned()),
            found: shown(self.found),
            expected: shown(self.expected),
            suggestion: self.suggestion.map(shown),
        }
    }
}

/// Without anything that a terminal would act on.
fn shown(text: String) -> String {
    match text.contains(char::is_control) {
        true => text.replace(char::is_control, " "),
        false => text,
    }
}

impl Findings {
    pub(super) fn reject(&mut self, line: usize, column: &str, finding: Finding) {
        self.rejected.push(finding.at(line, column));
    }

    /// Of a probe's column: rows that follow each other and have the same wrong with
    /// them are one entry, or a dead probe's month would be ten thousand.
    pub(super) fn reject_in_series(
        &mut self,
        (previous, line): (usize, usize),
        column: &str,
        finding: Finding,
    ) {
        let mut before = self.rejected.iter_mut().rev().take(NEAR);
        let last = before.find(|p| p.column == column);
        match last {
            Some(last)
                if last.last_line == previous
                    && last.kind == finding.kind
                    && last.expected == finding.expected =>
            {
                last.last_line = line;
                last.rows += 1;
            }
            _ => self.reject(line, column, finding),
        }
    }

    pub(super) fn note(&mut self, line: usize, column: &str, finding: Finding) {
        self.notes.push(finding.at(line, column));
    }

    /// The same of many rows is noted once, with their number.
    pub(super) fn note_once(
        &mut self,
        line: usize,
        column: &str,
        finding: impl FnOnce() -> Finding,
        kind: LogProblemKind,
    ) {
        let same = |p: &&mut LogProblem| p.kind == kind && p.column == column;
        match self.notes.iter_mut().find(same) {
            Some(noted) => {
                noted.last_line = noted.last_line.max(line);
                noted.rows += 1;
            }
            None => self.note(line, column, finding()),
        }
    }
}
