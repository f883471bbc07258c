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

/// What the command says of a volume of nothing, which it finds before it asks for the litres.
const NOTHING: &str = "it must be more than nothing";

/// An amount as somebody may type it into the form of a page, in a unit that stands beside the field or behind the number: in
/// any way to write a number, and in some that are none. The text as typed, and as the command is given it.
fn typed(dice: &mut Dice, mark: &str, unit: &str) -> (String, String) {
    let some = (1 + dice.throw(400)).to_string();
    let (above, below) = (1 + dice.throw(9), 1 + dice.throw(12));
    let vulgar = dice.one(&[
        "½", "⅓", "⅔", "¼", "¾", "⅕", "⅖", "⅗", "⅘", "⅙", "⅚", "⅛", "⅜", "⅝", "⅞",
    ]);
    let number = match dice.throw(24) {
        0 => vulgar.to_owned(),
        1 => format!("{some}{vulgar}"),
        2 => format!("{some}\u{a0}{vulgar}"),
        3 => format!("{above}/{below}"),
        4 => format!("{some} {above}/{below}"),
        5 => format!("{some}⁄{below}"),
        6 => format!("{some}e-{}", dice.throw(6)),
        7 => format!("{above}{mark}{some}E+{}", dice.throw(4)),
        8 => format!("{above}e{}", dice.throw(22)),
        9 => format!("-{some}"),
        10 => format!("− {above}{mark}5"),
        11 => format!("+{some}{mark}50"),
        12 => format!("{above}\u{2009}{some:0>3}"),
        13 => format!("{above}\u{a0}125/1000"),
        14 => format!("{above}/0"),
        15 => format!("{above} {below}/{some}00000000"),
        16 => format!("{some}{mark}0000000000000000{some}"),
        17 => format!("{above}{mark}5{mark}{below}"),
        18 => format!("{above}{mark}000{}5", if mark == "." { "," } else { "." }),
        19 => format!("00{some}{mark}{below}"),
        20 => format!("{mark}{some}"),
        21 => "0".to_owned(),
        22 => format!("-0{mark}0"),
        _ => dice.number(mark),
    };
    let space = dice.one(&["", " ", "\u{a0}"]);
    match dice.throw(3) {
        0 if !unit.is_empty() => (format!("{number}{space}{unit}"), format!("{number}{space}{unit}")),
        _ => (
            format!(" {number} "),
            format!("{number} {unit}").trim().to_owned(),
        ),
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

/// A target, as the form of a page is given it and as the compiler takes it, or why it does not.
fn target(dice: &mut Dice, proof: &Proof, page: &Value, recipe: &Value) -> (Value, Result<Target, String>) {
    let mark = page["decimal"].as_str().unwrap();
    let style = proof.notebook.settings.style;
    let read = |text: &str, dimension| match parse(text, &[dimension], style) {
        Ok(amount) if amount.range.low > 0.0 => Ok(amount),
        Ok(_) => Err(NOTHING.to_owned()),
        Err(mistake) => Err(mistake.message),
    };
    let positive = |dice: &mut Dice, unit: &str| {
        if dice.throw(2) == 0 {
            return typed(dice, mark, unit);
        }
        loop {
            let number = dice.number(mark);
            if number.contains(['1', '2', '3', '4', '5', '6', '7', '8', '9']) {
                let given = format!("{number} {unit}").trim().to_owned();
                return (number, given);
            }
        }
    };
    let pick = |dice: &mut Dice, list: &Value| dice.throw(list.as_array().unwrap().len().max(1));
    match dice.throw(8) {
        0 => (json!({ "by": "written" }), Ok(Target::AsWritten)),
        1 => {
            let tray = pick(dice, &page["trays"]);
            let Some(name) = page["trays"][tray]["name"].as_str() else {
                return (json!({ "by": "written" }), Ok(Target::AsWritten));
            };
            let depth = (dice.throw(4) > 0).then(|| {
                if dice.throw(2) == 0 {
                    return typed(dice, mark, "mm");
                }
                let number = format!("{}{mark}{}", 1 + dice.throw(50), dice.throw(10));
                (number.clone(), format!("{number} mm"))
            });
            let amount = depth.as_ref().map(|(_, given)| read(given, Dimension::Length));
            (
                json!({ "by": "tray", "tray": tray, "number": depth.map(|(number, _)| number), "unit": "mm" }),
                amount.transpose().map(|depth| Target::Tray {
                    name: name.to_owned(),
                    depth,
                }),
            )
        }
        2 => {
            let sheets = dice.throw(60) as u64;
            (
                json!({ "by": "sheets", "sheets": sheets }),
                Ok(Target::Sheets(sheets)),
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
                return (json!({ "by": "written" }), Ok(Target::AsWritten));
            }
            let (of, unit, dimension) = ways[dice.throw(ways.len())];
            let (number, given) = positive(dice, unit);
            (
                json!({ "by": "limit", "limit": limit, "of": of, "number": number, "unit": unit }),
                read(&given, dimension).map(|amount| Target::Limit {
                    material: found["name"].as_str().unwrap().to_owned(),
                    amount,
                }),
            )
        }
        _ => {
            let unit = dice.one(&["ml", "ml", "l"]);
            let (number, given) = positive(dice, unit);
            (
                json!({ "by": "volume", "number": number, "unit": unit }),
                read(&given, Dimension::Volume).map(Target::Volume),
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
                let answer = match target {
                    Ok(target) => answer(proof, id, &target),
                    // These words are English whatever the notebook's language.
                    Err(why) => json!({ "unread": why }),
                };
                tried.push(json!({ "id": id, "target": asked, "answer": answer }));
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
