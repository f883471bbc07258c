//! Cards as they come off the press, read back from the PDF by other programs' eyes: lopdf always, poppler where it is
//! installed.

use std::collections::BTreeMap;
use std::io::Write;
use std::process::{Command, Stdio};
use std::sync::LazyLock;

use lopdf::{Document, Object};
use trayside::press::{Press, PressFault, Pressed};
use trayside::views::card::{
    AmountGroup, AmountRow, Card, CardKind, Caution, Figure, Line, SheetLayout, Step, Tray,
};

static PRESS: LazyLock<Press> = LazyLock::new(Press::new);

/// A6 on A4, ISO 216.
const A6: SheetLayout = SheetLayout {
    card_width_mm: 105.0,
    card_height_mm: 148.0,
    sheet_width_mm: 210.0,
    sheet_height_mm: 297.0,
    lamination_mm: 4.0,
};

fn row(material: &str, amounts: &[&str]) -> AmountRow {
    AmountRow {
        material: material.to_owned(),
        amounts: amounts.iter().map(|&a| a.to_owned()).collect(),
    }
}

fn group(name: Option<&str>, rows: Vec<AmountRow>) -> AmountGroup {
    AmountGroup {
        name: name.map(str::to_owned),
        rows,
    }
}

fn step(part: Option<&str>, words: [&str; 4]) -> Step {
    let [what, figure, second, note] = words.map(str::to_owned);
    Step {
        part: part.map(str::to_owned),
        what,
        figure,
        second,
        note,
    }
}

fn line(label: &str, text: &str) -> Line {
    Line {
        label: label.to_owned(),
        text: text.to_owned(),
    }
}

fn figure(label: &str, value: &str) -> Figure {
    Figure {
        label: label.to_owned(),
        value: value.to_owned(),
    }
}

fn caution(hazard: bool, text: &str) -> Caution {
    Caution {
        hazard,
        text: text.to_owned(),
    }
}

fn empty(id: &str, kind: CardKind) -> Card {
    Card {
        id: id.to_owned(),
        language: "en".to_owned(),
        kind,
        title: "Untitled".to_owned(),
        role: String::new(),
        tray: None,
        key_figures: vec![],
        volumes: vec![],
        groups: vec![],
        steps: vec![],
        lines: vec![],
        boxes: vec![],
        cautions: vec![],
        untested: None,
        stamp: "Attic bathroom · trayside".to_owned(),
    }
}

fn nettle() -> Card {
    Card {
        title: "Nettle and soda".to_owned(),
        role: "developer".to_owned(),
        tray: Some(Tray { number: 1, of: 4 }),
        key_figures: vec![figure("time", "8–12 min"), figure("temperature", "20–24 °C")],
        volumes: ["0.5 l", "1 l", "2 l"].map(str::to_owned).to_vec(),
        groups: vec![
            group(
                Some("tea"),
                vec![
                    row("water at 90 °C", &["250 ml", "500 ml", "1000 ml"]),
                    row("nettle, dried", &["17.5 g", "35 g", "70 g"]),
                ],
            ),
            group(
                Some("alkali"),
                vec![
                    row("water at 24 °C", &["200 ml", "400 ml", "800 ml"]),
                    row("washing soda, anhydrous", &["15 g", "30 g", "60 g"]),
                    row("ascorbic acid powder", &["6.25 g", "12.5 g", "25 g"]),
                ],
            ),
        ],
        steps: vec![
            step(Some("tea"), ["steep", "20 min", "", ""]),
            step(Some("tea"), ["strain", "", "", "press the leaves"]),
            step(Some("tea"), ["cool to", "24 °C", "", ""]),
            step(
                Some("alkali"),
                ["dissolve the soda, then the acid", "3 min", "", ""],
            ),
            step(None, ["combine tea and alkali", "", "", "top up with water"]),
        ],
        lines: vec![
            line("agitation", "rock 10 s every minute"),
            line("good for", "12 sheets a litre"),
        ],
        boxes: vec!["mixed at".to_owned(), "dead by".to_owned()],
        cautions: vec![
            caution(true, "Soda dust stings eyes badly: goggles."),
            caution(false, "Never cap: it fizzes."),
        ],
        ..empty("nettle", CardKind::Recipe)
    }
}

fn vinegar() -> Card {
    Card {
        title: "Vinegar stop".to_owned(),
        role: "stop".to_owned(),
        tray: Some(Tray { number: 2, of: 4 }),
        key_figures: vec![figure("time", "30 s"), figure("temperature", "18–24 °C")],
        volumes: vec!["1 l".to_owned()],
        groups: vec![group(
            None,
            vec![row("water", &["700 ml"]), row("white vinegar, 5 %", &["300 ml"])],
        )],
        steps: vec![step(None, ["pour the vinegar into the water", "", "", ""])],
        lines: vec![
            line("agitation", "rock all the time"),
            line("good for", "20 sheets a litre"),
        ],
        boxes: vec!["mixed at".to_owned(), "dead by".to_owned()],
        cautions: vec![caution(false, "Eye irritant when strong.")],
        untested: Some("untested".to_owned()),
        ..empty("vinegar", CardKind::Recipe)
    }
}

fn evening() -> Card {
    Card {
        title: "Evening line".to_owned(),
        role: "RC paper".to_owned(),
        steps: vec![
            step(None, ["developer", "8–12 min", "22 °C", "red light"]),
            step(None, ["stop", "30 s", "20 °C", "red light"]),
            step(None, ["plain hypo", "5 min", "20 °C", "red light for 2 min"]),
            step(None, ["wash", "4 min", "18 °C", "room light, running water"]),
            step(None, ["hang", "1 h 30 min", "", "face out"]),
        ],
        lines: vec![line("never", "no fixer hands in the developer")],
        boxes: vec!["started at".to_owned()],
        cautions: vec![caution(
            true,
            "Used hypo holds silver: collect it, never the sink.",
        )],
        ..empty("evening", CardKind::Process)
    }
}

fn sound(pressed: Pressed) -> Vec<u8> {
    assert_eq!(pressed.faults, vec![]);
    assert!(pressed.pdf.starts_with(b"%PDF-"));
    pressed.pdf
}

/// What a program of poppler's prints for a PDF; nothing where it is not installed.
fn poppler(program: &str, arguments: &[&str], pdf: &[u8]) -> Option<Vec<u8>> {
    let mut child = Command::new(program)
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .ok()?;
    let mut stdin = child.stdin.take().expect("piped");
    let bytes = pdf.to_vec();
    let writer = std::thread::spawn(move || stdin.write_all(&bytes).is_ok());
    let output = child.wait_with_output().expect("program ends");
    writer.join().expect("writer ends");
    Some(output.stdout)
}

fn text(pdf: &[u8], arguments: &[&str]) -> Option<String> {
    let arguments: Vec<&str> = arguments.iter().copied().chain(["-", "-"]).collect();
    let bytes = poppler("pdftotext", &arguments, pdf)?;
    Some(String::from_utf8(bytes).expect("utf-8"))
}

fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Page sizes in mm.
fn sizes(pdf: &[u8]) -> Vec<(f64, f64)> {
    let document = Document::load_mem(pdf).expect("a PDF");
    let boxes = document.get_pages().into_values().map(|page| {
        let page = document.get_dictionary(page).expect("a page");
        let corners = page.get(b"MediaBox").and_then(Object::as_array).expect("a box");
        let corners: Vec<f64> = corners
            .iter()
            .map(|c| f64::from(c.as_float().expect("a number")) * 25.4 / 72.0)
            .collect();
        (corners[2] - corners[0], corners[3] - corners[1])
    });
    boxes.collect()
}

fn close(a: (f64, f64), b: (f64, f64)) -> bool {
    (a.0 - b.0).abs() < 0.1 && (a.1 - b.1).abs() < 0.1
}

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
    for (at, step) in evening().steps.into_iter().enumerate() {
        for piece in [
            (at + 1).to_string(),
            step.what,
            step.note,
            step.figure,
            step.second,
        ] {
            let found = rest
                .find(&piece)
                .unwrap_or_else(|| panic!("{piece:?} not in {rest:?}"));
            rest = &rest[found + piece.len()..];
        }
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
fn a_card_with_too_much_on_it_is_told_and_not_clipped() {
    let mut card = nettle();
    for at in 0..60 {
        let what = format!("stir round number {at} and then once more with a wooden spoon");
        card.steps.push(step(None, [&what, "5 min", "", ""]));
    }
    let pressed = PRESS.card(&card, &A6);
    match pressed.faults.as_slice() {
        [PressFault::Overflow { card, by_mm, what }] => {
            assert_eq!((card.as_str(), what.as_str()), ("nettle", "steps"));
            assert!(*by_mm > 50.0, "{by_mm}");
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
        [PressFault::Overflow { card, what, .. }] => {
            assert_eq!((card.as_str(), what.as_str()), ("vinegar", "width"));
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
        [PressFault::Overflow { what, .. }] => assert!(what == "overlap" || what == "width", "{what}"),
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
