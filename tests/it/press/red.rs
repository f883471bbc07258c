//! Cards as a safelight shows them.

use std::collections::BTreeMap;

use image::GenericImageView;
use trayside::press::{Press, PressFault, Pressed};
use trayside::views::card::Card;

use super::PRESS;
use super::cards::{A6, evening, lamp, nettle, person, tin, vinegar};

/// The press with one piece of one template written otherwise.
fn with(file: &str, from: &str, to: &str) -> Press {
    let path = format!("templates/press/{file}");
    let text = std::fs::read_to_string(format!("{}/{path}", env!("CARGO_MANIFEST_DIR"))).unwrap();
    assert!(text.contains(from), "{file} has no `{from}`");
    PRESS
        .clone()
        .with_templates(&BTreeMap::from([(path, text.replace(from, to))]))
}

fn stamped(fill: &str) -> Pressed {
    let words = "text(size: rung.small, words)";
    let coloured = format!("text(size: rung.small, fill: {fill}, words)");
    with("parts.typ", words, &coloured).card(&vinegar(), &A6)
}

fn faint(pressed: &Pressed) -> Option<(&str, f64)> {
    match pressed.faults.as_slice() {
        [] => None,
        [
            PressFault::RedContrast {
                card,
                element,
                contrast,
                ..
            },
        ] => {
            assert_eq!(card, "vinegar");
            Some((element, *contrast))
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn black_and_what_red_light_turns_black_can_be_read() {
    for fill in ["black", "rgb(0, 0, 255)", "rgb(0, 120, 60)", "luma(70)"] {
        assert_eq!(faint(&stamped(fill)), None, "{fill}");
    }
}

#[test]
fn red_and_grey_words_are_told_with_their_card() {
    // Contrast by hand: white is (1 + 0.05), the ink its linear red + 0.05. 128 of 255 is 0.2159 linear, IEC 61966-2-1.
    for (fill, contrast) in [
        ("rgb(255, 0, 0)", 1.0),
        ("rgb(255, 128, 0)", 1.0),
        ("rgb(128, 0, 128)", 1.05 / 0.2659),
        ("luma(128)", 1.05 / 0.2659),
        ("white", 1.0),
    ] {
        let pressed = stamped(fill);
        let (element, found) = faint(&pressed).unwrap_or_else(|| panic!("{fill} passed"));
        assert!(
            vinegar().stamp.starts_with(element.trim_end_matches('…')),
            "{element}"
        );
        assert!((found - contrast).abs() < 0.1, "{fill}: {found} for {contrast}");
    }
}

#[test]
fn the_ground_counts_as_much_as_the_ink() {
    // White on black can be read, black on blue cannot, white on red cannot.
    for (ink, ground, read) in [
        ("white", "black", true),
        ("black", "blue", false),
        ("white", "red", false),
        ("black", "red", true),
    ] {
        let set = format!("box(fill: {ground}, text(size: rung.small, fill: {ink}, words))");
        let pressed = with("parts.typ", "text(size: rung.small, words)", &set).card(&vinegar(), &A6);
        assert_eq!(faint(&pressed).is_none(), read, "{ink} on {ground}");
    }
}

#[test]
fn all_that_has_too_little_is_counted() {
    let pressed = with("card.typ", "fill: black", "fill: luma(150)").card(&nettle(), &A6);
    match pressed.faults.as_slice() {
        [PressFault::RedContrast { others, .. }] => assert!(*others > 20, "{others}"),
        other => panic!("{other:?}"),
    }
}

#[test]
fn every_kind_of_card_is_looked_at() {
    let grey = with("card.typ", "fill: black", "fill: luma(150)");
    for card in [evening(), tin(), lamp(), person()] {
        assert_eq!(PRESS.card(&card, &A6).faults, [], "{}", card.id);
        let faults = grey.card(&card, &A6).faults;
        assert!(
            matches!(faults.as_slice(), [PressFault::RedContrast { .. }]),
            "{}: {faults:?}",
            card.id
        );
    }
}

#[test]
fn the_picture_is_all_sides_in_red_alone() {
    let both = Card {
        back: Some(Box::new(vinegar())),
        ..vinegar()
    };
    let pressed = PRESS.card(&both, &A6);
    assert_eq!(pressed.red, PRESS.card(&both, &A6).red);
    let picture = image::load_from_memory(&pressed.red).unwrap();
    // A6 in points, ISO 216, two sides at two pixels a point and a gap between.
    assert_eq!(picture.dimensions(), (2 * 595 + 24, 839));
    let levels = picture.to_rgb8();
    assert!(levels.pixels().all(|pixel| pixel.0[1] == 0 && pixel.0[2] == 0));
    assert!(levels.pixels().any(|pixel| pixel.0[0] == 255) && levels.pixels().any(|pixel| pixel.0[0] == 0));
    assert!(PRESS.cards(&[both], &A6).red.is_empty());
}
