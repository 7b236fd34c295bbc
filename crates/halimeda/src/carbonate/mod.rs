//! The carbonate system.
