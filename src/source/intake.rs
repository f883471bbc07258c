//! Files taken in one after the other, each with the number that it had in an earlier reading, where it can keep that.
//!
//! What was read of a page names places by its file's number. A page more or less must not change the numbers of all that
//! follow it, or all of them would have to be read again.

use std::ops::Deref;
use std::sync::Arc;

use super::files::STEP;
use super::{ByName, FileId, SourceFile, Sources};

/// How far from the file before it a new one is numbered at the most, where another follows: such as come after it, each
/// behind the last, are to find room as well.
const STRIDE: u32 = 16;

/// Takes files in. Numbers rise from file to file, whatever files there were before.
#[derive(Debug, Default)]
pub struct Intake<'b> {
    sources: Sources,
    before: ByName<&'b str, (FileId, &'b SourceFile)>,
    /// The numbers of the earlier reading, rising.
    numbers: Vec<FileId>,
}

impl<'b> Intake<'b> {
    /// An intake after an earlier reading.
    pub fn after(before: &'b Sources) -> Self {
        Self {
            sources: Sources::default(),
            before: before
                .iter()
                .map(|(id, file)| (file.path(), (id, file)))
                .collect(),
            numbers: before.iter().map(|(id, _)| id).collect(),
        }
    }

    /// The text that a file had in the earlier reading.
    pub fn before(&self, path: &str) -> Option<&'b Arc<str>> {
        self.before.get(path).map(|(_, file)| file.text())
    }

    /// Takes a file in, as [`Sources::add`] does.
    pub fn add(&mut self, path: impl Into<String>, text: impl Into<Arc<str>>) -> FileId {
        let path = path.into();
        let id = self.number(&path);
        self.sources.add_as(id, path, text.into());
        id
    }

    /// The files that were taken in.
    pub fn done(self) -> Sources {
        self.sources
    }

    /// The number that the file had, where those before it leave it that; else one between theirs and those that follow, as
    /// long as there is one.
    fn number(&self, path: &str) -> FileId {
        let Some(last) = self.sources.last() else {
            return self.before.get(path).map_or(FileId(0), |(id, _)| *id);
        };
        if let Some((id, _)) = self.before.get(path).filter(|(id, _)| *id > last) {
            return *id;
        }
        let after = self.numbers.partition_point(|id| *id <= last);
        let step = self.numbers.get(after).map_or(STEP, |next| {
            let room = next.0 - last.0;
            (room / 2).clamp(1, STRIDE)
        });
        FileId(last.0.saturating_add(step))
    }
}

impl Deref for Intake<'_> {
    type Target = Sources;
    fn deref(&self) -> &Sources {
        &self.sources
    }
}

#[cfg(test)]
mod tests {
    use std::collections::{BTreeMap, BTreeSet};

    use proptest::prelude::*;

    use super::*;

    fn taken(before: &Sources, paths: &BTreeSet<String>) -> Sources {
        let mut intake = Intake::after(before);
        for path in paths {
            intake.add(path.clone(), path.as_str());
        }
        intake.done()
    }

    fn numbers(sources: &Sources) -> BTreeMap<String, FileId> {
        let numbers = sources.iter().map(|(id, file)| (file.path().to_owned(), id));
        numbers.collect()
    }

    fn pages(of: impl IntoIterator<Item = u32>) -> BTreeSet<String> {
        of.into_iter().map(|number| format!("{number:05}.md")).collect()
    }

    #[test]
    fn a_page_more_or_less_leaves_the_others_their_numbers() {
        let mut paths = pages((0..200).map(|number| number * 10));
        let first = taken(&Sources::default(), &paths);
        for other in [5, 995, 1991, 1992] {
            let path = format!("{other:05}.md");
            paths.insert(path.clone());
            let more = taken(&first, &paths);
            let mut kept = numbers(&more);
            kept.remove(&path);
            assert_eq!(kept, numbers(&first), "{path}");
            paths.remove(&path);
            assert_eq!(numbers(&taken(&more, &paths)), numbers(&first), "{path}");
        }
    }

    #[test]
    fn a_month_of_pages_in_one_place_moves_nothing() {
        let mut paths = pages([0, 500, 501]);
        let mut sources = taken(&Sources::default(), &paths);
        let first = numbers(&sources);
        // Each after the one before it.
        for number in 100..140 {
            paths.insert(format!("{number:05}.md"));
            sources = taken(&sources, &paths);
        }
        for (path, id) in first {
            assert_eq!(numbers(&sources)[&path], id, "{path}");
        }
    }

    proptest! {
        #[test]
        fn numbers_rise_and_lead_to_their_files(steps in prop::collection::vec(prop::collection::btree_set(0_u32..60, 0..60), 1..40)) {
            let mut sources = Sources::default();
            for step in steps {
                let paths = pages(step);
                sources = taken(&sources, &paths);
                let ids: Vec<FileId> = sources.iter().map(|(id, _)| id).collect();
                prop_assert!(ids.is_sorted_by(|one, next| one < next));
                for (id, path) in ids.iter().zip(&paths) {
                    prop_assert_eq!(sources.path(*id), path);
                }
                for id in ids {
                    for beside in [id.0.wrapping_sub(1), id.0 + 1] {
                        let beside = FileId(beside);
                        let there = sources.iter().any(|(id, _)| id == beside);
                        prop_assert_eq!(sources.get(beside).is_some(), there);
                    }
                }
            }
        }
    }
}
