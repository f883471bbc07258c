//! Whatever happens to a notebook, what was kept stays, and `tend` presses what `press` would.

use proptest::prelude::*;
use trayside::host::{Host, Memory};
use trayside::pipeline::Silent;
use trayside::tend::{Named, Session};

use super::{BATHS, LOG, edit, fresh, kept, notebook, pressed};

/// What an edit puts in the place of what, on whichever page has it.
const EDITS: [(&str, &str); 14] = [
    ("anhydrous: 30 g", "anhydrous: 25 g"),
    ("time: 8 min", "time: 9 min"),
    ("vitamin C powder: 12 g", "vitamin C powder: 12 gg"),
    ("id: sage-tea", "id: garden-tea"),
    ("of: sage-tea", "of: garden-tea"),
    ("id: tea-may", "id: tea-spring"),
    ("made: 2031-05-02 18:00", "made: 2031-05-02 18:05"),
    ("of: plain-hypo", "of: sage-tea"),
    ("```batch\nid: hypo", "```text\nid: hypo"),
    ("hypo, crystals: 200 g", "hypo, crystals: 250 g"),
    ("# Baths", "---\naudience: private\n---\n# Baths"),
    ("# Log", "# Log\n\n```batch\nid: tea-may\n```\n"),
    ("role: fixer", "role: fixer\nbased on: sage-tea"),
    ("keeps: 1 h", "keeps: 1 h\n```\n\n```text"),
];

fn happens(folder: &Memory, which: usize) {
    match which.checked_sub(EDITS.len()) {
        None => {
            let (from, to) = EDITS[which];
            for path in ["baths.md", "log.md"] {
                let Ok(bytes) = folder.read(path) else { continue };
                let text = String::from_utf8(bytes).unwrap();
                // There, and the next time back.
                let text = if text.contains(to) {
                    text.replacen(to, from, 1)
                } else {
                    text.replacen(from, to, 1)
                };
                folder.put(path, text);
            }
        }
        Some(0) => {
            folder.remove("baths.md");
        }
        Some(1) => folder.put("baths.md", BATHS),
        Some(2) => {
            folder.remove("log.md");
        }
        Some(_) => folder.put("log.md", LOG),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_is_kept_is_never_touched(edits in prop::collection::vec(0..EDITS.len() + 4, 1..12)) {
        let folder = notebook();
        let mut session = Session::new(&folder);
        session.round(&Named::new(), &Silent).unwrap();
        for which in edits {
            let before = kept(&folder);
            happens(&folder, which);
            let scratch = fresh(&folder);
            session.round(&Named::new(), &Silent).unwrap();
            let after = kept(&folder);
            for (path, bytes) in &before {
                prop_assert_eq!(after.get(path), Some(bytes), "{}", path);
            }
            // The same notebook and the same `kept/` give the same, whoever presses.
            pressed(&scratch);
            prop_assert_eq!(scratch.files(), folder.files());
            // And that is where it ends.
            prop_assert!(session.round(&Named::new(), &Silent).unwrap().is_none());
            let (_, again) = pressed(&scratch);
            prop_assert!(again.batches.is_empty());
            prop_assert_eq!(scratch.files(), folder.files());
        }
    }
}

#[test]
fn tending_sees_what_another_machine_kept() {
    let folder = notebook();
    let mut session = Session::new(&folder);
    let round = session.round(&Named::new(), &Silent).unwrap().unwrap();
    assert_eq!(round.pressing.keeping.batches.len(), 2);
    assert!(session.round(&Named::new(), &Silent).unwrap().is_none());
    edit(&folder, "baths.md", "anhydrous: 30 g", "anhydrous: 25 g");
    session.round(&Named::new(), &Silent).unwrap().unwrap();
    let tie = super::kept_at(&folder, "kept/batches/tea-may.");
    let held = folder.read(&tie).unwrap();
    folder.remove(&tie);
    let round = session.round(&Named::new(), &Silent).unwrap().unwrap();
    assert_eq!(round.changed, std::slice::from_ref(&tie));
    assert_eq!(round.pressing.keeping.batches.len(), 1);
    // It comes back, and now there are two.
    folder.put(&tie, held);
    let round = session.round(&Named::new(), &Silent).unwrap().unwrap();
    let rules: Vec<&str> = round.proof.findings.iter().map(|one| one.rule.as_str()).collect();
    assert!(rules.contains(&"kept-broken"), "{rules:?}");
}
