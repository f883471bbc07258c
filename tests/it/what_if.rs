//! What would be: how much makes a pH, what one material is worth in another, what the oven made of a soda, what a wider
//! range does, and the plots of all that.

use std::process::Command;

use proptest::prelude::*;
use trayside::facts::Value;
use trayside::pipeline::Proof;
use trayside::views::baked::{Baked, baked};
use trayside::views::reach::{Reach, Wanted, reach};
use trayside::views::swap::{Swap, Worth, swap};
use trayside::views::weighing::Source;

use crate::support::proofed_page;

// Standard atomic weights (Prohaska et al. 2022): g/mol.
const ACETIC: f64 = 60.052;
const ANHYDROUS: f64 = 105.988;
const ASCORBATE: f64 = 198.106;
const ASCORBIC: f64 = 176.124;
const CITRIC: f64 = 192.124;
const CRYSTALS: f64 = 286.141;

/// A developer with its soda and acid in two parts, without a plant.
fn developer(id: &str, soda: &str, acid: &str) -> String {
    format!(
        "```recipe
id: {id}
role: developer
makes: 1 l
parts:
  - name: alkali
    water: 500 ml at 24 °C
    add:
      {soda}
  - name: agent
    water: 200 ml at 24 °C
    add:
      {acid}
steps:
  - pour: [agent, into alkali]
  - make up
use:
  temperature: 20 °C
  time: 3 min
keeps: 1 h
```
"
    )
}

fn stop(id: &str, acid: &str) -> String {
    format!(
        "```recipe\nid: {id}\nrole: stop\nmakes: 1 l\nadd:\n  {acid}\nuse:\n  temperature: 20 °C\n  time: 30 s\nkeeps: 1 day\n```\n"
    )
}

fn soda() -> String {
    developer("b", "washing soda, anhydrous: 36 g", "vitamin C powder: 12 g")
}

fn ph(proof: &Proof, id: &str) -> (f64, f64, f64) {
    let fact = proof.facts.get(id, "pH").expect("has a pH");
    match &fact.value {
        Ok(Value::Number(range)) => (range.low, range.best, range.high),
        other => panic!("{other:?}"),
    }
}

fn reached(proof: &Proof, material: &str, ph: f64) -> Result<Reach, String> {
    let (block, _) = proof.notebook.recipe("b").unwrap();
    let bath = proof.facts.baths.get("b").unwrap();
    let wanted = Wanted {
        ph,
        material,
        litres: 1.0,
    };
    reach(
        &proof.notebook,
        &proof.facts,
        &proof.findings,
        (block, bath),
        wanted,
    )
}

fn swapped(proof: &Proof, from: &str, to: &str) -> Result<Swap, String> {
    let (block, _) = proof.notebook.recipe("b").unwrap();
    let source = Source {
        notebook: &proof.notebook,
        facts: &proof.facts,
        findings: &proof.findings,
    };
    swap(
        source,
        (block, proof.facts.baths.get("b").unwrap()),
        (from, to),
        1.0,
    )
}

fn worth(page: &str, from: &str, to: &str) -> Worth {
    swapped(&proofed_page(page), from, to).unwrap().worth.unwrap()
}

fn oven(page: &str, before: f64, after: f64) -> Result<Baked, String> {
    let proof = proofed_page(page);
    let (block, _) = proof.notebook.recipe("b").unwrap();
    let bath = proof.facts.baths.get("b").unwrap();
    baked(&proof.notebook, &proof.facts, (block, bath), (before, after), 1.0)
}

fn near(found: f64, wanted: f64, within: f64) {
    assert!(
        (found - wanted).abs() <= within,
        "{found} is not {wanted} within {within}"
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    /// Weighed as the answer says, the bath has the pH that was asked for.
    #[test]
    fn what_was_asked_for_comes_out(tenths in 92_u32..105) {
        let wanted = f64::from(tenths) / 10.0;
        let answer = reached(&proofed_page(&soda()), "washing soda, anhydrous", wanted).unwrap().answer.unwrap();
        let grams = format!("washing soda, anhydrous: {} g", answer.amount);
        let proof = proofed_page(&developer("b", &grams, "vitamin C powder: 12 g"));
        let (low, best, high) = ph(&proof, "b");
        prop_assert!((best - wanted).abs() < 0.02, "{best}");
        prop_assert!((answer.after.low - low).abs() < 1e-6 && (answer.after.high - high).abs() < 1e-6);
        prop_assert!(answer.low <= answer.amount + 0.05 && answer.amount <= answer.high + 0.05);
    }
}

#[test]
fn acid_lowers_and_what_cannot_be_is_refused_with_a_reason() {
    let proof = proofed_page(&soda());
    let down = reached(&proof, "citric acid, anhydrous", 9.5)
        .unwrap()
        .answer
        .unwrap();
    assert!(down.change > 0.0 && down.do_this.starts_with("add "));
    let less = reached(&proof, "washing soda", 9.8).unwrap().answer.unwrap();
    assert!(less.change < 0.0 && less.do_this.contains("less"));
    for (material, wanted, says) in [
        ("washing soda, anhydrous", 12.5, "brings it no further"),
        ("citric acid, anhydrous", 11.0, "away from"),
        ("citric acid, anhydrous", 0.5, "no nearer"),
        ("borax", 9.2, "no nearer"),
        ("boric acid", 4.0, "does not dissolve at 20"),
        ("vinegar 8 %", 2.0, "no room"),
    ] {
        let found = reached(&proof, material, wanted).unwrap();
        let why = found
            .why
            .unwrap_or_else(|| panic!("{material} made {:?}", found.answer));
        assert!(why.contains(says), "{why}");
        assert!(!why.contains("kg"), "{why}");
        // What it says can be made, can be.
        let range = why.rsplit("pH ").next().unwrap();
        let (low, high) = range.split_once('–').unwrap();
        for end in [low, high].map(|end| end.parse::<f64>().unwrap()) {
            assert!(
                (0.0..=14.0).contains(&end) && (end - wanted).abs() > 0.04,
                "{why}"
            );
        }
        let (low, high): (f64, f64) = (low.parse().unwrap(), high.parse().unwrap());
        let within = reached(&proof, material, f64::midpoint(low, high)).unwrap();
        assert!(within.answer.is_some(), "{:?}", within.why);
    }
    for (material, says) in [("quixotite", "not known"), ("hypo", "which")] {
        assert!(reached(&proof, material, 9.0).unwrap_err().contains(says));
    }
    assert!(
        reached(&proof, "borax", 40.0)
            .unwrap_err()
            .contains("between 0 and 14")
    );
    let hypo = "```recipe\nid: b\nrole: fixer\nmakes: 1 l\nadd:\n  hypo, crystals: 200 g\nkeeps: 1 week\nwaste: kept\n```\n";
    let why = reached(&proofed_page(hypo), "NaOH", 8.0).unwrap().why.unwrap();
    assert!(why.contains("hold"), "{why}");
}

#[test]
fn a_hazard_that_the_amount_would_make_is_said() {
    let fixer = "```recipe\nid: b\nrole: fixer\nmakes: 1 l\nadd:\n  hypo, crystals: 200 g\n  borax: 5 g\nkeeps: 1 week\nwaste: kept\n```\n";
    let answer = reached(&proofed_page(fixer), "citric acid, anhydrous", 4.5)
        .unwrap()
        .answer
        .unwrap();
    assert!(
        answer
            .findings
            .iter()
            .any(|said| said.rule == "acid-into-hypo" && said.grade == "hazard"),
        "{:?}",
        answer.findings
    );
}

#[test]
fn the_same_salt_is_swapped_by_its_moles_and_an_agent_by_its_electrons() {
    let crystals = worth(&soda(), "washing soda, anhydrous", "washing soda, crystals");
    near(crystals.number, 36.0 * CRYSTALS / ANHYDROUS, 0.06);
    assert!(
        !crystals.changes.iter().any(|change| change.fact == "pH"),
        "{:?}",
        crystals.changes
    );
    let ascorbate = worth(&soda(), "vitamin C powder", "sodium ascorbate");
    // The powders are 99 % pure or better.
    near(ascorbate.number, 12.0 * ASCORBATE / ASCORBIC, 0.2);
    // The acid is gone, and the bath comes out more alkaline.
    let acidity = ascorbate
        .changes
        .iter()
        .find(|change| change.fact == "pH")
        .unwrap();
    assert_ne!(acidity.before, acidity.after);
    let sheet = ascorbate.sheet.unwrap();
    assert!(
        sheet
            .groups
            .iter()
            .flat_map(|group| &group.rows)
            .any(|row| row.material == "sodium ascorbate")
    );
    assert!(sheet.untested.is_some());
}

#[test]
fn baking_soda_is_not_worth_washing_soda_until_it_is_baked() {
    let found = swapped(&proofed_page(&soda()), "washing soda, anhydrous", "baking soda").unwrap();
    assert!(found.worth.is_none() && found.why.unwrap().contains("no amount"));
    let all = found.instead.join(" ").replace('\u{a0}', " ");
    // 2 NaHCO3 leave one Na2CO3: 36 g of it are left of 57.1 g.
    assert!(
        all.contains("The same weight") && all.contains("57.1 g") && all.contains("36.9 %"),
        "{all}"
    );
}

#[test]
fn acids_stand_for_one_another() {
    let citric = stop("b", "citric acid, anhydrous: 10 g");
    // Three acid hydrogens of citric acid against one of acetic: 187 ml of vinegar with 50 g in a litre.
    let vinegar = worth(&citric, "citric acid", "vinegar, 5 %");
    near(vinegar.number, 10.0 * 3.0 / CITRIC * ACETIC / 50.0 * 1000.0, 3.0);
    assert!(vinegar.kept.contains("as much acid"));
    // Lemon juice brings citric acid itself, 48 g in a litre (Penniston and others 2008), and so the same pH.
    let lemon = worth(&citric, "citric acid", "lemon juice");
    near(lemon.number, 10.0 / 48.0 * 1000.0, 3.0);
    assert!(lemon.kept.contains("same pH") && lemon.low < lemon.number && lemon.number < lemon.high);
    assert!(lemon.notes.iter().all(|note| note.contains("as much acid")));
    let back = worth(
        &stop("b", "vinegar, 5 %: 200 ml"),
        "vinegar",
        "citric acid, anhydrous",
    );
    assert!(
        back.number > 0.0
            && back.kept.contains("same pH")
            && back.notes.iter().any(|note| note.contains("as much acid"))
    );
}

#[test]
fn what_makes_no_sense_is_asked_back() {
    let proof = proofed_page(&soda());
    for (from, to, says) in [
        ("plain salt", "borax", "it holds"),
        ("washing soda, anhydrous", "hypo", "which"),
        ("washing soda, anhydrous", "quixotite", "not known"),
        ("vitamin C powdr", "borax", "did you mean"),
    ] {
        let why = swapped(&proof, from, to).unwrap_err();
        assert!(why.contains(says), "{why}");
    }
    let nothing = swapped(&proof, "vitamin C powder", "plain salt").unwrap();
    assert!(nothing.why.unwrap().contains("gives silver nothing"));
}

/// Losses by molar masses: baking soda 36.9 %, monohydrate 14.5 %, crystals 63.0 %.
#[test]
fn the_oven_tells_sodas_apart() {
    for (left, form) in [
        (63.1, "baking soda"),
        (85.5, "monohydrate"),
        (37.0, "crystals"),
        (99.5, "anhydrous"),
    ] {
        let found = oven(&soda(), 100.0, left).unwrap();
        assert!(found.says[1].contains(form), "{:?}", found.says);
    }
    let through = oven(&soda(), 100.0, 63.08).unwrap();
    near(through.grams.unwrap(), 36.0, 0.5);
    // Half baked it holds the bath far below what the recipe wants.
    let half = oven(&soda(), 100.0, 81.5).unwrap();
    assert!(half.amount.is_none() && half.why.unwrap().contains("bake on"));
    let nearly = oven(&soda(), 100.0, 64.0).unwrap();
    assert!(nearly.grams.unwrap() > through.grams.unwrap());
    assert!(oven(&soda(), 100.0, 110.0).is_err());
}

#[test]
fn a_wider_range_widens_its_own_bath_alone_and_is_named() {
    let pages = |soda: &str, acid: &str, stop_acid: &str| {
        let page = format!(
            "{}\n{}\n{}",
            developer("a", soda, "vitamin C powder: 12 g"),
            developer("b", "washing soda, anhydrous: 36 g", acid),
            stop("c", stop_acid)
        );
        proofed_page(&page)
    };
    let usual = (
        "washing soda, anhydrous: 30 g",
        "vitamin C powder: 12 g",
        "vinegar, 5 %: 150 ml",
    );
    let before = pages(usual.0, usual.1, usual.2);
    let cases = [
        (
            "a",
            "washing soda, anhydrous",
            pages("washing soda, anhydrous: 18–42 g", usual.1, usual.2),
        ),
        (
            "b",
            "vitamin C powder",
            pages(usual.0, "vitamin C powder: 4–20 g", usual.2),
        ),
        (
            "c",
            "vinegar, 5 %",
            pages(usual.0, usual.1, "vinegar, 5 %: 60–240 ml"),
        ),
    ];
    for (widened, names, after) in cases {
        for id in ["a", "b", "c"] {
            let (one, two) = (ph(&before, id), ph(&after, id));
            if id == widened {
                assert!(two.2 - two.0 > one.2 - one.0 + 0.05, "{id}: {one:?} {two:?}");
                let fact = after.facts.get(id, "pH").unwrap();
                let cause = fact
                    .inputs
                    .iter()
                    .find(|input| input.name == "uncertain")
                    .unwrap();
                assert!(cause.value.contains(names), "{}", cause.value);
            } else {
                assert_eq!(one, two, "{id}");
            }
        }
    }
}

#[test]
fn what_a_plant_keeps_back_is_a_range_in_its_part_and_in_the_bath() {
    let page = |plant: &str| {
        let page = format!(
            "```recipe\nid: b\nrole: developer\nmakes: 1 l\nparts:\n  - name: tea\n    water: 500 ml at 90 °C\n    add:\n      {plant}\n    \
             steps:\n      - steep: 20 min\n      - strain\n      - cool: 24 °C\n  - name: alkali\n    water: 400 ml\n    add:\n      washing soda, anhydrous: 30 g\n\
             steps:\n  - pour: [tea, into alkali]\n  - make up\nuse:\n  temperature: 20 °C\n  time: 8 min\nkeeps: 1 h\n```\n"
        );
        proofed_page(&page)
    };
    let proof = page("dried sage: 40 g");
    let fact = proof.facts.get("b", "tea.volume").unwrap();
    let range = fact.range().unwrap();
    // 2 to 4 ml for each gram of dried leaf.
    near(range.low, 0.34, 1e-9);
    near(range.high, 0.42, 1e-9);
    let (acid, cause) = (proof.facts.get("b", "pH").unwrap(), "kept back by the plants");
    assert!(
        acid.inputs.iter().any(|input| input.name == cause),
        "{:?}",
        acid.inputs
    );
    // More of what was dissolved in the tea stays in the leaf than nothing.
    let electrons = |name: &str| proof.facts.get("b", name).unwrap().range().unwrap();
    assert!(electrons("electrons").best < electrons("tea.electrons").best * 0.5);
}

#[test]
fn shares_too_small_to_tell_are_said_so() {
    let proof = proofed_page(&soda());
    let fact = proof.facts.get("b", "agent.ionised.ascorbate").unwrap();
    assert!(fact.range().unwrap().high < 1e-4);
    assert_eq!(
        fact.text(proof.notebook.settings.style).replace('\u{a0}', " "),
        "under 0.1 %"
    );
}

#[test]
fn amounts_by_the_kilogram_of_water_have_strengths() {
    let page = "```recipe\nid: b\nrole: stock\nmakes: 1 l\nwater: 1000 g\nadd:\n  Na2CO3: 0.4 mol/kg\n  Na2B4O7·10H2O: 0.05 mol/kg\nkeeps: 1 h\n```\n";
    let proof = proofed_page(page);
    let value = |name: &str| proof.facts.get("b", name).unwrap().range().unwrap().best;
    // 50 mmol of borax bring 9 g of water along, which count as well.
    near(value("molar.na2co3"), 0.4 * 1.009, 0.002);
    near(value("strength.na2co3"), 0.4 * 1.009 * ANHYDROUS, 0.2);
}

#[test]
fn a_bath_is_plotted_with_its_place_on_the_curve() {
    let page = format!(
        "{}\n{}\n```paper\nid: rc\nspeed: EI 6\nbase: rc\nsize: 8×10 in\n```\n```process\nid: line\npaper: rc\nsteps:\n  - bath: a\n    time: 3 min\n  - bath: c\n    time: 30 s\n```\n",
        developer("a", "washing soda, anhydrous: 36 g", "vitamin C powder: 12 g"),
        stop("c", "citric acid, anhydrous: 15 g")
    );
    let proof = proofed_page(&page);
    let facts = &proof.facts;
    let bath = facts.baths.get("a").unwrap();
    let curve = trayside::facts::ph_curve(&proof.notebook, bath, &facts.chemistry).unwrap();
    // A cliff, then a plain: forgiving above, nothing below.
    assert!(
        curve
            .points
            .windows(2)
            .all(|pair| pair[0].1.best <= pair[1].1.best)
    );
    let (_, here) = curve.here;
    assert!(here.low < here.best && here.best < here.high && curve.points[0].1.best < 4.0);
    let stop = facts.baths.get("c").unwrap();
    let curve = trayside::facts::stop_curve(stop, &facts.chemistry).unwrap();
    let spent = facts.get("c", "sheets-until-spent").unwrap().range().unwrap();
    near(curve.here.0, spent.best, 1e-9);
    let at_end = curve
        .points
        .iter()
        .min_by(|a, b| (a.0 - spent.best).abs().total_cmp(&(b.0 - spent.best).abs()))
        .unwrap();
    near(at_end.1.best, 5.0, 0.15);
    assert!(
        curve
            .points
            .iter()
            .all(|(_, ph)| ph.low <= ph.best && ph.best <= ph.high)
    );
}

#[test]
fn the_command_answers_in_text_and_in_json() {
    let folder = tempfile::tempdir().unwrap();
    let write = |name: &str, text: &str| std::fs::write(folder.path().join(name), text).unwrap();
    write(
        "trayside.yaml",
        "title: What if\nscale: 0.5 g\nzone: Europe/Lisbon\n",
    );
    write("page.md", &soda());
    let run = |arguments: &[&str]| {
        let output = Command::new(env!("CARGO_BIN_EXE_trayside"))
            .args(["mix", "b", "--notebook"])
            .arg(folder.path())
            .args(arguments)
            .output()
            .unwrap();
        let text = String::from_utf8(output.stdout).unwrap() + &String::from_utf8(output.stderr).unwrap();
        (output.status.code().unwrap(), text.replace('\u{a0}', " "))
    };
    let (code, text) = run(&["--reach", "pH 10.3", "--with", "washing soda, anhydrous"]);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("Measured to 0.5 g it comes to pH 10."), "{text}");
    let (code, json) = run(&[
        "--reach",
        "10.3",
        "--with",
        "washing",
        "soda,",
        "anhydrous",
        "--format",
        "json",
    ]);
    assert_eq!(code, 0);
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert!(json["answer"]["amount"].as_f64().unwrap() > 20.0 && json["answer"]["unit"] == "g");
    let (code, text) = run(&["--reach", "13.5", "--with", "washing soda, anhydrous"]);
    assert!(code == 1 && text.contains("no nearer"), "{text}");
    let (code, text) = run(&["--swap", "washing soda, anhydrous: baking soda"]);
    assert!(code == 1 && text.contains("Bake it"), "{text}");
    let (code, text) = run(&["--swap", "vitamin C powder: sodium ascorbate"]);
    assert!(
        code == 0 && text.contains("What changes") && text.contains("[ ] sodium ascorbate"),
        "{text}"
    );
    let (code, text) = run(&["--baked", "100 g: 63 g"]);
    assert!(code == 0 && text.contains("it was baking soda"), "{text}");
    let (code, text) = run(&[]);
    assert!(
        code == 0 && text.contains("The finished bath comes to pH"),
        "{text}"
    );
    for bad in [
        &["--swap", "borax"][..],
        &["--baked", "100 g"],
        &["--reach", "soon", "--with", "borax"],
    ] {
        assert_eq!(run(bad).0, 2, "{bad:?}");
    }
}
