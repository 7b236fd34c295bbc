//! Shared parts of the test suites.

mod comparison;
pub mod states;
pub mod tolerance;

pub use comparison::Comparison;

/// Compiles and runs the examples of the README.
#[cfg(doctest)]
#[doc = include_str!("../../README.md")]
struct Readme;
