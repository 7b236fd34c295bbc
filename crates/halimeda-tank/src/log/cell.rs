//! What is written in a cell: numbers, ranges, "less than".

use super::problem::{Finding, LogProblemKind};
use crate::description::{quoted, short};

/// Decimal marks that a file shows beyond doubt.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Marks {
    pub(super) point: bool,
    pub(super) comma: bool,
}

/// A number as written: its value and the step of its last digit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Number {
    pub(super) value: f64,
    pub(super) step: f64,
}

/// Why a text is no number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum NumberError {
    NotANumber,
    NonFinite,
    /// Three digits after the only mark, and nothing in the file says what it is.
    Ambiguous,
    /// Marks that group digits.
    Grouped,
}

/// What a test's cell says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Shown {
    /// A number, with the half-width of its error if that stands beside it.
    Value(Number, Option<f64>),
    Below(f64),
    Above(f64),
    Between(f64, f64),
}

/// A test's cell: what it says and the standard uncertainty, if that stands beside it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Cell {
    pub(super) shown: Shown,
    pub(super) standard_uncertainty: Option<f64>,
}

/// The number at the beginning of a text, and the rest.
pub(super) fn leading_number(text: &str, marks: Marks) -> Result<(Number, &str), NumberError> {
    let text = text.trim_start();
    let (sign, unsigned) = match text.strip_prefix(['-', '−']) {
        Some(rest) => (-1.0, rest),
        None => (1.0, text.strip_prefix('+').unwrap_or(text)),
    };
    let start: String = unsigned.chars().take(3).collect::<String>().to_lowercase();
    if matches!(start.as_str(), "nan" | "inf" | "∞") {
        return Err(NumberError::NonFinite);
    }
    let digits = |text: &str| text.bytes().take_while(u8::is_ascii_digit).count();
    let (whole, rest) = unsigned.split_at(digits(unsigned));
    let (mark, after, rest) = match rest.as_bytes() {
        [mark @ (b'.' | b','), b'0'..=b'9', ..] => {
            let after = rest.get(1..).unwrap_or_default();
            let (after, rest) = after.split_at(digits(after));
            (Some(*mark), after, rest)
        }
        _ => (None, "", rest),
    };
    if whole.is_empty() && after.is_empty() {
        return Err(NumberError::NotANumber);
    }
    if let [b'.' | b',' | b'\'' | b'_', b'0'..=b'9', ..] = rest.as_bytes() {
        return Err(NumberError::Grouped);
    }
    let mut grouping = rest.chars();
    if let (Some(' ' | '\u{a0}' | '\u{202f}' | '’'), Some('0'..='9')) =
        (grouping.next(), grouping.next())
    {
        return Err(NumberError::Grouped);
    }
    if let Some(mark) = mark {
        let other = match mark {
            b',' => marks.point || !marks.comma,
            _ => marks.comma,
        };
        if other && !is_beyond_doubt(whole, after) {
            return Err(NumberError::Ambiguous);
        }
    }
    let (exponent, rest) = exponent(rest);
    let written = format!(
        "{}.{}e{exponent}",
        if whole.is_empty() { "0" } else { whole },
        if after.is_empty() { "0" } else { after }
    );
    let magnitude: f64 = written.parse().map_err(|_| NumberError::NotANumber)?;
    if !magnitude.is_finite() {
        return Err(NumberError::NonFinite);
    }
    let places = i32::try_from(after.len()).unwrap_or(i32::MAX);
    let step = 10f64.powi(exponent.saturating_sub(places));
    let number = Number {
        value: sign * magnitude,
        step: if step.is_finite() { step } else { f64::MAX },
    };
    Ok((number, rest.trim_start()))
}

/// Whether a mark can only be a decimal one: digits are grouped by threes, after one to
/// three that do not begin with a zero.
fn is_beyond_doubt(whole: &str, after: &str) -> bool {
    after.len() != 3 || whole.is_empty() || whole.starts_with('0') || whole.len() > 3
}

fn exponent(text: &str) -> (i32, &str) {
    let Some(rest) = text.strip_prefix(['e', 'E']) else {
        return (0, text);
    };
    let signed = usize::from(rest.starts_with(['+', '-']));
    let digits = rest
        .bytes()
        .skip(signed)
        .take_while(u8::is_ascii_digit)
        .count();
    match rest.split_at_checked(signed + digits) {
        Some((exponent, rest)) if digits > 0 => {
            (exponent.parse().unwrap_or(i32::from(i16::MAX)), rest)
        }
        _ => (0, text),
    }
}

/// A number without anything after it.
pub(super) fn plain_number(text: &str) -> Result<f64, NumberError> {
    match leading_number(text, Marks::default())? {
        (number, "") => Ok(number.value),
        _ => Err(NumberError::NotANumber),
    }
}

/// Which decimal marks a cell shows beyond doubt.
pub(super) fn marks_of(text: &str, seen: &mut Marks) {
    for number in text.split(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ','))) {
        let mut parts = number.split(['.', ',']);
        if let (Some(whole), Some(after), None) = (parts.next(), parts.next(), parts.next()) {
            if !after.is_empty() && is_beyond_doubt(whole, after) {
                match number.contains(',') {
                    true => seen.comma = true,
                    false => seen.point = true,
                }
            }
        }
    }
}

/// Reads a test's cell; `is_unit` tells whether a text is the unit of the heading.
pub(super) fn read(
    text: &str,
    marks: Marks,
    is_unit: impl Fn(&str) -> bool,
) -> Result<Cell, Finding> {
    let fail = |error| refuse(text, error);
    let number = |text| leading_number(text, marks).map_err(fail);
    let trimmed = text.trim();
    let (shown, rest) = if let Some(rest) = trimmed.strip_prefix(['<', '≤']) {
        let (limit, rest) = number(rest.strip_prefix('=').unwrap_or(rest))?;
        (Shown::Below(limit.value), rest)
    } else if let Some(rest) = trimmed.strip_prefix(['>', '≥']) {
        let (limit, rest) = number(rest.strip_prefix('=').unwrap_or(rest))?;
        (Shown::Above(limit.value), rest)
    } else {
        let (first, rest) = number(trimmed)?;
        let dashes = ["-", "–", "—", "..", "…", "to "];
        if let Some(rest) = dashes.iter().find_map(|dash| rest.strip_prefix(dash)) {
            let (second, rest) = number(rest)?;
            if second.value < first.value {
                let expected = "expected a range from its lower end to its upper";
                let meant = format!("did you mean `{}-{}`?", second.value, first.value);
                let kind = LogProblemKind::Contradictory;
                return Err(Finding::new(kind, quoted(text), expected).meant(Some(meant)));
            }
            (Shown::Between(first.value, second.value), rest)
        } else if let Some(rest) = rest.strip_prefix('±').or_else(|| rest.strip_prefix("+/-")) {
            let (half, rest) = number(rest)?;
            (Shown::Value(first, Some(half.value)), rest)
        } else {
            (Shown::Value(first, None), rest)
        }
    };
    let (standard_uncertainty, rest) = match rest.strip_prefix("u ") {
        Some(rest) => {
            let (u, rest) = number(rest)?;
            (Some(u.value), rest)
        }
        None => (None, rest),
    };
    if !rest.is_empty() && !is_unit(rest) {
        return Err(refuse(text, NumberError::NotANumber));
    }
    Ok(Cell {
        shown,
        standard_uncertainty,
    })
}

/// Reads a cell that holds one number and nothing else.
pub(super) fn read_number(
    text: &str,
    marks: Marks,
    is_unit: impl Fn(&str) -> bool,
) -> Result<f64, Finding> {
    match leading_number(text, marks).map_err(|error| refuse(text, error))? {
        (number, rest) if rest.is_empty() || is_unit(rest) => Ok(number.value),
        _ => Err(refuse(text, NumberError::NotANumber)),
    }
}

fn refuse(text: &str, error: NumberError) -> Finding {
    match error {
        NumberError::NotANumber => {
            let expected = "expected a number in the unit of the heading, as in `5`, `<0.02`, `>50`, `2-5` or `5 ± 1`";
            let number = text.trim().trim_start_matches(['~', '≈']).trim();
            let meant = number
                .parse::<f64>()
                .is_ok()
                .then(|| format!("write `{number} ± 1` with what it may be off by"));
            Finding::new(LogProblemKind::Unreadable, quoted(text), expected).meant(meant)
        }
        NumberError::NonFinite => {
            let expected = "expected a finite number, or a blank cell where nothing was measured";
            Finding::new(LogProblemKind::NonFinite, quoted(text), expected)
        }
        NumberError::Ambiguous => {
            let expected = "expected a number with one meaning: three digits after its only mark may be thousands or a fraction, and the rest of the file does not tell which";
            let digits: String = text.chars().filter(char::is_ascii_digit).collect();
            let thousands = digits.parse::<f64>().map_or(digits.clone(), short);
            let fraction = text.trim().replace(',', ".");
            let meant = format!("write `{thousands}` or `{fraction}0`");
            Finding::new(LogProblemKind::Ambiguous, quoted(text), expected).meant(Some(meant))
        }
        NumberError::Grouped => {
            let expected = "expected digits with one decimal mark and no other sign among them";
            let last = text.rfind(['.', ',']);
            let meant: String = text
                .char_indices()
                .filter(|(at, c)| c.is_ascii_digit() || Some(*at) == last)
                .map(|(_, c)| if c == ',' { '.' } else { c })
                .collect();
            let groups = text.matches(['.', ',']).count();
            let meant = (groups == 2 && text.contains('.') && text.contains(','))
                .then(|| format!("did you mean `{meant}`?"));
            Finding::new(LogProblemKind::Unreadable, quoted(text), expected).meant(meant)
        }
    }
}
