//! What the programs for a terminal have in common: a page of wrapped lines, and how
//! far they are.

use std::fmt::Write as _;
use std::io::{IsTerminal as _, Write as _};

const WIDTH: usize = 78;

/// Lines of the page, wrapped.
#[derive(Default)]
pub(crate) struct Page(pub(crate) String);

impl Page {
    pub(crate) fn heading(&mut self, text: &str) {
        let _ = writeln!(self.0, "\n{text}\n");
    }

    pub(crate) fn item(&mut self, text: &str) {
        self.indented(text, "  - ", "    ");
    }

    pub(crate) fn indented(&mut self, text: &str, first: &str, rest: &str) {
        let options = textwrap::Options::new(WIDTH)
            .initial_indent(first)
            .subsequent_indent(rest)
            .word_separator(textwrap::WordSeparator::AsciiSpace)
            .word_splitter(textwrap::WordSplitter::NoHyphenation)
            .break_words(false);
        let _ = writeln!(self.0, "{}", textwrap::fill(text, options));
    }
}

/// Shows a share of the work and what is at work, where somebody is looking.
pub(crate) fn show_progress(share: f64, words: &str) {
    let mut terminal = std::io::stderr();
    if terminal.is_terminal() {
        let _ = write!(terminal, "\r{:3.0} %  {words:<40}", 100.0 * share);
        let _ = terminal.flush();
    }
}

pub(crate) fn clear_progress() {
    let mut terminal = std::io::stderr();
    if terminal.is_terminal() {
        let _ = write!(terminal, "\r{:50}\r", "");
    }
}
