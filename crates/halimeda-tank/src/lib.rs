//! A reef tank in time.

mod flow;
mod integrator;
mod parameters;
mod tank;

pub use flow::{Element, Process, Stock};
pub use parameters::Parameters;
pub use tank::*;
