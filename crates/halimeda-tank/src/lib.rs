//! A reef tank in time.

mod integrator;
