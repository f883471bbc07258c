//! Weighing sheets, log slips and the room sheet: what stands on them and how they are laid.

use trayside::finding::slug;
use trayside::host::{Disk, Host, Memory};
use trayside::pipeline::{Silent, press, proof};
use trayside::views::room_sheet::{room_sheet, room_size};
use trayside::views::slip::{slip_layout, slips};
use trayside::views::weighing::{VolumeRow, VolumeSheet, volume_sheet_size, volume_sheets};

use super::PRESS;
use super::languages::demo;
use super::read::{close, sizes, sound, text, words};

const BATHS: &str = "# Baths

```recipe
id: salt-bath
title: Salt bath
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 2 weeks
waste: To the collection point.
```
";

fn folder(press: &str) -> Memory {
    let settings = format!("title: One bath\nzone: Europe/Lisbon\nscale: 0.5 g\npress:\n{press}");
    Memory::new()
        .with("trayside.yaml", settings)
        .with("page.md", BATHS)
}

fn rows(sheet: &VolumeSheet) -> impl Iterator<Item = &VolumeRow> {
    sheet.groups.iter().flat_map(|group| &group.rows)
}

fn keep(name: &str, pdf: &[u8]) {
    let path = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    Disk::write_file(&path, pdf).expect("written");
}

#[test]
fn a_weighing_sheet_has_a_column_and_a_box_for_every_volume() {
    let demo = demo("en");
    let size = volume_sheet_size(&demo.notebook);
    // A5 is 148 × 210 mm, ISO 216.
    assert!(close(size, (148.0, 210.0)));
    let made = volume_sheets(&demo.notebook, &demo.facts, &demo.findings);
    assert!(made.sheets.len() >= 8);
    assert!(made.left_out.iter().any(|left| left.id == "draft-acid-hypo"));
    for sheet in &made.sheets {
        let pdf = sound(PRESS.mixing(sheet, size.0, size.1));
        keep(&format!("sheet-{}.pdf", sheet.id), &pdf);
        assert!(sizes(&pdf).iter().all(|page| close(*page, (148.0, 210.0))));
        assert_eq!(sheet.volumes.len(), 3, "{}", sheet.id);
        for row in rows(sheet) {
            assert_eq!(row.amounts.len(), 3, "{}: {}", sheet.id, row.material);
        }
    }
    // Crystals are in the packet, and the recipe wants the anhydrous soda.
    let bramble = made
        .sheets
        .iter()
        .find(|sheet| sheet.id == "bramble-leaf")
        .expect("made");
    let soda = rows(bramble)
        .find(|row| row.material.starts_with("washing soda"))
        .expect("a row");
    assert_eq!(soda.material, "washing soda, crystals");
    assert!(
        soda.notes.iter().all(|note| note.label == "for 1\u{a0}l"),
        "{:?}",
        soda.notes
    );
}

#[test]
fn a_notebook_sets_its_own_volumes() {
    let host = folder("  sheets:\n    size: A4\n    volumes: [250 ml, 3 l]\n");
    let proof = proof(&host, &Silent).unwrap();
    assert_eq!(proof.findings, []);
    let made = volume_sheets(&proof.notebook, &proof.facts, &proof.findings);
    let sheet = &made.sheets[0];
    assert_eq!(sheet.volumes, ["250\u{a0}ml", "3\u{a0}l"]);
    let hypo = rows(sheet)
        .find(|row| row.material == "hypo, crystals")
        .expect("a row");
    assert_eq!(hypo.amounts, ["50.0\u{a0}g", "600.0\u{a0}g"]);
    press(&host, &proof, &Silent).unwrap();
    let pdf = host.read("pressed/sheets/salt-bath.pdf").unwrap();
    // A4 is 210 × 297 mm, ISO 216.
    assert!(close(sizes(&pdf)[0], (210.0, 297.0)));
}

#[test]
fn what_cannot_be_mixed_or_numbered_is_told() {
    let told = |press: &str| {
        let proof = proof(&folder(press), &Silent).unwrap();
        let rules: Vec<_> = proof.findings.iter().map(|finding| finding.rule).collect();
        rules
    };
    assert_eq!(
        told("  sheets:\n    volumes: [0 ml, 1 l]\n"),
        [slug::AMOUNT_OUT_OF_RANGE]
    );
    assert_eq!(
        told("  sheets:\n    volumes: [1 l, 2 l, 3 l, 4 l, 5 l]\n"),
        [slug::VALUE_SHAPE]
    );
    assert_eq!(told("  slips:\n    count: 0\n"), [slug::AMOUNT_OUT_OF_RANGE]);
    assert_eq!(told("  slips:\n    count: 5000\n"), [slug::AMOUNT_OUT_OF_RANGE]);
    assert_eq!(told("  slips:\n    form: 3\n"), [slug::KEY_UNKNOWN]);
    assert_eq!(told("  room: {}\n"), []);
}

#[test]
fn slips_are_numbered_and_ask_for_all_that_an_entry_must_hold() {
    let demo = demo("en");
    let slips = slips(&demo.notebook);
    assert_eq!(slips.numbers, (13..25).collect::<Vec<u32>>());
    let pdf = sound(PRESS.slips(&slips, &slip_layout(&demo.notebook)));
    keep("slips.pdf", &pdf);
    let pages = sizes(&pdf);
    assert_eq!(pages.len(), 3, "four on each A4");
    assert!(pages.iter().all(|page| close(*page, (210.0, 297.0))));
    let Some(text) = text(&pdf, &["-raw", "-f", "1", "-l", "1"]) else {
        return;
    };
    let text = words(&text);
    for number in 13..17 {
        assert!(
            text.contains(&format!("on the back of the sheet {number}")),
            "{number}: {text}"
        );
    }
    for field in [
        "date",
        "opened at",
        "camera",
        "f/",
        "paper, batch",
        "shiny side",
        "light",
        "meter",
        "seconds wanted",
        "given",
        "sun",
        "subject",
        "moved",
        "wind",
        "developer batch",
        "minutes old",
        "°C at the start",
        "developed",
        "stopped",
        "fixed",
        "pH strip",
        "too pale",
        "right",
        "too dark",
        "leak",
        "stain",
        "one thing I change next",
        "initials",
        "not noted, never zero",
    ] {
        assert_eq!(text.matches(field).count(), 4, "{field}: {text}");
    }
}

/// 98 mm wide and 140 mm high, two by two in the middle of the sheet: marks in line with every edge.
#[test]
fn slips_have_cut_marks_at_their_edges() {
    let demo = demo("en");
    let pdf = sound(PRESS.slips(&slips(&demo.notebook), &slip_layout(&demo.notebook)));
    let document = lopdf::Document::load_mem(&pdf).expect("a PDF");
    let (_, page) = document.get_pages().into_iter().next().expect("a page");
    let content = document.get_and_decode_page_content(page).expect("content");
    let number = |object: &lopdf::Object| f64::from(object.as_float().expect("a number")) * 25.4 / 72.0;
    // Moves and lines of the page itself, mm from the left edge; typst sets each mark under a transformation.
    let mut xs: Vec<f64> = Vec::new();
    for operation in &content.operations {
        if operation.operator == "cm" && operation.operands.len() == 6 {
            xs.push(number(&operation.operands[4]));
        }
    }
    for edge in [7.0, 105.0, 203.0] {
        assert!(
            xs.iter().any(|x| (x - edge).abs() < 0.05),
            "no mark at {edge} mm: {xs:?}"
        );
    }
}

#[test]
fn the_room_sheet_warns_of_everything_mixed_and_invents_nothing() {
    let demo = demo("en");
    let room = room_sheet(&demo.notebook, &demo.facts, &demo.findings);
    let (width, height) = room_size(&demo.notebook);
    let pdf = sound(PRESS.room(&room, width, height));
    keep("room.pdf", &pdf);
    assert_eq!(sizes(&pdf).len(), 1, "one sheet for the door");
    let Some(text) = text(&pdf, &["-raw"]) else { return };
    let text = words(&text.replace('\u{a0}', " "));
    let layout = trayside::views::cards(&demo.notebook, &demo.facts, &demo.findings);
    for card in layout
        .cards
        .iter()
        .filter(|card| card.kind == trayside::views::card::CardKind::Recipe)
    {
        assert!(text.contains(&card.title), "{}", card.title);
        for side in card.sides() {
            for caution in side.cautions {
                assert!(
                    text.contains(&words(&caution.text.replace('\u{a0}', " "))),
                    "{}",
                    caution.text
                );
            }
        }
    }
    for told in [
        "people: 6",
        "adults only",
        "premises: club",
        "Ossel Sound Water Office",
        "2031-03-03",
    ] {
        assert!(text.contains(told), "{told}");
    }
    for asked in [
        "emergency number",
        "poison centre",
        "first aid kit hangs",
        "responsible person",
        "nearest eyewash",
    ] {
        let after = text.split(asked).nth(1).expect("asked for");
        assert!(
            !after.starts_with(|c: char| c.is_ascii_digit()),
            "{asked}: {after}"
        );
    }
}

#[test]
fn without_an_answer_the_room_sheet_leaves_lines_to_write_on() {
    let proof = proof(&folder("  room: {}\n"), &Silent).unwrap();
    let room = room_sheet(&proof.notebook, &proof.facts, &proof.findings);
    assert!(room.waste.iter().all(|line| line.text.is_empty()));
    assert_eq!(room.who, ["minors: ask"]);
}

#[test]
fn a_slip_too_small_is_told_and_not_pressed() {
    let host = folder("  slips:\n    size: 60×70 mm\n    count: 4\n");
    let proof = proof(&host, &Silent).unwrap();
    let pressing = press(&host, &proof, &Silent).unwrap();
    let rules: Vec<_> = pressing.findings.iter().map(|finding| finding.rule).collect();
    assert_eq!(rules, [slug::SHEET_OVERFLOW], "{:?}", pressing.findings);
    assert!(!host.exists("pressed/slips.pdf"));
}
