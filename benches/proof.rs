//! Benchmarks beside their floors.
fn main() {}
