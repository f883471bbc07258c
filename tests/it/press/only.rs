//! `press --only`: only what was named is made, and what stays is still true.

use std::collections::BTreeSet;
use std::process::{Command, Output};

use trayside::host::{Disk, Host, Memory};
use trayside::pipeline::{Only, Pressing, Silent, press, press_only, proof};

const SETTINGS: &str = "title: Two baths\nzone: Europe/Lisbon\nscale: 0.5 g\npress:\n  cards: {}\n  labels: {}\n  sheets: {}\n  \
                        room: {}\n  site: {}\n";

const BATHS: &str = "# Baths

```recipe
id: salt-bath
title: Salt bath
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
use:
  time: 3 min
keeps:
  bottle: 2 weeks
waste: To the collection point.
```

```recipe
id: lemon-stop
title: Lemon stop
role: stop
makes: 1 l
add:
  citric acid, anhydrous: 10 g
use:
  time: 30 s
keeps: 12 h
waste: Ask first.
```

```camera
id: biscuit-tin
title: Biscuit tin
pinhole: 0.4 mm
distance: 90 mm
format: 9×13 cm
```
";

fn folder() -> Memory {
    Memory::new()
        .with("trayside.yaml", SETTINGS)
        .with("page.md", BATHS)
}

fn all(host: &Memory) -> Pressing {
    let proof = proof(host, &Silent).unwrap();
    press(host, &proof, &Silent).unwrap()
}

fn only(host: &Memory, words: &[&str]) -> Pressing {
    let proof = proof(host, &Silent).unwrap();
    let words: Vec<String> = words.iter().map(|word| (*word).to_owned()).collect();
    let only = Only::read(&words, &proof.notebook).unwrap();
    press_only(host, &proof, &Silent, &only).unwrap()
}

fn papers(host: &Memory) -> BTreeSet<String> {
    let files = host.files().into_keys();
    let pressed = files.filter_map(|path| Some(path.strip_prefix("pressed/")?.to_owned()));
    pressed
        .filter(|path| path.rsplit_once('.').is_some_and(|(_, ending)| ending == "pdf"))
        .collect()
}

fn set(paths: &[&str]) -> BTreeSet<String> {
    paths.iter().map(|path| (*path).to_owned()).collect()
}

#[test]
fn only_what_is_named_is_made() {
    let host = folder();
    only(&host, &["labels", "room"]);
    assert_eq!(papers(&host), set(&["labels.pdf", "room.pdf"]));
    only(&host, &["lemon-stop"]);
    assert_eq!(
        papers(&host),
        set(&[
            "labels.pdf",
            "room.pdf",
            "cards/lemon-stop.pdf",
            "sheets/lemon-stop.pdf"
        ]),
        "what was pressed before is still true"
    );
    // A notebook that does not ask for slips gets them where somebody does.
    only(&host, &["slips"]);
    assert!(host.exists("pressed/slips.pdf") && host.exists("pressed/labels.pdf"));
    assert!(!host.exists("pressed/site/index.html"));
    only(&host, &["biscuit-tin"]);
    assert!(host.exists("pressed/templates/biscuit-tin.pdf"));
}

#[test]
fn nothing_is_written_where_nothing_changed() {
    let host = folder();
    all(&host);
    let before = host.files();
    for word in [
        "cards",
        "labels",
        "sheets",
        "room",
        "templates",
        "site",
        "salt-bath",
    ] {
        let pressing = only(&host, &[word]);
        assert_eq!(pressing.replaced.written, Vec::<String>::new(), "{word}");
        assert_eq!(pressing.replaced.removed, Vec::<String>::new(), "{word}");
        assert_eq!(pressing.cards, 2, "{word}");
    }
    assert_eq!(host.files(), before);
}

#[test]
fn what_is_no_longer_true_does_not_stay() {
    let host = folder();
    all(&host);
    host.put(
        "page.md",
        BATHS.replace("hypo, crystals: 200 g", "hypo, crystals: 250 g"),
    );
    only(&host, &["labels"]);
    // The card, the sheet and the sheet of cards said 200 g; the room sheet says nothing of it.
    assert_eq!(
        papers(&host),
        set(&[
            "cards/lemon-stop.pdf",
            "labels.pdf",
            "room.pdf",
            "sheets/lemon-stop.pdf",
            "templates/biscuit-tin.pdf"
        ])
    );
    assert!(!host.exists("pressed/cards/salt-bath-red.png"));
    assert!(!host.exists("pressed/site/index.html"), "the site said it too");
    all(&host);
    assert!(host.exists("pressed/cards/salt-bath.pdf") && host.exists("pressed/cards/sheets.pdf"));
}

#[test]
fn what_has_no_record_is_not_believed() {
    let host = folder();
    all(&host);
    host.remove("pressed/made-from.json");
    only(&host, &["room"]);
    assert_eq!(papers(&host), set(&["room.pdf"]));
}

#[test]
fn a_fault_since_then_takes_the_paper_though_it_was_not_named() {
    let host = folder();
    all(&host);
    host.put("page.md", BATHS.replace("role: fixer", "role: fixr"));
    only(&host, &["room"]);
    let left = papers(&host);
    assert!(!left.iter().any(|path| path.contains("salt-bath")), "{left:?}");
    assert!(
        left.contains("cards/lemon-stop.pdf") && !left.contains("labels.pdf"),
        "{left:?}"
    );
}

#[test]
fn an_unknown_word_is_answered_with_the_nearest() {
    let proof = proof(&folder(), &Silent).unwrap();
    let read = |word: &str| Only::read(&[word.to_owned()], &proof.notebook);
    assert_eq!(
        read("lables").unwrap_err(),
        "nothing is called `lables`; did you mean `labels`?"
    );
    assert_eq!(
        read("cards,salt-bat").unwrap_err(),
        "nothing is called `salt-bat`; did you mean `salt-bath`?"
    );
    assert!(
        read("nonsense")
            .unwrap_err()
            .contains("say cards, templates, labels")
    );
    assert!(read(" , ").is_err());
    assert!(read("cards,labels, room,lemon-stop").is_ok());
}

fn run(arguments: &[&str], folder: &std::path::Path) -> Output {
    Command::new(env!("CARGO_BIN_EXE_trayside"))
        .args(arguments)
        .current_dir(folder)
        .output()
        .unwrap()
}

#[test]
fn the_command_line_says_what_was_made() {
    let place = tempfile::tempdir().unwrap();
    for (path, text) in [("trayside.yaml", SETTINGS), ("page.md", BATHS)] {
        Disk::write_file(&place.path().join(path), text.as_bytes()).unwrap();
    }
    let output = run(&["press", "--only", "cards"], place.path());
    let said = String::from_utf8(output.stdout).unwrap();
    assert!(said.contains("2 cards and 0 pages in"), "{said}");
    assert!(place.path().join("pressed/cards/salt-bath.pdf").is_file());
    assert!(!place.path().join("pressed/room.pdf").exists());
    let refused = run(&["press", "--only", "romm"], place.path());
    assert_eq!(refused.status.code(), Some(2));
    let said = String::from_utf8(refused.stderr).unwrap();
    assert!(said.contains("did you mean `room`?"), "{said}");
}

#[test]
fn nothing_is_typeset_that_stands_as_it_was_written() {
    let host = folder();
    let made = all(&host).typeset;
    let before = host.files();
    assert!(made > 5, "{made}");
    assert_eq!(all(&host).typeset, 0);
    assert_eq!(host.files(), before);
    // A file that somebody wrote over is no longer what was made.
    host.put("pressed/room.pdf", "%PDF-1.7 of another");
    host.remove("pressed/cards/salt-bath-red.png");
    let again = all(&host);
    assert_eq!(again.typeset, 2);
    assert_eq!(again.replaced.written, ["cards/salt-bath-red.png", "room.pdf"]);
    assert_eq!(host.files(), before);
    // Another template is another document.
    host.put("templates/press/own.typ", "// Mine.\n");
    assert_eq!(all(&host).typeset, made);
}
