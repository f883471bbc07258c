//! Round and round until it is stopped.

use std::collections::BTreeSet;
use std::io;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender};
use std::time::Duration;

use super::preview::Preview;
use super::session::{Named, Round, Session};
use super::shown::Shown;
use crate::finding::{Finding, Slug};
use crate::host::serve::Listener;
use crate::host::watch::{self, Watch};
use crate::host::{Disk, HostError};
use crate::pipeline::{File, Progress, Proof};

/// The port that is tried first.
const PORT: u16 = 7240;

/// How often we look where the system gives no word of changes, or something is owed.
const BY_THE_CLOCK: Duration = Duration::from_secs(1);

/// How often we see whether the folder is there at all: not every system tells when it goes.
const STILL_THERE: Duration = Duration::from_secs(2);

/// How a notebook is tended.
#[derive(Debug, Clone, Copy, Default)]
pub struct Options {
    /// The port of the preview; without one, a usual one or whichever is free.
    pub port: Option<u16>,
    /// Whether to look by the clock even where the system would tell of changes.
    pub poll: bool,
}

/// What wakes us.
#[derive(Debug)]
pub enum Signal {
    /// Files were changed.
    Saved(Named),
    /// The preview stopped, and why.
    Lost(String),
    /// It is time to go.
    Stop,
}

/// Whoever tells a person what happens.
pub trait Teller {
    /// A look at the folder begins, and perhaps a press.
    fn begins(&mut self);

    /// Told how far the work is.
    fn progress(&self) -> &dyn Progress;

    /// Something was pressed; `new` are the findings that count and were not there before.
    fn pressed(&mut self, round: &Round, new: &[Finding]);

    /// The address of the preview.
    fn address(&mut self, address: &str);

    /// Something did not work; work goes on.
    fn trouble(&mut self, what: &str);

    /// What was begun is done.
    fn rests(&mut self);
}

/// Presses a notebook and shows it, again at every save, until a [`Signal::Stop`] comes. Fails where it cannot begin, and
/// where the folder goes away.
///
/// What happens while it presses waits until it has; several saves are then one.
pub fn run(
    disk: &Disk,
    options: Options,
    sender: &Sender<Signal>,
    signals: &Receiver<Signal>,
    teller: &mut dyn Teller,
) -> Result<(), HostError> {
    let listener = match options.port {
        Some(port) => Listener::at(port),
        None => Listener::near(PORT),
    }?;
    let port = listener.port();
    // Before the first look, so that no save falls between the two.
    let mut watch = if options.poll {
        None
    } else {
        watched(disk, sender, teller)
    };
    let mut session = Session::new(disk);
    let mut known = BTreeSet::new();
    let mut shown = Arc::new(Shown::default());
    teller.begins();
    if let Some(round) = session.round(&Named::new(), teller.progress())? {
        shown = Arc::new(Shown::after(&shown, &round));
        tell(&round, &mut known, teller);
    }
    let preview = Arc::new(Preview::new(port, Arc::clone(&shown)));
    let lost = sender.clone();
    let server = listener.serve(Arc::clone(&preview) as _, move |why| {
        let _ = lost.send(Signal::Lost(why));
    })?;
    teller.address(&format!("http://127.0.0.1:{port}/"));

    let mut said: Option<String> = None;
    let ended = loop {
        let by_the_clock = watch.is_none() || session.owes();
        let wait = if by_the_clock { BY_THE_CLOCK } else { STILL_THERE };
        let named = match woken(signals, wait, teller) {
            Woken::Stop => break Ok(()),
            Woken::Saved(named) => named,
            Woken::Nothing if by_the_clock || !watch::is_there(disk.folder()) => Named::new(),
            Woken::Nothing => continue,
        };
        if let Some(Err(why)) = watch.as_mut().map(Watch::follow) {
            teller.trouble(&without_word(&why));
            watch = None;
        }
        teller.begins();
        let mut first = |proof: &Proof, pages: Vec<File>| {
            shown = Arc::new(shown.with_first(proof, &pages));
            preview.show(Arc::clone(&shown));
        };
        match session.round_with(&named, teller.progress(), &mut first) {
            Ok(None) => {}
            Ok(Some(round)) => {
                said = None;
                shown = Arc::new(Shown::after(&shown, &round));
                tell(&round, &mut known, teller);
                preview.show(Arc::clone(&shown));
            }
            Err(_) if !watch::is_there(disk.folder()) => match woken(signals, BY_THE_CLOCK, teller) {
                Woken::Stop => break Ok(()),
                // A folder that is being replaced is away for a moment.
                _ if watch::is_there(disk.folder()) => {
                    let _ = sender.send(Signal::Saved(Named::new()));
                }
                _ => break Err(gone(disk)),
            },
            Err(error) => {
                let why = error.to_string();
                if said.as_ref() != Some(&why) {
                    teller.trouble(&format!("{why}; trying again"));
                    preview.show(Arc::new(shown.troubled(&why)));
                    said = Some(why);
                }
            }
        }
        teller.rests();
    };
    preview.end();
    drop(server);
    ended
}

fn gone(disk: &Disk) -> HostError {
    HostError {
        doing: "go on tending",
        path: disk.folder().display().to_string(),
        cause: io::Error::new(io::ErrorKind::NotFound, "the folder is gone"),
    }
}

fn watched(disk: &Disk, sender: &Sender<Signal>, teller: &mut dyn Teller) -> Option<Watch> {
    let saved = sender.clone();
    let watch = Watch::start(disk.folder(), move |paths| {
        let _ = saved.send(Signal::Saved(paths));
    });
    watch.map_err(|why| teller.trouble(&without_word(&why))).ok()
}

fn without_word(why: &str) -> String {
    format!("the system does not tell of changes ({why}): looking once a second instead")
}

/// What woke us, or nothing in time.
enum Woken {
    Saved(Named),
    Stop,
    Nothing,
}

/// Waits for a signal, and takes with it whatever else has come: several saves are one look.
fn woken(signals: &Receiver<Signal>, wait: Duration, teller: &mut dyn Teller) -> Woken {
    let mut next = match signals.recv_timeout(wait) {
        Ok(signal) => Some(signal),
        Err(RecvTimeoutError::Timeout) => None,
        Err(RecvTimeoutError::Disconnected) => return Woken::Stop,
    };
    let mut saved: Option<Named> = None;
    while let Some(signal) = next {
        match signal {
            Signal::Saved(named) => saved.get_or_insert_default().extend(named),
            Signal::Lost(why) => teller.trouble(&format!("the preview stopped ({why}); pressing goes on")),
            Signal::Stop => return Woken::Stop,
        }
        next = signals.try_recv().ok();
    }
    saved.map_or(Woken::Nothing, Woken::Saved)
}

/// What makes two findings one and the same from one save to the next, wherever on its page it has moved.
type Known = (Slug, String, String);

fn tell(round: &Round, known: &mut BTreeSet<Known>, teller: &mut dyn Teller) {
    let sources = &round.proof.sources;
    let open = || {
        let all = round.proof.findings.iter().chain(&round.pressing.findings);
        all.filter(|finding| finding.counts())
    };
    let key = |finding: &Finding| {
        let path = sources.path(finding.span.file).to_owned();
        (finding.rule, path, finding.message.clone())
    };
    let new: Vec<Finding> = open()
        .filter(|finding| !known.contains(&key(finding)))
        .cloned()
        .collect();
    *known = open().map(key).collect();
    teller.pressed(round, &new);
}
