//! Sessions over a real folder: what its times tell and what they do not.

use std::fs;

use trayside::host::Disk;
use trayside::pipeline::{SETTINGS, Silent};
use trayside::tend::{Named, Session};

use super::CAMERA;
use crate::support::USUAL;

#[test]
fn changes_of_one_size_within_one_tick_are_seen() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join(SETTINGS), USUAL).unwrap();
    let page = folder.path().join("a.md");
    fs::write(&page, "# Page 0\n").unwrap();
    let disk = Disk::open(folder.path()).unwrap();
    let mut session = Session::new(&disk);
    assert!(session.round(&Named::new(), &Silent).unwrap().is_some());
    for number in 1..9 {
        fs::write(&page, format!("# Page {number}\n")).unwrap();
        let round = session.round(&Named::new(), &Silent).unwrap().unwrap();
        assert_eq!(round.changed, ["a.md"]);
        let site = fs::read_to_string(folder.path().join("pressed/site/a.html")).unwrap();
        assert!(site.contains(&format!("Page {number}")));
        assert!(session.round(&Named::new(), &Silent).unwrap().is_none());
    }
}

#[test]
fn files_put_in_the_place_of_others_are_seen() {
    let folder = tempfile::tempdir().unwrap();
    let at = |path: &str| folder.path().join(path);
    fs::write(at(SETTINGS), USUAL).unwrap();
    fs::create_dir(at("log")).unwrap();
    fs::write(at("log/a.md"), CAMERA).unwrap();
    let disk = Disk::open(folder.path()).unwrap();
    let mut session = Session::new(&disk);
    let mut changed = |named: &[&str]| {
        let named = named.iter().map(|path| (*path).to_owned()).collect();
        session.round(&named, &Silent).unwrap().map(|round| round.changed)
    };
    assert_eq!(changed(&[]), Some(Vec::new()));
    // As editors save: beside it, then in its place.
    fs::write(at("log/.a.md.part"), CAMERA.replace("0.3 mm", "0.4 mm")).unwrap();
    fs::rename(at("log/.a.md.part"), at("log/a.md")).unwrap();
    assert_eq!(changed(&[]).unwrap(), ["log/a.md"]);
    fs::rename(at("log"), at("diary")).unwrap();
    assert_eq!(changed(&["log", "diary"]).unwrap(), ["diary/a.md", "log/a.md"]);
    assert!(at("pressed/site/diary/a.html").is_file() && !at("pressed/site/log").exists());
    // What is pressed, hidden, or an editor's copy is not the notebook.
    fs::write(at("pressed/site/note.md"), "# Not a page\n").unwrap();
    for leftover in [".hidden.md", "diary/a.md~", "#a.md#"] {
        fs::write(at(leftover), "# Not a page\n").unwrap();
    }
    assert_eq!(changed(&["pressed/site/note.md"]), None);
    fs::remove_dir_all(folder.path()).unwrap();
    assert!(session.round(&Named::new(), &Silent).is_err());
}
