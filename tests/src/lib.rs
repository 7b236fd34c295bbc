//! Shared parts of the test suites.

mod comparison;
pub mod states;
#[cfg(feature = "std")]
pub mod tanks;
pub mod tolerance;

pub use comparison::Comparison;

/// Compiles and runs the examples of the README; one needs a tank.
#[cfg(feature = "std")]
#[cfg(doctest)]
#[doc = include_str!("../../README.md")]
struct Readme;
