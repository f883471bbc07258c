//! Files that are no pages: other encodings, too large, not there, or hostile.

use std::time::Duration;

use trayside::finding::render::{self, TextStyle};
use trayside::host::{Bytes, Host, HostError, Listed, ListedKind, Memory, Replaced};
use trayside::pipeline::{SETTINGS, Silent, proof};

use crate::support::{Seen, USUAL, check_spans, now, proofed, seen};

const PAGE: &str = "Été\n\n```paper\nid: one\nbase: RC\nnote: at 20–24 °C\n```\n";

fn of_bytes(bytes: impl Into<Vec<u8>>) -> Vec<Seen> {
    let started = now();
    let proof = proofed(&Memory::new().with(SETTINGS, USUAL).with("page.md", bytes));
    check_spans(&proof);
    assert!(started.elapsed() < Duration::from_secs(20), "it took too long");
    seen(&proof)
}

fn places(found: &[Seen]) -> Vec<(&str, &str, usize, usize)> {
    found
        .iter()
        .map(|one| (one.rule, one.path.as_str(), one.line, one.column))
        .collect()
}

#[test]
fn other_encodings_are_one_finding() {
    let latin: Vec<u8> = PAGE
        .chars()
        .map(|c| match c {
            '–' => 0x96,
            c => u8::try_from(u32::from(c)).unwrap(),
        })
        .collect();
    assert_eq!(places(&of_bytes(latin)), [("not-utf8", "page.md", 1, 1)]);
    let amounts = b"```paper\nid: one\nbase: RC\nthickness: 0.2 \xb1 0.1 mm\nsize: 5\xd77 in\n```\n";
    assert_eq!(places(&of_bytes(*amounts)), [("not-utf8", "page.md", 4, 16)]);
    for big in [false, true] {
        let units = std::iter::once(0xfeff).chain(PAGE.encode_utf16());
        let bytes: Vec<u8> = units
            .flat_map(|unit| {
                if big {
                    unit.to_be_bytes()
                } else {
                    unit.to_le_bytes()
                }
            })
            .collect();
        assert_eq!(places(&of_bytes(bytes)), [("not-utf8", "page.md", 1, 1)]);
        let bare: Vec<u8> = PAGE
            .encode_utf16()
            .flat_map(|unit| {
                if big {
                    unit.to_be_bytes()
                } else {
                    unit.to_le_bytes()
                }
            })
            .collect();
        assert_eq!(of_bytes(bare).len(), 1);
    }
    assert_eq!(of_bytes([0xff; 3]).len(), 1);
    assert_eq!(of_bytes(*b"\xff\xfe\x00").len(), 1);
    let marked = format!("\u{feff}{PAGE}");
    assert_eq!(of_bytes(marked), []);
    let mut after_mark = b"\xef\xbb\xbfab".to_vec();
    after_mark.push(0xe9);
    assert_eq!(places(&of_bytes(after_mark)), [("not-utf8", "page.md", 1, 3)]);
}

#[test]
fn zero_bytes_are_one_finding() {
    assert_eq!(places(&of_bytes("ab\0c\n")), [("not-utf8", "page.md", 1, 3)]);
    let inside = PAGE.replace("RC", "R\0C");
    assert_eq!(places(&of_bytes(inside)), [("not-utf8", "page.md", 5, 8)]);
    let key = PAGE.replace("note", "no\0te");
    assert_eq!(places(&of_bytes(key)), [("not-utf8", "page.md", 6, 3)]);
    assert_eq!(of_bytes(vec![0; 100_000]).len(), 1);
}

#[test]
fn a_page_too_large_is_one_finding_and_takes_no_other_page_along() {
    let shot = "```exposure\nid: shot\nwhen: 2031-05-02 12:00\ncamera: box\npaper: one\nlight: EV 12\ntime: 9 s\n```\n\n{{ box.f-number }}\n";
    let large = "one line of nothing much\n".repeat(9_000_000 / 25 + 1);
    let folder = Memory::new()
        .with(SETTINGS, USUAL)
        .with("large.md", large)
        .with("page.md", PAGE)
        .with("shot.md", shot);
    let found = seen(&proofed(&folder));
    assert_eq!(places(&found), [("page-too-large", "large.md", 1, 1)]);
}

#[test]
fn a_folder_without_settings_is_one_finding() {
    let dated = "```paper\nid: one\nbase: RC\nopened: 2031-05-02\n```\n";
    let found = seen(&proofed(&Memory::new().with("page.md", dated)));
    assert_eq!(places(&found), [("no-settings", SETTINGS, 1, 1)]);
    let found = seen(&proofed(&Memory::new()));
    assert_eq!(places(&found), [("no-settings", SETTINGS, 1, 1)]);
}

#[test]
fn empty_settings_lack_their_title() {
    for empty in ["", "\n", "# nothing yet\n", "\u{feff}"] {
        let found = seen(&proofed(
            &Memory::new().with(SETTINGS, empty).with("page.md", "Hi.\n"),
        ));
        assert_eq!(places(&found), [("key-missing", SETTINGS, 1, 1)], "{empty:?}");
    }
}

/// A folder whose things are of odd kinds.
struct Odd(Memory, Vec<Listed>);

impl Host for Odd {
    fn list(&self) -> Result<Vec<Listed>, HostError> {
        let mut all = self.0.list()?;
        all.extend(self.1.iter().cloned());
        all.sort_by(|a, b| a.path.cmp(&b.path));
        Ok(all)
    }
    fn read(&self, path: &str) -> Result<Vec<u8>, HostError> {
        self.0.read(path)
    }
    fn exists(&self, path: &str) -> bool {
        self.0.exists(path)
    }
    fn replace_folder(&self, folder: &str, files: &[(String, Bytes)]) -> Result<Replaced, HostError> {
        self.0.replace_folder(folder, files)
    }

    fn list_below(&self, folder: &str) -> Result<Vec<Listed>, HostError> {
        self.0.list_below(folder)
    }

    fn add_file(&self, path: &str, bytes: &[u8]) -> Result<bool, HostError> {
        self.0.add_file(path, bytes)
    }
}

#[test]
fn what_cannot_be_opened_is_told_once() {
    let odd = |path: &str, kind| Listed {
        path: path.to_owned(),
        kind,
    };
    let folder = Odd(
        Memory::new().with(SETTINGS, USUAL),
        vec![
            odd("away.md", ListedKind::LinkOutside),
            odd("gone.md", ListedKind::File { bytes: 10 }),
            odd("locked", ListedKind::Unreadable("permission denied".to_owned())),
            odd("round", ListedKind::LinkedFolder),
            odd("shut.md", ListedKind::Unreadable("permission denied".to_owned())),
        ],
    );
    let proof = proof(&folder, &Silent).unwrap();
    check_spans(&proof);
    let found = seen(&proof);
    assert_eq!(
        places(&found),
        [
            ("link-outside", "away.md", 1, 1),
            ("file-unreadable", "gone.md", 1, 1),
            ("file-unreadable", "shut.md", 1, 1),
            ("file-unreadable", "locked", 1, 1),
            ("link-outside", "round", 1, 1),
        ]
    );
}

#[test]
fn bombs_are_refused_at_once() {
    use std::fmt::Write as _;
    let mut laughs = String::from("```paper\nid: one\nbase: RC\na: &a [lol, lol]\n");
    for (at, name) in ('b'..='z').enumerate() {
        let before = char::from(b'a' + at as u8);
        let _ = writeln!(laughs, "{name}: &{name} [*{before}, *{before}, *{before}]");
    }
    laughs.push_str("```\n");
    let found = of_bytes(laughs);
    assert!(found.iter().any(|one| one.rule == "yaml-anchor"));
    assert_eq!(found.iter().filter(|one| one.rule == "yaml-anchor").count(), 1);
    for open in ["[", "{a: ", "- ", "? "] {
        let deep = format!(
            "```paper\nid: one\nbase: RC\ntags: {}\n```\n",
            open.repeat(100_000)
        );
        assert!(!of_bytes(deep).is_empty());
    }
    let keys: String = (0..20_000).fold(String::new(), |mut keys, at| {
        let _ = writeln!(keys, "k{at}: 1");
        keys
    });
    of_bytes(format!("```paper\n{keys}```\n"));
    of_bytes("> ".repeat(20_000) + "x\n");
    of_bytes("[".repeat(50_000));
    of_bytes("{{ ".repeat(50_000));
    of_bytes("- ".repeat(5_000) + "x\n");
    of_bytes("*a_ ".repeat(50_000));
    of_bytes("```paper\n".repeat(3_000));
    of_bytes("# a\n".repeat(20_000));
}

#[test]
fn html_is_prose() {
    assert_eq!(
        of_bytes("<script>alert(1)</script>\n\n<b>x</b> <img src=x onerror=y>\n"),
        []
    );
    assert_eq!(of_bytes("<!-- {{ no.fact }} -->\n"), []);
    assert_eq!(of_bytes(format!("<div>\n\n{PAGE}\n</div>\n")), []);
}

#[test]
fn findings_as_json_have_their_settled_shape() {
    let page = "Été ½\n\n```paper\nid: one\nbase: «RCC»\nbase: RC\n```\n".replace(['«', '»'], "");
    let proof = proofed(&Memory::new().with(SETTINGS, USUAL).with("page.md", page));
    let text = render::json_lines(&proof.findings, &proof.sources);
    let lines: Vec<serde_json::Value> = text
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    assert_eq!(lines.len(), 3);
    assert_eq!(
        lines[2],
        serde_json::json!({"summary": {"hazard": 0, "fault": 2, "doubt": 0, "hint": 0}})
    );
    let keys: Vec<&str> = lines[0].as_object().unwrap().keys().map(String::as_str).collect();
    assert_eq!(
        keys,
        [
            "rule",
            "grade",
            "message",
            "path",
            "line",
            "column",
            "end_line",
            "end_column",
            "help",
            "related"
        ]
    );
    assert_eq!(lines[0]["rule"], "word-unknown");
    assert_eq!(lines[0]["grade"], "fault");
    assert_eq!(lines[0]["path"], "page.md");
    for (key, value) in [("line", 5), ("column", 7), ("end_line", 5), ("end_column", 10)] {
        assert_eq!(lines[0][key], value, "{key}");
    }
    let related =
        serde_json::json!([{"path": "page.md", "line": 5, "column": 1, "message": "first written here"}]);
    assert_eq!(lines[1]["related"], related);
}

/// A link that leads nowhere for want of a sign or a letter's case is answered with what is to be written on that page.
#[test]
fn a_mistaken_link_is_answered_as_it_is_written_there() {
    let written = [
        ("[a](../Papers.md)", "../papers.md"),
        ("[a](<../per%20cent.md>)", "../per%2520cent.md"),
        ("[a](../hash#tag.md)", "../hash%23tag.md"),
        ("![a](../Scan.PNG)", "../scan.png"),
    ];
    for (link, right) in written {
        let host = Memory::new()
            .with(SETTINGS, USUAL)
            .with("papers.md", "# Papers\n")
            .with("per%20cent.md", "# Per cent\n")
            .with("hash#tag.md", "# Hash\n")
            .with("scan.png", "")
            .with("log/one.md", format!("# One\n\n{link}\n"));
        let found = proofed(&host).findings;
        let help = found.iter().find_map(|finding| finding.help.as_deref());
        assert_eq!(help, Some(format!("did you mean `{right}`?").as_str()), "{link}");
        // And so written it is right.
        let (before, _) = link.split_once('(').unwrap();
        let mended = format!("# One\n\n{before}({right})\n");
        host.put("log/one.md", mended);
        let left = proofed(&host).findings;
        let links = left
            .iter()
            .filter(|finding| finding.rule.as_str() != "picture-unreadable");
        assert_eq!(links.count(), 0, "{right}");
    }
}

/// A name may hold what a terminal obeys; it is printed without.
#[test]
fn the_name_of_a_file_moves_no_terminal() {
    let host = Memory::new()
        .with(SETTINGS, USUAL)
        .with("a\u{1b}[31m\nred.md", "# Red\n\n[gone](gone.md)\n");
    let proof = proofed(&host);
    let style = TextStyle {
        colours: false,
        width: 80,
    };
    let text = render::text(&proof.findings, &proof.sources, style);
    assert!(text.contains("a\u{fffd}[31m\u{fffd}red.md:3:8"), "{text}");
    assert!(!text.contains('\u{1b}'), "{text}");
}
