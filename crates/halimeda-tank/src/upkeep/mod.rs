//! What is due and when, from the model and the log, and as a calendar file.
//!
//! A harvest is due when the turf's mean gain per day since the last one is at its
//! best: before, most of the time goes into regrowth, after, the mat shades itself
//! (the marginal value theorem: Charnov 1976, Theor. Popul. Biol. 9, 129-136, doi
//! 10.1016/0040-5809(76)90040-X); and no later than half of the holdfast layer's
//! reserve is spent. Lamps, screen and iron-oxide medium are due by the model's
//! wear and loading, tests and water changes by the rhythm of the log.

mod calendar;
mod due;
mod rhythm;
mod task;
#[cfg(test)]
mod tests;

pub use calendar::{CalendarOptions, calendar};
pub use due::{Calibration, UpkeepOptions, due};
pub(crate) use rhythm::scheduled;
pub use task::{Task, Upkeep};
