//! Five hundred edits, renames and deletions: after each, what tend pressed is what a press from scratch gives, and nothing
//! was computed or written where nothing differed.

use std::collections::BTreeMap;
use std::io;
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, Ordering};

use trayside::finding::render::json_lines;
use trayside::host::{Bytes, Host, HostError, Listed, Memory, Replaced};
use trayside::pipeline::{PRESSED, SETTINGS, Silent, press, proof};
use trayside::tend::{Named, Round, Session};

use super::{BROKEN, CAMERA, picture, small};
use crate::support::USUAL;

pub(super) type Files = BTreeMap<String, Vec<u8>>;

/// A folder that counts what is read from it and can refuse to be written to.
#[derive(Default)]
struct Watched {
    folder: Memory,
    refuses: AtomicBool,
    read: Mutex<BTreeMap<String, usize>>,
}

impl Host for Watched {
    fn list(&self) -> Result<Vec<Listed>, HostError> {
        self.folder.list()
    }

    fn read(&self, path: &str) -> Result<Vec<u8>, HostError> {
        *self.read.lock().unwrap().entry(path.to_owned()).or_default() += 1;
        self.folder.read(path)
    }

    fn exists(&self, path: &str) -> bool {
        self.folder.exists(path)
    }

    fn replace_folder(&self, folder: &str, files: &[(String, Bytes)]) -> Result<Replaced, HostError> {
        if self.refuses.load(Ordering::Relaxed) {
            return Err(HostError {
                doing: "write",
                path: folder.to_owned(),
                cause: io::Error::from(io::ErrorKind::StorageFull),
            });
        }
        self.folder.replace_folder(folder, files)
    }

    fn list_below(&self, folder: &str) -> Result<Vec<Listed>, HostError> {
        self.folder.list_below(folder)
    }

    fn add_file(&self, path: &str, bytes: &[u8]) -> Result<bool, HostError> {
        self.folder.add_file(path, bytes)
    }
}

/// The notebook, and what was pressed from it.
pub(super) fn halves(folder: &Memory) -> (Files, Files) {
    let (pressed, notebook) = folder
        .files()
        .into_iter()
        .partition(|(path, _)| path.starts_with(&format!("{PRESSED}/")));
    (notebook, pressed)
}

/// A press from scratch: what it puts on disk, and what it says.
pub(super) fn from_scratch(notebook: &Files) -> (Files, String) {
    let fresh = Memory::new();
    for (path, bytes) in notebook {
        fresh.put(path, bytes.clone());
    }
    let proof = proof(&fresh, &Silent).unwrap();
    let pressing = press(&fresh, &proof, &Silent).unwrap();
    let said = json_lines(&proof.findings, &proof.sources) + &json_lines(&pressing.findings, &proof.sources);
    (halves(&fresh).1, said)
}

/// Asserts that what a round pressed and said is what a press from scratch did before it.
pub(super) fn assert_as_from_scratch(pressed: &Files, round: &Round, scratch: &(Files, String), what: &str) {
    let (expected, said) = scratch;
    for (at, bytes) in expected {
        assert!(pressed.get(at) == Some(bytes), "{what}, and gives another {at}");
    }
    assert_eq!(pressed.len(), expected.len(), "{what}");
    let sources = &round.proof.sources;
    let now = json_lines(&round.proof.findings, sources) + &json_lines(&round.pressing.findings, sources);
    assert_eq!(now, *said, "{what}");
}

/// The generator of Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8 (2003), with the shifts 13, 7, 17.
pub(super) struct Dice(u64);

impl Dice {
    pub(super) fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub(super) fn below(&mut self, sides: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as usize % sides
    }

    fn pick<'t>(&mut self, from: &[&'t str]) -> &'t str {
        from[self.below(from.len())]
    }
}

const PATHS: [&str; 7] = [
    "index.md",
    "cameras.md",
    "log/one.md",
    "log/two.md",
    "log/index.md",
    "b/c/d.md",
    "Ü b.md",
];

const PICTURES: [&str; 3] = ["log/a.png", "log/b.jpg", "c.tif"];

const TEXTS: [&str; 9] = [
    CAMERA,
    BROKEN,
    "",
    "# One\n\n![a sheet](a.png) and {{ tea-tin.f-number }}\n",
    "---\naudience: private\n---\n# Secret\n\n{{ tea-tin.nothing }}\n",
    "---\ntitle: [\n---\n# Broken head\n",
    "# Paper\n\n```paper\ntitle: Old stock\nspeed: ISO 6\n```\n\n![b](log/b.jpg) ![c](c.tif)\n",
    "# A sheet\n\n```exposure\nid: pier\nwhen: 2031-05-02 11:20\ncamera: tea-tin\npaper: old-stock\nlight: EV 12.5\n\
     scan: log/a.png\n```\n",
    "# Open\n\n```camera\ntitle: Tea tin\n",
];

/// One thing that happens to a notebook.
fn happens(folder: &Memory, dice: &mut Dice) -> String {
    let path = dice.pick(&PATHS);
    match dice.below(12) {
        0..=3 => {
            let text = dice.pick(&TEXTS);
            folder.put(path, text);
            path.to_owned()
        }
        4 => {
            let mut bytes = folder.read(path).unwrap_or_default();
            bytes.extend_from_slice(format!("\nRain {}.\n", dice.below(9)).as_bytes());
            folder.put(path, bytes);
            path.to_owned()
        }
        5 => {
            folder.remove(path);
            path.to_owned()
        }
        6 => {
            let to = dice.pick(&PATHS);
            if let Ok(bytes) = folder.read(path) {
                folder.remove(path);
                folder.put(to, bytes);
            }
            to.to_owned()
        }
        7 => {
            // Saved without a change.
            if let Ok(bytes) = folder.read(path) {
                folder.put(path, bytes);
            }
            path.to_owned()
        }
        8 => {
            let path = dice.pick(&PICTURES);
            match dice.below(5) {
                0 => {
                    folder.remove(path);
                }
                1 => folder.put(path, "no picture"),
                number => folder.put(path, picture(number as u8 * 20)),
            }
            path.to_owned()
        }
        9 => {
            let settings = ["", "title: Another\n", "title: [\n", "language: de\n"];
            let more = dice.pick(&settings);
            folder.put(
                SETTINGS,
                format!("{}{more}", USUAL.replace("title: The usual notebook\n", "")),
            );
            SETTINGS.to_owned()
        }
        10 => {
            let path = dice.pick(&["templates/site/slip.html", "templates/site/style.css"]);
            match dice.below(3) {
                0 => folder.put(path, "{{ nothing }} { "),
                1 => folder.put(path, "p { margin: 0 }"),
                _ => {
                    folder.remove(path);
                }
            }
            path.to_owned()
        }
        _ => {
            folder.put("shopping.txt", vec![b'x'; dice.below(3)]);
            "shopping.txt".to_owned()
        }
    }
}

#[test]
fn five_hundred_changes() {
    let host = Watched {
        folder: small(),
        ..Watched::default()
    };
    let mut session = Session::new(&host);
    let mut dice = Dice(20_310_502);
    let (mut idle, mut worked, mut refused) = (0, 0, 0);
    let mut before: Option<Files> = None;
    for step in 0..500 {
        let path = if step == 0 {
            String::new()
        } else {
            happens(&host.folder, &mut dice)
        };
        // Half of the time the system says what changed, half of the time it only says that something did.
        let named: Named = (dice.below(2) == 0).then(|| path.clone()).into_iter().collect();
        host.refuses.store(dice.below(10) == 0, Ordering::Relaxed);
        host.read.lock().unwrap().clear();
        let (notebook, was) = halves(&host.folder);
        let (expected, said) = from_scratch(&notebook);
        let round = session.round(&named, &Silent);
        let (_, is) = halves(&host.folder);
        match round {
            Err(_) => {
                refused += 1;
                assert!(session.owes() && was == is, "step {step}");
                // What failed is done by the next round, though nothing changed since.
                host.refuses.store(false, Ordering::Relaxed);
                assert!(
                    session.round(&Named::new(), &Silent).unwrap().is_some(),
                    "step {step}"
                );
                assert!(halves(&host.folder).1 == expected, "step {step}: {path}");
            }
            Ok(None) => {
                idle += 1;
                assert!(is == expected, "step {step}: {path} was passed over");
            }
            Ok(Some(round)) => {
                worked += 1;
                assert!(before.as_ref() != Some(&notebook), "step {step}: nothing changed");
                assert!(is == expected, "step {step}: {path}");
                let sources = &round.proof.sources;
                let now = json_lines(&round.proof.findings, sources)
                    + &json_lines(&round.pressing.findings, sources);
                assert_eq!(now, said, "step {step}: {path}");
                // Written is what differs, and nothing else.
                let site = |files: &Files, path: &str| files.get(&format!("{PRESSED}/{path}")).cloned();
                let replaced = &round.pressing.replaced;
                for written in &replaced.written {
                    assert_ne!(site(&was, written), site(&is, written), "step {step}: {written}");
                }
                assert_eq!(replaced.kept + replaced.written.len(), is.len(), "step {step}");
                // Whatever was looked at is not read a second time to be pressed.
                let read = host.read.lock().unwrap();
                let twice: Vec<_> = read.iter().filter(|(_, times)| **times > 1).collect();
                assert!(twice.is_empty(), "step {step}: {twice:?} read twice");
            }
        }
        before = Some(notebook);
    }
    // The dice must not have passed a case by.
    assert!(
        idle > 30 && worked > 200 && refused > 10,
        "{idle} idle, {worked} worked, {refused} refused"
    );
}

#[test]
fn nothing_is_done_where_nothing_changed() {
    let host = small();
    let mut session = Session::new(&host);
    assert!(session.round(&Named::new(), &Silent).unwrap().is_some());
    host.put("log/one.md", "# One\n\nRain.\n");
    let named = Named::from(["log/one.md".to_owned(), "gone.md".to_owned()]);
    assert!(session.round(&named, &Silent).unwrap().is_none());
    host.put("log/one.md", "# One\n\nSnow.\n");
    let round = session.round(&Named::new(), &Silent).unwrap().unwrap();
    assert_eq!(round.changed, ["log/one.md"]);
    assert_eq!(
        round.pressing.replaced.written,
        [
            "site/kept.json",
            "site/log/one.html",
            "site/search/p-0.js",
            "site/search/w-r-.js",
            "site/search/w-s-.js",
            "site/worker.js"
        ]
    );
}
