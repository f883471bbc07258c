//! What each pressed document was made from, kept beside them: one stays as it is where that is still the same, and where
//! the file is still the one that was written. A card that is no longer true would be printed.

use std::collections::BTreeMap;

use super::{File, PRESSED};
use crate::host::Host;
use crate::source::Fingerprint;

/// The file of the record, below [`PRESSED`].
const PATH: &str = "made-from.json";

/// By path, the fingerprints of what a file was made from and of what stands in it.
#[derive(Debug, Default)]
pub(super) struct MadeFrom {
    prints: BTreeMap<String, [String; 2]>,
}

impl MadeFrom {
    /// The record of the last pressing; empty where there is none that can be read: then nothing is taken over.
    pub(super) fn read(host: &dyn Host) -> Self {
        let bytes = host.held(&format!("{PRESSED}/{PATH}")).unwrap_or_default();
        Self {
            prints: serde_json::from_slice(&bytes).unwrap_or_default(),
        }
    }

    /// Notes what a file was made from.
    pub(super) fn note(&mut self, (path, bytes): &File, print: &str) {
        let prints = [print.to_owned(), print_of(bytes)];
        self.prints.insert(path.clone(), prints);
    }

    /// The files at these paths, where all of them are there and were made from just this.
    pub(super) fn still_true(&self, host: &dyn Host, paths: &[String], print: &str) -> Option<Vec<File>> {
        let file = |path: &String| {
            let [from, holds] = self.prints.get(path)?;
            let same = !print.is_empty() && from == print;
            let bytes = same.then(|| host.held(&format!("{PRESSED}/{path}")))??;
            (print_of(&bytes) == *holds).then(|| (path.clone(), bytes.into()))
        };
        paths.iter().map(file).collect()
    }

    /// The record as a file; none where nothing was noted.
    pub(super) fn file(&self) -> Option<File> {
        if self.prints.is_empty() {
            return None;
        }
        let mut bytes = serde_json::to_vec_pretty(&self.prints).ok()?;
        bytes.push(b'\n');
        Some((PATH.to_owned(), bytes.into()))
    }
}

fn print_of(bytes: &[u8]) -> String {
    Fingerprint::of([bytes]).to_string()
}
