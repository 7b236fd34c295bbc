//! A reef tank in time: turf on a lit screen, nutrients, the carbonate system
//! and oxygen, with honest books.
//!
//! A [`Tank`] says what stands there, a [`Schedule`] what comes round and what
//! goes wrong, [`Parameters`] what is assumed about its life; [`simulate`] follows
//! the three through time and gives a [`Run`]: samples as instruments would show
//! them, harvests, and a [`Ledger`] of every mole by process.
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
mod error;
mod flow;
mod integrator;
mod ledger;
mod model;
mod parameters;
mod simulate;
mod tank;
#[cfg(test)]
mod testing;
mod timeline;

pub use error::{Error, Result};
pub use flow::{Element, Process, Stock};
pub use integrator::Effort;
pub use ledger::{Closure, Ledger};
pub use parameters::Parameters;
pub use simulate::{
    HarvestRecord, Progress, Run, RunOptions, Sample, simulate, simulate_with_progress,
};
pub use tank::*;
