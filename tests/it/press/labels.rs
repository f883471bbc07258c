//! Bottle labels: what stands on them, where on the sheet, and what becomes of those that do not hold it.

use trayside::finding::slug;
use trayside::host::{Host, Memory};
use trayside::pipeline::{Proof, Silent, press, proof};
use trayside::views::label::{Label, LabelGrid};
use trayside::views::{self, Pictogram};

use super::PRESS;
use super::read::{alternatives, close, sizes, sound, text, words};

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
keeps: 2 weeks
waste: To the collection point.
```

```recipe
id: sharp-stock
title: Sharp stock
role: stock
makes: 500 ml
add:
  caustic soda: 40 g
  potassium carbonate: 50 g
  potassium bromide: 1 g
keeps:
  stock: 3 months
```

```batch
id: salt-one
of: salt-bath
made: 2031-04-05 16:00
volume: 2 l
by: R. Moss
```

```batch
id: salt-old
of: salt-bath
made: 2031-02-05 16:00
volume: 2 l
discarded: 2031-02-20 16:00
```

```batch
id: salt-strong
of: salt-bath
made: 2031-04-06 16:00
volume: 2 l
swaps:
  hypo, crystals: 500 g
```
";

fn folder(labels: &str) -> Memory {
    let settings =
        format!("title: Two bottles\nzone: Europe/Lisbon\nscale: 0.5 g\npress:\n  labels:\n{labels}");
    Memory::new()
        .with("trayside.yaml", settings)
        .with("page.md", BATHS)
}

fn proofed(folder: &Memory) -> Proof {
    proof(folder, &Silent).unwrap()
}

fn made(proof: &Proof) -> Vec<Label> {
    views::labels(&proof.notebook, &proof.facts, &proof.findings).labels
}

fn plain(text: &str) -> String {
    words(&text.replace('\u{a0}', " "))
}

#[test]
fn what_is_in_a_bottle_gets_a_label_and_what_was_thrown_away_none() {
    let labels = made(&proofed(&folder("    size: 90×65 mm\n")));
    let ids: Vec<&str> = labels.iter().map(|label| label.id.as_str()).collect();
    assert_eq!(ids, ["salt-one", "salt-strong", "sharp-stock"]);
    let strengths: Vec<String> = labels
        .iter()
        .map(|label| plain(&label.contents[0].strength))
        .collect();
    // 500 g in the two litres of the batch; 40 g in half a litre.
    assert_eq!(strengths, ["200 g/l", "250 g/l", "80 g/l"]);
    assert_eq!(labels[0].contents[0].chemical, "sodium thiosulfate pentahydrate");
    let told: Vec<String> = labels[0].lines.iter().map(|line| plain(&line.text)).collect();
    assert_eq!(told, ["2031-04-05 16:00", "R. Moss", "2031-04-19 16:00", "2 l"]);
    assert!(labels[2].lines.iter().all(|line| line.text.is_empty()));
    assert_eq!(labels[0].waste, "To the collection point.");
    assert!(
        labels[2].waste.contains("your local water authority"),
        "{}",
        labels[2].waste
    );
}

#[test]
fn hazards_are_those_of_what_is_in_it() {
    let labels = made(&proofed(&folder("    size: 90×65 mm\n")));
    // Nothing in plain hypo is classified; what frees gas from it is said all the same.
    assert_eq!((labels[0].signal.as_str(), labels[0].pictograms.len()), ("", 0));
    assert!(labels[0].warnings[0].starts_with("Keep every acid out"));
    // H314 stands for what irritates skin and eyes; H335 of the carbonate asks for the mark.
    let sharp = &labels[2];
    assert_eq!(sharp.signal, "Danger");
    assert_eq!(sharp.pictograms, [Pictogram::Corrosion, Pictogram::Exclamation]);
    assert_eq!(
        sharp.hazards,
        [
            "May be corrosive to metals.",
            "Causes severe skin burns and eye damage.",
            "May cause respiratory irritation.",
        ]
    );
}

#[test]
fn a_swapped_material_brings_its_own_hazards() {
    // It does not fix, and that is a fault of its own; but the bottle is there.
    let page = BATHS.replace(
        "hypo, crystals: 500 g",
        "hypo, crystals: caustic soda\nacknowledge:\n  folk-fixer: mixed by mistake, until the collection",
    );
    let folder = folder("    size: 90×65 mm\n");
    folder.put("page.md", page);
    let labels = made(&proofed(&folder));
    let swapped = labels.iter().find(|label| label.id == "salt-strong").unwrap();
    assert_eq!(swapped.contents[0].name, "caustic soda");
    assert_eq!(swapped.contents[0].strength, "");
    assert_eq!(swapped.signal, "Danger");
}

#[test]
fn a_recipe_with_a_fault_takes_the_labels_of_its_batches() {
    let folder = folder("    size: 90×65 mm\n");
    folder.put("page.md", BATHS.replace("time: 3 min", "time: 3 minims"));
    let proof = proofed(&folder);
    let labels = views::labels(&proof.notebook, &proof.facts, &proof.findings);
    let ids: Vec<&str> = labels.labels.iter().map(|label| label.id.as_str()).collect();
    assert_eq!(ids, ["sharp-stock"]);
    assert!(labels.left_out.iter().all(|left| left.what == "label"));
    assert_eq!(labels.left_out.len(), 2);
}

#[test]
fn everything_can_be_read_in_the_pdf() {
    let proof = proofed(&folder("    size: 90×65 mm\n"));
    let labels = made(&proof);
    let pdf = sound(PRESS.labels(&labels, &views::label_grid(&proof.notebook.settings)));
    // A4, ISO 216.
    assert!(sizes(&pdf).iter().all(|page| close(*page, (210.0, 297.0))));
    let Some(text) = text(&pdf, &["-raw"]) else { return };
    let text = plain(&text);
    for wanted in [
        "Salt bath",
        "hypo, crystals",
        "200 g/l",
        "mixed at 2031-04-05 16:00",
        "dead by 2031-04-19 16:00",
        "by R. Moss",
        "volume 2 l",
        "Not for food or drink",
        "To the collection point.",
        "Two bottles · salt-one",
        "DANGER",
    ] {
        assert!(text.contains(wanted), "{wanted} is not in\n{text}");
    }
}

#[test]
fn signs_say_what_they_warn_of() {
    let proof = proofed(&folder("    size: 90×65 mm\n"));
    let labels = made(&proof);
    let pdf = sound(PRESS.labels(&labels, &views::label_grid(&proof.notebook.settings)));
    let told = alternatives(&pdf);
    let with_signs = labels.iter().filter(|label| !label.pictograms.is_empty());
    for label in with_signs {
        let hazard = label.hazards.first().unwrap();
        assert!(
            told.iter().any(|alt| alt.contains(hazard.as_str())),
            "{hazard}: {told:?}"
        );
    }
    assert!(!told.is_empty());
}

/// Left and upper end of each word in mm, as poppler has them.
fn places(pdf: &[u8], wanted: &str) -> Option<Vec<(f64, f64)>> {
    let html = text(pdf, &["-bbox"])?;
    let number = |line: &str, key: &str| -> f64 {
        let rest = line.split(&format!("{key}=\"")).nth(1).unwrap();
        rest.split('"').next().unwrap().parse::<f64>().unwrap() * 25.4 / 72.0
    };
    let lines = html
        .lines()
        .filter(|line| line.contains(&format!(">{wanted}</word>")));
    Some(
        lines
            .map(|line| (number(line, "xMin"), number(line, "yMin")))
            .collect(),
    )
}

#[test]
fn labels_lie_on_the_grid_that_was_measured() {
    let grid = "    size: 80×70 mm\n    columns: 2\n    rows: 4\n    column gap: 4 mm\n    left: 20 mm\n    top: 6 mm\n    used: 1\n";
    let proof = proofed(&folder(grid));
    let grid = views::label_grid(&proof.notebook.settings);
    assert!(!grid.outlined);
    let pdf = sound(PRESS.labels(&made(&proof), &grid));
    let Some(found) = places(&pdf, "volume") else {
        return;
    };
    // The places after the first: right of it, then the row below from the left.
    let apart = |a: usize, b: usize| (found[a].0 - found[b].0, found[a].1 - found[b].1);
    assert_eq!(found.len(), 3);
    let Some(titles) = places(&pdf, "Salt") else {
        return;
    };
    assert!(titles[0].0 > 104.0 && titles[0].0 < 110.0, "{titles:?}");
    assert!(titles[0].1 > 6.0 && titles[0].1 < 14.0, "{titles:?}");
    assert!((titles[0].0 - titles[1].0 - 84.0).abs() < 0.2, "{titles:?}");
    assert!(
        (titles[1].1 - titles[0].1 - 70.0).abs() < 3.0,
        "{titles:?} {:?}",
        apart(0, 1)
    );
}

#[test]
fn a_label_that_does_not_hold_it_is_a_fault_and_the_others_are_made() {
    let folder = folder("    size: 60×45 mm\n");
    let proof = proofed(&folder);
    let pressing = press(&folder, &proof, &Silent).unwrap();
    let rules: Vec<_> = pressing.findings.iter().map(|finding| finding.rule).collect();
    assert_eq!(rules, [slug::LABEL_OVERFLOW], "{:?}", pressing.findings);
    assert!(pressing.findings[0].span == proof.notebook.block("sharp-stock").unwrap().head);
    assert_eq!(pressing.labels, 2);
    let pdf = folder.read("pressed/labels.pdf").unwrap();
    if let Some(text) = text(&pdf, &["-raw"]) {
        assert!(text.contains("Salt bath") && !text.contains("Sharp stock"));
    }
}

#[test]
fn a_grid_that_leaves_the_sheet_is_a_fault() {
    let folder = folder("    size: 90×65 mm\n    columns: 3\n");
    let pressing = press(&folder, &proofed(&folder), &Silent).unwrap();
    let rules: Vec<_> = pressing.findings.iter().map(|finding| finding.rule).collect();
    assert_eq!(rules, [slug::CARD_TOO_LARGE]);
    assert!(folder.read("pressed/labels.pdf").is_err());
    let refused = LabelGrid {
        left_mm: Some(f64::NAN),
        ..views::label_grid(&proofed(&folder).notebook.settings)
    };
    assert!(PRESS.labels(&made(&proofed(&folder)), &refused).pdf.is_empty());
}
