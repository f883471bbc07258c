//! A recipe that is poured into another: its own materials are counted by the share of it that is taken.

use trayside::facts::Value;
use trayside::pipeline::Proof;

use crate::support::{proofed_page, seen};

fn number(proof: &Proof, name: &str) -> f64 {
    let fact = proof.facts.named(name);
    let fact = fact.unwrap_or_else(|| panic!("no fact {name}"));
    match &fact.value {
        Ok(Value::Number(range)) => range.best,
        other => panic!("{name} is {other:?}"),
    }
}

fn rules(proof: &Proof) -> Vec<&'static str> {
    seen(proof).into_iter().map(|finding| finding.rule).collect()
}

fn recipe(id: &str, role: &str, makes: &str, add: &[&str]) -> String {
    let add = add
        .iter()
        .map(|line| format!("  {line}\n"))
        .collect::<Vec<_>>()
        .concat();
    format!("```recipe\nid: {id}\nrole: {role}\nmakes: {makes}\nadd:\n{add}keeps: 1 h\nwaste: can\n```\n")
}

// 120 g in a litre: 300 ml of it hold 36 g. 60 g of acid in half a litre: 100 ml of it hold 12 g.
#[test]
fn a_stock_is_worth_what_it_holds() {
    let plain = proofed_page(&recipe(
        "d",
        "developer",
        "1 l",
        &["washing soda, anhydrous: 36 g", "vitamin C powder: 12 g"],
    ));
    let poured = proofed_page(
        &[
            recipe("soda-stock", "stock", "1 l", &["washing soda, anhydrous: 120 g"]),
            recipe("c-stock", "stock", "500 ml", &["vitamin C powder: 60 g"]),
            recipe(
                "d",
                "developer",
                "1 l",
                &["soda-stock: 300 ml", "c-stock: 100 ml"],
            ),
        ]
        .concat(),
    );
    for (name, off) in [
        ("d.pH", 0.005),
        ("d.electrons", 0.1),
        ("d.soda-to-vitamin-c", 0.005),
    ] {
        let (found, wanted) = (number(&poured, name), number(&plain, name));
        assert!((found - wanted).abs() < off, "{name}: {found} is not {wanted}");
    }
    assert!(
        !rules(&poured).contains(&"material-unknown"),
        "{:?}",
        rules(&poured)
    );
    assert!(
        !rules(&poured).contains(&"reductant-strange"),
        "{:?}",
        rules(&poured)
    );
}

// 500 ml of 240 g/l in a litre hold 120 g, and 300 ml of that hold 36 g.
#[test]
fn a_stock_of_a_stock_is_gone_through() {
    let proof = proofed_page(
        &[
            recipe("strong-soda", "stock", "1 l", &["washing soda, anhydrous: 240 g"]),
            recipe("soda-stock", "stock", "1 l", &["strong-soda: 500 ml"]),
            recipe(
                "poured",
                "developer",
                "1 l",
                &["soda-stock: 300 ml", "vitamin C powder: 12 g"],
            ),
            recipe(
                "plain",
                "developer",
                "1 l",
                &["washing soda, anhydrous: 36 g", "vitamin C powder: 12 g"],
            ),
        ]
        .concat(),
    );
    let (found, wanted) = (number(&proof, "poured.pH"), number(&proof, "plain.pH"));
    assert!((found - wanted).abs() < 0.005, "{found} is not {wanted}");
}

// 60 g/l of citric acid, 100 ml in a litre: 6 g, within 5 to 20 g; 50 ml hold 3 g, too few.
#[test]
fn rules_find_what_a_stock_brings() {
    let page = |poured: &str| {
        let stock = recipe("acid-stock", "stock", "1 l", &["citric acid, anhydrous: 60 g"]);
        proofed_page(&(stock + &recipe("s", "stop", "1 l", &[&format!("acid-stock: {poured}")])))
    };
    assert!(!rules(&page("100 ml")).contains(&"stop-strength"));
    assert!(rules(&page("50 ml")).contains(&"stop-strength"));
    let acid = recipe("acid-stock", "stock", "1 l", &["citric acid, anhydrous: 60 g"]);
    let bleach = recipe(
        "b",
        "bleach",
        "1 l",
        &["household bleach: 100 ml", "acid-stock: 300 ml"],
    );
    let found = proofed_page(&(acid + &bleach));
    assert!(
        rules(&found).contains(&"hypochlorite-with-acid"),
        "{:?}",
        rules(&found)
    );
}

#[test]
fn a_stock_that_tells_nothing_is_said() {
    let circle = [
        recipe("one", "stock", "1 l", &["two: 100 ml"]),
        recipe("two", "stock", "1 l", &["one: 100 ml"]),
    ];
    let itself = [recipe("one", "stock", "1 l", &["one: 100 ml"])];
    let plants = [
        recipe("hedge-brew", "stock", "1 l", &["rosemary, dried: 60 g"]),
        recipe(
            "d",
            "developer",
            "1 l",
            &["hedge-brew: 300 ml", "washing soda, anhydrous: 36 g"],
        ),
    ];
    for page in [circle.concat(), itself.concat(), plants.concat()] {
        let proof = proofed_page(&page);
        assert!(rules(&proof).contains(&"material-unknown"), "{:?}", rules(&proof));
    }
    let proof = proofed_page(&plants.concat());
    assert!(proof.facts.named("d.pH").unwrap().value.is_err());
}
