//! Measured on the page: boxes, cards on their sheets, backs behind their fronts, and the least type.

use lopdf::{Document, Object, content::Content};
use trayside::views::card::{Card, Flip, SheetLayout};

use super::PRESS;
use super::cards::{self, evening, lamp, nettle, person, tin, vinegar};
use super::read::{alternatives, boxes, poppler, sound, text};

/// A6 with the bleed that printers ask for.
const A6: SheetLayout = SheetLayout {
    bleed_mm: 3.0,
    ..cards::A6
};
/// A7 by ISO 216.
const A7: SheetLayout = SheetLayout {
    card_width_mm: 74.0,
    card_height_mm: 105.0,
    ..A6
};

fn near(a: [f64; 4], b: [f64; 4]) -> bool {
    a.iter().zip(b).all(|(a, b)| (a - b).abs() < 0.01)
}

#[test]
fn boxes_are_those_of_a_printer() {
    for page in boxes(&sound(PRESS.card(&vinegar(), &A7))) {
        assert!(near(page.trim, [3.0, 3.0, 77.0, 108.0]), "{:?}", page.trim);
        assert!(near(page.bleed, [0.0, 0.0, 80.0, 111.0]), "{:?}", page.bleed);
        assert!(near(page.media, page.bleed));
    }
    let plain = SheetLayout { bleed_mm: 0.0, ..A7 };
    for page in boxes(&sound(PRESS.card(&vinegar(), &plain))) {
        assert!(near(page.trim, [0.0, 0.0, 74.0, 105.0]), "{:?}", page.trim);
    }
    // A sheet is not trimmed: its cards are.
    for page in boxes(&sound(PRESS.cards(&[vinegar()], &A7))) {
        assert!(near(page.trim, [0.0, 0.0, 210.0, 297.0]) && near(page.media, page.trim));
    }
}

/// The middles of dark runs along one row of a page rendered at ten pixels a millimetre, mm.
fn marks_along(pdf: &[u8], row_mm: f64) -> Option<Vec<f64>> {
    let pgm = poppler("pdftoppm", &["-r", "254", "-gray", "-f", "1", "-l", "1"], pdf)?;
    let mut lines = pgm.splitn(4, u8::is_ascii_whitespace);
    assert_eq!(lines.next(), Some(&b"P5"[..]));
    let mut number = || std::str::from_utf8(lines.next()?).ok()?.parse::<usize>().ok();
    let (width, _height) = (number()?, number()?);
    let start = pgm.len() - pgm.len() / width * width;
    let row = (row_mm * 10.0) as usize;
    let pixels = &pgm[start + row * width..start + (row + 1) * width];
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for (at, _) in pixels.iter().enumerate().filter(|(_, level)| **level < 200) {
        match runs.last_mut() {
            Some((_, end)) if *end == at => *end = at + 1,
            _ => runs.push((at, at + 1)),
        }
    }
    Some(runs.iter().map(|(from, to)| (from + to) as f64 / 20.0).collect())
}

#[test]
fn a_card_of_74_mm_is_74_mm_between_its_cut_marks() {
    let pdf = sound(PRESS.cards(&[vinegar(), evening()], &A7));
    // Above the first row of cards, where nothing stands but marks: 297 - 2 · 105 - 8 = 79, half of it above; the marks
    // end 3 mm over the cards.
    let Some(marks) = marks_along(&pdf, 79.0 / 2.0 - 5.0) else {
        return;
    };
    assert_eq!(marks.len(), 4, "{marks:?}");
    assert!((marks[1] - marks[0] - 74.0).abs() < 0.11, "{marks:?}");
    assert!((marks[3] - marks[2] - 74.0).abs() < 0.11, "{marks:?}");
    // Twice 4 mm of film between them.
    assert!((marks[2] - marks[1] - 8.0).abs() < 0.11, "{marks:?}");
}

/// Where a word begins on each page, mm from the left.
fn begins(pdf: &[u8], word: &str) -> Option<Vec<f64>> {
    let found = text(pdf, &["-bbox"])?;
    let wanted = format!(">{word}</word>");
    let lines = found.lines().filter(|line| line.contains(&wanted));
    let left = lines.map(|line| {
        let from = line.split("xMin=\"").nth(1).expect("a place");
        let number = from.split('"').next().expect("a number");
        number.parse::<f64>().expect("a number") * 25.4 / 72.0
    });
    Some(left.collect())
}

#[test]
fn backs_stand_behind_their_fronts() {
    let back = Card {
        title: "Verso".to_owned(),
        tray: None,
        role: String::new(),
        ..lamp()
    };
    let card = Card {
        title: "Recto".to_owned(),
        role: String::new(),
        back: Some(Box::new(back)),
        ..lamp()
    };
    let duplex = SheetLayout {
        flip: Some(Flip::LongEdge),
        ..A7
    };
    let pdf = sound(PRESS.cards(std::slice::from_ref(&card), &duplex));
    assert_eq!(boxes(&pdf).len(), 2);
    let (Some(front), Some(behind)) = (begins(&pdf, "Recto"), begins(&pdf, "Verso")) else {
        return;
    };
    // The card stands 27 mm from the left, (210 - 2 · 74 - 8) / 2; its back as far from the right: at 109 mm.
    assert!(
        (behind[0] - front[0] - (109.0 - 27.0)).abs() < 0.3,
        "{front:?} {behind:?}"
    );
    let single = sound(PRESS.cards(&[card], &A7));
    assert_eq!(boxes(&single).len(), 1);
}

/// The sizes of type that a PDF sets, points.
fn type_sizes(pdf: &[u8]) -> Vec<f64> {
    let document = Document::load_mem(pdf).expect("a PDF");
    let mut sizes = Vec::new();
    for page in document.get_pages().into_values() {
        let bytes = document.get_page_content(page);
        let content = Content::decode(&bytes).expect("operators");
        for operation in content.operations.iter().filter(|o| o.operator == "Tf") {
            let size = operation
                .operands
                .get(1)
                .and_then(|size| Object::as_float(size).ok());
            sizes.extend(size.map(f64::from));
        }
    }
    assert!(!sizes.is_empty());
    sizes
}

#[test]
fn nothing_is_set_smaller_than_can_be_read() {
    // At 400 mm, in the hand, 16 minutes of arc are 1.862 mm, and the capitals of the font are 0.668 of its size: 7.9 points.
    let least = 2.0 * 400.0 * (8.0_f64 / 60.0).to_radians().tan() / 0.668 / (25.4 / 72.0);
    assert!((least - 7.9).abs() < 0.01);
    for layout in [A6, A7] {
        for card in [nettle(), vinegar(), evening(), tin(), lamp(), person()] {
            let pressed = PRESS.card(&card, &layout);
            let smallest = type_sizes(&pressed.pdf).into_iter().fold(f64::INFINITY, f64::min);
            assert!(smallest >= least - 0.05, "{}: {smallest}", card.id);
            sound(pressed);
        }
    }
    // Twice as far away, twice as tall.
    let far = SheetLayout {
        distance_mm: 1200.0,
        card_width_mm: 210.0,
        card_height_mm: 297.0,
        sheet_width_mm: 420.0,
        sheet_height_mm: 594.0,
        ..A6
    };
    let smallest = type_sizes(&sound(PRESS.card(&vinegar(), &far)));
    assert!(smallest.into_iter().fold(f64::INFINITY, f64::min) >= 2.0 * least - 0.1);
}

#[test]
fn drawings_say_what_they_show() {
    let told = alternatives(&sound(PRESS.card(&tin(), &A6)));
    assert!(
        told.iter().any(|alt| alt.starts_with("Biscuit tin, to scale")),
        "{told:?}"
    );
    let told = alternatives(&sound(PRESS.card(&nettle(), &A6))).len();
    // The corner mark, the line of trays, the sign for danger.
    assert!(told >= 3, "{told}");
}
