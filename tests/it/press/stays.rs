//! Nothing that a block with a fault gave stays on disk, whatever kind of paper it is: it would be printed.

use trayside::finding::slug;
use trayside::host::{Host, Memory};
use trayside::pipeline::{Pressing, Silent, press, proof};

const SETTINGS: &str = "title: Two baths\nzone: Europe/Lisbon\nscale: 0.5 g\npress:\n  cards: {}\n  labels: {}\n  sheets: {}\n  \
                        room: {}\n";

const BATHS: &str = "# Baths

```recipe
id: salt-bath
title: Salt bath
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
use:
  time: 3 min
keeps:
  bottle: 2 weeks
waste: To the collection point.
```

```recipe
id: lemon-stop
title: Lemon stop
role: stop
makes: 1 l
add:
  citric acid, anhydrous: 10 g
use:
  time: 30 s
keeps:
  bottle: 12 h
waste: Ask first.
```

```batch
id: salt-one
of: salt-bath
made: 2031-04-05 16:00
volume: 2 l
```

```process
id: short-line
title: Short line
paper: RC
steps:
  - bath: lemon-stop
    light: red
  - rinse: 30 s
    light: red
  - bath: salt-bath
    light: red
    clears: [30 s]
  - wash: 4 min
```

```camera
id: biscuit-tin
title: Biscuit tin
pinhole: 0.4 mm
distance: 90 mm
format: 9×13 cm
```
";

fn pressed(host: &Memory) -> Pressing {
    let proof = proof(host, &Silent).unwrap();
    press(host, &proof, &Silent).unwrap()
}

fn before() -> Memory {
    let host = Memory::new()
        .with("trayside.yaml", SETTINGS)
        .with("page.md", BATHS);
    let pressing = pressed(&host);
    assert_eq!(pressing.findings, []);
    for paper in [
        "cards/salt-bath.pdf",
        "cards/salt-bath-red.png",
        "cards/short-line.pdf",
        "cards/sheets.pdf",
        "sheets/salt-bath.pdf",
        "labels.pdf",
        "templates/biscuit-tin.pdf",
        "room.pdf",
    ] {
        assert!(host.exists(&format!("pressed/{paper}")), "{paper}");
    }
    host
}

fn words_of(host: &Memory, paper: &str) -> Option<String> {
    let pdf = host.read(&format!("pressed/{paper}")).expect("pressed");
    super::read::text(&pdf, &["-raw"])
}

#[test]
fn a_fault_in_a_recipe_takes_its_card_sheet_label_and_line() {
    let host = before();
    host.put("page.md", BATHS.replace("role: fixer", "role: fixr"));
    let pressing = pressed(&host);
    for paper in [
        "cards/salt-bath.pdf",
        "cards/salt-bath-red.png",
        "cards/short-line.pdf",
        "sheets/salt-bath.pdf",
    ] {
        assert!(!host.exists(&format!("pressed/{paper}")), "{paper}");
        assert!(pressing.replaced.removed.contains(&paper.to_owned()), "{paper}");
    }
    assert!(host.exists("pressed/cards/lemon-stop.pdf") && host.exists("pressed/sheets/lemon-stop.pdf"));
    // What is shared is made anew without it.
    for paper in ["cards/sheets.pdf", "labels.pdf", "room.pdf"] {
        let Some(text) = words_of(&host, paper) else {
            return;
        };
        assert!(
            text.contains("Lemon stop") && !text.contains("Salt bath"),
            "{paper}: {text}"
        );
    }
}

#[test]
fn a_fault_in_a_batch_takes_its_label_and_no_other() {
    let host = before();
    host.put("page.md", BATHS.replace("volume: 2 l", "volume: 2 lx"));
    pressed(&host);
    let Some(text) = words_of(&host, "labels.pdf") else {
        return;
    };
    assert!(!text.contains("salt-one") && text.contains("salt-bath"), "{text}");
}

#[test]
fn a_fault_in_a_line_takes_its_card() {
    let host = before();
    host.put("page.md", BATHS.replace("- wash: 4 min", "- wash: 4 mn"));
    pressed(&host);
    assert!(!host.exists("pressed/cards/short-line.pdf"));
    assert!(host.exists("pressed/cards/salt-bath.pdf"));
}

#[test]
fn a_fault_in_a_camera_takes_its_template() {
    let host = before();
    host.put("page.md", BATHS.replace("pinhole: 0.4 mm", "pinhole: 0.4 g"));
    pressed(&host);
    assert!(!host.exists("pressed/templates/biscuit-tin.pdf"));
    assert!(!host.exists("pressed/cards/biscuit-tin.pdf"));
}

/// A word that no card, label or sheet can hold.
#[test]
fn what_overflows_at_the_press_does_not_stay_either() {
    let host = before();
    let long = "x9".repeat(140);
    host.put(
        "page.md",
        BATHS.replace("title: Salt bath", &format!("title: {long}")),
    );
    let pressing = pressed(&host);
    for paper in [
        "cards/salt-bath.pdf",
        "cards/salt-bath-red.png",
        "sheets/salt-bath.pdf",
    ] {
        assert!(!host.exists(&format!("pressed/{paper}")), "{paper}");
    }
    let mut rules: Vec<_> = pressing.findings.iter().map(|finding| finding.rule).collect();
    rules.sort_unstable();
    rules.dedup();
    assert!(rules.contains(&slug::CARD_OVERFLOW), "{:?}", pressing.findings);
    assert!(rules.contains(&slug::LABEL_OVERFLOW), "{:?}", pressing.findings);
    assert!(rules.contains(&slug::SHEET_OVERFLOW), "{:?}", pressing.findings);
    let Some(text) = words_of(&host, "labels.pdf") else {
        return;
    };
    assert!(text.contains("Lemon stop") && !text.contains("Salzbad"), "{text}");
}
