//! What is wrong with a readings file: which line, which key, what was expected.

use std::fmt;

use crate::readings::Readings;
use crate::refusal::Refusal;

/// A file that cannot be used, as its writer needs it told.
#[derive(Debug)]
pub(crate) struct Problem {
    file: String,
    place: Option<Place>,
    reason: String,
}

/// A line of the file, and the key or section on it.
#[derive(Debug)]
struct Place {
    number: usize,
    text: String,
    key: String,
}

/// Reads the text of a file.
pub(crate) fn parse(file: &str, text: &str) -> Result<Readings, Problem> {
    toml::from_str(text).map_err(|error| {
        let place = error.span().and_then(|span| Place::at(text, span.start));
        let comma = place.as_ref().is_some_and(Place::has_decimal_comma);
        let reason = if comma {
            "write a decimal point, not a decimal comma".to_owned()
        } else {
            in_plain_words(error.message())
        };
        Problem {
            file: file.to_owned(),
            place,
            reason,
        }
    })
}

/// The parser's words for parts of a file, in those of whoever writes one.
fn in_plain_words(message: &str) -> String {
    message
        .replace("missing field", "missing key or section")
        .replace("unknown field", "unknown key or section")
        .replace("unknown variant", "unknown choice")
}

impl Problem {
    /// Readings that lead to no answer, with the section they stand in.
    pub(crate) fn refused(file: &str, text: &str, refusal: Refusal) -> Self {
        Self {
            file: file.to_owned(),
            place: Place::of_section(text, refusal.section),
            reason: refusal.reason,
        }
    }

    /// A file that cannot be read or written at all.
    pub(crate) fn with_file(file: &str, error: &impl fmt::Display) -> Self {
        Self {
            file: file.to_owned(),
            place: None,
            reason: error.to_string(),
        }
    }
}

impl Place {
    fn at(text: &str, offset: usize) -> Option<Self> {
        let before = text.get(..offset)?;
        let number = before.matches('\n').count() + 1;
        let line = text.lines().nth(number - 1)?.trim();
        // A missing key has no line of its own: its section stands for it.
        if line.is_empty() || line.starts_with('#') {
            return None;
        }
        let section = section_name(line).or_else(|| before.lines().rev().find_map(section_name));
        let key = line.split_once('=').map(|(key, _)| key.trim());
        let key = match (section, key) {
            (Some(section), Some(key)) => format!("{section}.{key}"),
            (Some(name), None) | (None, Some(name)) => name.to_owned(),
            (None, None) => "before any section".to_owned(),
        };
        Some(Self {
            number,
            text: line.to_owned(),
            key,
        })
    }

    fn of_section(text: &str, section: &str) -> Option<Self> {
        let (index, line) = text
            .lines()
            .enumerate()
            .find(|(_, line)| section_name(line) == Some(section))?;
        Some(Self {
            number: index + 1,
            text: line.trim().to_owned(),
            key: section.to_owned(),
        })
    }

    fn has_decimal_comma(&self) -> bool {
        let Some((_, value)) = self.text.split_once('=') else {
            return false;
        };
        let value = value.split('#').next().unwrap_or_default().trim();
        value.split_once(',').is_some_and(|(whole, fraction)| {
            let is_digits =
                |part: &str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
            is_digits(whole.trim_start_matches('-')) && is_digits(fraction)
        })
    }
}

/// `a.b` of a line `[a.b]` or `[[a.b]]`.
fn section_name(line: &str) -> Option<&str> {
    let line = line.split('#').next().unwrap_or_default().trim();
    line.strip_prefix('[')?
        .strip_suffix(']')
        .map(|name| name.trim_matches(['[', ']', ' ']))
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "Cannot use {}", self.file)?;
        if let Some(Place { number, text, key }) = &self.place {
            writeln!(f, "  line {number}, {key}:")?;
            writeln!(f, "      {text}")?;
        }
        write!(f, "  {}", self.reason)
    }
}
