//! Putting files in the place of a folder's: only what differs is written, and each file is whole at any moment.

#![expect(
    clippy::disallowed_methods,
    reason = "this file is a part of the door that the lint points everyone else to"
)]

use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::Path;
use std::time::SystemTime;

use rayon::prelude::*;

use super::disk::{failed, settled, stamp_of};
use super::{Bytes, HostError, Replaced, Stamp};
use crate::source::ByName;

/// What is known to stand in the files of a folder, so that they need not be read again to be compared.
#[derive(Debug, Default)]
pub(super) struct Held {
    files: ByName<String, (Bytes, Stamp)>,
}

/// Replaces what is in `target` by `files`, and tidies what an earlier call may have left in `fresh`, a folder beside it.
pub(super) fn replace(
    target: &Path,
    fresh: &Path,
    files: &[(String, Bytes)],
    held: &mut Held,
) -> Result<Replaced, HostError> {
    if fresh.exists() {
        fs::remove_dir_all(fresh).map_err(failed("clear", fresh))?;
    }
    let old = stamps(target);
    let now = SystemTime::now();
    let known = std::mem::take(&mut held.files);
    let compared: Vec<Compared> = files
        .par_iter()
        .map(|(path, bytes)| {
            let stamp = old.get(path).and_then(Option::as_ref);
            let known = known.get(path);
            compare(target, path, bytes, stamp, known, now)
        })
        .collect();
    let mut replaced = Replaced::default();
    let mut differing = Vec::new();
    for ((path, bytes), compared) in files.iter().zip(compared) {
        match compared {
            Compared::Differs => {
                replaced.written.push(path.clone());
                differing.push((path, bytes));
            }
            Compared::Same(stamp) => {
                replaced.kept += 1;
                if let Some(stamp) = stamp {
                    held.files.insert(path.clone(), (Bytes::clone(bytes), stamp));
                }
            }
        }
    }
    let new: ByName<&str, ()> = files.iter().map(|(path, _)| (path.as_str(), ())).collect();
    replaced.removed = old.picked(|path| new.get(path).is_none()).cloned().collect();
    // All is written beside it first: where the disk is full, nothing has changed.
    let folders = differing.iter().filter_map(|(path, _)| Path::new(path).parent());
    let folders: BTreeSet<&Path> = folders.collect();
    if !folders.is_empty() {
        fs::create_dir(fresh).map_err(failed("make", fresh))?;
    }
    for folder in folders {
        make_below(fresh, folder)?;
    }
    let written: Vec<Result<(), HostError>> = differing
        .par_iter()
        .map(|(path, bytes)| {
            let to = fresh.join(path);
            fs::write(&to, bytes).map_err(failed("write", &to))
        })
        .collect();
    written.into_iter().collect::<Result<(), _>>()?;
    if differing.is_empty() && replaced.removed.is_empty() {
        return Ok(replaced);
    }
    if !target.exists() {
        fs::rename(fresh, target).map_err(failed("put in place", target))?;
        return Ok(replaced);
    }
    // What is to go goes first: a card that must not be printed, or a file whose name a folder now has.
    for path in &replaced.removed {
        let at = target.join(path);
        fs::remove_file(&at).map_err(failed("remove", &at))?;
        for folder in at.ancestors().skip(1).take_while(|folder| *folder != target) {
            // It is only removed where it is empty.
            if fs::remove_dir(folder).is_err() {
                break;
            }
        }
    }
    for (path, _) in &differing {
        let to = target.join(path);
        make_below(target, Path::new(path).parent().unwrap_or(Path::new("")))?;
        if to.is_dir() {
            fs::remove_dir(&to).map_err(failed("clear", &to))?;
        }
        fs::rename(fresh.join(path), &to).map_err(failed("put in place", &to))?;
    }
    if fresh.exists() {
        fs::remove_dir_all(fresh).map_err(failed("clear", fresh))?;
    }
    Ok(replaced)
}

/// Makes a folder and those that it is in, below one that is there. That one is never made: a notebook's folder that was
/// taken away while it is pressed must not come back.
fn make_below(base: &Path, folder: &Path) -> Result<(), HostError> {
    let mut at = base.to_owned();
    for part in folder {
        at.push(part);
        match fs::create_dir(&at) {
            Err(cause) if cause.kind() != io::ErrorKind::AlreadyExists => {
                return Err(failed("make", &at)(cause));
            }
            _ => {}
        }
    }
    Ok(())
}

/// What comes of comparing a file with what it is to be.
enum Compared {
    Differs,
    /// It is so; with the stamp by which that can be told next time, where one can.
    Same(Option<Stamp>),
}

fn compare(
    folder: &Path,
    path: &str,
    bytes: &Bytes,
    stamp: Option<&Stamp>,
    known: Option<&(Bytes, Stamp)>,
    now: SystemTime,
) -> Compared {
    let Some(stamp) = stamp.filter(|stamp| stamp.size == bytes.len() as u64) else {
        return Compared::Differs;
    };
    let same = match known.filter(|(_, known)| known == stamp) {
        Some((known, _)) => Bytes::ptr_eq(known, bytes) || known == bytes,
        None => fs::read(folder.join(path)).is_ok_and(|held| held[..] == bytes[..]),
    };
    if same {
        Compared::Same(settled(stamp, now).then(|| stamp.clone()))
    } else {
        Compared::Differs
    }
}

/// The files below a folder by relative path with their stamps; without one what is there and is no plain file.
fn stamps(folder: &Path) -> ByName<String, Option<Stamp>> {
    fn walk(folder: &Path, below: &str) -> Vec<(String, Option<Stamp>)> {
        let Ok(entries) = fs::read_dir(folder) else {
            return Vec::new();
        };
        let entries: Vec<fs::DirEntry> = entries.flatten().collect();
        let of_entry = |entry: fs::DirEntry| {
            let path = format!("{below}{}", entry.file_name().to_string_lossy());
            match entry.file_type() {
                Ok(kind) if kind.is_dir() => walk(&entry.path(), &format!("{path}/")),
                Ok(kind) => {
                    let metadata = entry.metadata().ok().filter(|_| kind.is_file());
                    vec![(path, metadata.as_ref().and_then(stamp_of))]
                }
                Err(_) => Vec::new(),
            }
        };
        entries.into_par_iter().flat_map_iter(of_entry).collect()
    }
    walk(folder, "").into_iter().collect()
}
