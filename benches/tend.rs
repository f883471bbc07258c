//! One save in a notebook of ten thousand pages, beside the unavoidable part: reading and writing that page.
#![expect(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::disallowed_methods,
    clippy::indexing_slicing,
    dead_code,
    reason = "a bench measures time and stops where it cannot go on"
)]

mod support;

use std::cell::Cell;
use std::fs;
use std::time::Instant;

use trayside::host::Disk;
use trayside::pipeline::Silent;
use trayside::tend::{Named, Session};

fn main() {
    for pages in [1_000, 10_000] {
        let folder = tempfile::tempdir().unwrap();
        support::generate(folder.path(), pages);
        let host = Disk::open(folder.path()).unwrap();
        let mut session = Session::new(&host);
        let since = Instant::now();
        session.round(&Named::new(), &Silent).unwrap().unwrap();
        println!("{pages} pages, first round {:.2?}", since.elapsed());
        let path = "log/004/page-00444.md";
        let page = folder.path().join(path);
        let before = fs::read_to_string(&page).unwrap();
        let number = Cell::new(0);
        let named = Named::from([path.to_owned()]);
        for (what, from) in [("prose", "The tide was out"), ("a log block", "EV 10.5")] {
            support::beside(
                &format!("one save of {what}, all settled"),
                5,
                || {
                    let text = fs::read(&page).unwrap();
                    fs::write(&page, text).unwrap();
                },
                || {
                    number.set(number.get() + 1);
                    let to = format!("EV 1{}.5", number.get() % 9);
                    let to = if from.starts_with("EV") { to } else { format!("Tide {}", number.get()) };
                    fs::write(&page, before.replacen(from, &to, 1)).unwrap();
                    let round = session.round(&named, &Silent).unwrap().unwrap();
                    assert_eq!(round.changed, [path]);
                },
            );
        }
        if let Some(megabytes) = support::peak_memory() {
            println!("peak memory so far {megabytes} MB");
        }
    }
}
