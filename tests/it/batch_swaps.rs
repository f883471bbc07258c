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

/// Thresholds and reasons are those of each rule's page; what the batches come to is reckoned beside them.
#[test]
fn rules_that_look_at_recipes_look_at_batches() {
    // 300 g are more than the 215 g or so of anhydrous soda that a kilogram of water takes at 20 °C (from memory, unverified).
    let soda = said("developer", DEVELOPER, "1 l", "washing soda, anhydrous: 300 g");
    assert!(
        soda.contains(&("solubility-exceeded", Grade::Fault, "300 g".to_owned())),
        "{soda:?}"
    );
    // Common practice, no source: plain salt restrains as well.
    let salted = format!("{DEVELOPER}\n  plain salt: 5 g");
    let salt = said("developer", &salted, "1 l", "plain salt: iodised salt");
    assert!(
        salt.contains(&("iodised-salt", Grade::Hint, "iodised salt".to_owned())),
        "{salt:?}"
    );
    // By the definition of a mole: 2 g / 40.00 g/mol = 0.050 mol of caustic to 12 g / 176.12 g/mol = 0.068 mol of acid.
    let caustic = said(
        "developer",
        "NaOH: 4 g\n  ascorbic acid: 12 g",
        "1 l",
        "NaOH: 2 g",
    );
    assert!(
        caustic.contains(&("caustic-used-up", Grade::Fault, "2 g".to_owned())),
        "{caustic:?}"
    );
    // A classic developer with soda keeps for weeks; with vitamin C in it an hour (common practice, no source).
    let page = page(
        "developer",
        "sodium ascorbate: 12 g\n  borax: 20 g",
        "1 l",
        "borax: washing soda, anhydrous",
    )
    .replace("keeps: 1 h", "keeps: 5 h");
    let long: Vec<Seen> = seen(&proofed_page(&page));
    assert!(
        long.iter()
            .any(|one| one.rule == "working-life-long" && one.grade == Grade::Fault && one.line > 15),
        "{long:?}"
    );
}

#[test]
fn a_batch_whose_buffer_is_thin_is_told() {
    // By the rule's own example, a tenth of it: 0.3 g of soda, 0.8 g of baking soda and 6 g of ascorbate in a litre.
    let strong = "sodium ascorbate: 6 g\n  washing soda, anhydrous: 5 g\n  baking soda: 0.8 g";
    let thin = said("developer", strong, "1 l", "washing soda, anhydrous: 0.3 g");
    assert!(
        thin.iter().any(|(rule, ..)| *rule == "alkali-headroom"),
        "{thin:?}"
    );
}

#[test]
fn hard_water_is_told_of_a_batch_where_no_recipe_has_soda() {
    let settings = "title: T\nzone: Europe/London\nwater:\n  hardness: 3 mmol/l\n";
    // 36 g / 105.99 g/mol = 0.34 mol/l of carbonate (common practice, no source: chalk shows from 0.1).
    let page = page(
        "developer",
        "borax: 20 g\n  sodium ascorbate: 12 g",
        "1 l",
        "borax: washing soda, anhydrous",
    );
    let seen = seen(&proofed_page(&format!("{settings}---8<---\n{page}")));
    let told: Vec<&Seen> = seen.iter().filter(|one| one.rule == "hard-water").collect();
    assert_eq!(told.len(), 1, "{seen:?}");
    assert_eq!(
        told.first().map(|one| one.text.as_str()),
        Some("washing soda, anhydrous")
    );
}

#[test]
fn a_small_batch_is_weighed_on_the_same_scale() {
    let settings = "title: T\nzone: Europe/London\nscale: 1 g\n";
    let below = |volume: &str| {
        let page = format!(
            "```recipe\nid: b\nrole: fixer\nmakes: 1 l\nadd:\n  hypo, crystals: 200 g\n  sodium sulfite, anhydrous: 20 g\n  KBr: 6 g\nkeeps: 1 week\nwaste: ask\n```\n\n\
             ```batch\nid: b-1\nof: b\nmade: 2031-05-02 18:00\nvolume: {volume}\n```\n"
        );
        let mut seen = seen(&proofed_page(&format!("{settings}---8<---\n{page}")));
        seen.retain(|one| one.rule == "below-scale");
        seen
    };
    // Five steps of a gram (common practice, no source); a fifth of 20 g and of 6 g are 4 and 1.2 g.
    let seen = below("200 ml");
    assert_eq!(seen.len(), 1, "{seen:?}");
    assert!(
        seen.iter()
            .all(|one| one.text == "200 ml" && one.message.contains("1.2\u{a0}g of `KBr`")),
        "{seen:?}"
    );
    assert!(below("1 l").is_empty());
    assert!(below("2 l").is_empty());
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
fn an_amount_is_what_was_taken_for_the_batch() {
    // In half a litre 100 g are 200 g in a litre, and 60 g are 120.
    let right = said("fixer", FIXER, "500 ml", "hypo, crystals: 100 g");
    assert!(right.is_empty(), "{right:?}");
    let weak = said("fixer", FIXER, "500 ml", "hypo, crystals: 60 g");
    assert!(
        weak.contains(&("hypo-strength", Grade::Doubt, "60 g".to_owned())),
        "{weak:?}"
    );
    // 24 g / 176.12 g/mol = 0.136 mol to half of 36 g / 105.99 g/mol = 0.170 mol: 0.80.
    let acid = said("developer", DEVELOPER, "500 ml", "ascorbic acid: 24 g");
    assert!(
        acid.contains(&("vitamin-c-over-soda", Grade::Doubt, "24 g".to_owned())),
        "{acid:?}"
    );
}
