//! The same on a disk, where things can be in the way.

use std::fs;
use std::path::Path;
use std::process::Command;

use tempfile::TempDir;
use trayside::host::{Disk, Host};
use trayside::pipeline::PRESSED;

use super::{BATHS, LOG, pressed};
use crate::support::USUAL;

fn folder() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (path, text) in [("trayside.yaml", USUAL), ("baths.md", BATHS), ("log.md", LOG)] {
        fs::write(folder.path().join(path), text).unwrap();
    }
    folder
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap();
    let mut names: Vec<String> = entries
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

#[test]
fn files_are_whole_and_nothing_lies_beside_them() {
    let folder = folder();
    let (_, keeping) = pressed(&Disk::open(folder.path()).unwrap());
    assert_eq!((keeping.batches.len(), &keeping.trouble), (2, &None));
    assert_eq!(names(&folder.path().join("kept")), ["batches", "recipes"]);
    for name in ["batches", "recipes"] {
        let names = names(&folder.path().join("kept").join(name));
        assert_eq!(names.len(), 2, "{names:?}");
        assert!(names.iter().all(|name| !name.starts_with('.')), "{names:?}");
    }
    assert!(pressed(&Disk::open(folder.path()).unwrap()).1.batches.is_empty());
}

#[test]
fn a_file_that_is_there_stays() {
    let folder = folder();
    let disk = Disk::open(folder.path()).unwrap();
    assert!(disk.add_file("kept/a/b.txt", b"one").unwrap());
    assert!(!disk.add_file("kept/a/b.txt", b"two").unwrap());
    assert_eq!(disk.read("kept/a/b.txt").unwrap(), b"one");
    for outside in ["../b.txt", "/b.txt", "kept/../../b.txt"] {
        assert!(disk.add_file(outside, b"").is_err(), "{outside}");
    }
}

#[test]
fn where_nothing_can_be_kept_pressing_goes_on() {
    let folder = folder();
    fs::write(folder.path().join("kept"), "a file of that name").unwrap();
    let (_, keeping) = pressed(&Disk::open(folder.path()).unwrap());
    assert!(keeping.batches.is_empty());
    assert!(keeping.trouble.unwrap().contains("kept"));
    assert!(folder.path().join(PRESSED).join("site/index.html").exists());
}

#[cfg(unix)]
#[test]
fn a_link_is_not_followed_out_of_the_folder() {
    let (folder, elsewhere) = (folder(), tempfile::tempdir().unwrap());
    std::os::unix::fs::symlink(elsewhere.path(), folder.path().join("kept")).unwrap();
    let (proof, keeping) = pressed(&Disk::open(folder.path()).unwrap());
    assert!(keeping.trouble.is_some());
    assert_eq!(names(elsewhere.path()), [""; 0]);
    let told = proof
        .findings
        .iter()
        .any(|one| one.rule.as_str() == "link-outside");
    assert!(told || keeping.trouble.is_some());
}

#[test]
fn a_press_says_what_it_kept_and_how_to_undo_it() {
    let folder = folder();
    let said = |arguments: &[&str]| {
        let output = Command::new(env!("CARGO_BIN_EXE_trayside"))
            .args(arguments)
            .current_dir(folder.path())
            .output()
            .unwrap();
        String::from_utf8(output.stdout).unwrap()
    };
    for reads in [["proof"].as_slice(), &["facts"], &["mix", "sage-tea"]] {
        said(reads);
        assert!(!folder.path().join("kept").exists(), "{reads:?}");
    }
    let told = said(&["press"]);
    let lines: Vec<&str> = told.lines().filter(|line| line.starts_with("kept ")).collect();
    assert_eq!(lines.len(), 2, "{told}");
    let (what, path) = lines[0].split_once("; to undo, delete ").unwrap();
    assert_eq!(what, "kept sage-tea as it is now, by which tea-may was mixed");
    assert!(folder.path().join(path).is_file());
    assert!(!said(&["press"]).contains("kept/"));
}
