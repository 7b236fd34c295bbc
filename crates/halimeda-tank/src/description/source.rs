use std::collections::HashMap;
use std::ops::Range;

use super::problem::{DescriptionError, Problem, ProblemKind};

/// The text of a description, and where its lines begin.
pub(super) struct Source<'s> {
    text: &'s str,
    line_starts: Vec<usize>,
    /// Empty until it is asked for: only broken syntax needs it.
    outline: Vec<OutlineLine<'s>>,
}

/// What a line sets, as far as it can be told without parsing it.
struct OutlineLine<'s> {
    table: &'s str,
    key: &'s str,
    /// An earlier line that sets the same.
    first: Option<usize>,
}

/// Longest excerpt of a line that a problem carries, in characters.
const EXCERPT_CHARS: usize = 120;

impl<'s> Source<'s> {
    /// From the bytes of a file.
    ///
    /// A byte order mark is no part of the text, so that columns count what is seen.
    pub(super) fn new(bytes: &'s [u8]) -> Result<Self, DescriptionError> {
        match core::str::from_utf8(bytes) {
            Ok(text) => Ok(Self::of(text.strip_prefix('\u{feff}').unwrap_or(text))),
            Err(error) => Err(not_utf8(bytes, error.valid_up_to())),
        }
    }

    fn of(text: &'s str) -> Self {
        let after_breaks = text.match_indices('\n').map(|(i, _)| i + 1);
        Self {
            text,
            line_starts: core::iter::once(0).chain(after_breaks).collect(),
            outline: Vec::new(),
        }
    }

    pub(super) const fn text(&self) -> &'s str {
        self.text
    }

    pub(super) fn slice(&self, span: Range<usize>) -> &'s str {
        self.text.get(span).unwrap_or_default()
    }

    /// Line and column, from 1, the column in characters.
    pub(super) fn position(&self, offset: usize) -> (usize, usize) {
        let line = self.line_starts.partition_point(|&start| start <= offset);
        let start = self.line_start(line);
        let before = self.text.get(start..offset).unwrap_or_default();
        (line, before.chars().count() + 1)
    }

    /// A line by its number as a message may show it: no longer than an excerpt,
    /// and nothing in it that a terminal would act on.
    pub(super) fn excerpt(&self, line: usize) -> String {
        let shown = |c: char| if c.is_control() { ' ' } else { c };
        self.line(line)
            .chars()
            .take(EXCERPT_CHARS)
            .map(shown)
            .collect()
    }

    fn line(&self, line: usize) -> &'s str {
        let rest = self.text.get(self.line_start(line)..).unwrap_or_default();
        rest.lines().next().unwrap_or_default()
    }

    /// With the outline by which broken lines are named.
    pub(super) fn outlined(mut self) -> Self {
        self.outline = outline(self.text);
        self
    }

    /// Path of the key that a line of broken syntax sets: what a reader sees there,
    /// for the parser has none.
    pub(super) fn key_path_at(&self, offset: usize) -> String {
        match self.outline_at(offset) {
            Some(OutlineLine { table: "", key, .. }) => (*key).to_owned(),
            Some(OutlineLine { table, key: "", .. }) => (*table).to_owned(),
            Some(OutlineLine { table, key, .. }) => format!("{table}.{key}"),
            None => String::new(),
        }
    }

    /// The line above that sets the same key of the same table, or begins the same
    /// table, as a line does.
    pub(super) fn first_line_of(&self, offset: usize) -> Option<usize> {
        self.outline_at(offset)?.first
    }

    fn outline_at(&self, offset: usize) -> Option<&OutlineLine<'s>> {
        let (line, _) = self.position(offset);
        self.outline.get(line - 1)
    }

    /// The value that a line sets, without a comment.
    pub(super) fn value_at(&self, offset: usize) -> &'s str {
        let (line, _) = self.position(offset);
        let value = self
            .line(line)
            .split_once('=')
            .map_or("", |(_, value)| value);
        value.split('#').next().unwrap_or_default().trim()
    }

    fn line_start(&self, line: usize) -> usize {
        let index = line.saturating_sub(1);
        self.line_starts.get(index).copied().unwrap_or_default()
    }
}

fn outline(text: &str) -> Vec<OutlineLine<'_>> {
    let mut lines = Vec::new();
    let (mut header, mut table) = (0, "");
    let mut seen = HashMap::new();
    for (line, text) in (1..).zip(text.split('\n').map(str::trim)) {
        let is_header = text.starts_with('[');
        let key = match text.split_once('=') {
            Some((key, _)) if !is_header => key.trim(),
            _ => "",
        };
        if is_header {
            (header, table) = (line, table_name(text));
        }
        // The same key under another header is another one, as of two feedings; the
        // same header is the same table.
        let place = if is_header { (0, table) } else { (header, key) };
        let first = match is_header || !key.is_empty() {
            true => Some(*seen.entry(place).or_insert(line)).filter(|&first| first < line),
            false => None,
        };
        lines.push(OutlineLine { table, key, first });
    }
    lines
}

fn table_name(header: &str) -> &str {
    let name = header.trim_start_matches('[');
    name.split([']', '#', '='])
        .next()
        .unwrap_or_default()
        .trim()
}

fn not_utf8(bytes: &[u8], valid_up_to: usize) -> DescriptionError {
    let valid = bytes.get(..valid_up_to).unwrap_or_default();
    let source = Source::of(core::str::from_utf8(valid).unwrap_or_default()).outlined();
    let (line, column) = source.position(valid_up_to);
    let found = match bytes {
        [0xff, 0xfe, ..] | [0xfe, 0xff, ..] => "text in UTF-16".to_owned(),
        _ => {
            let byte = bytes.get(valid_up_to).copied().unwrap_or_default();
            format!("the byte 0x{byte:02X}")
        }
    };
    DescriptionError::new(vec![Problem {
        kind: ProblemKind::NotUtf8,
        line,
        column,
        key: source.key_path_at(valid_up_to),
        found,
        expected: "text in UTF-8".to_owned(),
        suggestion: Some("save the file again with the encoding UTF-8".to_owned()),
        excerpt: source.excerpt(line),
    }])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn positions_count_characters_and_lines() {
        let source = Source::new("\u{feff}a = 1\r\nµb = 2\n\nc".as_bytes()).unwrap();
        let at = |what| source.position(source.text().find(what).unwrap());
        assert_eq!(at("a"), (1, 1));
        assert_eq!(at("b"), (2, 2));
        assert_eq!(at("c"), (4, 1));
        assert_eq!(source.position(source.text().len()), (4, 2));
        assert_eq!(source.line(1), "a = 1");
        assert_eq!(source.excerpt(2), "µb = 2");
        assert_eq!(Source::of("\u{1b}[2J\tx").excerpt(1), " [2J x");
    }

    #[test]
    fn a_broken_line_still_has_its_key() {
        let text = "x = \n[water] # here\nph = 8\n[[feeding]]\n mass 3 g\n[scr";
        let source = Source::new(text.as_bytes()).unwrap().outlined();
        let key = |what| source.key_path_at(text.find(what).unwrap());
        assert_eq!(key("x"), "x");
        assert_eq!(key("8"), "water.ph");
        assert_eq!(key("3 g"), "feeding");
        assert_eq!(key("scr"), "scr");
    }

    #[test]
    fn other_encodings_are_named() {
        for (bytes, found, line) in [
            (&b"\xff\xfea\0"[..], "UTF-16", 1),
            (&b"[tank]\nname = \"K\xe4lte\""[..], "0xE4", 2),
        ] {
            let error = Source::new(bytes).err().unwrap();
            let problem = &error.problems()[0];
            assert_eq!(problem.kind, ProblemKind::NotUtf8);
            assert_eq!(problem.line, line);
            assert!(problem.found.contains(found), "{}", problem.found);
        }
    }
}
