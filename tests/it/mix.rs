//! Weighing out: what the sheet of `mix` says, against numbers worked from molar masses and by hand.

use std::process::{Command, Output};

use proptest::prelude::*;
use trayside::chem::{Component, equal_mass};
use trayside::facts::Value;
use trayside::host::Memory;
use trayside::pipeline::{Proof, SETTINGS};
use trayside::scale::rounding;
use trayside::units::scalar::{Mass, Time};
use trayside::units::{Dimension, Style, parse};
use trayside::views::against::against;
use trayside::views::class::{Class, ClassSheet, class};
use trayside::views::weighing::{Row, Sheet, Source, Target, litres_of, sheet};

use crate::support::{proofed, proofed_page, seen};

// Standard atomic weights (Prohaska et al. 2022): g/mol.
const SODA: f64 = 105.988;
const MONOHYDRATE: f64 = 124.003;
const CRYSTALS: f64 = 286.141;
const HYPO: f64 = 248.184;
const HYPO_DRY: f64 = 158.108;

fn near(found: f64, wanted: f64, within: f64) {
    assert!(
        (found - wanted).abs() <= within,
        "{found} is not {wanted} within {within}"
    );
}

/// A notebook with a scale, a shelf and one page.
fn notebook(scale: &str, shelf: &str, page: &str) -> Proof {
    let settings = format!(
        "format: 1\ntitle: Weighing\nzone: Europe/Lisbon\nroom: 20 °C\nscale: {scale}\nspoons: [15 ml, 5 ml]\n\
         trays:\n  - name: middle\n    inside: 220×270 mm\n    depth: 40 mm\n{shelf}"
    );
    proofed(&Memory::new().with(SETTINGS, settings).with("page.md", page))
}

fn target(target: &Target, id: &str, proof: &Proof) -> Result<(f64, String), String> {
    litres_of(target, proof.facts.baths.get(id).unwrap(), &proof.notebook)
}

fn mixed(proof: &Proof, id: &str, litres: f64) -> Sheet {
    let (block, _) = proof.notebook.recipe(id).unwrap();
    let bath = proof.facts.baths.get(id).unwrap();
    sheet(source(proof), block, bath, litres, String::new()).unwrap()
}

fn source(proof: &Proof) -> Source<'_> {
    Source {
        notebook: &proof.notebook,
        facts: &proof.facts,
        findings: &proof.findings,
    }
}

fn row<'s>(sheet: &'s Sheet, material: &str) -> &'s Row {
    let mut rows = sheet.groups.iter().flat_map(|group| &group.rows);
    rows.find(|row| row.material == material)
        .unwrap_or_else(|| panic!("no {material} in {sheet:#?}"))
}

fn plain(text: &str) -> String {
    text.replace('\u{a0}', " ")
}

fn amount(text: &str, dimension: Dimension) -> trayside::units::Amount {
    parse(text, &[dimension], Style::default()).unwrap()
}

const DEVELOPER: &str = "
```recipe
id: dev
role: developer
makes: 1 l
parts:
  - name: alkali
    water: 400 ml at 24 °C
    add:
      washing soda, anhydrous: 50 g
    steps:
      - dissolve: 5 min
  - name: agent
    water: 200 ml at 24 °C
    add:
      vitamin C powder: 15 g
    steps:
      - dissolve: 2 min
steps:
  - pour: [agent, into alkali]
  - make up
use:
  time: 4 min
keeps: 1 h
```
";

// Question 1: the packet says soda crystals, the card says 50 g.
#[test]
fn crystals_are_weighed_for_the_dry_powder() {
    let crystals = notebook("1 g", "shelf:\n  - material: washing soda, crystals\n", DEVELOPER);
    let found = mixed(&crystals, "dev", 1.0);
    let soda = row(&found, "washing soda, crystals");
    near(soda.wanted.unwrap(), 50.0 * CRYSTALS / SODA, 0.05);
    assert_eq!(soda.grams, Some(135.0));
    let notes = plain(&soda.notes.join("\n"));
    assert!(
        notes.contains("does the work of 50 g of washing soda, anhydrous"),
        "{notes}"
    );
    assert!(notes.contains("85 g of it is water"), "{notes}");
    // 50 g of crystals hold 18.5 g of real soda, 37 %.
    assert!(notes.contains("50 g of crystals would be 18.5 g"), "{notes}");
    assert!(notes.contains("37 %"), "{notes}");
    let mono = notebook(
        "0.1 g",
        "shelf:\n  - material: washing soda, monohydrate\n",
        DEVELOPER,
    );
    let found = mixed(&mono, "dev", 1.0);
    near(
        row(&found, "washing soda, monohydrate").wanted.unwrap(),
        50.0 * MONOHYDRATE / SODA,
        0.02,
    );
}

#[test]
fn what_has_a_price_is_counted_without_the_rest() {
    let shelf =
        "shelf:\n  - material: washing soda, anhydrous\n    pack: 500 g\n    left: 0 g\n    price: 5\n";
    let proof = notebook("1 g", shelf, DEVELOPER);
    let who = Class {
        people: 10,
        each: 1,
        spare_percent: 0.0,
        load: None,
        trays: 1,
        lasts: None,
    };
    let found = reckoned(&proof, "dev", who, 1.0);
    let cost = plain(&found.cost.join("\n"));
    // 50 g of a pack of 500 g at 5, over ten sheets; and the whole pack.
    assert!(
        cost.contains("What has a price: used 0.50 in all, 0.05 a sheet; to buy in whole packs 5.00 in all, 0.50 a sheet."),
        "{cost}"
    );
    // All that has no price stands in one line.
    let gaps: Vec<&str> = cost.lines().filter(|line| line.contains("Not counted")).collect();
    assert_eq!(
        gaps,
        [
            "Not counted: `vitamin C powder` has no price: give its packet `pack` and `price`; \
          the paper has no price: put it on the shelf with `pack: 25 sheets` and `price`."
        ]
    );
    assert_eq!(found.used_per_sheet, None);
    let bare = reckoned(&notebook("1 g", "", DEVELOPER), "dev", who, 1.0);
    let bare = plain(&bare.cost.join("\n"));
    assert!(
        bare.starts_with(
            "Not counted: `washing soda, anhydrous` and `vitamin C powder` have no price: give each packet"
        ) && bare.lines().count() == 1,
        "{bare}"
    );
}

#[test]
fn what_runs_out_in_a_session_to_come_is_a_hint() {
    let page = |baths: &str, result: &str| {
        format!(
            "{DEVELOPER}\n```process\nid: line\nsteps:\n  - bath: dev\n    time: 4 min\n    light: red\n  - wash: tap water\n    time: 5 min\n```\n\n\
             ```exposure\nid: pier\nwhen: 2031-05-02 11:20\n{result}```\n\n```batch\nid: mixed\nof: dev\nmade: 2031-05-09 18:30\nvolume: 1 l\n```\n\n\
             ```session\nid: next\nwhen: 2031-05-09 19:00\nprocess: line\n{baths}sheets: pier\n```\n"
        )
    };
    let told = |left: &str, baths: &str, result: &str| {
        let shelf =
            format!("shelf:\n  - material: washing soda, crystals\n    pack: 1 kg\n    left: {left}\n");
        let all = seen(&notebook("1 g", &shelf, &page(baths, result)));
        let own = all.into_iter().find(|finding| finding.rule == "shelf-short");
        own.map(|finding| plain(&finding.message))
    };
    let short = told("100 g", "", "").unwrap();
    assert_eq!(
        short,
        "`washing soda, crystals` runs out: this session takes 135 g, and 100 g is left"
    );
    assert_eq!(told("135 g", "", ""), None);
    assert_eq!(told("100 g", "baths:\n  dev: mixed\n", ""), None);
    assert_eq!(told("100 g", "", "result: right\n"), None);
}

#[test]
fn a_renamed_packet_on_the_shelf_is_weighed_from_all_the_same() {
    let tin = "```ingredient\nmaterial: the blue tin\nformula: Na2CO3·10H2O\nsource: label\n```\n\n";
    let proof = notebook(
        "1 g",
        "shelf:\n  - material: the blue tin\n",
        &format!("{tin}{DEVELOPER}"),
    );
    let found = mixed(&proof, "dev", 1.0);
    assert_eq!(row(&found, "the blue tin").grams, Some(135.0));
}

// Question 2, and the rows QP10 to QP12 of the published quantities: masses that stand for one another.
#[test]
fn weights_that_stand_for_one_another() {
    let equal = |from: &str, grams: f64, to: &str| {
        let (from, to) = (Component::named(from).unwrap(), Component::named(to).unwrap());
        equal_mass(&from, Mass::from_grams(grams), &to).unwrap().grams()
    };
    near(equal("Na2CO3", 50.0, "Na2CO3·10H2O"), 135.0, 0.2);
    near(equal("NaHCO3", 100.0, "Na2CO3") / 2.0, 63.08, 0.1);
    near(equal("C6H8O6", 16.0, "NaC6H7O6"), 18.0, 0.05);
}

// Question 8: how much vinegar for a litre at 2 %.
#[test]
fn vinegar_of_any_strength_brings_the_same_acid() {
    let page = "```recipe\nid: stop\nrole: stop\nmakes: 1 l\nadd:\n  vinegar 5 %: 400 ml\nkeeps: 12 h\n```\n";
    for (percent, wanted) in [(5.0, 400.0), (6.0, 333.3), (8.0, 250.0), (10.0, 200.0)] {
        let shelf = format!("shelf:\n  - material: vinegar {percent} %\n    left: 1 l\n");
        let proof = notebook("1 g", &shelf, page);
        let found = mixed(&proof, "stop", 1.0);
        let row = row(&found, &format!("vinegar {percent} %"));
        let millilitres = amount(&plain(&row.amount), Dimension::Volume).range.best * 1000.0;
        near(millilitres, wanted, 0.5);
        // Half of that for a weak stop.
        let half = mixed(&proof, "stop", 0.5);
        let takes = amount(&plain(&half.shelf[0].takes), Dimension::Volume).range.best * 1000.0;
        near(takes, wanted / 2.0, 0.5);
    }
}

// Question 11: how much hypo.
#[test]
fn dry_hypo_does_the_work_of_more_crystals() {
    let page = "```recipe\nid: fix\nrole: fixer\nmakes: 1 l\nadd:\n  hypo, crystals: 200 g\nuse:\n  capacity: 25000 cm2/l\n\
                keeps: 12 weeks\n```\n```paper\nid: p\nbase: RC\nsize: 100×125 mm\n```\n";
    let proof = notebook("1 g", "shelf:\n  - material: hypo, anhydrous\n", page);
    let found = mixed(&proof, "fix", 1.0);
    let hypo = row(&found, "hypo, anhydrous");
    near(hypo.wanted.unwrap(), 200.0 * HYPO_DRY / HYPO, 0.02);
    assert_eq!(hypo.grams, Some(127.0));
    // 25000 cm² to the litre are 200 sheets of 10 × 12.5 cm.
    let (litres, _) = target(&Target::Sheets(50), "fix", &proof).unwrap();
    near(litres, 0.25, 1e-12);
}

fn reckoned(proof: &Proof, id: &str, who: Class, litres: f64) -> ClassSheet {
    let (block, _) = proof.notebook.recipe(id).unwrap();
    let bath = proof.facts.baths.get(id).unwrap();
    class(source(proof), block, bath, who, (litres, String::new())).unwrap()
}

// Question 6: twelve people, three negatives and one print each, two to a load.
#[test]
fn a_class_of_twelve() {
    let page = "```recipe\nid: dev\nrole: developer\nmakes: 1 l\nadd:\n  washing soda, anhydrous: 36 g\n  vitamin C powder: 12 g\n  \
                bramble leaf, fresh: 120 g\nuse:\n  time: 4 min\nkeeps: 1 h\n```\n";
    let shelf = "shelf:\n  - material: washing soda, anhydrous\n    pack: 500 g\n    left: 100 g\n    price: 4\n  \
                 - material: vitamin C powder\n    pack: 30 g\n    left: 0 g\n    price: 3\n  \
                 - material: bramble leaf, fresh\n    pack: 1 kg\n    price: 0\n  \
                 - material: plain paper\n    pack: 25 sheets\n    left: 10 sheets\n    price: 10\n";
    let proof = notebook("0.1 g", shelf, page);
    let twelve = Class {
        people: 12,
        each: 4,
        spare_percent: 0.0,
        load: Some(2),
        trays: 2,
        lasts: None,
    };
    // 24 loads of four and a half minutes are 108, and 54 in each of two trays: one fill of each will do.
    let short = reckoned(&proof, "dev", twelve, 0.8);
    assert_eq!((short.sheets, short.fills), (48, 2));
    let told = plain(&short.reckoning.join("\n"));
    assert!(
        told.contains("24 loads of 2") && told.contains("54 min in 2 trays"),
        "{told}"
    );
    // One tray takes 108 minutes, which is longer than the bath lives.
    let one_tray = reckoned(&proof, "dev", Class { trays: 1, ..twelve }, 0.8);
    assert_eq!(one_tray.fills, 2);
    // In use from minute 35 to minute 130, with negatives and prints: two fills of each tray.
    let evening = Class {
        lasts: Some(Time::from_minutes(95.0)),
        ..twelve
    };
    let evening = reckoned(&proof, "dev", evening, 0.8);
    assert_eq!(evening.fills, 4);
    near(evening.litres, 3.2, 1e-12);
    let needs: Vec<String> = evening.shopping.iter().map(|line| plain(&line.needs)).collect();
    assert_eq!(needs, ["115.2 g", "38.4 g", "384 g", "48 sheets"]);
    let packs: Vec<Option<u64>> = evening.shopping.iter().map(|line| line.packs).collect();
    // 15.2 g of soda are missing, 38.4 g of vitamin C in packs of 30, 38 sheets in packs of 25.
    assert_eq!(packs, [Some(1), Some(2), Some(0), Some(2)]);
    // Bought: 4 + 6 + 0 + 20. Used: 115.2/500·4 + 38.4/30·3 + 48/25·10.
    near(evening.bought_per_sheet.unwrap(), 30.0 / 48.0, 1e-12);
    near(
        evening.used_per_sheet.unwrap(),
        (0.9216 + 3.84 + 19.2) / 48.0,
        1e-9,
    );
    let hurried = Class {
        lasts: Some(Time::from_minutes(20.0)),
        ..twelve
    };
    let (block, _) = proof.notebook.recipe("dev").unwrap();
    let bath = proof.facts.baths.get("dev").unwrap();
    let refused = class(source(&proof), block, bath, hurried, (0.8, String::new())).unwrap_err();
    assert!(refused.contains("more trays, or larger loads"), "{refused}");
}

#[test]
fn the_volume_follows_tray_sheets_and_packet() {
    let proof = notebook("1 g", "shelf:\n  - material: washing soda, crystals\n", DEVELOPER);
    let tray = |depth: &str| Target::Tray {
        name: "middle".to_owned(),
        depth: Some(amount(depth, Dimension::Length)),
    };
    near(target(&tray("12 mm"), "dev", &proof).unwrap().0, 0.7128, 1e-9);
    assert!(
        target(&tray("60 mm"), "dev", &proof)
            .unwrap_err()
            .contains("would run over")
    );
    let limit = |material: &str, text: &str, dimension| Target::Limit {
        material: material.to_owned(),
        amount: amount(text, dimension),
    };
    // 81 g of crystals are 30 g of soda, and 50 g make a litre.
    let (litres, _) = target(
        &limit("washing soda, crystals", "81 g", Dimension::Mass),
        "dev",
        &proof,
    )
    .unwrap();
    near(litres, 81.0 / CRYSTALS * SODA / 50.0, 1e-4);
    let (litres, _) = target(
        &limit("washing soda, anhydrous", "25 g", Dimension::Mass),
        "dev",
        &proof,
    )
    .unwrap();
    near(litres, 0.5, 1e-12);
    for (bad, told) in [
        (
            limit("vitamin D powder", "5 g", Dimension::Mass),
            "did you mean `vitamin C powder`?",
        ),
        (limit("oats", "5 g", Dimension::Mass), "holds no `oats`"),
        (
            limit("vitamin C powder", "2 tsp", Dimension::Volume),
            "is no liquid",
        ),
        (Target::Sheets(4), "does not say what it takes"),
        (Target::Sheets(0), "no sheets"),
        (
            Target::Volume(amount("2000 l", Dimension::Volume)),
            "more than anyone mixes",
        ),
    ] {
        let why = target(&bad, "dev", &proof).unwrap_err();
        assert!(why.contains(told), "{why}");
    }
}

#[test]
fn what_is_left_and_what_runs_out() {
    let shelf = "shelf:\n  - material: washing soda, crystals\n    left: 100 g\n  - material: vitamin C powder\n    left: 20 g\n";
    let proof = notebook("1 g", shelf, DEVELOPER);
    let found = mixed(&proof, "dev", 1.0);
    assert_eq!(
        plain(found.shelf[0].short.as_deref().unwrap()),
        "runs out: 35 g short"
    );
    assert_eq!(plain(&found.shelf[1].left), "5 g");
    assert_eq!(
        found.shelf[1].short.as_deref(),
        Some("not enough for another mix")
    );
    assert!(
        found.water.iter().any(|line| plain(line).contains("3 l or more")),
        "{:?}",
        found.water
    );
}

#[test]
fn tablets_come_whole() {
    let page = "```ingredient\nmaterial: vitamin C tablets\nform: tablet\ntablet: 500 mg\nsource: label\n```\n\
                ```recipe\nid: tab\nrole: developer\nmakes: 1 l\nadd:\n  vitamin C tablets: 7 × 500 mg tablets\n  \
                washing soda, anhydrous: 36 g\nkeeps: 1 h\n```\n";
    let shelf = "shelf:\n  - material: vitamin C tablets\n    pack: 100 tablets\n";
    let found = mixed(&notebook("1 g", shelf, page), "tab", 0.5);
    let row = row(&found, "vitamin C tablets");
    // 3.5 tablets are wanted.
    assert_eq!(plain(&row.amount), "4 × 500 mg");
    near(row.off_percent.unwrap(), 100.0 * (4.0 / 3.5 - 1.0), 1e-9);
    assert_eq!(found.shelf[0].left, "96 tablets");
}

#[test]
fn a_spoon_of_powder_has_grams_beside_it_and_a_spoon_of_liquid_has_not() {
    let page = "```ingredient\nmaterial: plain salt\nformula: NaCl\ndensity: 1.1 g/ml\nsource: weighed\n```\n\
                ```recipe\nid: mixed\nrole: stop\nmakes: 1 l\nadd:\n  plain salt: 2 tsp\n  vinegar 5 %: 2 tbsp\nkeeps: 1 h\n```\n";
    let found = mixed(&notebook("1 g", "", page), "mixed", 1.0);
    let notes = plain(&row(&found, "plain salt").notes.join("\n"));
    assert!(notes.contains("11 g by the spoon"), "{notes}");
    let vinegar = row(&found, "vinegar 5 %");
    assert!(
        vinegar.notes.is_empty() && vinegar.wanted.is_none(),
        "{vinegar:?}"
    );
}

#[test]
fn a_vessel_keeps_its_article_and_gets_one_where_it_has_none() {
    for (vessel, told) in [
        ("an open jug of 3 l", "in an open jug of 3 l"),
        ("3 l jug", "in a 3 l jug"),
        ("8 l bucket", "in an 8 l bucket"),
    ] {
        let recipe = format!(
            "```recipe\nid: aid\nrole: wash aid\nmakes: 1 l\nwater: 500 ml\nadd:\n  washing soda, anhydrous: 10 g\nsteps:\n  \
             - dissolve: 3 min\n    vessel: {vessel}\n  - make up\nkeeps: 1 h\n```\n"
        );
        let proof = notebook("0.1 g", "", &recipe);
        for (litres, more) in [(1.0, ""), (0.5, " for 1 l")] {
            let sheet = mixed(&proof, "aid", litres);
            assert_eq!(plain(&sheet.steps[0].note), format!("{told}{more}"));
        }
    }
}

#[test]
fn two_recipes_differ_in_words() {
    let page = format!(
        "{DEVELOPER}\n```recipe\nid: other\nbased on: dev\nparts:\n  - name: alkali\n    add:\n      washing soda, anhydrous: 0 g\n      \
         washing soda, crystals: 135 g\n  - name: agent\n    steps:\n      - dissolve: 4 min\nuse:\n  time: 6 min\n```\n"
    );
    let proof = notebook("1 g", "", &page);
    let one = |id: &str| {
        (
            proof.notebook.recipe(id).unwrap().0,
            proof.facts.baths.get(id).unwrap(),
        )
    };
    let found = against(&proof.notebook, one("dev"), one("other"));
    let what: Vec<&str> = found
        .differences
        .iter()
        .map(|difference| difference.what.as_str())
        .collect();
    assert_eq!(
        what,
        ["washing soda, anhydrous", "steps that only one has", "time"]
    );
    assert_eq!(
        found.differences[0].note,
        "another form, as much of the substance"
    );
    assert_eq!(
        plain(&found.differences[0].other),
        "135 g/l of washing soda, crystals"
    );
    let same = against(&proof.notebook, one("dev"), one("dev"));
    assert_eq!(same.differences, []);
}

#[test]
fn cost_is_the_used_part_of_each_pack() {
    let shelf = "shelf:\n  - material: washing soda, crystals\n    pack: 1 kg\n    price: 2.40 EUR\n  \
                 - material: vitamin C powder\n    pack: 250 g\n    price: 7.50 EUR\n";
    let proof = notebook("1 g", shelf, DEVELOPER);
    let Ok(Value::Number(cost)) = &proof.facts.named("dev.cost").unwrap().value else {
        panic!("no cost");
    };
    near(cost.best, 0.0024 * 50.0 * CRYSTALS / SODA + 0.03 * 15.0, 1e-4);
    let gap = |shelf: &str| {
        let proof = notebook("1 g", shelf, DEVELOPER);
        proof.facts.named("dev.cost").unwrap().value.clone().unwrap_err()
    };
    assert!(gap("").contains("`washing soda, anhydrous` has no price"));
    let two = gap(
        "shelf:\n  - material: washing soda, anhydrous\n    pack: 1 kg\n    price: 2.40 EUR\n  \
         - material: vitamin C powder\n    pack: 250 g\n    price: 7.50 CHF\n",
    );
    assert_eq!(two, "prices are in CHF and in EUR");
}

#[test]
fn bad_prices_and_circles_are_findings() {
    let negative = notebook("1 g", "shelf:\n  - material: plain salt\n    price: -2\n", "");
    assert!(
        seen(&negative)
            .iter()
            .any(|found| found.rule == "amount-out-of-range")
    );
    let circle = proofed_page(
        "```recipe\nid: a\nbased on: b\n```\n```recipe\nid: b\nbased on: c\n```\n```recipe\nid: c\nbased on: b\n```\n\
         ```recipe\nid: d\nbased on: d\n```\n",
    );
    let told: Vec<String> = seen(&circle)
        .into_iter()
        .filter(|found| found.rule == "based-on-circle")
        .map(|found| found.message)
        .collect();
    assert_eq!(
        told,
        [
            "`b` is in the end based on itself, by way of `c`, `b`",
            "`d` is based on itself"
        ]
    );
}

fn trayside(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_trayside"))
        .args(arguments)
        .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/recipes"))
        .output()
        .unwrap()
}

#[test]
fn bad_arguments_are_refused_in_words() {
    for (arguments, told) in [
        (&["mix", "spent-tea", "--volume", "0 ml"][..], "more than nothing"),
        (
            &["mix", "spent-tea", "--volume", "-3", "l"],
            "cannot be below zero",
        ),
        (
            &["mix", "spent-tea", "--volume", "600 g"],
            "a volume is wanted here",
        ),
        (&["mix", "spent-tea", "--limit", "oats: 5 g"], "holds no `oats`"),
        (
            &["mix", "spent-tea", "--limit", "oats"],
            "wants a material and an amount",
        ),
        (
            &["mix", "spent-tea", "--tray", "developper"],
            "did you mean `developer`?",
        ),
        (&["mix", "spend-tea"], "did you mean `spent-tea`?"),
        (&["mix", "class-line"], "is a process, not a recipe"),
        (
            &["mix", "spent-tea", "--class", "--people", "0"],
            "a class of no sheets",
        ),
        (
            &["mix", "spent-tea", "--class", "--spare", "lots"],
            "wants a percentage",
        ),
    ] {
        let out = trayside(arguments);
        let complaint = String::from_utf8(out.stderr).unwrap();
        assert_eq!(out.status.code(), Some(2), "{arguments:?}: {complaint}");
        assert!(complaint.contains(told), "{arguments:?}: {complaint}");
        assert!(out.stdout.is_empty());
    }
}

#[test]
fn the_sheet_is_eighty_columns_wide_and_says_the_same_as_json() {
    for id in [
        "spent-tea",
        "bramble-leaf",
        "plain-hypo",
        "vinegar-stop",
        "citric-stop",
        "sulphite-aid",
    ] {
        let out = trayside(&["mix", id, "--volume", "640", "ml"]);
        let text = plain(&String::from_utf8(out.stdout).unwrap());
        assert_eq!(out.status.code(), Some(0), "{id}");
        for line in text.lines() {
            assert!(line.chars().count() <= 80, "{id}: {line}");
            assert!(!line.ends_with(' '), "{id}: {line:?}");
        }
        let out = trayside(&["mix", id, "--volume", "640", "ml", "--format", "json"]);
        let json: serde_json::Value = serde_json::from_slice(&out.stdout).unwrap();
        assert_eq!(json["litres"], 0.64);
        for row in json["groups"]
            .as_array()
            .unwrap()
            .iter()
            .flat_map(|group| group["rows"].as_array().unwrap())
        {
            let (name, amount) = (
                plain(row["material"].as_str().unwrap()),
                plain(row["amount"].as_str().unwrap()),
            );
            assert!(
                text.lines()
                    .any(|line| line.contains(&name) && line.contains(&amount)),
                "{id}: {row}"
            );
        }
    }
}

/// For the same reason that it gets no card.
#[test]
fn a_recipe_that_teaches_a_mistake_is_not_mixed() {
    let out = trayside(&["mix", "draft-baking-soda"]);
    let complaint = String::from_utf8(out.stderr).unwrap();
    assert_eq!(out.status.code(), Some(1), "{complaint}");
    assert!(complaint.contains("is not mixed"), "{complaint}");
}

#[cfg(feature = "typst")]
#[test]
fn the_sheet_is_pressed_whole() {
    let press = trayside::press::Press::new();
    let proof = notebook(
        "0.1 g",
        "shelf:\n  - material: washing soda, crystals\n    left: 90 g\n",
        DEVELOPER,
    );
    let pressed = press.weighing(&mixed(&proof, "dev", 0.6), 148.0, 210.0);
    assert_eq!(pressed.faults, []);
    assert!(pressed.pdf.starts_with(b"%PDF"));
    let again = press.weighing(&mixed(&proof, "dev", 0.6), 148.0, 210.0);
    assert_eq!(pressed.pdf, again.pdf);
    if let Some(words) = crate::press::read::text(&pressed.pdf, &["-raw"]) {
        let words = plain(&words);
        assert!(
            words.contains("81.0 g") && words.contains("make up to"),
            "{words}"
        );
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn a_sheet_keeps_the_recipe(
        soda in 2.0..90.0_f64,
        agent in 1.0..30.0_f64,
        litres in 0.1..4.0_f64,
        step in prop::sample::select(vec![0.01, 0.1, 0.5]),
        form in prop::sample::select(vec![("anhydrous", SODA), ("monohydrate", MONOHYDRATE), ("crystals", CRYSTALS)]),
    ) {
        let page = format!(
            "```recipe\nid: dev\nrole: developer\nmakes: 1 l\nadd:\n  washing soda, anhydrous: {soda:.2} g\n  \
             vitamin C powder: {agent:.2} g\nkeeps: 1 h\n```\n"
        );
        let (soda, agent) = ((soda * 100.0).round() / 100.0, (agent * 100.0).round() / 100.0);
        let name = format!("washing soda, {}", form.0);
        let proof = notebook(&format!("{step} g"), &format!("shelf:\n  - material: {name}\n"), &page);
        let found = mixed(&proof, "dev", litres);
        let rows = [row(&found, &name), row(&found, "vitamin C powder")];
        let wanted = rows.map(|row| row.wanted.unwrap());
        // There and back is the same before rounding.
        prop_assert!((wanted[0] / litres * SODA / form.1 - soda).abs() < 1e-3 * soda);
        prop_assert!((wanted[1] / litres - agent).abs() < 1e-9 * agent);
        let mut weighed = Vec::new();
        for (row, wanted) in rows.into_iter().zip(wanted) {
            let Some(grams) = row.grams else { continue };
            // The error that is told is the real one.
            prop_assert!((row.off_percent.unwrap() - 100.0 * (grams - wanted) / wanted).abs() < 1e-9);
            prop_assert!((grams - wanted).abs() <= step + 1e-9);
            weighed.push((wanted, grams));
        }
        if let Some(grams) = rows[0].grams {
            // As many moles in the packet's form, within a step.
            prop_assert!((grams / form.1 - soda * litres / SODA).abs() <= step / form.1 + 1e-4 * soda);
        }
        if weighed.len() == 2 {
            let (wanted, weighed): (Vec<f64>, Vec<f64>) = weighed.into_iter().unzip();
            let apart = rounding::independently(&wanted, step);
            prop_assert!(rounding::spread(&wanted, &weighed) <= rounding::spread(&wanted, &apart) + 1e-8);
        }
    }
}
