//! The whole site of ten thousand pages, beside the unavoidable part: reading, Markdown to HTML, and writing the same bytes.
#![expect(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::disallowed_methods,
    clippy::indexing_slicing,
    reason = "a bench measures time and stops where it cannot go on"
)]

#[expect(dead_code, reason = "each bench uses its own part")]
mod support;

use std::fs;
use std::hint::black_box;
use std::path::Path;

use pulldown_cmark::Parser;
use trayside::host::Disk;
use trayside::pipeline::{self, PRESSED, Silent};

fn main() {
    for &pages in if support::in_full() {
        &[1_000, 10_000][..]
    } else {
        &[100]
    } {
        let folder = tempfile::tempdir().unwrap();
        support::generate(folder.path(), pages);
        let files = support::files(folder.path());
        let host = Disk::open(folder.path()).unwrap();
        let pressed = folder.path().join(PRESSED);
        let press = || {
            let proof = pipeline::proof(&host, &Silent).unwrap();
            black_box(pipeline::press(&host, &proof, &Silent).unwrap());
        };
        press();
        let site = support::files(&pressed);
        let bytes: Vec<(String, Vec<u8>)> = site
            .iter()
            .map(|file| {
                let path = file.strip_prefix(&pressed).unwrap().to_str().unwrap().to_owned();
                (path, fs::read(file).unwrap())
            })
            .collect();
        println!(
            "{pages} pages, {} files, {:.1} MB",
            bytes.len(),
            bytes.iter().map(|(_, bytes)| bytes.len()).sum::<usize>() as f64 / 1e6
        );
        let elsewhere = folder.path().join("floor");
        support::beside_after(
            "site",
            5,
            || {
                let _ = fs::remove_dir_all(&elsewhere);
                let _ = fs::remove_dir_all(&pressed);
            },
            || {
                for file in &files {
                    support::read(file);
                    html(file);
                }
                for (path, bytes) in &bytes {
                    let to = elsewhere.join(path);
                    fs::create_dir_all(to.parent().unwrap()).unwrap();
                    fs::write(to, bytes).unwrap();
                }
            },
            press,
        );
        let _ = fs::remove_dir_all(&pressed);
        let phases = support::Phases::default();
        let proof = pipeline::proof(&host, &phases).unwrap();
        black_box(pipeline::press(&host, &proof, &phases).unwrap());
        phases.print();
        if let Some(megabytes) = support::peak_memory() {
            println!("peak memory so far {megabytes} MB");
        }
    }
}

fn html(file: &Path) {
    let text = fs::read_to_string(file).unwrap();
    let mut html = String::new();
    pulldown_cmark::html::push_html(
        &mut html,
        Parser::new_ext(&text, trayside::syntax::markdown_options()),
    );
    black_box(html);
}
