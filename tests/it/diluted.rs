//! Baths that are mixed strong and used thin: what is used is judged, what is mixed is weighed.

use trayside::pipeline::Proof;

use crate::support::{number, proofed_page, seen};

fn rules(proof: &Proof) -> Vec<&'static str> {
    seen(proof).into_iter().map(|finding| finding.rule).collect()
}

fn fixer(hypo: &str, dilution: &str) -> String {
    format!(
        "```recipe\nid: f\nrole: fixer\nmakes: 1 l\nadd:\n  hypo, crystals: {hypo}\nuse:\n  dilution: {dilution}\nkeeps: 12 weeks\nwaste: can\n```\n"
    )
}

fn stop(citric: &str, makes: &str, more: &str) -> String {
    format!(
        "```recipe\nid: s\nrole: stop\nmakes: {makes}\nadd:\n  citric acid, anhydrous: {citric}\n{more}keeps: 12 h\n```\n"
    )
}

// One part and one of water: half the strength. 160 g/l come to 80, below the 100 that a fixer needs at the least; 500 come
// to 250, which is neither weak nor too strong.
#[test]
fn a_fixer_is_as_strong_as_it_is_used() {
    let weak = proofed_page(&fixer("160 g", "1+1"));
    assert!(rules(&weak).contains(&"hypo-strength"), "{:?}", rules(&weak));
    let right = proofed_page(&fixer("500 g", "1+1"));
    assert!(!rules(&right).contains(&"hypo-strength"), "{:?}", rules(&right));
    let plain = proofed_page(&fixer("500 g", "1+0"));
    assert!(rules(&plain).contains(&"hypo-strength"), "{:?}", rules(&plain));
}

// 60 g in one litre at 1+3 are 15 g in one of the four litres that are used.
#[test]
fn a_stop_at_one_and_three_is_the_stop_of_a_quarter_the_strength() {
    let thin = proofed_page(&stop("60 g", "1 l", "use:\n  dilution: 1+3\n"));
    let plain = proofed_page(&stop("15 g", "1 l", ""));
    assert!(!rules(&thin).contains(&"stop-strength"), "{:?}", rules(&thin));
    let (found, wanted) = (number(&thin, "s.pH"), number(&plain, "s.pH"));
    assert!((found.1 - wanted.1).abs() < 0.01, "{found:?} is not {wanted:?}");
    let strong = number(&proofed_page(&stop("60 g", "1 l", "")), "s.pH");
    assert!(strong.1 < found.1 - 0.2, "{strong:?} {found:?}");
    let inputs = &thin.facts.named("s.pH").unwrap().inputs;
    assert!(inputs.iter().any(|input| input.name == "dilution"));
    // What is weighed is the stock's own.
    let weighed = number(&thin, "s.strength.citric-acid-anhydrous");
    assert!((weighed.1 - 60.0).abs() < 1e-9, "{weighed:?}");
}

// A quarter of a litre at 1+3 stands in the tray as one litre.
#[test]
fn a_line_goes_by_what_stands_in_its_trays() {
    let line = "```recipe\nid: d\nrole: developer\nmakes: 1 l\nadd:\n  washing soda, anhydrous: 36 g\n  vitamin C powder: 12 g\nkeeps: 1 h\n```\n```process\nid: l\npaper: RC\nsteps:\n  - bath: d\n    time: 4 min\n    light: red\n  - bath: s\n    time: 30 s\n```\n```paper\nid: p\nbase: RC\nsize: 100×125 mm\nspeed: 5\n```\n```batch\nid: m\nof: s\nmade: 2031-05-02 19:00\nvolume: VOLUME\n```\n";
    let page = |stop: String, volume: &str| proofed_page(&(stop + &line.replace("VOLUME", volume)));
    let thin = page(stop("15 g", "250 ml", "use:\n  dilution: 1+3\n"), "250 ml");
    let plain = page(stop("15 g", "1 l", ""), "1 l");
    for name in ["l.litres", "s.sheets-until-spent", "m.sheets-left"] {
        let (found, wanted) = (number(&thin, name), number(&plain, name));
        assert!(
            (found.1 - wanted.1).abs() <= 0.01 * wanted.1,
            "{name}: {found:?} is not {wanted:?}"
        );
    }
    assert!((number(&thin, "l.litres").1 - 2.0).abs() < 1e-9);
}

// The gas comes when it is mixed, before the water that would keep it: of the stock it is what it is undiluted.
#[test]
fn gas_is_that_of_the_mixing() {
    let recipe = |more: &str| {
        format!(
            "```recipe\nid: b\nrole: developer\nmakes: 1 l\nadd:\n  NaHCO3: 50 g\n  C6H8O6: 16 g\n{more}keeps: 1 h\n```\n"
        )
    };
    let plain = number(&proofed_page(&recipe("")), "b.gas");
    let thin = number(&proofed_page(&recipe("use:\n  dilution: 1+9\n")), "b.gas");
    assert!(
        plain.1 > 1000.0 && (plain.1 - thin.1).abs() < 1.0,
        "{plain:?} {thin:?}"
    );
}

// By the definition of 1+2 the bath that is used is a third of the strength, whatever the model says of 2.4 mol of hypo in a
// litre, which is beyond it.
#[test]
fn a_stock_beyond_the_model_still_gives_a_bath() {
    let acid = |hypo: &str, acid: &str, dilution: &str| {
        fixer(hypo, dilution).replace("use:", &format!("  sodium bisulfite: {acid}\nuse:"))
    };
    let thin = number(&proofed_page(&acid("600 g", "36 g", "1+2")), "f.pH");
    let plain = number(&proofed_page(&acid("200 g", "12 g", "1+0")), "f.pH");
    assert!((thin.1 - plain.1).abs() < 0.02, "{thin:?} is not {plain:?}");
}

// US Navy training manual 14209: acid sulfurises a fixer; below which pH is common practice, no source. A weak acid is the
// more acid the less it is diluted: by Ostwald's law half a unit of pH for ten times the strength, 0.15 for twice.
#[test]
fn a_fixer_is_judged_as_it_is_mixed_too() {
    let acid = |hypo: &str, acid: &str, dilution: &str| {
        fixer(hypo, dilution).replace("use:", &format!("  sodium bisulfite: {acid}\nuse:"))
    };
    let stock = proofed_page(&acid("400 g", "2 g", "1+1"));
    let seen = seen(&stock);
    let told = seen.iter().find(|one| one.rule == "fixer-sulfurises");
    assert!(
        told.is_some_and(|one| one.message.starts_with("undiluted")),
        "{seen:?}"
    );
    let used = proofed_page(&acid("200 g", "1 g", "1+0"));
    assert!(!rules(&used).contains(&"fixer-sulfurises"), "{:?}", rules(&used));
}
