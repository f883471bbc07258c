//! Word of changed files, from the system where it gives one.
//!
//! Linux watches single folders: we watch those that a notebook is read from and no other, so that what is pressed and
//! what a build leaves behind make no noise. Other systems watch whole trees by themselves; there we pass over what is not
//! read. Where the system gives no word, nothing is lost but time: the caller looks by the clock.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::time::Duration;

use notify::{EventKind, RecommendedWatcher, RecursiveMode};
use notify_debouncer_full::{DebounceEventResult, Debouncer, RecommendedCache, new_debouncer};

use super::is_left_out;

/// How long a burst of changes is gathered: an editor's save is several.
const BURST: Duration = Duration::from_millis(50);

/// Whether one watch covers a folder with everything below it.
const WHOLE_TREES: bool = !cfg!(any(target_os = "linux", target_os = "android"));

/// A folder that is watched for changes to what a notebook is read from.
pub struct Watch {
    folder: PathBuf,
    watched: BTreeSet<PathBuf>,
    system: Debouncer<RecommendedWatcher, RecommendedCache>,
}

impl std::fmt::Debug for Watch {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Watch")
            .field("folder", &self.folder)
            .field("watched", &self.watched)
            .finish_non_exhaustive()
    }
}

impl Watch {
    /// Watches `folder`, which has no links in its path. `saved` is told the paths of each burst, from the folder, with
    /// `/` between parts; none where the system lost count or only folders changed. It is called on a thread of its own.
    /// Fails, in the system's words, where the system gives no word of changes.
    pub fn start(folder: &Path, saved: impl Fn(BTreeSet<String>) + Send + 'static) -> Result<Self, String> {
        let root = folder.to_path_buf();
        let told = move |burst: DebounceEventResult| {
            if let Some(paths) = paths(&root, &burst) {
                saved(paths);
            }
        };
        let system = new_debouncer(BURST, None, told).map_err(|error| error.to_string())?;
        let mut watch = Self {
            folder: folder.to_path_buf(),
            watched: BTreeSet::new(),
            system,
        };
        watch.follow()?;
        Ok(watch)
    }

    /// Watches folders that are new and lets go of those that are gone. To be called after every burst and before looking:
    /// what was put into a new folder before is then seen by looking, and what comes after is told.
    pub fn follow(&mut self) -> Result<(), String> {
        if WHOLE_TREES {
            return if self.watched.insert(self.folder.clone()) {
                let watched = self.system.watch(&self.folder, RecursiveMode::Recursive);
                watched.map_err(|error| error.to_string())
            } else {
                Ok(())
            };
        }
        let mut now = BTreeSet::new();
        folders(&self.folder, &mut now);
        // First let go: a folder that moved keeps its watch, and letting go of the old name would take the new one's.
        for gone in self.watched.difference(&now) {
            let _ = self.system.unwatch(gone);
        }
        // All of them again: a folder that was removed and made anew looks the same here and is not watched any more.
        for folder in &now {
            match self.system.watch(folder, RecursiveMode::NonRecursive) {
                Ok(()) => {}
                // Gone again meanwhile, of which there will be word; or closed to us, of which reading makes a finding.
                Err(error) if is_about_the_folder(&error.kind) => {}
                Err(error) => return Err(error.to_string()),
            }
        }
        self.watched = now;
        Ok(())
    }
}

fn is_about_the_folder(kind: &notify::ErrorKind) -> bool {
    use std::io::ErrorKind::{NotADirectory, NotFound, PermissionDenied};
    match kind {
        notify::ErrorKind::PathNotFound | notify::ErrorKind::WatchNotFound => true,
        notify::ErrorKind::Io(error) => matches!(error.kind(), NotFound | NotADirectory | PermissionDenied),
        _ => false,
    }
}

/// Whether a folder is still there.
pub fn is_there(folder: &Path) -> bool {
    folder.is_dir()
}

/// A folder and every one below it that a notebook is read from; linked ones are not.
fn folders(folder: &Path, out: &mut BTreeSet<PathBuf>) {
    out.insert(folder.to_path_buf());
    let Ok(entries) = folder.read_dir() else { return };
    for entry in entries.flatten() {
        let is_folder = entry.file_type().is_ok_and(|kind| kind.is_dir());
        if is_folder && !entry.file_name().to_str().is_some_and(is_left_out) {
            folders(&entry.path(), out);
        }
    }
}

/// The paths of a burst, or nothing where it has nothing to do with the notebook.
fn paths(root: &Path, burst: &DebounceEventResult) -> Option<BTreeSet<String>> {
    let Ok(events) = burst else {
        // Something was lost. What it was, looking will tell.
        return Some(BTreeSet::new());
    };
    let mut matters = false;
    let mut paths = BTreeSet::new();
    for event in events {
        matters |= event.need_rescan();
        // To read a file is an event as well, and we read.
        if matches!(event.kind, EventKind::Access(_)) {
            continue;
        }
        for path in &event.paths {
            if let Some(path) = within(root, path) {
                matters = true;
                paths.insert(path);
            }
        }
    }
    matters.then_some(paths)
}

/// A path from the folder, where the notebook is read from it.
fn within(root: &Path, path: &Path) -> Option<String> {
    let below = path.strip_prefix(root).ok()?;
    let mut parts = Vec::new();
    for part in below.components() {
        let part = part.as_os_str().to_string_lossy();
        if is_left_out(&part) {
            return None;
        }
        parts.push(part.into_owned());
    }
    Some(parts.join("/"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_pressed_is_no_news() {
        let root = Path::new("/notes");
        let seen = |path: &str| within(root, Path::new(path));
        assert_eq!(seen("/notes/log/a.md").as_deref(), Some("log/a.md"));
        assert_eq!(seen("/notes").as_deref(), Some(""));
        for path in [
            "/notes/pressed/site/index.html",
            "/notes/.pressed.new/a",
            "/notes/.git/index",
            "/elsewhere/a.md",
        ] {
            assert_eq!(seen(path), None, "{path}");
        }
    }
}
