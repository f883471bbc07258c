//! The only door to disk, clock, environment and sockets.
//!
//! Everything else works on values. [`Disk`] is the machine; [`Memory`] is a folder that exists in a test alone.

mod add;
mod clock;
mod disk;
mod memory;
mod replace;
pub mod serve;
pub mod stop;
pub mod watch;

use std::fmt;
use std::io;
use std::sync::Arc;

pub use clock::Stopwatch;
pub use disk::Disk;
pub use memory::Memory;

/// The bytes of a file, shared by all who hold them.
pub type Bytes = Arc<[u8]>;

/// One thing in a folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Listed {
    /// Path from the folder that was listed, with `/` between parts.
    pub path: String,
    /// What it is.
    pub kind: ListedKind,
}

/// What a listed thing is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ListedKind {
    /// A file of so many bytes.
    File {
        /// Its size.
        bytes: u64,
    },
    /// A link to something outside the folder: never followed.
    LinkOutside,
    /// A link that leads to no file, and why: to nothing, round in a circle, or to what is no plain file.
    LinkNowhere(String),
    /// A link to a folder: never followed, since it may lead round in a circle.
    LinkedFolder,
    /// A folder or file that could not be looked at.
    Unreadable(String),
}

/// A failure of the machine, as opposed to a finding about a notebook.
#[derive(Debug)]
pub struct HostError {
    /// What was being done, such as `read`.
    pub doing: &'static str,
    /// To which path.
    pub path: String,
    /// What the machine said.
    pub cause: io::Error,
}

impl fmt::Display for HostError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "could not {} {}: {}", self.doing, self.path, self.cause)
    }
}

impl std::error::Error for HostError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        Some(&self.cause)
    }
}

/// A notebook folder and the machine round it. Paths are relative to the folder, with `/` between parts.
pub trait Host: Sync {
    /// Every file below the folder, sorted by path; hidden ones and `pressed/`, `kept/` and `target/` left out.
    fn list(&self) -> Result<Vec<Listed>, HostError>;

    /// Every file below one of the folders that [`Host::list`] leaves out, sorted by path; none where it is not there.
    fn list_below(&self, folder: &str) -> Result<Vec<Listed>, HostError>;

    /// The bytes of a file within the folder.
    fn read(&self, path: &str) -> Result<Vec<u8>, HostError>;

    /// The same, shared with whoever holds them already.
    fn read_shared(&self, path: &str) -> Result<Bytes, HostError> {
        self.read(path).map(Bytes::from)
    }

    /// The bytes of a file that was put into the folder by [`Host::replace_folder`], where it is there. That is no part of the
    /// notebook.
    fn held(&self, path: &str) -> Option<Vec<u8>> {
        self.read(path).ok()
    }

    /// Whether a file of that name is there, and within the folder.
    fn exists(&self, path: &str) -> bool;

    /// What tells this state of a file from any other without reading it; nothing where that cannot be relied on: the
    /// file is not there, or it changed so lately that another change could bear the same time.
    fn stamp(&self, path: &str) -> Option<Stamp> {
        let _ = path;
        None
    }

    /// Puts `files` in the place of everything under `folder`. Files whose bytes are the same are not touched. A crash at any
    /// point leaves every file whole, as it was before or as it is to be; what it left undone, the next call does.
    fn replace_folder(&self, folder: &str, files: &[(String, Bytes)]) -> Result<Replaced, HostError>;

    /// Adds a file, whole or not at all, with the folders that it stands in. One that is there stays as it is; whether it was
    /// added.
    fn add_file(&self, path: &str, bytes: &[u8]) -> Result<bool, HostError>;
}

/// A file's size, times and number as the disk keeps them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stamp {
    size: u64,
    modified: std::time::SystemTime,
    /// When anything about it changed, in seconds and nanoseconds; zero where the system does not tell.
    changed: (i64, i64),
    /// Device and number; zero where the system does not tell.
    number: (u64, u64),
}

/// What replacing a folder changed.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Replaced {
    /// Files that are new or differ.
    pub written: Vec<String>,
    /// Files that stayed as they were.
    pub kept: usize,
    /// Files that are gone.
    pub removed: Vec<String>,
}

/// Whether a path stays within its folder: relative, no `..`, no drive, no empty part.
pub fn stays_within(path: &str) -> bool {
    !path.is_empty()
        && !path.contains(['\\', '\0'])
        && !path.starts_with('/')
        && path
            .split('/')
            .all(|part| !part.is_empty() && part != ".." && part != ".")
        && !path.split('/').next().is_some_and(|part| part.contains(':'))
}

/// What is never part of a notebook: output, what `kept/` holds, build folders, hidden things, and the copies that editors
/// leave beside a file: `page.md~`, `#page.md#`.
fn is_left_out(name: &str) -> bool {
    let copy = name.ends_with('~') || name.starts_with('#') && name.ends_with('#');
    copy || name.starts_with('.') || matches!(name, "pressed" | "kept" | "target" | "node_modules")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_stay_within() {
        for good in ["a.md", "a/b.md", "a b/ü.png", "..a/b"] {
            assert!(stays_within(good), "{good}");
        }
        for bad in [
            "",
            "/etc/passwd",
            "../a",
            "a/../../b",
            "a//b",
            "C:/x",
            "a\\..\\b",
            "./a",
            "a/.",
        ] {
            assert!(!stays_within(bad), "{bad}");
        }
    }
}
