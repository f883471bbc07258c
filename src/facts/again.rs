//! Facts computed again: which of them a change in the notebook can reach. Where that is not plain, it reaches them all.
//!
//! What each kind is computed from stands in [`Facts::compute`]: of these, only the facts of exposures are many.

use std::collections::{BTreeMap, BTreeSet};

use crate::notebook::{Block, Body, Changes, Exposure, Kind, Notebook};
use crate::source::{ByName, Spanned};

use super::{Facts, Learned, OfBlock};

/// What a change reaches.
#[derive(Debug)]
pub(super) struct Reach<'c> {
    /// None where it reaches everything.
    changes: Option<&'c Changes>,
    /// Whether it is of sheets alone, and of none that a session developed: then no bath, line or session tells of it.
    sheets_alone: bool,
    /// What the log taught before, where no camera or paper changed.
    taught: Option<Taught>,
}

/// What the log taught before, beside what it teaches now.
#[derive(Debug)]
struct Taught {
    before: Learned,
    /// Up to how many exposures each paper's log is the same.
    same_up_to: BTreeMap<String, usize>,
}

impl<'c> Reach<'c> {
    /// A change that reaches everything.
    pub(super) fn everything() -> Self {
        Self {
            changes: None,
            sheets_alone: false,
            taught: None,
        }
    }

    /// The facts before, and what the changes since then reach.
    pub(super) fn of(notebook: &Notebook, before: Option<(Facts, &'c Changes)>) -> (Facts, Self) {
        let (facts, changes) = match before {
            Some((facts, changes)) if !changes.all => (facts, Some(changes)),
            _ => (Facts::default(), None),
        };
        let sheets_alone = changes.is_some_and(|changes| {
            let sheets = [Kind::Exposure, Kind::Print];
            changes.kinds.iter().all(|kind| sheets.contains(kind)) && !is_followed(notebook, &changes.ids)
        });
        let reach = Self {
            changes,
            sheets_alone,
            ..Self::everything()
        };
        (facts, reach)
    }

    /// Whether the baths and their chemistry are as they were, places included.
    pub(super) fn keeps_baths(&self) -> bool {
        let placeless = [Kind::Exposure, Kind::Print, Kind::Camera, Kind::Safelight];
        let stays = |changes: &Changes| changes.moved.iter().all(|kind| placeless.contains(kind));
        self.sheets_alone && self.changes.is_some_and(stays)
    }

    /// Whether no block is another than before.
    pub(super) fn is_nothing(&self) -> bool {
        self.changes.is_some_and(|changes| changes.kinds.is_empty())
    }

    /// Takes away the facts of what changed: it may be gone itself.
    pub(super) fn drop_from(&self, facts: &mut ByName<String, OfBlock>) {
        for id in self.changes.iter().flat_map(|changes| &changes.ids) {
            facts.remove(id);
        }
    }

    /// The exposures that may tell the log something else than before, among other blocks; none where any may.
    pub(super) fn other_exposures(&self) -> Option<&'c BTreeSet<String>> {
        let own = [Kind::Camera, Kind::Paper];
        let same_tools = |changes: &&Changes| own.iter().all(|kind| !changes.kinds.contains(kind));
        self.changes.filter(same_tools).map(|changes| &changes.ids)
    }

    /// Compares what the log taught before with what it teaches now.
    pub(super) fn learn(&mut self, before: Learned, now: &Learned) {
        if self.other_exposures().is_none() {
            return;
        }
        self.taught = now
            .same_up_to(&before)
            .map(|same_up_to| Taught { before, same_up_to });
    }

    /// Whether the facts of a block may be other ones now.
    pub(super) fn reaches(&self, block: &Block, learned: &Learned) -> bool {
        let Some(changes) = self.changes else { return true };
        if changes.kinds.is_empty() {
            return false;
        }
        if changes.ids.contains(&block.id) {
            return true;
        }
        match (&block.body, &self.taught) {
            (Body::Exposure(_), None) | (Body::Paper(_), _) => true,
            (Body::Exposure(exposure), Some(taught)) => !taught.as_before(exposure, learned),
            _ => !self.sheets_alone,
        }
    }
}

impl Taught {
    /// Whether an exposure learns what it learnt before.
    fn as_before(&self, exposure: &Exposure, learned: &Learned) -> bool {
        let Some(paper) = exposure.paper.get().map(|paper| paper.value.as_str()) else {
            return true;
        };
        let moment = exposure.when.get().map(|when| when.value.instant());
        match (
            self.before.size_before(paper, moment),
            learned.size_before(paper, moment),
        ) {
            (None, None) => true,
            (Some(was), Some(is)) => was == is && self.same_up_to.get(paper).is_some_and(|same| is <= *same),
            _ => false,
        }
    }
}

/// Whether a session developed one of these sheets, or a print was made from one.
fn is_followed(notebook: &Notebook, ids: &BTreeSet<String>) -> bool {
    let is_one = |id: &Spanned<String>| ids.contains(&id.value);
    notebook
        .sessions()
        .any(|(_, session)| session.sheets.iter().any(is_one))
        || notebook
            .prints()
            .any(|(_, print)| print.of.get().is_some_and(is_one))
}
