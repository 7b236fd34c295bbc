use core::fmt;

use serde::Serialize;

/// What is wrong at one place of a description.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum ProblemKind {
    /// The file is not text in UTF-8.
    NotUtf8,
    /// The text is not TOML.
    Syntax,
    /// A key is set twice in one table.
    DuplicateKey,
    /// A key that the table does not take.
    UnknownKey,
    /// A key that the table needs is not there.
    MissingKey,
    /// A value of another type: a table for a string, say.
    WrongType,
    /// What should be a number, a time or a date cannot be read as one.
    Unreadable,
    /// A number that is not finite.
    NonFinite,
    /// A number without the unit it needs.
    MissingUnit,
    /// A unit that the key does not take.
    UnknownUnit,
    /// A word that is none of those the key takes.
    UnknownValue,
    /// A value outside its limits.
    OutOfRange,
    /// Entries that exclude each other.
    Contradictory,
}

/// One problem of a description: where it is, what is there and what should be.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Problem {
    pub(super) kind: ProblemKind,
    pub(super) line: usize,
    pub(super) column: usize,
    pub(super) key: String,
    pub(super) found: String,
    pub(super) expected: String,
    pub(super) suggestion: Option<String>,
    pub(super) excerpt: String,
}

impl Problem {
    /// What is wrong.
    #[must_use]
    pub const fn kind(&self) -> ProblemKind {
        self.kind
    }

    /// Line, from 1. Of a missing key: the line of its table's header, 1 for a
    /// table that is itself missing.
    #[must_use]
    pub const fn line(&self) -> usize {
        self.line
    }

    /// Column in characters, from 1.
    #[must_use]
    pub const fn column(&self) -> usize {
        self.column
    }

    /// Path of the key, as in `water.alkalinity` or `feeding[2].mass` (the second
    /// feeding); empty where the text is too broken to tell.
    #[must_use]
    pub fn key(&self) -> &str {
        &self.key
    }

    /// What was found.
    #[must_use]
    pub fn found(&self) -> &str {
        &self.found
    }

    /// What was expected, with units or limits.
    #[must_use]
    pub fn expected(&self) -> &str {
        &self.expected
    }

    /// What was probably meant.
    #[must_use]
    pub fn suggestion(&self) -> Option<&str> {
        self.suggestion.as_deref()
    }

    /// The line, as far as a message shows it.
    #[must_use]
    pub fn excerpt(&self) -> &str {
        &self.excerpt
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}: ", self.line, self.column)?;
        if !self.key.is_empty() {
            write!(f, "{}: ", self.key)?;
        }
        write!(f, "found {}; expected {}", self.found, self.expected)?;
        if let Some(suggestion) = &self.suggestion {
            write!(f, "; {suggestion}")?;
        }
        if !self.excerpt.trim().is_empty() {
            // Columns beyond the excerpt have no caret under it.
            let (line, gutter) = (self.line, self.line.to_string().len());
            write!(f, "\n  {line} | {}", self.excerpt)?;
            if self.column <= self.excerpt.chars().count() + 1 {
                write!(
                    f,
                    "\n  {:gutter$} | {:>column$}",
                    "",
                    "^",
                    column = self.column
                )?;
            }
        }
        Ok(())
    }
}

/// Every problem of a description, in the order of the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DescriptionError {
    problems: Vec<Problem>,
}

impl DescriptionError {
    pub(super) fn new(mut problems: Vec<Problem>) -> Self {
        problems.sort_by_key(|problem| (problem.line, problem.column));
        Self { problems }
    }

    /// The problems; at least one.
    #[must_use]
    pub fn problems(&self) -> &[Problem] {
        &self.problems
    }
}

impl fmt::Display for DescriptionError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.problems.len() {
            1 => f.write_str("one problem in the tank description")?,
            n => write!(f, "{n} problems in the tank description")?,
        }
        for problem in &self.problems {
            write!(f, "\n{problem}")?;
        }
        Ok(())
    }
}

impl core::error::Error for DescriptionError {}
