//! `proof` of a notebook of ten thousand pages, beside the unavoidable part: reading the files, Markdown events and YAML
//! events over the same bytes.
#![expect(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::disallowed_methods,
    clippy::indexing_slicing,
    reason = "a bench measures time and stops where it cannot go on"
)]

mod support;

use std::fs;
use std::hint::black_box;

use trayside::host::Disk;
use trayside::pipeline::{self, Silent};

fn main() {
    for pages in [1_000, 10_000] {
        let folder = tempfile::tempdir().unwrap();
        support::generate(folder.path(), pages);
        let files = support::files(folder.path());
        let bytes: u64 = files.iter().map(|file| fs::metadata(file).unwrap().len()).sum();
        let host = Disk::open(folder.path()).unwrap();
        let found = pipeline::proof(&host, &Silent).unwrap();
        println!(
            "{pages} pages, {} blocks, {:.1} MB, {} findings",
            found.notebook.blocks.len(),
            bytes as f64 / 1e6,
            found.findings.len()
        );
        drop(found);
        support::beside(
            "proof",
            7,
            || files.iter().for_each(|file| support::read(file)),
            || {
                black_box(pipeline::proof(&host, &Silent).unwrap());
            },
        );
        if let Some(megabytes) = support::peak_memory() {
            println!("peak memory so far {megabytes} MB");
        }
    }
}
