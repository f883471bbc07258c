//! What stands on the pages.

use lopdf::{Document, Object};
use proptest::prelude::*;
use trayside::press::{Press, PressFault, Pressed};
use trayside::views::card::{Card, CardKind, SheetLayout, Tray};

use super::PRESS;
use super::cards::{A6, caution, empty, evening, figure, group, line, nettle, row, step, vinegar};
use super::read::{close, poppler, sizes, sound, text, words};

#[test]
fn a_card_alone_is_one_page_of_its_trimmed_size() {
    for card in [nettle(), vinegar(), evening()] {
        let sizes = sizes(&sound(PRESS.card(&card, &A6)));
        assert_eq!(sizes.len(), 1);
        assert!(close(sizes[0], (105.0, 148.0)), "{sizes:?}");
    }
}

#[test]
fn sheets_hold_as_many_cards_as_fit() {
    let pdf = sound(PRESS.cards(&[nettle(), vinegar(), evening()], &A6));
    let sizes = sizes(&pdf);
    assert_eq!(sizes.len(), 2);
    assert!(sizes.iter().all(|size| close(*size, (297.0, 210.0))), "{sizes:?}");
    assert_eq!(PRESS.cards(&[], &A6), Pressed::default());
}

#[test]
fn a_pdf_is_tagged_titled_and_carries_its_fonts() {
    let document = Document::load_mem(&sound(PRESS.card(&nettle(), &A6))).expect("a PDF");
    let catalog = document.catalog().expect("a catalogue");
    assert!(catalog.has(b"StructTreeRoot"));
    let marked = catalog
        .get_deref(b"MarkInfo", &document)
        .and_then(Object::as_dict)
        .expect("mark info");
    assert!(marked.get(b"Marked").and_then(Object::as_bool).expect("a flag"));
    assert_eq!(
        catalog.get(b"Lang").and_then(Object::as_str).expect("a language"),
        b"en"
    );
    let metadata = catalog
        .get_deref(b"Metadata", &document)
        .and_then(Object::as_stream)
        .expect("metadata");
    let metadata = String::from_utf8_lossy(&metadata.content).into_owned();
    assert!(metadata.contains("Nettle and soda"));
    assert!(metadata.contains("pdfuaid:part"), "{metadata}");
    assert!(metadata.contains("pdfaid:part"), "{metadata}");

    let mut fonts = 0;
    for object in document.objects.values() {
        let Ok(font) = object.as_dict() else { continue };
        if font.has_type(b"FontDescriptor") {
            fonts += 1;
            assert!(font.has(b"FontFile2") || font.has(b"FontFile3"), "embedded");
            let name = font.get(b"FontName").and_then(Object::as_name).expect("a name");
            assert_eq!(
                name.get(6),
                Some(&b'+'),
                "subset: {}",
                String::from_utf8_lossy(name)
            );
        }
    }
    assert!(fonts >= 2, "regular and bold");
}

#[test]
fn the_same_cards_give_the_same_bytes() {
    let cards = [nettle(), vinegar(), evening()];
    let first = PRESS.cards(&cards, &A6).pdf;
    Press::forget_unused();
    assert_eq!(first, Press::new().cards(&cards, &A6).pdf);
}

#[test]
fn a_row_of_amounts_reads_as_one_line() {
    let pdf = sound(PRESS.card(&nettle(), &A6));
    let Some(laid) = text(&pdf, &["-layout"]) else {
        return;
    };
    let lines: Vec<String> = laid.lines().map(words).collect();
    for group in nettle().groups {
        for row in group.rows {
            let wanted = format!("{} {}", row.material, row.amounts.join(" "));
            assert!(lines.contains(&wanted), "{wanted} in\n{laid}");
        }
    }
    let lines: Vec<String> = text(&pdf, &["-raw"])
        .expect("as before")
        .lines()
        .map(words)
        .collect();
    assert!(lines.contains(&"8–12 min".to_owned()), "{lines:?}");
    assert!(lines.contains(&"1 steep 20 min".to_owned()), "{lines:?}");
}

/// The order of the words in the file: title, key figures, amounts, steps, lines, cautions.
#[test]
fn reading_order_is_the_order_of_use() {
    let pdf = sound(PRESS.card(&nettle(), &A6));
    let Some(raw) = text(&pdf, &["-raw"]) else { return };
    let raw = words(&raw);
    let card = nettle();
    let mut wanted = vec!["1".to_owned(), card.role, card.title];
    for figure in card.key_figures {
        wanted.extend([figure.label, figure.value]);
    }
    for row in card.groups.into_iter().flat_map(|group| group.rows) {
        wanted.push(row.material);
        wanted.extend(row.amounts);
    }
    wanted.extend(
        card.steps
            .into_iter()
            .flat_map(|step| [step.what, step.figure, step.note]),
    );
    wanted.extend(card.lines.into_iter().flat_map(|line| [line.label, line.text]));
    wanted.extend(card.cautions.into_iter().map(|caution| caution.text));
    wanted.extend(card.boxes);
    let mut rest = raw.as_str();
    for piece in wanted {
        let at = rest
            .find(&piece)
            .unwrap_or_else(|| panic!("{piece:?} not in {rest:?}"));
        rest = &rest[at + piece.len()..];
    }
}

#[test]
fn a_process_reads_row_by_row() {
    let Some(raw) = text(&sound(PRESS.card(&evening(), &A6)), &["-raw"]) else {
        return;
    };
    let raw = words(&raw);
    let mut rest = raw.as_str();
    let steps = evening().steps;
    for (at, step) in steps.iter().enumerate() {
        // A row ends where the next one's number and bath begin.
        let next = steps.get(at + 1).map(|next| format!("{} {}", at + 2, next.what));
        let end = next.map_or(rest.len(), |next| {
            rest.find(&next).unwrap_or_else(|| panic!("{next} not in {rest}"))
        });
        let (row, after) = rest.split_at(end);
        for piece in [&step.what, &step.note, &step.figure, &step.second] {
            assert!(row.contains(piece.as_str()), "{piece:?} not in {row:?}");
        }
        rest = after;
    }
}

#[test]
fn what_is_written_stays_text() {
    let hostile = r#"#panic("x") $y$ *b* `c` <d> @e \u{41} // f"#;
    let mut card = vinegar();
    hostile.clone_into(&mut card.title);
    card.steps[0].what = hostile.to_owned();
    card.groups[0].rows[0].material = hostile.to_owned();
    card.lines[0].text = hostile.to_owned();
    card.untested = Some(hostile.to_owned());
    let pdf = sound(PRESS.card(&card, &A6));
    let Some(raw) = text(&pdf, &["-raw"]) else { return };
    assert_eq!(words(&raw).matches(r#"#panic("x") $y$"#).count(), 5, "{raw}");
}

#[test]
fn nothing_but_black_and_white() {
    let pdf = sound(PRESS.cards(&[nettle(), vinegar()], &A6));
    let Some(ppm) = poppler(
        "pdftoppm",
        &["-r", "60", "-aa", "no", "-aaVector", "no", "-"],
        &pdf,
    ) else {
        return;
    };
    // A binary PPM: three header lines, then red, green and blue a byte each.
    let header = ppm
        .iter()
        .enumerate()
        .filter(|(_, byte)| **byte == b'\n')
        .nth(2)
        .expect("header")
        .0;
    let pixels = &ppm[header + 1..];
    assert!(pixels.len() > 10_000);
    assert!(pixels.iter().all(|&byte| byte == 0 || byte == 255));
    let white: u64 = pixels.iter().map(|&byte| u64::from(byte)).sum();
    let black = 1.0 - white as f64 / 255.0 / pixels.len() as f64;
    assert!((0.01..0.25).contains(&black), "{black}");
}

#[test]
fn odd_cards_are_set_all_the_same() {
    let mut bare = empty("bare", CardKind::Recipe);
    bare.title = String::new();
    bare.stamp = String::new();
    "not a language".clone_into(&mut bare.language);
    sound(PRESS.card(&bare, &A6));

    let mut ragged = vinegar();
    ragged.volumes = vec!["1 l".to_owned(), "2 l".to_owned()];
    ragged.tray = Some(Tray { number: 0, of: 0 });
    ragged.groups.push(group(None, vec![]));
    ragged.stamp = "tab\tand\u{0}nothing".to_owned();
    sound(PRESS.card(&ragged, &A6));

    let mut far = vinegar();
    far.tray = Some(Tray { number: 400, of: 900 });
    sound(PRESS.card(&far, &A6));
    sound(PRESS.card(&empty("line", CardKind::Process), &A6));
}

#[test]
fn other_sizes_are_set() {
    // 6 × 4 inches on its side, A5, and A7.
    for (width, height) in [(152.4, 101.6), (148.0, 210.0), (74.0, 105.0)] {
        let layout = SheetLayout {
            card_width_mm: width,
            card_height_mm: height,
            ..A6
        };
        let sizes = sizes(&sound(PRESS.card(&vinegar(), &layout)));
        assert!(close(sizes[0], (width, height)), "{sizes:?}");
    }
    let huge = SheetLayout {
        card_width_mm: 300.0,
        ..A6
    };
    assert!(matches!(
        PRESS.cards(&[vinegar()], &huge).faults.as_slice(),
        [PressFault::Layout { .. }]
    ));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever is written: a PDF, and at worst words that do not fit or have no letters here.
    #[test]
    fn any_words_are_set(words in proptest::collection::vec(any::<String>(), 12), tray in 0usize..12) {
        let word = |at: usize| words[at].as_str();
        let card = Card {
            title: words[0].clone(),
            role: words[1].clone(),
            language: words[2].clone(),
            tray: Some(Tray { number: tray, of: 5 }),
            key_figures: vec![figure(word(3), word(4))],
            volumes: vec![words[5].clone()],
            groups: vec![group(Some(word(6)), vec![row(word(7), &[word(8)])])],
            steps: vec![step(Some(word(9)), [word(10), word(11), word(0), word(1)])],
            lines: vec![line(word(2), word(3))],
            boxes: vec![words[4].clone()],
            cautions: vec![caution(true, word(5))],
            untested: Some(words[6].clone()),
            stamp: words[7].clone(),
            ..empty("any", CardKind::Recipe)
        };
        for kind in [CardKind::Recipe, CardKind::Process] {
            let pressed = PRESS.card(&Card { kind, ..card.clone() }, &A6);
            prop_assert!(pressed.pdf.starts_with(b"%PDF-"));
            prop_assert!(
                !pressed.faults.iter().any(|f| matches!(f, PressFault::Template { .. } | PressFault::Layout { .. })),
                "{:?}", pressed.faults
            );
        }
    }
}
