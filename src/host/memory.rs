//! A folder that exists in memory alone, for tests.

use std::collections::BTreeMap;
use std::io;
use std::sync::{Mutex, PoisonError};

use super::{Host, HostError, Listed, ListedKind, Replaced, compare, is_left_out, stays_within};

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

    fn replace_folder(&self, folder: &str, files: &[(String, Vec<u8>)]) -> Result<Replaced, HostError> {
        let mut held = self.lock();
        let prefix = format!("{folder}/");
        let old: BTreeMap<String, Vec<u8>> = held
            .iter()
            .filter_map(|(path, bytes)| Some((path.strip_prefix(&prefix)?.to_owned(), bytes.clone())))
            .collect();
        let replaced = compare(&old, files);
        held.retain(|path, _| !path.starts_with(&prefix));
        for (path, bytes) in files {
            held.insert(format!("{prefix}{path}"), bytes.clone());
        }
        Ok(replaced)
    }
}
