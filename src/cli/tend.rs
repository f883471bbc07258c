//! `trayside tend`: press again at every save, and show it in a browser.

use std::fmt::Write as _;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, mpsc};

use crate::finding::{Finding, Summary, render};
use crate::host::stop;
use crate::pipeline::Progress;
use crate::tend::{self, Options, Round, Signal, Teller};

use super::arguments::Tend;
use super::progress::Line;
use super::proof::{counted, summary_line};
use super::{Outcome, Stop, kept, open_notebook, terminal};

pub(crate) fn run(arguments: &Tend) -> Result<Outcome, Stop> {
    let disk = open_notebook(arguments.notebook.as_ref())?;
    let (sender, signals) = mpsc::channel();
    let stopped = sender.clone();
    let busy = Arc::new(AtomicBool::new(false));
    let is_busy = Arc::clone(&busy);
    stop::on_stop(move || {
        if is_busy.load(Ordering::Relaxed) {
            terminal::remark("ending as soon as this is pressed; Ctrl-C again ends at once");
        }
        let _ = stopped.send(Signal::Stop);
    })?;
    let options = Options {
        port: arguments.port,
        poll: arguments.poll,
    };
    let mut told = Told {
        line: Line::new(),
        not_kept: None,
        busy,
    };
    tend::run(&disk, options, &sender, &signals, &mut told)?;
    Ok(Outcome::Clean)
}

/// Tells it on the terminal.
struct Told {
    line: Line,
    /// Why recipes of new batches were not kept, as it was told last.
    not_kept: Option<String>,
    /// Whether something is being pressed.
    busy: Arc<AtomicBool>,
}

/// Changed files that are named in one line.
const NAMED: usize = 3;

impl Teller for Told {
    fn begins(&mut self) {
        self.busy.store(true, Ordering::Relaxed);
        self.line = Line::new();
    }

    fn rests(&mut self) {
        self.busy.store(false, Ordering::Relaxed);
    }

    fn progress(&self) -> &dyn Progress {
        &self.line
    }

    fn pressed(&mut self, round: &Round, new: &[Finding]) {
        self.line.done();
        terminal::show(&render::text(new, &round.proof.sources, terminal::text_style()));
        terminal::show(&said(round, new.len(), &mut self.not_kept));
    }

    fn address(&mut self, address: &str) {
        terminal::show(&format!("{address} shows it; Ctrl-C stops\n"));
    }

    fn trouble(&mut self, what: &str) {
        self.line.done();
        terminal::complain(what);
    }
}

/// What changed, what came of it, and what there is to say.
fn said(round: &Round, new: usize, not_kept: &mut Option<String>) -> String {
    let pressing = &round.pressing;
    let mut out = String::new();
    if round.changed.is_empty() {
        for left in &pressing.left_out {
            let _ = writeln!(out, "no card of {}: {}", left.id, left.why);
        }
        for word in &pressing.not_yet {
            let _ = writeln!(out, "not made by this version: {word}");
        }
    } else {
        let names: Vec<_> = round
            .changed
            .iter()
            .take(NAMED)
            .map(|name| render::tame(name))
            .collect();
        let more = round.changed.len() - names.len();
        out.push_str(&names.join(", "));
        if more > 0 {
            let _ = write!(out, " and {more} more");
        }
        out.push_str(": ");
    }
    let replaced = &pressing.replaced;
    out.push_str(&counted(replaced.written.len(), "file written", "files written"));
    if !replaced.removed.is_empty() {
        let _ = write!(out, ", {} removed", replaced.removed.len());
    }
    let summary = round.proof.summary().and(Summary::of(&pressing.findings));
    let _ = write!(out, "; {}", summary_line(summary));
    if !round.changed.is_empty() && new > 0 {
        let _ = write!(out, " ({new} new)");
    }
    out.push('\n');
    out.push_str(&kept::said_again(&pressing.keeping, not_kept));
    for gone in replaced.removed.iter().filter(|path| path.starts_with("cards/")) {
        let _ = writeln!(out, "removed {}", render::tame(gone));
    }
    out
}
