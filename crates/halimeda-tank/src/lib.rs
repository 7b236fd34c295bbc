//! A reef tank in time: turf on a lit screen, nutrients, the carbonate system
//! and oxygen, with honest books.
//!
//! A [`Tank`] says what stands there, a [`Schedule`] what comes round and what
//! goes wrong, [`Parameters`] what is assumed about its life; [`simulate`] follows
//! the three through time and gives a [`Run`]: samples as instruments would show
//! them, harvests, and a [`Ledger`] of every mole by process.
//!
//! Parameters are uncertain: [`Ranges`] says by how much, [`ensemble()`] follows a tank
//! under many draws of them, and [`plan`] answers a keeper's questions with the
//! ranges that come of it.
//!
//! A [`log`] says what was measured and done: [`log::Log::read`] reads it from the files
//! of keepers and loggers, [`log::rates`] tells what the water gains and loses per day.
//!
#![doc = include_str!("MODEL.md")]
// As in the crate of the chemistry: it does not panic, and it does not talk.
#![cfg_attr(
    not(test),
    warn(
        clippy::unwrap_used,
        clippy::expect_used,
        clippy::panic,
        clippy::indexing_slicing,
        clippy::float_cmp,
        clippy::print_stdout,
        clippy::print_stderr,
    )
)]

mod check;
pub mod description;
pub mod diary;
mod ensemble;
mod error;
pub mod fit;
mod flow;
pub mod forecast;
mod integrator;
mod ledger;
pub mod log;
mod logged;
mod model;
mod outcome;
mod parameters;
pub mod plan;
mod quantiles;
mod ranges;
mod simulate;
mod tank;
#[cfg(test)]
mod testing;
mod timeline;

pub mod units;
pub mod upkeep;
mod variable;
pub mod verdict;
mod work;

pub use ensemble::{Ensemble, EnsembleOptions, FailedMember, ensemble, ensemble_of};
pub use error::{Error, Result};
pub use flow::{Element, Process, Stock};
pub use integrator::Effort;
pub use ledger::{Closure, Ledger};
pub use logged::LoggedTank;
pub use outcome::{Outcome, OutcomeInfo};
pub use parameters::Parameters;
pub use quantiles::Quantiles;
pub use ranges::{ParameterRange, Ranges};
pub use simulate::{
    HarvestRecord, Progress, Run, RunOptions, Sample, simulate, simulate_with_progress,
};
pub use tank::*;
pub use variable::Variable;
pub use work::SharedProgress;
