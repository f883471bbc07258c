//! The demo notebook's cards: pressed, measured in the PDF, and read back as a stranger would read them.

use std::path::Path;
use std::sync::LazyLock;

use trayside::finding::{Finding, Grade, Standing, slug};
use trayside::host::{Disk, Memory};
use trayside::notebook::{Step, Verb};
use trayside::pipeline::{Proof, Silent, proof};
use trayside::press::Press;
use trayside::units::{Amount, Style};
use trayside::views;
use trayside::views::card::{Card, CardKind};

use crate::press::read::{close, sizes, sound, text, words};

/// The demo notebook.
static DEMO: LazyLock<Proof> = LazyLock::new(|| {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("recipes");
    proof(&Disk::open(&folder).expect("the demo"), &Silent).expect("a notebook")
});

static CARDS: LazyLock<views::Cards> =
    LazyLock::new(|| views::cards(&DEMO.notebook, &DEMO.facts, &DEMO.findings));

static PRESS: LazyLock<Press> = LazyLock::new(Press::new);

fn pdf(card: &Card) -> Vec<u8> {
    sound(PRESS.card(card, &views::layout(&DEMO.notebook.settings)))
}

fn card(id: &str) -> &'static Card {
    CARDS.cards.iter().find(|card| card.id == id).expect("a card")
}

/// A card's words as they stand in the PDF, or nothing where poppler is not installed.
fn read(id: &str) -> Option<String> {
    text(&pdf(card(id)), &["-raw"]).map(|text| text.replace('\u{a0}', " "))
}

/// Words of a side that are read while working: without amounts, times and trays, safety lines and the stamp; a name that
/// stood on the front is not read again, and a material of the side's own table is looked up there. Counted here once more,
/// from the view.
fn working_words(side: &Card) -> usize {
    let mut all: Vec<String> = Vec::new();
    if side.side.is_none_or(|side| side.number == 1) {
        all.extend([side.title.clone(), side.role.clone()]);
    }
    for figure in &side.key_figures {
        all.extend([figure.label.clone(), figure.value.clone()]);
    }
    if side.kind == CardKind::Recipe {
        for step in &side.steps {
            all.extend([&step.what, &step.figure, &step.second, &step.note].map(Clone::clone));
        }
    }
    for line in side.lines.iter().chain(&side.beforehand) {
        all.extend([line.label.clone(), line.text.clone()]);
    }
    all.extend(side.boxes.iter().cloned());
    // A figure with its unit is one word: that is how it is read.
    let mut joined = all.join(" ");
    for row in side.groups.iter().flat_map(|group| &group.rows) {
        let name = row.material.split(", ").next().unwrap_or_default();
        joined = joined.replace(name, "");
    }
    joined
        .split([' ', '\n'])
        .filter(|word| word.chars().any(char::is_alphabetic))
        .count()
}

#[test]
fn every_demo_card_is_sound_and_as_large_as_it_says() {
    assert!(CARDS.cards.len() >= 10, "{:?}", CARDS.left_out);
    for card in &CARDS.cards {
        let pdf = pdf(card);
        let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("card-{}.pdf", card.id));
        Disk::write_file(&path, &pdf).expect("written");
        // A6 is 105 × 148 mm, ISO 216.
        let pages = sizes(&pdf);
        assert_eq!(pages.len(), card.sides().len(), "{}", card.id);
        assert!(
            pages.iter().all(|page| close(*page, (105.0, 148.0))),
            "{}",
            card.id
        );
        for side in card.sides() {
            let count = working_words(&side);
            assert!(count <= 40, "{}: {count} words on a side", card.id);
        }
    }
    let all = sound(PRESS.cards(&CARDS.cards, &views::layout(&DEMO.notebook.settings)));
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("cards.pdf");
    Disk::write_file(&path, &all).expect("written");
    // A4 on its side, two A6 each.
    assert!(sizes(&all).iter().all(|page| close(*page, (297.0, 210.0))));
}

/// The amounts behind a material's name: grams or litres.
fn amounts(text: &str, material: &str) -> Vec<Vec<f64>> {
    let rows = text.lines().filter_map(|line| line.strip_prefix(material));
    rows.filter_map(|rest| {
        let tokens: Vec<&str> = rest.split_whitespace().collect();
        let pairs = tokens.chunks(2).map(|pair| {
            let [number, unit] = pair else { return None };
            let number: f64 = number.parse().ok()?;
            match *unit {
                "g" | "l" => Some(number),
                "ml" => Some(number / 1000.0),
                _ => None,
            }
        });
        pairs.collect()
    })
    .collect()
}

/// Name on the card, slug of the recipe's name, grams of the packet for one gram as written.
type Row = (&'static str, &'static str, f64);

#[test]
fn amounts_on_the_card_are_strength_times_volume() {
    // Molar masses of sodium carbonate with and without its water from the Python package chemicals 1.5.2.
    let soda = 286.141 / 105.988;
    let checks: &[(&str, &[Row])] = &[
        (
            "spent-tea",
            &[
                ("spent black tea", "spent-black-tea", 1.0),
                ("washing soda, crystals", "washing-soda-crystals", 1.0),
                ("plain salt", "plain-salt", 1.0),
                ("vitamin C powder", "vitamin-c-powder", 1.0),
            ],
        ),
        (
            "bramble-leaf",
            &[
                ("bramble leaf, fresh", "bramble-leaf-fresh", 1.0),
                ("washing soda, crystals", "washing-soda-anhydrous", soda),
                ("vitamin C powder", "vitamin-c-powder", 1.0),
            ],
        ),
        ("plain-hypo", &[("hypo, crystals", "hypo-crystals", 1.0)]),
        (
            "citric-stop",
            &[("citric acid, anhydrous", "citric-acid-anhydrous", 1.0)],
        ),
    ];
    let step = DEMO.notebook.settings.scale.get().expect("a scale").range.best;
    for (id, materials) in checks {
        let Some(text) = read(id) else { return };
        let volumes = amounts(&text, "make up to");
        assert_eq!(volumes, vec![vec![0.5, 1.0, 2.0]], "{id}");
        for (material, slug, factor) in *materials {
            let fact = DEMO
                .facts
                .get(id, &format!("strength.{slug}"))
                .expect("a strength");
            let strength = fact.range().expect("a number").best;
            let printed = amounts(&text, material);
            assert_eq!(printed.len(), 1, "{id} {material}\n{text}");
            for (grams, volume) in printed[0].iter().zip(&volumes[0]) {
                let wanted = strength * factor * volume;
                assert!(
                    (grams - wanted).abs() <= step / 2.0 + 0.01,
                    "{id} {material}: {grams} for {wanted}"
                );
            }
        }
    }
}

/// What goes in at the steps of the demo's recipes that take something in, as a person reads its pages.
const GOES_IN: [(&str, &[&str]); 3] = [
    (
        "spent-tea",
        &[
            "spent black tea",
            "washing soda and plain salt",
            "vitamin C powder",
        ],
    ),
    (
        "bramble-leaf",
        &["bramble leaf", "washing soda and plain salt", "vitamin C powder"],
    ),
    ("plain-hypo", &["hypo"]),
];

/// What a step should be read as: independent of how the card words it.
fn wanted(step: &Step, names: &mut impl Iterator<Item = &'static &'static str>) -> String {
    let style = Style::default();
    let show = |amount: &Option<Amount>| {
        amount
            .as_ref()
            .map_or_else(String::new, |amount| amount.show(style))
    };
    let wanted = match step.verb {
        Verb::Cool => format!("cool to {}", show(&step.temperature)),
        Verb::Pour => format!("pour {} into {}", step.parts[0].value, step.parts[1].value),
        Verb::MakeUp => "make up with water to 500 ml / 1 l / 2 l".to_owned(),
        verb @ (Verb::Steep | Verb::Dissolve) => {
            format!(
                "{} {}: {}",
                verb.word(),
                names.next().expect("a name"),
                show(&step.time)
            )
        }
        verb => format!("{} {}", verb.word(), show(&step.time)),
    };
    wanted.replace('\u{a0}', " ").trim_end().to_owned()
}

#[test]
fn steps_on_the_card_are_those_of_the_recipe_in_order() {
    for (id, names) in GOES_IN {
        let Some(text) = read(id) else { return };
        let text = words(&text);
        let mut names = names.iter();
        let recipe = &DEMO.facts.baths.get(id).expect("a bath").recipe;
        let all = recipe
            .parts
            .iter()
            .flat_map(|part| &part.steps)
            .chain(&recipe.steps);
        let mut from = 0;
        let mut number = 0;
        for step in all {
            number += 1;
            let wanted = format!("{number} {}", wanted(step, &mut names));
            let at = text[from..].find(&wanted);
            from += at.unwrap_or_else(|| panic!("{id}: `{wanted}` not in order in\n{text}"));
        }
        assert!(number >= 3, "{id}");
    }
}

/// `4–6 min` and `20–24 °C` behind a label, in seconds or degrees.
fn figure(text: &str, label: &str) -> Option<(f64, f64)> {
    let mut lines = text.lines().skip_while(|line| line.trim() != label);
    let value = lines.nth(1)?.trim();
    let (numbers, unit) = value.split_once(' ')?;
    let (low, high) = numbers.split_once('–').unwrap_or((numbers, numbers));
    let factor = match unit.trim() {
        "min" => 60.0,
        "s" | "°C" => 1.0,
        _ => return None,
    };
    Some((
        low.parse::<f64>().ok()? * factor,
        high.parse::<f64>().ok()? * factor,
    ))
}

#[test]
fn time_and_temperature_on_the_card_are_those_of_use() {
    for id in ["spent-tea", "bramble-leaf", "plain-hypo", "vinegar-stop"] {
        let Some(text) = read(id) else { return };
        let usage = &DEMO.facts.baths.get(id).expect("a bath").recipe.usage;
        let time = usage.time.get().expect("a time").range;
        let warm = usage.temperature.get().expect("a temperature").range;
        assert_eq!(figure(&text, "time"), Some((time.low, time.high)), "{id}\n{text}");
        assert_eq!(figure(&text, "temperature"), Some((warm.low, warm.high)), "{id}");
    }
}

#[test]
fn a_line_names_every_tray_with_its_time_and_light() {
    let card = card("class-line");
    let told: Vec<String> = card
        .steps
        .iter()
        .map(|step| {
            let held = step.part.as_deref().unwrap_or_default();
            words(&format!("{} {} {held}, {}", step.what, step.figure, step.note).replace('\u{a0}', " "))
        })
        .collect();
    assert_eq!(
        told,
        [
            "developer 3–5 min Bramble leaf developer, red",
            "first rinse 20 s tap water, red",
            "stop 30 s Citric stop, red",
            "second rinse 30 s tap water, red",
            "fix one 1 min Plain hypo, first bath, red",
            "fix two 1 min Plain hypo, second bath, red",
            "wash bowl 4 min tap water, room light, 4 changes",
            "dry 2 h string and pegs, room light",
        ]
    );
    let place = |id: &str| self::card(id).tray.map(|tray| (tray.number, tray.of));
    assert_eq!(place("bramble-leaf"), Some((1, 7)));
    assert_eq!(place("plain-hypo"), Some((5, 7)));
    assert_eq!(place("sulphite-aid"), Some((8, 8)));
}

#[test]
fn mistakes_kept_for_teaching_are_no_cards() {
    assert!(CARDS.cards.iter().all(|card| !card.id.starts_with("draft-")));
    assert!(CARDS.left_out.iter().any(|left| left.id == "draft-acid-hypo"));
}

fn small(recipes: &str) -> Proof {
    let settings = "title: Two trays\nzone: Europe/Lisbon\nscale: 0.5 g\n";
    let host = Memory::new()
        .with("trayside.yaml", settings)
        .with("page.md", recipes);
    proof(&host, &Silent).expect("a notebook")
}

const FIXER: &str = "```recipe
title: Salt bath
role: fixer
makes: 1 l
add:
  Na2S2O3·5H2O: 0.8 mol
use:
  time: 3 min
  temperature: 20 °C
keeps: 2 weeks
```
";

fn texts(card: &Card) -> Vec<&str> {
    card.cautions
        .iter()
        .map(|caution| caution.text.as_str())
        .collect()
}

#[test]
fn a_formula_brings_the_same_cautions_as_a_name() {
    let formula = small(FIXER);
    let named = small(&FIXER.replace("Na2S2O3·5H2O", "hypo, crystals"));
    let of = |proof: &Proof| {
        let made = views::cards(&proof.notebook, &proof.facts, &proof.findings);
        assert!(made.left_out.is_empty(), "{:?}", made.left_out);
        made.cards
    };
    let (formula, named) = (of(&formula), of(&named));
    assert_eq!(formula[0].cautions, named[0].cautions);
    assert!(
        texts(&formula[0])
            .iter()
            .any(|text| text.starts_with("Keep every acid out"))
    );
    assert!(
        texts(&formula[0])
            .iter()
            .any(|text| text.contains("ask your water authority"))
    );
    // 0.8 mol of 248.18 g/mol are 198.5 g to half a gram.
    let row = &formula[0].groups[0].rows[0];
    let row: Vec<String> = row
        .amounts
        .iter()
        .map(|amount| amount.replace('\u{a0}', " "))
        .collect();
    assert_eq!(row, ["99.5 g", "198.5 g", "397.0 g"]);
}

#[test]
fn a_weight_that_the_scale_cannot_tell_is_printed_finer() {
    let proof = small(
        &FIXER
            .replace("keeps:", "cautions: [Mind the step.]\nkeeps:")
            .replace(
                "  Na2S2O3·5H2O: 0.8 mol",
                "  Na2S2O3·5H2O: 200 g\n  sodium sulphite, anhydrous: 0.6 g",
            ),
    );
    let made = views::cards(&proof.notebook, &proof.facts, &proof.findings);
    let row: Vec<String> = made.cards[0].groups[0].rows[1]
        .amounts
        .iter()
        .map(|amount| amount.replace('\u{a0}', " "))
        .collect();
    assert_eq!(row, ["0.3 g", "0.6 g", "1.2 g"]);
    assert!(texts(&made.cards[0]).contains(&"Mind the step."));
}

#[test]
fn an_acknowledged_hazard_is_still_on_the_wall() {
    let mut proof = small(FIXER);
    let block = proof.notebook.block("salt-bath").expect("a block").head;
    let mut hazard = Finding::new(slug::ACKNOWLEDGED_IDLE, Grade::Hazard, block, "`this` bites");
    hazard.standing = Standing::Acknowledged("gloves".to_owned());
    proof.findings.push(hazard);
    let made = views::cards(&proof.notebook, &proof.facts, &proof.findings);
    let line = made.cards[0]
        .cautions
        .iter()
        .find(|line| line.text == "This bites.");
    assert!(line.is_some_and(|line| line.hazard));
}

#[test]
fn a_fault_takes_the_card_of_its_bath_and_of_the_lines_that_use_it() {
    let line = "```process
id: line
steps:
  - bath: salt-bath
    time: 3 min
  - wash: tap
    time: 5 min
```
";
    let sound = small(&format!("{FIXER}\n{line}"));
    let made = views::cards(&sound.notebook, &sound.facts, &sound.findings);
    let ids: Vec<&str> = made.cards.iter().map(|card| card.id.as_str()).collect();
    assert_eq!(ids, ["salt-bath", "line"], "{:?}", made.left_out);
    let broken = small(&format!("{}\n{line}", FIXER.replace("3 min", "3 minims")));
    let made = views::cards(&broken.notebook, &broken.facts, &broken.findings);
    assert_eq!(made.cards.len(), 0, "{:?}", broken.findings);
    assert_eq!(made.left_out[1].why, "its bath `salt-bath` has none");
}

#[test]
fn what_is_kept_to_teach_a_mistake_is_not_hung_up() {
    for (grade, kept) in [
        (Grade::Hazard, false),
        (Grade::Fault, false),
        (Grade::Doubt, false),
        (Grade::Hint, true),
    ] {
        let mut proof = small(FIXER);
        let head = proof.notebook.block("salt-bath").expect("a block").head;
        let mut finding = Finding::new(slug::ACKNOWLEDGED_IDLE, grade, head, "a mistake");
        finding.standing = Standing::Expected;
        proof.findings.push(finding);
        let made = views::cards(&proof.notebook, &proof.facts, &proof.findings);
        assert_eq!(made.cards.len(), usize::from(kept), "{grade}");
    }
}

#[test]
fn every_caution_has_its_ground() {
    for (text, basis) in views::caution_bases() {
        assert!(!text.is_empty() && !basis.is_empty());
        // Only a person of the place can say what may go down a drain.
        assert!(!text.contains("drain-safe") && !text.contains("down the drain"));
    }
}

#[test]
fn minors_and_strong_things_bring_their_lines() {
    let host = Memory::new()
        .with(
            "trayside.yaml",
            "title: School\nzone: Europe/Lisbon\npremises: school\ndrain:\n  asked: Lower Quay Water\n",
        )
        .with(
            "page.md",
            "```recipe
title: Sharp bath
role: developer
makes: 1 l
water: 700 ml at 70 °C
add:
  caustic soda: 5 g
  borax: 10 g
```
",
        );
    let proof = proof(&host, &Silent).expect("a notebook");
    let bath = proof.facts.baths.get("sharp-bath").expect("a bath");
    let lines = views::cautions(bath, &proof.notebook, &proof.findings);
    let hazards = lines.iter().take_while(|line| line.hazard).count();
    assert!(
        lines[hazards..].iter().all(|line| !line.hazard),
        "hazards stand first"
    );
    let has = |start: &str, hazard: bool| {
        lines
            .iter()
            .any(|line| line.text.starts_with(start) && line.hazard == hazard)
    };
    for (start, hazard) in [
        ("Burns skin and blinds", true),
        ("May harm fertility", true),
        ("Hot water", true),
        ("An adult weighs and mixes", false),
        ("In the eye", false),
        ("Before it goes anywhere: ask Lower Quay Water", false),
    ] {
        assert!(has(start, hazard), "{start}: {lines:#?}");
    }
}

#[test]
fn a_notebook_that_says_nothing_gets_a6_on_a4() {
    let layout = views::layout(&small(FIXER).notebook.settings);
    // ISO 216.
    assert_eq!((layout.card_width_mm, layout.card_height_mm), (105.0, 148.0));
    assert_eq!((layout.sheet_width_mm, layout.sheet_height_mm), (210.0, 297.0));
    assert_eq!(layout.lamination_mm, 4.0);
}
