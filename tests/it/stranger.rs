//! Small notebooks as their writers might write them, in many styles: the sound ones draw no fault, and one slip put into
//! one of them draws one finding at its word.
//!
//! The notebooks stand in `stranger/notebooks.txt`: `##### name` begins one, `=== path` a file of it, and `!!! rule path`
//! a slip: lines with `<` are replaced by lines with `>`, and `⟦` marks where the finding is awaited. `⇥` is a tab, and
//! `crlf` behind a name gives its lines the ends of another system.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use trayside::finding::Grade;
use trayside::host::Memory;

use crate::support::{Seen, check_spans, proofed, seen};

const NOTEBOOKS: &str = include_str!("stranger/notebooks.txt");
const PLACE: char = '⟦';

/// A slip and what is awaited of it.
#[derive(Default)]
struct Slip {
    rule: String,
    path: String,
    from: Vec<String>,
    to: Vec<String>,
}

#[derive(Default)]
struct Notebook {
    name: String,
    crlf: bool,
    files: BTreeMap<String, String>,
    slips: Vec<Slip>,
}

impl Notebook {
    fn folder(&self, changed: Option<(&str, &str)>) -> Memory {
        let mut folder = Memory::new();
        for (path, text) in &self.files {
            let text = changed
                .filter(|(one, _)| one == path)
                .map_or(text.as_str(), |(_, text)| text);
            let text = if self.crlf {
                text.replace('\n', "\r\n")
            } else {
                text.to_owned()
            };
            folder = folder.with(path, text);
        }
        folder
    }

    /// What counts in the notebook, with one file changed; places in files do not shift by more than the slip.
    fn findings(&self, changed: Option<(&str, &str)>) -> Vec<Seen> {
        let proof = proofed(&self.folder(changed));
        check_spans(&proof);
        seen(&proof)
    }
}

fn notebooks() -> Vec<Notebook> {
    let mut all: Vec<Notebook> = Vec::new();
    let mut path = String::new();
    for line in NOTEBOOKS.lines() {
        if let Some(head) = line.strip_prefix("##### ") {
            let (name, more) = head.split_once(' ').unwrap_or((head, ""));
            all.push(Notebook {
                name: name.to_owned(),
                crlf: more == "crlf",
                ..Notebook::default()
            });
        } else if let Some(head) = line.strip_prefix("=== ") {
            head.clone_into(&mut path);
            all.last_mut().unwrap().files.insert(path.clone(), String::new());
        } else if let Some(head) = line.strip_prefix("!!! ") {
            let (rule, path) = head.split_once(' ').unwrap();
            all.last_mut().unwrap().slips.push(Slip {
                rule: rule.to_owned(),
                path: path.to_owned(),
                ..Slip::default()
            });
        } else if let Some(notebook) = all.last_mut() {
            match notebook.slips.last_mut() {
                None => {
                    let file = notebook.files.get_mut(&path).unwrap();
                    writeln!(file, "{line}").unwrap();
                }
                Some(slip) => match line.split_at_checked(2) {
                    Some(("< ", text)) => slip.from.push(text.to_owned()),
                    Some(("> ", text)) => slip.to.push(text.to_owned()),
                    _ => assert!(line.is_empty() || line == ">", "{line}"),
                },
            }
        }
    }
    all
}

#[test]
fn sound_notebooks_draw_no_fault() {
    let mut wrong = String::new();
    for notebook in notebooks() {
        for seen in notebook.findings(None) {
            if matches!(seen.grade, Grade::Hazard | Grade::Fault) {
                writeln!(wrong, "{}: {seen:?}", notebook.name).unwrap();
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

#[test]
fn one_slip_draws_one_finding_at_its_word() {
    let mut wrong = String::new();
    for notebook in notebooks() {
        let sound: Vec<(&str, String)> = notebook
            .findings(None)
            .into_iter()
            .map(|seen| (seen.rule, seen.message))
            .collect();
        for slip in &notebook.slips {
            let (from, to) = (slip.from.join("\n"), slip.to.join("\n"));
            let text = &notebook.files[&slip.path];
            assert_eq!(text.matches(&from).count(), 1, "{}: {from}", notebook.name);
            let marked = text.replacen(&from, &to, 1).replace('⇥', "\t");
            let place = marked.split_once(PLACE).map(|(before, _)| {
                let line = before.matches('\n').count() + 1;
                let column = before.rsplit('\n').next().unwrap_or("").chars().count() + 1;
                (slip.path.clone(), line, column)
            });
            let slipped = marked.replace(PLACE, "");
            let fresh: Vec<Seen> = notebook
                .findings(Some((&slip.path, &slipped)))
                .into_iter()
                .filter(|seen| !sound.contains(&(seen.rule, seen.message.clone())))
                .collect();
            let as_awaited = match fresh.as_slice() {
                [one] => {
                    one.rule == slip.rule
                        && place.as_ref().is_none_or(|(path, line, column)| {
                            *path == one.path && *line == one.line && *column == one.column
                        })
                }
                _ => false,
            };
            if !as_awaited {
                writeln!(
                    wrong,
                    "{}: `{to}` wants {} at {place:?}, got {fresh:#?}",
                    notebook.name, slip.rule
                )
                .unwrap();
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}
