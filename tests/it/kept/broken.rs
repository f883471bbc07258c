//! Files of `kept/` that were lost or changed.

use trayside::host::{Host, Memory};

use super::{edit, kept_at, notebook, pressed};
use crate::support::{check_spans, proofed, seen};

/// What is found in `kept/`, as path and line.
fn found(folder: &Memory) -> Vec<(String, usize)> {
    let proof = proofed(folder);
    check_spans(&proof);
    let own = seen(&proof)
        .into_iter()
        .filter(|one| one.path.starts_with("kept/"));
    own.map(|one| {
        assert_eq!(one.rule, "kept-broken", "{one:?}");
        (one.path, one.line)
    })
    .collect()
}

#[test]
fn a_changed_text_is_told_and_not_used() {
    let folder = notebook();
    let (before, _) = pressed(&folder);
    let text = kept_at(&folder, "kept/recipes/sage-tea.");
    edit(&folder, &text, "30 g", "31 g");
    assert_eq!(found(&folder), [(text.clone(), 1)]);
    let (now, keeping) = pressed(&folder);
    assert!(keeping.batches.is_empty(), "nothing is written over it");
    let ph = |proof: &trayside::pipeline::Proof| proof.facts.named("tea-may.pH").unwrap().value.clone();
    assert_eq!(ph(&now), ph(&before));
    edit(&folder, &text, "31 g", "30 g");
    assert!(found(&folder).is_empty());
}

#[test]
fn ends_of_lines_are_not_a_change() {
    let folder = notebook();
    pressed(&folder);
    edit(&folder, "baths.md", "anhydrous: 30 g", "anhydrous: 25 g");
    for path in super::kept(&folder).into_keys() {
        edit(&folder, &path, "\n", "\r\n");
    }
    assert!(found(&folder).is_empty());
    assert!(proofed(&folder).notebook.has_changed_since("tea-may"));
}

#[test]
fn a_lost_text_is_told_or_written_again() {
    let folder = notebook();
    pressed(&folder);
    let text = kept_at(&folder, "kept/recipes/sage-tea.");
    let held = folder.read(&text).unwrap();
    folder.remove(&text);
    assert!(found(&folder).is_empty(), "the next press brings it back");
    pressed(&folder);
    assert_eq!(folder.read(&text).unwrap(), held);
    edit(&folder, "baths.md", "anhydrous: 30 g", "anhydrous: 25 g");
    folder.remove(&text);
    let tie = kept_at(&folder, "kept/batches/tea-may.");
    assert_eq!(found(&folder), [(tie, 6)]);
    assert!(pressed(&folder).1.batches.is_empty());
}

#[test]
fn a_changed_tie_is_told_and_its_batch_is_not_kept_anew() {
    let folder = notebook();
    pressed(&folder);
    let tie = kept_at(&folder, "kept/batches/tea-may.");
    edit(&folder, &tie, "of: sage-tea", "of: plain-hypo");
    assert_eq!(found(&folder), [(tie.clone(), 1)]);
    assert!(pressed(&folder).1.batches.is_empty());
    folder.put(&tie, vec![0xff; 40]);
    let all = seen(&proofed(&folder));
    assert!(all.iter().any(|one| one.path == tie && one.rule == "kept-broken"));
    assert!(pressed(&folder).1.batches.is_empty(), "that file is in the way");
}

#[test]
fn two_texts_of_one_batch_are_told() {
    let (folder, other) = (notebook(), notebook());
    edit(&other, "baths.md", "anhydrous: 30 g", "anhydrous: 25 g");
    pressed(&folder);
    pressed(&other);
    for (path, bytes) in super::kept(&other) {
        folder.put(&path, bytes);
    }
    let told = found(&folder);
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].0.starts_with("kept/batches/tea-may."));
    assert!(pressed(&folder).1.batches.is_empty());
    folder.remove(&told[0].0);
    assert!(found(&folder).is_empty());
}

#[test]
fn what_else_lies_there_is_not_read() {
    let folder = notebook();
    pressed(&folder);
    for path in [
        "kept/page.md",
        "kept/recipes/page.md",
        "kept/recipes/why.txt",
        "kept/batches/deeper/a.0123456789abcdef.txt",
    ] {
        folder.put(path, "```recipe\nid: sage-tea\nrole: nothing\n```\n");
    }
    assert!(found(&folder).is_empty());
    assert!(
        seen(&proofed(&folder))
            .iter()
            .all(|one| one.rule != "id-duplicate")
    );
}
