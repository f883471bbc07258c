//! Figures that the log teaches of a paper, where not all of the sheets that it was learnt from may be shown.

use std::collections::BTreeSet;

use crate::notebook::{Block, Body};

use super::learn::Learned;

/// The papers of which the log knows something that it has from a sheet that is not shown.
#[derive(Debug, Default)]
pub struct KeptBack {
    papers: BTreeSet<String>,
}

impl KeptBack {
    /// By what was learnt, and which ids are shown. Sheets that were judged and teach nothing count: it is told why they do
    /// not.
    pub fn of(learned: &Learned, shown: &dyn Fn(&str) -> bool) -> Self {
        let papers = learned.teachers().filter(|(_, sheet)| !shown(sheet));
        Self {
            papers: papers.map(|(paper, _)| paper.to_owned()).collect(),
        }
    }

    /// Whether a fact of a block is one of those: a paper's speed from the log, and the time of a sheet that was computed, with
    /// what leads to it.
    pub fn holds(&self, block: &Block, fact: &str) -> bool {
        match &block.body {
            Body::Paper(_) => fact == "from-log" && self.papers.contains(&block.id),
            Body::Exposure(sheet) => {
                let paper = || sheet.paper.get().map(|paper| &paper.value);
                matches!(fact, "time" | "time-metered" | "stops-lost")
                    && sheet.time.is_absent()
                    && paper().is_some_and(|id| self.papers.contains(id))
            }
            _ => false,
        }
    }
}
