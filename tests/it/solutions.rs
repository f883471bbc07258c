//! Solids that are poured as solutions, and liquids told by what a litre of them holds.

use trayside::pipeline::Proof;

use crate::support::{USUAL, number, proofed_page};

/// A bath's page; `written` is the lines of its `add`.
fn bath(id: &str, role: &str, written: &[&str]) -> String {
    let add: String = written.iter().flat_map(|line| ["  ", line, "\n"]).collect();
    format!(
        "```recipe\nid: {id}\nrole: {role}\nmakes: 1 l\nwater: 500 ml\nadd:\n{add}steps: [make up]\nkeeps: 1 h\n```\n"
    )
}

fn gap(proof: &Proof, name: &str) -> String {
    let fact = proof.facts.named(name);
    fact.unwrap_or_else(|| panic!("no fact {name}"))
        .value
        .clone()
        .expect_err("no value")
}

fn near(proof: &Proof, name: &str, wanted: f64, within: f64) {
    let (_, best, _) = number(proof, name);
    assert!((best - wanted).abs() < within, "{name}: {best}, not {wanted}");
}

#[test]
fn a_percent_solution_of_a_solid_is_poured_and_holds_so_many_grams() {
    let poured = [
        "sodium carbonate, anhydrous 10 % w/v: 300 ml",
        "ascorbic acid 10 % w/v: 100 ml",
    ];
    let weighed = ["sodium carbonate, anhydrous: 30 g", "ascorbic acid: 10 g"];
    let page = [
        bath("stop", "stop", &["citric acid, anhydrous 50 % w/v: 30 ml"]),
        bath("dry-stop", "stop", &["citric acid, anhydrous: 15 g"]),
        bath("dev", "developer", &poured),
        bath("dry-dev", "developer", &weighed),
    ]
    .concat();
    let proof = proofed_page(&page);
    // By hand: 30 ml of 50 g in 100 ml are 15 g, and citric acid is 192.124 g/mol by IUPAC's standard atomic weights.
    near(&proof, "stop.strength.citric-acid-anhydrous-50-w-v", 15.0, 1e-9);
    near(
        &proof,
        "stop.molar.citric-acid-anhydrous-50-w-v",
        15.0 / 192.124,
        1e-5,
    );
    near(
        &proof,
        "dev.strength.sodium-carbonate-anhydrous-10-w-v",
        30.0,
        1e-9,
    );
    near(&proof, "dev.strength.ascorbic-acid-10-w-v", 10.0, 1e-9);
    for (poured, weighed) in [("stop", "dry-stop"), ("dev", "dry-dev")] {
        for (fact, within) in [("pH", 0.005), ("electrons", 1e-4)] {
            let (_, wanted, _) = number(&proof, &format!("{weighed}.{fact}"));
            near(&proof, &format!("{poured}.{fact}"), wanted, within);
        }
    }
    for rule in ["spoon-without-grams", "reductant-strange"] {
        assert!(
            proof.findings.iter().all(|finding| finding.rule.as_str() != rule),
            "{rule}"
        );
    }
}

#[test]
fn per_cent_by_mass_need_a_mass_and_those_by_volume_a_volume() {
    let page = [
        bath("mass", "stop", &["citric acid, anhydrous 50 % w/w: 30 g"]),
        bath("mixed", "stop", &["citric acid, anhydrous 50 % w/w: 30 ml"]),
        bath("other", "stop", &["citric acid, anhydrous 50 % w/v: 30 g"]),
    ]
    .concat();
    let proof = proofed_page(&page);
    // By hand: 30 g of 50 g in 100 g are 15 g.
    near(&proof, "mass.strength.citric-acid-anhydrous-50-w-w", 15.0, 1e-9);
    assert!(gap(&proof, "mixed.pH").contains("without its density: write the strength as `% w/v`"));
    assert!(gap(&proof, "other.pH").contains("without its density: write the amount in ml"));
}

#[test]
fn a_formula_with_a_strength_is_a_solution_of_it() {
    let page = [
        bath("known", "stop", &["C6H8O7 50 % w/v: 30 ml"]),
        bath("named", "stop", &["citric acid, anhydrous 50 % w/v: 30 ml"]),
        // No packet of the pantry has this formula.
        bath("other", "stop", &["NaH2PO4·2H2O 10 % w/w: 30 g"]),
    ]
    .concat();
    let proof = proofed_page(&page);
    // By hand: 30 ml of 50 g in 100 ml are 15 g, 30 g of 10 g in 100 g are 3 g.
    near(&proof, "known.strength.c6h8o7-50-w-v", 15.0, 1e-9);
    near(&proof, "other.strength.nah2po4-2h2o-10-w-w", 3.0, 1e-9);
    let (_, named, _) = number(&proof, "named.pH");
    near(&proof, "known.pH", named, 1e-9);
}

#[test]
fn a_powder_of_a_stated_purity_is_still_no_liquid() {
    let proof = proofed_page(&bath("stop", "stop", &["citric acid, anhydrous 99 % w/w: 3 tsp"]));
    assert!(
        proof
            .findings
            .iter()
            .any(|finding| finding.rule.as_str() == "spoon-without-grams")
    );
}

#[test]
fn a_juice_told_by_what_a_litre_holds_needs_neither_spoon_nor_density() {
    let juice = |name: &str, contains: &str, more: &str| {
        format!("```ingredient\nmaterial: {name}\ncontains: {{{contains}}}\n{more}```\n")
    };
    let page = [
        juice("sorrel juice", "citric acid, anhydrous: 45–60 g/l", ""),
        juice(
            "sorrel pressing",
            "citric acid, anhydrous: 4.5–6 % w/v",
            "form: liquid\n",
        ),
        juice(
            "weighed juice",
            "citric acid, anhydrous: 45–60 g/l",
            "density: 1.02 g/ml\n",
        ),
        juice(
            "sorrel pulp",
            "citric acid, anhydrous: 4.5–6 % w/w",
            "form: liquid\n",
        ),
        bath("juice", "stop", &["sorrel juice: 250 ml"]),
        bath("pressing", "stop", &["sorrel pressing: 250 ml"]),
        bath("weighed", "stop", &["weighed juice: 250 ml"]),
        bath("pulp", "stop", &["sorrel pulp: 250 ml"]),
        // By hand: a quarter of a litre of 45 to 60 g in a litre.
        bath("dry", "stop", &["citric acid, anhydrous: 11.25–15 g"]),
    ]
    .concat();
    let proof = proofed_page(&page);
    let (low, best, high) = number(&proof, "dry.pH");
    for bath in ["juice", "pressing", "weighed"] {
        let found = number(&proof, &format!("{bath}.pH"));
        for (found, wanted) in [(found.0, low), (found.1, best), (found.2, high)] {
            assert!((found - wanted).abs() < 0.005, "{bath}: {found}, not {wanted}");
        }
    }
    assert!(gap(&proof, "pulp.pH").contains("give its `contains` in g/l, or its `density`"));
}

#[test]
fn acetic_acid_by_mass_weighs_what_its_strength_weighs_and_says_its_basis() {
    let page = [
        bath("strong", "stop", &["acetic acid 80 % w/w: 12 ml"]),
        bath("grams", "stop", &["acetic acid 80 % w/v: 12.84 ml"]),
        bath("bare", "stop", &["acetic acid 28 %: 40 ml"]),
        bath("kitchen", "stop", &["vinegar 8 %: 125 ml"]),
    ]
    .concat();
    let proof = proofed_page(&page);
    // By hand: 12 ml of 1.070 g/ml (from memory of handbook tables, unverified) are 12.84 g, of which 80 % are 10.27 g.
    let (_, wanted, _) = number(&proof, "grams.pH");
    let (low, best, high) = number(&proof, "strong.pH");
    assert!(
        (best - wanted).abs() < 0.002 && low < high,
        "{best}, not {wanted}"
    );
    let asked = proof
        .findings
        .iter()
        .filter(|finding| finding.rule.as_str() == "percent-without-basis");
    let asked: Vec<&str> = asked.map(|finding| finding.message.as_str()).collect();
    assert_eq!(asked, ["`acetic acid 28 %`: per cent by mass or by volume?"]);
}

#[test]
fn a_bottle_on_the_shelf_does_not_thin_what_a_recipe_weighs() {
    let shelf = "shelf:\n  - material: citric acid, anhydrous 25 % w/v\n    pack: 500 ml\n";
    let page = bath("stop", "stop", &["citric acid, anhydrous: 15 g"]);
    let proof = proofed_page(&format!("{USUAL}{shelf}---8<---\n{page}"));
    near(&proof, "stop.strength.citric-acid-anhydrous", 15.0, 1e-9);
    // By hand: 15 g in a litre, as grams to the mole.
    near(&proof, "stop.molar.citric-acid-anhydrous", 15.0 / 192.124, 1e-5);
}
