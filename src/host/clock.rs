//! The machine's clock.

#![expect(
    clippy::disallowed_methods,
    reason = "this file is the door that the lint points everyone else to"
)]

use std::time::{Duration, Instant};

/// Counts from when it was started; for progress on a terminal, never for a notebook's times.
#[derive(Debug, Clone, Copy)]
pub struct Stopwatch(Instant);

impl Stopwatch {
    /// Starts one.
    pub fn start() -> Self {
        Self(Instant::now())
    }

    /// How long ago it was started.
    pub fn elapsed(self) -> Duration {
        self.0.elapsed()
    }
}
