//! A plain page of text, at most [`WIDTH`] characters wide.

use crate::estimate::Estimate;

const WIDTH: usize = 80;
const NAME_INDENT: usize = 2;
const NAME_WIDTH: usize = 31;
const TEXT_INDENT: usize = 6;

/// A page that grows downwards.
#[derive(Debug, Default)]
pub(crate) struct Page {
    text: String,
}

impl Page {
    pub(crate) fn title(&mut self, title: &str) {
        self.text.push_str(&format!("{title}\n"));
    }

    pub(crate) fn heading(&mut self, heading: &str) {
        self.text.push_str(&format!("\n{heading}\n\n"));
    }

    /// A named number with its uncertainty, rounded to what the latter allows.
    pub(crate) fn number(&mut self, name: &str, estimate: Estimate, unit: &str) {
        let decimals = decimals(estimate.standard_uncertainty);
        let value = format!("{:.decimals$}", estimate.value);
        let uncertainty = format!("{:.decimals$}", estimate.standard_uncertainty);
        self.line(name, &format!("{value:>8} ± {uncertainty:<6} {unit}"));
    }

    /// A named number that stands without an uncertainty of its own.
    pub(crate) fn plain(&mut self, name: &str, value: &str, unit: &str) {
        self.line(name, &format!("{value:>8}          {unit}"));
    }

    fn line(&mut self, name: &str, rest: &str) {
        let line = format!("{:NAME_INDENT$}{name:<NAME_WIDTH$}{rest}", "");
        self.text.push_str(line.trim_end());
        self.text.push('\n');
    }

    /// What the numbers above mean.
    pub(crate) fn meaning(&mut self, text: &str) {
        self.wrapped(text, TEXT_INDENT, "");
    }

    /// A paragraph of its own.
    pub(crate) fn paragraph(&mut self, text: &str) {
        self.wrapped(text, NAME_INDENT, "");
    }

    /// An item of a list.
    pub(crate) fn item(&mut self, text: &str) {
        self.wrapped(text, NAME_INDENT + 2, "- ");
    }

    pub(crate) fn blank(&mut self) {
        self.text.push('\n');
    }

    pub(crate) fn finish(self) -> String {
        self.text
    }

    /// Words from column `indent` on; `mark` stands before the first. A unit is
    /// not torn from its number.
    fn wrapped(&mut self, text: &str, indent: usize, mark: &str) {
        let mut words: Vec<String> = Vec::new();
        for word in text.split_whitespace() {
            match words.last_mut() {
                Some(last) if last.ends_with(|c: char| c.is_ascii_digit()) => {
                    last.push(' ');
                    last.push_str(word);
                }
                _ => words.push(word.to_owned()),
            }
        }
        let start = indent - mark.chars().count();
        let mut line = format!("{:start$}{mark}", "");
        let mut is_empty = true;
        for word in words {
            if !is_empty && line.chars().count() + 1 + word.chars().count() > WIDTH {
                self.text.push_str(&line);
                self.text.push('\n');
                line = format!("{:indent$}", "");
                is_empty = true;
            }
            if !is_empty {
                line.push(' ');
            }
            line.push_str(&word);
            is_empty = false;
        }
        self.text.push_str(&line);
        self.text.push('\n');
    }
}

/// Decimals that show two digits of an uncertainty.
fn decimals(uncertainty: f64) -> usize {
    if uncertainty <= 0.0 {
        return 3;
    }
    let magnitude = uncertainty.log10().floor();
    // From 0 to 6: no reading here is better known.
    (1.0 - magnitude).clamp(0.0, 6.0) as usize
}
