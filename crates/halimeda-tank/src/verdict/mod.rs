//! Is it working?
