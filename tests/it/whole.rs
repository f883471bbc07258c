//! The whole way, from a folder to what is pressed: complete or not at all, the same each time, and nothing else touched.

use std::collections::BTreeMap;
use std::path::Path;
use std::process::{Command, Output};

use trayside::host::{Bytes, Disk, Host, Memory};
use trayside::pipeline::{self, Pressing, Silent};

fn demo() -> BTreeMap<String, Vec<u8>> {
    folder(&Path::new(env!("CARGO_MANIFEST_DIR")).join("recipes"))
}

/// Every file of a notebook and what is kept of it, output left out.
fn folder(path: &Path) -> BTreeMap<String, Vec<u8>> {
    let disk = Disk::open(path).unwrap();
    let (listed, kept) = (disk.list().unwrap(), disk.list_below("kept").unwrap());
    listed
        .into_iter()
        .chain(kept)
        .map(|thing| (thing.path.clone(), disk.read(&thing.path).unwrap()))
        .collect()
}

fn memory(files: &BTreeMap<String, Vec<u8>>) -> Memory {
    let memory = Memory::new();
    for (path, bytes) in files {
        memory.put(path, bytes.clone());
    }
    memory
}

fn press(host: &dyn Host) -> Pressing {
    let proof = pipeline::proof(host, &Silent).unwrap();
    pipeline::press(host, &proof, &Silent).unwrap()
}

/// Every file on disk below a folder, `pressed/` too.
fn on_disk(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut open = vec![folder.to_path_buf()];
    while let Some(at) = open.pop() {
        for entry in std::fs::read_dir(&at).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else {
                let name = path.strip_prefix(folder).unwrap().to_string_lossy().into_owned();
                found.insert(name, std::fs::read(&path).unwrap());
            }
        }
    }
    found
}

fn write(folder: &Path, files: &BTreeMap<String, Vec<u8>>) {
    for (path, bytes) in files {
        let path = folder.join(path);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, bytes).unwrap();
    }
}

fn run(arguments: &[&str], folder: &Path) -> Output {
    Command::new(env!("CARGO_BIN_EXE_trayside"))
        .args(arguments)
        .current_dir(folder)
        .output()
        .unwrap()
}

#[test]
fn a_second_press_writes_nothing_and_two_folders_get_the_same_bytes() {
    let files = demo();
    let (one, two) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    for place in [&one, &two] {
        write(place.path(), &files);
        let pressing = press(&Disk::open(place.path()).unwrap());
        assert!(!pressing.replaced.written.is_empty());
    }
    assert_eq!(on_disk(one.path()), on_disk(two.path()));
    let again = press(&Disk::open(one.path()).unwrap());
    assert_eq!(
        (again.replaced.written, again.replaced.removed),
        (Vec::<String>::new(), Vec::<String>::new())
    );
}

#[test]
fn nothing_but_the_pressed_folder_is_touched() {
    let files = demo();
    let place = tempfile::tempdir().unwrap();
    write(place.path(), &files);
    press(&Disk::open(place.path()).unwrap());
    let mut left = on_disk(place.path());
    left.retain(|path, _| !path.starts_with("pressed/"));
    // By name first: what is new here is what the demo has to keep.
    assert_eq!(left.keys().collect::<Vec<_>>(), files.keys().collect::<Vec<_>>());
    assert!(left == files);
}

#[cfg(feature = "typst")]
#[test]
fn a_card_whose_block_has_a_fault_does_not_stay() {
    let mut files = demo();
    let host = memory(&files);
    press(&host);
    assert!(host.exists("pressed/cards/plain-hypo.pdf"));
    let page = files.get_mut("baths/fixer.md").unwrap();
    let text = String::from_utf8(page.clone()).unwrap();
    let broken = text.replacen("role: fixer", "role: fixr", 1);
    assert_ne!(text, broken);
    host.put("baths/fixer.md", broken);
    let pressing = press(&host);
    assert!(!host.exists("pressed/cards/plain-hypo.pdf"));
    assert!(
        pressing
            .replaced
            .removed
            .contains(&"cards/plain-hypo.pdf".to_owned())
    );
    assert!(host.exists("pressed/cards/spent-tea.pdf"), "other cards stay");
    assert!(
        host.exists("pressed/site/baths/fixer.html"),
        "the page stays, with its finding"
    );
}

#[test]
fn what_a_crash_left_undone_is_done() {
    let place = tempfile::tempdir().unwrap();
    write(place.path(), &demo());
    let host = Disk::open(place.path()).unwrap();
    press(&host);
    let pressed = place.path().join("pressed");
    let good = on_disk(&pressed);
    // A crash leaves a folder of files that were to be put in place, of which some already are.
    std::fs::create_dir(place.path().join(".pressed.new")).unwrap();
    std::fs::write(place.path().join(".pressed.new/half"), "x").unwrap();
    std::fs::write(pressed.join("site/old.html"), "x").unwrap();
    std::fs::remove_file(pressed.join("site/class.html")).unwrap();
    let page = std::fs::read_to_string(pressed.join("site/index.html")).unwrap();
    std::fs::write(pressed.join("site/index.html"), page.replace('e', "i")).unwrap();
    // Another process presses: nothing is remembered.
    let again = press(&Disk::open(place.path()).unwrap());
    assert_eq!(on_disk(&pressed), good);
    assert_eq!(again.replaced.written, ["site/index.html", "site/class.html"]);
    assert_eq!(again.replaced.removed, ["site/old.html"]);
    assert_eq!(press(&host).replaced.written, Vec::<String>::new());
    assert!(!place.path().join(".pressed.new").exists());
}

#[test]
fn a_file_and_a_folder_can_change_places() {
    let place = tempfile::tempdir().unwrap();
    let host = Disk::open(place.path()).unwrap();
    let file = |path: &str, text: &str| (path.to_owned(), Bytes::from(text.as_bytes()));
    let states = [
        vec![file("a", "1"), file("b/c/d", "2")],
        vec![file("a/x", "3"), file("b", "4")],
        vec![file("a", "1"), file("b/c/d", "2")],
        vec![file("b/c", "5")],
    ];
    for files in states {
        std::fs::create_dir_all(place.path().join("out/empty")).unwrap();
        host.replace_folder("out", &files).unwrap();
        let held = on_disk(&place.path().join("out"));
        let wanted: BTreeMap<String, Vec<u8>> = files
            .into_iter()
            .map(|(path, bytes)| (path, bytes.to_vec()))
            .collect();
        assert_eq!(held, wanted);
    }
}

#[cfg(unix)]
#[test]
fn a_linked_output_folder_is_not_written_through() {
    let (place, elsewhere) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    write(place.path(), &demo());
    std::fs::write(elsewhere.path().join("mine"), "keep").unwrap();
    std::os::unix::fs::symlink(elsewhere.path(), place.path().join("pressed")).unwrap();
    let host = Disk::open(place.path()).unwrap();
    let proof = pipeline::proof(&host, &Silent).unwrap();
    assert!(pipeline::press(&host, &proof, &Silent).is_err());
    assert_eq!(on_disk(elsewhere.path()).len(), 1);
}

#[cfg(unix)]
#[test]
fn links_out_of_the_folder_and_circles_are_not_followed() {
    let (place, elsewhere) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    std::fs::write(place.path().join("trayside.yaml"), "title: T\n").unwrap();
    std::fs::write(elsewhere.path().join("secret.md"), "# Secret\n").unwrap();
    std::os::unix::fs::symlink(elsewhere.path().join("secret.md"), place.path().join("a.md")).unwrap();
    std::os::unix::fs::symlink(place.path(), place.path().join("round")).unwrap();
    let host = Disk::open(place.path()).unwrap();
    let proof = pipeline::proof(&host, &Silent).unwrap();
    let rules: Vec<&str> = proof
        .findings
        .iter()
        .map(|finding| finding.rule.as_str())
        .collect();
    assert_eq!(rules, ["link-outside", "link-outside"]);
    press(&host);
    let pressed = on_disk(&place.path().join("pressed"));
    assert!(
        pressed
            .values()
            .all(|bytes| !bytes.windows(6).any(|window| window == b"Secret"))
    );
}

/// Whoever reads from a pipe waits until somebody writes to it.
#[cfg(unix)]
#[test]
fn links_that_lead_to_no_file_are_said_and_not_waited_for() {
    let place = tempfile::tempdir().unwrap();
    let at = |name: &str| place.path().join(name);
    std::fs::write(at("trayside.yaml"), "title: T\n").unwrap();
    assert!(Command::new("mkfifo").arg(at("pipe")).status().unwrap().success());
    for (link, to) in [
        ("a.md", "pipe"),
        ("b.md", "gone.md"),
        ("c.md", "c.md"),
        ("d.png", "pipe"),
    ] {
        std::os::unix::fs::symlink(to, at(link)).unwrap();
    }
    std::fs::write(at("index.md"), "# Here\n\n![d](d.png)\n").unwrap();
    let host = Disk::open(place.path()).unwrap();
    assert!(host.read("d.png").is_err() && host.read("pipe").is_err());
    let proof = pipeline::proof(&host, &Silent).unwrap();
    let said: Vec<String> = proof
        .findings
        .iter()
        .map(|finding| format!("{}: {}", proof.sources.path(finding.span.file), finding.message))
        .collect();
    for (path, words) in [
        ("a.md", "no plain file"),
        ("b.md", "nothing is where this link leads"),
        ("c.md", "this link leads to no file"),
    ] {
        assert!(
            said.iter()
                .any(|line| line.starts_with(path) && line.contains(words)),
            "{path}: {said:?}"
        );
    }
    press(&host);
}

#[test]
fn a_picture_of_a_kind_that_is_not_shown_is_said() {
    let folder = Memory::new()
        .with("trayside.yaml", "title: T\nzone: UTC\n")
        .with(
            "index.md",
            "# Here\n\n![a plan](plan.svg), [its file](plan.svg) and ![no page](trayside.yaml)\n",
        )
        .with("plan.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\"/>");
    let proof = pipeline::proof(&folder, &Silent).unwrap();
    let said: Vec<(&str, &str)> = proof
        .findings
        .iter()
        .map(|finding| (finding.rule.as_str(), proof.sources.slice(finding.span)))
        .collect();
    assert_eq!(
        said,
        [
            ("picture-unreadable", "plan.svg"),
            ("picture-unreadable", "trayside.yaml")
        ]
    );
}

#[test]
fn a_folder_that_was_taken_away_does_not_come_back() {
    let place = tempfile::tempdir().unwrap();
    let notebook = place.path().join("notebook");
    std::fs::create_dir(&notebook).unwrap();
    let host = Disk::open(&notebook).unwrap();
    let files = [("a/b.txt".to_owned(), Bytes::from(b"x".to_vec()))];
    host.replace_folder("pressed", &files).unwrap();
    std::fs::rename(&notebook, place.path().join("elsewhere")).unwrap();
    assert!(host.replace_folder("pressed", &files).is_err());
    assert!(host.add_file("kept/a.txt", b"x").is_err());
    assert!(!notebook.exists());
}

/// Each press is whole, whoever else presses the same folder.
#[test]
fn two_that_press_one_folder_wait_for_each_other() {
    let place = tempfile::tempdir().unwrap();
    let state = |number: usize| -> Vec<(String, Bytes)> {
        (0..40)
            .map(|at| {
                (
                    format!("{}/{at}.txt", at % 4),
                    Bytes::from(format!("{number}").into_bytes()),
                )
            })
            .collect()
    };
    let (folder, state) = (place.path(), &state);
    std::thread::scope(|scope| {
        for number in 0..2 {
            scope.spawn(move || {
                let host = Disk::open(folder).unwrap();
                for _ in 0..20 {
                    host.replace_folder("out", &state(number)).unwrap();
                }
            });
        }
    });
    let held = on_disk(&place.path().join("out"));
    let first = held.values().next().unwrap();
    assert!(held.len() == 40 && held.values().all(|bytes| bytes == first));
}

#[test]
fn the_new_notebook_has_nothing_above_a_hint_and_presses() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("mine");
    let begun = run(&["begin", folder.to_str().unwrap()], place.path());
    assert!(begun.status.success());
    let proofed = run(&["proof"], &folder);
    let said = String::from_utf8(proofed.stdout).unwrap();
    assert!(proofed.status.success(), "{said}");
    assert!(!said.contains("doubt["), "{said}");
    let pressed = run(&["press"], &folder);
    assert!(
        pressed.status.success(),
        "{}",
        String::from_utf8_lossy(&pressed.stdout)
    );
    assert!(folder.join("pressed/site/index.html").is_file());
    let twice = run(&["begin", folder.to_str().unwrap()], place.path());
    assert_eq!(
        twice.status.code(),
        Some(2),
        "a folder that holds anything is refused"
    );
}

#[test]
fn exit_codes_tell_clean_refused_and_could_not_run() {
    let place = tempfile::tempdir().unwrap();
    std::fs::write(place.path().join("trayside.yaml"), "title: T\n").unwrap();
    assert_eq!(run(&["proof"], place.path()).status.code(), Some(0));
    std::fs::write(place.path().join("a.md"), "[x](#nowhere)\n").unwrap();
    assert_eq!(run(&["proof"], place.path()).status.code(), Some(1));
    assert_eq!(
        run(&["proof", "no-such-folder"], place.path()).status.code(),
        Some(2)
    );
    assert_eq!(run(&["why", "no-such-rule"], place.path()).status.code(), Some(2));
    assert_eq!(run(&["nonsense"], place.path()).status.code(), Some(2));
    assert_eq!(run(&["--help"], place.path()).status.code(), Some(0));
}

#[test]
fn facts_have_the_shape_that_other_programs_read() {
    let host = memory(&demo());
    let proof = pipeline::proof(&host, &Silent).unwrap();
    let text = trayside::facts::render::json(&proof.notebook, &proof.facts, &proof.sources, &|_| true);
    let json: serde_json::Value = serde_json::from_str(&text).unwrap();
    let block = &json["blocks"]["lamp-box"];
    assert_eq!(block["kind"], "camera");
    assert_eq!(block["page"], "cameras.md");
    let fact = &block["facts"]["f-number"];
    for key in ["value", "low", "high"] {
        assert!(fact[key].is_number(), "{key} of {fact}");
    }
    assert_eq!(fact["unit"], "1");
    for block in json["blocks"].as_object().unwrap().values() {
        for (name, fact) in block["facts"].as_object().unwrap() {
            let keys: Vec<&String> = fact.as_object().unwrap().keys().collect();
            if fact["value"].is_null() {
                assert_eq!(keys, ["value", "why"], "{name}");
            } else {
                assert_eq!(keys, ["value", "low", "high", "unit"], "{name}");
            }
        }
    }
}

#[test]
fn the_readme_shows_a_recipe_that_works() {
    let readme = include_str!("../../README.md");
    let fenced = readme
        .split("````markdown\n")
        .nth(1)
        .unwrap()
        .split("````")
        .next()
        .unwrap();
    let host = Memory::new()
        .with("trayside.yaml", "title: Ten lines\n")
        .with("index.md", fenced);
    let proof = pipeline::proof(&host, &Silent).unwrap();
    assert_eq!(proof.findings, []);
    assert!(fenced.trim().lines().count() <= 10);
    assert!(
        Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("book/pictures/card.png")
            .is_file()
    );
}
