//! The machine's own disk.

#![expect(
    clippy::disallowed_methods,
    reason = "this file is the door that the lint points everyone else to"
)]

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, SystemTime};

use super::add::add;
use super::replace::{Held, replace};
use super::{Bytes, Host, HostError, Listed, ListedKind, Replaced, Stamp, is_left_out, stays_within};

/// A folder on disk.
#[derive(Debug)]
pub struct Disk {
    folder: PathBuf,
    /// What is known to stand in the folders that were replaced.
    held: Mutex<BTreeMap<String, Held>>,
}

impl Disk {
    /// The notebook folder at `folder`, links resolved.
    pub fn open(folder: &Path) -> Result<Self, HostError> {
        let folder = fs::canonicalize(folder).map_err(failed("open", folder))?;
        if !folder.is_dir() {
            return Err(failed("open", &folder)(io::Error::from(
                io::ErrorKind::NotADirectory,
            )));
        }
        Ok(Self {
            folder,
            held: Mutex::default(),
        })
    }

    /// Where it is.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// The nearest folder at or above `start` that holds `trayside.yaml`.
    pub fn nearest_notebook(start: &Path) -> Option<PathBuf> {
        let start = fs::canonicalize(start).ok()?;
        start
            .ancestors()
            .find(|folder| folder.join("trayside.yaml").is_file())
            .map(Path::to_path_buf)
    }

    /// Makes a new folder and puts `files` into it; refuses a folder that holds anything.
    pub fn begin(folder: &Path, files: &[(&str, &str)]) -> Result<(), HostError> {
        fs::create_dir_all(folder).map_err(failed("make", folder))?;
        let mut inside = fs::read_dir(folder).map_err(failed("look into", folder))?;
        if inside.next().is_some() {
            let full = io::Error::new(io::ErrorKind::AlreadyExists, "it is not empty");
            return Err(failed("begin a notebook in", folder)(full));
        }
        for (path, text) in files {
            let path = folder.join(path);
            if let Some(parent) = path.parent() {
                fs::create_dir_all(parent).map_err(failed("make", parent))?;
            }
            fs::write(&path, text).map_err(failed("write", &path))?;
        }
        Ok(())
    }

    /// The machine's current folder.
    pub fn current() -> PathBuf {
        std::env::current_dir().unwrap_or_else(|_| PathBuf::from("."))
    }

    /// Writes one file beside others, whole or not at all.
    pub fn write_file(path: &Path, bytes: &[u8]) -> Result<(), HostError> {
        let temporary = path.with_extension("part");
        fs::write(&temporary, bytes).map_err(failed("write", &temporary))?;
        fs::rename(&temporary, path).map_err(failed("write", path))
    }

    fn full(&self, path: &str) -> Result<PathBuf, HostError> {
        if !stays_within(path) {
            return Err(outside(path));
        }
        let full = self.folder.join(path);
        let real = fs::canonicalize(&full).map_err(failed("read", Path::new(path)))?;
        if real.starts_with(&self.folder) {
            Ok(real)
        } else {
            Err(outside(path))
        }
    }

    fn walk(&self, folder: &Path, below: &str, out: &mut Vec<Listed>) -> Result<(), HostError> {
        let entries = match fs::read_dir(folder) {
            Ok(entries) => entries,
            Err(cause) if below.is_empty() => return Err(failed("look into", folder)(cause)),
            Err(cause) => {
                out.push(Listed {
                    path: below.to_owned(),
                    kind: ListedKind::Unreadable(cause.to_string()),
                });
                return Ok(());
            }
        };
        for entry in entries.flatten() {
            let Some(name) = entry.file_name().to_str().map(str::to_owned) else {
                let path = format!("{below}{}", entry.file_name().to_string_lossy());
                let kind = ListedKind::Unreadable("its name is not Unicode text".to_owned());
                out.push(Listed { path, kind });
                continue;
            };
            if is_left_out(&name) {
                continue;
            }
            let path = format!("{below}{name}");
            let Ok(kind) = entry.file_type() else {
                out.push(Listed {
                    path,
                    kind: ListedKind::Unreadable("it could not be looked at".to_owned()),
                });
                continue;
            };
            if kind.is_dir() {
                self.walk(&entry.path(), &format!("{path}/"), out)?;
            } else if kind.is_symlink() {
                out.push(self.linked(path, &entry.path()));
            } else if kind.is_file() {
                let bytes = entry.metadata().map_or(0, |metadata| metadata.len());
                out.push(Listed {
                    path,
                    kind: ListedKind::File { bytes },
                });
            }
        }
        Ok(())
    }

    fn linked(&self, path: String, at: &Path) -> Listed {
        let kind = match fs::canonicalize(at) {
            Ok(real) if !real.starts_with(&self.folder) => ListedKind::LinkOutside,
            Ok(real) if real.is_dir() => ListedKind::LinkedFolder,
            // Whoever reads from a pipe waits until somebody writes to it.
            Ok(real) => match fs::metadata(real) {
                Ok(metadata) if metadata.is_file() => ListedKind::File {
                    bytes: metadata.len(),
                },
                _ => ListedKind::LinkNowhere(NO_FILE.to_owned()),
            },
            Err(cause) => ListedKind::LinkNowhere(if cause.kind() == io::ErrorKind::NotFound {
                "nothing is where this link leads".to_owned()
            } else {
                format!("this link leads to no file: {cause}")
            }),
        };
        Listed { path, kind }
    }
}

impl Host for Disk {
    fn list(&self) -> Result<Vec<Listed>, HostError> {
        let mut out = Vec::new();
        self.walk(&self.folder, "", &mut out)?;
        out.sort_by(|a, b| a.path.cmp(&b.path));
        Ok(out)
    }

    fn list_below(&self, folder: &str) -> Result<Vec<Listed>, HostError> {
        let (mut out, at) = (Vec::new(), self.folder.join(folder));
        match fs::symlink_metadata(&at) {
            Ok(metadata) if metadata.is_dir() => self.walk(&at, &format!("{folder}/"), &mut out)?,
            Ok(metadata) if metadata.is_symlink() => out.push(self.linked(folder.to_owned(), &at)),
            _ => {}
        }
        out.sort_by(|a, b| a.path.cmp(&b.path));
        Ok(out)
    }

    fn read(&self, path: &str) -> Result<Vec<u8>, HostError> {
        let full = self.full(path)?;
        let metadata = fs::metadata(&full).map_err(failed("read", Path::new(path)))?;
        if !metadata.is_file() && !metadata.is_dir() {
            let cause = io::Error::new(io::ErrorKind::InvalidInput, NO_FILE);
            return Err(failed("read", Path::new(path))(cause));
        }
        fs::read(full).map_err(failed("read", Path::new(path)))
    }

    fn exists(&self, path: &str) -> bool {
        self.full(path).is_ok_and(|full| full.is_file())
    }

    fn stamp(&self, path: &str) -> Option<Stamp> {
        // A link on the way out of the folder is told when the file is read; here only times and sizes are compared.
        if !stays_within(path) {
            return None;
        }
        let metadata = fs::metadata(self.folder.join(path)).ok()?;
        stamp_of(&metadata).filter(|stamp| settled(stamp, SystemTime::now()))
    }

    fn replace_folder(&self, folder: &str, files: &[(String, Bytes)]) -> Result<Replaced, HostError> {
        if !stays_within(folder) || !files.iter().all(|(path, _)| stays_within(path)) {
            return Err(outside(folder));
        }
        let target = self.folder.join(folder);
        if fs::symlink_metadata(&target).is_ok_and(|metadata| metadata.is_symlink()) {
            return Err(outside(folder));
        }
        let fresh = self.folder.join(format!(".{folder}.new"));
        // Another trayside may be pressing here: one waits for the other. A disk that knows no locks goes without.
        let _alone = fs::File::open(&self.folder).and_then(|folder| folder.lock().map(|()| folder));
        let mut held = self.held.lock().unwrap_or_else(PoisonError::into_inner);
        replace(&target, &fresh, files, held.entry(folder.to_owned()).or_default())
    }

    fn add_file(&self, path: &str, bytes: &[u8]) -> Result<bool, HostError> {
        if !stays_within(path) {
            return Err(outside(path));
        }
        let (mut folder, mut name) = (self.folder.clone(), path);
        while let Some((part, rest)) = name.split_once('/') {
            folder.push(part);
            name = rest;
            match fs::symlink_metadata(&folder) {
                Ok(metadata) if metadata.is_symlink() => return Err(outside(path)),
                Ok(_) => {}
                Err(_) => fs::create_dir(&folder).map_err(failed("make", &folder))?,
            }
        }
        add(&folder, name, bytes)
    }
}

/// How long ago a file must have changed for its times to be relied on: the coarsest tick in use, that of FAT, is two
/// seconds (common practice, no source).
const SETTLED: Duration = Duration::from_secs(3);

/// What tells this state of a file from others, once it is [`settled`].
pub(super) fn stamp_of(metadata: &fs::Metadata) -> Option<Stamp> {
    let (changed, number) = more_of(metadata);
    Some(Stamp {
        size: metadata.len(),
        modified: metadata.modified().ok()?,
        changed,
        number,
    })
}

/// Whether a file has been left alone for so long that a further change would bear another time: times on disk are coarse,
/// and two changes within one tick bear the same one.
pub(super) fn settled(stamp: &Stamp, now: SystemTime) -> bool {
    let Ok(seconds) = u64::try_from(stamp.changed.0) else {
        return false;
    };
    let last = stamp
        .modified
        .max(SystemTime::UNIX_EPOCH + Duration::from_secs(seconds));
    now.duration_since(last).is_ok_and(|age| age >= SETTLED)
}

/// When anything about a file changed, and its device and number.
#[cfg(unix)]
fn more_of(metadata: &fs::Metadata) -> ((i64, i64), (u64, u64)) {
    use std::os::unix::fs::MetadataExt;
    (
        (metadata.ctime(), metadata.ctime_nsec()),
        (metadata.dev(), metadata.ino()),
    )
}

#[cfg(not(unix))]
fn more_of(_: &fs::Metadata) -> ((i64, i64), (u64, u64)) {
    ((0, 0), (0, 0))
}

/// Why a pipe or a device is not read.
const NO_FILE: &str = "it is no plain file";

pub(super) fn failed(doing: &'static str, path: &Path) -> impl FnOnce(io::Error) -> HostError + use<> {
    let path = path.display().to_string();
    move |cause| HostError { doing, path, cause }
}

fn outside(path: &str) -> HostError {
    let why = if path.contains('\\') {
        "its name holds a `\\`, which parts folders on some systems: give it another"
    } else if path.contains(':') {
        "its name holds a `:`, which not every system takes: give it another"
    } else {
        "it lies outside the notebook folder"
    };
    let cause = io::Error::new(io::ErrorKind::PermissionDenied, why);
    HostError {
        doing: "reach",
        path: path.to_owned(),
        cause,
    }
}
