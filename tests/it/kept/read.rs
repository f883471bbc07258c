//! What a batch is, once its recipe has gone on.

use trayside::facts::{Fact, Value};
use trayside::host::{Host, Memory};
use trayside::pipeline::Proof;

use super::{BATHS, LOG, edit, fresh, kept, kept_at, notebook, page, pressed};
use crate::support::{proofed, seen};

fn fact<'p>(proof: &'p Proof, full: &str) -> &'p Fact {
    proof.facts.named(full).unwrap_or_else(|| panic!("{full}"))
}

fn number(proof: &Proof, full: &str) -> f64 {
    fact(proof, full).range().unwrap_or_else(|| panic!("{full}")).best
}

#[test]
fn a_press_keeps_and_nothing_else_does() {
    let folder = notebook();
    let before = folder.files();
    proofed(&folder);
    assert_eq!(folder.files(), before);
    let (_, keeping) = pressed(&folder);
    let named: Vec<(&str, &str)> = keeping
        .batches
        .iter()
        .map(|(batch, of, _)| (batch.as_str(), of.as_str()))
        .collect();
    assert_eq!(named, [("tea-may", "sage-tea"), ("hypo-may", "plain-hypo")]);
    assert_eq!(keeping.trouble, None);
    // It says where to undo it.
    assert!(keeping.batches.iter().all(|(_, _, path)| folder.exists(path)));
    let text = folder.read(&kept_at(&folder, "kept/recipes/sage-tea.")).unwrap();
    let fence = &BATHS[BATHS.find("```recipe").unwrap()..BATHS.find("```\n\n```recipe").unwrap()];
    assert_eq!(String::from_utf8(text).unwrap(), format!("{fence}```\n"));
}

#[test]
fn a_second_press_has_nothing_to_keep() {
    let folder = notebook();
    pressed(&folder);
    let after = folder.files();
    let (proof, keeping) = pressed(&folder);
    assert!(keeping.batches.is_empty());
    assert_eq!(folder.files(), after, "nor is what is pressed another");
    assert!(seen(&proof).iter().all(|one| !one.path.starts_with("kept/")));
}

#[test]
fn a_batch_stays_what_it_was() {
    let folder = notebook();
    let (before, _) = pressed(&folder);
    edit(&folder, "baths.md", "anhydrous: 30 g", "anhydrous: 15 g");
    edit(&folder, "baths.md", "time: 8 min", "time: 9 min");
    edit(&folder, "baths.md", "keeps: 1 h", "keeps: 2 h");
    let (now, keeping) = pressed(&folder);
    assert!(keeping.batches.is_empty());
    for same in [
        "tea-may.pH",
        "tea-may.sheets-left",
        "evening.develop-time",
        "evening.under-lamp",
    ] {
        assert_eq!(
            number(&before, same).to_bits(),
            number(&now, same).to_bits(),
            "{same}"
        );
    }
    assert_eq!(
        fact(&before, "tea-may.dead-by").value,
        fact(&now, "tea-may.dead-by").value
    );
    assert!(number(&now, "sage-tea.pH") < number(&before, "sage-tea.pH") - 0.05);
    // What came out right came out of another recipe.
    assert_eq!(fact(&before, "sage-tea.tested").value, Ok(Value::Flag(true)));
    assert_eq!(fact(&now, "sage-tea.tested").value, Ok(Value::Flag(false)));
    let changed = fact(&now, "tea-may.recipe-changed");
    assert_eq!(changed.value, Ok(Value::Flag(true)));
    let soda = changed
        .inputs
        .iter()
        .find(|input| input.name == "washing soda, anhydrous");
    assert_eq!(soda.unwrap().value, "30 g then, 15 g now");
    assert_eq!(
        fact(&now, "hypo-may.recipe-changed").value,
        Ok(Value::Flag(false))
    );
}

#[test]
fn the_way_of_a_sheet_tells_it() {
    let folder = notebook();
    pressed(&folder);
    assert!(!page(&folder, "log.html").contains("earlier text"));
    edit(&folder, "baths.md", "anhydrous: 30 g", "anhydrous: 25 g");
    pressed(&folder);
    let log = page(&folder, "log.html");
    assert!(log.contains("mixed by an earlier text of Sage tea"));
    assert!(log.contains("30 g then, 25 g now"));
    // At the batch, in the session, and at the sheet.
    assert_eq!(log.matches("30 g then, 25 g now").count(), 3, "{log}");
    let baths = page(&folder, "baths.html");
    assert!(baths.contains("by an earlier text of its recipe: washing soda, anhydrous: 30 g then, 25 g now"));
}

#[test]
fn words_that_make_no_other_bath_say_nothing() {
    let folder = notebook();
    pressed(&folder);
    edit(&folder, "baths.md", "title: Sage tea", "title: Garden sage tea");
    edit(
        &folder,
        "baths.md",
        "keeps: 1 h",
        "keeps: 1 h\nnote: better fresh",
    );
    let (proof, _) = pressed(&folder);
    assert_eq!(
        fact(&proof, "tea-may.recipe-changed").value,
        Ok(Value::Flag(false))
    );
    assert_eq!(fact(&proof, "sage-tea.tested").value, Ok(Value::Flag(true)));
    assert!(!page(&folder, "log.html").contains("earlier text"));
}

#[test]
fn a_new_batch_of_the_same_text_brings_no_text() {
    let folder = notebook();
    pressed(&folder);
    folder.put("more.md", LOG_OF_JUNE);
    pressed(&folder);
    kept_at(&folder, "kept/recipes/sage-tea.");
    edit(&folder, "baths.md", "anhydrous: 30 g", "anhydrous: 25 g");
    edit(&folder, "more.md", "tea-june", "tea-july");
    edit(&folder, "more.md", "2031-06", "2031-07");
    let (proof, keeping) = pressed(&folder);
    assert_eq!(keeping.batches.len(), 1);
    assert_eq!(
        fact(&proof, "tea-july.recipe-changed").value,
        Ok(Value::Flag(false))
    );
    assert_eq!(
        fact(&proof, "tea-may.recipe-changed").value,
        Ok(Value::Flag(true))
    );
}

const LOG_OF_JUNE: &str = "\
# June

```batch
id: tea-june
of: sage-tea
made: 2031-06-02 18:00
volume: 1 l
```
";

#[test]
fn new_names_lose_nothing() {
    let changed = |folder: &Memory, batch: &str| {
        let (proof, keeping) = pressed(folder);
        assert!(keeping.batches.is_empty(), "{keeping:?}");
        let fact = fact(&proof, &format!("{batch}.recipe-changed")).clone();
        fact.inputs
            .iter()
            .any(|input| input.value == "30 g then, 25 g now")
    };
    let folder = notebook();
    pressed(&folder);
    edit(&folder, "baths.md", "anhydrous: 30 g", "anhydrous: 25 g");
    edit(&folder, "log.md", "tea-may", "tea-spring");
    assert!(changed(&folder, "tea-spring"));
    edit(&folder, "baths.md", "sage-tea", "garden-sage");
    edit(&folder, "log.md", "sage-tea", "garden-sage");
    assert!(changed(&folder, "tea-spring"));
    edit(&folder, "log.md", "tea-spring", "tea-may");
    assert!(changed(&folder, "tea-may"));
}

#[test]
fn another_recipe_is_another_matter() {
    let folder = notebook();
    pressed(&folder);
    edit(&folder, "log.md", "of: sage-tea", "of: plain-hypo");
    let (_, keeping) = pressed(&folder);
    assert_eq!(keeping.batches.len(), 1);
    assert_eq!(keeping.batches[0].1, "plain-hypo");
}

#[test]
fn to_undo_is_to_delete() {
    let folder = notebook();
    let (_, keeping) = pressed(&folder);
    edit(&folder, "baths.md", "anhydrous: 30 g", "anhydrous: 25 g");
    folder.remove(&keeping.batches[0].2);
    let (_, again) = pressed(&folder);
    assert_eq!(again.batches.len(), 1);
    let (proof, _) = pressed(&folder);
    assert_eq!(
        fact(&proof, "tea-may.recipe-changed").value,
        Ok(Value::Flag(false))
    );
}

#[test]
fn a_batch_outlives_its_recipe() {
    let folder = notebook();
    let (before, _) = pressed(&folder);
    let (start, end) = (
        BATHS.find("```recipe").unwrap(),
        BATHS.find("```recipe\nid: plain").unwrap(),
    );
    folder.put("baths.md", BATHS.replace(&BATHS[start..end], ""));
    let (now, _) = pressed(&folder);
    assert_eq!(
        number(&before, "tea-may.pH").to_bits(),
        number(&now, "tea-may.pH").to_bits()
    );
}

#[test]
fn what_cannot_be_read_whole_waits() {
    for (from, to) in [
        ("anhydrous: 30 g", "anhydrous: 30 gg"),
        ("role: developer", "role: ["),
        (
            "makes: 1 l\nadd:\n  washing",
            "makes: 1 l\nbased on: lost\nadd:\n  washing",
        ),
    ] {
        let folder = notebook();
        edit(&folder, "baths.md", from, to);
        let (_, keeping) = pressed(&folder);
        let named: Vec<&str> = keeping
            .batches
            .iter()
            .map(|(batch, _, _)| batch.as_str())
            .collect();
        assert_eq!(named, ["hypo-may"], "{to}");
        edit(&folder, "baths.md", to, from);
        assert_eq!(pressed(&folder).1.batches.len(), 1, "{to}");
    }
}

#[test]
fn what_it_is_based_on_is_kept_with_it() {
    let folder = notebook();
    let more = "\n```recipe\nid: mild-tea\ntitle: Mild tea\nbased on: sage-tea\nadd:\n  vitamin C powder: 9 g\n```\n";
    folder.put("baths.md", format!("{BATHS}{more}"));
    edit(&folder, "log.md", "of: sage-tea", "of: mild-tea");
    edit(&folder, "log.md", "sage-tea: tea-may", "mild-tea: tea-may");
    let (before, _) = pressed(&folder);
    edit(&folder, "baths.md", "anhydrous: 30 g", "anhydrous: 15 g");
    let (now, _) = pressed(&folder);
    assert_eq!(
        number(&before, "tea-may.pH").to_bits(),
        number(&now, "tea-may.pH").to_bits()
    );
    assert!(number(&now, "mild-tea.pH") < number(&before, "mild-tea.pH"));
    assert_eq!(fact(&now, "tea-may.recipe-changed").value, Ok(Value::Flag(true)));
}

#[test]
fn the_same_folder_gives_the_same_bytes() {
    let folder = notebook();
    pressed(&folder);
    edit(&folder, "baths.md", "anhydrous: 30 g", "anhydrous: 25 g");
    pressed(&folder);
    let copy = fresh(&folder);
    pressed(&copy);
    assert_eq!(copy.files(), folder.files());
    // Two machines that keep the same write the same.
    let (one, other) = (notebook(), notebook());
    pressed(&one);
    pressed(&other);
    assert_eq!(kept(&one), kept(&other));
}

#[test]
fn a_batch_that_swapped_does_so_from_what_was_then() {
    let folder = notebook();
    edit(
        &folder,
        "log.md",
        "volume: 1 l\n```\n\n```batch",
        "volume: 1 l\nswaps:\n  vitamin C powder: 6 g\n```\n\n```batch",
    );
    let (before, _) = pressed(&folder);
    edit(&folder, "baths.md", "anhydrous: 30 g", "anhydrous: 15 g");
    let (now, _) = pressed(&folder);
    assert_eq!(
        number(&before, "tea-may.pH").to_bits(),
        number(&now, "tea-may.pH").to_bits()
    );
    assert!(LOG.contains("tea-may"));
}

#[test]
fn a_label_says_what_is_in_the_bottle() {
    let folder = notebook();
    let strengths = |folder: &Memory| {
        let proof = proofed(folder);
        let labels = trayside::views::labels(&proof.notebook, &proof.facts, &proof.findings);
        let own = labels
            .labels
            .into_iter()
            .find(|label| label.id == "hypo-may")
            .unwrap();
        (own.contents[0].strength.clone(), own.waste)
    };
    pressed(&folder);
    let (before, _) = strengths(&folder);
    edit(&folder, "baths.md", "crystals: 200 g", "crystals: 250 g");
    edit(
        &folder,
        "baths.md",
        "to the collection point",
        "to the collection point on Fridays",
    );
    let (now, waste) = strengths(&folder);
    assert_eq!(before, now);
    // What is to be done with it is what is known now.
    assert!(waste.contains("Fridays"), "{waste}");
}
