//! What the press says is wrong.

use std::collections::{BTreeMap, BTreeSet};

use trayside::press::{Press, PressFault, Pressed};

use super::PRESS;
use super::cards::{A6, nettle, step, vinegar};
use super::read::{sound, text, words};

#[test]
fn what_a_side_does_not_hold_goes_on_further_ones() {
    let mut card = nettle();
    for at in 0..60 {
        let what = format!("stir round number {at} and then once more with a wooden spoon");
        card.steps.push(step(None, [&what, "5 min", "", ""]));
    }
    let pressed = PRESS.card(&card, &A6);
    let sides = pressed.cards[0].sides();
    assert!((3..=8).contains(&sides.len()), "{}", sides.len());
    // Every step is there once, in order, and numbered on.
    let steps: Vec<_> = sides.iter().flat_map(|side| side.steps.clone()).collect();
    assert_eq!(steps, card.steps);
    let mut next = 1;
    for side in sides.iter().filter(|side| !side.steps.is_empty()) {
        assert_eq!(side.steps_from, next);
        next += side.steps.len();
    }
    sound(pressed);
}

#[test]
fn a_card_that_cannot_be_shared_out_is_told_and_not_clipped() {
    let mut card = nettle();
    card.steps = vec![step(
        None,
        [&"stir with a wooden spoon ".repeat(260), "5 min", "", ""],
    )];
    let pressed = PRESS.card(&card, &A6);
    match pressed.faults.as_slice() {
        [
            PressFault::Overflow {
                card: id,
                by_mm,
                what,
                words,
                letters,
            },
        ] => {
            assert_eq!((id.as_str(), what.as_str()), ("nettle", "steps"));
            assert!(*by_mm > 20.0, "{by_mm}");
            assert_eq!(words, "stir with a wooden spoon stir with a wooden …");
            // Without so many letters it fits; with a quarter of them more than that it does not.
            let whole = card.steps[0].what.clone();
            let with = |cut: f64| {
                let keep = whole.chars().count() - (*letters as f64 * cut) as usize;
                let mut card = card.clone();
                card.steps[0].what = whole.chars().take(keep).collect();
                PRESS.card(&card, &A6).faults
            };
            assert!(with(1.1).is_empty(), "{letters} of {}", whole.len());
            assert!(!with(0.75).is_empty(), "{letters} of {}", whole.len());
        }
        other => panic!("{other:?}"),
    }
    assert!(pressed.pdf.starts_with(b"%PDF-"));
}

#[test]
fn a_word_past_the_edge_is_told() {
    let mut card = vinegar();
    card.lines[0].text = "x".repeat(90);
    let faults = PRESS.cards(&[nettle(), card], &A6).faults;
    match faults.as_slice() {
        [
            PressFault::Overflow {
                card, what, words, ..
            },
        ] => {
            assert_eq!((card.as_str(), what.as_str()), ("vinegar", "width"));
            assert!(words.starts_with("xxxxx") && words.ends_with('…'), "{words}");
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn words_over_one_another_are_told() {
    let mut card = vinegar();
    card.groups[0].rows[0].material = "y".repeat(48);
    let faults = PRESS.card(&card, &A6).faults;
    match faults.as_slice() {
        [PressFault::Overflow { what, words, .. }] => {
            assert!(what == "overlap" || what == "width", "{what}");
            assert!(words.contains("yyyyy"), "{words}");
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_character_that_no_font_has_is_told_with_its_card() {
    let mut card = vinegar();
    card.steps[0].note = "ಕ twice ಕ".to_owned();
    let pressed = PRESS.cards(&[nettle(), card], &A6);
    assert_eq!(
        pressed.faults,
        vec![PressFault::MissingGlyph {
            card: "vinegar".to_owned(),
            character: 'ಕ',
        }]
    );
    assert!(pressed.pdf.starts_with(b"%PDF-"));
    let mut lent = vinegar();
    lent.steps[0].note = "⅓ cup → jug, 2 ≥ 1, αβγ, ☠".to_owned();
    sound(PRESS.card(&lent, &A6));
}

/// The names of the fonts that a PDF embeds, without the tag of their subset.
fn fonts(pdf: &[u8]) -> BTreeSet<String> {
    let document = lopdf::Document::load_mem(pdf).expect("a PDF");
    let objects = document.objects.values();
    let named = objects.filter_map(|object| {
        let name = object.as_dict().ok()?.get(b"FontName").ok()?.as_name().ok()?;
        let name = String::from_utf8_lossy(name).into_owned();
        Some(
            name.split_once('+')
                .map_or(name.clone(), |(_, name)| name.to_owned()),
        )
    });
    named.collect()
}

#[test]
fn greek_and_cyrillic_are_set_in_a_sans_and_what_needs_neither_embeds_neither() {
    let plain = fonts(&sound(PRESS.card(&vinegar(), &A6)));
    assert!(plain.iter().all(|name| name.contains("Atkinson")), "{plain:?}");
    let mut card = vinegar();
    card.title = "Ξίδι και νερό".to_owned();
    card.steps[0].note = "перемешать, ёмкость, ѓ, α-pinene".to_owned();
    let other = fonts(&sound(PRESS.card(&card, &A6)));
    assert!(other.iter().any(|name| name.contains("Plex")), "{other:?}");
    assert!(
        other
            .iter()
            .all(|name| name.contains("Plex") || name.contains("Atkinson")),
        "{other:?}"
    );
}

fn with_template(path: &str, text: &str) -> Pressed {
    let templates = BTreeMap::from([(path.to_owned(), text.to_owned())]);
    Press::new().with_templates(&templates).card(&vinegar(), &A6)
}

#[test]
fn a_mistake_in_a_template_has_a_place() {
    let broken = "#let card(data, width, height) = {\n  [é] + nowhere\n}\n";
    let pressed = with_template("templates/press/card.typ", broken);
    assert!(pressed.pdf.is_empty());
    match pressed.faults.as_slice() {
        [
            PressFault::Template {
                file,
                line,
                column,
                message,
            },
        ] => {
            assert_eq!(file, "templates/press/card.typ");
            assert_eq!((*line, *column), (2, 9));
            assert!(message.contains("nowhere"), "{message}");
        }
        other => panic!("{other:?}"),
    }
    for (path, text) in [
        ("templates/press/card.typ", "#let card(data, width, height) = ("),
        ("templates/press/card.typ", ""),
        (
            "templates/press/card.typ",
            "#import \"@preview/nothing:1.0.0\": x",
        ),
        (
            "templates/press/card.typ",
            "#let card(data, width, height) = read(\"/etc/hostname\")",
        ),
        (
            "templates/press/card.typ",
            "#let card(data, width, height) = datetime.today().display()",
        ),
        (
            "templates/press/card.typ",
            "#let card(data, width, height) = card(data, width, height)",
        ),
        ("../outside.typ", "x"),
    ] {
        let pressed = with_template(path, text);
        assert!(pressed.pdf.is_empty(), "{text}");
        assert!(
            pressed
                .faults
                .iter()
                .all(|f| matches!(f, PressFault::Template { .. }))
                && !pressed.faults.is_empty(),
            "{text}: {:?}",
            pressed.faults
        );
    }
}

#[test]
fn a_notebook_may_set_its_own_card() {
    let own = "#import \"mine.typ\": greet\n#let card(data, width, height) = box(width: width, height: height, \
               inset: 8mm, { set text(font: \"Atkinson Hyperlegible\"); heading(data.title); greet })";
    let templates = BTreeMap::from([
        ("templates/press/card.typ".to_owned(), own.to_owned()),
        (
            "templates/press/mine.typ".to_owned(),
            "#let greet = [Mind the step.]".to_owned(),
        ),
    ]);
    let pdf = sound(Press::new().with_templates(&templates).card(&vinegar(), &A6));
    let Some(raw) = text(&pdf, &["-raw"]) else { return };
    assert!(words(&raw).contains("Vinegar stop Mind the step."), "{raw}");
}
