//! From what was gathered row by row to a log in order of time.

use super::column::{Column, Holds};
use super::problem::{Finding, LogProblem, LogProblemKind};
use super::sheet::Sheet;
use super::{Log, LogReading, ProbeSeries, Reading};

impl Sheet<'_> {
    /// The log, in order of time.
    pub(super) fn finish(mut self) -> LogReading {
        self.report_unread();
        self.readings
            .sort_by(|(a, ..), (b, ..)| a.day.total_cmp(&b.day).then(a.measured.cmp(&b.measured)));
        self.entries
            .sort_by(|(a, ..), (b, ..)| a.day.total_cmp(&b.day));
        let readings = self.without_repeated();
        self.note_repeated_entries();
        for (place, series) in self.probes.iter_mut().enumerate() {
            let repeated = sort_series(series);
            if repeated > 0 {
                let is_its = |c: &&Column| matches!(c.holds, Holds::Probe(_, p) if p == place);
                let heading = self.columns.iter().find(is_its).map_or("", |c| &c.heading);
                let found = format!("{repeated} records of the same time a second time");
                let finding = Finding::new(LogProblemKind::Duplicate, found, "kept once");
                self.findings.note(self.header_line, heading, finding);
            }
        }
        let mut rejected = self.findings.rejected;
        let mut notes = self.findings.notes;
        for found in [&mut rejected, &mut notes] {
            found.sort_by_key(|problem: &LogProblem| problem.line);
        }
        LogReading {
            log: Log {
                readings,
                probes: self
                    .probes
                    .into_iter()
                    .filter(|s| !s.days.is_empty())
                    .collect(),
                entries: self.entries.into_iter().map(|(entry, ..)| entry).collect(),
            },
            rejected,
            notes,
        }
    }

    fn report_unread(&mut self) {
        for (column, count) in self.columns.iter_mut().zip(&self.unread) {
            let Holds::Unread(finding) = &mut column.holds else {
                continue;
            };
            let is_blank = column.heading.is_empty() && *count == 0;
            if let Some(finding) = finding.take().filter(|_| !is_blank) {
                let expected = format!(
                    "{}; {count} cells of the column were not read",
                    finding.expected
                );
                self.findings.reject(
                    self.header_line,
                    &column.heading,
                    Finding {
                        expected,
                        ..finding
                    },
                );
                if let Some(last) = self.findings.rejected.last_mut() {
                    last.rows = *count;
                }
            }
        }
    }

    fn without_repeated(&mut self) -> Vec<Reading> {
        let mut kept: Vec<Reading> = Vec::with_capacity(self.readings.len());
        for (reading, line, index) in core::mem::take(&mut self.readings) {
            let same_time = kept.iter().rev().take_while(|k| {
                k.day.total_cmp(&reading.day).is_eq() && k.measured == reading.measured
            });
            let (mut others, mut identical) = (false, false);
            for other in same_time {
                others = true;
                identical |= *other == reading;
            }
            let (found, done) = match (others, identical) {
                (_, true) => (
                    "the same result of the same time a second time",
                    "kept once",
                ),
                (true, _) => ("another result of the same time", "both kept"),
                _ => ("", ""),
            };
            if others {
                let heading = self.heading(index);
                self.findings.note(
                    line,
                    &heading,
                    Finding::new(LogProblemKind::Duplicate, found, done),
                );
            }
            if !identical {
                kept.push(reading);
            }
        }
        kept
    }

    fn note_repeated_entries(&mut self) {
        let repeated: Vec<(usize, usize)> = self
            .entries
            .windows(2)
            .filter_map(|pair| match pair {
                [(a, ..), (b, line, index)] if a == b => Some((*line, *index)),
                _ => None,
            })
            .collect();
        for (line, index) in repeated {
            let heading = self.heading(index);
            let finding = Finding::new(
                LogProblemKind::Duplicate,
                "the same of the same time a second time",
                "both kept",
            );
            self.findings.note(line, &heading, finding);
        }
    }
}

/// Puts a series in the order of time and takes once what stands there twice; how
/// often it did.
fn sort_series(series: &mut ProbeSeries) -> usize {
    if series.days.is_sorted() {
        return 0;
    }
    let mut points: Vec<(f64, f64)> = series
        .days
        .iter()
        .copied()
        .zip(series.values.iter().copied())
        .collect();
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    let before = points.len();
    points.dedup();
    let repeated = before - points.len();
    (series.days, series.values) = points.into_iter().unzip();
    repeated
}
