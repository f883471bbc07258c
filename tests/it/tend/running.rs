//! The whole of it, over a real folder, until it is stopped.

use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::mpsc::{self, Receiver, Sender};
use std::thread;
use std::time::Duration;

use trayside::finding::Finding;
use trayside::host::{Disk, HostError};
use trayside::pipeline::{Progress, SETTINGS, Silent};
use trayside::tend::{Options, Round, Signal, Teller, run};

use super::{BROKEN, CAMERA};
use crate::kept::{BATHS, LOG};
use crate::support::USUAL;

/// Long enough for the slowest machine; nothing waits that long.
const PATIENCE: Duration = Duration::from_mins(1);

#[derive(Debug)]
enum Told {
    Pressed { changed: Vec<String>, new: Vec<String> },
    Address(String),
    Trouble(String),
}

struct Ear(Sender<Told>);

impl Teller for Ear {
    fn begins(&mut self) {}

    fn progress(&self) -> &dyn Progress {
        &Silent
    }

    fn pressed(&mut self, round: &Round, new: &[Finding]) {
        let _ = self.0.send(Told::Pressed {
            changed: round.changed.clone(),
            new: new
                .iter()
                .map(|finding| finding.rule.as_str().to_owned())
                .collect(),
        });
    }

    fn address(&mut self, address: &str) {
        let _ = self.0.send(Told::Address(address.to_owned()));
    }

    fn trouble(&mut self, what: &str) {
        let _ = self.0.send(Told::Trouble(what.to_owned()));
    }

    fn rests(&mut self) {}
}

/// Tends a small notebook while `meanwhile` happens to it; what came of the tending.
fn tended(
    poll: bool,
    meanwhile: impl FnOnce(&Path, &Receiver<Told>, &Sender<Signal>),
) -> Result<(), HostError> {
    let parent = tempfile::tempdir().unwrap();
    let folder = parent.path().join("notes");
    fs::create_dir(&folder).unwrap();
    fs::write(folder.join(SETTINGS), USUAL).unwrap();
    fs::write(folder.join("cameras.md"), CAMERA).unwrap();
    let disk = Disk::open(&folder).unwrap();
    let (sender, signals) = mpsc::channel();
    let (tell, told) = mpsc::channel();
    let options = Options { port: Some(0), poll };
    thread::scope(|scope| {
        let ours = sender.clone();
        let tending = scope.spawn(move || run(&disk, options, &ours, &signals, &mut Ear(tell)));
        meanwhile(&folder, &told, &sender);
        let _ = sender.send(Signal::Stop);
        tending.join().unwrap()
    })
}

/// Waits until a round names `path` among what changed; the rules that were new meanwhile.
fn until(told: &Receiver<Told>, path: &str) -> Vec<String> {
    let mut all = Vec::new();
    loop {
        match told.recv_timeout(PATIENCE).unwrap() {
            Told::Pressed { changed, new } => {
                all.extend(new);
                if changed.iter().any(|one| one == path) {
                    return all;
                }
            }
            Told::Address(_) => {}
            Told::Trouble(what) => panic!("{what}"),
        }
    }
}

fn address(told: &Receiver<Told>) -> String {
    loop {
        if let Told::Address(address) = told.recv_timeout(PATIENCE).unwrap() {
            return address;
        }
    }
}

fn edited(poll: bool) {
    let ended = tended(poll, |folder, told, _| {
        let address = address(told);
        let at = |path: &str| folder.join(path);
        let pressed = |path: &str| fs::read_to_string(at("pressed/site").join(path)).unwrap();
        fs::write(at("cameras.md"), CAMERA.replace("# Cameras", "# Boxes")).unwrap();
        until(told, "cameras.md");
        assert!(pressed("cameras.html").contains("Boxes"));
        // As editors save: beside it, then in its place.
        fs::write(at("cameras.md.part"), BROKEN).unwrap();
        fs::rename(at("cameras.md.part"), at("cameras.md")).unwrap();
        let new = until(told, "cameras.md");
        assert!(new.iter().any(|rule| rule == "unit-unknown"), "{new:?}");
        // A new folder, a page in it, and the folder moved.
        fs::create_dir_all(at("log/may")).unwrap();
        fs::write(at("log/may/one.md"), "# One\n").unwrap();
        until(told, "log/may/one.md");
        fs::rename(at("log"), at("diary")).unwrap();
        until(told, "diary/may/one.md");
        fs::write(at("diary/may/one.md"), "# One, in the diary\n").unwrap();
        until(told, "diary/may/one.md");
        assert!(pressed("diary/may/one.html").contains("in the diary"));
        // A folder removed and made anew is still watched.
        fs::remove_dir_all(at("diary")).unwrap();
        fs::create_dir_all(at("diary/may")).unwrap();
        fs::write(at("diary/may/two.md"), "# Two\n").unwrap();
        until(told, "diary/may/two.md");
        fs::write(at("diary/may/two.md"), "# Two again\n").unwrap();
        until(told, "diary/may/two.md");

        let host = address.trim_start_matches("http://").trim_end_matches('/');
        let mut stream = TcpStream::connect(host).unwrap();
        write!(
            stream,
            "GET /cameras.html HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n"
        )
        .unwrap();
        let mut page = String::new();
        stream.read_to_string(&mut page).unwrap();
        assert!(page.contains("tend-stale") && page.contains("Boxes"), "{page}");
    });
    ended.unwrap();
}

#[test]
fn every_save_is_pressed() {
    edited(false);
}

#[test]
fn every_save_is_pressed_where_the_system_tells_nothing() {
    edited(true);
}

#[test]
fn a_folder_that_goes_away_ends_it() {
    let ended = tended(false, |folder, told, _| {
        address(told);
        fs::rename(folder, folder.with_file_name("elsewhere")).unwrap();
        // It ends by itself: whatever is told until then, the ear is closed at last.
        while told.recv_timeout(PATIENCE).is_ok() {}
    });
    let why = ended.unwrap_err().to_string();
    assert!(why.contains("the folder is gone"), "{why}");
}

#[test]
fn a_press_that_fails_is_tried_again() {
    let ended = tended(false, |folder, told, _| {
        address(told);
        // What is pressed must not be a link: where it is one, nothing is written.
        fs::remove_dir_all(folder.join("pressed")).unwrap();
        let elsewhere = folder.with_file_name("elsewhere");
        fs::create_dir(&elsewhere).unwrap();
        #[cfg(unix)]
        std::os::unix::fs::symlink(&elsewhere, folder.join("pressed")).unwrap();
        #[cfg(not(unix))]
        return;
        fs::write(folder.join("cameras.md"), CAMERA.replace("Tea", "Oat")).unwrap();
        assert!(matches!(told.recv_timeout(PATIENCE).unwrap(), Told::Trouble(_)));
        fs::remove_file(folder.join("pressed")).unwrap();
        assert!(matches!(
            told.recv_timeout(PATIENCE).unwrap(),
            Told::Pressed { .. }
        ));
        assert!(folder.join("pressed/site/cameras.html").is_file());
    });
    ended.unwrap();
}

#[test]
fn what_cannot_be_kept_is_said_once() {
    let folder = tempfile::tempdir().unwrap();
    let page = folder.path().join("cameras.md");
    for (name, text) in [
        (SETTINGS, USUAL),
        ("cameras.md", CAMERA),
        ("baths.md", BATHS),
        ("log.md", LOG),
        ("kept", "a file of that name"),
    ] {
        fs::write(folder.path().join(name), text).unwrap();
    }
    let mut child = Command::new(env!("CARGO_BIN_EXE_trayside"))
        .arg("tend")
        .arg(folder.path())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap())
        .lines()
        .map(Result::unwrap);
    // Up to a line that begins so; how often it was said that something is not kept.
    let mut told_until = |begins: &str| {
        let mut count = 0;
        for line in &mut lines {
            count += usize::from(line.contains("are not kept"));
            if line.starts_with(begins) {
                return count;
            }
        }
        panic!("it ended");
    };
    let before = told_until("http://127.0.0.1:");
    fs::write(&page, CAMERA.replace("# Cameras", "# Boxes")).unwrap();
    told_until("cameras.md: ");
    fs::write(&page, CAMERA.replace("# Cameras", "# Tins")).unwrap();
    // What belongs to the save before comes before the line of this one.
    let after = told_until("cameras.md: ");
    child.kill().unwrap();
    child.wait().unwrap();
    assert_eq!((before, after), (1, 0));
}

#[cfg(unix)]
#[test]
fn an_interrupt_stops_it_and_a_second_one_takes_another_port() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join(SETTINGS), USUAL).unwrap();
    fs::write(folder.path().join("cameras.md"), CAMERA).unwrap();
    let start = || {
        let mut child = Command::new(env!("CARGO_BIN_EXE_trayside"))
            .arg("tend")
            .arg(folder.path())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let lines = BufReader::new(child.stdout.take().unwrap()).lines();
        let address = lines
            .map(Result::unwrap)
            .find(|line| line.starts_with("http://127.0.0.1:"));
        (child, address.unwrap())
    };
    let (mut first, one) = start();
    let (mut second, two) = start();
    assert_ne!(one, two);
    for child in [&mut first, &mut second] {
        let sent = Command::new("kill")
            .args(["-INT", &child.id().to_string()])
            .status();
        assert!(sent.unwrap().success());
        assert_eq!(child.wait().unwrap().code(), Some(0));
    }
}
