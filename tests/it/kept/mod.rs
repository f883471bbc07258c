//! `kept/`: what a press adds to it, what a batch is by it, and that nothing there is ever touched again.

mod broken;
mod edits;
mod on_disk;
mod private;
mod read;

use std::collections::BTreeMap;

use trayside::host::{Host, Memory};
use trayside::pipeline::{Keeping, PRESSED, Proof, SETTINGS, Silent, press, proof};

use crate::support::USUAL;

pub(super) type Files = BTreeMap<String, Vec<u8>>;

pub(super) const BATHS: &str = "\
# Baths

```recipe
id: sage-tea
title: Sage tea
role: developer
makes: 1 l
add:
  washing soda, anhydrous: 30 g
  vitamin C powder: 12 g
use:
  temperature: 20 °C
  time: 8 min
keeps: 1 h
```

```recipe
id: plain-hypo
title: Plain hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
use:
  time: 5 min
keeps:
  tray: 1 d
  bottle: 2 months
waste: to the collection point
```

```process
id: line
paper: RC
steps:
  - bath: sage-tea
    light: red
  - bath: plain-hypo
    light: red
  - wash: tap water
    time: 10 min
```
";

pub(super) const LOG: &str = "\
# Log

```camera
id: tin
pinhole: 0.3 mm
distance: 90 mm
format: 4×5 in
```

```paper
id: old-stock
base: RC
size: 4×5 in
speed: 6
```

```exposure
id: pier
title: Pier
when: 2031-05-02 11:20
camera: tin
paper: old-stock
light: EV 12.5
time: 4 min
result: right
```

```batch
id: tea-may
of: sage-tea
made: 2031-05-02 18:00
volume: 1 l
```

```batch
id: hypo-may
of: plain-hypo
made: 2031-05-02 17:30
volume: 1 l
```

```session
id: evening
when: 2031-05-02 18:10
process: line
temperature: 20 °C
baths:
  sage-tea: tea-may
  plain-hypo: hypo-may
sheets: [pier]
```
";

/// A notebook with two batches.
pub(super) fn notebook() -> Memory {
    Memory::new()
        .with(SETTINGS, USUAL)
        .with("baths.md", BATHS)
        .with("log.md", LOG)
}

pub(super) fn pressed(folder: &dyn Host) -> (Proof, Keeping) {
    let proof = proof(folder, &Silent).unwrap();
    let pressing = press(folder, &proof, &Silent).unwrap();
    (proof, pressing.keeping)
}

/// Puts something in the place of something on a page.
pub(super) fn edit(folder: &Memory, path: &str, from: &str, to: &str) {
    let text = String::from_utf8(folder.read(path).unwrap()).unwrap();
    assert!(text.contains(from), "{from:?} is not on {path}");
    folder.put(path, text.replace(from, to));
}

/// The files below a folder.
pub(super) fn below(folder: &Memory, name: &str) -> Files {
    let prefix = format!("{name}/");
    let files = folder.files().into_iter();
    files.filter(|(path, _)| path.starts_with(&prefix)).collect()
}

pub(super) fn kept(folder: &Memory) -> Files {
    below(folder, "kept")
}

/// The one kept file whose path begins so.
pub(super) fn kept_at(folder: &Memory, start: &str) -> String {
    let found: Vec<String> = kept(folder)
        .into_keys()
        .filter(|path| path.starts_with(start))
        .collect();
    assert_eq!(found.len(), 1, "{start}: {found:?}");
    found[0].clone()
}

/// The folder without what was pressed.
pub(super) fn fresh(folder: &Memory) -> Memory {
    let copy = Memory::new();
    for (path, bytes) in folder.files() {
        if !path.starts_with(&format!("{PRESSED}/")) {
            copy.put(&path, bytes);
        }
    }
    copy
}

pub(super) fn page(folder: &Memory, path: &str) -> String {
    let bytes = folder.read(&format!("{PRESSED}/site/{path}")).unwrap();
    String::from_utf8(bytes).unwrap().replace('\u{a0}', " ")
}
