//! A recipe that was private when it was kept stays so.

use trayside::host::Memory;
use trayside::pipeline::{PRESSED, SETTINGS};

use super::{LOG, below, edit, kept, pressed};
use crate::support::USUAL;

const SECRET: &str = "\
---
audience: private
---
# Secret

```recipe
id: sage-tea
title: Zqtitle
role: developer
makes: 1 l
add:
  washing soda, anhydrous: 31.7 g
  vitamin C powder: 12 g
steps:
  - stir: 17 min
  - dissolve: zqstep
use:
  temperature: 20 °C
  time: 8 min
keeps: 1 h
note: zqnote
```
";

const HYPO: &str = "\
# Hypo

```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
```

```process
id: line
steps:
  - bath: plain-hypo
    time: 5 min
```
";

fn notebook() -> Memory {
    Memory::new()
        .with(SETTINGS, USUAL)
        .with("secret.md", SECRET)
        .with("hypo.md", HYPO)
        .with("log.md", LOG)
}

/// Fails where the site tells of what was private alone.
fn tells_nothing(folder: &Memory) {
    for (path, bytes) in below(folder, &format!("{PRESSED}/site")) {
        if path.contains("/fonts/") {
            continue;
        }
        let text = String::from_utf8_lossy(&bytes).to_lowercase();
        for word in ["31.7", "17 min", "17\u{a0}min", "zqtitle", "zqnote", "zqstep"] {
            assert!(
                !text.contains(word) && !path.contains(word),
                "{path} tells {word}"
            );
        }
    }
}

#[test]
fn it_is_kept_and_not_told() {
    let folder = notebook();
    edit(&folder, "secret.md", "  - dissolve: zqstep\n", "");
    pressed(&folder);
    assert!(kept(&folder).keys().any(|path| path.contains("sage-tea")));
    tells_nothing(&folder);
    // Changed, and as private as before.
    edit(&folder, "secret.md", "31.7 g", "29 g");
    edit(&folder, "secret.md", "17 min", "5 min");
    edit(&folder, "secret.md", "Zqtitle", "Zqtitle two");
    pressed(&folder);
    tells_nothing(&folder);
    // Open now, as it is now: what it was before is told nowhere.
    edit(&folder, "secret.md", "audience: private\n", "tags: [open]\n");
    edit(&folder, "secret.md", "Zqtitle two", "Sage tea");
    edit(&folder, "secret.md", "note: zqnote\n", "");
    let (proof, _) = pressed(&folder);
    assert!(proof.notebook.has_changed_since("tea-may"));
    tells_nothing(&folder);
    let facts = String::from_utf8(folder.files()[&format!("{PRESSED}/site/facts.json")].clone()).unwrap();
    assert!(
        facts.contains("\"sage-tea\"") && !facts.contains("\"tea-may\""),
        "{facts}"
    );
}

#[test]
fn what_it_was_based_on_counts() {
    let folder = notebook();
    edit(&folder, "secret.md", "  - dissolve: zqstep\n", "");
    edit(&folder, "secret.md", "id: sage-tea", "id: secret-tea");
    let open = "\n```recipe\nid: sage-tea\ntitle: Open tea\nbased on: secret-tea\n```\n";
    folder.put("hypo.md", format!("{HYPO}{open}"));
    pressed(&folder);
    let own = "role: developer\nmakes: 1 l\nadd:\n  washing soda, anhydrous: 20 g\n  vitamin C powder: 9 g\n";
    edit(&folder, "hypo.md", "based on: secret-tea\n", own);
    let (proof, _) = pressed(&folder);
    assert!(proof.notebook.has_changed_since("tea-may"));
    tells_nothing(&folder);
}

#[test]
fn a_material_that_is_private_now_counts() {
    let folder = notebook();
    let herb = "```ingredient\nid: zqherb\nmaterial: zqherb\nform: dried\nplant:\n  name: zqherb\n```\n";
    folder.put(
        "herbs.md",
        format!("---\naudience: private\n---\n# Herbs\n\n{herb}"),
    );
    folder.put(
        "secret.md",
        SECRET
            .replace("audience: private\n", "tags: [open]\n")
            .replace("  - dissolve: zqstep\n", "")
            .replace("Zqtitle", "Tea")
            .replace("note: zqnote\n", "")
            .replace("17 min", "3 min")
            .replace("  vitamin C powder", "  zqherb: 31.7 g\n  vitamin C powder")
            .replace("anhydrous: 31.7 g", "anhydrous: 30 g"),
    );
    pressed(&folder);
    edit(&folder, "secret.md", "  zqherb: 31.7 g\n", "");
    let (proof, _) = pressed(&folder);
    assert!(proof.notebook.has_changed_since("tea-may"));
    tells_nothing(&folder);
}
