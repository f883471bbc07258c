//! Documents that were typeset before: where the same goes into one, and it stands on disk as it was written, it is taken over.

use std::collections::BTreeMap;
use std::sync::Arc;

use rayon::prelude::*;
use serde_json::{Value, json};

use super::Proof;
use super::press::{File, PRESSED, latest_date};
use crate::host::Host;
use crate::press::{Known, Press, Pressed};
use crate::source::Digest;

/// The list of what was typeset, beside it.
const LIST: &str = "typeset.json";

/// What a press typesets, beside what was typeset before.
#[derive(Debug, Default)]
pub(super) struct Documents {
    known: Arc<Known>,
    /// What stands in this press, for the next.
    now: Known,
    /// Each file with what it was made from and a digest of its bytes.
    list: BTreeMap<String, (Digest, Digest)>,
}

impl Documents {
    /// Documents by what an earlier press in this process made, else by what stands on disk.
    pub(super) fn of(host: &dyn Host, before: Option<Known>) -> Self {
        Self {
            known: Arc::new(before.unwrap_or_else(|| on_disk(host))),
            ..Self::default()
        }
    }

    /// The press with the notebook's templates and date.
    pub(super) fn press(&self, proof: &Proof) -> Press {
        let press = Press::new()
            .with_templates(&proof.templates)
            .knowing(Arc::clone(&self.known));
        match latest_date(proof) {
            Some((year, month, day)) => press.dated(year, month, day),
            None => press,
        }
    }

    /// Takes in a document without fault, and its picture in red light where that has a path.
    pub(super) fn add(&mut self, pressed: Pressed, path: String, red: Option<String>, files: &mut Vec<File>) {
        let mut add = |path: String, bytes: &[u8]| {
            if let Some(from) = pressed.made_from {
                self.list.insert(path.clone(), (from, Digest::of(bytes)));
            }
            files.push((path, bytes.into()));
        };
        add(path, &pressed.pdf);
        if let Some(red) = red {
            add(red, &pressed.red);
        }
        if let Some(from) = pressed.made_from {
            self.now.insert(from, pressed);
        }
    }

    /// Adds the list, and gives what the next press may take over.
    pub(super) fn end(self, files: &mut Vec<File>) -> Known {
        if !self.list.is_empty() {
            let list: BTreeMap<&String, Value> = self
                .list
                .iter()
                .map(|(path, (from, holds))| {
                    (path, json!({"from": from.to_string(), "holds": holds.to_string()}))
                })
                .collect();
            let text = serde_json::to_string_pretty(&json!({ "files": list })).unwrap_or_default() + "\n";
            files.push((LIST.to_owned(), text.into_bytes().into()));
        }
        self.now
    }
}

/// What the list on disk tells of, where the files still are what it says.
fn on_disk(host: &dyn Host) -> Known {
    let list = host.held(&format!("{PRESSED}/{LIST}")).unwrap_or_default();
    let list: Value = serde_json::from_slice(&list).unwrap_or_default();
    let Some(listed) = list.get("files").and_then(Value::as_object) else {
        return Known::new();
    };
    let listed: Vec<(&String, &Value)> = listed.iter().collect();
    let held: Vec<Option<(Digest, bool, Vec<u8>)>> = listed
        .par_iter()
        .map(|(path, entry)| {
            let digest = |key: &str| Digest::from_text(entry.get(key)?.as_str()?);
            let (from, holds) = (digest("from")?, digest("holds")?);
            let bytes = host.held(&format!("{PRESSED}/{path}"))?;
            (Digest::of(&bytes) == holds).then(|| (from, path.ends_with(".png"), bytes))
        })
        .collect();
    let mut known = Known::new();
    let mut lost = Vec::new();
    for ((_, entry), held) in listed.iter().zip(held) {
        let Some((from, is_red, bytes)) = held else {
            lost.extend(entry.get("from").and_then(Value::as_str).and_then(Digest::from_text));
            continue;
        };
        let pressed = known.entry(from).or_insert_with(|| Pressed {
            made_from: Some(from),
            ..Pressed::default()
        });
        *(if is_red { &mut pressed.red } else { &mut pressed.pdf }) = bytes;
    }
    // A document of which one file is gone or was changed is made again as a whole.
    known.retain(|from, pressed| !lost.contains(from) && !pressed.pdf.is_empty());
    known
}
