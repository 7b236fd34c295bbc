//! Development tasks.
fn main() {}
