//! Materials that cannot be: a clear finding at the very word, nothing beside it, and ten thousand of them in linear time.

use std::fmt::Write as _;

use trayside::host::Memory;
use trayside::pipeline::SETTINGS;

use crate::support::{USUAL, proofed, proofed_page, seen};

/// The findings of a page as rule, text under it and message.
fn told(page: &str) -> Vec<(String, String, String)> {
    let all = seen(&proofed_page(page));
    all.into_iter()
        .map(|found| (found.rule.to_owned(), found.text, found.message))
        .collect()
}

fn ingredient(rest: &str) -> String {
    format!("```ingredient\nmaterial: the powder\n{rest}\nsource: its label\n```\n")
}

fn stop(add: &str) -> String {
    format!("```recipe\nid: stop\nrole: stop\nmakes: 1 l\nadd:\n  {add}\nkeeps: 1 h\nwaste: ask\n```\n")
}

#[test]
fn each_slip_is_one_finding_at_its_word() {
    for (page, rule, under, message) in [
        (
            ingredient("formula: Xq2O"),
            "formula-malformed",
            "Xq",
            "`Xq` is no element",
        ),
        (
            ingredient("formula: hello there"),
            "formula-malformed",
            "hello there",
            "`hello there` is no chemical formula",
        ),
        (
            ingredient("formula: Na2CO3·(H2O"),
            "formula-malformed",
            "(",
            "`(` is never closed",
        ),
        (
            ingredient("formula: 'Na2CO3)'"),
            "formula-malformed",
            ")",
            "closes no bracket",
        ),
        (
            ingredient("formula: Na0Cl"),
            "formula-malformed",
            "0",
            "at least 1",
        ),
        (
            ingredient("price: -3.20"),
            "amount-out-of-range",
            "-3.20",
            "a price cannot be negative",
        ),
        (
            ingredient("price: cheap"),
            "amount-malformed",
            "cheap",
            "is no price",
        ),
        (
            ingredient("density: 0 g/ml"),
            "amount-out-of-range",
            "0 g/ml",
            "a density cannot be zero",
        ),
        (
            ingredient("density: -1 g/ml"),
            "amount-out-of-range",
            "-1 g/ml",
            "below zero",
        ),
        (
            ingredient("density: 80 g/ml"),
            "amount-out-of-range",
            "80 g/ml",
            "nothing is as dense",
        ),
        (
            ingredient("form: liquid\ndensity: 0.4 g/ml"),
            "amount-out-of-range",
            "0.4 g/ml",
            "no liquid is as light",
        ),
        (
            ingredient("form: liquid\ndensity: 400 g/l"),
            "amount-out-of-range",
            "400 g/l",
            "no liquid is as light",
        ),
        (
            ingredient("purity: 130 %"),
            "amount-out-of-range",
            "130 %",
            "at most at 100 %",
        ),
        (
            ingredient("purity: 0 %"),
            "amount-out-of-range",
            "0 %",
            "above nothing",
        ),
        (
            ingredient("tablet: 0 mg"),
            "amount-out-of-range",
            "0 mg",
            "a tablet holds something",
        ),
        (
            ingredient("pack: 0 g"),
            "amount-out-of-range",
            "0 g",
            "a pack holds something",
        ),
        (ingredient("pack: 500 °C"), "dimension-wrong", "500 °C", ""),
        (
            ingredient("contains:\n  NaCl: 60 %\n  KBr: 70 %"),
            "amount-out-of-range",
            "70 %",
            "more than the whole",
        ),
        (
            ingredient("contains:\n  NaCl: 130 % w/w"),
            "amount-out-of-range",
            "130 % w/w",
            "above 100 %",
        ),
        (
            ingredient("contains:\n  moondust: 3 %"),
            "material-unknown",
            "moondust",
            "not known here",
        ),
        (
            ingredient("of: moondust"),
            "material-unknown",
            "moondust",
            "not known here",
        ),
        (
            ingredient("hazards: [H319, bites]"),
            "word-unknown",
            "bites",
            "no hazard statement",
        ),
        (
            ingredient("hazards: H999"),
            "word-unknown",
            "H999",
            "no hazard statement",
        ),
        (
            stop("citric acid, anhydrous: 3 tsp"),
            "spoon-without-grams",
            "3 tsp",
            "a spoon is not a measure",
        ),
        (
            stop("citric acid, anhydrous: -4 g"),
            "amount-out-of-range",
            "-4 g",
            "below zero",
        ),
        (
            stop("Na3C6H5O7·(H2O: 4 g"),
            "formula-malformed",
            "(",
            "never closed",
        ),
        (
            stop("moondust: 4 g"),
            "material-unknown",
            "moondust",
            "not known here",
        ),
        (
            stop("citrik acid: 14 g"),
            "material-unknown",
            "citrik acid",
            "not known here",
        ),
    ] {
        let found = told(&page);
        let [(its_rule, text, words)] = found.as_slice() else {
            panic!("{page}: {found:?}");
        };
        assert_eq!((its_rule.as_str(), text.as_str()), (rule, under), "{page}");
        assert!(words.contains(message), "{page}: {words}");
    }
}

#[test]
fn sound_ingredients_have_no_finding() {
    for rest in [
        "formula: Na2CO3·10H2O\npurity: 99.5 %\ndensity: 0.9 g/ml",
        "form: liquid\ndensity: 0.79 g/ml\nhazards: [H225, H319, H336, EUH066, H300+H310]",
        "form: liquid\ndensity: 1.03 ± 0.02 g/ml\ncontains:\n  citric acid: 45–60 g/l",
        "contains:\n  NaCl: 97–99 %\n  KI: 0.003 %",
        "contains:\n  NaCl: 50 %\n  KBr: 50 %",
        "density: 0.05 g/ml",
        "price: 0\npack: 1 kg",
    ] {
        assert_eq!(told(&ingredient(rest)), [], "{rest}");
    }
}

#[test]
fn the_shelf_is_read_as_strictly() {
    for (packet, under, message) in [
        ("price: -2", "-2", "a price cannot be negative"),
        ("pack: 0 g", "0 g", "a pack holds something"),
        ("left: -20 g", "-20 g", "below zero"),
    ] {
        let page = format!("{USUAL}shelf:\n  - material: plain salt\n    {packet}\n---8<---\n# Page\n");
        let found = told(&page);
        let [(rule, text, words)] = found.as_slice() else {
            panic!("{packet}: {found:?}");
        };
        assert_eq!((rule.as_str(), text.as_str()), ("amount-out-of-range", under));
        assert!(words.contains(message), "{words}");
    }
    // Nothing left is a state, not a mistake.
    let page = format!(
        "{USUAL}shelf:\n  - material: plain salt\n    pack: 500 g\n    left: 0 g\n---8<---\n# Page\n"
    );
    assert_eq!(told(&page), []);
}

/// A liquid is measured by its own density, also where the notebook gives one and says what it holds only by volume.
#[test]
fn a_spoon_of_a_liquid_is_poured() {
    let page = format!(
        "{}{}",
        ingredient("density: 1.2 g/ml\ncontains:\n  citric acid: 250 g/l"),
        stop("the powder: 2 tbsp")
    );
    let proof = proofed_page(&page);
    assert_eq!(seen(&proof), []);
    let fact = proof.facts.named("stop.strength.the-powder").unwrap();
    // Two spoons of 15 ml in a litre: no density is asked for.
    assert_eq!(fact.range().map(|range| range.best.round()), Some(30.0));
}

/// A notebook of `count` materials, each with an `ingredient` block, a packet on the shelf and a line in one recipe.
fn many(count: usize) -> Memory {
    let mut settings = format!("{USUAL}shelf:\n");
    let mut page = String::from("# Materials\n\n");
    let mut recipe = String::from("```recipe\nid: all\nrole: wash aid\nmakes: 1000 l\nadd:\n");
    for at in 0..count {
        let _ = write!(
            settings,
            "  - material: powder number {at}\n    pack: 500 g\n    price: 2\n"
        );
        let _ = write!(
            page,
            "```ingredient\nmaterial: powder number {at}\nformula: Na2SO4\ndensity: 0 g/ml\nsource: its label\n```\n\n"
        );
        let _ = writeln!(recipe, "  powdr number {at}x: 2 g");
    }
    let _ = write!(page, "{recipe}keeps: 1 d\nwaste: ask\n```\n");
    Memory::new().with(SETTINGS, settings).with("page.md", page)
}

/// How long it takes is measured beside its floor in `benches/proof.rs`.
#[test]
fn ten_thousand_materials_are_all_read() {
    // A density of zero and an unknown name each.
    assert_eq!(seen(&proofed(&many(10_000))).len(), 20_000);
}

/// Which of two blocks of one name a reference means, nobody can tell: that they share it is the one thing to say.
#[test]
fn a_name_taken_twice_is_one_finding_wherever_it_is_used() {
    let page = format!(
        "{}\n```camera\nid: tin\npinhole: 0.3 mm\ndistance: 80 mm\nformat: 4×5 in\n```\n\n\
         [One](#tin) has {{{{ tin.pH }}}}, the other {{{{ tin.f-number }}}}.\n",
        "```recipe\nid: tin\nrole: wash aid\nmakes: 1 l\nadd:\n  sodium sulphite, anhydrous: 20 g\nkeeps: 1 d\nwaste: ask\n```\n"
    );
    let rules: Vec<String> = told(&page).into_iter().map(|(rule, ..)| rule).collect();
    assert_eq!(rules, ["id-duplicate"]);
    // What neither has is still unknown where the name is one block's.
    let single = page.replace("```camera\nid: tin", "```camera\nid: drum");
    let rules: Vec<String> = told(&single).into_iter().map(|(rule, ..)| rule).collect();
    assert_eq!(rules, ["fact-unknown"]);
}
