#![doc = include_str!("LOG.md")]

mod cell;
mod clock;
mod column;
mod columns;
mod course;
mod decode;
mod entry;
mod event;
mod finish;
mod header;
mod interval;
pub mod invented;
mod join;
mod kit;
mod names;
mod problem;
pub mod rates;
mod reading;
mod result;
mod scale;
mod sheet;
mod table;
mod write;

pub use columns::{Cells, Times};
pub use course::logged_setup;
pub use entry::{Entry, HarvestWeight, Record};
pub use interval::Interval;
pub use problem::{LogError, LogProblem, LogProblemKind};
pub use reading::{Measured, ProbeSeries, Reading};

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use crate::description::TankFile;

/// What a keeper wrote down and what probes recorded, in order of time.
///
/// Times are days since the start of the tank's description, by the clock on the
/// wall as everything else of the schedule: lamps and feedings follow that clock
/// through summer time too.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Log {
    /// Results of tests.
    pub readings: Vec<Reading>,
    /// Records of probes.
    pub probes: Vec<ProbeSeries>,
    /// What was done and what happened.
    pub entries: Vec<Entry>,
}

/// A log as it could be read, and all that could not.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LogReading {
    /// What was read.
    pub log: Log,
    /// Every row, cell or column that was not read, in the order of the file.
    pub rejected: Vec<LogProblem>,
    /// What was read and is worth a look: assumptions, doubtful times, repeats.
    pub notes: Vec<LogProblem>,
}

impl Log {
    /// Reads a log of [this format](self) beside the description of its tank.
    ///
    /// ```
    /// use halimeda_tank::description::TankFile;
    /// use halimeda_tank::log::Log;
    /// let tank = TankFile::from_toml(include_str!("../../examples/invented_reef.toml"))?;
    /// let reading = Log::read(
    ///     "time,nitrate [mg/L NO3],note\n\
    ///      2026-02-01 18:30,5,after feeding\n\
    ///      2026-02-04 18:30,many,\n",
    ///     &tank,
    /// )?;
    /// assert_eq!(reading.log.readings.len(), 1);
    /// assert_eq!(reading.rejected[0].line(), 3);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// The file as a whole cannot be read: it is no text, has no header, no column of
    /// times, or dates that the description has no start for. All else is reported
    /// beside what was read.
    pub fn read(file: impl AsRef<[u8]>, tank: &TankFile) -> Result<LogReading, LogError> {
        LogReader::new(tank).read(file)
    }

    /// Reads a file of probe records: as [`read`](Self::read), but every measured
    /// column is a probe's, whether its heading says so or not.
    ///
    /// # Errors
    /// As [`read`](Self::read).
    pub fn read_probes(file: impl AsRef<[u8]>, tank: &TankFile) -> Result<LogReading, LogError> {
        LogReader::new(tank).all_probes().read(file)
    }
}

/// How a log is read.
#[derive(Debug, Clone)]
pub struct LogReader<'t> {
    tank: &'t TankFile,
    all_probes: bool,
    now: Option<Timestamp>,
}

impl<'t> LogReader<'t> {
    /// Beside the description of its tank; what is later than the system's clock is
    /// noted.
    #[must_use]
    pub fn new(tank: &'t TankFile) -> Self {
        Self {
            tank,
            all_probes: false,
            now: Some(Timestamp::now()),
        }
    }

    /// Every measured column is a probe's.
    #[must_use]
    pub const fn all_probes(mut self) -> Self {
        self.all_probes = true;
        self
    }

    /// Notes what is later than this moment in place of the system's clock; `None`
    /// notes nothing. Needs the zone of the tank.
    #[must_use]
    pub const fn now(mut self, now: Option<Timestamp>) -> Self {
        self.now = now;
        self
    }

    /// Reads a file.
    ///
    /// # Errors
    /// As [`Log::read`].
    pub fn read(&self, file: impl AsRef<[u8]>) -> Result<LogReading, LogError> {
        let text = decode::decode(file.as_ref())?;
        table::read(&text, self.tank, self.all_probes, self.now)
    }

    /// Reads columns that a program holds, by the same headings. Lines of problems are
    /// rows, from 1. See [`Times`] and [`Cells`].
    ///
    /// # Errors
    /// A column that is not as long as the times, or dates that the description has no
    /// start or no zone for.
    pub fn read_columns(
        &self,
        times: Times<'_>,
        columns: &[(&str, Cells<'_>)],
    ) -> Result<LogReading, LogError> {
        columns::read(self.tank, (self.all_probes, self.now), times, columns)
    }
}
