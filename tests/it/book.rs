//! The manual: a notebook like any other, clean, and its reference pages as the code has it.

use std::path::{Path, PathBuf};

use trayside::cli::reference;
use trayside::finding::Finding;
use trayside::host::Disk;
use trayside::pipeline::{Proof, Silent, proof};

fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name)
}

fn proofed(name: &str) -> Proof {
    proof(&Disk::open(&folder(name)).unwrap(), &Silent).unwrap()
}

/// `UPDATE_EXPECT=1 cargo it reference_pages` writes them anew.
#[test]
fn reference_pages_are_as_the_code_has_it() {
    let rewrite = std::env::var_os("UPDATE_EXPECT").is_some();
    let mut stale = Vec::new();
    for (path, wanted) in reference::pages(&proofed("recipes")) {
        let file = folder("book").join(path);
        if std::fs::read_to_string(&file).unwrap_or_default() == wanted {
            continue;
        }
        if rewrite {
            std::fs::create_dir_all(file.parent().unwrap()).unwrap();
            std::fs::write(&file, wanted).unwrap();
        } else {
            stale.push(path);
        }
    }
    assert!(
        stale.is_empty(),
        "{stale:?} are not as the code has it: run `UPDATE_EXPECT=1 cargo it reference_pages`"
    );
}

#[test]
fn the_book_is_clean() {
    let proof = proofed("book");
    let told: Vec<String> = proof
        .findings
        .iter()
        .filter(|finding| finding.counts())
        .map(|finding| tell(&proof, finding))
        .collect();
    assert!(told.is_empty(), "{}", told.join("\n"));
}

fn tell(proof: &Proof, finding: &Finding) -> String {
    let place = proof.sources.position(finding.span);
    format!(
        "{}:{}:{} {}: {}",
        proof.sources.path(finding.span.file),
        place.line,
        place.column,
        finding.rule,
        finding.message
    )
}

#[test]
fn every_figure_of_the_book_is_computed() {
    let proof = proofed("book");
    let mut figures = 0;
    for page in &proof.notebook.texts {
        for reference in &page.references {
            let name = reference.name.value.as_str();
            let fact = proof
                .facts
                .named(name)
                .unwrap_or_else(|| panic!("no fact {name}"));
            assert!(fact.value.is_ok(), "{name}: {}", fact.how());
            figures += 1;
        }
    }
    assert!(figures >= 5, "the book shows only {figures} figures");
}

/// Every page is reached from the first one, through links alone.
#[test]
fn every_page_of_the_book_is_linked() {
    let proof = proofed("book");
    let pages = &proof.notebook.pages;
    let mut open = vec!["index.md".to_owned()];
    let mut reached = std::collections::BTreeSet::new();
    while let Some(path) = open.pop() {
        let Some(at) = pages.iter().position(|page| page.path == path) else {
            continue;
        };
        if !reached.insert(path.clone()) {
            continue;
        }
        for link in &proof.notebook.texts[at].links {
            let target = link.target.value.split('#').next().unwrap_or_default();
            open.extend(trayside::syntax::resolve(&path, target));
        }
    }
    for page in pages {
        assert!(reached.contains(&page.path), "nothing leads to {}", page.path);
    }
}
