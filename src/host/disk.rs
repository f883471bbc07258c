//! The machine's own disk.

#![expect(
    clippy::disallowed_methods,
    reason = "this file is the door that the lint points everyone else to"
)]

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use super::{Host, HostError, Listed, ListedKind, Replaced, Stamp, is_left_out, stays_within};

/// A folder on disk.
#[derive(Debug, Clone)]
pub struct Disk {
    folder: PathBuf,
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
        Ok(Self { folder })
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
            Ok(real) => ListedKind::File {
                bytes: fs::metadata(real).map_or(0, |metadata| metadata.len()),
            },
            Err(_) => ListedKind::LinkOutside,
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

    fn read(&self, path: &str) -> Result<Vec<u8>, HostError> {
        fs::read(self.full(path)?).map_err(failed("read", Path::new(path)))
    }

    fn exists(&self, path: &str) -> bool {
        self.full(path).is_ok_and(|full| full.is_file())
    }

    fn stamp(&self, path: &str) -> Option<Stamp> {
        let metadata = fs::metadata(self.full(path).ok()?).ok()?;
        let modified = metadata.modified().ok()?;
        let (changed, number) = more_of(&metadata);
        let seconds = u64::try_from(changed.0).ok()?;
        let last = modified.max(SystemTime::UNIX_EPOCH + Duration::from_secs(seconds));
        // Times on disk are coarse: two changes within one tick bear the same one.
        let age = SystemTime::now().duration_since(last).ok()?;
        (age >= SETTLED).then_some(Stamp {
            size: metadata.len(),
            modified,
            changed,
            number,
        })
    }

    fn replace_folder(&self, folder: &str, files: &[(String, Vec<u8>)]) -> Result<Replaced, HostError> {
        if !stays_within(folder) || !files.iter().all(|(path, _)| stays_within(path)) {
            return Err(outside(folder));
        }
        let target = self.folder.join(folder);
        if fs::symlink_metadata(&target).is_ok_and(|metadata| metadata.is_symlink()) {
            return Err(outside(folder));
        }
        let fresh = self.folder.join(format!(".{folder}.new"));
        let retired = self.folder.join(format!(".{folder}.old"));
        recover(&target, &fresh, &retired)?;
        let old = held_files(&target);
        let replaced = changes(&target, &old, files);
        if replaced.written.is_empty() && replaced.removed.is_empty() {
            return Ok(replaced);
        }
        let written: std::collections::BTreeSet<&str> = replaced.written.iter().map(String::as_str).collect();
        for (path, bytes) in files {
            let to = fresh.join(path);
            if let Some(parent) = to.parent() {
                fs::create_dir_all(parent).map_err(failed("make", parent))?;
            }
            // What did not change is taken over by a second name for the same bytes, where the disk can do that.
            let taken_over =
                !written.contains(path.as_str()) && fs::hard_link(target.join(path), &to).is_ok();
            if !taken_over {
                fs::write(&to, bytes).map_err(failed("write", &to))?;
            }
        }
        if target.exists() {
            fs::rename(&target, &retired).map_err(failed("set aside", &target))?;
        }
        if let Err(cause) = fs::rename(&fresh, &target) {
            // Put back what was there: the last good output is worth more than a half-done change.
            let _ = fs::rename(&retired, &target);
            return Err(failed("replace", &target)(cause));
        }
        if retired.exists() {
            fs::remove_dir_all(&retired).map_err(failed("clear", &retired))?;
        }
        Ok(replaced)
    }
}

/// How long ago a file must have changed for its times to be relied on: the coarsest tick in use, that of FAT, is two
/// seconds (common practice, no source).
const SETTLED: Duration = Duration::from_secs(3);

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

/// Clears what a crash may have left: a half-written folder is dropped, one that was set aside is put back.
fn recover(target: &Path, fresh: &Path, retired: &Path) -> Result<(), HostError> {
    if fresh.exists() {
        fs::remove_dir_all(fresh).map_err(failed("clear", fresh))?;
    }
    if retired.exists() {
        if target.exists() {
            fs::remove_dir_all(retired).map_err(failed("clear", retired))?;
        } else {
            fs::rename(retired, target).map_err(failed("put back", target))?;
        }
    }
    Ok(())
}

/// The files below a folder by relative path, with their sizes.
fn held_files(folder: &Path) -> BTreeMap<String, u64> {
    fn walk(folder: &Path, below: &str, out: &mut BTreeMap<String, u64>) {
        let Ok(entries) = fs::read_dir(folder) else { return };
        for entry in entries.flatten() {
            let path = format!("{below}{}", entry.file_name().to_string_lossy());
            match entry.file_type() {
                Ok(kind) if kind.is_dir() => walk(&entry.path(), &format!("{path}/"), out),
                Ok(_) => {
                    out.insert(path, entry.metadata().map_or(0, |metadata| metadata.len()));
                }
                Err(_) => {}
            }
        }
    }
    let mut out = BTreeMap::new();
    walk(folder, "", &mut out);
    out
}

fn changes(target: &Path, old: &BTreeMap<String, u64>, files: &[(String, Vec<u8>)]) -> Replaced {
    let mut replaced = Replaced::default();
    let mut new = std::collections::BTreeSet::new();
    for (path, bytes) in files {
        new.insert(path.as_str());
        let same = old.get(path) == Some(&(bytes.len() as u64))
            && fs::read(target.join(path)).is_ok_and(|held| held == *bytes);
        if same {
            replaced.kept += 1;
        } else {
            replaced.written.push(path.clone());
        }
    }
    replaced.removed = old
        .keys()
        .filter(|path| !new.contains(path.as_str()))
        .cloned()
        .collect();
    replaced
}

fn failed(doing: &'static str, path: &Path) -> impl FnOnce(io::Error) -> HostError + use<> {
    let path = path.display().to_string();
    move |cause| HostError { doing, path, cause }
}

fn outside(path: &str) -> HostError {
    let cause = io::Error::new(
        io::ErrorKind::PermissionDenied,
        "it lies outside the notebook folder",
    );
    HostError {
        doing: "reach",
        path: path.to_owned(),
        cause,
    }
}
