//! One save in a notebook of ten thousand pages, beside the unavoidable part: reading and writing that page.
#![expect(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::disallowed_methods,
    clippy::indexing_slicing,
    reason = "a bench measures time and stops where it cannot go on"
)]

#[expect(dead_code, reason = "each bench uses its own part")]
mod support;

use std::cell::Cell;
use std::fs;
use std::hint::black_box;
use std::sync::Mutex;
use std::time::{Duration, Instant};

use trayside::host::Disk;
use trayside::pipeline::{File, Progress, Proof, Silent};
use trayside::tend::{Named, Session, Shown};

/// When each phase of a round began.
struct Phases {
    since: Instant,
    began: Mutex<Vec<(&'static str, Duration)>>,
}

impl Phases {
    fn new() -> Self {
        Self {
            since: Instant::now(),
            began: Mutex::default(),
        }
    }
}

impl Progress for Phases {
    fn phase(&self, name: &'static str, _: usize) {
        self.began.lock().unwrap().push((name, self.since.elapsed()));
    }
}

fn main() {
    // The page that is saved is the 444th.
    for &pages in if support::in_full() {
        &[1_000, 10_000][..]
    } else {
        &[500]
    } {
        let folder = tempfile::tempdir().unwrap();
        support::generate(folder.path(), pages);
        let host = Disk::open(folder.path()).unwrap();
        let mut session = Session::new(&host);
        let since = Instant::now();
        let round = session.round(&Named::new(), &Silent).unwrap().unwrap();
        let shown = Shown::after(&Shown::default(), &round);
        drop(round);
        println!("{pages} pages, first round {:.2?}", since.elapsed());
        let path = "log/004/page-00444.md";
        let page = folder.path().join(path);
        let before = fs::read_to_string(&page).unwrap();
        let number = Cell::new(0);
        let named = Named::from([path.to_owned()]);
        for (what, from) in [("prose", "The tide was out"), ("a log block", "EV 10.5")] {
            let mut fresh = Vec::new();
            let mut last = Phases::new();
            support::beside(
                &format!("one save of {what}, all settled"),
                9,
                || {
                    let text = fs::read(&page).unwrap();
                    fs::write(&page, text).unwrap();
                },
                || {
                    number.set(number.get() + 1);
                    let to = format!("EV 1{}.5", number.get() % 9);
                    let to = if from.starts_with("EV") {
                        to
                    } else {
                        format!("Tide {}", number.get())
                    };
                    fs::write(&page, before.replacen(from, &to, 1)).unwrap();
                    last = Phases::new();
                    let since = last.since;
                    let mut first = |proof: &Proof, pages: Vec<File>| {
                        assert_eq!(pages.len(), 1);
                        // What the preview shows from now on.
                        black_box(shown.with_first(proof, &pages));
                        fresh.push(since.elapsed());
                    };
                    let round = session.round_with(&named, &last, &mut first).unwrap().unwrap();
                    assert_eq!(
                        (round.changed, round.worked.pages_read),
                        (vec![path.to_owned()], 1)
                    );
                },
            );
            fresh.sort();
            println!("  the page itself is fresh after {:.2?}", fresh[fresh.len() / 2]);
            println!("  phases of the last: {:.0?}", last.began.lock().unwrap());
        }
        // Pages after it are none the worse for being one further along.
        let beside = "log/004/page-00444-again.md";
        let added = folder.path().join(beside);
        let named = Named::from([beside.to_owned()]);
        let mut gone = Vec::new();
        let mut last = Phases::new();
        support::beside(
            "a page more, and one less, all settled",
            9,
            || {
                fs::write(&added, "# Again\n").unwrap();
                fs::remove_file(&added).unwrap();
            },
            || {
                fs::write(&added, "# Again\n\nA page more.\n").unwrap();
                let round = session.round(&named, &Silent).unwrap().unwrap();
                assert_eq!((round.changed.len(), round.worked.pages_read), (1, 1));
                // The next round takes over what nobody else holds.
                drop(round);
                last = Phases::new();
                fs::remove_file(&added).unwrap();
                let round = session.round(&named, &last).unwrap().unwrap();
                assert_eq!((round.changed.len(), round.worked.pages_read), (1, 0));
                gone.push(last.since.elapsed());
            },
        );
        gone.sort();
        println!("  of which the one less {:.2?}", gone[gone.len() / 2]);
        println!("  phases of the last: {:.0?}", last.began.lock().unwrap());
        if let Some(megabytes) = support::peak_memory() {
            println!("peak memory so far {megabytes} MB");
        }
    }
}
