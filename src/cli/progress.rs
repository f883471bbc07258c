//! Progress of work that takes more than a second: one line on the terminal that is wiped away again.

use std::sync::Mutex;
use std::time::Duration;

use crate::host::Stopwatch;
use crate::pipeline::Progress;

use super::terminal;

/// Tells a person how far the work is, once it has taken a second.
pub(crate) struct Line {
    since: Stopwatch,
    shown: Mutex<bool>,
}

impl Line {
    pub(crate) fn new() -> Self {
        Self {
            since: Stopwatch::start(),
            shown: Mutex::new(false),
        }
    }

    /// Wipes the line away.
    pub(crate) fn done(&self) {
        if let Ok(mut shown) = self.shown.lock()
            && std::mem::take(&mut *shown)
        {
            terminal::overwrite("");
        }
    }
}

impl Progress for Line {
    fn phase(&self, name: &'static str, things: usize) {
        if !terminal::is_watched() || self.since.elapsed() < Duration::from_secs(1) {
            return;
        }
        if let Ok(mut shown) = self.shown.lock() {
            *shown = true;
            terminal::overwrite(&format!("{name} ({things}) ..."));
        }
    }
}
