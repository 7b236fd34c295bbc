//! A reef tank in time.

mod flow;
mod integrator;
