//! What a press asked of the folder, and what it was told. A press is a function of these answers: where they are the same,
//! so is everything that is pressed.

use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::io;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, MutexGuard, PoisonError};

use crate::host::{Bytes, Host, HostError, Listed, ListedKind, Replaced, Stamp};

/// Files up to this many bytes are kept, so that they are read once a save; larger ones are pictures, and are not.
const KEPT: usize = 1 << 20;

/// A file as it was read.
#[derive(Debug)]
pub(super) struct Read {
    /// What told this state of it from others, just before it was read.
    pub(super) stamp: Option<Stamp>,
    /// A hash of its bytes; none where it could not be read.
    pub(super) hash: Option<u64>,
    /// Its bytes, where they are few.
    bytes: Option<Bytes>,
    /// Whether a press asked for it since the answers were last tidied.
    asked: AtomicBool,
}

impl Read {
    /// Reads a file.
    pub(super) fn now(host: &dyn Host, path: &str) -> (Self, Result<Vec<u8>, HostError>) {
        // Before reading: if it changes while it is read, the next look sees another stamp.
        let stamp = host.stamp(path);
        let bytes = host.read(path);
        let good = bytes.as_ref().ok();
        let read = Self {
            stamp,
            hash: good.map(|bytes| hash_of(bytes)),
            bytes: good
                .filter(|bytes| bytes.len() <= KEPT)
                .map(|bytes| bytes.as_slice().into()),
            asked: AtomicBool::new(false),
        };
        (read, bytes)
    }

    /// Reads it again; its bytes, and whether they are others.
    pub(super) fn again(&mut self, host: &dyn Host, path: &str) -> (bool, Result<Vec<u8>, HostError>) {
        let (now, bytes) = Self::now(host, path);
        let differs = now.hash != self.hash;
        // It stays as much asked for as it was.
        let asked = AtomicBool::new(*self.asked.get_mut());
        *self = Self { asked, ..now };
        (differs, bytes)
    }

    /// A file that we have just written.
    fn of(bytes: &[u8]) -> Self {
        Self {
            stamp: None,
            hash: Some(hash_of(bytes)),
            bytes: (bytes.len() <= KEPT).then(|| bytes.into()),
            asked: AtomicBool::new(false),
        }
    }

    /// Whether the file is surely as it was, without reading it.
    pub(super) fn holds(&self, host: &dyn Host, path: &str) -> bool {
        self.hash.is_some() && self.stamp.is_some() && self.stamp == host.stamp(path)
    }
}

/// A hash of bytes: the same within one run of the program.
pub(super) fn hash_of(bytes: &[u8]) -> u64 {
    let mut hasher = DefaultHasher::new();
    bytes.hash(&mut hasher);
    hasher.finish()
}

/// Every answer that a press had.
#[derive(Debug, Default)]
pub(super) struct Answers {
    pub(super) listed: Option<Vec<Listed>>,
    /// What stood below each folder that was asked for by name.
    pub(super) below: BTreeMap<String, Vec<Listed>>,
    pub(super) read: BTreeMap<String, Read>,
    pub(super) there: BTreeMap<String, bool>,
}

impl Answers {
    /// Keeps what was asked for alone, with what was newly read or asked.
    pub(super) fn keep(&mut self, noted: Noted) {
        self.read.retain(|_, read| std::mem::take(read.asked.get_mut()));
        self.read.extend(noted.read);
        self.there = noted.there;
        self.below.extend(noted.below);
        // What we have put there ourselves is no news.
        for added in noted.added {
            let folder = added.path.split('/').next().unwrap_or_default();
            let Some(below) = self.below.get_mut(folder) else {
                continue;
            };
            let at = below.partition_point(|thing| thing.path < added.path);
            below.insert(at, added);
        }
    }
}

/// What was asked of a [`Noting`] host.
#[derive(Debug, Default)]
pub(super) struct Noted {
    /// Files that were read.
    read: BTreeMap<String, Read>,
    there: BTreeMap<String, bool>,
    /// Folders whose files were listed.
    below: BTreeMap<String, Vec<Listed>>,
    /// Files that were added.
    added: Vec<Listed>,
}

impl Noted {
    /// Both together.
    pub(super) fn and(mut self, other: Self) -> Self {
        self.read.extend(other.read);
        self.there.extend(other.there);
        self.below.extend(other.below);
        self.added.extend(other.added);
        self
    }
}

/// A host that notes what it is asked, answers from the last look where that is fresh, and keeps what is pressed.
pub(super) struct Noting<'a> {
    host: &'a dyn Host,
    looked: &'a Answers,
    noted: Mutex<Noted>,
    pressed: Mutex<Vec<(String, Bytes)>>,
}

impl<'a> Noting<'a> {
    /// Answers from `looked`, which has just been looked at, else from `host`.
    pub(super) fn new(host: &'a dyn Host, looked: &'a Answers) -> Self {
        Self {
            host,
            looked,
            noted: Mutex::default(),
            pressed: Mutex::default(),
        }
    }

    /// What was asked, and what was pressed.
    pub(super) fn end(self) -> (Noted, Vec<(String, Bytes)>) {
        let noted = self.noted.into_inner().unwrap_or_else(PoisonError::into_inner);
        let pressed = self.pressed.into_inner().unwrap_or_else(PoisonError::into_inner);
        (noted, pressed)
    }

    /// The hash of a file that the last look saw, noted as if it had been read; none where it was not looked at.
    pub(super) fn seen(&self, path: &str) -> Option<u64> {
        let read = self.looked.read.get(path)?;
        let hash = read.hash?;
        read.asked.store(true, Ordering::Relaxed);
        Some(hash)
    }

    /// The hash of a file as it was just read.
    pub(super) fn read_as(&self, path: &str) -> Option<u64> {
        let read = self.note().read.get(path).and_then(|read| read.hash);
        read.or_else(|| self.looked.read.get(path)?.hash)
    }

    /// The bytes of a file that the last look saw, where they were few enough to keep.
    fn kept(&self, path: &str) -> Option<&'a Bytes> {
        let read = self.looked.read.get(path)?;
        let bytes = read.bytes.as_ref()?;
        read.asked.store(true, Ordering::Relaxed);
        Some(bytes)
    }

    fn note(&self) -> MutexGuard<'_, Noted> {
        self.noted.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Host for Noting<'_> {
    fn list(&self) -> Result<Vec<Listed>, HostError> {
        match &self.looked.listed {
            Some(listed) => Ok(listed.clone()),
            None => self.host.list(),
        }
    }

    fn list_below(&self, folder: &str) -> Result<Vec<Listed>, HostError> {
        let below = match self.looked.below.get(folder) {
            Some(below) => below.clone(),
            None => self.host.list_below(folder)?,
        };
        self.note().below.insert(folder.to_owned(), below.clone());
        Ok(below)
    }

    fn read(&self, path: &str) -> Result<Vec<u8>, HostError> {
        if let Some(bytes) = self.kept(path) {
            return Ok(bytes.to_vec());
        }
        let (read, bytes) = Read::now(self.host, path);
        self.note().read.insert(path.to_owned(), read);
        bytes
    }

    fn read_shared(&self, path: &str) -> Result<Bytes, HostError> {
        if let Some(bytes) = self.kept(path) {
            return Ok(Bytes::clone(bytes));
        }
        self.read(path).map(Bytes::from)
    }

    fn held(&self, path: &str) -> Option<Vec<u8>> {
        self.host.held(path)
    }

    fn exists(&self, path: &str) -> bool {
        let there = self.host.exists(path);
        self.note().there.insert(path.to_owned(), there);
        there
    }

    fn stamp(&self, path: &str) -> Option<Stamp> {
        self.host.stamp(path)
    }

    fn replace_folder(&self, folder: &str, files: &[(String, Bytes)]) -> Result<Replaced, HostError> {
        let mut pressed = self.pressed.lock().map_err(|_| HostError {
            doing: "keep",
            path: folder.to_owned(),
            cause: io::Error::other("a press before it broke off"),
        })?;
        *pressed = files.to_vec();
        self.host.replace_folder(folder, files)
    }

    fn add_file(&self, path: &str, bytes: &[u8]) -> Result<bool, HostError> {
        let added = self.host.add_file(path, bytes)?;
        if added {
            let kind = ListedKind::File {
                bytes: bytes.len() as u64,
            };
            let mut noted = self.note();
            noted.added.push(Listed {
                path: path.to_owned(),
                kind,
            });
            noted.read.insert(path.to_owned(), Read::of(bytes));
        }
        Ok(added)
    }
}
