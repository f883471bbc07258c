//! The demo notebook in another language: nothing fixed stays English, and all of it says that nobody reviewed it.

use std::collections::BTreeSet;
use std::path::Path;

use trayside::finding::slug;
use trayside::host::{Disk, Host, Memory};
use trayside::pipeline::{Proof, Silent, proof};
use trayside::views::room_sheet::{RoomSheet, room_sheet};
use trayside::views::weighing::{self, Sheet, Source, Target};
use trayside::views::{self};

use super::PRESS;
use super::read::{sound, text, words};

const UNREVIEWED: &str = "Übersetzung nicht geprüft";

/// The demo in a language.
pub(super) fn demo(language: &str) -> Proof {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("recipes");
    let disk = Disk::open(&folder).expect("the demo");
    let memory = Memory::new();
    for file in disk.list().expect("listed") {
        memory.put(&file.path, disk.read(&file.path).expect("read"));
    }
    let settings = String::from_utf8(disk.read("trayside.yaml").expect("read")).expect("text");
    memory.put(
        "trayside.yaml",
        settings.replace("language: en", &format!("language: {language}")),
    );
    proof(&memory, &Silent).expect("a notebook")
}

fn sheets(proof: &Proof) -> Vec<Sheet> {
    let source = Source {
        notebook: &proof.notebook,
        facts: &proof.facts,
        findings: &proof.findings,
    };
    let baths = proof.facts.baths.iter();
    let made = baths.filter_map(|bath| {
        let block = proof.notebook.block(&bath.id)?;
        let (litres, because) = weighing::litres_of(&Target::AsWritten, bath, &proof.notebook).ok()?;
        weighing::sheet(source, block, bath, litres, because)
    });
    made.collect()
}

fn room(proof: &Proof) -> RoomSheet {
    room_sheet(&proof.notebook, &proof.facts, &proof.findings)
}

/// Every text of a view, with the numbers taken out.
fn texts(value: &serde_json::Value, found: &mut BTreeSet<String>) {
    match value {
        serde_json::Value::String(text) => {
            found.insert(text.chars().filter(|c| !c.is_ascii_digit()).collect());
        }
        serde_json::Value::Array(items) => items.iter().for_each(|item| texts(item, found)),
        serde_json::Value::Object(fields) => fields.values().for_each(|field| texts(field, found)),
        _ => {}
    }
}

#[test]
fn nothing_fixed_stays_english() {
    let (english, german) = (demo("en"), demo("de"));
    let of = |proof: &Proof| {
        let mut found = BTreeSet::new();
        let cards = views::cards(&proof.notebook, &proof.facts, &proof.findings).cards;
        let labels = views::labels(&proof.notebook, &proof.facts, &proof.findings).labels;
        let cuttings = views::cutting::cuttings(&proof.notebook, &proof.facts, &proof.findings);
        for view in [
            serde_json::to_value(cards),
            serde_json::to_value(labels),
            serde_json::to_value(cuttings),
            serde_json::to_value(sheets(proof)),
            serde_json::to_value(
                weighing::volume_sheets(&proof.notebook, &proof.facts, &proof.findings)
                    .sheets
                    .iter()
                    .map(|sheet| (sheet, &sheet.heads))
                    .collect::<Vec<_>>(),
            ),
            serde_json::to_value(views::slip::slips(&proof.notebook)),
            serde_json::to_value(room(proof)),
        ] {
            texts(&view.expect("plain data"), &mut found);
        }
        found
    };
    // What is the same in both: what the author wrote, ids, formulas, kinds of cards and names of signs.
    let written: String = english
        .sources
        .iter()
        .map(|(_, source)| source.text().to_lowercase())
        .collect::<Vec<_>>()
        .join("\n");
    let (english, german) = (of(&english), of(&german));
    let kinds = [
        "recipe",
        "process",
        "exclamation",
        "corrosion",
        "environment",
        "flame",
    ];
    let left: Vec<&String> = english
        .intersection(&german)
        .filter(|text| text.chars().filter(|c| c.is_lowercase()).count() > 3)
        .filter(|text| !kinds.contains(&text.as_str()))
        .filter(|text| {
            let pieces = text.split([',', '·', '\u{a0}', ' ']).map(str::trim);
            !pieces
                .filter(|piece| piece.chars().count() > 3)
                .all(|piece| written.contains(&piece.to_lowercase()))
        })
        .collect();
    assert_eq!(left, Vec::<&String>::new());
}

/// What is printed of a pH's band: the figures are those of the English sheet, the words are none of them.
#[test]
fn a_ph_says_what_makes_it_uncertain_in_the_sheets_own_language() {
    let told = |language: &str, before: &str| -> Vec<String> {
        let said = sheets(&demo(language))
            .into_iter()
            .filter_map(|sheet| sheet.acidity);
        said.filter_map(|line| line.split_once(before).map(|(_, reason)| reason.to_owned()))
            .collect()
    };
    let english = told("en", "What is not sure about it is ");
    let german = told("de", "Unsicher daran: ");
    assert!(english.len() > 4, "{english:?}");
    assert_eq!(english.len(), german.len());
    let figure = |text: &String| text.split(' ').find_map(|word| word.parse::<u32>().ok());
    for (ours, theirs) in english.iter().zip(&german) {
        assert_eq!(figure(ours), figure(theirs), "{ours} / {theirs}");
        assert!(theirs.starts_with("vor allem "), "{theirs}");
        assert!(!theirs.contains('{') && !theirs.contains(" of "), "{theirs}");
    }
    assert!(
        german.iter().any(|reason| reason.contains("„spent black tea“")),
        "{german:?}"
    );
}

#[test]
fn an_unreviewed_translation_says_so_on_paper() {
    let german = demo("de");
    let cards = views::cards(&german.notebook, &german.facts, &german.findings);
    let layout = views::layout(&german.notebook.settings);
    for card in &cards.cards {
        let pdf = sound(PRESS.card(card, &layout));
        if card.id == "plain-hypo" {
            let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("card-de.pdf");
            Disk::write_file(&path, &pdf).expect("written");
        }
        let Some(text) = text(&pdf, &["-raw"]) else { return };
        assert!(words(&text).contains(UNREVIEWED), "{}: {text}", card.id);
        let document = lopdf::Document::load_mem(&pdf).expect("a PDF");
        let lang = document.catalog().expect("a catalogue").get(b"Lang");
        assert_eq!(lang.and_then(lopdf::Object::as_str).expect("a language"), b"de");
    }
    let made = weighing::volume_sheets(&german.notebook, &german.facts, &german.findings);
    let papers = made
        .sheets
        .iter()
        .map(|sheet| (sheet.id.clone(), PRESS.mixing(sheet, 148.0, 210.0)));
    let slips = views::slip::slips(&german.notebook);
    let papers = papers.chain([
        (
            "slips".to_owned(),
            PRESS.slips(&slips, &views::slip::slip_layout(&german.notebook)),
        ),
        ("room".to_owned(), PRESS.room(&room(&german), 210.0, 297.0)),
    ]);
    for (name, pressed) in papers {
        let pdf = sound(pressed);
        let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{name}-de.pdf"));
        Disk::write_file(&path, &pdf).expect("written");
        let Some(text) = text(&pdf, &["-raw"]) else { return };
        assert!(words(&text).contains(UNREVIEWED), "{name}: {text}");
    }
    for sheet in sheets(&german) {
        assert!(sheet.stamp.contains(UNREVIEWED));
    }
    for label in views::labels(&german.notebook, &german.facts, &german.findings).labels {
        assert!(label.stamp.contains(UNREVIEWED));
    }
}

#[test]
fn a_language_without_fixed_words_is_told() {
    let told = |code: &str| {
        let proof = demo(code);
        proof
            .findings
            .iter()
            .any(|finding| finding.rule == slug::LANGUAGE_UNKNOWN)
    };
    assert!(told("pt"));
    assert!(!told("de-AT"));
}
