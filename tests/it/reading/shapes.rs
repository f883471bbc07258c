//! Half pages and damaged ones: nothing panics, everything ends, and every finding lies inside its file.

#![expect(
    clippy::disallowed_methods,
    reason = "the demo notebook is read from disk to be damaged in memory"
)]

use std::collections::BTreeMap;
use std::path::Path;
use std::time::Duration;

use proptest::prelude::*;
use trayside::host::Memory;

use crate::support::{check_spans, now, proofed};

/// The demo notebook's texts.
fn demo() -> BTreeMap<String, String> {
    fn walk(folder: &Path, below: &str, out: &mut BTreeMap<String, String>) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let entry = entry.unwrap();
            let path = format!("{below}{}", entry.file_name().to_string_lossy());
            if entry.path().is_dir() {
                walk(&entry.path(), &format!("{path}/"), out);
            } else if entry
                .path()
                .extension()
                .is_some_and(|end| end == "md" || end == "yaml")
            {
                out.insert(path, std::fs::read_to_string(entry.path()).unwrap());
            }
        }
    }
    let mut out = BTreeMap::new();
    walk(
        &Path::new(env!("CARGO_MANIFEST_DIR")).join("recipes"),
        "",
        &mut out,
    );
    assert!(out.len() > 10);
    out
}

fn folder(texts: &BTreeMap<String, String>) -> Memory {
    texts.iter().fold(Memory::new(), |folder, (path, text)| {
        folder.with(path, text.as_str())
    })
}

/// The nearest character boundary at or before a byte.
fn boundary(text: &str, at: usize) -> usize {
    (0..=at.min(text.len()))
        .rev()
        .find(|at| text.is_char_boundary(*at))
        .unwrap_or(0)
}

#[test]
fn half_a_page_is_read() {
    let whole = demo();
    for (path, text) in &whole {
        // Settings and the page alone: what is cut is what is tested.
        for at in (0..text.len()).step_by(50) {
            let started = now();
            let cut = &text[..boundary(text, at)];
            let proof = proofed(&Memory::new().with(path, cut));
            check_spans(&proof);
            assert!(
                started.elapsed() < Duration::from_secs(5),
                "{path} cut at {at} took too long"
            );
        }
    }
}

#[test]
fn half_a_page_within_its_notebook_is_read() {
    let whole = demo();
    for (path, text) in &whole {
        let mut texts = whole.clone();
        texts.insert(path.clone(), text[..boundary(text, text.len() / 2)].to_owned());
        check_spans(&proofed(&folder(&texts)));
    }
}

#[derive(Debug, Clone)]
enum Edit {
    Delete(usize, usize),
    Repeat(usize, usize),
    Replace(usize, usize, String),
}

fn edit() -> impl Strategy<Value = Edit> {
    let place = || (any::<prop::sample::Index>(), 1usize..80);
    prop_oneof![
        place().prop_map(|(at, length)| Edit::Delete(at.index(10_000), length)),
        place().prop_map(|(at, length)| Edit::Repeat(at.index(10_000), length)),
        (place(), "[ -~\n\t½é🙂:#'\"{}\\[\\]&*!|>`-]{0,12}").prop_map(|((at, length), text)| Edit::Replace(
            at.index(10_000),
            length,
            text
        )),
    ]
}

fn edited(text: &str, edit: &Edit) -> String {
    let (at, length) = match edit {
        Edit::Delete(at, length) | Edit::Repeat(at, length) | Edit::Replace(at, length, _) => (*at, *length),
    };
    let start = boundary(text, at % (text.len() + 1));
    let end = boundary(text, start + length).max(start);
    let (before, chunk, after) = (&text[..start], &text[start..end], &text[end..]);
    match edit {
        Edit::Delete(..) => format!("{before}{after}"),
        Edit::Repeat(..) => format!("{before}{chunk}{chunk}{after}"),
        Edit::Replace(_, _, with) => format!("{before}{with}{after}"),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn damaged_pages_are_read(
        page in any::<prop::sample::Index>(),
        edits in prop::collection::vec(edit(), 1..6),
    ) {
        let mut texts = demo();
        let path = texts.keys().nth(page.index(texts.len())).unwrap().clone();
        if let Some(text) = texts.get_mut(&path) {
            for one in &edits {
                *text = edited(text, one);
            }
        }
        check_spans(&proofed(&folder(&texts)));
    }
}
