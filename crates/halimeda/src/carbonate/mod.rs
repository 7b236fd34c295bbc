//! The carbonate system.

pub mod constants;
mod medium;

pub use medium::Medium;
