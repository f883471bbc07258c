//! Adding one file to a folder: whole or not at all, and never in the place of another.

#![expect(
    clippy::disallowed_methods,
    reason = "this file is a part of the door that the lint points everyone else to"
)]

use std::fs;
use std::io::{ErrorKind, Write as _};
use std::path::Path;

use super::HostError;
use super::disk::failed;

/// Puts a new file into `folder`, written beside its place first; whether it was added, since one that is there stays.
pub(super) fn add(folder: &Path, name: &str, bytes: &[u8]) -> Result<bool, HostError> {
    let to = folder.join(name);
    if fs::symlink_metadata(&to).is_ok() {
        return Ok(false);
    }
    // Of its own for each process: two may press at one time.
    let beside = folder.join(format!(".{name}.{}.new", std::process::id()));
    let written = fs::File::create(&beside).and_then(|mut file| {
        file.write_all(bytes)?;
        file.sync_all()
    });
    if let Err(cause) = written {
        let _ = fs::remove_file(&beside);
        return Err(failed("write", &to)(cause));
    }
    // A link is refused where there is a file, which moving is not; some disks know no links.
    let placed = match fs::hard_link(&beside, &to) {
        Ok(()) => Ok(true),
        Err(error) if error.kind() == ErrorKind::AlreadyExists => Ok(false),
        Err(_) => fs::rename(&beside, &to).map(|()| true),
    };
    let _ = fs::remove_file(&beside);
    placed.map_err(failed("put in place", &to))
}
