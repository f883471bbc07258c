//! What the site's script is held against: recipes and targets by the thousand with the compiler's own answers, left in the
//! build folder for `tests/browser/scale.test.js`. Recipes of the demo, and some made at random to meet every kind of amount.

#![expect(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a helper that fails fails the test that called it; the cases are written for the browser's test to read"
)]

use std::fmt::Write as _;
use std::path::Path;

use serde_json::{Value, json};
use trayside::host::{Disk, Memory};
use trayside::pipeline::{Proof, SETTINGS, Silent, proof};
use trayside::units::{Dimension, parse};
use trayside::views::site_view;
use trayside::views::weighing::{Source, Target, litres_of, sheet};

use crate::support::proofed;

/// Where the cases are left.
const FILE: &str = concat!(env!("CARGO_TARGET_TMPDIR"), "/scaling.jsonl");
/// Notebooks made at random.
const NOTEBOOKS: usize = 150;
/// Targets tried on each recipe.
const TARGETS: usize = 30;

/// Numbers that look random and are the same in every run (Marsaglia, Xorshift RNGs, 2003: 13, 7, 17).
struct Dice(u64);

impl Dice {
    fn throw(&mut self, sides: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % sides as u64) as usize
    }

    fn one<'t, T: ?Sized>(&mut self, of: &[&'t T]) -> &'t T {
        of[self.throw(of.len())]
    }

    /// A decimal number as text, of every size that anyone writes, often one that ends in a half.
    fn number(&mut self, mark: &str) -> String {
        let whole = match self.throw(4) {
            0 => self.throw(10),
            1 => self.throw(100),
            _ => self.throw(1000),
        };
        match self.throw(5) {
            0 => format!("{whole}{mark}5"),
            1 => format!("{whole}{mark}{:02}", self.throw(100)),
            2 => format!("{whole}{mark}{:03}", self.throw(1000)),
            _ => (whole + 1).to_string(),
        }
    }
}

/// The page of a proof's recipes, as the site ships it.
fn shipped(proof: &Proof) -> Vec<String> {
    let site = site_view::site(
        &proof.notebook,
        &proof.facts,
        &proof.findings,
        &proof.sources,
        &[],
        "0.0.0",
    );
    site.pages.into_iter().filter_map(|page| page.scaling).collect()
}

/// What the compiler says of a target: the sheet's parts that follow the volume, or why there is none.
fn answer(proof: &Proof, id: &str, target: &Target) -> Value {
    let (block, _) = proof.notebook.recipe(id).unwrap();
    let bath = proof.facts.baths.get(id).unwrap();
    let (litres, because) = match litres_of(target, bath, &proof.notebook) {
        Ok(found) => found,
        Err(why) => return json!({ "refused": why }),
    };
    let source = Source {
        notebook: &proof.notebook,
        facts: &proof.facts,
        findings: &proof.findings,
    };
    let sheet = sheet(source, block, bath, litres, because).unwrap();
    json!({
        "volume": sheet.volume, "litres": sheet.litres, "because": sheet.because, "groups": sheet.groups,
        "rounding": sheet.rounding, "water": sheet.water, "steps": sheet.steps, "times": sheet.times, "shelf": sheet.shelf,
    })
}

/// A target, as the form of a page gives it and as the compiler takes it.
fn target(dice: &mut Dice, proof: &Proof, page: &Value, recipe: &Value) -> (Value, Target) {
    let mark = page["decimal"].as_str().unwrap();
    let style = proof.notebook.settings.style;
    let read = |text: &str, dimension| parse(text, &[dimension], style).unwrap();
    let positive = |dice: &mut Dice| loop {
        let number = dice.number(mark);
        if number.contains(['1', '2', '3', '4', '5', '6', '7', '8', '9']) {
            return number;
        }
    };
    let pick = |dice: &mut Dice, list: &Value| dice.throw(list.as_array().unwrap().len().max(1));
    match dice.throw(8) {
        0 => (json!({ "by": "written" }), Target::AsWritten),
        1 => {
            let tray = pick(dice, &page["trays"]);
            let Some(name) = page["trays"][tray]["name"].as_str() else {
                return (json!({ "by": "written" }), Target::AsWritten);
            };
            let depth =
                (dice.throw(4) > 0).then(|| format!("{}{mark}{}", 1 + dice.throw(50), dice.throw(10)));
            let amount = depth
                .as_ref()
                .map(|depth| read(&format!("{depth} mm"), Dimension::Length));
            (
                json!({ "by": "tray", "tray": tray, "number": depth, "unit": "mm" }),
                Target::Tray {
                    name: name.to_owned(),
                    depth: amount,
                },
            )
        }
        2 => {
            let sheets = dice.throw(60) as u64;
            (
                json!({ "by": "sheets", "sheets": sheets }),
                Target::Sheets(sheets),
            )
        }
        3 | 4 => {
            let limit = pick(dice, &recipe["limits"]);
            let found = &recipe["limits"][limit];
            let ways = [("mass", "g", Dimension::Mass), ("mass", "kg", Dimension::Mass)];
            let others = [
                ("volume", "ml", Dimension::Volume),
                ("count", "", Dimension::Count),
            ];
            let mut ways: Vec<_> = ways.into_iter().chain(others).collect();
            ways.retain(|(of, ..)| found[of].is_number());
            if ways.is_empty() {
                return (json!({ "by": "written" }), Target::AsWritten);
            }
            let (of, unit, dimension) = ways[dice.throw(ways.len())];
            let number = positive(dice);
            (
                json!({ "by": "limit", "limit": limit, "of": of, "number": number, "unit": unit }),
                Target::Limit {
                    material: found["name"].as_str().unwrap().to_owned(),
                    amount: read(format!("{number} {unit}").trim(), dimension),
                },
            )
        }
        _ => {
            let unit = dice.one(&["ml", "ml", "l"]);
            let number = positive(dice);
            (
                json!({ "by": "volume", "number": number, "unit": unit }),
                Target::Volume(read(&format!("{number} {unit}"), Dimension::Volume)),
            )
        }
    }
}

/// Tries targets on every recipe that the site would scale: one line the page, then its cases, each a line.
fn cases(dice: &mut Dice, proof: &Proof, each: usize, lines: &mut String) -> usize {
    let mut count = 0;
    for text in shipped(proof) {
        // Read here only to choose from: the file gets the text itself, since this reader may be a last bit off.
        let page: Value = serde_json::from_str(&text).unwrap();
        let mut tried = Vec::new();
        for (id, recipe) in page["recipes"].as_object().unwrap() {
            for _ in 0..each {
                let (asked, target) = target(dice, proof, &page, recipe);
                tried.push(json!({ "id": id, "target": asked, "answer": answer(proof, id, &target) }));
            }
        }
        count += tried.len();
        writeln!(lines, "{{\"page\":{text},\"cases\":{}}}", json!(tried)).unwrap();
    }
    count
}

const POWDERS: &[&str] = &[
    "washing soda, anhydrous",
    "washing soda, crystals",
    "washing soda, monohydrate",
    "vitamin C powder",
    "citric acid, anhydrous",
    "citric acid, monohydrate",
    "hypo, crystals",
    "hypo, anhydrous",
    "plain salt",
    "sodium sulphite, anhydrous",
    "baking soda",
    "borax",
    "potassium bromide",
];

/// An amount of a powder in one of the many ways to write it.
fn powder(dice: &mut Dice, mark: &str) -> String {
    let number = (1 + dice.throw(90)).to_string();
    let tenths = format!("{}{mark}{}", dice.throw(30), 1 + dice.throw(9));
    match dice.throw(12) {
        0 => format!("{tenths} g"),
        1 => format!("{number}–{} g", 91 + dice.throw(9)),
        2 => format!("{number} ± 1 g"),
        3 => format!("{} 1/2 tsp", 1 + dice.throw(3)),
        4 => format!("{} heaped tbsp", 1 + dice.throw(4)),
        5 => format!("{number} g/l"),
        6 => format!("0{mark}{} mol/l", 1 + dice.throw(9)),
        7 => format!("about {number} g"),
        8 => format!("{} mg", 100 * (1 + dice.throw(9))),
        9 => format!("{} oz", 1 + dice.throw(6)),
        _ => format!("{number} g"),
    }
}

fn additions(dice: &mut Dice, mark: &str, indent: &str) -> String {
    let mut lines = String::new();
    let mut names: Vec<&str> = POWDERS.to_vec();
    for _ in 0..=dice.throw(4) {
        let name = names.remove(dice.throw(names.len()));
        let amount = powder(dice, mark);
        writeln!(lines, "{indent}{name}: {amount}").unwrap();
    }
    match dice.throw(6) {
        0 => writeln!(lines, "{indent}vinegar 5 %: {} ml", 10 + dice.throw(90)).unwrap(),
        1 => writeln!(lines, "{indent}vitamin C tablets: {} × 500 mg", 1 + dice.throw(9)).unwrap(),
        2 => writeln!(lines, "{indent}rosemary, dried: {} g", 5 + dice.throw(60)).unwrap(),
        3 => writeln!(lines, "{indent}ammonia: {} % v/v", 1 + dice.throw(9)).unwrap(),
        _ => {}
    }
    lines
}

fn recipe(dice: &mut Dice, mark: &str, at: usize) -> String {
    let makes = dice.one(&["1 l", "600 ml", "750 ml", "2 l", "1/2 l", "333 ml"]);
    let mut text = format!(
        "```recipe\nid: bath-{at}\ntitle: Bath {at}\nrole: {}\nmakes: {makes}\n",
        dice.one(&["rinse", "stock", "toner", "wash aid", "developer"])
    );
    if dice.throw(3) == 0 {
        let steep = 5 * (1 + dice.throw(9));
        let water = 10 * (1 + dice.throw(25));
        write!(
            text,
            "parts:\n  - name: tea\n    water: {water} ml at {} °C\n    makes: {} ml\n    add:\n      rosemary, dried: {} g\n    \
             steps:\n      - steep: {steep} min\n      - strain\n      - cool: 2{} °C\n      - make up\n  - name: rest\n    \
             water: {} ml\n    add:\n{}    steps:\n      - dissolve: {} min\nsteps:\n  - pour: [tea, into rest]\n    vessel: {}\n  \
             - make up\n",
            70 + dice.throw(30),
            50 + dice.throw(300),
            5 + dice.throw(60),
            2 + dice.throw(8),
            50 + dice.throw(300),
            additions(dice, mark, "      "),
            1 + dice.throw(12),
            dice.one(&["3 l jug", "an open jug of 3 l", "8 l bucket"]),
        )
        .unwrap();
    } else {
        if dice.throw(2) == 0 {
            writeln!(
                text,
                "water: {} ml at {} °C",
                50 + 10 * dice.throw(60),
                20 + dice.throw(40)
            )
            .unwrap();
        }
        text.push_str("add:\n");
        text.push_str(&additions(dice, mark, "  "));
        if dice.throw(2) == 0 {
            writeln!(
                text,
                "steps:\n  - dissolve: {} min\n  - rest: 1{mark}5 h\n  - make up",
                1 + dice.throw(12)
            )
            .unwrap();
        }
    }
    let dilution = if dice.throw(4) == 0 {
        "  dilution: 1+9\n"
    } else {
        ""
    };
    let capacity = dice.one(&["24 sheets", "7 sheets per litre", "10–12 sheets", "0 sheets"]);
    writeln!(
        text,
        "use:\n{dilution}  capacity: {capacity}\nkeeps: 1 h\ncautions:\n  - Soapy. Tongs or gloves, and rinse splashes at once.\n```\n"
    )
    .unwrap();
    text
}

fn notebook(dice: &mut Dice) -> Proof {
    let (language, decimal, mark) = if dice.throw(3) == 0 {
        ("de", "comma", ",")
    } else {
        ("en", "point", ".")
    };
    let scale = match dice.throw(6) {
        0 => format!("scale: 0{mark}01 g\n"),
        1 => "scale: 1 g\n".to_owned(),
        2 => format!("scale: 0{mark}5 g\n"),
        3 => "scale: 5 g\n".to_owned(),
        4 => String::new(),
        _ => format!("scale: 0{mark}1 g\n"),
    };
    let mut settings = format!(
        "format: 1\ntitle: Cases\nzone: Europe/Lisbon\nlanguage: {language}\ndecimal: {decimal}\nroom: 20 °C\n{scale}\
         spoons: [15 ml, 5 ml, 2{mark}5 ml]\ntrays:\n  - name: middle\n    inside: 220×270 mm\n    depth: 40 mm\n  \
         - name: small\n    inside: 137×181 mm\n"
    );
    if dice.throw(4) > 0 {
        settings.push_str("shelf:\n");
        for _ in 0..=dice.throw(6) {
            let (name, left) = match dice.throw(9) {
                0 => ("vitamin C tablets", format!("{} tablets", 5 + dice.throw(90))),
                1 => ("vinegar 8 %", format!("{} ml", 50 + dice.throw(900))),
                2 => ("vinegar 25 %", format!("{} ml", 50 + dice.throw(900))),
                _ => (dice.one(POWDERS), format!("{} g", 5 + dice.throw(700))),
            };
            writeln!(settings, "  - material: {name}\n    left: {left}").unwrap();
        }
    }
    let mut page = String::from("# Cases\n\n");
    for at in 0..4 {
        page.push_str(&recipe(dice, mark, at));
    }
    proofed(&Memory::new().with(SETTINGS, settings).with("cases.md", page))
}

#[test]
fn the_script_s_cases_are_answered() {
    let mut dice = Dice(0x5eed_0f7a_b1e5_a1d5);
    let demo = Disk::open(Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/recipes"))).unwrap();
    let mut lines = String::new();
    let of_demo = cases(
        &mut dice,
        &proof(&demo, &Silent).unwrap(),
        4 * TARGETS,
        &mut lines,
    );
    assert!(of_demo > 400, "only {of_demo} of the demo");
    let mut made = 0;
    for _ in 0..NOTEBOOKS {
        let proof = notebook(&mut dice);
        made += cases(&mut dice, &proof, TARGETS, &mut lines);
    }
    std::fs::write(FILE, lines).unwrap();
    assert!(of_demo + made >= 10_000, "only {of_demo} and {made} cases");
}

#[test]
fn a_recipe_whose_packet_a_private_page_describes_is_not_scaled() {
    let settings = "format: 1\ntitle: Notes\nzone: Europe/Lisbon\nscale: 0.1 g\nshelf:\n  - material: washing soda, crystals\n";
    let recipe = "```recipe\nid: aid\ntitle: Aid\nrole: wash aid\nmakes: 1 l\nadd:\n  washing soda, anhydrous: 10 g\nkeeps: 1 h\n```\n";
    let packet = "```ingredient\nid: own-soda\nmaterial: washing soda, crystals\ndensity: 0.93 g/ml\n```\n";
    for (audience, scaled) in [("public", 1), ("private", 0)] {
        let private = format!("---\naudience: {audience}\n---\n\n# Packets\n\n{packet}");
        let host = Memory::new()
            .with(SETTINGS, settings)
            .with("a.md", format!("# Aid\n\n{recipe}"))
            .with("packets.md", private);
        assert_eq!(shipped(&proofed(&host)).len(), scaled, "{audience}");
    }
}
