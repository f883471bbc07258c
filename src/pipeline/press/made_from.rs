//! What each pressed document was made from, kept beside them: what is not pressed again stays only where that is still the
//! same. A card that is no longer true would be printed.

use std::collections::BTreeMap;

use super::{File, PRESSED};
use crate::host::Host;

/// The file of the record, below [`PRESSED`].
const PATH: &str = "made-from.json";

/// Fingerprints by path.
#[derive(Debug, Default)]
pub(super) struct MadeFrom {
    prints: BTreeMap<String, String>,
}

impl MadeFrom {
    /// The record of the last pressing; empty where there is none that can be read: then nothing is taken over.
    pub(super) fn read(host: &dyn Host) -> Self {
        let bytes = host.read(&format!("{PRESSED}/{PATH}")).unwrap_or_default();
        Self {
            prints: serde_json::from_slice(&bytes).unwrap_or_default(),
        }
    }

    /// Notes what a file was made from.
    pub(super) fn note(&mut self, path: &str, print: &str) {
        self.prints.insert(path.to_owned(), print.to_owned());
    }

    /// The files at these paths, where all of them are there and were made from just this.
    pub(super) fn still_true(&self, host: &dyn Host, paths: &[String], print: &str) -> Option<Vec<File>> {
        let file = |path: &String| {
            let same = self.prints.get(path).is_some_and(|known| known == print);
            let bytes = same.then(|| host.read(&format!("{PRESSED}/{path}")).ok())??;
            Some((path.clone(), bytes))
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
        Some((PATH.to_owned(), bytes))
    }
}
