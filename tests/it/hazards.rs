//! What must never be mixed, under the names and formulas that people write, and what looks alike and is no hazard.

use trayside::finding::{Finding, Grade};

use crate::support::proofed_page;

/// A bath of one part.
fn bath(role: &str, add: &[&str]) -> String {
    let add = add.join("\n  ");
    format!(
        "```recipe\nid: b\nrole: {role}\nmakes: 1 l\nwater: 700 ml\nadd:\n  {add}\nuse:\n  time: 30 s\nkeeps: 1 h\nwaste: ask first\n```\n"
    )
}

/// A bath of two parts, the second poured into the first.
fn two(first: &str, second: &str, vessel: &str) -> String {
    format!(
        "```recipe\nid: b\nrole: developer\nmakes: 1 l\nparts:\n  - name: first\n    water: 500 ml at 20 °C\n    add:\n      {first}\n  \
         - name: second\n    water: 300 ml at 20 °C\n    add:\n      {second}\nsteps:\n  - pour: [second, into first]\n{vessel}keeps: 1 h\n```\n"
    )
}

fn grade_of(page: &str, rule: &str) -> Option<Grade> {
    let proof = proofed_page(page);
    let found = proof
        .findings
        .iter()
        .filter(|finding| finding.rule.as_str() == rule);
    found.map(|finding: &Finding| finding.grade).min()
}

#[test]
fn what_injures_is_a_hazard_under_any_name() {
    for (rule, role, add) in [
        (
            "hypochlorite-with-acid",
            "stock",
            &["household bleach: 50 ml", "vinegar, 5 %: 50 ml"][..],
        ),
        ("hypochlorite-with-acid", "stock", &["NaOCl: 5 g", "H2Asc: 5 g"]),
        (
            "hypochlorite-with-acid",
            "stock",
            &["Ca(OCl)2: 5 g", "lemon juice: 50 ml"],
        ),
        ("hypochlorite-with-ammonia", "stock", &["NaOCl: 5 g", "NH3: 5 g"]),
        (
            "hypochlorite-with-ammonia",
            "stock",
            &["household bleach: 50 ml", "NH4Cl: 5 g"],
        ),
        (
            "acid-into-hypo",
            "fixer",
            &["Na2S2O3·5H2O: 200 g", "citric acid, anhydrous: 10 g"],
        ),
        (
            "acid-into-hypo",
            "fixer",
            &["hypo, crystals: 200 g", "lemon juice: 100 ml"],
        ),
        (
            "acid-into-hypo",
            "fixer",
            &["(NH4)2S2O3: 100 g", "vinegar, 5 %: 200 ml"],
        ),
        ("acid-into-sulfite", "stock", &["Na2SO3: 20 g", "HCl: 20 g"]),
        (
            "sulfide-with-acid",
            "stock",
            &["Na2S: 5 g", "citric acid, anhydrous: 5 g"],
        ),
        ("ferricyanide-with-acid", "stock", &["K3Fe(CN)6: 5 g", "HCl: 5 g"]),
        ("dichromate-present", "stock", &["K2Cr2O7: 5 g"]),
        ("acid-concentrated", "stock", &["H2SO4: 100 g"]),
    ] {
        assert_eq!(
            grade_of(&bath(role, add), rule),
            Some(Grade::Hazard),
            "{rule}: {add:?}"
        );
    }
}

#[test]
fn what_only_spoils_the_bath_is_none() {
    for (rule, role, add, grade) in [
        (
            "acid-into-sulfite",
            "stop",
            &["Na2S2O5: 20 g", "citric acid, anhydrous: 20 g"][..],
            Grade::Doubt,
        ),
        (
            "oxidiser-with-developer",
            "developer",
            &["Na2CO3: 30 g", "H2Asc: 10 g", "H2O2: 5 g"],
            Grade::Fault,
        ),
        (
            "oxidiser-with-developer",
            "fixer",
            &["KMnO4: 3 g", "hypo, crystals: 100 g"],
            Grade::Fault,
        ),
        ("caustic-present", "stock", &["KOH: 10 g"], Grade::Doubt),
        (
            "baking-soda-alone",
            "developer",
            &["NaHCO3: 50 g", "H2Asc: 16 g"],
            Grade::Fault,
        ),
        ("stop-not-acid", "stop", &["NaHCO3: 10 g"], Grade::Fault),
        (
            "vitamin-c-over-soda",
            "developer",
            &["Na2CO3: 20 g", "H2Asc: 30 g"],
            Grade::Fault,
        ),
        (
            "caustic-used-up",
            "developer",
            &["NaOH: 2 g", "H2Asc: 16 g"],
            Grade::Fault,
        ),
        (
            "effervescent-tablets",
            "developer",
            &["Na2CO3: 30 g", "effervescent vitamin C tablets: 10 × 1 g"],
            Grade::Fault,
        ),
        (
            "baking-powder",
            "developer",
            &["baking powder: 30 g", "H2Asc: 10 g"],
            Grade::Fault,
        ),
        (
            "solubility-exceeded",
            "developer",
            &["Na2B4O7·10H2O: 60 g", "NaAsc: 10 g"],
            Grade::Fault,
        ),
        ("solubility-exceeded", "stock", &["Na3PO4: 10 kg"], Grade::Fault),
        (
            "solubility-exceeded",
            "stock",
            &["Na2CO3: 30 mol/kg"],
            Grade::Fault,
        ),
        (
            "alum-in-alkali",
            "fixer",
            &["hypo, crystals: 200 g", "KAl(SO4)2·12H2O: 10 g", "Na2CO3: 10 g"],
            Grade::Hint,
        ),
        ("water-over-makes", "stop", &["lemon juice: 2 l"], Grade::Fault),
    ] {
        assert_eq!(grade_of(&bath(role, add), rule), Some(grade), "{rule}: {add:?}");
    }
}

#[test]
fn order_and_vessel_make_a_hazard_or_none() {
    let (soda, acid) = ("washing soda, anhydrous: 50 g", "vitamin C powder: 16 g");
    assert_eq!(
        grade_of(&two(acid, soda, ""), "soda-into-acid"),
        Some(Grade::Doubt)
    );
    assert_eq!(grade_of(&two(soda, acid, ""), "soda-into-acid"), None);
    assert_eq!(
        grade_of(&two(soda, acid, "    vessel: capped bottle\n"), "gas-confined"),
        Some(Grade::Hazard)
    );
    assert_eq!(
        grade_of(&two(soda, acid, "    vessel: 3 l jug\n"), "gas-confined"),
        None
    );
    let warm = two("NaOH: 4 g", acid, "").replacen("20 °C", "45 °C", 1);
    assert_eq!(grade_of(&warm, "caustic-into-warm"), Some(Grade::Hazard));
    assert_eq!(grade_of(&two("NaOH: 4 g", acid, ""), "caustic-into-warm"), None);
}

#[test]
fn a_hazard_is_acknowledged_and_never_silenced() {
    let page = bath("stock", &["NaOCl: 5 g", "citric acid, anhydrous: 5 g"]);
    let page = page.replace(
        "keeps: 1 h",
        "keeps: 1 h\nacknowledge:\n  hypochlorite-with-acid: shown in a closed hood",
    );
    assert_eq!(grade_of(&page, "hypochlorite-with-acid"), Some(Grade::Hazard));
}

#[test]
fn a_bath_that_cannot_be_says_what_is_wrong() {
    for (amount, rule) in [
        ("water: 700 ml\nadd:\n  Na2CO3: -30 g", "amount-out-of-range"),
        ("water: 0 ml\nadd:\n  Na2CO3: 30 g", "water-missing"),
        ("water: 700 ml\nadd:\n  Na2Q3: 30 g", "formula-malformed"),
        (
            "water: 700 ml\nadd:\n  washing soda, anhydrous: 10 kg",
            "solubility-exceeded",
        ),
    ] {
        let page = format!("```recipe\nid: b\nrole: stock\nmakes: 1 l\n{amount}\nkeeps: 1 h\n```\n");
        assert_eq!(grade_of(&page, rule), Some(Grade::Fault), "{amount}");
        let proof = proofed_page(&page);
        let why = proof.facts.get("b", "pH").expect("says why").value.clone();
        assert!(why.is_err_and(|why| !why.is_empty()), "{amount}");
    }
}
