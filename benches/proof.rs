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
use std::path::Path;

use trayside::host::Disk;
use trayside::pipeline::{self, Silent};

fn main() {
    let sizes: &[usize] = if support::in_full() {
        &[1_000, 10_000]
    } else {
        &[100]
    };
    for &pages in sizes {
        let folder = tempfile::tempdir().unwrap();
        support::generate(folder.path(), pages);
        beside_its_floor(folder.path(), &format!("{pages} pages"));
    }
    for &materials in sizes {
        let folder = tempfile::tempdir().unwrap();
        stock(folder.path(), materials);
        beside_its_floor(folder.path(), &format!("{materials} materials"));
    }
}

/// A shelf of so many packets, each a material of its own, and a recipe that takes of all.
fn stock(folder: &Path, materials: usize) {
    let mut settings = String::from("title: Stock\nzone: UTC\nshelf:\n");
    let mut page = String::from("# Materials\n\n");
    let mut recipe = String::from("```recipe\nid: all\nrole: wash aid\nmakes: 1000 l\nadd:\n");
    for at in 0..materials {
        settings.push_str(&format!("  - material: powder number {at}\n    pack: 500 g\n"));
        page.push_str(&format!(
            "```ingredient\nmaterial: powder number {at}\nformula: Na2SO4\nsource: its label\n```\n\n"
        ));
        recipe.push_str(&format!("  powder number {at}: 2 g\n"));
    }
    fs::write(folder.join("trayside.yaml"), settings).unwrap();
    fs::write(folder.join("stock.md"), format!("{page}{recipe}```\n")).unwrap();
}

fn beside_its_floor(folder: &Path, name: &str) {
    let files = support::files(folder);
    let bytes: u64 = files.iter().map(|file| fs::metadata(file).unwrap().len()).sum();
    let host = Disk::open(folder).unwrap();
    let found = pipeline::proof(&host, &Silent).unwrap();
    println!(
        "{name}, {} blocks, {:.1} MB, {} findings",
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
    let phases = support::Phases::default();
    black_box(pipeline::proof(&host, &phases).unwrap());
    phases.print();
    if let Some(megabytes) = support::peak_memory() {
        println!("peak memory so far {megabytes} MB");
    }
}
