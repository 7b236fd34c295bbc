//! The shape of a file: where its header is, what separates its cells, its rows.

use csv::{ReaderBuilder, StringRecord};
use jiff::Timestamp;

use super::LogReading;
use super::cell::{Marks, marks_of};
use super::problem::{Finding, LogError, LogProblemKind};
use super::sheet::Sheet;
use crate::description::{TankFile, quoted};

const DELIMITERS: [u8; 3] = [b';', b'\t', b','];

/// Reads a whole text.
pub(super) fn read(
    text: &str,
    file: &TankFile,
    all_probes: bool,
    now: Option<Timestamp>,
) -> Result<LogReading, LogError> {
    let Some(header) = find_header(text) else {
        let found = "an empty file";
        let expected = "expected a header such as `time,nitrate [mg/L NO3]` and rows below it";
        return Err(LogError::new(
            LogProblemKind::Missing,
            1,
            found,
            expected,
            None,
        ));
    };
    let rest = text.get(header.offset..).unwrap_or_default();
    let mut rows = Rows::new(rest, header.line, header.delimiter);
    let mut record = StringRecord::new();
    let first = rows.next(&mut record);
    if !matches!(first, Some(Row { broken: false, .. })) {
        let expected = "expected headings, each on one line, with every quote closed";
        let found = quoted(record.iter().next().unwrap_or_default());
        return Err(LogError::new(
            LogProblemKind::Syntax,
            header.line,
            found,
            expected,
            None,
        ));
    }
    let mut sheet = Sheet::new(file, record.iter(), header.line, (all_probes, now, false))?;
    sheet.marks = marks(rest, header.delimiter, &sheet);
    let note = sheet
        .columns
        .iter()
        .position(|c| matches!(c.holds, super::column::Holds::Note));
    rows.note = note;
    while let Some(row) = rows.next(&mut record) {
        if row.broken {
            let expected = "expected every quote closed on its line; the row was not read";
            let meant = Some("write a quote within quotes twice".to_owned());
            let finding = Finding::new(
                LogProblemKind::Syntax,
                "a quote that is not closed",
                expected,
            );
            sheet.findings.reject(row.line, "", finding.meant(meant));
        } else if !record
            .iter()
            .next()
            .unwrap_or_default()
            .trim_start()
            .starts_with('#')
        {
            sheet.row(row.line, record.iter(), header.delimiter == b',');
        }
    }
    Ok(sheet.finish())
}

struct Header {
    offset: usize,
    line: usize,
    delimiter: u8,
}

/// The first line that is neither blank nor a comment. Before it a spreadsheet may name
/// the delimiter, as `sep=;`.
fn find_header(text: &str) -> Option<Header> {
    let (mut offset, mut named) = (0, None);
    for (line, text) in (1..).zip(text.split_inclusive('\n')) {
        let shown = text.trim();
        match shown.strip_prefix("sep=").map(str::as_bytes) {
            Some([delimiter]) if named.is_none() => named = Some(*delimiter),
            _ if shown.is_empty() || shown.starts_with('#') => {}
            _ => {
                return Some(Header {
                    offset,
                    line,
                    delimiter: named
                        .filter(|d| DELIMITERS.contains(d))
                        .unwrap_or_else(|| delimiter_of(shown)),
                });
            }
        }
        offset += text.len();
    }
    None
}

/// The delimiter that a header has most of, outside of quotes and units.
fn delimiter_of(header: &str) -> u8 {
    let (mut quoted, mut in_unit) = (false, false);
    let mut counts = [0usize; 3];
    for byte in header.bytes() {
        match byte {
            b'"' => quoted = !quoted,
            b'[' => in_unit = true,
            b']' => in_unit = false,
            _ if quoted || in_unit => {}
            _ => {
                for (delimiter, count) in DELIMITERS.iter().zip(&mut counts) {
                    *count += usize::from(*delimiter == byte);
                }
            }
        }
    }
    let most = DELIMITERS
        .iter()
        .zip(counts)
        .max_by_key(|(_, count)| *count);
    most.filter(|(_, count)| *count > 0)
        .map_or(b',', |(delimiter, _)| *delimiter)
}

/// The decimal marks that cells of numbers show beyond doubt. Where the comma separates
/// cells and nothing is quoted there can be no decimal comma.
fn marks(text: &str, delimiter: u8, sheet: &Sheet<'_>) -> Marks {
    let mut seen = Marks::default();
    let comma_possible = match delimiter {
        b',' => text.contains('"'),
        _ => text.contains(','),
    };
    if !comma_possible {
        seen.point = true;
        return seen;
    }
    let numeric: Vec<bool> = sheet.columns.iter().map(|c| c.holds.is_numeric()).collect();
    let mut rows = Rows::new(text, 1, delimiter);
    let mut record = StringRecord::new();
    // The header has numbers of its own.
    rows.next(&mut record);
    while rows.next(&mut record).is_some() {
        for (cell, _) in record.iter().zip(&numeric).filter(|(_, numeric)| **numeric) {
            marks_of(cell, &mut seen);
        }
        if seen.point && seen.comma {
            break;
        }
    }
    seen
}

struct Row {
    line: usize,
    /// A quote that is not closed where it should be.
    broken: bool,
}

/// Records of a text with the line each begins on. A quote that was never closed would
/// swallow all that follows it up to the next: such a row is given as broken, and
/// reading goes on with the line after it.
struct Rows<'t> {
    text: &'t str,
    delimiter: u8,
    reader: csv::Reader<&'t [u8]>,
    /// Where the reader's text begins in all of it.
    base: usize,
    /// The next line to be read, and where it begins.
    line: usize,
    at: usize,
    /// The column whose cells may run over lines.
    note: Option<usize>,
}

impl<'t> Rows<'t> {
    fn new(text: &'t str, line: usize, delimiter: u8) -> Self {
        Self {
            text,
            delimiter,
            reader: reader(text, delimiter),
            base: 0,
            line,
            at: 0,
            note: None,
        }
    }

    fn next(&mut self, record: &mut StringRecord) -> Option<Row> {
        self.skip_blank_and_comments();
        let (line, start) = (self.line, self.at);
        // The text is UTF-8 and its rows may differ in length: nothing is left to fail.
        if !self.reader.read_record(record).unwrap_or(false) {
            return None;
        }
        let read = usize::try_from(self.reader.position().byte()).unwrap_or(usize::MAX);
        let mut end = self.base.saturating_add(read);
        // Of the two signs that end a line the second is read with the next row.
        let after = self.text.as_bytes().get(end.saturating_sub(1)..);
        if let Some([b'\r', b'\n', ..]) = after {
            end += 1;
        }
        let written = self.text.get(start..end).unwrap_or_default();
        let first_line = written.find('\n').map_or(written.len(), |at| at + 1);
        if written.len() == first_line && is_closed(written, self.delimiter) {
            self.at = end;
            self.line += usize::from(written.ends_with('\n'));
            return Some(Row {
                line,
                broken: false,
            });
        }
        let allowed =
            |(index, cell): (usize, &str)| !cell.contains('\n') || Some(index) == self.note;
        if is_closed(written, self.delimiter) && record.iter().enumerate().all(allowed) {
            self.at = end;
            self.line += written.matches('\n').count();
            return Some(Row {
                line,
                broken: false,
            });
        }
        self.at = start + first_line;
        self.line += 1;
        self.base = self.at;
        self.reader = reader(self.text.get(self.at..).unwrap_or_default(), self.delimiter);
        Some(Row { line, broken: true })
    }

    fn skip_blank_and_comments(&mut self) {
        while let Some(rest) = self.text.get(self.at..).filter(|rest| !rest.is_empty()) {
            let is_skipped = matches!(rest.as_bytes(), [b'\n' | b'#', ..] | [b'\r', b'\n', ..]);
            if !is_skipped {
                return;
            }
            let length = rest.find('\n').map_or(rest.len(), |at| at + 1);
            self.at += length;
            self.line += 1;
        }
    }
}

fn reader(text: &str, delimiter: u8) -> csv::Reader<&[u8]> {
    ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .comment(Some(b'#'))
        .delimiter(delimiter)
        .from_reader(text.as_bytes())
}

/// Whether the quoted cells of a row all end. A quote within a cell that does not begin
/// with one is a character like any other.
fn is_closed(row: &str, delimiter: u8) -> bool {
    if !row.contains('"') {
        return true;
    }
    let (mut in_quotes, mut at_start) = (false, true);
    for byte in row.bytes() {
        match byte {
            b'"' if in_quotes || at_start => (in_quotes, at_start) = (!in_quotes, true),
            _ if in_quotes => {}
            byte => at_start = byte == delimiter || byte == b'\n',
        }
    }
    !in_quotes
}
