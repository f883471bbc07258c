//! A folder that exists in memory alone, for tests.

use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::sync::{Mutex, PoisonError};

use super::{Bytes, Host, HostError, Listed, ListedKind, Replaced, is_left_out, stays_within};

/// Files by path.
#[derive(Debug, Default)]
pub struct Memory {
    files: Mutex<BTreeMap<String, Vec<u8>>>,
}

impl Memory {
    /// An empty folder.
    pub fn new() -> Self {
        Self::default()
    }

    /// The same folder with one more file.
    #[must_use]
    pub fn with(self, path: &str, text: impl Into<Vec<u8>>) -> Self {
        self.put(path, text);
        self
    }

    /// Adds or overwrites a file.
    pub fn put(&self, path: &str, text: impl Into<Vec<u8>>) {
        self.lock().insert(path.to_owned(), text.into());
    }

    /// Takes a file away; whether there was one.
    pub fn remove(&self, path: &str) -> bool {
        self.lock().remove(path).is_some()
    }

    /// Everything it holds, what was pressed included.
    pub fn files(&self) -> BTreeMap<String, Vec<u8>> {
        self.lock().clone()
    }

    fn lock(&self) -> std::sync::MutexGuard<'_, BTreeMap<String, Vec<u8>>> {
        self.files.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Host for Memory {
    fn list(&self) -> Result<Vec<Listed>, HostError> {
        let files = self.lock();
        let kept = files.iter().filter(|(path, _)| !path.split('/').any(is_left_out));
        Ok(kept
            .map(|(path, bytes)| Listed {
                path: path.clone(),
                kind: ListedKind::File {
                    bytes: bytes.len() as u64,
                },
            })
            .collect())
    }

    fn list_below(&self, folder: &str) -> Result<Vec<Listed>, HostError> {
        let prefix = format!("{folder}/");
        let files = self.lock();
        let below = files
            .range(prefix.clone()..)
            .take_while(|(path, _)| path.starts_with(&prefix));
        Ok(below
            .map(|(path, bytes)| Listed {
                path: path.clone(),
                kind: ListedKind::File {
                    bytes: bytes.len() as u64,
                },
            })
            .collect())
    }

    fn read(&self, path: &str) -> Result<Vec<u8>, HostError> {
        let missing = || HostError {
            doing: "read",
            path: path.to_owned(),
            cause: io::Error::from(io::ErrorKind::NotFound),
        };
        self.lock().get(path).cloned().ok_or_else(missing)
    }

    fn exists(&self, path: &str) -> bool {
        stays_within(path) && self.lock().contains_key(path)
    }

    fn replace_folder(&self, folder: &str, files: &[(String, Bytes)]) -> Result<Replaced, HostError> {
        let mut held = self.lock();
        let prefix = format!("{folder}/");
        let old: BTreeMap<String, Vec<u8>> = held
            .extract_if(prefix.clone().., |path, _| path.starts_with(&prefix))
            .collect();
        let mut replaced = Replaced::default();
        let mut new = BTreeSet::new();
        for (path, bytes) in files {
            let full = format!("{prefix}{path}");
            if old.get(&full).is_some_and(|old| old[..] == bytes[..]) {
                replaced.kept += 1;
            } else {
                replaced.written.push(path.clone());
            }
            held.insert(full.clone(), bytes.to_vec());
            new.insert(full);
        }
        let gone = old.keys().filter(|path| !new.contains(*path));
        replaced.removed = gone
            .filter_map(|path| path.strip_prefix(&prefix).map(str::to_owned))
            .collect();
        replaced.written.sort();
        Ok(replaced)
    }

    fn add_file(&self, path: &str, bytes: &[u8]) -> Result<bool, HostError> {
        let mut files = self.lock();
        if files.contains_key(path) {
            return Ok(false);
        }
        files.insert(path.to_owned(), bytes.to_vec());
        Ok(true)
    }
}
