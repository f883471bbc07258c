//! Every demo card and weighing sheet read back from its PDF: the order of mixing, the amounts, the times and temperatures
//! that stand on paper are those of the facts.

use std::sync::LazyLock;

use trayside::facts::Bath;
use trayside::notebook::{Body, Duration, Step, Verb};
use trayside::pipeline::Proof;
use trayside::units::{Amount, Style};
use trayside::views;
use trayside::views::card::CardKind;

use super::PRESS;
use super::languages::demo;
use super::read::{sound, text, words};

static DEMO: LazyLock<Proof> = LazyLock::new(|| demo("en"));

/// Text of every demo card and sheet of a recipe, with its bath; empty where poppler is not installed.
fn papers() -> Vec<(String, &'static Bath, String)> {
    let notebook = &DEMO.notebook;
    let layout = views::layout(&notebook.settings);
    let cards = views::cards(notebook, &DEMO.facts, &DEMO.findings).cards;
    let cards = cards
        .into_iter()
        .filter(|card| card.kind == CardKind::Recipe)
        .map(|card| {
            (
                format!("card {}", card.id),
                card.id.clone(),
                sound(PRESS.card(&card, &layout)),
            )
        });
    let sheets = views::weighing::volume_sheets(notebook, &DEMO.facts, &DEMO.findings).sheets;
    let sheets = sheets.into_iter().map(|sheet| {
        (
            format!("sheet {}", sheet.id),
            sheet.id.clone(),
            sound(PRESS.mixing(&sheet, 148.0, 210.0)),
        )
    });
    cards
        .chain(sheets)
        .filter_map(|(name, id, pdf)| {
            let text = text(&pdf, &["-raw"])?.replace('\u{a0}', " ");
            Some((name, DEMO.facts.baths.get(&id).expect("a bath"), text))
        })
        .collect()
}

/// Litres or grams of each column behind a name at the start of a line.
fn columns(text: &str, name: &str) -> Vec<Vec<f64>> {
    let rows = text.lines().filter_map(|line| line.strip_prefix(name));
    let numbers = |rest: &str| -> Option<Vec<f64>> {
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
    };
    rows.filter_map(numbers).filter(|row| !row.is_empty()).collect()
}

/// How a material stands on paper, and what of it does the work of one gram as written: molar masses of sodium carbonate
/// with and without its water from the Python package chemicals 1.5.2.
fn packet(slug: &str, written: &str) -> (String, f64) {
    match slug {
        "washing-soda-anhydrous" => ("washing soda, crystals".to_owned(), 286.141 / 105.988),
        _ => (written.to_owned(), 1.0),
    }
}

#[test]
fn amounts_on_paper_are_strength_times_volume() {
    let step = DEMO.notebook.settings.scale.get().expect("a scale").range.best;
    for (name, bath, text) in papers() {
        let makes = bath.litres().expect("a volume").best;
        let volumes: Vec<f64> = [0.5, 1.0, 2.0].map(|multiple| multiple * makes).into();
        assert_eq!(
            columns(&text, "make up to"),
            std::slice::from_ref(&volumes),
            "{name}\n{text}"
        );
        let mut from = 0;
        for dose in &bath.doses {
            let slug = trayside::notebook::slug(&dose.name.value);
            let (material, factor) = packet(&slug, &dose.name.value);
            let fact = DEMO
                .facts
                .get(&bath.id, &format!("strength.{slug}"))
                .expect("a strength");
            let strength = fact.range().expect("a number").best;
            // Liquids are told in millilitres a litre; the volume that is poured is not rounded to the scale.
            let (strength, close) = match fact.measure.unit() {
                "ml/l" => (strength / 1000.0, 0.0011),
                _ => (strength, step / 2.0 + 0.01),
            };
            // The shelf names it once more, with what is there.
            let mut printed = columns(&text, &material);
            printed.retain(|row| row.len() == volumes.len());
            assert_eq!(printed.len(), 1, "{name}: {material}\n{text}");
            for (printed, volume) in printed[0].iter().zip(&volumes) {
                let wanted = strength * factor * volume;
                assert!(
                    (printed - wanted).abs() <= close,
                    "{name}: {material}: {printed} for {wanted}"
                );
            }
            // In the order of the recipe.
            let at = text[from..].find(&format!("\n{material} "));
            from += at.unwrap_or_else(|| panic!("{name}: {material} is out of order\n{text}"));
        }
        assert!(!bath.doses.is_empty(), "{name}");
    }
}

/// What a step should be read as, independent of how the card words it: each piece behind the other. In these recipes all of
/// a part goes in at the one step that steeps or dissolves.
fn wanted(step: &Step, goes_in: &[&str], makes: f64) -> Vec<String> {
    let show = |amount: &Option<Amount>| {
        let shown = amount.as_ref().map(|amount| amount.show(Style::default()));
        shown.unwrap_or_default()
    };
    let litres = |litres: f64| {
        if litres < 1.0 {
            format!("{} ml", litres * 1000.0)
        } else {
            format!("{litres} l")
        }
    };
    let wanted = match step.verb {
        Verb::Cool => format!("cool to {}", show(&step.temperature)),
        Verb::Pour => format!("pour {} into {}", step.parts[0].value, step.parts[1].value),
        Verb::MakeUp => format!(
            "make up with water to {} / {} / {}",
            litres(makes / 2.0),
            litres(makes),
            litres(makes * 2.0)
        ),
        Verb::Steep | Verb::Dissolve => {
            let names = goes_in.iter().map(|name| name.split(", ").next().unwrap_or(name));
            let pieces = std::iter::once(step.verb.word()).chain(names);
            let time = show(&step.time).replace('\u{a0}', " ");
            return pieces.map(str::to_owned).chain([time]).collect();
        }
        verb => format!("{} {}", verb.word(), show(&step.time)),
    };
    vec![wanted.replace('\u{a0}', " ").trim_end().to_owned()]
}

#[test]
fn steps_on_paper_are_those_of_the_recipe_in_order() {
    for (name, bath, text) in papers() {
        let text = words(&text);
        let recipe = &bath.recipe;
        let makes = bath.litres().expect("a volume").best;
        let of_parts = recipe.parts.iter().flat_map(|part| {
            let name = part.name.get().map(|name| name.value.as_str());
            part.steps.iter().map(move |step| (name, step))
        });
        let mut from = 0;
        let with_steps = recipe.parts.iter().all(|part| !part.steps.is_empty());
        let of_whole = recipe.steps.iter().map(|step| (None, step));
        for (at, (part, step)) in of_parts.chain(of_whole).enumerate() {
            // A part without steps of its own gets one that shifts the numbers.
            let number = if with_steps {
                format!("{} ", at + 1)
            } else {
                String::new()
            };
            let doses = bath.doses.iter().filter(|dose| dose.part.as_deref() == part);
            let goes_in: Vec<&str> = doses.map(|dose| dose.name.value.as_str()).collect();
            for (piece, wanted) in wanted(step, &goes_in, makes).into_iter().enumerate() {
                let wanted = if piece == 0 {
                    format!("{number}{wanted}")
                } else {
                    wanted
                };
                let found = text[from..].find(&wanted).filter(|off| piece == 0 || *off < 40);
                from += found.unwrap_or_else(|| panic!("{name}: `{wanted}` is not in order in\n{text}"));
            }
        }
    }
}

/// Low and high of a time in seconds or a temperature in degrees, as it is read.
fn figure(value: &str) -> Option<(f64, f64)> {
    let (numbers, unit) = value.trim().split_once(' ')?;
    let (low, high) = numbers.split_once('–').unwrap_or((numbers, numbers));
    let factor = match unit.trim() {
        "h" => 3600.0,
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
fn time_and_temperature_of_every_card_are_those_of_use() {
    let mut seen = 0;
    for (name, bath, text) in papers().into_iter().filter(|(name, ..)| name.starts_with("card")) {
        let usage = &bath.recipe.usage;
        for (label, amount) in [("time", &usage.time), ("temperature", &usage.temperature)] {
            let Some(amount) = amount.get() else { continue };
            let mut lines = text.lines().skip_while(|line| line.trim() != label);
            let printed = lines.nth(1).and_then(figure);
            let range = amount.range;
            assert_eq!(printed, Some((range.low, range.high)), "{name}: {label}\n{text}");
            seen += 1;
        }
    }
    assert!(seen == 0 || seen >= 12, "{seen}");
}

#[test]
fn the_times_of_every_line_stand_on_its_card_in_order() {
    let layout = views::layout(&DEMO.notebook.settings);
    for card in views::cards(&DEMO.notebook, &DEMO.facts, &DEMO.findings).cards {
        // Cards of the people at a line show parts of it.
        let Some(block) = DEMO.notebook.block(&card.id) else {
            continue;
        };
        let Body::Process(process) = &block.body else {
            continue;
        };
        let Some(text) = text(&sound(PRESS.card(&card, &layout)), &["-raw"]) else {
            return;
        };
        let text = words(&text.replace('\u{a0}', " "));
        let mut from = 0;
        for step in &process.steps {
            let stated = match step.time.get().map(|time| &time.value) {
                Some(Duration::Takes(time)) => Some(time.clone()),
                Some(Duration::ByInspection) => None,
                None => step
                    .bath
                    .get()
                    .and_then(|bath| {
                        DEMO.facts
                            .baths
                            .get(&bath.value)?
                            .recipe
                            .usage
                            .time
                            .get()
                            .cloned()
                    })
                    .map(|time| time.amount),
            };
            let wanted = stated.map_or_else(|| "by eye".to_owned(), |time| time.show(Style::default()));
            let wanted = wanted.replace('\u{a0}', " ");
            let at = text[from..].find(&wanted);
            from += at.unwrap_or_else(|| panic!("{}: `{wanted}` is not in order in\n{text}", card.id))
                + wanted.len();
        }
    }
}
