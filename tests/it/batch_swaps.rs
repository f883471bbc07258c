//! What a batch took instead is judged as its recipe would be, at the swap, and nothing is said twice.

use trayside::finding::Grade;

use crate::support::{Seen, proofed_page, seen};

const DEVELOPER: &str = "washing soda, anhydrous: 36 g\n  ascorbic acid: 12 g";
const FIXER: &str = "hypo, crystals: 200 g";
const STOP: &str = "citric acid, anhydrous: 10 g";

/// A recipe of a litre and a batch of it with swaps.
fn page(role: &str, add: &str, volume: &str, swaps: &str) -> String {
    format!(
        "```recipe\nid: b\nrole: {role}\nmakes: 1 l\nwater: 700 ml\nadd:\n  {add}\nuse:\n  time: 30 s\nkeeps: 1 h\nwaste: ask first\n```\n\n\
         ```batch\nid: b-1\nof: b\nmade: 2031-05-02 18:00\nvolume: {volume}\nswaps:\n  {swaps}\n```\n"
    )
}

/// What is said within the batch.
fn of_batch(role: &str, add: &str, volume: &str, swaps: &str) -> Vec<Seen> {
    let page = page(role, add, volume, swaps);
    let batch = page.lines().position(|line| line == "```batch").expect("a batch");
    let mut seen = seen(&proofed_page(&page));
    seen.retain(|seen| seen.line > batch);
    seen
}

fn said(role: &str, add: &str, volume: &str, swaps: &str) -> Vec<(&'static str, Grade, String)> {
    let seen = of_batch(role, add, volume, swaps).into_iter();
    seen.map(|seen| (seen.rule, seen.grade, seen.text)).collect()
}

#[test]
fn what_was_taken_instead_is_told_at_the_swap() {
    for (role, add, swaps, rule, grade, text) in [
        // 36 g of baking soda are the only alkali left.
        (
            "developer",
            DEVELOPER,
            "washing soda, anhydrous: baking soda",
            "baking-soda-alone",
            Grade::Fault,
            "baking soda",
        ),
        (
            "developer",
            DEVELOPER,
            "washing soda, anhydrous: washing soda",
            "soda-form-missing",
            Grade::Fault,
            "washing soda",
        ),
        (
            "developer",
            DEVELOPER,
            "ascorbic acid: effervescent vitamin C tablets",
            "effervescent-tablets",
            Grade::Fault,
            "effervescent vitamin C tablets",
        ),
        // 36 / 176.12 = 0.204 mol to 36 / 105.99 = 0.340 mol: 0.60.
        (
            "developer",
            DEVELOPER,
            "ascorbic acid: 36 g",
            "vitamin-c-over-soda",
            Grade::Doubt,
            "36 g",
        ),
        // 60 / 176.12 = 0.341 mol to 0.340 mol: 1.0.
        (
            "developer",
            DEVELOPER,
            "ascorbic acid: 60 g",
            "vitamin-c-over-soda",
            Grade::Fault,
            "60 g",
        ),
        (
            "developer",
            DEVELOPER,
            "washing soda, anhydrous: 0 g",
            "alkali-missing",
            Grade::Doubt,
            "0 g",
        ),
        (
            "developer",
            DEVELOPER,
            "washing soda, anhydrous: baking powder",
            "baking-powder",
            Grade::Fault,
            "baking powder",
        ),
        (
            "fixer",
            FIXER,
            "hypo, crystals: 60 g",
            "hypo-strength",
            Grade::Fault,
            "60 g",
        ),
        (
            "fixer",
            FIXER,
            "hypo, crystals: hypo",
            "hypo-form-missing",
            Grade::Fault,
            "hypo",
        ),
        (
            "fixer",
            FIXER,
            "hypo, crystals: salt",
            "folk-fixer",
            Grade::Fault,
            "salt",
        ),
        (
            "stop",
            STOP,
            "citric acid, anhydrous: vinegar",
            "vinegar-strength-missing",
            Grade::Fault,
            "vinegar",
        ),
        (
            "stop",
            STOP,
            "citric acid, anhydrous: 2 g",
            "stop-strength",
            Grade::Doubt,
            "2 g",
        ),
        (
            "stop",
            STOP,
            "citric acid, anhydrous: baking soda",
            "stop-not-acid",
            Grade::Fault,
            "baking soda",
        ),
        (
            "stop",
            STOP,
            "hydrogen peroxide 3 %: 20 ml",
            "percent-without-basis",
            Grade::Doubt,
            "hydrogen peroxide 3 %",
        ),
        (
            "stop",
            STOP,
            "blorb powder: 20 g",
            "material-unknown",
            Grade::Doubt,
            "blorb powder",
        ),
    ] {
        let told = said(role, add, "1 l", swaps);
        assert!(
            told.contains(&(rule, grade, text.to_owned())),
            "{swaps}: {rule} is not in {told:?}"
        );
    }
}

#[test]
fn one_swap_gives_one_finding() {
    for swaps in [
        "washing soda, anhydrous: baking soda",
        "washing soda, anhydrous: washing soda",
        "ascorbic acid: 36 g",
        "ascorbic acid: effervescent vitamin C tablets",
    ] {
        let told = said("developer", DEVELOPER, "1 l", swaps);
        assert_eq!(told.len(), 1, "{swaps}: {told:?}");
    }
}

#[test]
fn a_good_swap_draws_nothing() {
    for (role, add, swaps) in [
        // 36 g x 286.14 / 105.99.
        (
            "developer",
            DEVELOPER,
            "washing soda, anhydrous: 0 g\n  washing soda, crystals: 97.2 g",
        ),
        ("developer", DEVELOPER, "ascorbic acid: 14 g"),
        ("fixer", FIXER, "hypo, crystals: 220 g"),
        ("stop", STOP, "citric acid, anhydrous: 12 g"),
    ] {
        let told = said(role, add, "1 l", swaps);
        assert!(told.is_empty(), "{swaps}: {told:?}");
    }
}

#[test]
fn what_the_recipe_says_is_not_said_again() {
    for (role, add, swaps) in [
        (
            "developer",
            "washing soda: 36 g\n  ascorbic acid: 12 g",
            "washing soda: 30 g",
        ),
        (
            "developer",
            "baking soda: 36 g\n  ascorbic acid: 12 g",
            "baking soda: 40 g",
        ),
        (
            "developer",
            "washing soda, anhydrous: 36 g\n  ascorbic acid: 36 g",
            "ascorbic acid: 34 g",
        ),
        ("fixer", "hypo, crystals: 60 g", "hypo, crystals: 70 g"),
        ("stop", "vinegar: 200 ml", "vinegar: 220 ml"),
    ] {
        let told = said(role, add, "1 l", swaps);
        assert!(told.is_empty(), "{swaps}: {told:?}");
    }
    let worse = said("fixer", "hypo, crystals: 120 g", "1 l", "hypo, crystals: 60 g");
    assert!(
        worse
            .iter()
            .any(|(rule, grade, _)| *rule == "hypo-strength" && *grade == Grade::Fault)
    );
}

#[test]
fn an_amount_counts_as_wrong_if_it_is_so_for_recipe_and_batch() {
    // In half a litre 100 g are 200 g in a litre if weighed for the batch; 40 g are too little either way.
    let open = said("fixer", FIXER, "500 ml", "hypo, crystals: 100 g");
    assert!(open.is_empty(), "{open:?}");
    let weak = said("fixer", FIXER, "500 ml", "hypo, crystals: 40 g");
    assert!(weak.iter().any(|(rule, ..)| *rule == "hypo-strength"), "{weak:?}");
}
