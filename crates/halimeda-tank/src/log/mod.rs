//! The keeper's log: what was measured, harvested, fed, changed and dosed.

mod entry;
mod interval;
mod reading;

pub use entry::{Entry, HarvestWeight, Record};
pub use interval::Interval;
pub use reading::{Measured, ProbeSeries, Reading};

use serde::{Deserialize, Serialize};

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
